/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The range of a few normal readings, and the standard deviation that it stands for. */
#ifndef BITE_STATISTICS_RANGE_FACTORS_H
#define BITE_STATISTICS_RANGE_FACTORS_H

#include <stddef.h>

#define BITE_RANGE_SIZE_MAX 100

/** The mean of the range of size standard normal readings (called d2): the integral of
 * 1 - F^n - (1 - F)^n (Tippett 1925; memory). size: 2 to 100; NaN otherwise. */
double bite_range_mean(size_t size);

/** The standard deviation of that range (called d3). */
double bite_range_deviation(size_t size);

/** The root of the mean square of the mean of `groups` such ranges (called d2*): sqrt(d2^2 +
 * d3^2/groups). A range over it estimates the standard deviation from few groups (Duncan 1955;
 * memory). */
double bite_range_factor(size_t size, size_t groups);

/** The upper limit of ranges of that size, as a multiple of their mean: 1 + 3 d3/d2 (called D4). */
double bite_range_limit(size_t size);

#endif
