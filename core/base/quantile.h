/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The k-th of many numbers, without sorting them all. */
#ifndef BITE_BASE_QUANTILE_H
#define BITE_BASE_QUANTILE_H

#include <stddef.h>

/** The k-th smallest (from 0) of count numbers, k < count. Moves them about: those before place k
 * are no larger then, those behind it no smaller. */
double bite_quantile_select(double *numbers, size_t count, size_t k);

/** The same number, of numbers that stay where they are; room: for as many. NaN counts as above
 * all. */
double bite_quantile_select_neighbour(const double *numbers, size_t count, size_t k,
                                      double *capacity);
#endif
