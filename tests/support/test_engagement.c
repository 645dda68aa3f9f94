/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The arc of contact of one cut. */
#include "tests/support/test_engagement.h"
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

bite_arc bite_engagement_straight(double diameter, double width, bite_side side)
{
    return bite_engagement_arc(bite_engagement_span_of_width(diameter, width), side);
}

bite_arc bite_engagement_corner(double diameter, double width, bite_side side, double inside_radius)
{
    bite_arc arc =
        bite_engagement_arc(bite_engagement_span_in_corner(diameter, width, inside_radius), side);
    arc.corner = inside_radius;
    return arc;
}

double bite_engagement_span(bite_arc arc)
{
    return arc.leave - arc.enter;
}

double bite_engagement_sine_most(bite_arc arc)
{
    return bite_engagement_sine_most_of(arc.enter, arc.leave, sin(arc.enter), sin(arc.leave));
}

double bite_engagement_sine_mean(bite_arc arc)
{
    return (cos(arc.enter) - cos(arc.leave)) / (arc.leave - arc.enter);
}
