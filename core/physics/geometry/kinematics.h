/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Speeds, feeds and the removal rate of a straight pass. */
#ifndef BITE_PHYSICS_GEOMETRY_KINEMATICS_H
#define BITE_PHYSICS_GEOMETRY_KINEMATICS_H

/** vc = pi D n. m, 1/s; m/s. */
double bite_kinematics_surface_speed(double diameter, double spindle_speed);
/** n = vc/(pi D). */
double bite_kinematics_spindle_speed(double diameter, double surface_speed);
/** fz = vf/(n z). */
double bite_kinematics_tooth_feed(double feed_rate, double spindle_speed, double flutes);
/** vf = n z fz. */
double bite_kinematics_feed_rate(double tooth_feed, double spindle_speed, double flutes);
/** Q = ap ae vf, m3/s. */
double bite_kinematics_removal_rate(double depth, double width, double feed_rate);

/** Diameter that cuts at depth ap: D - 2 r + 2 sqrt(ap (2 r - ap)) under a corner of radius r, D
 * above it; r = D/2 is a ball. */
double bite_kinematics_effective_diameter(double diameter, double corner_radius, double depth);

#endif
