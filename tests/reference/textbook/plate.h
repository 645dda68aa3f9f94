/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Formulas for plates under a point load and for warp that the engine does not use: they verify
 * reference rows and other tests. */
#ifndef BITE_TESTS_REFERENCE_TEXTBOOK_PLATE_H
#define BITE_TESTS_REFERENCE_TEXTBOOK_PLATE_H

/** A simply supported plate with a load at the middle: alpha of w = alpha P b^2/(E h^3) (Roark, 7th
 * ed., table 11.4, case 1b). */
double textbook_plate_supported(double long_over_short);
/** A round plate of radius a, clamped or supported: alpha of w = alpha P a^2/D. */
double textbook_plate_round(double poisson, int clamped);
/** A plate on an elastic layer, k in N/m3, load far from the edges: w = P/(8 sqrt(k D)), m/N. */
double textbook_plate_bedded(double layer, double rigidity);

/** Curvature, 1/m, from a stress that is linear from +s on one face to -s on the other while the
 * sheet is held flat: kappa = 2 (1 - nu) s/(E h). */
double textbook_warp_slope(double modulus, double poisson, double face_stress, double thickness);

/** Curvature, 1/m, from a thin stressed skin of tension F (stress x depth, N/m) on one face (Stoney
 * 1909): kappa = 6 (1 - nu) F/(E h^2). */
double textbook_warp_skin(double modulus, double poisson, double tension, double thickness);

/** Strain of the faces of a part that is pressed flat: 4 h d/L^2. */
double textbook_warp_flattened(double thickness, double bow, double span);

#endif
