/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether chances mean what they say: the sum of a limit's chances against the troubles that were
 * reported, and the share of the cuts of about one chance that went wrong. */
#ifndef BITE_TESTS_FIELD_FIELD_RELIABILITY_H
#define BITE_TESTS_FIELD_FIELD_RELIABILITY_H

#include "tests/field/field_scores.h"

/** The ends of the bins of the chance of a cut: 0, 0.05, 0.1, 0.2, 0.5, 1. */
#define FIELD_BINS 5
extern const double field_bin_ends[FIELD_BINS + 1];

typedef struct field_bin {
    double cases;
    double chance; /* sum over the cases */
    double wrong;  /* troubles that some limit can detect */
} field_bin;

field_bin field_bin_of(int bin, field_selection selection);
/** The least and the largest share that went wrong when any one author is left out. */
void field_bin_range(int bin, field_selection selection, double *least, double *most);

typedef struct field_limit_sum {
    double cases;    /* to which the limit applies */
    double chance;   /* sum over the cases */
    double reported; /* troubles that it detects */
    double blamed;   /* of those, it is the likeliest of the limits that do */
} field_limit_sum;

field_limit_sum field_limit_sum_of(bite_limit_id limit, field_selection selection);
/** The least and the largest of chance - reported when any one author is left out. */
void field_limit_range(bite_limit_id limit, field_selection selection, double *least, double *most);

#endif
