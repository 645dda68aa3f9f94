/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Closed forms of heat conduction in the work, the tool and a thin plate. SI units; a rise is in K
 * above the start. */
#ifndef BITE_PHYSICS_HEAT_CONDUCTION_H
#define BITE_PHYSICS_HEAT_CONDUCTION_H

/**
 * Share of the shear heat that stays in the work, Gamma(x), x = (v h/a) tan(phi) > 0.
 *
 * Weiner 1955 (from memory; checked in the reference rows against limits and a numerical
 * solution): with Y = x/4, erf(sqrt Y)/(4 Y) + (1 + Y) erfc(sqrt Y) - exp(-Y)/sqrt(pi) (1/(2 sqrt
 * Y) + sqrt Y). 1 at x -> 0, 1/x at x -> infinity.
 */
double bite_conduction_weiner(double x);

/** Mean rise of a rectangular source on a half-space, sides 2 m and 2 l, is q l Abar(m/l)/k; Abar
 * of heat over a mirrored edge. ratio > 0. */
double bite_conduction_rectangle(double ratio);

/** Largest rise beside the path of a fast line source in a thin plate at distance y: 0.242 Q/(v d
 * rho c y), from sqrt(1/(2 pi e)).
 */
double bite_conduction_plate_peak(double power, double speed, double thickness, double conductivity,
                                  double diffusivity, double distance);

#endif
