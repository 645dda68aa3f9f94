/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Least squares by orthogonal polynomials: p0 = 1, p1 = t, p2 = t^2 - a t - b, with t = (x - mean)/
 * spread. Their coefficients are independent, those of the powers of x follow. */
#include "core/statistics/polynomial_fit.h"
#include "core/statistics/moments.h"
#include <math.h>

#define TERMS (BITE_FIT_DEGREE_MAX + 1)

typedef struct fit_basis {
    double mean;
    double spread;
    double a;
    double b;
} fit_basis;

static void values_at(const fit_basis *basis, double x, double value[TERMS])
{
    double t = (x - basis->mean) / basis->spread;
    value[0] = 1.0;
    value[1] = t;
    value[2] = (t - basis->a) * t - basis->b;
}

/* a and b such that p2 is orthogonal to p0 and p1: the mean of t is 0, that of t^2 is b. */
static void make_basis(const double *x, size_t count, const bite_moments *of_x, fit_basis *basis)
{
    bite_sum cubes = {0.0, 0.0};
    basis->mean = of_x->mean;
    basis->spread = sqrt(of_x->squares / (double)count);
    for (size_t i = 0; i < count; i++) {
        double t = (x[i] - basis->mean) / basis->spread;
        bite_sum_add(&cubes, t * t * t);
    }
    basis->a = bite_sum_total(&cubes) / (double)count;
    basis->b = 1.0;
}

/* The coefficient of each orthogonal polynomial and the sum of its squares. y is taken less its
 * mean, which is the first coefficient. */
static int project(const double *x, const double *y, size_t count, double mean_y,
                   const fit_basis *basis, unsigned degree, double of_basis[TERMS],
                   double squares[TERMS])
{
    for (unsigned k = 0; k <= degree; k++) {
        bite_sum product = {0.0, 0.0};
        bite_sum square = {0.0, 0.0};
        for (size_t i = 0; i < count; i++) {
            double value[TERMS];
            values_at(basis, x[i], value);
            bite_sum_add(&product, value[k] * (y[i] - mean_y));
            bite_sum_add(&square, value[k] * value[k]);
        }
        squares[k] = bite_sum_total(&square);
        if (!(squares[k] > 1e-10 * (double)count)) {
            return 0; /* p2 vanishes at all points: there are only two different x */
        }
        of_basis[k] = bite_sum_total(&product) / squares[k];
    }
    return 1;
}

/* The polynomial of each basis function in powers of x: rows of a lower triangle. */
static void expand(const fit_basis *basis, double power[TERMS][TERMS])
{
    double m = basis->mean;
    double s = basis->spread;
    double rows[TERMS][TERMS] = {{1.0, 0.0, 0.0},
                                 {-m / s, 1.0 / s, 0.0},
                                 {m / s * (m / s) + basis->a * m / s - basis->b,
                                  -2.0 * m / (s * s) - basis->a / s, 1.0 / (s * s)}};
    for (unsigned k = 0; k < TERMS; k++) {
        for (unsigned j = 0; j < TERMS; j++) {
            power[k][j] = rows[k][j];
        }
    }
}

static double residual_squares(const double *x, const double *y, size_t count, double mean_y,
                               const fit_basis *basis, unsigned degree,
                               const double of_basis[TERMS])
{
    bite_sum sum = {0.0, 0.0};
    for (size_t i = 0; i < count; i++) {
        double value[TERMS];
        values_at(basis, x[i], value);
        double left = y[i] - mean_y;
        for (unsigned k = 0; k <= degree; k++) {
            left -= of_basis[k] * value[k];
        }
        bite_sum_add(&sum, left * left);
    }
    return bite_sum_total(&sum);
}

static void set_coefficients(const fit_basis *basis, unsigned degree, double mean_y,
                             const double of_basis[TERMS], const double squares[TERMS],
                             bite_polynomial_fit *fit)
{
    double power[TERMS][TERMS];
    expand(basis, power);
    for (unsigned j = 0; j <= degree; j++) {
        double coefficient = j == 0 ? mean_y : 0.0;
        double variance = 0.0;
        for (unsigned k = j; k <= degree; k++) {
            coefficient += of_basis[k] * power[k][j];
            variance += power[k][j] * power[k][j] / squares[k];
        }
        fit->coefficient[j] = coefficient;
        fit->deviation[j] = fit->residual * sqrt(variance);
    }
}

int bite_polynomial_fit_points(const double *x, const double *y, size_t count, unsigned degree,
                               bite_polynomial_fit *fit)
{
    double of_basis[TERMS] = {0.0, 0.0, 0.0};
    double squares[TERMS] = {0.0, 0.0, 0.0};
    fit_basis basis = {0.0, 1.0, 0.0, 0.0};
    bite_moments of_x;
    bite_moments of_y;
    if (degree > BITE_FIT_DEGREE_MAX || count <= degree) {
        return 0;
    }
    bite_moments_of(x, count, &of_x);
    bite_moments_of(y, count, &of_y);
    if (degree > 0) {
        if (!(of_x.squares > 0.0)) {
            return 0;
        }
        make_basis(x, count, &of_x, &basis);
    }
    if (!project(x, y, count, of_y.mean, &basis, degree, of_basis, squares)) {
        return 0;
    }
    double left = residual_squares(x, y, count, of_y.mean, &basis, degree, of_basis);
    size_t freedom = count - degree - 1;
    const bite_polynomial_fit empty = {degree, {0.0, 0.0, 0.0}, {0.0, 0.0, 0.0}, 0.0, 0.0};
    *fit = empty;
    fit->residual = freedom > 0 ? sqrt(left / (double)freedom) : (double)NAN;
    fit->explained = of_y.squares > 0.0 ? 1.0 - left / of_y.squares : (double)NAN;
    set_coefficients(&basis, degree, of_y.mean, of_basis, squares, fit);
    return 1;
}
