/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Forces of a chamfer along an edge, milled with a conical tool.
 *
 * At the height z above the chamfer's lower end the cone's radius is r = r_b + z tan(taper), r_b =
 * tip/2 + below tan(taper), and the stock reaches z tan(taper) into it: cos(phi_s) = r_b/r. The
 * entering angle kappa of the edge is 90 degrees less the taper: over db = dz/cos(taper) it cuts a
 * chip of h cos(taper), dFt = (K h + Ke/cos(taper)) dz as on a tool with a corner radius
 * (tests/oracle/closed_forms/corner_radius_mill.h), and the force normal to the edge splits into a
 * radial part, times cos(taper), and one that presses the part down, times sin(taper). Geometry;
 * the section is depth^2 tan(taper)/2.
 *
 * In an inside corner whose wall has the radius R at the chamfer's lower end the tool's axis moves
 * on a circle of radius R - r_b, and with w = z tan(taper) a slice is in contact over
 * sin^2(phi_s/2) = w (2 R + w)/(4 (R - r_b) r): more than along a straight edge, where R is
 * infinite. If R <= r_b the tool stops in the corner.
 */
#ifndef BITE_TESTS_ORACLE_CHAMFER_MILL_H
#define BITE_TESTS_ORACLE_CHAMFER_MILL_H

#include "tests/oracle/closed_forms/cone_heights.h"
#include "tests/oracle/closed_forms/corner_radius_mill.h"

/** Largest chip thickness of the heavy tooth, normal to the edge, m, at a height of `share` of the
 * depth above the thin end. chip: of the arc at the upper end. */
double bite_chamfer_chip(const bite_cone *cone, const bite_chip *chip, bite_side side,
                         double share);

typedef struct bite_chamfer_tool {
    bite_chamfer_shape shape;
    double diameter;   /* m, of the tool over its flutes */
    double helix;      /* rad */
    double least_chip; /* h_min, m */
    bite_side side;
} bite_chamfer_tool;

/** Fills *sum. Its wall is the face of the chamfer, at the height of the load. arc: at the upper
 * end; chip: of that arc. */
void bite_chamfer_forces(const bite_chamfer_tool *tool, bite_arc arc, const bite_chip *chip,
                         const bite_pressure *pressure, bite_corner_mill *sum);

#endif
