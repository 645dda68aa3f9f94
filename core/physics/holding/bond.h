/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bonds under a part: the equivalent steady force on tape and glue, their strength over time and
 * temperature, and cleavage of thin plates. SI units. */
#ifndef BITE_PHYSICS_HOLDING_BOND_H
#define BITE_PHYSICS_HOLDING_BOND_H

#include "core/base/lane_math.h"

/** ln(Gamma(a + 1/2)/Gamma(a)), to 1e-14, of a >= 1/2: the asymptotic series ln(z)/2 - 1/(8 z) +
 * 1/(192 z^3) - ..., with the terms (2^-k - 2) B_(k+1)/(k (k + 1) z^k) of odd k, from the series of
 * ln Gamma(z + c), c = 1/2 and 0, by Bernoulli polynomials (Abramowitz and Stegun 6.1.40 is that of
 * c = 0; memory), at z = a + 8, and back by Gamma(x + 1) = x Gamma(x). *root: sqrt(z) of that
 * series times the product of these steps; the result is ln(*root) + the returned rest. */
BITE_FORMULA double bite_bond_gamma_step(double a, double *root)
{
    double below = 1.0;
    double above = 1.0;
    for (int i = 0; i < 8; i++) {
        below *= a + i;
        above *= a + i + 0.5;
    }
    double z = a + 8.0;
    double square = 1.0 / (z * z);
    double rest = -5461.0 / 425984.0;
    rest = rest * square + 691.0 / 180224.0;
    rest = rest * square - 31.0 / 18432.0;
    rest = rest * square + 17.0 / 14336.0;
    rest = rest * square - 1.0 / 640.0;
    rest = rest * square + 1.0 / 192.0;
    rest = rest * square - 1.0 / 8.0;
    *root = sqrt(z) * (below / above);
    return rest / z;
}

/** The steady force that damages a bond as much as a milling force does, over the peak of that
 * force: (g s)^m, with a strength that falls as time^-m and g = Gamma((1/m + 1)/2)/(sqrt(pi)
 * Gamma(1/(2 m) + 1)), the mean over half a turn of sin^(1/m) (power-law creep; derived here;
 * 0.3395 at m = 0.2). exponent: m, 0 to 1. in_cut: s, the share of the time in which a tooth cuts,
 * at most 1. 1 for m = 0: without creep the peak counts. */
BITE_FORMULA double bite_bond_steady_share(double exponent, double in_cut)
{
    /* Below this the strength is taken as constant in time, since the arguments of the gamma
     * functions grow without bound. */
    const double least_exponent = 1e-6;
    double root;
    double creeping = exponent > least_exponent ? exponent : 1.0;
    double rest = bite_bond_gamma_step(0.5 / creeping + 0.5, &root);
    double mean = bite_smaller(in_cut, 1.0) / (sqrt(M_PI) * root);
    double share = exp(creeping * (log(mean) - rest));
    return exponent > least_exponent ? share : 1.0;
}

/** The force on the bond: ringing x max(mean, steady_share x peak). ringing: factor for the
 * vibration of the part, 1.1 (1 to 1.5; estimate). */
BITE_FORMULA double bite_bond_force(double mean, double peak, double steady_share, double ringing)
{
    return ringing * bite_larger_known(mean, steady_share * peak);
}

/** Share of its stated strength that a bond retains: (60 s/t)^m 2^(-(T - 23 degC)/halving). time: s
 * under load, from mounting on; halving NaN: the strength does not depend on temperature. */
BITE_FORMULA double bite_bond_strength_left(double exponent, double time, double halving,
                                            double temperature)
{
    const double stated_time = 60.0;          /* s, and K: at which strengths are stated */
    const double stated_temperature = 296.15; /* 23 degC */
    double warm = (temperature - stated_temperature) / halving;
    double halvings = halving == halving ? warm : 0.0;
    return exp(exponent * log(stated_time / time) - M_LN2 * halvings);
}

/** Length from an edge over which a plate on a soft layer distributes a lifting force: max(h, (E
 * h^3 t/(3 E_layer))^0.25), a beam on an elastic foundation (estimate). A stiff plate distributes
 * it over its whole bond; a thin one is cleaved along this length. height: h; modulus: E of the
 * plate, NaN: not known, the length is h; layer_modulus and layer_thickness: NaN: there is no soft
 * layer, the length is infinite. */
BITE_FORMULA double bite_bond_cleavage_length(double height, double modulus, double layer_modulus,
                                              double layer_thickness)
{
    double layer = layer_thickness / (3.0 * layer_modulus);
    double fourth = modulus * height * height * height * layer;
    double length = bite_larger_known(height, sqrt(sqrt(fourth)));
    return layer == layer ? length : (double)INFINITY;
}

#endif
