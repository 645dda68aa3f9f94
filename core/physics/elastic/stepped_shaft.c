/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A stepped round shaft clamped at the holder. */
#include "core/physics/elastic/stepped_shaft.h"
#include <gsl/gsl_errno.h>
#include <gsl/gsl_sf_bessel.h>
#include <math.h>

/* A step that loses less heat than this to the air is treated as a plain conductor, good to 1e-8; a
 * cone of a smaller taper as a cylinder, good to that taper. */
static const double least_wave = 1e-4;
static const double least_taper = 1e-7;

/* A step measured from the load: where it begins and ends, and its diameters there. */
typedef struct shaft_reach {
    double from;
    double to;
    double near;
    double far;
} shaft_reach;

/* Integrals over a step of x^2/d^4 and x/d^4, from which bending and slope follow. Both x and d are
 * linear, so w = x/d has dw = const dx/d^2, and 1/d is linear in w: the integrals are of a square
 * and of a product of linear functions. Exact for cylinder and cone alike, without a difference. */
static void bending_integrals(const shaft_reach *reach, double *square, double *line)
{
    double near = 1.0 / reach->near;
    double far = 1.0 / reach->far;
    double from = reach->from * near;
    double to = reach->to * far;
    double scale = (reach->to - reach->from) * near * far;
    *square = scale * (from * from + from * to + to * to) / 3.0;
    *line = scale * (2.0 * (from * near + to * far) + from * far + to * near) / 6.0;
}

/* The part of a step between load and holder. Returns 0 if there is none. */
static int reach_of(const bite_step *step, double start, double from_tip, shaft_reach *out)
{
    double end = start + step->length;
    if (end <= from_tip || !(step->length > 0.0)) {
        return 0;
    }
    double cut = fmax(start, from_tip);
    out->from = cut - from_tip;
    out->to = end - from_tip;
    out->near = step->tip + (step->holder - step->tip) * (cut - start) / step->length;
    out->far = step->holder;
    return 1;
}

bite_yielding bite_shaft_bend(const bite_shaft *shaft, double modulus, double poisson,
                              double from_tip)
{
    double shear_modulus = modulus / (2.0 * (1.0 + poisson));
    double kappa = 6.0 * (1.0 + poisson) / (7.0 + 6.0 * poisson);
    double start = 0.0;
    bite_yielding yielding = {0.0, 0.0, 0.0};
    for (size_t i = 0; i < shaft->count; i++) {
        shaft_reach reach;
        if (reach_of(&shaft->steps[i], start, from_tip, &reach)) {
            double square;
            double line;
            bending_integrals(&reach, &square, &line);
            yielding.bending += 64.0 * square / (M_PI * modulus);
            yielding.shear += 4.0 * (reach.to - reach.from) /
                              (M_PI * kappa * shear_modulus * reach.near * reach.far);
            yielding.slope += 64.0 * line / (M_PI * modulus);
        }
        start += shaft->steps[i].length;
    }
    return yielding;
}

/* Heat conduction through a step: rise and flow at its tip end from those at its holder end, all
 * divided by exp(wave). */
typedef struct two_port {
    double rise_by_rise;
    double rise_by_flow; /* K/W */
    double flow_by_rise; /* W/K */
    double flow_by_flow;
    double shrunk; /* exp(-wave) */
} two_port;

static two_port cylinder_port(double length, double diameter, double conductivity, double transfer)
{
    double m = sqrt(4.0 * transfer / (conductivity * diameter));
    double own = 0.25 * M_PI * diameter * diameter * conductivity * m; /* W/K */
    double fall = expm1(-m * length);
    double shrunk = 1.0 + fall;
    double cosine = 0.5 * (1.0 + shrunk * shrunk);
    double sine = -0.5 * fall * (2.0 + fall);
    two_port port = {cosine, sine / own, own * sine, cosine, shrunk};
    return port;
}

/* Modified Bessel functions of order 1 and 2, divided or multiplied by exp(z). */
typedef struct bessel_values {
    double i1;
    double i2;
    double k1;
    double k2;
} bessel_values;

static double or_none(int status, gsl_sf_result result)
{
    return status == GSL_SUCCESS ? result.val : 0.0; /* underflow */
}

static bessel_values bessels_at(double z)
{
    gsl_sf_result i0 = {0.0, 0.0};
    gsl_sf_result i1 = {0.0, 0.0};
    gsl_sf_result k0 = {0.0, 0.0};
    gsl_sf_result k1 = {0.0, 0.0};
    bessel_values bessels;
    bessels.k1 = or_none(gsl_sf_bessel_K1_scaled_e(z, &k1), k1);
    bessels.k2 = or_none(gsl_sf_bessel_K0_scaled_e(z, &k0), k0) + 2.0 * bessels.k1 / z;
    if (z > 2.0) {
        bessels.i1 = or_none(gsl_sf_bessel_I1_scaled_e(z, &i1), i1);
        bessels.i2 = or_none(gsl_sf_bessel_I0_scaled_e(z, &i0), i0) - 2.0 * bessels.i1 / z;
        return bessels;
    }
    /* the same by their series, where that difference cancels: terms y^k/(k! (k + n)!) of y =
     * z^2/4, all of one sign */
    double quarter = 0.25 * z * z;
    double term = 1.0; /* y^k/(k! (k + 1)!) */
    bessels.i1 = 1.0;
    bessels.i2 = 0.5;
    for (int k = 1; term > 1e-17 * bessels.i1; k++) {
        term *= quarter / (k * (k + 1.0));
        bessels.i1 += term;
        bessels.i2 += term / (k + 2.0);
    }
    double shrunk = exp(-z);
    bessels.i1 *= 0.5 * z * shrunk;
    bessels.i2 *= quarter * shrunk;
    return bessels;
}

