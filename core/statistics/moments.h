/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Mean and standard deviation of readings. */
#ifndef BITE_STATISTICS_MOMENTS_H
#define BITE_STATISTICS_MOMENTS_H

#include <stddef.h>

typedef struct bite_moments {
    size_t count;
    double mean;      /* NaN: no readings */
    double deviation; /* standard deviation, divisor count - 1; NaN: fewer than two readings */
    double least;     /* NaN: no readings */
    double most;      /* NaN: no readings */
    double squares;   /* sum of squares about the mean; 0: fewer than two readings */
} bite_moments;

/** The moments of count finite readings, which may lie far from zero: sums run over differences
 * from the first reading and are compensated (Neumaier 1974; two passes, Chan, Golub and LeVeque
 * 1983; both memory), so that what is lost is what the readings themselves have rounded. */
void bite_moments_of(const double *readings, size_t count, bite_moments *moments);

/** A sum with compensation: start with {0, 0}, add, then read the total. */
typedef struct bite_sum {
    double high;
    double low;
} bite_sum;

void bite_sum_add(bite_sum *sum, double term);
double bite_sum_total(const bite_sum *sum);

#endif
