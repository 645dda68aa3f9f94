/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Conditions and texts of cautions, checked when a table is read. */
#ifndef BITE_LIBRARY_CAUTION_RULE_H
#define BITE_LIBRARY_CAUTION_RULE_H

#include "core/library/item.h"
#include <coolbite/coolbite.h>

/** Whether a name is a number, or a word, that a case can be asked for. figures: a table's own, or
 * NULL. */
bool bite_caution_rule_number(const char *name, const bite_field *figures, size_t count);
bool bite_caution_rule_word(const char *name);

/** Checks a condition and a text's places. BITE_BAD_FILE with message and hint; key and place are
 * the caller's. */
bite_status bite_caution_rule_check(const char *when, const char *text, const bite_field *figures,
                                    size_t count, bite_error *error);

/** True when the condition holds: comparisons joined by `and`: NAME above|below|at least|at most
 * NAME|QUANTITY, or WORD is|is not VALUE. A number that is NaN makes its comparison false. */
bite_status bite_caution_rule_applies(const char *when, const bite_case_view *view, int *holds,
                                      bite_error *error);

#endif
