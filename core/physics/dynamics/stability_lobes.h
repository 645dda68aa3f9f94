/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Chatter by the zero-order solution: the depth from which waves left by one tooth feed those of
 * the next.
 *
 * Altintas and Budak, CIRP Annals 44 (1995) 357 (recalled; formulas read in teaching scripts that
 * cite Altintas, Manufacturing Automation, 2nd ed. 2012). The forces' directions are averaged over
 * a turn: right for slots and half immersion within some 3 %, wrong by 9 to 34 % in either sense in
 * light side cuts, where core/physics/dynamics/semi_discretization.h stands in.
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

/** A tooth's work and what it works against: x along the feed, y across. */
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

/** The depth at which this speed (1/s) begins to chatter. INFINITY: none. */
double bite_chatter_at(const bite_chatter_case *problem, double speed);

/** The part of it that arc and ratio decide: the two roots mu, complex. */
typedef struct bite_chatter_roots {
    double real[2];
    double imaginary[2];
} bite_chatter_roots;
bite_chatter_roots bite_chatter_roots_of(bite_arc arc, double ratio);

/** The depth of a stiffness that is 1 with teeth x tangential: it goes straight with the one,
 * against the other. */
double bite_chatter_share(const bite_chatter_roots *roots, double damping);

/** Waves of a mode on the face that the edge leaves. */
typedef struct bite_ripple {
    double length;      /* surface speed/frequency, m */
    double height;      /* amplitude from which they count, m */
    double edge_radius; /* m */
} bite_ripple;

/**
 * How much deeper a mode may be cut because the flank rides on its waves: 1/(1 - P), INFINITY where
 * they can't grow at all.
 *
 * The edge's flank pushes back with C b dy/dt/v (Chiou and Liang 1998; C Altintas, Eynian and
 * Onozuka 2008, Tyler and Schmitz 2013; memory), on each axis half of what the teeth in the cut
 * make: that damps the mode by z arc C b f/(4 k v), so that with a depth of slope x k damping/(z K)
 * P = slope x arc x (C/K)/(4 length). C/K is some four radii of the edge (estimate: 0.1 mm of sharp
 * inserts, 0.24 mm at 60 um), and grows with the square of the flank's contact as the waves' slope
 * nears the clearance, beyond which no wave is cut. slope: share/damping.
 */
double bite_chatter_damped_by_flank(const bite_ripple *waves, bite_arc arc, double slope);

#endif
