/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Section and heights of the cone that cuts a chamfer (core/physics/force/chamfer_cone.h). */
#ifndef BITE_TESTS_ORACLE_CONE_HEIGHTS_H
#define BITE_TESTS_ORACLE_CONE_HEIGHTS_H

#include "core/physics/force/chamfer_cone.h"

/** The cone in an inside corner of this finished radius at the upper end, m. */
static inline bite_cone bite_chamfer_cone_in_corner(const bite_chamfer_shape *shape,
                                                    double inside_radius)
{
    bite_cone cone = bite_chamfer_cone(shape);
    cone.inside = inside_radius - shape->depth * cone.slope;
    return cone;
}

/** The arc of contact at a height above the cone's thin end, rad. */
static inline double bite_cone_span(const bite_cone *cone, double height)
{
    double half = isinf(cone->inside) ? bite_cone_half_sine_straight(cone, height)
                                      : bite_cone_half_sine_in_corner(cone, height);
    return 2.0 * asin(half);
}

/** The cone along a straight edge or in an inside corner, depending on the arc of contact at the
 * upper end. */
bite_cone bite_chamfer_cone_in(const bite_chamfer_shape *shape, bite_arc arc);

/** Removed section across the feed, m2; in a corner, the volume removed per m of path of the tool's
 * axis. */
double bite_chamfer_section(const bite_cone *cone);

/** The inverse: the height, m, above which a tooth at the angle `away` (rad) from the wall is in
 * contact. *growth: its derivative, m/rad. */
double bite_cone_height_growth(const bite_cone *cone, double away, double *growth);
/** The same without the derivative. */
double bite_cone_height(const bite_cone *cone, double away);

#endif
