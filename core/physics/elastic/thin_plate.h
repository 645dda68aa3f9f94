/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * How far thin parts give way: walls, floors and strips under a point load.
 *
 * w = alpha P L^2/D, D = E h^3/(12 (1 - nu^2)); of a strip, a beam, see below. The alphas of plates
 * depend on the ratio of their sides; between the ratios of the tables they are straight in the
 * ratio's logarithm. For nu of 0.3; at 0.37 they are 4 to 7 % larger. Deflections beyond half the
 * thickness are overstated: plates stiffen.
 */
#ifndef BITE_PHYSICS_ELASTIC_THIN_PLATE_H
#define BITE_PHYSICS_ELASTIC_THIN_PLATE_H

/** D, N m. */
double bite_plate_rigidity(double modulus, double poisson, double thickness);

/** A free-standing wall, clamped at its foot: alpha at the middle of the top edge and at its end,
 * by length/height. L^2: height^2.
 */
double bite_plate_wall_middle(double length_over_height);
double bite_plate_wall_end(double length_over_height);
/** A wall of a pocket: both sides and the foot clamped, load at the middle of the top edge. */
double bite_plate_pocket_wall(double length_over_height);
/** A floor clamped all round, load at its middle, by long/short side. L^2: short side^2. */
double bite_plate_floor(double long_over_short);
/** A strip clamped at both ends, load at its middle, with the shear of a thick one: L^3/(192 E I) +
 * L/(4 k G A), I = b h^3/12, A = b h, k = 5/6, m/N (handbook form, recalled: beams with built-in
 * ends; held against a published cantilever, of which it is four, and against integrals). */
double bite_plate_strip(double modulus, double poisson, double span, double width,
                        double thickness);

#endif
