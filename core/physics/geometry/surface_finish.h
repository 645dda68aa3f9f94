/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Feed marks on wall and floor. */
#ifndef BITE_PHYSICS_GEOMETRY_SURFACE_FINISH_H
#define BITE_PHYSICS_GEOMETRY_SURFACE_FINISH_H

#include "core/base/lane_math.h"

/** Height of the marks on the wall of a side cut: fz^2/(4 D). m (Ghosh and Mallik, problem 4.25).
 */
BITE_FORMULA double bite_finish_wall(double tooth_feed, double diameter)
{
    return tooth_feed * tooth_feed / (4.0 * diameter);
}

/** Height on a floor cut by a corner radius r: fz^2/(8 r) (Ghosh and Mallik 4.24). */
BITE_FORMULA double bite_finish_corner(double tooth_feed, double corner_radius)
{
    return tooth_feed * tooth_feed / (8.0 * corner_radius);
}

/** Height on a floor cut by end teeth that are dished by an angle (rad): fz tan(dish). */
BITE_FORMULA double bite_finish_dished(double tooth_feed, double dish)
{
    return tooth_feed * tan(dish);
}

/** Height on a floor: of the corner radius's arcs, but not above the marks of the dished end teeth
 * that follow it, which a small radius does not reach. corner_radius: 0 for a sharp corner. */
BITE_FORMULA double bite_finish_floor(double tooth_feed, double corner_radius, double dish)
{
    double dished = bite_finish_dished(tooth_feed, dish);
    double rounded = bite_smaller(bite_finish_corner(tooth_feed, corner_radius), dished);
    return corner_radius > 0.0 ? rounded : dished;
}

/** Share of the transmitted light that marks of height Rt scatter, at most: 1 - exp(-(2 pi (n
 * - 1) Rq/lambda)^2), Rq = 0.3 Rt of a parabola or saw tooth, lambda 550 nm (total integrated
 * scatter; memory). Wide marks deflect it only slightly. */
BITE_FORMULA double bite_finish_haze(double height, double refraction)
{
    const double wave = 550e-9;
    double phase = 2.0 * M_PI * (refraction - 1.0) * 0.3 * height / wave;
    return -expm1(-phase * phase);
}

#endif
