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
 * depth. Geometry; derived as in core/physics/force/chamfer_cone.h, where the edge is in contact
 * over less than half a turn. Not modelled: the lag of a helix, which differs with the height; the
 * flat at the tip, whose end edge scrapes.
 */
#ifndef BITE_PHYSICS_FORCE_V_GROOVE_H
#define BITE_PHYSICS_FORCE_V_GROOVE_H

#include "core/base/lane_math.h"
#include "core/physics/force/cutting_pressure.h"

typedef struct bite_groove {
    double depth;        /* m */
    double taper;        /* rad, half angle of the cone */
    double tip_diameter; /* m, of the flat at the tip */
} bite_groove;

/** Width of the groove at the surface, m: the largest cutting diameter. */
BITE_FORMULA double bite_groove_width(const bite_groove *groove)
{
    return groove->tip_diameter + 2.0 * groove->depth * tan(groove->taper);
}

/** Diameter at half of the depth, m: the lever of the torque is half of it. */
BITE_FORMULA double bite_groove_mean_diameter(const bite_groove *groove)
{
    return groove->tip_diameter + groove->depth * tan(groove->taper);
}

/** The pressure per length of the axis on an edge that is inclined by the taper. */
BITE_FORMULA bite_pressure bite_groove_pressure(const bite_pressure *pressure, double taper)
{
    double slope = tan(taper);
    double along = 1.0 / sqrt(1.0 + slope * slope); /* cos(taper), below a right angle */
    double down = slope * along;
    bite_pressure inclined = *pressure;
    inclined.radial = pressure->radial * along;
    inclined.axial = pressure->axial - pressure->radial * down;
    inclined.edge_tangential = pressure->edge_tangential / along;
    inclined.edge_axial = (pressure->edge_axial - pressure->edge_radial * down) / along;
    inclined.fracture = pressure->fracture / along;
    return inclined; /* edge_radial is both divided and multiplied by cos(taper) */
}

/*
 * The largest stress in the cone above its tip under a load that is uniform along the depth.
 *
 * At the height z bending is 32 M/(pi d^3) with M = side/depth z^2/2, above the surface side (z -
 * depth/2), and torsion 16 T/(pi d^3) with the share of the torque that acts below, (tip z + z^2
 * tan(taper))/(mean diameter depth); d = core_share (tip + 2 z tan(taper)). Bending is largest
 * where z tan(taper) = tip, or, if the groove is shallower, at 3/4 depth + tip/(4 tan(taper));
 * torsion where z tan(taper) = (sqrt(3) - 1)/2 tip: the largest sum is searched for between the two
 * heights, within the cone. Derived here.
 */

/** Heights, in a geometric series, among which the largest stress is searched for: the error of a
 * peak is proportional to the square of half a step, 0.1 %. */
#define BITE_GROOVE_STRESS_STEPS 24

/** The lowest and the highest of these heights above the tip, m. */
typedef struct bite_groove_heights {
    double low;
    double high;
} bite_groove_heights;

/** diameter: of the tool, m. */
BITE_FORMULA bite_groove_heights bite_groove_stress_heights(const bite_groove *groove,
                                                            double diameter)
{
    const double torsion_most = 0.36602540378443865; /* (sqrt(3) - 1)/2 */
    double scale = groove->tip_diameter / tan(groove->taper);
    double cone = 0.5 * (diameter / groove->tip_diameter - 1.0) * scale;
    double low = bite_smaller(groove->depth, torsion_most * scale);
    double high = groove->depth >= scale ? scale : 0.75 * groove->depth + 0.25 * scale;
    bite_groove_heights heights = {low, bite_larger(low, bite_smaller(high, cone))};
    return heights;
}

/** Bending and torsion at a height above the tip, Pa. */
typedef struct bite_groove_stress {
    double bending;
    double torsion;
} bite_groove_stress;

/** side: N; torque: N m. */
BITE_FORMULA bite_groove_stress bite_groove_stress_at(const bite_groove *groove, double core_share,
                                                      double side, double torque, double height)
{
    double slope = tan(groove->taper);
    double in = bite_smaller(height, groove->depth);
    double moment = side / groove->depth * in * (height - 0.5 * in);
    double turned = (groove->tip_diameter + slope * in) * in;
    double whole = bite_groove_mean_diameter(groove) * groove->depth;
    double wide = core_share * (groove->tip_diameter + 2.0 * height * slope);
    double cube = M_PI * wide * wide * wide;
    bite_groove_stress stress = {32.0 * moment / cube, 16.0 * torque * turned / (whole * cube)};
    return stress;
}

#endif
