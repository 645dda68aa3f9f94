/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The arc of contact: exact entry and exit angles. */
#include "core/physics/geometry/engagement.h"
#include <math.h>

bite_arc bite_engagement_arc(double span, bite_side side)
{
    bite_arc arc = {0.0, span, 0.0};
    if (side == BITE_CLIMB) {
        arc.enter = M_PI - span;
        arc.leave = M_PI;
    }
    return arc;
}

static double span_of_width(double diameter, double width)
{
    return width >= diameter ? M_PI : acos(1.0 - 2.0 * width / diameter);
}

bite_arc bite_engagement_straight(double diameter, double width, bite_side side)
{
    return bite_engagement_arc(span_of_width(diameter, width), side);
}

double bite_engagement_corner_width(double diameter, double width, double inside_radius)
{
    return width * (2.0 * inside_radius - width) / (2.0 * inside_radius - diameter);
}

double bite_engagement_dead_corner(double straight)
{
    return fmin(3.0 * straight, 0.5 * M_PI + straight);
}

static double span_in_corner(double diameter, double width, double inside_radius)
{
    double straight = span_of_width(diameter, width);
    if (width >= diameter) {
        return straight;
    }
    if (2.0 * inside_radius <= diameter) {
        return bite_engagement_dead_corner(straight);
    }
    return span_of_width(
        diameter, fmin(diameter, bite_engagement_corner_width(diameter, width, inside_radius)));
}

bite_arc bite_engagement_corner(double diameter, double width, bite_side side, double inside_radius)
{
    bite_arc arc = bite_engagement_arc(span_in_corner(diameter, width, inside_radius), side);
    arc.corner = inside_radius;
    return arc;
}

double bite_engagement_span(bite_arc arc)
{
    return arc.leave - arc.enter;
}

double bite_engagement_sine_most(bite_arc arc)
{
    return arc.enter <= 0.5 * M_PI && arc.leave >= 0.5 * M_PI
               ? 1.0
               : fmax(sin(arc.enter), sin(arc.leave));
}

double bite_engagement_sine_mean(bite_arc arc)
{
    return (cos(arc.enter) - cos(arc.leave)) / (arc.leave - arc.enter);
}
