/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Analysis of variance: groups of one factor, and two crossed factors with repeats. */
#ifndef BITE_STATISTICS_VARIANCE_ANALYSIS_H
#define BITE_STATISTICS_VARIANCE_ANALYSIS_H

#include <stddef.h>

/** A source of variation. */
typedef struct bite_variance_row {
    double squares;     /* sum of squares */
    size_t freedom;     /* degrees of freedom */
    double mean_square; /* NaN: no freedom */
    double ratio;       /* F, over the mean square that it is tested with; NaN: none */
    double chance;      /* of a ratio at least as large if the source has no effect; NaN: none */
} bite_variance_row;

typedef struct bite_one_way {
    bite_variance_row between;
    bite_variance_row within;
    double deviation; /* of a reading within its group */
    double explained; /* share of the variance that lies between the groups; NaN: none varies */
} bite_one_way;

/** Readings of count groups, one group after the other; sizes: of each, at least 1. Returns 0
 * unless there are two groups and more readings than groups. */
int bite_variance_one_way(const double *readings, const size_t *sizes, size_t count,
                          bite_one_way *result);

/** Two crossed factors, each combination read `trials` times. */
typedef struct bite_two_way {
    bite_variance_row first;
    bite_variance_row second;
    bite_variance_row interaction;
    bite_variance_row error;
} bite_two_way;

/** readings[(i * second + j) * trials + k]: i of the first factor, j of the second. Both factors
 * are random, so that each is tested with the interaction. Returns 0 unless all three counts are at
 * least 2. */
int bite_variance_two_way(const double *readings, size_t first, size_t second, size_t trials,
                          bite_two_way *result);

/** The row of squares and freedom, tested with another mean square; NaN: no test. */
bite_variance_row bite_variance_row_of(double squares, size_t freedom, double against,
                                       size_t against_freedom);

#endif
