/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Feed marks on wall and floor. */
#include "core/physics/geometry/surface_finish.h"
#include <math.h>

double bite_finish_wall(double tooth_feed, double diameter)
{
    return tooth_feed * tooth_feed / (4.0 * diameter);
}

double bite_finish_corner(double tooth_feed, double corner_radius)
{
    return tooth_feed * tooth_feed / (8.0 * corner_radius);
}

double bite_finish_dished(double tooth_feed, double dish)
{
    return tooth_feed * tan(dish);
}

double bite_finish_floor(double tooth_feed, double corner_radius, double dish)
{
    double dished = bite_finish_dished(tooth_feed, dish);
    return corner_radius > 0.0 ? fmin(dished, bite_finish_corner(tooth_feed, corner_radius))
                               : dished;
}

double bite_finish_haze(double height, double refraction)
{
    static const double wave = 550e-9;
    double phase = 2.0 * M_PI * (refraction - 1.0) * 0.3 * height / wave;
    return -expm1(-phase * phase);
}
