/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Closed forms of heat conduction in the work, the tool and a thin plate. SI units; a rise is in K
 * above the start. */
#ifndef BITE_PHYSICS_HEAT_CONDUCTION_H
#define BITE_PHYSICS_HEAT_CONDUCTION_H

#include "core/base/lane_math.h"

/* Gamma for small Y, where the closed form is a difference of equal terms: 1 + Y + sqrt(Y/pi) times
 * the sum over m of (-1)^m 8 Y^m/(m! (2m - 1) (2m + 1) (2m + 3)), from the series of erf and exp;
 * to m = 5, good to 1e-17 up to Y = 0.01. */
BITE_FORMULA double bite_conduction_weiner_series(double y, double root)
{
    double far = 8.0 / 1890.0 - y * (8.0 / 16632.0 - y * (8.0 / 154440.0));
    double sum = -8.0 / 3.0 - y * (8.0 / 15.0 - y * (8.0 / 210.0 - y * far));
    return 1.0 + y + root * (1.0 / sqrt(M_PI)) * sum;
}

/**
 * Share of the shear heat that stays in the work, Gamma(x), x = (v h/a) tan(phi) > 0.
 *
 * Weiner 1955 (from memory; checked in the reference rows against limits and a numerical
 * solution): with Y = x/4, erf(sqrt Y)/(4 Y) + (1 + Y) erfc(sqrt Y) - exp(-Y)/sqrt(pi) (1/(2 sqrt
 * Y) + sqrt Y). 1 at x -> 0, 1/x at x -> infinity.
 */
BITE_FORMULA double bite_conduction_weiner(double x)
{
    const double small = 0.01;
    const double large = 100.0; /* beyond it all but 1/(4 Y) is below 1e-43 */
    double y = 0.25 * x;
    double within = bite_smaller(y, large);
    double root = sqrt(within);
    double half = 0.5 / root;
    double closed = 1.0 / x + (1.0 + within - half * half) * erfc(root) -
                    exp(-within) * (1.0 / sqrt(M_PI)) * (half + root);
    double series = bite_conduction_weiner_series(within, root);
    return y < small ? series : closed;
}

/* log(1 + x), x > 0, given 1/(1 + x): with what 1 + x is rounded by, to first order. */
BITE_FORMULA double bite_conduction_log_above_one(double x, double inverse)
{
    double sum = 1.0 + x;
    return log(sum) + (x - (sum - 1.0)) * inverse;
}

/** Mean rise of a rectangular source on a half-space, sides 2 m and 2 l, is q l Abar(m/l)/k; Abar
 * of heat over a mirrored edge. ratio > 0. */
BITE_FORMULA double bite_conduction_rectangle(double ratio)
{
    double r = ratio;
    double root = sqrt(1.0 + r * r);
    /* r^2 + 1/r - (r + 1/r) root cancels for long and for short sources. With root - r = 1/(root +
     * r) and root - 1 = r^2/(root + 1) the same is -r/(root + r) - r/(root + 1), which never does,
     * and asinh(r) = log(1 + r + root - 1), asinh(1/r) = log(1 + (1 + root - r)/r). */
    double beyond = 1.0 / (root + r);
    double above = r / (root + 1.0);
    double along = bite_conduction_log_above_one(r + r * above, beyond);
    double across = bite_conduction_log_above_one((1.0 + beyond) / r, above);
    return 2.0 / M_PI * (along + r * across - (r * beyond + above) * (1.0 / 3.0));
}

/** Largest rise beside the path of a fast line source in a thin plate at distance y: 0.242 Q/(v d
 * rho c y), from sqrt(1/(2 pi e)).
 */
BITE_FORMULA double bite_conduction_plate_peak(double power, double speed, double thickness,
                                               double conductivity, double diffusivity,
                                               double distance)
{
    double volumetric = conductivity / diffusivity;
    return power / (speed * thickness * volumetric * distance) * sqrt(1.0 / (2.0 * M_PI * M_E));
}

#endif
