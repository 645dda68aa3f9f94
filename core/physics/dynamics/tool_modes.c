/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Natural frequencies of the tool as a stepped beam clamped at the holder. */
#include "core/physics/dynamics/tool_modes.h"
#include <math.h>

#define CONE_PARTS 4
#define SECANT_STEPS_MAX 40

/* Factor between successive frequencies at which the sign of the characteristic function is tested:
 * neighbouring modes are farther apart. */
static const double scan_factor = 1.25;

/* Deflection, slope, moment and shear force. */
typedef struct state {
    double w;
    double slope;
    double moment;
    double shear;
} state;

/* Krylov's functions of a cylinder at a frequency over its length, its wave number and its E I. */
typedef struct beam_basis {
    double s;
    double t;
    double u;
    double v;
    double wave_number;
    double rigidity;
} beam_basis;

static beam_basis basis_of(double length, double diameter, double modulus, double density,
                           double omega)
{
    double area = 0.25 * M_PI * diameter * diameter;
    beam_basis basis;
    basis.rigidity = modulus * area * diameter * diameter / 16.0;
    basis.wave_number = sqrt(sqrt(density * area * omega * omega / basis.rigidity));
    double x = basis.wave_number * length;
    double rising = 0.5 * exp(x);
    double falling = 0.25 / rising;
    double sine = sin(x);
    double cosine = cos(x);
    basis.s = 0.5 * (rising + falling + cosine);
    basis.t = 0.5 * (rising - falling + sine);
    basis.u = 0.5 * (rising + falling - cosine);
    basis.v = 0.5 * (rising - falling - sine);
    return basis;
}

static state transfer_state(const beam_basis *basis, state from)
{
    double b = basis->wave_number;
    double e = basis->rigidity;
    state to;
    to.w = from.w * basis->s + from.slope * basis->t / b + from.moment * basis->u / (e * b * b) +
           from.shear * basis->v / (e * b * b * b);
    to.slope = from.w * b * basis->v + from.slope * basis->s + from.moment * basis->t / (e * b) +
               from.shear * basis->u / (e * b * b);
    to.moment = from.w * e * b * b * basis->u + from.slope * e * b * basis->v +
                from.moment * basis->s + from.shear * basis->t / b;
    to.shear = from.w * e * b * b * b * basis->t + from.slope * e * b * b * basis->u +
               from.moment * b * basis->v + from.shear * basis->s;
    return to;
}

/* The characteristic function: zero if the end at the holder neither moves nor turns. Starts from
 * the two motions of the free tip. */
static double characteristic(const bite_shaft *shaft, double length, double modulus, double density,
                             double omega)
{
    state moved = {length, 0.0, 0.0, 0.0};
    state turned = {0.0, 1.0, 0.0, 0.0};
    for (size_t i = 0; i < shaft->count; i++) {
        const bite_step *step = &shaft->steps[i];
        int parts = step->tip == step->holder ? 1 : CONE_PARTS;
        for (int k = 0; k < parts; k++) {
            double diameter = step->tip + (step->holder - step->tip) * (k + 0.5) / parts;
            beam_basis basis = basis_of(step->length / parts, diameter, modulus, density, omega);
            moved = transfer_state(&basis, moved);
            turned = transfer_state(&basis, turned);
        }
    }
    return moved.w * turned.slope - turned.w * moved.slope;
}

/* A frequency below the first mode: that of the whole mass at the tip. */
static double frequency_below(const bite_shaft *shaft, double modulus, double density)
{
    double mass = 0.0;
    for (size_t i = 0; i < shaft->count; i++) {
        const bite_step *step = &shaft->steps[i];
        double square =
            (step->tip * step->tip + step->tip * step->holder + step->holder * step->holder) / 3.0;
        mass += density * step->length * 0.25 * M_PI * square;
    }
    return 0.9 / sqrt(mass * bite_shaft_bend(shaft, modulus, 0.0, 0.0).bending);
}

double bite_tool_mode_frequency(const bite_shaft *shaft, double modulus, double density, int number)
{
    double length = 0.0;
    for (size_t i = 0; i < shaft->count; i++) {
        length += shaft->steps[i].length;
    }
    double low = frequency_below(shaft, modulus, density);
    double at_low = characteristic(shaft, length, modulus, density, low);
    double high = low;
    double at_high = at_low;
    for (int found = 0; found < number; found += at_low * at_high < 0.0) {
        low = high;
        at_low = at_high;
        high *= scan_factor;
        at_high = characteristic(shaft, length, modulus, density, high);
    }
    /* regula falsi; the function value at an end that does not move is halved (Illinois) */
    for (int i = 0; i < SECANT_STEPS_MAX && fabs(high - low) > 1e-11 * high; i++) {
        double middle = high - at_high * (high - low) / (at_high - at_low);
        double here = characteristic(shaft, length, modulus, density, middle);
        if (here * at_high < 0.0) {
            low = high;
            at_low = at_high;
        } else {
            at_low *= 0.5;
        }
        high = middle;
        at_high = here;
        if (at_high == 0.0) {
            break;
        }
    }
    return high / (2.0 * M_PI);
}
