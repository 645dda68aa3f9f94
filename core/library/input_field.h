/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An input as a key of a table. */
#ifndef BITE_LIBRARY_INPUT_FIELD_H
#define BITE_LIBRARY_INPUT_FIELD_H

#include "core/base/memory.h"
#include "core/tables/field_value.h"
#include <coolbite/coolbite.h>
#include <stdbool.h>

/** The key of an input: a figure with its range, or a word. False: no memory. */
bool bite_input_field(bite_arena *arena, const bite_input *input, bite_field *field);

#endif
