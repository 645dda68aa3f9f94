/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Stability of light side cuts with modes that are the same along both axes: the least depth at
 * which the waves of the chip thickness neither grow nor decay from tooth to tooth, with all of
 * the change of the forces during a cut and of the free vibration between two cuts.
 *
 * The zero-order lobes give a first depth and frequency; Newton's method moves the turn of the
 * wave until an eigenvalue of arc_waves.h is real. That no wave grows below that depth is then
 * verified by counting those that do: the number of half turns of det(1 - b K A) while the turn
 * runs from 0 to pi (the argument principle). If some do, the search goes on from there.
 */
#ifndef BITE_PHYSICS_DYNAMICS_LIGHT_CUT_H
#define BITE_PHYSICS_DYNAMICS_LIGHT_CUT_H

#include "core/physics/dynamics/arc_waves.h"
#include "core/physics/dynamics/mode_stability.h"

/** Working memory, owned by the caller; it need not be initialized. */
typedef struct bite_light_cut_room {
    bite_arc_waves waves;
    union {
        bite_determinant_room determinant;
        bite_complex matrix[3][BITE_ARC_ENTRIES];
    } at;
} bite_light_cut_room;

/**
 * The depth, m, above which the cut chatters, to some 0.5 %; INFINITY: it never does.
 *
 * modes: of one axis, at least one, their beta 0. ratio: radial/tangential. Of the cut the teeth,
 * the speed, the pressure and the span of the arc matter. With so many waves in one cut that more
 * than BITE_ARC_POINTS_MAX points would be needed it is the depth of the zero-order solution.
 */
double bite_light_cut_depth(const bite_axis_modes *modes, double ratio, const bite_excitation *cut,
                            bite_light_cut_room *room);

#endif
