/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Forces of a machine reamer, which cuts with its chamfer.
 *
 * The lead edges of z teeth, inclined by kappa to the axis, take the stock s = (D - d)/2 of a hole:
 * h = f/z sin(kappa) on a length of s/sin(kappa); Ft = K (f/z) s + Ke s/sin(kappa) each, at the
 * mean radius (D + d)/4. The lips of a drill are the case d = 0.
 */
#ifndef BITE_PHYSICS_FORCE_REAMER_H
#define BITE_PHYSICS_FORCE_REAMER_H

#include "core/base/lane_math.h"
#include "core/physics/force/cutting_pressure.h"

/** sin of the chamfer of a machine reamer, 45 degrees (common practice). */
#define BITE_REAMER_LEAD 0.70710678118654757

typedef struct bite_reamer_shape {
    double diameter; /* m */
    double hole;     /* m, before it is reamed */
    double flutes;   /* 1 or more */
} bite_reamer_shape;

typedef struct bite_reamer {
    double chip;       /* h, m */
    double edge;       /* length of one lead edge, m */
    double tangential; /* of all teeth, N */
    double thrust;     /* N, presses the part down */
    double torque;     /* N m */
} bite_reamer;

/** tooth_feed: f/z, m. */
BITE_FORMULA void bite_reamer_forces(const bite_reamer_shape *shape, double tooth_feed,
                                     const bite_pressure *pressure, bite_reamer *reamer)
{
    double stock = bite_larger(0.5 * (shape->diameter - shape->hole), 0.0);
    double arm = 0.25 * (shape->diameter + shape->hole);
    reamer->edge = stock / BITE_REAMER_LEAD;
    reamer->chip = tooth_feed * BITE_REAMER_LEAD;
    double tooth =
        pressure->tangential * tooth_feed * stock + pressure->edge_tangential * reamer->edge;
    double normal = pressure->radial * tooth_feed * stock + pressure->edge_radial * reamer->edge;
    reamer->tangential = shape->flutes * tooth;
    reamer->torque = reamer->tangential * arm;
    reamer->thrust = shape->flutes * normal * BITE_REAMER_LEAD;
}

#endif
