/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Outputs: what each computed value is, by which equation, and from which source. */
#ifndef BITE_NAMES_OUTPUTS_H
#define BITE_NAMES_OUTPUTS_H

#include "core/names/definition.h"
#include <coolbite/coolbite.h>

/** By bite_value_id. */
extern const bite_definition bite_output_table[BITE_VALUE_COUNT];

#endif
