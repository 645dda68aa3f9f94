/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Deflection of thin sections: walls, floors and strips under a point load.
 *
 * w = alpha P L^2/D, D = E h^3/(12 (1 - nu^2)); a strip is a beam, see below. The alphas of plates
 * depend on the ratio of their sides and are interpolated in the logarithm of that ratio. They are
 * for nu of 0.3; at 0.37 they are 4 to 7 % larger. Deflections above half the thickness are
 * overstated, since plates stiffen.
 */
#ifndef BITE_PHYSICS_ELASTIC_THIN_PLATE_H
#define BITE_PHYSICS_ELASTIC_THIN_PLATE_H

/** Flexural rigidity D, N m. */
double bite_plate_rigidity(double modulus, double poisson, double thickness);

/** A free-standing wall, clamped at its foot: alpha at the middle of the top edge and at its end,
 * by length/height. L is the height. */
double bite_plate_wall_middle(double length_over_height);
double bite_plate_wall_end(double length_over_height);
/** A wall of a pocket: both sides and the foot clamped, load at the middle of the top edge. */
double bite_plate_pocket_wall(double length_over_height);
/** A floor clamped on all sides, load at its middle, by long/short side. L is the short side. */
double bite_plate_floor(double long_over_short);
/** A strip clamped at both ends, load at its middle, shear deflection included: L^3/(192 E I) +
 * L/(4 k G A), I = b h^3/12, A = b h, k = 5/6, m/N (handbook form, recalled: beams with built-in
 * ends; checked against a published cantilever, of which it is four, and against integrals). */
double bite_plate_strip(double modulus, double poisson, double span, double width,
                        double thickness);

#endif
