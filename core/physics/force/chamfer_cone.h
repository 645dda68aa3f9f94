/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The cone that cuts a chamfer along an edge: its arc of contact at a height, and the inverse.
 *
 * At the height z above the chamfer's lower end the cone's radius is r = r_b + z tan(taper), r_b =
 * tip/2 + below tan(taper), and the stock reaches z tan(taper) into it: cos(phi_s) = r_b/r. The
 * entering angle kappa of the edge is 90 degrees less the taper: over db = dz/cos(taper) it cuts a
 * chip of h cos(taper), dFt = (K h + Ke/cos(taper)) dz as on a tool with a corner radius
 * (core/physics/force/edge_strip.h), and the force normal to the edge splits into a radial part,
 * times cos(taper), and one that presses the part down, times sin(taper). Geometry; the section is
 * depth^2 tan(taper)/2.
 *
 * In an inside corner whose wall has the radius R at the chamfer's lower end the tool's axis moves
 * on a circle of radius R - r_b, and with w = z tan(taper) a slice is in contact over
 * sin^2(phi_s/2) = w (2 R + w)/(4 (R - r_b) r): more than along a straight edge, where R is
 * infinite. If R <= r_b the tool stops in the corner.
 */
#ifndef BITE_PHYSICS_FORCE_CHAMFER_CONE_H
#define BITE_PHYSICS_FORCE_CHAMFER_CONE_H

#include "core/physics/geometry/engagement.h"

typedef struct bite_cone {
    double depth;  /* of the chamfer along the axis, m */
    double slope;  /* tan(taper) */
    double sine;   /* of kappa */
    double cosine; /* of kappa */
    double small;  /* r_b, m: the radius at the chamfer's lower end */
    double large;  /* m, at its upper end */
    double inside; /* R, m: of the corner's wall at the lower end; INFINITY: a straight edge */
} bite_cone;

/** The conical tool and its position in the chamfer that it cuts. */
typedef struct bite_chamfer_shape {
    double depth;        /* m, of the chamfer along the axis */
    double taper;        /* rad, half angle of the cone */
    double tip_diameter; /* m, of the flat at the tip */
    double tip_below;    /* m, of the tip below the chamfer's lower end */
} bite_chamfer_shape;

/** The cone along a straight edge. */
BITE_FORMULA bite_cone bite_chamfer_cone(const bite_chamfer_shape *shape)
{
    double slope = tan(shape->taper);
    double small = 0.5 * shape->tip_diameter + shape->tip_below * slope;
    bite_cone cone = {
        .depth = shape->depth,
        .slope = slope,
        .sine = 1.0 / sqrt(1.0 + slope * slope), /* cos(taper), below a right angle */
        .cosine = slope / sqrt(1.0 + slope * slope),
        .small = small,
        .large = small + shape->depth * slope,
        .inside = (double)INFINITY,
    };
    return cone;
}

/** Height of the centroid of the removed section above the tip, m: two thirds up the triangle. */
BITE_FORMULA double bite_chamfer_load(const bite_chamfer_shape *shape)
{
    return shape->tip_below + 2.0 / 3.0 * shape->depth;
}

/** sin(span/2) at a height above the cone's thin end, from 1 - cos = 2 sin^2 of half the angle,
 * without cancellation at a thin end: w/(2 r), w = z tan(taper), along a straight edge. */
BITE_FORMULA double bite_cone_half_sine_straight(const bite_cone *cone, double height)
{
    double width = height * cone->slope;
    return sqrt(0.5 * width / (cone->small + width));
}

/** The width of the stock along a straight edge whose arc would be as long as that of an inside
 * corner at a height, m: sin^2(span/2) times the cone's diameter there. Larger than the diameter
 * where more than half a turn would be cut. Where the tool stops in the corner the half angle is
 * that of bite_engagement_dead_corner, by the sines of three times the angle and of the angle and
 * pi/4. */
BITE_FORMULA double bite_cone_width_in_corner(const bite_cone *cone, double height)
{
    double width = height * cone->slope;
    double straight = bite_cone_half_sine_straight(cone, height);
    double square = straight * straight;
    double moving = width * (cone->inside + 0.5 * width) / (cone->inside - cone->small);
    double thrice = straight * (3.0 - 4.0 * square);
    double farther = sqrt(0.5) * (straight + sqrt(1.0 - square));
    /* 3 phi_0 = pi/2 + phi_0 at phi_0 = pi/4 */
    double stopped = square < 0.5 * (1.0 - sqrt(0.5)) ? thrice : farther;
    double diameter = 2.0 * (cone->small + width);
    return cone->inside <= cone->small ? diameter * stopped * stopped : fabs(moving);
}

/** sin(span/2) in an inside corner. */
BITE_FORMULA double bite_cone_half_sine_in_corner(const bite_cone *cone, double height)
{
    double diameter = 2.0 * (cone->small + height * cone->slope);
    return sqrt(bite_smaller(1.0, bite_cone_width_in_corner(cone, height) / diameter));
}

/** The inverse of the arc along a straight edge: the height, m, above which a tooth at an angle
 * from the wall is in contact. half_sine: sin(away/2). */
BITE_FORMULA double bite_cone_height_straight(const bite_cone *cone, double half_sine)
{
    double square = half_sine * half_sine;
    return 2.0 * cone->small * square / ((1.0 - 2.0 * square) * cone->slope);
}

/** The same in a corner in which the tool moves: the cone's radius at that height, the radius R -
 * r_b of the path of the tool's axis and R form a triangle. */
BITE_FORMULA double bite_cone_height_moving(const bite_cone *cone, double half_sine)
{
    double path = cone->inside - cone->small;
    double along = cone->small + path * (1.0 - 2.0 * half_sine * half_sine);
    double more = 4.0 * path * cone->small * half_sine * half_sine;
    double root = sqrt(along * along + more);
    return (along > 0.0 ? more / (along + root) : root - along) / cone->slope;
}

/** The height at which the formula of the arc changes in a corner: the arc reaches half a turn, or,
 * if the tool stops in the corner, bite_engagement_dead_corner changes its branch, at a straight
 * arc of pi/4. m */
BITE_FORMULA double bite_cone_change_height(const bite_cone *cone)
{
    const double half_sine = 0.38268343236508977; /* sin(pi/8) */
    double moving = 2.0 * (cone->inside - cone->small) / cone->slope;
    double stopped = bite_cone_height_straight(cone, half_sine);
    return cone->inside > cone->small ? moving : stopped;
}

#endif
