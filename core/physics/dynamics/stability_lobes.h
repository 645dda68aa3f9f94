/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Stability lobes by the zero-order solution: the depth above which the waves left by one tooth
 * amplify those of the next.
 *
 * Altintas and Budak, CIRP Annals 44 (1995) 357 (recalled; formulas read in teaching scripts that
 * cite Altintas, Manufacturing Automation, 2nd ed. 2012). The directional coefficients are averaged
 * over a turn: right for slots and half immersion within some 3 %, wrong by 9 to 34 % in either
 * direction in light side cuts, for which core/physics/dynamics/light_cut.h is used
 * instead.
 */
#ifndef BITE_PHYSICS_DYNAMICS_STABILITY_LOBES_H
#define BITE_PHYSICS_DYNAMICS_STABILITY_LOBES_H

#include "core/physics/geometry/engagement.h"

#define BITE_MODES_MAX 4

/** A mode of one axis: G(w) = (alpha + i beta w)/(wn^2 - w^2 + 2 i zeta wn w), w in rad/s. A plain
 * mode of stiffness k: alpha = wn^2/k. */
typedef struct bite_mode {
    double natural; /* wn, rad/s */
    double damping; /* zeta */
    double alpha;   /* m/(N s2) */
    double beta;    /* m/(N s) */
} bite_mode;

typedef struct bite_axis_modes {
    int count; /* 0: rigid */
    bite_mode modes[BITE_MODES_MAX];
} bite_axis_modes;

/** The cut and the structure that it excites: x along the feed, y across it. */
typedef struct bite_chatter_case {
    bite_axis_modes x;
    bite_axis_modes y;
    bite_arc arc;
    double teeth;
    double tangential; /* K, Pa */
    double ratio;      /* radial/tangential */
} bite_chatter_case;

/** A mode of frequency f (Hz), stiffness k and damping zeta. */
bite_mode bite_mode_plain(double frequency, double stiffness, double damping);

#endif
