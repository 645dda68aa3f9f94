/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Forces of a plain twist drill. */
#include "core/physics/force/twist_drill.h"
#include <math.h>

static const double chisel_share = 1.0; /* thrust of the chisel edge over that of the lips */

void bite_drill_forces(const bite_drill_shape *shape, double tooth_feed,
                       const bite_pressure *pressure, bite_drill *drill)
{
    double radius = 0.5 * shape->diameter;
    double slope = sin(0.5 * shape->point_angle);
    double step = shape->flutes > 1.0 ? fmin(tooth_feed, shape->runout * sin(M_PI / shape->flutes))
                                      : tooth_feed;
    drill->lip = radius / slope;
    drill->chip = tooth_feed * slope;
    drill->heavy_chip = (shape->flutes > 1.0 ? tooth_feed + step : tooth_feed) * slope;
    double lip_force =
        pressure->tangential * tooth_feed * radius + pressure->edge_tangential * drill->lip;
    double lip_normal = pressure->radial * tooth_feed * radius + pressure->edge_radial * drill->lip;
    drill->tangential = shape->flutes * lip_force;
    drill->torque = shape->flutes * lip_force * 0.5 * radius;
    drill->thrust = shape->flutes * lip_normal * slope * (1.0 + chisel_share);
    drill->side = pressure->tangential * step * radius;
}
