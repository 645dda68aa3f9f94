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

/** tooth_feed: f/z, m. */
void bite_drill_forces(const bite_drill_shape *shape, double tooth_feed,
                       const bite_pressure *pressure, bite_drill *drill);

#endif
