/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Softening of a polymer by temperature and time. */
#include "core/physics/heat/softening_time.h"
#include <math.h>

/* Time at the glass transition, s, to which the shift refers. */
static const double reference_time = 100.0;

/* The shift is limited to this share of C1; below this share of C2 relaxation no longer changes
 * with temperature. */
static const double pole_share = 0.8;
static const double cold_share = 0.6;

static const double stretch = 0.5;

double bite_softening_temperature(const bite_softening_law *law, double time, double decades)
{
    if (isnan(law->c1)) {
        return law->transition;
    }
    double shift = fmin(log10(reference_time / time) + decades, pole_share * law->c1);
    return law->transition + law->c2 * shift / (law->c1 - shift);
}

double bite_softening_relaxed_share(const bite_softening_law *law, double temperature, double time)
{
    double above = temperature - law->transition;
    if (isnan(law->c1)) {
        return isnan(above) ? above : above > 0.0 ? 1.0 : 0.0;
    }
    above = above < -cold_share * law->c2 ? -cold_share * law->c2 : above;
    double constant = reference_time * pow(10.0, -law->c1 * above / (law->c2 + above));
    return -expm1(-pow(time / constant, stretch));
}

double bite_softening_braked(double cold, double heating, double margin)
{
    double x = heating * cold / margin;
    return x > 0.0 ? cold * -expm1(-x) / x : cold;
}

/* The least share of its cold strength that the reference cut may leave. A stated strength from a
 * test that would have melted the material is limited by it. */
static const double least_left = 1e-3;

double bite_softening_cold_strength(double stated, double heating, double margin)
{
    double rise = heating * stated / margin;
    double x = -log(fmax(least_left, 1.0 - rise));
    return x > 0.0 ? stated * x / -expm1(-x) : stated;
}
