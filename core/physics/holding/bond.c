/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bonds under a part: creep, the effect of temperature, and cleavage of thin plates. */
#include "core/physics/holding/bond.h"
#include <gsl/gsl_sf_gamma.h>
#include <math.h>

/* Time and temperature at which the strength of a bond is stated. */
static const double stated_time = 60.0;          /* s */
static const double stated_temperature = 296.15; /* K, 23 degC */

/* Below this the strength is taken as constant in time, since the arguments of the gamma functions
 * grow without bound. */
static const double least_exponent = 1e-6;

static double log_gamma(double x)
{
    gsl_sf_result result = {0.0, 0.0};
    (void)gsl_sf_lngamma_e(x, &result); /* x > 0: it cannot fail */
    return result.val;
}

double bite_bond_steady_share(double exponent, double in_cut)
{
    if (!(exponent > least_exponent)) {
        return 1.0;
    }
    double log_mean =
        log_gamma(0.5 * (1.0 / exponent + 1.0)) - log_gamma(0.5 / exponent + 1.0) - 0.5 * log(M_PI);
    return exp(exponent * (log_mean + log(fmin(1.0, in_cut))));
}

double bite_bond_force(double mean, double peak, double steady_share, double ringing)
{
    return ringing * fmax(mean, steady_share * peak);
}

double bite_bond_strength_left(double exponent, double time, double halving, double temperature)
{
    double warm = isnan(halving) ? 0.0 : (temperature - stated_temperature) / halving;
    return pow(stated_time / time, exponent) * exp2(-warm);
}

double bite_bond_cleavage_length(double height, double modulus, double layer_modulus,
                                 double layer_thickness)
{
    if (isnan(layer_modulus) || isnan(layer_thickness)) {
        return INFINITY;
    }
    return fmax(height,
                pow(modulus * height * height * height * layer_thickness / (3.0 * layer_modulus),
                    0.25)); /* fmax ignores NaN */
}
