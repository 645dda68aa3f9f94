/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tool as a beam that rings. */
#include "core/physics/dynamics/tool_modes.h"
#include <math.h>

#define CONE_PARTS 4
#define CHORDS 40

/* Between two looks for a change of sign the frequency grows by this: neighbouring modes lie
 * further apart. */
static const double look_step = 1.25;

/* Deflection, slope, moment and shear force. */
typedef struct state {
    double w;
    double slope;
    double moment;
    double shear;
} state;

/* A cylinder at a frequency: Krylov's functions over its length, the wave number and E I. */
typedef struct beam_basis {
    double s;
    double t;
    double u;
    double v;
    double wave;
    double stiff;
} beam_basis;

static beam_basis carrier_of(double length, double diameter, double modulus, double density,
                             double omega)
{
    double area = 0.25 * M_PI * diameter * diameter;
    beam_basis carrier;
    carrier.stiff = modulus * area * diameter * diameter / 16.0;
    carrier.wave = sqrt(sqrt(density * area * omega * omega / carrier.stiff));
    double x = carrier.wave * length;
    double grown = 0.5 * exp(x);
    double shrunk = 0.25 / grown;
    double sine = sin(x);
    double cosine = cos(x);
    carrier.s = 0.5 * (grown + shrunk + cosine);
    carrier.t = 0.5 * (grown - shrunk + sine);
    carrier.u = 0.5 * (grown + shrunk - cosine);
    carrier.v = 0.5 * (grown - shrunk - sine);
    return carrier;
}

static state carried(const beam_basis *carrier, state from)
{
    double b = carrier->wave;
    double e = carrier->stiff;
    state to;
    to.w = from.w * carrier->s + from.slope * carrier->t / b +
           from.moment * carrier->u / (e * b * b) + from.shear * carrier->v / (e * b * b * b);
    to.slope = from.w * b * carrier->v + from.slope * carrier->s +
               from.moment * carrier->t / (e * b) + from.shear * carrier->u / (e * b * b);
    to.moment = from.w * e * b * b * carrier->u + from.slope * e * b * carrier->v +
                from.moment * carrier->s + from.shear * carrier->t / b;
    to.shear = from.w * e * b * b * b * carrier->t + from.slope * e * b * b * carrier->u +
               from.moment * b * carrier->v + from.shear * carrier->s;
    return to;
}

/* Zero where the holder's end neither moves nor turns. Starts from both ways in which the free tip
 * can go. */
static double clamped(const bite_shaft *shaft, double length, double modulus, double density,
                      double omega)
{
    state moved = {length, 0.0, 0.0, 0.0};
    state turned = {0.0, 1.0, 0.0, 0.0};
    for (size_t i = 0; i < shaft->count; i++) {
        const bite_step *step = &shaft->steps[i];
        int parts = step->tip == step->holder ? 1 : CONE_PARTS;
        for (int k = 0; k < parts; k++) {
            double diameter = step->tip + (step->holder - step->tip) * (k + 0.5) / parts;
            beam_basis over = carrier_of(step->length / parts, diameter, modulus, density, omega);
            moved = carried(&over, moved);
            turned = carried(&over, turned);
        }
    }
    return moved.w * turned.slope - turned.w * moved.slope;
}

/* Under the first frequency: the whole mass stands at the tip. */
static double start_of(const bite_shaft *shaft, double modulus, double density)
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
    double low = start_of(shaft, modulus, density);
    double at_low = clamped(shaft, length, modulus, density, low);
    double high = low;
    double at_high = at_low;
    for (int found = 0; found < number; found += at_low * at_high < 0.0) {
        low = high;
        at_low = at_high;
        high *= look_step;
        at_high = clamped(shaft, length, modulus, density, high);
    }
    /* a chord, and where one end would stay for ever its number counts half (Illinois) */
    for (int i = 0; i < CHORDS && fabs(high - low) > 1e-11 * high; i++) {
        double middle = high - at_high * (high - low) / (at_high - at_low);
        double here = clamped(shaft, length, modulus, density, middle);
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

/* From the holder to the tip: with u from a step's holder end, which lies x from the tip, y = y2 +
 * s2 u + c (x u^2/2 - u^3/6), c = 64/(pi E d^4). The integral of the square is of a polynomial. */
double bite_tool_mode_bent(const bite_shaft *shaft, double modulus, double density)
{
    double x = 0.0;
    double y = 0.0;
    double slope = 0.0;
    double moved = 0.0; /* integral of 4 A y^2/pi */
    double soft = 64.0 / (M_PI * modulus);
    for (size_t i = 0; i < shaft->count; i++) {
        x += shaft->steps[i].length;
    }
    for (size_t i = shaft->count; i-- > 0;) {
        const bite_step *step = &shaft->steps[i];
        double length = step->length;
        double square = step->tip * step->holder;
        double bends = soft * length / (square * square);
        double a1 = slope * length;
        double a2 = 0.5 * bends * x * length;
        double a3 = -bends * length * length / 6.0;
        double sum = y * (y + a1) + (2.0 * y * a2 + a1 * a1) / 3.0 + 0.5 * (y * a3 + a1 * a2) +
                     0.2 * (a2 * a2 + 2.0 * a1 * a3) + a2 * a3 / 3.0 + a3 * a3 / 7.0;
        moved += square * length * sum;
        y += a1 + a2 + a3;
        slope += bends * (x - 0.5 * length);
        x -= length;
    }
    return sqrt(y / (0.25 * M_PI * density * moved)) / (2.0 * M_PI);
}
