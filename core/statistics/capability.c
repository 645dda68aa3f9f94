/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cp, Cpk, Pp and Ppk with confidence intervals. */
#include "core/statistics/capability.h"
#include "core/statistics/moments.h"
#include "core/statistics/range_factors.h"
#include <gsl/gsl_cdf.h>
#include <math.h>

/* Degrees of freedom of a deviation from moving ranges of two, over count - 1: the variance of the
 * mean moving range is that of so many independent readings (Bissell 1990; memory). */
static const double moving_range_freedom = 0.62;

double bite_capability_spread(double lower, double upper, double deviation)
{
    return deviation > 0.0 ? (upper - lower) / (6.0 * deviation) : (double)NAN;
}

double bite_capability_nearest(double lower, double upper, double mean, double deviation)
{
    double distance = fmin(upper - mean, mean - lower); /* fmin ignores an absent limit */
    return deviation > 0.0 ? distance / (3.0 * deviation) : (double)NAN;
}

static bite_capability_index of_spread(double value, double freedom, double confidence)
{
    double tail = 0.5 * (1.0 - confidence);
    bite_capability_index index = {value, (double)NAN, (double)NAN};
    if (!isnan(value)) {
        index.low = value * sqrt(gsl_cdf_chisq_Pinv(tail, freedom) / freedom);
        index.high = value * sqrt(gsl_cdf_chisq_Qinv(tail, freedom) / freedom);
    }
    return index;
}

static bite_capability_index of_nearest(double value, size_t count, double freedom,
                                        double confidence)
{
    double z = gsl_cdf_ugaussian_Qinv(0.5 * (1.0 - confidence));
    double half = z * sqrt(1.0 / (9.0 * (double)count) + value * value / (2.0 * freedom));
    bite_capability_index index = {value, value - half, value + half};
    return index;
}

/* The standard deviation that the differences of successive readings show. */
static double deviation_of_moves(const double *readings, size_t count)
{
    bite_sum sum = {0.0, 0.0};
    for (size_t i = 1; i < count; i++) {
        bite_sum_add(&sum, fabs(readings[i] - readings[i - 1]));
    }
    return bite_sum_total(&sum) / (double)(count - 1) / bite_range_mean(2);
}

int bite_capability_of(const double *readings, size_t count, double lower, double upper,
                       double confidence, bite_capability *capability)
{
    bite_moments moments;
    if (count < 2 || (isnan(lower) && isnan(upper)) || !(confidence > 0.0 && confidence < 1.0)) {
        return 0;
    }
    bite_moments_of(readings, count, &moments);
    double all = (double)(count - 1);
    double moves = moving_range_freedom * all;
    capability->count = count;
    capability->mean = moments.mean;
    capability->overall = moments.deviation;
    capability->within = deviation_of_moves(readings, count);
    double cp = bite_capability_spread(lower, upper, capability->within);
    double pp = bite_capability_spread(lower, upper, capability->overall);
    double cpk = bite_capability_nearest(lower, upper, moments.mean, capability->within);
    double ppk = bite_capability_nearest(lower, upper, moments.mean, capability->overall);
    capability->cp = of_spread(cp, moves, confidence);
    capability->pp = of_spread(pp, all, confidence);
    capability->cpk = of_nearest(cpk, count, moves, confidence);
    capability->ppk = of_nearest(ppk, count, all, confidence);
    return 1;
}
