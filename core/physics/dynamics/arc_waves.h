/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Waves of the chip thickness along the arc of contact of a tool whose modes are the same along
 * both axes: the operator that gives the waves that a wave of one tooth leads to.
 *
 * At the limit of stability the motion x is multiplied by exp(i turn) from tooth to tooth. The wave
 * h of the chip thickness at the time t within the arc is then (derived here)
 *
 *   h(t) = b K (1 - v) * integral over the arc of G(t - s) c(t - s) h(s) ds,  v = exp(-i turn),
 *   c(t) = -(sin(2 pi n t) + r cos(2 pi n t)), normal times force direction of two teeth,
 *   G(t) = sum over the modes and over k of v^k g(t + k period), g = 0 before 0,
 *
 * with g the response to an impulse. The sum over k >= 0 of the exponentials of g has a closed
 * form, which contains all of the free vibration between two cuts; from it the response to what is
 * still to come is subtracted. If other teeth cut at the same time, what the next ones cut at
 * k < 0 is added, and what those before are still to cut is subtracted.
 *
 * h is expanded in Legendre polynomials (Galerkin's method): of an exponential their integrals are
 * Bessel functions, so that the matrices have closed forms. The depth at the limit converges
 * faster than any power of their number.
 */
#ifndef BITE_PHYSICS_DYNAMICS_ARC_WAVES_H
#define BITE_PHYSICS_DYNAMICS_ARC_WAVES_H

#include "core/physics/dynamics/arc_exponentials.h"
#include "core/physics/dynamics/complex_number.h"
#include "core/physics/dynamics/lane_vector.h"
#include "core/physics/dynamics/mode_stability.h"
#include "core/physics/dynamics/stability_lobes.h"

/** Teeth that follow while a tooth cuts: most of them. */
#define BITE_ARC_OVERLAPS_MAX 3
#define BITE_ARC_ENTRIES (BITE_ARC_ORDER_MAX * BITE_ARC_ORDER_MAX)

/** The operator A = (1 - v) (sum of the modes' factors of v times `cosine` and `sine`, + to_come)
 * in parts that do not depend on v, order^2 entries each, row by row. m/N times m2. */
typedef struct bite_arc_waves {
    int order; /* of the matrices */
    int modes;
    double period;                      /* s, from tooth to tooth */
    bite_complex decay[BITE_MODES_MAX]; /* exp((-zeta wn + i wd) period) of a mode */
    double natural[BITE_MODES_MAX];     /* rad/s */
    double damping[BITE_MODES_MAX];     /* zeta */
    int repeated[BITE_MODES_MAX];       /* whether a mode before it decays alike */
    double cosine[BITE_MODES_MAX][BITE_ARC_ENTRIES];
    double sine[BITE_MODES_MAX][BITE_ARC_ENTRIES];
    double to_come[BITE_ARC_ENTRIES]; /* of all modes */
    int overlaps;                     /* teeth that follow while a tooth cuts */
    double sooner[BITE_ARC_OVERLAPS_MAX][BITE_ARC_ENTRIES]; /* times v^-k, k from 1 on */
    double later[BITE_ARC_OVERLAPS_MAX][BITE_ARC_ENTRIES];  /* times v^k */
} bite_arc_waves;

/** Working memory, owned by the caller; it need not be initialized. */
typedef struct bite_arc_room {
    bite_arc_factors factors;
    double part[BITE_ARC_ENTRIES];
    double shares[BITE_ARC_ENTRIES];
    double product[BITE_ARC_ENTRIES];
} bite_arc_room;

/** The angle, rad, of the fastest motion within one cut at about a load b K, N/m. Of the cut the
 * span and the speed matter. */
double bite_arc_rate(const bite_axis_modes *modes, const bite_excitation *cut, double load);

/** modes: of one axis, their beta 0. ratio: r, radial/tangential; order: 2 to BITE_ARC_ORDER_MAX.
 * Of the cut the teeth, the span and the speed matter. */
void bite_arc_waves_set(const bite_axis_modes *modes, double ratio, const bite_excitation *cut,
                        int order, bite_arc_room *room, bite_arc_waves *waves);

#endif
