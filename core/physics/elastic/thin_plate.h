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

#include "core/base/lane_math.h"

typedef struct bite_plate_knot {
    double ratio; /* of the sides */
    double alpha;
} bite_plate_knot;

/** alpha at a ratio; that of the nearest knot beyond both ends, and of the first one for NaN. */
BITE_FORMULA double bite_plate_alpha(const bite_plate_knot *knots, int count, double ratio)
{
    double within = bite_within(ratio, knots[0].ratio, knots[count - 1].ratio);
    bite_plate_knot low = knots[0];
    bite_plate_knot high = knots[1];
    for (int i = 1; i < count - 1; i++) {
        int beyond = within > knots[i].ratio;
        low.ratio = beyond ? knots[i].ratio : low.ratio;
        low.alpha = beyond ? knots[i].alpha : low.alpha;
        high.ratio = beyond ? knots[i + 1].ratio : high.ratio;
        high.alpha = beyond ? knots[i + 1].alpha : high.alpha;
    }
    double share = log(within / low.ratio) / log(high.ratio / low.ratio);
    return low.alpha + share * (high.alpha - low.alpha);
}

/** The same of a wall: one less than half as long as high bends as a beam: alpha (1 - nu^2) B =
 * H/3, so alpha is proportional to 1/B. */
BITE_FORMULA double bite_plate_beam_or(const bite_plate_knot *knots, int count, double ratio)
{
    double alpha = bite_plate_alpha(knots, count, ratio);
    return ratio < knots[0].ratio ? alpha * knots[0].ratio / ratio : alpha;
}

/** Flexural rigidity D, N m. */
BITE_FORMULA double bite_plate_rigidity(double modulus, double poisson, double thickness)
{
    return modulus * thickness * thickness * thickness / (12.0 * (1.0 - poisson * poisson));
}

/* Free-standing walls and walls of pockets: Ritz solutions (Legendre polynomials) that reproduce
 * Timoshenko's clamped square within 0.3 % (estimate: derived); a long wall's middle 0.168
 * (Jaramillo 1950; memory). */

/** A free-standing wall, clamped at its foot: alpha at the middle of the top edge and at its end,
 * by length/height. L is the height. */
BITE_FORMULA double bite_plate_wall_middle(double length_over_height)
{
    static const bite_plate_knot knots[] = {{0.5, 0.708}, {1.0, 0.362}, {1.5, 0.257}, {2.0, 0.212},
                                            {3.0, 0.178}, {4.0, 0.170}, {8.0, 0.168}};
    return bite_plate_beam_or(knots, sizeof knots / sizeof *knots, length_over_height);
}

BITE_FORMULA double bite_plate_wall_end(double length_over_height)
{
    static const bite_plate_knot knots[] = {{0.5, 0.782}, {1.0, 0.491}, {1.5, 0.433},
                                            {2.0, 0.420}, {3.0, 0.417}, {4.0, 0.417}};
    return bite_plate_beam_or(knots, sizeof knots / sizeof *knots, length_over_height);
}

/** A wall of a pocket: both sides and the foot clamped, load at the middle of the top edge. One
 * less than half as long as high is supported by its sides alone: a strip of its length. */
BITE_FORMULA double bite_plate_pocket_wall(double length_over_height)
{
    static const bite_plate_knot knots[] = {{0.5, 0.0064}, {1.0, 0.0258}, {1.5, 0.0571},
                                            {2.0, 0.0932}, {3.0, 0.1434}, {4.0, 0.1606},
                                            {8.0, 0.168}};
    double share = bite_smaller(length_over_height / knots[0].ratio, 1.0);
    return bite_plate_alpha(knots, sizeof knots / sizeof *knots, length_over_height) * share *
           share;
}

/** A floor clamped on all sides, load at its middle, by long/short side. L is the short side.
 * Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells (the square read, the rest
 * recalled). */
BITE_FORMULA double bite_plate_floor(double long_over_short)
{
    static const bite_plate_knot knots[] = {
        {1.0, 0.00560}, {1.2, 0.00647}, {1.5, 0.0070}, {2.0, 0.0072}};
    return bite_plate_alpha(knots, sizeof knots / sizeof *knots,
                            bite_larger(long_over_short, 1.0 / long_over_short));
}

/** Side of a clamped square, m, that bends under a load at its middle as a large plate on a support
 * of that stiffness per area, Pa/m, does: P l^2/(8 D), l^4 = D/k (Timoshenko and Woinowsky-Krieger,
 * chapter 8, infinite plate on an elastic foundation; the constant recalled, checked by
 * integration). The smaller of this and the floor's own span is never too small: a floor of both
 * kinds bends less. */
BITE_FORMULA double bite_plate_supported_span(double rigidity, double support)
{
    return sqrt(sqrt(rigidity / support) / (8.0 * bite_plate_floor(1.0)));
}

/** Sag of a floor clamped on all sides under pressure, m: 0.0284 p a^4/(E h^3 (1.056 (a/b)^5 + 1)),
 * a the shorter side (Mechanical Engineer's Data Handbook, 1.10.2). */
BITE_FORMULA double bite_plate_floor_sag(double pressure, double modulus, double thickness,
                                         double across, double along)
{
    double ratio = across / along;
    double fourth = across * across * across * across;
    double fifth = ratio * ratio * ratio * ratio * ratio;
    return 0.0284 * pressure * fourth /
           (modulus * thickness * thickness * thickness * (1.056 * fifth + 1.0));
}

/** A strip clamped at both ends, load at its middle, shear deflection included: L^3/(192 E I) +
 * L/(4 k G A), I = b h^3/12, A = b h, k = 5/6, m/N (handbook form, recalled: beams with built-in
 * ends; checked against a published cantilever, of which it is four, and against integrals). */
BITE_FORMULA double bite_plate_strip(double modulus, double poisson, double span, double width,
                                     double thickness)
{
    const double shear_share = 5.0 / 6.0; /* of a rectangle */
    double inertia = width * thickness * thickness * thickness / 12.0;
    double shear_modulus = modulus / (2.0 * (1.0 + poisson));
    return span * span * span / (192.0 * modulus * inertia) +
           span / (4.0 * shear_share * shear_modulus * width * thickness);
}

#endif
