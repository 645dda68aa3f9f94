/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The k-th smallest of many numbers, without sorting them all. */
#ifndef BITE_BASE_QUANTILE_H
#define BITE_BASE_QUANTILE_H

#include <stddef.h>

/** The k-th smallest (from 0) of count numbers; k < count. Reorders them: afterwards those before
 * index k are not larger than it, those after it not smaller. */
double bite_quantile_select(double *numbers, size_t count, size_t k);

/** The same number, but `numbers` is not changed; scratch: memory for count numbers. NaN counts as
 * larger than all. */
double bite_quantile_select_copy(const double *numbers, size_t count, size_t k, double *scratch);

#endif