/* A cone as a fin: (x^2 theta')' = M x theta with x from its apex has theta = (c1 I1(z) + c2
 * K1(z))/z, z = 2 sqrt(M x); here z = 4 sqrt(transfer d/k)/|s|, s the taper dd/dx, and the flow is
 * -k A z' d theta/dz with k A z' = pi k d z s/8. */
static two_port cone_port(const bite_step *step, double conductivity, double transfer)
{
    double taper = (step->holder - step->tip) / step->length;
    double root = 4.0 * sqrt(transfer / conductivity);
    double z_tip = root * sqrt(step->tip) / fabs(taper);
    double z_holder = root * sqrt(step->holder) / fabs(taper);
    double lead_tip = 0.125 * M_PI * conductivity * step->tip * z_tip * taper;
    double lead_holder = 0.125 * M_PI * conductivity * step->holder * z_holder * taper;
    bessel_values tip = bessels_at(z_tip);
    bessel_values holder = bessels_at(z_holder);
    /* exp(z_holder - z_tip) without the difference of two large numbers; the larger exponential is
     * divided out */
    double wave = root * step->length / (sqrt(step->tip) + sqrt(step->holder));
    double up = taper > 0.0 ? 1.0 : exp(-2.0 * wave);
    double down = taper > 0.0 ? exp(-2.0 * wave) : 1.0;
    double scale = z_holder * z_holder / z_tip;
    two_port port;
    port.rise_by_rise = scale * (down * holder.k2 * tip.i1 + up * holder.i2 * tip.k1);
    port.rise_by_flow = scale / lead_holder * (up * holder.i1 * tip.k1 - down * holder.k1 * tip.i1);
    port.flow_by_rise = scale * lead_tip * (up * holder.i2 * tip.k2 - down * holder.k2 * tip.i2);
    port.flow_by_flow =
        scale * lead_tip / lead_holder * (down * holder.k1 * tip.i2 + up * holder.i1 * tip.k2);
    port.shrunk = exp(-wave);
    return port;
}

void bite_shaft_fin(const bite_shaft *shaft, double conductivity, double transfer,
                    double *resistance, double *air_share)
{
    double series = 0.0; /* K/W, of the steps towards the holder */
    double passed = 1.0; /* share of the temperature difference between holder and air */
    for (size_t i = shaft->count; i-- > 0;) {
        const bite_step *step = &shaft->steps[i];
        double mean = sqrt(step->tip * step->holder);
        if (!(step->length > 0.0)) {
            continue;
        }
        if (step->length * sqrt(4.0 * transfer / (conductivity * mean)) < least_wave) {
            series += 4.0 * step->length / (M_PI * conductivity * step->tip * step->holder);
            continue;
        }
        int round = fabs(step->holder - step->tip) < least_taper * mean;
        two_port port = round ? cylinder_port(step->length, mean, conductivity, transfer)
                              : cone_port(step, conductivity, transfer);
        double into = port.flow_by_flow + port.flow_by_rise * series;
        series = (port.rise_by_rise * series + port.rise_by_flow) / into;
        passed *= port.shrunk / into;
    }
    *resistance = series;
    *air_share = 1.0 - passed;
}

double bite_shaft_combined_stress(double bending, double torsion, int ductile)
{
    return ductile ? sqrt(bending * bending + 3.0 * torsion * torsion)
                   : 0.5 * bending + sqrt(0.25 * bending * bending + torsion * torsion);
}

static double stress_at(double arm, double diameter, double force, double torque, int ductile)
{
    double cube = M_PI * diameter * diameter * diameter;
    return bite_shaft_combined_stress(32.0 * force * arm / cube, 16.0 * torque / cube, ductile);
}

double bite_shaft_stress(const bite_shaft *shaft, double from_tip, double force, double torque,
                         int ductile)
{
    double worst = 0.0;
    double start = 0.0;
    for (size_t i = 0; i < shaft->count; i++) {
        shaft_reach reach;
        if (reach_of(&shaft->steps[i], start, from_tip, &reach)) {
            worst = fmax(worst, stress_at(reach.from, reach.near, force, torque, ductile));
            worst = fmax(worst, stress_at(reach.to, reach.far, force, torque, ductile));
        }
        start += shaft->steps[i].length;
    }
    return worst;
}
