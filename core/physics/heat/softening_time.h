/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * How hot a polymer may be for how long.
 *
 * A glassy polymer flows after 100 s at its glass transition Tg and sooner above it, by the shift
 * of Williams, Landel and Ferry (1955; memory): T(t) = Tg + C2 L/(C1 - L), L = lg(100 s/t). Far
 * from Tg the law has a pole, so L is taken up to 0.8 C1. A crystalline polymer melts at its
 * melting point, however short the time: C1 and C2 are then NaN.
 */
#ifndef BITE_PHYSICS_HEAT_SOFTENING_TIME_H
#define BITE_PHYSICS_HEAT_SOFTENING_TIME_H

typedef struct bite_softening_law {
    double transition; /* K: glass transition, or melting point; NaN: no data */
    double c1;         /* 1; NaN: crystalline, the transition at any time */
    double c2;         /* K */
} bite_softening_law;

/** Temperature, K, at which the polymer flows within time, s > 0. decades: longer by as many powers
 * of ten in rate, 0 for plain flow. */
double bite_softening_temperature(const bite_softening_law *law, double time, double decades);

/** Relaxed share, 0 to 1, of a stress held for time, s, at temperature, K: 1 - exp(-(t/tau)^0.5),
 * lg tau = 2 - C1 x/(C2 + x), x = T - Tg but not below -0.6 C2 (stretched exponential; estimate). 1
 * for a crystalline polymer above its melting point, else 0. */
double bite_softening_relaxed_share(const bite_softening_law *law, double temperature, double time);

/**
 * Shear strength of a material that softens under its own shear heat.
 *
 * Strength falls in a straight line to nothing at the temperature of flow, so that the heat of the
 * shear itself brakes it: K = K_c (1 - exp(-x))/x, x = B (1 - f) K_c/(rho c (T_flow - T_start)).
 * heating: B (1 - f)/(rho c), K per Pa. cold: K_c, Pa. margin: T_flow - T_start, K, > 0.
 */
double bite_softening_braked(double cold, double heating, double margin);

/** K_c, Pa, of a material whose braked strength is `stated` at this margin; the inverse of the
 * above. */
double bite_softening_cold_strength(double stated, double heating, double margin);

#endif
