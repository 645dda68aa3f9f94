/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Formulas for vibration that the engine does not use. */
#include "tests/reference/textbook/vibration.h"
#include <complex.h>
#include <math.h>

double textbook_cantilever_root(int number)
{
    double low = M_PI * (number - 1.0);
    double high = M_PI * number;
    /* cos x + 1/cosh x: the same roots, and no overflow */
    double sign = cos(low) + 1.0 / cosh(low);
    for (int i = 0; i < 60; i++) {
        double middle = 0.5 * (low + high);
        double here = cos(middle) + 1.0 / cosh(middle);
        low = sign * here > 0.0 ? middle : low;
        high = sign * here > 0.0 ? high : middle;
    }
    return 0.5 * (low + high);
}

static void directions_at(double phi, double ratio, double sign, double *sum)
{
    double twice = 2.0 * phi;
    sum[0] += sign * 0.5 * (cos(twice) - ratio * twice + ratio * sin(twice));
    sum[1] += sign * 0.5 * (-sin(twice) - twice + ratio * cos(twice));
    sum[2] += sign * 0.5 * (-sin(twice) + twice + ratio * cos(twice));
    sum[3] += sign * 0.5 * (-cos(twice) - ratio * twice - ratio * sin(twice));
}

void textbook_chatter_directions(bite_arc arc, double ratio, double *coefficients)
{
    coefficients[0] = coefficients[1] = coefficients[2] = coefficients[3] = 0.0;
    directions_at(arc.leave, ratio, 1.0, coefficients);
    directions_at(arc.enter, ratio, -1.0, coefficients);
}

/* The directional coefficients are those of textbook_chatter_directions. The response of an axis at
 * w, m/N. */
static double complex response(const bite_axis_modes *axis, double w)
{
    double complex sum = 0.0;
    for (int i = 0; i < axis->count; i++) {
        const bite_mode *mode = &axis->modes[i];
        sum += (mode->alpha + I * mode->beta * w) / (mode->natural * mode->natural - w * w +
                                                     2.0 * I * mode->damping * mode->natural * w);
    }
    return sum;
}

/* 1/depth at a chatter frequency, the larger of the two roots L of a0 L^2 + a1 L + 1 = 0: 1/alim =
 * -z K Re(L)/(2 pi |L|^2); > 0: a limit. */
static double inverse_depth(const bite_chatter_case *problem, const double *direction, double w)
{
    double complex gx = response(&problem->x, w);
    double complex gy = response(&problem->y, w);
    double complex a0 = gx * gy * (direction[0] * direction[3] - direction[1] * direction[2]);
    double complex a1 = direction[0] * gx + direction[3] * gy;
    double complex root = csqrt(a1 * a1 - 4.0 * a0);
    /* 1/L, which stays finite if an axis is rigid and a0 is 0 */
    double complex first = -0.5 * (a1 + root);
    double complex second = -0.5 * (a1 - root);
    double most = fmax(-creal(first), -creal(second));
    return problem->teeth * problem->tangential * most / (2.0 * M_PI);
}

/* The largest 1/depth between two frequencies with one maximum, by ternary search. */
static double summit(const bite_chatter_case *problem, const double *direction, double low,
                     double high, double *at)
{
    for (int i = 0; i < 80; i++) {
        double a = low + (high - low) / 3.0;
        double b = high - (high - low) / 3.0;
        if (inverse_depth(problem, direction, a) < inverse_depth(problem, direction, b)) {
            low = a;
        } else {
            high = b;
        }
    }
    *at = 0.5 * (low + high);
    return inverse_depth(problem, direction, *at);
}

/* Frequencies from half the lowest mode to two and a half times the highest, in steps of the
 * narrowest resonance. */
static void sweep_range(const bite_chatter_case *problem, double *from, double *to, int *steps)
{
    const bite_axis_modes *axes[] = {&problem->x, &problem->y};
    double low = INFINITY;
    double high = 0.0;
    double narrow = INFINITY;
    for (int k = 0; k < 2; k++) {
        for (int i = 0; i < axes[k]->count; i++) {
            const bite_mode *mode = &axes[k]->modes[i];
            low = fmin(low, mode->natural);
            high = fmax(high, mode->natural);
            narrow = fmin(narrow, mode->natural * mode->damping);
        }
    }
    *from = 0.5 * low;
    *to = 2.5 * high;
    *steps = (int)fmin(6000.0, ceil((*to - *from) / narrow));
}

double textbook_chatter_least(const bite_chatter_case *problem, double *frequency)
{
    double direction[4];
    double from;
    double to;
    double best = 0.0;
    double at = 0.0;
    int steps;
    textbook_chatter_directions(problem->arc, problem->ratio, direction);
    sweep_range(problem, &from, &to, &steps);
    double step = (to - from) / steps;
    for (int i = 0; i <= steps; i++) {
        double inverse = inverse_depth(problem, direction, from + step * i);
        at = inverse > best ? from + step * i : at;
        best = fmax(best, inverse);
    }
    if (best > 0.0) {
        best = summit(problem, direction, at - step, at + step, &at);
    }
    if (frequency != NULL) {
        *frequency = at / (2.0 * M_PI);
    }
    return best > 0.0 ? 1.0 / best : INFINITY;
}
