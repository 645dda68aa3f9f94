/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Scores of the judged reports: how often a limit detects a trouble, how often a good cut is judged
 * over, and how well the chances order troubles and good cuts. */
#ifndef BITE_TESTS_FIELD_FIELD_SCORES_H
#define BITE_TESTS_FIELD_FIELD_SCORES_H

#include "tests/field/field_cases.h"

/** Which cases are scored, and their weights; {0}: all public reports, each of weight 1. */
typedef struct field_selection {
    const char *without;         /* a source whose author's reports are left out, or NULL */
    int weighted;                /* every source weighs the same */
    field_collection collection; /* of these alone */
    field_material material;     /* of this material alone */
    int kinds;                   /* 0: all; kind + 1: troubles of this kind alone */
} field_selection;

typedef struct field_score {
    double ok;
    double clear; /* ok cases by the verdict of the cut */
    double tight;
    double over;
    double unknown; /* a figure is missing */
    double hums;    /* ok cases whose chance of chatter, an advisory limit, is above one half */
    double trouble; /* that some limit can detect */
    double seen;    /* by a limit that detects its kind */
    double warned;  /* the cut itself is tight or over */
    double unseeable;
    double area; /* chance that a trouble's limit is likelier to be exceeded than an ok cut's */
    double joint_area; /* the same of the chance of the cut as a whole */
} field_score;

typedef struct field_worst {
    double tight; /* shares of the clean cuts */
    double over;
    double seen; /* share of the troubles */
    double area;
    double joint_area;
} field_worst;

/** Whether a case belongs to a selection. */
int field_counts(const field_case *report, field_selection selection);
double field_weight(const field_case *report, field_selection selection);
/** Whether two addresses are of one author: on a host of many authors the part up to the author's
 * name is compared, otherwise the whole address. */
int field_same_author(const char *a, const char *b);

/** The limit likeliest to be exceeded, of those that detect this kind of trouble; -1: none applies.
 */
int field_likeliest_limit(const field_case *report, int kind);
/** Its chance, with a small addition that orders equal chances. */
double field_chance(const field_case *report, int kind);
/** Whether it is a trouble that some limit of this cut can detect. */
int field_is_seeable(const field_case *report);
/** Whether the likeliest limit is tight or over; chatter that is only advice: above one half. */
int field_is_seen(const field_case *report);
/** Adds one trouble's part to the numerator and the denominator of field_score.area, or with joint
 * of joint_area. */
void field_add_area(const field_case *report, field_selection selection, int joint, double *area,
                    double *pairs);
field_score field_score_of(field_selection selection);
/** The worst share or area of each kind when the reports of any one author are left out. */
field_worst field_worst_without_an_author(field_selection selection);
/** Clean cuts that are over if an author's largest depth is taken as the depth; judges those
 * reports once more. */
double field_over_at_limits(void);

#endif
