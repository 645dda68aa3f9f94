/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Chatter by semi-discretization. */
#include "core/cut/delay.h"
#include <math.h>
#include <string.h>

#define STATES 4 /* positions and speeds along x and y */
#define ROUNDS 400
#define BRACKETS 40

typedef struct matrix {
    double at[STATES][STATES];
} matrix;

/* One step: the new state from the old one and from what was left a tooth ago. */
typedef struct step {
    matrix own;
    double left[2][STATES][2]; /* at the step's begin and at its end; straight in between */
} step;

static matrix multiplied(const matrix *a, const matrix *b)
{
    matrix product;
    for (int i = 0; i < STATES; i++) {
        for (int j = 0; j < STATES; j++) {
            double sum = 0.0;
            for (int k = 0; k < STATES; k++) {
                sum += a->at[i][k] * b->at[k][j];
            }
            product.at[i][j] = sum;
        }
    }
    return product;
}

/* exp(a t), the integral of exp(a (t - s)) ds over 0..t and that of exp(a (t - s)) s ds, by their series over t / 2^n and doubling.
 */
static void exponential(const matrix *a, double time, matrix *grown, matrix *summed, matrix *ramped)
{
    int doublings = 0;
    double norm = 0.0;
    for (int i = 0; i < STATES; i++) {
        double row = 0.0;
        for (int j = 0; j < STATES; j++) {
            row += fabs(a->at[i][j]) * time;
        }
        norm = fmax(norm, row);
    }
    /* rows mix units: a state's scale is set by the caller so that the norm tells */
    for (; norm > 0.5; norm *= 0.5) {
        doublings++;
    }
    double part = ldexp(time, -doublings);
    matrix term;
    for (int i = 0; i < STATES; i++) {
        for (int j = 0; j < STATES; j++) {
            term.at[i][j] = grown->at[i][j] = i == j;
            summed->at[i][j] = i == j ? part : 0.0;
            ramped->at[i][j] = i == j ? 0.5 * part * part : 0.0;
        }
    }
    for (int order = 1; order <= 9; order++) {
        term = multiplied(&term, a);
        for (int i = 0; i < STATES; i++) {
            for (int j = 0; j < STATES; j++) {
                term.at[i][j] *= part / order;
                grown->at[i][j] += term.at[i][j];
                summed->at[i][j] += term.at[i][j] * part / (order + 1);
                ramped->at[i][j] += term.at[i][j] * part * part / ((order + 1) * (order + 2));
            }
        }
    }
    for (int n = 0; n < doublings; n++) {
        matrix more = multiplied(grown, summed);
        matrix more_ramped = multiplied(grown, ramped);
        for (int i = 0; i < STATES; i++) {
            for (int j = 0; j < STATES; j++) {
                ramped->at[i][j] += more_ramped.at[i][j] + part * summed->at[i][j];
                summed->at[i][j] += more.at[i][j];
            }
        }
        *grown = multiplied(grown, grown);
        part *= 2.0;
    }
}

/* Mean directions between two angles of the leading tooth, over all teeth in the arc. */
static void mean_directions(const bite_chatter_case *of, double from, double to, double *mean)
{
    memset(mean, 0, 4 * sizeof *mean);
    double pitch = 2.0 * M_PI / of->teeth;
    for (int tooth = 0; tooth < (int)of->teeth; tooth++) {
        for (int turn = -1; turn <= 1; turn++) {
            double shift = pitch * tooth + 2.0 * M_PI * turn;
            bite_arc part = {fmax(from + shift, of->arc.enter), fmin(to + shift, of->arc.leave)};
            double direction[4];
            if (part.leave > part.enter) {
                bite_chatter_directions(part, of->ratio, direction);
                for (int i = 0; i < 4; i++) {
                    mean[i] += direction[i] / (to - from);
                }
            }
        }
    }
}

/* x'' + 2 zeta wn x' + wn^2 x = (wn^2/k) depth/2 K [direction] (x - x before), along both axes. Time in units of 1/scale. */
static void make_step(const bite_chatter_case *of, double depth, double scale, double time, const double *mean, step *out)
{
    const bite_axis_modes *axes[] = {&of->x, &of->y};
    matrix a = {{{0.0}}};
    matrix grown;
    matrix summed;
    matrix ramped;
    double drive[2][2];
    for (int i = 0; i < 2; i++) {
        const bite_mode *mode = &axes[i]->modes[0];
        double stiff = axes[i]->count > 0 ? mode->natural / scale : 0.0;
        double gain = axes[i]->count > 0 ? 0.5 * depth * of->tangential * mode->alpha / (scale * scale) : 0.0;
        a.at[i][i + 2] = 1.0;
        a.at[i + 2][i + 2] = axes[i]->count > 0 ? -2.0 * mode->damping * stiff : 0.0;
        for (int j = 0; j < 2; j++) {
            drive[i][j] = axes[j]->count > 0 ? gain * mean[2 * i + j] : 0.0;
            a.at[i + 2][j] = drive[i][j] - (i == j ? stiff * stiff : 0.0);
        }
        a.at[i][i + 2] = axes[i]->count > 0 ? 1.0 : 0.0;
    }
    exponential(&a, time * scale, &grown, &summed, &ramped);
    out->own = grown;
    for (int i = 0; i < STATES; i++) {
        for (int j = 0; j < 2; j++) {
            double whole = -(summed.at[i][2] * drive[0][j] + summed.at[i][3] * drive[1][j]);
            double late = -(ramped.at[i][2] * drive[0][j] + ramped.at[i][3] * drive[1][j]) / (time * scale);
            out->left[0][i][j] = whole - late;
            out->left[1][i][j] = late;
        }
    }
}

