/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A groove that is engraved with a conical tool, in one pass over its whole width.
 *
 * At the height z above the tip the cone's radius is r = tip/2 + z tan(taper), and each slice cuts
 * a full slot: over half a turn it cuts a chip of h cos(taper) over db = dz/cos(taper), h = fz
 * sin(phi) as on a square tool. So dFt = (K h + Ke/cos(taper)) dz is the same at all heights, and
 * with straight flutes the forces are exactly those of a square end mill at the pressure on the
 * inclined edge: the force normal to the edge has a radial component, times cos(taper), and one
 * that presses the part down, times sin(taper). For a uniform load along the depth the lever of the
 * torque is that of the diameter at half of the depth, and the section is that diameter times the
 * depth. Geometry; derived as in core/physics/force/chamfer_mill.h, where the edge is in contact
 * over less than half a turn. Not modelled: the lag of a helix, which differs with the height; the
 * flat at the tip, whose end edge scrapes.
 */
#ifndef BITE_PHYSICS_FORCE_V_GROOVE_H
#define BITE_PHYSICS_FORCE_V_GROOVE_H

#include "core/physics/force/cutting_pressure.h"

typedef struct bite_groove {
    double depth;        /* m */
    double taper;        /* rad, half angle of the cone */
    double tip_diameter; /* m, of the flat at the tip */
} bite_groove;

/** Width of the groove at the surface, m: the largest cutting diameter. */
double bite_groove_width(const bite_groove *groove);

/** Diameter at half of the depth, m: the lever of the torque is half of it. */
double bite_groove_mean_diameter(const bite_groove *groove);

/** The pressure per length of the axis on an edge that is inclined by the taper. */
bite_pressure bite_groove_pressure(const bite_pressure *pressure, double taper);

/**
 * Largest stress in the cone above its tip under a load that is uniform along the depth, Pa.
 *
 * At the height z bending is 32 M/(pi d^3) with M = side/depth z^2/2, above the surface side (z -
 * depth/2), and torsion 16 T/(pi d^3) with the share of the torque that acts below, (tip z + z^2
 * tan(taper))/(mean diameter depth); d = core_share (tip + 2 z tan(taper)). Bending is largest
 * where z tan(taper) = tip, or, if the groove is shallower, at 3/4 depth + tip/(4 tan(taper));
 * torsion where z tan(taper) = (sqrt(3) - 1)/2 tip: the largest sum is searched for between the two
 * heights, within the cone. Derived here. side: N; torque: N m; diameter: of the tool, m; ductile:
 * von Mises, otherwise principal stress.
 */
double bite_groove_tip_stress(const bite_groove *groove, double diameter, double core_share,
                              double side, double torque, int ductile);

#endif
