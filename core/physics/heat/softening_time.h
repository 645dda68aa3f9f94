/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Softening of a polymer by temperature and time.
 *
 * A glassy polymer flows after 100 s at its glass transition Tg and sooner above it, by the shift
 * of Williams, Landel and Ferry (1955; memory): T(t) = Tg + C2 L/(C1 - L), L = lg(100 s/t). Far
 * from Tg the law has a pole, so L is limited to 0.8 C1. A crystalline polymer melts at its melting
 * point, whatever the time: C1 and C2 are then NaN.
 */
#ifndef BITE_PHYSICS_HEAT_SOFTENING_TIME_H
#define BITE_PHYSICS_HEAT_SOFTENING_TIME_H

typedef struct bite_softening_law {
    double transition; /* K: glass transition, or melting point; NaN: no data */
    double c1;         /* 1; NaN: crystalline, the transition does not depend on time */
    double c2;         /* K */
} bite_softening_law;

/** Temperature, K, at which the polymer flows within time, s > 0. decades: powers of ten that are
 * added to L, 0 for plain flow. */
double bite_softening_temperature(const bite_softening_law *law, double time, double decades);

/** Share, 0 to 1, of a stress that relaxes within time, s, at temperature, K: 1 -
 * exp(-(t/tau)^0.5), lg tau = 2 - C1 x/(C2 + x), x = T - Tg but at least -0.6 C2 (stretched
 * exponential; estimate). Crystalline polymers: 1 above the melting point, otherwise 0. */
double bite_softening_relaxed_share(const bite_softening_law *law, double temperature, double time);

/**
 * Shear strength of a material that softens under its own shear heat.
 *
 * The strength falls linearly to zero at the temperature of flow, so the heat of shear reduces the
 * strength that generates it: K = K_c (1 - exp(-x))/x, x = B (1 - f) K_c/(rho c (T_flow -
 * T_start)). heating: B (1 - f)/(rho c), K per Pa. cold: K_c, Pa. margin: T_flow - T_start, K, > 0.
 */
double bite_softening_braked(double cold, double heating, double margin);

/** K_c, Pa, of a material whose softened strength is `stated` at this margin; the inverse of the
 * above. */
double bite_softening_cold_strength(double stated, double heating, double margin);

#endif
