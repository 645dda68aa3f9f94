/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Speeds, feeds and the removal rate of a straight pass: kinematics of DIN 6580, as in any
 * handbook.
 */
#ifndef BITE_PHYSICS_GEOMETRY_KINEMATICS_H
#define BITE_PHYSICS_GEOMETRY_KINEMATICS_H

#include "core/base/lane_math.h"

/** vc = pi D n. m, 1/s; m/s. */
BITE_FORMULA double bite_kinematics_surface_speed(double diameter, double spindle_speed)
{
    return M_PI * diameter * spindle_speed;
}

/** n = vc/(pi D). */
BITE_FORMULA double bite_kinematics_spindle_speed(double diameter, double surface_speed)
{
    return surface_speed / (M_PI * diameter);
}

/** fz = vf/(n z). */
BITE_FORMULA double bite_kinematics_tooth_feed(double feed_rate, double spindle_speed,
                                               double flutes)
{
    return feed_rate / (spindle_speed * flutes);
}

/** vf = n z fz. */
BITE_FORMULA double bite_kinematics_feed_rate(double tooth_feed, double spindle_speed,
                                              double flutes)
{
    return tooth_feed * spindle_speed * flutes;
}

/** Q = ap ae vf, m3/s. */
BITE_FORMULA double bite_kinematics_removal_rate(double depth, double width, double feed_rate)
{
    return depth * width * feed_rate;
}

/** Diameter that cuts at depth ap: D - 2 r + 2 sqrt(ap (2 r - ap)) under a corner of radius r, D
 * above it; r = D/2 is a ball. */
BITE_FORMULA double bite_kinematics_effective_diameter(double diameter, double corner_radius,
                                                       double depth)
{
    double under = bite_larger(0.0, depth * (2.0 * corner_radius - depth));
    double thinner = diameter - 2.0 * corner_radius + 2.0 * sqrt(under);
    return ((corner_radius > 0.0) & (depth < corner_radius)) ? thinner : diameter;
}

#endif
