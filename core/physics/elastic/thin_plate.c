/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Deflection of thin sections under a point load. */
#include "core/physics/elastic/thin_plate.h"
#include <math.h>
#include <stddef.h>

typedef struct knot {
    double ratio;
    double alpha;
} knot;

/* Free-standing walls and walls of pockets: Ritz solutions (Legendre polynomials) that reproduce
 * Timoshenko's clamped square within 0.3 % (estimate: derived); a long wall's middle 0.168
 * (Jaramillo 1950; memory). */
static const knot wall_middle[] = {{0.5, 0.708}, {1.0, 0.362}, {1.5, 0.257}, {2.0, 0.212},
                                   {3.0, 0.178}, {4.0, 0.170}, {8.0, 0.168}};
static const knot wall_end[] = {{0.5, 0.782}, {1.0, 0.491}, {1.5, 0.433},
                                {2.0, 0.420}, {3.0, 0.417}, {4.0, 0.417}};
static const knot pocket_wall[] = {{0.5, 0.0064}, {1.0, 0.0258}, {1.5, 0.0571}, {2.0, 0.0932},
                                   {3.0, 0.1434}, {4.0, 0.1606}, {8.0, 0.168}};
/* Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells (the square read, the rest
 * recalled). */
static const knot floor_clamped[] = {{1.0, 0.00560}, {1.2, 0.00647}, {1.5, 0.0070}, {2.0, 0.0072}};

/* Interpolates in the logarithm of the ratio; constant beyond both ends. */
static double alpha_at(const knot *knots, size_t count, double ratio)
{
    if (!(ratio > knots[0].ratio)) {
        return knots[0].alpha;
    }
    for (size_t i = 1; i < count; i++) {
        if (ratio <= knots[i].ratio) {
            double share =
                log(ratio / knots[i - 1].ratio) / log(knots[i].ratio / knots[i - 1].ratio);
            return knots[i - 1].alpha + share * (knots[i].alpha - knots[i - 1].alpha);
        }
    }
    return knots[count - 1].alpha;
}

#define COUNT(list) (sizeof list / sizeof *list)

double bite_plate_rigidity(double modulus, double poisson, double thickness)
{
    return modulus * thickness * thickness * thickness / (12.0 * (1.0 - poisson * poisson));
}

/* A wall less than half as long as high bends as a beam: alpha (1 - nu^2) B = H/3, so alpha is
 * proportional to 1/B. */
static double beam_or(const knot *knots, size_t count, double ratio)
{
    double alpha = alpha_at(knots, count, ratio);
    return ratio < knots[0].ratio ? alpha * knots[0].ratio / ratio : alpha;
}

double bite_plate_wall_middle(double length_over_height)
{
    return beam_or(wall_middle, COUNT(wall_middle), length_over_height);
}

double bite_plate_wall_end(double length_over_height)
{
    return beam_or(wall_end, COUNT(wall_end), length_over_height);
}

/* A wall less than half as long as high is supported by its sides alone: a strip of its length. */
double bite_plate_pocket_wall(double length_over_height)
{
    double share = fmin(1.0, length_over_height / pocket_wall[0].ratio);
    return alpha_at(pocket_wall, COUNT(pocket_wall), length_over_height) * share * share;
}

double bite_plate_floor(double long_over_short)
{
    return alpha_at(floor_clamped, COUNT(floor_clamped),
                    fmax(long_over_short, 1.0 / long_over_short));
}

double bite_plate_strip(double modulus, double poisson, double span, double width, double thickness)
{
    const double shear_share = 5.0 / 6.0; /* of a rectangle */
    double inertia = width * thickness * thickness * thickness / 12.0;
    double shear_modulus = modulus / (2.0 * (1.0 + poisson));
    return span * span * span / (192.0 * modulus * inertia) +
           span / (4.0 * shear_share * shear_modulus * width * thickness);
}
