/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Formulas for the orthogonal cut that the engine does not use: they verify reference rows and
 * other tests. Angles in rad, forces in N, stresses in Pa. */
#ifndef BITE_TESTS_REFERENCE_TEXTBOOK_ORTHOGONAL_H
#define BITE_TESTS_REFERENCE_TEXTBOOK_ORTHOGONAL_H

/** Shear strain: cot(phi) + tan(phi - g). */
double textbook_orthogonal_strain(double shear_angle, double rake);
/** Shear angle by least work, pi/4 - (b - g)/2 (Merchant), and by slip lines, pi/4 + g - b (Lee and
 * Shaffer). */
double textbook_orthogonal_merchant(double friction_angle, double rake);
double textbook_orthogonal_slip_line(double friction_angle, double rake);

/** Cutting and thrust force resolved on the shear plane and on the rake face, N. */
typedef struct textbook_resolved {
    double shear;
    double shear_normal;
    double friction;
    double rake_normal;
} textbook_resolved;
textbook_resolved textbook_orthogonal_resolve(double cutting, double thrust, double shear_angle,
                                              double rake);

/** Cutting and thrust force of a chip of thickness h and width b: tau b h/sin(phi) cos(beta -
 * g)/cos(phi + beta - g), and sin for the thrust. */
void textbook_orthogonal_forces(double shear_stress, double chip, double width, double shear_angle,
                                double friction_angle, double rake, double *cutting,
                                double *thrust);

/** Oblique constants from orthogonal ones; inclination and chip flow are both the helix angle
 * (Armarego; Stabler's rule). chip_ratio: thickness after / before. */
typedef struct textbook_oblique {
    double shear_angle;    /* phi_n */
    double friction_angle; /* beta_n */
    double tangential;     /* Pa */
    double radial;         /* Pa */
    double axial;          /* Pa */
} textbook_oblique;
textbook_oblique textbook_orthogonal_oblique(double shear_stress, double friction_angle,
                                             double rake, double inclination, double chip_ratio);

/** Smallest chip over edge radius if the friction angle alone decides: 1 - cos(pi/4 - beta/2) (Son
 * and others 2005; memory). */
double textbook_orthogonal_least_chip(double friction_angle);

#endif
