/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Torque of a cutting tap.
 *
 * The teeth of the chamfer, z for each of its threads, share the groove of the thread: with height
 * h, section A and n threads in the chamfer a tooth takes a layer of h/(z n), and all together cut
 * on a length of z n times the mean width A/h. T = drag (K A + Ke z n A/h) r, r the radius of the
 * groove's centroid. Makers' formulas are the same without the edge: T = kc k tan 30 (D - d)2 (D +
 * 2 d)/24, where k, which is `drag` here, is 0.75 to 1.68 by the kind of tap, the pitch and the
 * material. Estimate: the pressures are those of milling at that chip.
 */
#ifndef BITE_PHYSICS_FORCE_TAP_H
#define BITE_PHYSICS_FORCE_TAP_H

#include "core/physics/force/cutting_pressure.h"
#include "core/physics/geometry/thread.h"

typedef struct bite_tap_shape {
    double diameter; /* m, major */
    double pitch;    /* m */
    double hole;     /* m */
    double flutes;   /* 1 or more */
    double lead;     /* threads in the chamfer */
    double drag;     /* torque / that of the teeth alone, for flanks that rub and chips */
} bite_tap_shape;

typedef struct bite_tap {
    bite_thread_groove groove;
    double teeth;      /* that cut at once */
    double chip;       /* h, m, of one tooth */
    double tangential; /* of all teeth, N, at the arm of the groove */
    double torque;     /* N m */
} bite_tap;

/** Chip thickness of a tooth of the chamfer, m. */
BITE_FORMULA double bite_tap_chip(const bite_tap_shape *shape)
{
    return bite_larger(0.5 * (shape->diameter - shape->hole), 0.0) / (shape->flutes * shape->lead);
}

BITE_FORMULA void bite_tap_forces(const bite_tap_shape *shape, const bite_pressure *pressure,
                                  bite_tap *tap)
{
    tap->groove = bite_thread_groove_of(shape->diameter, shape->pitch, shape->hole);
    tap->teeth = shape->flutes * shape->lead;
    tap->chip = tap->groove.height / tap->teeth;
    tap->tangential = shape->drag * (pressure->tangential * tap->groove.area +
                                     pressure->edge_tangential * tap->teeth * tap->groove.width);
    tap->torque = tap->tangential * tap->groove.arm;
}

#endif
