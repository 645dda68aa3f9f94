/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Heat conduction along a stepped shaft that loses heat from its side: a fin. */
#ifndef BITE_PHYSICS_ELASTIC_SHAFT_FIN_H
#define BITE_PHYSICS_ELASTIC_SHAFT_FIN_H

#include "core/physics/elastic/scaled_bessel.h"
#include "core/physics/elastic/stepped_shaft.h"
#include <stdbool.h>

/* Conduction through a step: rise and flow at its tip end from those at its holder end, all divided
 * by exp(wave). */
typedef struct bite_fin_port {
    double rise_by_rise;
    double rise_by_flow; /* K/W */
    double flow_by_rise; /* W/K */
    double flow_by_flow;
    double shrunk; /* exp(-wave) */
} bite_fin_port;

BITE_FORMULA bite_fin_port bite_fin_cylinder(double length, double diameter, double conductivity,
                                             double transfer)
{
    double m = sqrt(4.0 * transfer / (conductivity * diameter));
    double own = 0.25 * M_PI * diameter * diameter * conductivity * m; /* W/K */
    double fall = expm1(-m * length);
    double shrunk = 1.0 + fall;
    double cosine = 0.5 * (1.0 + shrunk * shrunk);
    double sine = -0.5 * fall * (2.0 + fall);
    bite_fin_port port = {cosine, sine / own, own * sine, cosine, shrunk};
    return port;
}

/* A cone as a fin: (x^2 theta')' = M x theta with x from its apex has theta = (c1 I1(z) + c2
 * K1(z))/z, z = 2 sqrt(M x); here z = 4 sqrt(transfer d/k)/|s|, s the taper dd/dx, and the flow is
 * -k A z' d theta/dz with k A z' = pi k d z s/8. */
BITE_FORMULA bite_fin_port bite_fin_cone(const bite_step *step, double conductivity,
                                         double transfer)
{
    double taper = (step->holder - step->tip) / step->length;
    double root = 4.0 * sqrt(transfer / conductivity);
    double root_tip = root * sqrt(step->tip);
    double root_holder = root * sqrt(step->holder);
    double per_taper = 1.0 / fabs(taper);
    double z_tip = root_tip * per_taper;
    double z_holder = root_holder * per_taper;
    double lead = 0.125 * M_PI * conductivity * taper;
    double lead_tip = lead * step->tip * z_tip;
    double lead_holder = lead * step->holder * z_holder;
    bite_scaled_bessel tip = bite_scaled_bessel_at(z_tip);
    bite_scaled_bessel holder = bite_scaled_bessel_at(z_holder);
    /* exp(z_holder - z_tip) without the difference of two large numbers; the larger exponential is
     * divided out */
    double shrunk = exp(-root * root * step->length / (root_tip + root_holder));
    double up = taper > 0.0 ? 1.0 : shrunk * shrunk;
    double down = taper > 0.0 ? shrunk * shrunk : 1.0;
    double scale = z_holder * z_holder / z_tip;
    double per_holder = scale / lead_holder;
    bite_fin_port port;
    port.rise_by_rise = scale * (down * holder.k2 * tip.i1 + up * holder.i2 * tip.k1);
    port.rise_by_flow = per_holder * (up * holder.i1 * tip.k1 - down * holder.k1 * tip.i1);
    port.flow_by_rise = scale * lead_tip * (up * holder.i2 * tip.k2 - down * holder.k2 * tip.i2);
    port.flow_by_flow =
        per_holder * lead_tip * (down * holder.k1 * tip.i2 + up * holder.i1 * tip.k2);
    port.shrunk = shrunk;
    return port;
}

/* A cone of a smaller taper is treated as a cylinder, good to that taper; what is computed for a
 * cone then, is that of another one, and not read. */
BITE_FORMULA bite_fin_port bite_fin_step(const bite_step *step, bool cylinder, double conductivity,
                                         double transfer)
{
    const double least_taper = 1e-7;
    double mean = cylinder ? step->tip : sqrt(step->tip * step->holder);
    bite_fin_port round = bite_fin_cylinder(step->length, mean, conductivity, transfer);
    if (cylinder) {
        return round;
    }
    double apart = step->length > 0.0 ? fabs(step->holder - step->tip) : 0.0;
    bool conical = apart >= least_taper * mean;
    bite_step safe = {conical ? step->length : 1.0, conical ? step->tip : 1.0,
                      conical ? step->holder : 2.0};
    bite_fin_port cone = bite_fin_cone(&safe, conductivity, transfer > 0.0 ? transfer : 1.0);
    bite_fin_port port = {conical ? cone.rise_by_rise : round.rise_by_rise,
                          conical ? cone.rise_by_flow : round.rise_by_flow,
                          conical ? cone.flow_by_rise : round.flow_by_rise,
                          conical ? cone.flow_by_flow : round.flow_by_flow,
                          conical ? cone.shrunk : round.shrunk};
    return port;
}

typedef struct bite_fin {
    double resistance; /* K/W */
    double air_share;
} bite_fin;

/**
 * The shaft as a fin heated at its tip: T_tip = T_holder + air_share (T_air - T_holder) +
 * resistance Q.
 *
 * cylinders: bit i is 1 if step i is known to be a cylinder, which spares the work for a cone; else
 * its diameters tell. transfer: W/(m2 K) from its side; the end at the tip is insulated. Exact for
 * cylinders, tanh(m L)/(k A m), m = sqrt(4 transfer/(k d)), and for cones, by modified Bessel
 * functions (memory: the conical fin of textbooks on heat transfer; re-derived).
 */
BITE_FORMULA bite_fin bite_shaft_fin(const bite_shaft *shaft, unsigned cylinders,
                                     double conductivity, double transfer)
{
    /* a step that loses less heat than this to the air is a plain conductor, good to 1e-8 */
    const double least_wave = 1e-4;
    double series = 0.0; /* K/W, of the steps towards the holder */
    double passed = 1.0; /* share of the temperature difference between holder and air */
    double least = least_wave * least_wave * conductivity / 4.0;
    BITE_UNROLLED
    for (size_t n = 0; n < shaft->count; n++) {
        size_t i = shaft->count - 1 - n;
        const bite_step *step = &shaft->steps[i];
        double square = step->tip * step->holder;
        double length = step->length;
        double plain = 4.0 * length / (M_PI * conductivity * square);
        bite_fin_port port = bite_fin_step(step, (cylinders >> i & 1) != 0, conductivity, transfer);
        double over = 1.0 / (port.flow_by_flow + port.flow_by_rise * series);
        double onward = (port.rise_by_rise * series + port.rise_by_flow) * over;
        bool conducts = length * length * transfer < least * sqrt(square);
        series = conducts ? series + plain : onward;
        passed = conducts ? passed : passed * port.shrunk * over;
    }
    bite_fin fin = {series, 1.0 - passed};
    return fin;
}

#endif
