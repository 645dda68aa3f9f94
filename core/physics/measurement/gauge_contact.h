/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the force of a gauge does to a part: it indents the surface, and bends a thin part. SI. */
#ifndef BITE_PHYSICS_MEASUREMENT_GAUGE_CONTACT_H
#define BITE_PHYSICS_MEASUREMENT_GAUGE_CONTACT_H

/** The modulus of a contact, Pa: 1/((1 - n1^2)/E1 + (1 - n2^2)/E2) (Hertz). */
double bite_contact_modulus(double modulus, double poisson, double gauge_modulus,
                            double gauge_poisson);

/** The approach of a ball and a flat, m: (9 F^2/(16 R E^2))^(1/3) (Hertz). radius: of the ball, m.
 * modulus: of the contact. */
double bite_contact_ball_depth(double force, double radius, double modulus);

/** The force at which a dent stays under the ball, N: the largest pressure, (6 F E^2/(pi^3
 * R^2))^(1/3), reaches 1.6 times the yield stress (Johnson, Contact Mechanics, for a Poisson ratio
 * of 0.3; memory). */
double bite_contact_ball_dent(double radius, double modulus, double yield);

/** Deflection of a strip on two supports under a force at its middle, m: F L^3/(48 E I), I =
 * b h^3/12. */
double bite_strip_deflection(double force, double span, double width, double thickness,
                             double modulus);

/** Sag of that strip under its own weight, m: 5 q L^4/(384 E I), q = density b h g. */
double bite_strip_sag(double span, double thickness, double modulus, double density);

#endif
