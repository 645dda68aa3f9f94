/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A groove that is engraved with a conical tool: forces of a square end mill at the pressure on the
 * inclined edge. */
#include "core/physics/force/v_groove.h"
#include "core/physics/elastic/stepped_shaft.h"
#include <math.h>

/* Where the torsion by a uniform load is largest: z tan(taper)/tip. */
static const double torsion_most = 0.36602540378443865; /* (sqrt(3) - 1)/2 */

/* The error of a peak is proportional to the square of half a step: 0.1 %. */
#define STEPS 24

double bite_groove_width(const bite_groove *groove)
{
    return groove->tip_diameter + 2.0 * groove->depth * tan(groove->taper);
}

double bite_groove_mean_diameter(const bite_groove *groove)
{
    return groove->tip_diameter + groove->depth * tan(groove->taper);
}

bite_pressure bite_groove_pressure(const bite_pressure *pressure, double taper)
{
    double along = cos(taper);
    double down = sin(taper);
    bite_pressure inclined = *pressure;
    inclined.radial = pressure->radial * along;
    inclined.axial = pressure->axial - pressure->radial * down;
    inclined.edge_tangential = pressure->edge_tangential / along;
    inclined.edge_axial = (pressure->edge_axial - pressure->edge_radial * down) / along;
    inclined.fracture = pressure->fracture / along;
    return inclined; /* edge_radial is both divided and multiplied by cos(taper) */
}

/* Stress at a height above the tip. */
static double stress_at(const bite_groove *groove, double core_share, double side, double torque,
                        int ductile, double height)
{
    double slope = tan(groove->taper);
    double in = fmin(height, groove->depth);
    double moment = side / groove->depth * in * (height - 0.5 * in);
    double turned = (groove->tip_diameter + slope * in) * in;
    double whole = bite_groove_mean_diameter(groove) * groove->depth;
    double wide = core_share * (groove->tip_diameter + 2.0 * height * slope);
    double cube = M_PI * wide * wide * wide;
    return bite_shaft_combined_stress(32.0 * moment / cube, 16.0 * torque * turned / (whole * cube),
                                      ductile);
}

double bite_groove_tip_stress(const bite_groove *groove, double diameter, double core_share,
                              double side, double torque, int ductile)
{
    double scale = groove->tip_diameter / tan(groove->taper);
    double cone = 0.5 * (diameter / groove->tip_diameter - 1.0) * scale;
    double low = fmin(groove->depth, torsion_most * scale);
    double high = groove->depth >= scale ? scale : 0.75 * groove->depth + 0.25 * scale;
    high = fmax(low, fmin(high, cone));
    double most = 0.0;
    for (int i = 0; i <= STEPS; i++) {
        double height = low * pow(high / low, (double)i / STEPS);
        most = fmax(most, stress_at(groove, core_share, side, torque, ductile, height));
    }
    return most;
}
