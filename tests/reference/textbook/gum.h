/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Propagation of uncertainty to first and second order: the quick band, and the cross-check of the
 * drawn one.
 *
 * JCGM 100:2008 (GUM), 5.1.2, 5.1.3 note 2, 5.2.2, G.4. A contribution is c u: what one standard
 * uncertainty of an input does to the result, taken as half the difference of the model a standard
 * uncertainty above and below.
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

/** Covariance of two results with these contributions; correlations: count x count, rows after one
 * another; NULL: none. Of a result with itself: its variance. */
double gum_covariance(const double *first, const double *second, const double *correlations,
                      size_t count);

/** What the next order adds to the variance, inputs uncorrelated: sum of (f_ij^2/2 + f_i f_ijj)
 * u_i^2 u_j^2. It sees products whose first order is nothing. */
double gum_second_order(bite_model model, void *user, const double *x, const double *uncertainties,
                        size_t count);

/** Effective degrees of freedom, Welch and Satterthwaite: u^4 / sum((c u)^4/nu). INFINITY in
 * degrees: known exactly. */
double gum_degrees(const double *contributions, const double *degrees, size_t count);

#endif
