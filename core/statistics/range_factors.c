/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Moments of the range of normal readings, by integration. */
#include "core/statistics/range_factors.h"
#include <gsl/gsl_cdf.h>
#include <gsl/gsl_randist.h>
#include <math.h>

/* Beyond these deviations the integrands are below 1e-15 for the largest size. */
#define REACH 8.5
/* The trapezoid rule converges faster than any power on functions that fade at both ends; halving
 * this step changes no digit of 1e-13. */
#define STEPS 340

static int is_size(size_t size)
{
    return size >= 2 && size <= BITE_RANGE_SIZE_MAX;
}

static double point(int i)
{
    return REACH * (2.0 * i / STEPS - 1.0);
}

double bite_range_mean(size_t size)
{
    double sum = 0.0;
    double n = (double)size;
    for (int i = 0; i <= STEPS; i++) {
        double x = point(i);
        sum += 1.0 - pow(gsl_cdf_ugaussian_P(x), n) - pow(gsl_cdf_ugaussian_Q(x), n);
    }
    return is_size(size) ? sum * 2.0 * REACH / STEPS : (double)NAN;
}

/* Chance that the range is above w: 1 - n times the integral of f(x) (F(x + w) - F(x))^(n - 1). */
static double chance_above(double n, double w)
{
    double sum = 0.0;
    for (int i = 0; i <= STEPS; i++) {
        double x = point(i);
        sum += gsl_ran_ugaussian_pdf(x) *
               pow(gsl_cdf_ugaussian_P(x + w) - gsl_cdf_ugaussian_P(x), n - 1.0);
    }
    return 1.0 - n * sum * 2.0 * REACH / STEPS;
}

/* The mean of the range's square: the integral of 2 w (chance above w) over w > 0 by the trapezoid
 * rule. At its end the slope is 2, which costs step^2/12 of it (Euler and Maclaurin); the next term
 * is below 1e-8. */
static double mean_square(size_t size)
{
    double step = REACH / STEPS;
    double sum = 0.0;
    for (int i = 1; i <= 2 * STEPS; i++) {
        double w = step * i;
        sum += 2.0 * w * chance_above((double)size, w);
    }
    return sum * step + step * step / 6.0;
}

double bite_range_deviation(size_t size)
{
    double mean = bite_range_mean(size);
    return is_size(size) ? sqrt(mean_square(size) - mean * mean) : (double)NAN;
}

double bite_range_factor(size_t size, size_t groups)
{
    double mean = bite_range_mean(size);
    double deviation = bite_range_deviation(size);
    return groups > 0 ? sqrt(mean * mean + deviation * deviation / (double)groups) : (double)NAN;
}

double bite_range_limit(size_t size)
{
    return 1.0 + 3.0 * bite_range_deviation(size) / bite_range_mean(size);
}
