/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A chamfer along an edge, milled with a cone.
 *
 * At the height z above the chamfer's lower end the cone's radius is r = r_b + z tan(taper), r_b =
 * tip/2 + below tan(taper), and the stock reaches z tan(taper) into it: cos(phi_s) = r_b/r. The
 * edge's entering angle kappa is 90 degrees less the taper: over db = dz/cos(taper) it meets a chip
 * of h cos(taper), dFt = (K h + Ke/cos(taper)) dz as on a rounded tool
 * (core/physics/force/corner_radius_mill.h), and the force normal to it splits into a radial part,
 * times cos(taper), and one that presses the part down, times sin(taper). Geometry; the section is
 * depth^2 tan(taper)/2.
 *
 * In an inside corner whose wall has the radius R at the chamfer's lower end the tool's middle goes
 * round at R - r_b, and with w = z tan(taper) a slice touches over sin^2(phi_s/2) = w (2 R + w)/(4
 * (R - r_b) r): more than along a straight edge, where R is infinite. Where R <= r_b the tool stops
 * dead in the corner.
 */
#ifndef BITE_PHYSICS_FORCE_CHAMFER_MILL_H
#define BITE_PHYSICS_FORCE_CHAMFER_MILL_H

#include "core/physics/force/corner_radius_mill.h"

typedef struct bite_cone {
    double depth;  /* of the chamfer along the axis, m */
    double slope;  /* tan(taper) */
    double sine;   /* of kappa */
    double cosine; /* of kappa */
    double small;  /* r_b, m: the radius at the chamfer's lower end */
    double large;  /* m, at its upper end */
    double inside; /* R, m: of the corner's wall at the lower end; INFINITY: a straight edge */
} bite_cone;

/** On a straight edge. tip_diameter, tip_below, taper and depth filled. */
bite_cone bite_chamfer_cone(const bite_cut *cut);

/** Along a straight pass or in a corner, as the arc of the upper end is. */
bite_cone bite_chamfer_cone_in(const bite_cut *cut, bite_arc arc);

/** What is removed across the feed, m2: in a corner for each m that the tool's middle goes. */
double bite_chamfer_section(const bite_cone *cone);

/** The largest diameter that cuts: of a chamfer twice the cone's large radius, else the tool's. */
double bite_cutting_diameter(const bite_cut *cut);

/** Where the middle of what is removed stands above the tip, m: two thirds up the triangle. */
double bite_chamfer_load(const bite_cut *cut);

/** Largest chip of the heavy tooth at a share of the depth above the thin end, square to the edge,
 * m. chip: of the upper end's arc.
 */
double bite_chamfer_chip(const bite_cone *cone, const bite_chip *chip, bite_side side,
                         double share);

/** Fills sum; its wall is the chamfer's face, at the height of the load. chip: of that arc. All
 * defaults of cut filled. */
void bite_chamfer_forces(const bite_cut *cut, bite_arc arc, const bite_chip *chip,
                         const bite_pressure *pressure, bite_corner_mill *sum);

#endif
