/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cautions of tables: their conditions and texts, checked when a table is read, and whether a
 * condition is true of a judged cut. */
#ifndef BITE_LIBRARY_CAUTION_RULE_H
#define BITE_LIBRARY_CAUTION_RULE_H

#include "core/library/case_view.h"
#include "core/tables/typed_table.h"
#include <coolbite/coolbite.h>

/** A caution of a table: [caution.NAME]. The condition has been checked against the names that a
 * judged cut has. */
typedef struct bite_caution_rule {
    const char *name;
    const char *when;   /* "": always */
    const char *text;   /* with {name} places */
    const char *source; /* "grade: where" */
    uint32_t severity;  /* enum bite_severity */
    uint32_t line;
    const char *as_grade; /* the grade and the family that the condition sees; NULL: those of the */
    const char *as_family; /* cut */
} bite_caution_rule;

/** Whether a judged cut has a number of this name. figures: the fields of a table that it may also
 * name; may be NULL. */
bool bite_caution_rule_number(const char *name, const bite_field *figures, size_t count);

/** Whether a judged cut has a word of this name. */
bool bite_caution_rule_word(const char *name);

/** Checks a condition and the places of a text. BITE_BAD_FILE with message and hint; the caller
 * adds file, line and key. */
bite_status bite_caution_rule_check(const char *when, const char *text, const bite_field *figures,
                                    size_t count, bite_error *error);

/** *holds: 1 if the condition is true, else 0. A condition is a list of comparisons joined by
 * `and`: NAME above|below|at least|at most NAME|QUANTITY, or WORD is|is not VALUE. A comparison
 * with a number that is NaN is false. */
bite_status bite_caution_rule_applies(const bite_caution_rule *rule, const bite_case_view *view,
                                      int *holds, bite_error *error);

#endif
