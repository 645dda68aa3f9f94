/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Public reports of cuts, each judged by the engine with what its author gave, and with the usual
 * defaults for what the author did not give. */
#ifndef BITE_TESTS_FIELD_FIELD_CASES_H
#define BITE_TESTS_FIELD_FIELD_CASES_H

#include <coolbite/coolbite.h>
#include <stddef.h>

/** The limits that detect a kind of trouble; BITE_LIMIT_COUNT ends the list. */
typedef struct field_outcome {
    const char *outcome;
    bite_limit_id limits[6];
} field_outcome;
extern const field_outcome field_outcomes[];

typedef struct field_case {
    const char *id;
    const char *outcome;
    const char *source;
    size_t row; /* of the table */
    int kind;   /* index into field_outcomes; -1: ok; -2: a trouble that no limit detects */
    int judged;
    int scored; /* judged, and no value or outcome is inferred */
    bite_result result;
    char assumed[400]; /* inputs that the author could have given, each with the assumed value */
    char why[200];     /* why it was not judged */
} field_case;

extern field_case field_cases[];
extern size_t field_case_count;

/** A cell of cases.csv; "" if it is empty. */
const char *field_cell(size_t row, const char *column);
/** Judges one row. limit_is_depth: the author's largest depth is taken as the depth of the cut. */
void field_judge(size_t row, int limit_is_depth, field_case *report);
/** Opens the library, reads the table and judges every row; undone by field_close. */
void field_judge_all(void);
void field_close(void);

#endif
