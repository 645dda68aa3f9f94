/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Scores of the judged reports: how often a limit detects a trouble, and how often a good cut is
 * judged over. */
#ifndef BITE_TESTS_FIELD_FIELD_SCORES_H
#define BITE_TESTS_FIELD_FIELD_SCORES_H

#include "tests/field/field_cases.h"

/** Which reports are scored, and their weights. */
typedef struct field_selection {
    const char *without; /* a source whose author's reports are left out, or NULL */
    int weighted;        /* every source weighs the same */
} field_selection;

typedef struct field_score {
    double ok;
    double over;
    double quiet; /* ok cases in which every binding limit is clear */
    double trouble;
    double seen;
    double unseeable;
    double area; /* chance that a trouble's limit is likelier to be exceeded than an ok cut's */
} field_score;

/** The limit likeliest to be exceeded, of those that detect this kind of trouble; -1: none applies.
 */
int field_likeliest_limit(const field_case *report, int kind);
/** Its chance, with a small addition that orders equal chances. */
double field_chance(const field_case *report, int kind);
/** Whether that limit is tight or over. */
int field_is_seen(const field_case *report);
/** Adds one trouble's part to the numerator and the denominator of field_score.area. */
void field_add_area(const field_case *report, field_selection selection, double *area,
                    double *pairs);
field_score field_score_of(field_selection selection);
/** The worst of each figure when the reports of any one author are left out. */
field_score field_worst_without_an_author(void);

/** Two reports that differ in one thing and in the outcome: the chance should differ the same way.
 */
typedef struct field_flip {
    const char *better;
    const char *worse;
    int alike; /* the source gives no number for the difference, so both reports look the same */
} field_flip;
extern const field_flip field_flips[];
extern const size_t field_flip_count;

/** Whether the chance of the worse one is higher. inferred: judge only pairs of which a value or an
 * outcome is inferred, otherwise only the others; *judged: whether this pair was judged. */
int field_flip_is_right(size_t at, int inferred, int *judged);
/** Whether the chances of a right pair differ by less than 0.01. */
int field_flip_is_narrow(size_t at);

#endif
