/* SPDX-License-Identifier: GPL-3.0-or-later */
/* exp of several numbers at once, in plain loops that a compiler turns into vector instructions. */
#ifndef BITE_BASE_VECTOR_EXP_H
#define BITE_BASE_VECTOR_EXP_H

#include <stddef.h>

#define BITE_VECTOR_WIDTH 8 /* numbers in one vector */

/** out[i] = exp(x[i]); count: a multiple of BITE_VECTOR_WIDTH. Relative error within 2e-16 plus one
 * rounding. Arguments beyond -700 to 700 are clamped; NaN stays NaN. */
void bite_vector_exp(const double *x, double *out, size_t count);

#endif
