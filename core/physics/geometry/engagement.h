/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The arc of contact of a straight pass and of an inside corner. */
#ifndef BITE_PHYSICS_GEOMETRY_ENGAGEMENT_H
#define BITE_PHYSICS_GEOMETRY_ENGAGEMENT_H

#include <coolbite/coolbite.h>

/** Arc of contact. phi from +y in the sense of rotation: 0 on the wall at +y (conventional), pi on
 * the wall at -y (climb). rad. */
typedef struct bite_arc {
    double enter;
    double leave;
    double corner; /* finished radius of an inside corner, m; 0: a straight pass */
} bite_arc;

/** The arc of a straight pass with this span, rad. */
bite_arc bite_engagement_arc(double span, bite_side side);

/** Straight pass of radial width ae (<= D): phi_s = acos(1 - 2 ae/D). */
bite_arc bite_engagement_straight(double diameter, double width, bite_side side);

/**
 * Inside corner of finished radius Rc, tool radius r, stock a on both walls.
 *
 * Rc > r: ae = a (2 Rc - a)/(2 (Rc - r)), at most 2 r, from the circle of the tool and the
 * free face of the stock, of radius Rc - a. Rc <= r: the tool stops in the corner; the arc is min(3
 * phi_0, pi/2 + phi_0) with phi_0 of the straight wall. Geometry; tests/reference rows C10 to C15.
 */
bite_arc bite_engagement_corner(double diameter, double width, bite_side side,
                                double inside_radius);

/** The span of a tool that stops in a corner, from that along the straight wall, rad. */
double bite_engagement_dead_corner(double straight);

/** The radial width of the corner formula above, before it is cut off at 2 r. */
double bite_engagement_corner_width(double diameter, double width, double inside_radius);

double bite_engagement_span(bite_arc arc);
/** Largest of sin(phi) over the arc, and its mean: chip thickness / feed per tooth. */
double bite_engagement_sine_most(bite_arc arc);
double bite_engagement_sine_mean(bite_arc arc);

#endif
