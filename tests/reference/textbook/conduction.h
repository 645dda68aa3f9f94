/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Closed forms of conduction that the engine does not use: they verify reference rows and other
 * tests. SI units; a rise is in K above the initial temperature. */
#ifndef BITE_TESTS_REFERENCE_TEXTBOOK_CONDUCTION_H
#define BITE_TESTS_REFERENCE_TEXTBOOK_CONDUCTION_H

/** Trailing edge of a moving band: rise = 2 q a/(pi k v) J(L), J = z e^z (K0(z) + K1(z)) - 1, z = 2
 * L, L = v l/(2 a) (Jaeger 1942). peclet: L > 0. */
double textbook_conduction_band(double peclet);

/** sqrt(k rho c), W s^0.5/(m2 K). */
double textbook_conduction_effusivity(double conductivity, double density, double heat_capacity);
/** Temperature of two bodies in sudden contact: (e1 T1 + e2 T2)/(e1 + e2). */
double textbook_conduction_contact(double effusivity_1, double temperature_1, double effusivity_2,
                                   double temperature_2);

/** Half-space under a constant flux q from t = 0: rise at depth z >= 0. */
double textbook_conduction_flux(double flux, double conductivity, double diffusivity, double time,
                                double depth);
/** Half-space after a plane pulse E (J/m2) at its surface: rise at a depth. */
double textbook_conduction_pulse(double energy, double density, double heat_capacity,
                                 double diffusivity, double time, double depth);
/** Surface of a half-space in a flow: the fraction of the temperature difference that it has
 * reached, 1 - exp(B^2) erfc(B), B = h sqrt(a t)/k. */
double textbook_conduction_convected(double transfer, double conductivity, double diffusivity,
                                     double time);
/** A skin heated evenly to `depth`, insulated outside: the fraction of its rise that is left at the
 * surface, erf(depth/sqrt(4 a t)). */
double textbook_conduction_skin(double depth, double diffusivity, double time);

/** Rise in a thick body: Q/(2 pi k r) exp(-v (xi + r)/(2 a)), xi ahead of the source, r the
 * distance from it. */
double textbook_conduction_thick(double power, double speed, double conductivity,
                                 double diffusivity, double ahead, double distance);

/** Rate constant of a lumped body, 1/s: h A/(rho c V). */
double textbook_conduction_lumped(double transfer, double area, double density,
                                  double heat_capacity, double volume);

/** Loewen and Shaw 1954: the fraction R1 of the shear heat that the chip takes if the shear plane
 * is a moving band: 1/(1 + 1.328 sqrt(a eps/(v h))). */
double textbook_conduction_loewen_chip(double diffusivity, double strain, double speed,
                                       double chip);
/** Cook 1973: mean rise at the interface for metals, 0.4 u/(rho c) (v h/a)^0.333; not for plastics.
 */
double textbook_conduction_cook(double specific_energy, double volumetric_heat, double speed,
                                double chip, double diffusivity);
/** Largest rise by friction on the rake face if all of the heat goes into the chip: 1.13
 * (P_f/b)/sqrt(rho c v h k (1 + tan(phi - rake))). */
double textbook_conduction_rake(double power_per_width, double volumetric_heat, double speed,
                                double chip, double conductivity, double shear_angle, double rake);

/** Stress for each kelvin in a skin that cannot move: E alpha/(1 - nu), Pa/K. */
double textbook_conduction_held_stress(double modulus, double expansion, double poisson);

#endif
