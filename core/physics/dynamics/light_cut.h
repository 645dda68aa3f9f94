/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Stability of light side cuts with modes that are the same along both axes: the least depth at
 * which the waves of the chip thickness neither grow nor decay from tooth to tooth, with all of
 * the change of the forces during a cut and of the free vibration between two cuts.
 *
 * The zero-order lobes give a first depth. About it the growing waves are counted at several loads
 * (wave_scan.h). Newton's method then finds the limit between a load at which none grows and one at
 * which some do, and no wave may grow at several loads below it. That is done with the leading part
 * of the matrices of arc_waves.h, which costs the cube of its order; a last step with the whole of
 * them corrects the limit, or shows that the part was too small.
 */
#ifndef BITE_PHYSICS_DYNAMICS_LIGHT_CUT_H
#define BITE_PHYSICS_DYNAMICS_LIGHT_CUT_H

#include "core/physics/dynamics/arc_waves.h"
#include "core/physics/dynamics/mode_stability.h"
#include "core/physics/dynamics/wave_polynomial.h"
#include "core/physics/dynamics/wave_scan.h"

/** Working memory, owned by the caller; it need not be initialized. */
typedef struct bite_light_cut_room {
    bite_arc_waves waves;
    bite_wave_polynomial polynomial;
    bite_lane_matrices matrices;
    union {
        bite_arc_room arc;
        bite_wave_room wave;
        bite_wave_scan scan;
    } at;
} bite_light_cut_room;

/**
 * The depth, m, above which the cut chatters, to some 0.5 %; INFINITY: it never does.
 *
 * modes: of one axis, at least one, their beta 0. ratio: radial/tangential. Of the cut the teeth,
 * the speed, the pressure and the span of the arc matter. It is the depth of the zero-order
 * solution if more than BITE_ARC_ORDER_MAX polynomials would be needed, from some 32 rad of the
 * fastest motion within one cut on, or if more than BITE_ARC_OVERLAPS_MAX teeth follow within one
 * cut.
 */
double bite_light_cut_depth(const bite_axis_modes *modes, double ratio, const bite_excitation *cut,
                            bite_light_cut_room *room);

#endif
