/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The arc of contact of a straight pass and of an inside corner. */
#ifndef BITE_PHYSICS_GEOMETRY_ENGAGEMENT_H
#define BITE_PHYSICS_GEOMETRY_ENGAGEMENT_H

#include "core/base/lane_math.h"
#include <coolbite/coolbite.h>

/** Arc of contact. phi from +y in the sense of rotation: 0 on the wall at +y (conventional), pi on
 * the wall at -y (climb). rad. */
typedef struct bite_arc {
    double enter;
    double leave;
    double corner; /* finished radius of an inside corner, m; 0: a straight pass */
} bite_arc;

/** The span, rad, of a straight pass of radial width ae: acos(1 - 2 ae/D), pi from D on. */
BITE_FORMULA double bite_engagement_span_of_width(double diameter, double width)
{
    double share = bite_smaller(2.0, 2.0 * width / diameter);
    double span = acos(1.0 - share);
    return width >= diameter ? M_PI : span;
}

/** The span of a tool that stops in a corner, from that along the straight wall, rad. */
BITE_FORMULA double bite_engagement_dead_corner(double straight)
{
    return bite_smaller(3.0 * straight, 0.5 * M_PI + straight);
}

/** The radial width in an inside corner of finished radius Rc, before it is cut off at 2 r: a (2 Rc
 * - a)/(2 (Rc - r)), from the circle of the tool and the free face of the stock, of radius Rc - a.
 */
BITE_FORMULA double bite_engagement_corner_width(double diameter, double width,
                                                 double inside_radius)
{
    return width * (2.0 * inside_radius - width) / (2.0 * inside_radius - diameter);
}

/** The span, rad, in an inside corner of finished radius Rc, tool radius r, stock a on both walls:
 * that of the width above, or, where Rc <= r and the tool stops in the corner, min(3 phi_0, pi/2 +
 * phi_0) with phi_0 of the straight wall. Geometry; tests/reference rows C10 to C15. */
BITE_FORMULA double bite_engagement_span_in_corner(double diameter, double width,
                                                   double inside_radius)
{
    double straight = bite_engagement_span_of_width(diameter, width);
    int stops = 2.0 * inside_radius <= diameter;
    double wide =
        bite_smaller(diameter, bite_engagement_corner_width(diameter, width, inside_radius));
    double moving = bite_engagement_span_of_width(diameter, stops ? width : wide);
    double span = stops ? bite_engagement_dead_corner(straight) : moving;
    return width >= diameter ? straight : span;
}

/** Largest of sin(phi) over the arc: chip thickness / feed per tooth. */
BITE_FORMULA double bite_engagement_sine_most_of(double enter, double leave, double enter_sine,
                                                 double leave_sine)
{
    double end = bite_larger(enter_sine, leave_sine);
    return ((enter <= 0.5 * M_PI) & (leave >= 0.5 * M_PI)) ? 1.0 : end;
}

#endif
