/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Orthogonal cutting with a single shear plane, and its oblique transformation. Angles in rad,
 * forces in N, stresses in Pa. */
#ifndef BITE_PHYSICS_FORCE_ORTHOGONAL_CUTTING_H
#define BITE_PHYSICS_FORCE_ORTHOGONAL_CUTTING_H

/** Shear angle from the chip ratio (chip thickness after / before): tan(phi) = rc cos(g)/(1 - rc
 * sin(g)), rc = 1/chip_ratio. */
double bite_orthogonal_shear_angle(double chip_ratio, double rake);

/** K / (shear strength) at Merchant's shear angle: 2 cos(b - g)/(1 - sin(b - g)), b =
 * atan(friction). */
double bite_orthogonal_merchant_pressure(double friction, double rake);

/** Axial over tangential pressure by the oblique transformation; inclination and chip flow are both
 * the helix angle (Armarego; Stabler's rule), and shear stress and shear angle cancel. */
double bite_orthogonal_axial_share(double friction_angle, double rake, double inclination);

#endif
