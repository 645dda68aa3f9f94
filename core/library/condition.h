/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Conditions of cautions, checked and compiled when a table is read.
 *
 *   condition  = all {"or" all}
 *   all        = comparison {"and" comparison}
 *   comparison = product ("above" | "below" | "at least" | "at most") product
 *              | WORD ("is" | "is not") VALUE {"or" VALUE}
 *   product    = factor {("*" | "/") factor}
 *   factor     = NAME | NUMBER | QUANTITY
 *
 * Blanks separate everything; there are no brackets, so nothing nests and reading takes one pass.
 */
#ifndef BITE_LIBRARY_CONDITION_H
#define BITE_LIBRARY_CONDITION_H

#include "core/base/memory.h"
#include "core/library/case_view.h"
#include "core/tables/field_value.h"
#include <coolbite/coolbite.h>
#include <stdbool.h>

typedef struct bite_condition bite_condition;

/** Compiles a condition; "" is always true. *condition: in the arena. BITE_BAD_FILE with message,
 * hint and, as error->column, the place in the text, from 1; the caller adds file, line and key.
 * BITE_NO_MEMORY. */
bite_status bite_condition_read(bite_arena *arena, const char *text, const bite_field *figures,
                                size_t count, const bite_condition **condition, bite_error *error);

/** Whether it is true of a judged cut. A comparison with a number that is not known is false.
 * grade, family: what those words are; NULL: as the view says. */
bool bite_condition_holds(const bite_condition *condition, const bite_case_view *view,
                          const char *grade, const char *family);

#endif
