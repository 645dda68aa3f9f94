/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Capability of a process: how often its spread fits between the limits. */
#ifndef BITE_STATISTICS_CAPABILITY_H
#define BITE_STATISTICS_CAPABILITY_H

#include <stddef.h>

/** An index with its confidence interval. */
typedef struct bite_capability_index {
    double value; /* NaN: a limit or spread is missing */
    double low;
    double high;
} bite_capability_index;

typedef struct bite_capability {
    size_t count;
    double mean;
    double within;  /* standard deviation from one part to the next: mean moving range/d2 */
    double overall; /* standard deviation of all readings */
    bite_capability_index cp;  /* (upper - lower)/(6 within) */
    bite_capability_index cpk; /* least distance of the mean from a limit/(3 within) */
    bite_capability_index pp;  /* the same with overall */
    bite_capability_index ppk;
} bite_capability;

/** The indices of count readings in the order in which the parts were made; lower or upper NaN:
 * one-sided, without cp and pp. confidence: of the intervals, above 0 and below 1. Returns 0 for
 * fewer than two readings or if both limits are missing.
 *
 * Intervals: of an index that has spread alone, index sqrt(chi2(p, v)/v) with v the freedom of the
 * deviation, count - 1, or 0.62 (count - 1) for moving ranges; of one that has a mean too, index
 * +- z sqrt(1/(9 count) + index^2/(2 v)) (Bissell 1990; both memory). */
int bite_capability_of(const double *readings, size_t count, double lower, double upper,
                       double confidence, bite_capability *capability);

/** The index (upper - lower)/(6 deviation); NaN for an absent limit or without a positive
 * deviation. */
double bite_capability_spread(double lower, double upper, double deviation);

/** The least of (upper - mean)/(3 deviation) and (mean - lower)/(3 deviation) of the limits that
 * there are. */
double bite_capability_nearest(double lower, double upper, double mean, double deviation);

#endif
