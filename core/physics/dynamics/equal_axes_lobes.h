/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Stability lobes of several modes that are the same along both axes, by the zero-order solution.
 *
 * With L an eigenvalue of the averaged directional factors (mode_stability.h) and G the sum of the
 * modes' responses, which lags by psi, 0 < psi < pi, waves that are w t + 2 psi - 2 c = 2 pi lobe
 * apart, t the time between teeth and c = arg L + pi/2, grow from the depth 2 pi/(z K Re(L G)). So
 * the least depth is at one of the two whole numbers of waves next to a maximum of Re(L G) over the
 * frequency: the maxima are bracketed by frequencies laid about the modes, and each whole number is
 * found by Newton's method.
 */
#ifndef BITE_PHYSICS_DYNAMICS_EQUAL_AXES_LOBES_H
#define BITE_PHYSICS_DYNAMICS_EQUAL_AXES_LOBES_H

#include "core/physics/dynamics/mode_stability.h"
#include "core/physics/dynamics/stability_lobes.h"

#define BITE_LOBES_MAX 8

/** A depth, m, above which waves of a frequency, rad/s, grow. */
typedef struct bite_lobe {
    double depth;
    double frequency;
} bite_lobe;

/**
 * The lobes next to the maxima of the gain, the least depth first; returns their number, up to
 * BITE_LOBES_MAX. share: those deeper than the least depth over `share` are left out. modes: of
 * one axis, their beta 0. Of the cut the teeth, the speed and the pressure matter.
 */
int bite_equal_axes_lobes(const bite_axis_modes *modes, const bite_direction_root roots[2],
                          const bite_excitation *cut, double share, bite_lobe *lobes);

/** The depth, m, above which the cut chatters at this spindle speed (1/s); INFINITY: it never does.
 * modes: of one axis, their beta 0. teeth: z; tangential: K, Pa. */
double bite_equal_axes_depth(const bite_axis_modes *modes, const bite_direction_root roots[2],
                             double teeth, double tangential, double speed);

#endif
