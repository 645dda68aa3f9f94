/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The orthogonal cut of one shear plane, and its oblique transformation. Angles in rad, forces in
 * N, stresses in Pa. */
#ifndef BITE_PHYSICS_FORCE_ORTHOGONAL_CUTTING_H
#define BITE_PHYSICS_FORCE_ORTHOGONAL_CUTTING_H

/** Shear angle from the chip ratio (chip thickness after / before): tan(phi) = rc cos(g)/(1 - rc
 * sin(g)), rc = 1/chip_ratio. */
double bite_orthogonal_shear_angle(double chip_ratio, double rake);
/** Shear strain: cot(phi) + tan(phi - g). */
double bite_orthogonal_strain(double shear_angle, double rake);
/** Shear angle by least work, pi/4 - (b - g)/2 (Merchant), and by slip lines, pi/4 + g - b (Lee and
 * Shaffer). */
double bite_orthogonal_merchant(double friction_angle, double rake);
double bite_orthogonal_slip_line(double friction_angle, double rake);

/** Cutting and thrust force resolved on the shear plane and on the rake. */
typedef struct bite_resolved {
    double shear;
    double shear_normal;
    double friction;
    double rake_normal;
} bite_resolved;
bite_resolved bite_orthogonal_resolve(double cutting, double thrust, double shear_angle,
                                      double rake);

/** Cutting and thrust force of a chip of thickness h and width b: tau b h/sin(phi) cos(beta -
 * g)/cos(phi + beta - g), and sin for thrust. */
void bite_orthogonal_forces(double shear_stress, double chip, double width, double shear_angle,
                            double friction_angle, double rake, double *cutting, double *thrust);

/** K / (shear strength) when the shear angle is Merchant's: 2 cos(b - g)/(1 - sin(b - g)), b =
 * atan(friction). */
double bite_orthogonal_merchant_pressure(double friction, double rake);

/** Oblique constants from orthogonal ones; inclination and chip flow both the helix (Armarego;
 * Stabler's rule). chip_ratio: after / before. */
typedef struct bite_oblique {
    double shear_angle;    /* phi_n */
    double friction_angle; /* beta_n */
    double tangential;     /* Pa */
    double radial;
    double axial;
} bite_oblique;
bite_oblique bite_orthogonal_oblique(double shear_stress, double friction_angle, double rake,
                                     double inclination, double chip_ratio);

/** axial/tangential of it: shear stress and shear angle cancel. */
double bite_orthogonal_axial_share(double friction_angle, double rake, double inclination);

/** Least chip / edge radius where the friction angle alone decides: 1 - cos(pi/4 - beta/2) (Son and
 * others 2005; memory). */
double bite_orthogonal_least_chip(double friction_angle);

#endif
