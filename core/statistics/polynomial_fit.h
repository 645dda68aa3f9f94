/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A straight line or a parabola through points by least squares. */
#ifndef BITE_STATISTICS_POLYNOMIAL_FIT_H
#define BITE_STATISTICS_POLYNOMIAL_FIT_H

#include <stddef.h>

#define BITE_FIT_DEGREE_MAX 2

typedef struct bite_polynomial_fit {
    unsigned degree;
    double coefficient[BITE_FIT_DEGREE_MAX + 1]; /* of x^0, x^1, x^2; 0 above the degree */
    double deviation[BITE_FIT_DEGREE_MAX + 1];   /* standard deviation of each; NaN: no freedom */
    double residual;  /* standard deviation about the fit; NaN: no freedom left */
    double explained; /* share of the variance, R^2; NaN: y does not vary */
} bite_polynomial_fit;

/** Fits y = b0 + b1 x + b2 x^2 to count points of finite numbers, degree 0 to 2. Orthogonal
 * polynomials in x about its mean, in units of its spread (Forsythe 1957; memory), so that large x
 * lose no digits. Returns 0 if the points do not decide it: not more different x than the degree.
 */
int bite_polynomial_fit_points(const double *x, const double *y, size_t count, unsigned degree,
                               bite_polynomial_fit *fit);

#endif
