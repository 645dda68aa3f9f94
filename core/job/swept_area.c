/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Areas that tools sweep: distances between rectangles with round corners. */
#include "core/job/swept_area.h"
#include <math.h>

/* The length of (x, y) beyond a corner; beside or inside a rectangle, the larger of both. */
static double beyond(double x, double y)
{
    return x > 0.0 && y > 0.0 ? hypot(x, y) : fmax(x, y);
}

double bite_round_area_gap(const bite_round_area *one, const bite_round_area *other)
{
    double x = fabs(one->x - other->x) - one->half_x - other->half_x;
    double y = fabs(one->y - other->y) - one->half_y - other->half_y;
    return beyond(x, y) - one->radius - other->radius;
}

double bite_round_area_inside(const bite_round_area *hole, const bite_round_area *area)
{
    double x = fabs(hole->x - area->x) + area->half_x - hole->half_x;
    double y = fabs(hole->y - area->y) + area->half_y - hole->half_y;
    return hole->radius - area->radius - beyond(x, y);
}

double bite_swept_area_gap(const bite_swept_area *swept, const bite_round_area *area)
{
    double outside = bite_round_area_gap(&swept->outer, area);
    return swept->hollow ? fmax(outside, bite_round_area_inside(&swept->inner, area)) : outside;
}

bite_round_area bite_round_area_shrunk(bite_round_area area, double by)
{
    double more = fmax(0.0, by - area.radius);
    area.radius = fmax(0.0, area.radius - by);
    area.half_x -= more;
    area.half_y -= more;
    return area;
}

bite_swept_area bite_swept_area_widened(bite_swept_area swept, double by)
{
    swept.outer.radius += by;
    swept.inner = bite_round_area_shrunk(swept.inner, by);
    swept.hollow = swept.hollow && swept.inner.half_x >= 0.0 && swept.inner.half_y >= 0.0 ? 1u : 0u;
    return swept;
}
