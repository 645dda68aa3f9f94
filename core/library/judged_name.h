/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The names by which cautions speak of a judged cut. */
#ifndef BITE_LIBRARY_JUDGED_NAME_H
#define BITE_LIBRARY_JUDGED_NAME_H

#include "core/tables/field_value.h"
#include <coolbite/coolbite.h>
#include <stdbool.h>
#include <stddef.h>

/** Whether a judged cut has a number of this name: an input, a value, a figure of the grade, or a
 * part of a limit (LIMIT.demand ...). figures: the fields of a table; may be NULL. *kind: its kind;
 * not defined if there is none. */
bool bite_judged_number(const char *name, const bite_field *figures, size_t count, bite_kind *kind);

/** Whether it has a word of this name. *input: the input; NULL: grade, family or machine, whose
 * values are names. */
bool bite_judged_word(const char *name, const bite_input **input);

#endif
