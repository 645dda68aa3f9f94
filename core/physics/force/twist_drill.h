/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Forces of a plain twist drill, whose lips cut from the rim to the axis.
 *
 * With kappa as half of the point angle, a lip of length R/sin(kappa) cuts a chip of h = f/z
 * sin(kappa): Ft = K (f/z) R + Ke R/sin(kappa), on average at R/2; T = z Ft R/2, so that with Ke =
 * 0 the power is K times the removal rate. The thrust of the lips is that of the force normal to
 * them; the chisel edge, which squeezes more than it cuts, adds as much again (memory: about half
 * of a drill's thrust). Estimate: the pressures are those of milling.
 */
#ifndef BITE_PHYSICS_FORCE_TWIST_DRILL_H
#define BITE_PHYSICS_FORCE_TWIST_DRILL_H

#include "core/base/lane_math.h"
#include "core/physics/force/cutting_pressure.h"

typedef struct bite_drill {
    double chip;       /* h, m */
    double heavy_chip; /* with runout, m */
    double lip;        /* length of one lip */
    double tangential; /* of all lips, N */
    double thrust;     /* N, presses the part down */
    double torque;     /* N m */
    double side;       /* N, left unbalanced by runout */
} bite_drill;

typedef struct bite_drill_shape {
    double diameter;    /* m */
    double flutes;      /* 1 or more */
    double point_angle; /* rad, the whole angle */
    double runout;      /* m, total indicator reading */
} bite_drill_shape;

/** Thrust of the chisel edge over that of the lips. */
#define BITE_DRILL_CHISEL_SHARE 1.0

/** The step between the lips that runout leaves, m. */
BITE_FORMULA double bite_drill_step(const bite_drill_shape *shape, double tooth_feed)
{
    double step = bite_smaller(tooth_feed, shape->runout * sin(M_PI / shape->flutes));
    return shape->flutes > 1.0 ? step : tooth_feed;
}

/** tooth_feed: f/z, m. */
BITE_FORMULA void bite_drill_forces(const bite_drill_shape *shape, double tooth_feed,
                                    const bite_pressure *pressure, bite_drill *drill)
{
    double radius = 0.5 * shape->diameter;
    double slope = sin(0.5 * shape->point_angle);
    double step = bite_drill_step(shape, tooth_feed);
    drill->lip = radius / slope;
    drill->chip = tooth_feed * slope;
    drill->heavy_chip = (shape->flutes > 1.0 ? tooth_feed + step : tooth_feed) * slope;
    double lip_force =
        pressure->tangential * tooth_feed * radius + pressure->edge_tangential * drill->lip;
    double lip_normal = pressure->radial * tooth_feed * radius + pressure->edge_radial * drill->lip;
    drill->tangential = shape->flutes * lip_force;
    drill->torque = shape->flutes * lip_force * 0.5 * radius;
    drill->thrust = shape->flutes * lip_normal * slope * (1.0 + BITE_DRILL_CHISEL_SHARE);
    drill->side = pressure->tangential * step * radius;
}

/** The part of the unbalanced side force that remains, N: it pushes the point towards the centre,
 * and vanishes once it is there. The cut, of stiffness S/runout, and the drill, in series, share
 * the runout (derived here; a long drill centres itself, a rigid one breaks). compliance: of the
 * drill at its tip, m/N. */
BITE_FORMULA double bite_drill_side_left(const bite_drill_shape *shape, double side,
                                         double compliance)
{
    double ratio = side * compliance / shape->runout;
    int shared = (shape->flutes > 1.0) & (shape->runout > 0.0);
    return side / (1.0 + (shared ? ratio : 0.0));
}

#endif
