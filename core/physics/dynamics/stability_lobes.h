/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Stability lobes by the zero-order solution: the depth above which the waves left by one tooth
 * amplify those of the next.
 *
 * Altintas and Budak, CIRP Annals 44 (1995) 357 (recalled; formulas read in teaching scripts that
 * cite Altintas, Manufacturing Automation, 2nd ed. 2012). The directional coefficients are averaged
 * over a turn: right for slots and half immersion within some 3 %, wrong by 9 to 34 % in either
 * direction in light side cuts, for which core/physics/dynamics/semi_discretization.h is used
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

/** The directional coefficients xx, xy, yx, yy: integrals over the arc from `from` to `to`. */
void bite_chatter_directions(bite_arc arc, double ratio, double *coefficients);

/** The depth, m, above which the cut chatters at this spindle speed (1/s). INFINITY: it never does.
 */
double bite_chatter_at(const bite_chatter_case *problem, double speed);

/** The two complex roots mu, which depend only on arc and ratio. */
typedef struct bite_chatter_roots {
    double real[2];
    double imaginary[2];
} bite_chatter_roots;
bite_chatter_roots bite_chatter_roots_of(bite_arc arc, double ratio);

/** The stability depth at the worst spindle speed, with a stiffness of 1 and teeth x tangential of
 * 1: it is proportional to the stiffness, and inversely proportional to teeth x tangential. */
double bite_chatter_share(const bite_chatter_roots *roots, double damping);

/** The waves that a vibrating mode leaves on the machined surface. */
typedef struct bite_ripple {
    double length;      /* surface speed/frequency, m */
    double height;      /* amplitude from which they count as chatter, m */
    double edge_radius; /* m */
} bite_ripple;

/**
 * Factor by which the flank's contact with the waves of a mode raises the stability depth: 1/(1 -
 * P), INFINITY if the waves can't grow at all.
 *
 * The flank resists with C b dy/dt/v (Chiou and Liang 1998; C Altintas, Eynian and Onozuka 2008,
 * Tyler and Schmitz 2013; memory), on each axis with half of the sum over the teeth in the cut:
 * that damps the mode by z arc C b f/(4 k v), so that with a depth of slope x k damping/(z K) P =
 * slope x arc x (C/K)/(4 length). C/K is some four edge radii (estimate: 0.1 mm of sharp inserts,
 * 0.24 mm at 60 um), and grows with the square of the flank's contact as the slope of the waves
 * approaches the clearance angle; steeper waves are not cut. slope: share/damping.
 */
double bite_chatter_damped_by_flank(const bite_ripple *waves, bite_arc arc, double slope);

#endif
