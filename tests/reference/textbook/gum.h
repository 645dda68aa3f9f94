/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Propagation of uncertainty to first and second order: a quick band, and a cross-check of the one
 * by draws.
 *
 * JCGM 100:2008 (GUM), 5.1.2, 5.1.3 note 2, 5.2.2, G.4. A contribution is c u: the change of the
 * result by one standard uncertainty of an input, computed as half the difference of the model one
 * standard uncertainty above and below.
 */
#ifndef BITE_TESTS_REFERENCE_TEXTBOOK_GUM_H
#define BITE_TESTS_REFERENCE_TEXTBOOK_GUM_H

#include <stddef.h>

#define GUM_MOST 64

/** y = f(x); pure. */
typedef double (*bite_model)(const double *x, void *user);

/** Fills contributions[count]; count at most GUM_MOST, uncertainties >= 0 in the inputs' units. */
void gum_contributions(bite_model model, void *user, const double *x, const double *uncertainties,
                       size_t count, double *contributions);

/** The covariance of two results with these contributions; of a result with itself its variance.
 * correlations: count x count, row by row; NULL: none. */
double gum_covariance(const double *first, const double *second, const double *correlations,
                      size_t count);

/** The second-order part of the variance, inputs uncorrelated: sum of (f_ij^2/2 + f_i f_ijj) u_i^2
 * u_j^2. It includes products whose first order is zero. */
double gum_second_order(bite_model model, void *user, const double *x, const double *uncertainties,
                        size_t count);

/** Effective degrees of freedom, Welch and Satterthwaite: u^4 / sum((c u)^4/nu). INFINITY in
 * degrees: known exactly. */
double gum_degrees(const double *contributions, const double *degrees, size_t count);

#endif
