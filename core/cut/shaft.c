/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A stepped round shaft clamped at the holder. */
#include "core/cut/shaft.h"
#include <math.h>

#define CONE_PARTS 8

/* A step seen from the load: where it begins and ends, and its diameters there. */
typedef struct reach {
    double from;
    double to;
    double near;
    double far;
} reach;

/* Integrals over a step of x^2/d^4 and x/d^4, which bending and slope are made of. */
static void bending_integrals(const reach *of, double *square, double *line)
{
    double span = of->to - of->from;
    if (fabs(of->far - of->near) < 1e-9 * of->near) {
        double fourth = pow(of->near, 4.0);
        *square = (pow(of->to, 3.0) - pow(of->from, 3.0)) / (3.0 * fourth);
        *line = (of->to * of->to - of->from * of->from) / (2.0 * fourth);
        return;
    }
    /* d = near + s (x - from): with u = d, x = from + (u - near)/s, both integrals are sums of powers of u */
    double s = (of->far - of->near) / span;
    double shift = of->from - of->near / s;
    double one = (1.0 / of->near - 1.0 / of->far) / s;                           /* of u^-2 */
    double two = (1.0 / pow(of->near, 2.0) - 1.0 / pow(of->far, 2.0)) / (2 * s); /* of u^-3 */
    double three = (1.0 / pow(of->near, 3.0) - 1.0 / pow(of->far, 3.0)) / (3 * s);
    *square = one / (s * s) + 2.0 * shift * two / s + shift * shift * three;
    *line = two / s + shift * three;
}

/* The part of a step that lies between load and holder. 0: none of it. */
static int reach_of(const bite_step *step, double start, double from_tip, reach *out)
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

bite_yielding bite_shaft_bend(const bite_shaft *shaft, double modulus, double poisson, double from_tip)
{
    double shear_modulus = modulus / (2.0 * (1.0 + poisson));
    double kappa = 6.0 * (1.0 + poisson) / (7.0 + 6.0 * poisson);
    double start = 0.0;
    bite_yielding yielding = {0.0, 0.0, 0.0};
    for (size_t i = 0; i < shaft->count; i++) {
        reach of;
        if (reach_of(&shaft->steps[i], start, from_tip, &of)) {
            double square;
            double line;
            bending_integrals(&of, &square, &line);
            yielding.bending += 64.0 * square / (M_PI * modulus);
            yielding.shear += 4.0 * (of.to - of.from) / (M_PI * kappa * shear_modulus * of.near * of.far);
            yielding.slope += 64.0 * line / (M_PI * modulus);
        }
        start += shaft->steps[i].length;
    }
    return yielding;
}

/* Adds a cylinder on the tip's side of what has a resistance and an air share at its holder's end. */
static void add_cylinder(double length, double diameter, double conductivity, double transfer, double *resistance,
                         double *air_share)
{
    double area = 0.25 * M_PI * diameter * diameter;
    double m = sqrt(4.0 * transfer / (conductivity * diameter));
    double wave = m * length;
    if (wave < 1e-6) {
        *resistance += length / (conductivity * area);
        return;
    }
    /* over the air, with the end driven: theta(tip) cosh = theta(end) + ... ; by the line equations of a lossy line */
    double own = 1.0 / (conductivity * area * m);
    double t = tanh(wave);
    double before = *resistance;
    *resistance = own * (before + own * t) / (own + before * t);
    /* without heat at the tip, what is left of the far end's difference to the air */
    double passed = 1.0 / (cosh(wave) + before / own * sinh(wave));
    *air_share = 1.0 - (1.0 - *air_share) * passed;
}

void bite_shaft_fin(const bite_shaft *shaft, double conductivity, double transfer, double *resistance, double *air_share)
{
    *resistance = 0.0;
    *air_share = 0.0;
    for (size_t i = shaft->count; i-- > 0;) {
        const bite_step *step = &shaft->steps[i];
        int parts = step->tip == step->holder ? 1 : CONE_PARTS;
        for (int k = parts - 1; k >= 0; k--) {
            double middle = step->tip + (step->holder - step->tip) * (k + 0.5) / parts;
            add_cylinder(step->length / parts, middle, conductivity, transfer, resistance, air_share);
        }
    }
}

double bite_shaft_combine(double bending, double torsion, int ductile)
{
    return ductile ? sqrt(bending * bending + 3.0 * torsion * torsion)
                   : 0.5 * bending + sqrt(0.25 * bending * bending + torsion * torsion);
}

static double stress_at(double arm, double diameter, double force, double torque, int ductile)
{
    double cube = M_PI * pow(diameter, 3.0);
    return bite_shaft_combine(32.0 * force * arm / cube, 16.0 * torque / cube, ductile);
}

double bite_shaft_stress(const bite_shaft *shaft, double from_tip, double force, double torque, int ductile)
{
    double worst = 0.0;
    double start = 0.0;
    for (size_t i = 0; i < shaft->count; i++) {
        reach of;
        if (reach_of(&shaft->steps[i], start, from_tip, &of)) {
            worst = fmax(worst, stress_at(of.from, of.near, force, torque, ductile));
            worst = fmax(worst, stress_at(of.to, of.far, force, torque, ductile));
        }
        start += shaft->steps[i].length;
    }
    return worst;
}
