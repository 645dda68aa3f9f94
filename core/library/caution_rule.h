/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cautions of tables: their conditions and texts, checked when a table is read, and whether a
 * condition is true of a judged cut. */
#ifndef BITE_LIBRARY_CAUTION_RULE_H
#define BITE_LIBRARY_CAUTION_RULE_H

#include "core/library/case_view.h"
#include "core/library/condition.h"
#include <coolbite/coolbite.h>
#include <stdbool.h>

/** A caution of a table: [caution.NAME]. The condition has been checked against the names that a
 * judged cut has. */
typedef struct bite_caution_rule {
    const char *name;
    const char *when;                /* "": always */
    const bite_condition *condition; /* the same, compiled; NULL: always */
    const char *text;                /* with {name} places */
    const char *source;              /* "grade: where" */
    uint32_t severity;               /* enum bite_severity */
    uint32_t line;
    const char *as_grade; /* the grade and the family that the condition sees; NULL: those of the */
    const char *as_family; /* cut */
} bite_caution_rule;

/** Compiles the condition of a rule and checks the places of its text. BITE_BAD_FILE with message,
 * hint, key ("when" or "text") and, as error->column, the place in that value, from 1; the caller
 * adds the rest. BITE_NO_MEMORY. */
bite_status bite_caution_rule_check(bite_arena *arena, bite_caution_rule *rule,
                                    const bite_field *figures, size_t count, bite_error *error);

/** Whether the condition of a rule is true of a judged cut. */
bool bite_caution_rule_applies(const bite_caution_rule *rule, const bite_case_view *view);

#endif
