/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tool as a beam that rings. */
#include "core/cut/vibrate.h"
#include <math.h>

#define CONE_PARTS 6
#define HALVINGS 60

/* Between two looks for a change of sign the frequency grows by this: neighbouring modes lie further apart. */
static const double look_step = 1.05;

double bite_vibrate_root(int number)
{
    double low = M_PI * (number - 1.0);
    double high = M_PI * number;
    /* cos x + 1/cosh x: the same roots, and no overflow */
    double sign = cos(low) + 1.0 / cosh(low);
    for (int i = 0; i < HALVINGS; i++) {
        double middle = 0.5 * (low + high);
        double here = cos(middle) + 1.0 / cosh(middle);
        low = sign * here > 0.0 ? middle : low;
        high = sign * here > 0.0 ? high : middle;
    }
    return 0.5 * (low + high);
}

/* Deflection, slope, moment and shear force. */
typedef struct state {
    double w;
    double slope;
    double moment;
    double shear;
} state;

/* Krylov's functions carry the state over a cylinder. */
static state over_cylinder(state from, double length, double diameter, double modulus, double density, double omega)
{
    double area = 0.25 * M_PI * diameter * diameter;
    double stiff = modulus * M_PI * pow(diameter, 4.0) / 64.0;
    double b = pow(density * area * omega * omega / stiff, 0.25);
    double x = b * length;
    double s = 0.5 * (cosh(x) + cos(x));
    double t = 0.5 * (sinh(x) + sin(x));
    double u = 0.5 * (cosh(x) - cos(x));
    double v = 0.5 * (sinh(x) - sin(x));
    state to;
    to.w = from.w * s + from.slope * t / b + from.moment * u / (stiff * b * b) + from.shear * v / (stiff * b * b * b);
    to.slope = from.w * b * v + from.slope * s + from.moment * t / (stiff * b) + from.shear * u / (stiff * b * b);
    to.moment = from.w * stiff * b * b * u + from.slope * stiff * b * v + from.moment * s + from.shear * t / b;
    to.shear = from.w * stiff * b * b * b * t + from.slope * stiff * b * b * u + from.moment * b * v + from.shear * s;
    return to;
}

static state over_shaft(const bite_shaft *shaft, state from, double modulus, double density, double omega)
{
    for (size_t i = 0; i < shaft->count; i++) {
        const bite_step *step = &shaft->steps[i];
        int parts = step->tip == step->holder ? 1 : CONE_PARTS;
        for (int k = 0; k < parts; k++) {
            double diameter = step->tip + (step->holder - step->tip) * (k + 0.5) / parts;
            from = over_cylinder(from, step->length / parts, diameter, modulus, density, omega);
        }
    }
    return from;
}

/* Zero where the holder's end neither moves nor turns. */
static double clamped(const bite_shaft *shaft, double modulus, double density, double omega)
{
    double length = 0.0;
    for (size_t i = 0; i < shaft->count; i++) {
        length += shaft->steps[i].length;
    }
    state moved = {length, 0.0, 0.0, 0.0};
    state turned = {0.0, 1.0, 0.0, 0.0};
    moved = over_shaft(shaft, moved, modulus, density, omega);
    turned = over_shaft(shaft, turned, modulus, density, omega);
    return moved.w * turned.slope - turned.w * moved.slope;
}

/* A frequency under the first: that of the whole length at its thinnest. */
static double start_of(const bite_shaft *shaft, double modulus, double density)
{
    double length = 0.0;
    double thin = INFINITY;
    for (size_t i = 0; i < shaft->count; i++) {
        length += shaft->steps[i].length;
        thin = fmin(thin, fmin(shaft->steps[i].tip, shaft->steps[i].holder));
    }
    return 0.05 * thin / (length * length) * sqrt(modulus / density) * 2.0 * M_PI;
}

double bite_vibrate_frequency(const bite_shaft *shaft, double modulus, double density, int number)
{
    double low = start_of(shaft, modulus, density);
    double sign = clamped(shaft, modulus, density, low);
    int found = 0;
    double high = low;
    while (found < number) {
        low = high;
        high *= look_step;
        double here = clamped(shaft, modulus, density, high);
        found += sign * here < 0.0;
        sign = sign * here < 0.0 ? here : sign;
    }
    sign = clamped(shaft, modulus, density, low);
    for (int i = 0; i < HALVINGS; i++) {
        double middle = 0.5 * (low + high);
        double here = clamped(shaft, modulus, density, middle);
        low = sign * here > 0.0 ? middle : low;
        high = sign * here > 0.0 ? high : middle;
    }
    return 0.5 * (low + high) / (2.0 * M_PI);
}