/* The state and all positions of the last tooth's time, the newest first. */
typedef struct history {
    double state[STATES];
    double past[BITE_DELAY_STEPS_MOST + 1][2];
} history;

/* One tooth's pass. past[k]: k steps ago; what was left steps and steps - 1 ago acts. */
static void pass_tooth(const step *steps, int count, const history *from, history *to)
{
    double state[STATES];
    double fresh[BITE_DELAY_STEPS_MOST + 1][2];
    memcpy(state, from->state, sizeof state);
    for (int n = 0; n < count; n++) {
        double next[STATES];
        /* a tooth ago the step began where from->past[count - n] stands, and ended at the one after it */
        const double *begin = from->past[count - n];
        const double *end = from->past[count - n - 1];
        for (int i = 0; i < STATES; i++) {
            next[i] = steps[n].left[0][i][0] * begin[0] + steps[n].left[0][i][1] * begin[1] + steps[n].left[1][i][0] * end[0] +
                      steps[n].left[1][i][1] * end[1];
            for (int k = 0; k < STATES; k++) {
                next[i] += steps[n].own.at[i][k] * state[k];
            }
        }
        memcpy(state, next, sizeof state);
        fresh[count - 1 - n][0] = state[0];
        fresh[count - 1 - n][1] = state[1];
    }
    memcpy(to->state, state, sizeof state);
    to->past[count][0] = from->past[0][0];
    to->past[count][1] = from->past[0][1];
    memcpy(to->past, fresh, (size_t)count * sizeof *fresh);
}

static double product(const history *a, const history *b, int count)
{
    double sum = 0.0;
    for (int i = 0; i < STATES; i++) {
        sum += a->state[i] * b->state[i];
    }
    for (int n = 0; n <= count; n++) {
        sum += a->past[n][0] * b->past[n][0] + a->past[n][1] * b->past[n][1];
    }
    return sum;
}

static void shrink(history *of, int count, double by)
{
    for (int i = 0; i < STATES; i++) {
        of->state[i] *= by;
    }
    for (int n = 0; n <= count; n++) {
        of->past[n][0] *= by;
        of->past[n][1] *= by;
    }
}

/* The larger |root| of q^2 = p q + r fitted to three states in a row: the leading pair, complex or real. */
static double leading(const history *first, const history *second, const history *third, int count)
{
    double aa = product(second, second, count);
    double ab = product(second, first, count);
    double bb = product(first, first, count);
    double ac = product(second, third, count);
    double bc = product(first, third, count);
    double below = aa * bb - ab * ab;
    if (!(below > 1e-13 * aa * bb)) {
        return sqrt(aa / bb); /* along one line: a single real root leads */
    }
    double p = (ac * bb - bc * ab) / below;
    double r = (bc * aa - ac * ab) / below;
    double under = 0.25 * p * p + r;
    return under < 0.0 ? sqrt(-r) : fabs(0.5 * p) + sqrt(under);
}

double bite_delay_growth(const bite_chatter_case *of, double depth, double speed, int steps, double precision)
{
    step made[BITE_DELAY_STEPS_MOST];
    history states[3];
    double pitch = 2.0 * M_PI / of->teeth;
    double time = 1.0 / (of->teeth * speed * steps);
    double scale = of->x.count > 0 ? of->x.modes[0].natural : of->y.modes[0].natural;
    for (int n = 0; n < steps; n++) {
        double mean[4];
        mean_directions(of, pitch * n / steps, pitch * (n + 1) / steps, mean);
        make_step(of, depth, scale, time, mean, &made[n]);
    }
    memset(states, 0, sizeof states);
    for (int n = 0; n <= steps; n++) { /* anything that holds a bit of every motion */
        states[0].past[n][0] = of->x.count > 0 ? 1.0 + 0.3 * sin(1.7 * n) : 0.0;
        states[0].past[n][1] = of->y.count > 0 ? 0.7 + 0.4 * cos(2.3 * n) : 0.0;
    }
    double growth = 0.0;
    double before = -1.0;
    int settled = 0;
    for (int round = 0; round < ROUNDS && settled < 2; round++) {
        pass_tooth(made, steps, &states[0], &states[1]);
        pass_tooth(made, steps, &states[1], &states[2]);
        growth = leading(&states[0], &states[1], &states[2], steps);
        settled = fabs(growth - before) < precision * growth ? settled + 1 : 0;
        before = growth;
        states[0] = states[2];
        shrink(&states[0], steps, 1.0 / sqrt(fmax(1e-300, product(&states[0], &states[0], steps))));
    }
    return growth;
}

double bite_delay_limit(const bite_chatter_case *of, double guess, double speed, int steps, double precision)
{
    double low = guess;
    double high = guess;
    double low_log = log(bite_delay_growth(of, guess, speed, steps, precision));
    double high_log = low_log;
    for (int i = 0; i < BRACKETS && low_log > 0.0; i++) {
        high = low;
        high_log = low_log;
        low *= 0.7;
        low_log = log(bite_delay_growth(of, low, speed, steps, precision));
    }
    for (int i = 0; i < BRACKETS && high_log <= 0.0; i++) {
        low = high;
        low_log = high_log;
        high *= 1.4;
        high_log = log(bite_delay_growth(of, high, speed, steps, precision));
    }
    for (int i = 0; i < 30 && high - low > 100.0 * precision * high; i++) {
        /* straight between the two, but never nearer to an end than a tenth */
        double share = fmin(0.9, fmax(0.1, low_log / (low_log - high_log)));
        double middle = low + share * (high - low);
        double log_growth = log(bite_delay_growth(of, middle, speed, steps, precision));
        if (log_growth > 0.0) {
            high = middle;
            high_log = log_growth;
        } else {
            low = middle;
            low_log = log_growth;
        }
    }
    return 0.5 * (low + high);
}
