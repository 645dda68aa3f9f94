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

#include "core/base/lane_math.h"

/* Time at the glass transition, s, to which the shift refers. */
#define BITE_SOFTENING_REFERENCE_TIME 100.0

typedef struct bite_softening_law {
    double transition; /* K: glass transition, or melting point; NaN: no data */
    double c1;         /* 1; NaN: crystalline, the transition does not depend on time */
    double c2;         /* K */
} bite_softening_law;

/** Temperature, K, at which a glassy polymer, whose c1 is known, flows within time, s > 0. decades:
 * powers of ten that are added to L, 0 for plain flow. */
BITE_FORMULA double bite_softening_glassy(const bite_softening_law *law, double time,
                                          double decades)
{
    const double pole_share = 0.8; /* the shift is limited to this share of C1 */
    double lapse = (log(BITE_SOFTENING_REFERENCE_TIME) - log(time)) * (1.0 / M_LN10) + decades;
    double shift = bite_smaller(lapse, pole_share * law->c1);
    return law->transition + law->c2 * shift / (law->c1 - shift);
}

/** The same of any polymer. */
BITE_FORMULA double bite_softening_temperature(const bite_softening_law *law, double time,
                                               double decades)
{
    return law->c1 == law->c1 ? bite_softening_glassy(law, time, decades) : law->transition;
}

/** Share, 0 to 1, of a stress that relaxes within time, s, at temperature, K, in a glassy polymer:
 * 1 - exp(-(t/tau)^0.5), lg tau = 2 - C1 x/(C2 + x), x = T - Tg but at least -0.6 C2 (stretched
 * exponential; estimate). */
BITE_FORMULA double bite_softening_glassy_relaxed(const bite_softening_law *law, double temperature,
                                                  double time)
{
    const double cold_share = 0.6; /* below it relaxation no longer changes with temperature */
    const double complete = 700.0; /* an exponent whose share is 1 in all digits */
    double coldest = -cold_share * law->c2;
    double above = temperature - law->transition;
    above = above < coldest ? coldest : above;
    /* log((t/tau)^0.5), limited so that nothing overflows */
    double decades = law->c1 * above / (law->c2 + above);
    double exponent = 0.5 * (log(time / BITE_SOFTENING_REFERENCE_TIME) + M_LN10 * decades);
    exponent = exponent > complete ? complete : exponent;
    double power = exp(exponent);
    return -expm1(-(power > complete ? complete : power));
}

/** The same of a crystalline polymer: 1 above the melting point, otherwise 0; NaN: no data. */
BITE_FORMULA double bite_softening_melted(double transition, double temperature)
{
    double above = temperature - transition;
    double melted = above > 0.0 ? 1.0 : 0.0;
    return above == above ? melted : above;
}

/** The same of any polymer. */
BITE_FORMULA double bite_softening_relaxed_share(const bite_softening_law *law, double temperature,
                                                 double time)
{
    return law->c1 == law->c1 ? bite_softening_glassy_relaxed(law, temperature, time)
                              : bite_softening_melted(law->transition, temperature);
}

/**
 * Shear strength of a material that softens under its own shear heat.
 *
 * The strength falls linearly to zero at the temperature of flow, so the heat of shear reduces the
 * strength that generates it: K = K_c (1 - exp(-x))/x, x = B (1 - f) K_c/(rho c (T_flow -
 * T_start)). heating: B (1 - f)/(rho c), K per Pa. cold: K_c, Pa. margin: T_flow - T_start, K, > 0.
 */
BITE_FORMULA double bite_softening_braked(double cold, double heating, double margin)
{
    double x = heating * cold / margin;
    double share = -expm1(-x) / (x > 0.0 ? x : 1.0);
    return x > 0.0 ? cold * share : cold;
}

/** K_c, Pa, of a material whose softened strength is `stated` at this margin; the inverse of the
 * above. A stated strength from a test that would have melted the material is limited: it leaves at
 * least a thousandth of the cold strength. */
BITE_FORMULA double bite_softening_cold_strength(double stated, double heating, double margin)
{
    const double least_left = 1e-3;
    double left = bite_larger(1.0 - heating * stated / margin, least_left);
    double lost = 1.0 - left; /* exact, and so 1 - exp(-x) of x = -log(left) */
    double factor = -log(left) / (lost > 0.0 ? lost : 1.0);
    return lost > 0.0 ? stated * factor : stated;
}

#endif
