/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Speeds, feeds and the removal rate of a straight pass: kinematics of DIN 6580, as in any
 * handbook.
 */
#include "core/physics/geometry/kinematics.h"
#include <math.h>

double bite_kinematics_surface_speed(double diameter, double spindle_speed)
{
    return M_PI * diameter * spindle_speed;
}

double bite_kinematics_spindle_speed(double diameter, double surface_speed)
{
    return surface_speed / (M_PI * diameter);
}

double bite_kinematics_tooth_feed(double feed_rate, double spindle_speed, double flutes)
{
    return feed_rate / (spindle_speed * flutes);
}

double bite_kinematics_feed_rate(double tooth_feed, double spindle_speed, double flutes)
{
    return tooth_feed * spindle_speed * flutes;
}

double bite_kinematics_removal_rate(double depth, double width, double feed_rate)
{
    return depth * width * feed_rate;
}

double bite_kinematics_effective_diameter(double diameter, double corner_radius, double depth)
{
    if (!(corner_radius > 0.0) || depth >= corner_radius) {
        return diameter;
    }
    return diameter - 2.0 * corner_radius + 2.0 * sqrt(depth * (2.0 * corner_radius - depth));
}
