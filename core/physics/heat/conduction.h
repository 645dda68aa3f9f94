/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Closed forms of conduction: what heat does in the chip, the skin, the tool and the plate. SI;
 * rises are K above the start. */
#ifndef BITE_PHYSICS_HEAT_CONDUCTION_H
#define BITE_PHYSICS_HEAT_CONDUCTION_H

/**
 * Share of shear heat that stays in the work, Gamma(x), x = (v h/a) tan(phi) > 0.
 *
 * Weiner 1955 (from memory; checked here and in the reference rows against limits and a numerical
 * solution): with Y = x/4, erf(sqrt Y)/(4 Y) + (1 + Y) erfc(sqrt Y) - exp(-Y)/sqrt(pi) (1/(2 sqrt
 * Y) + sqrt Y). 1 at x -> 0, 1/x at x -> infinity.
 */
double bite_conduction_weiner(double x);

/** Mean rise of a rectangular source on a half-space, sides 2 m and 2 l, is q l Abar(m/l)/k; Abar
 * of heat over a mirrored edge. ratio > 0. */
double bite_conduction_rectangle(double ratio);

/** Trailing edge of a moving band: rise = 2 q a/(pi k v) J(L), J = z e^z (K0(z) + K1(z)) - 1, z = 2
 * L, L = v l/(2 a) (Jaeger 1942). L > 0. */
double bite_conduction_band(double peclet);

/** sqrt(k rho c), W s^0.5/(m2 K). */
double bite_conduction_effusivity(double conductivity, double density, double heat_capacity);
/** Sudden contact of two bodies: (e1 T1 + e2 T2)/(e1 + e2). */
double bite_conduction_contact(double effusivity_1, double temperature_1, double effusivity_2,
                               double temperature_2);

/** Half-space under a constant flux q from t = 0: rise at depth z >= 0. */
double bite_conduction_flux(double flux, double conductivity, double diffusivity, double time,
                            double depth);
/** Half-space after a plane pulse E (J/m2) at its surface. */
double bite_conduction_pulse(double energy, double density, double heat_capacity,
                             double diffusivity, double time, double depth);
/** Surface of a half-space in a stream: share of the difference that it has taken, 1 - exp(B^2)
 * erfc(B), B = h sqrt(a t)/k. */
double bite_conduction_convected(double transfer, double conductivity, double diffusivity,
                                 double time);
/** What is left at the surface of a skin heated evenly to `depth`, insulated: erf(depth/sqrt(4 a
 * t)). */
double bite_conduction_skin(double depth, double diffusivity, double time);

/** Largest rise beside the path of a fast line source in a thin plate at distance y: 0.242 Q/(v d
 * rho c y), from sqrt(1/(2 pi e)).
 */
double bite_conduction_plate_peak(double power, double speed, double thickness, double conductivity,
                                  double diffusivity, double distance);
/** Rise in a thin plate at (behind, aside) of a moving line source, both faces losing `transfer` in
 * sum, W/(m2 K); Rosenthal 1941.
 */
double bite_conduction_plate(double power, double speed, double thickness, double conductivity,
                             double diffusivity, double transfer, double ahead, double aside);
/** Rise in a thick body: Q/(2 pi k r) exp(-v (xi + r)/(2 a)), xi ahead of the source, r its
 * distance. */
double bite_conduction_thick(double power, double speed, double conductivity, double diffusivity,
                             double ahead, double distance);

/** Rate constant of a lumped body, 1/s: h A/(rho c V). */
double bite_conduction_lumped(double transfer, double area, double density, double heat_capacity,
                              double volume);

/** Loewen and Shaw 1954: share R1 of shear heat that the chip takes when the shear plane is a
 * moving band: 1/(1 + 1.328 sqrt(a eps/(v h))). */
double bite_conduction_loewen_chip(double diffusivity, double strain, double speed, double chip);
/** Cook 1973: mean interface rise of metals 0.4 u/(rho c) (v h/a)^0.333; not for plastics. */
double bite_conduction_cook(double specific_energy, double volumetric_heat, double speed,
                            double chip, double diffusivity);
/** Largest rise of rake friction when all of it goes into the chip: 1.13 (P_f/b)/sqrt(rho c v h k
 * (1 + tan(phi - rake))). */
double bite_conduction_rake(double power_per_width, double volumetric_heat, double speed,
                            double chip, double conductivity, double shear_angle, double rake);

/** Stress of a wholly held skin for each kelvin: E alpha/(1 - nu), Pa/K. */
double bite_conduction_held_stress(double modulus, double expansion, double poisson);

#endif
