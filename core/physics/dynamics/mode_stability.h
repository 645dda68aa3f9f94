/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The depth above which one mode chatters, at the actual speed, in closed form.
 *
 * A mode that is the same along and across the feed has G = 1/(k (1 - w^2 + 2 i zeta w)), w =
 * chatter frequency / natural frequency. With L an eigenvalue of the averaged directional factors
 * (Altintas and Budak 1995, recalled; zero order) the characteristic equation is 1 = z K a L G (1 -
 * exp(-i w tau))/(4 pi), tau = 2 pi f/(z n). Its phase determines w, its magnitude the depth a.
 */
#ifndef BITE_PHYSICS_DYNAMICS_MODE_STABILITY_H
#define BITE_PHYSICS_DYNAMICS_MODE_STABILITY_H

#include "core/physics/geometry/engagement.h"

/** An eigenvalue of the averaged directional factors. */
typedef struct bite_direction_root {
    double size;           /* |L| */
    double phase;          /* c = arg L + pi/2, rad, 0 to 2 pi */
    double half_sine;      /* sin(phase/2) */
    double half_cotangent; /* cot(phase/2) */
    double cotangent;      /* cot(phase) */
} bite_direction_root;

/** Both eigenvalues for an arc of contact and a ratio of radial to tangential pressure. */
void bite_mode_roots(bite_arc arc, double ratio, bite_direction_root roots[2]);

typedef struct bite_vibration_mode {
    double frequency; /* f, Hz */
    double stiffness; /* k, N/m */
    double damping;   /* zeta, 1 */
} bite_vibration_mode;

/** The cut that excites the mode. */
typedef struct bite_excitation {
    double teeth;         /* z */
    double speed;         /* n, 1/s */
    double tangential;    /* K, Pa */
    double span;          /* arc of contact, rad */
    double surface_speed; /* v, m/s */
    double edge_radius;   /* re, m */
} bite_excitation;

/** The depth, m, at which an undamped flank begins to chatter; INFINITY: none. The least over both
 * roots and the two lobes nearest to the resonance; any depth above `most` if that is above it. */
double bite_mode_depth(const bite_direction_root roots[2], const bite_vibration_mode *mode,
                       const bite_excitation *cut, double most);

/**
 * The same with the damping by the flank, which presses on the waves that the edge has cut.
 *
 * Contact of 8 re behind the edge (estimate, fitted; indentation of 4e13 N/m3 with a land of 60 um,
 * memory, has the same magnitude at re = 10 um) raises zeta by Z a, Z = 8 re K (z span/2 pi) w_n/(4
 * v k), so that a = a0/(1 - a0 Z/zeta); INFINITY from a0 Z = 0.98 zeta on.
 */
double bite_mode_damped_depth(double depth, const bite_vibration_mode *mode,
                              const bite_excitation *cut);

/** The undamped depth whose damped depth is `damped`, or from which on it is INFINITY. */
double bite_mode_undamped_depth(double damped, const bite_vibration_mode *mode,
                                const bite_excitation *cut);

#endif
