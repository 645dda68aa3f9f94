/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A plain twist drill: lips that cut from the rim to the axis.
 *
 * At half the point's angle kappa a lip of length R/sin(kappa) meets a chip of h = f/z sin(kappa):
 * Ft = K (f/z) R + Ke R/sin(kappa), at R/2 on the mean; T = z Ft R/2, so that with Ke = 0 the power
 * is K times the removal rate. The lips' thrust is that of the force normal to them; the chisel
 * edge, which squeezes more than it cuts, adds as much again (memory: about half of a drill's
 * thrust). Estimate: the pressures are those of milling.
 */
#ifndef BITE_PHYSICS_FORCE_TWIST_DRILL_H
#define BITE_PHYSICS_FORCE_TWIST_DRILL_H

#include "core/physics/force/cutting_pressure.h"

typedef struct bite_drill {
    double chip;       /* h, m */
    double heavy_chip; /* with runout, m */
    double lip;        /* length of one, m */
    double tangential; /* of all lips, N */
    double thrust;     /* N, presses the part down */
    double torque;     /* N m */
    double side;       /* N, what runout leaves unbalanced */
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
