/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Functions of several numbers at once, in plain loops over lanes that a compiler turns into wide
 * instructions. */
#ifndef BITE_BASE_VECTOR_EXP_H
#define BITE_BASE_VECTOR_EXP_H

#include <stddef.h>

#define BITE_VECTOR_WIDTH 8

/** exp of count numbers, a multiple of the lanes; within 2e-16 of its value and a rounding. Where
 * |x| is above 700 that of 700 or -700. NaN stays NaN. */
void bite_vector_exp(const double *x, double *out, size_t count);

#endif
