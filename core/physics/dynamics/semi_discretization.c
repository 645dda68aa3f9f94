/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Chatter by semi-discretization. */
#include "core/physics/dynamics/semi_discretization.h"
#include <math.h>
#include <string.h>

#define RINGS_MOST (2 * BITE_MODES_MAX)
#define STATES_MOST (2 * RINGS_MOST) /* a position and a speed of each mode of both axes */
#define ROUNDS 400
#define BRACKETS 40

typedef struct matrix {
    double at[STATES_MOST][STATES_MOST];
} matrix;

/* All modes that ring, of x and then of y; the tool's place along an axis is the sum over its
 * modes. */
typedef struct rings {
    int count;
    int axis[RINGS_MOST];
    const bite_mode *mode[RINGS_MOST];
    double scale; /* of time: the first one's */
} rings;

/* The steps of a tooth's pass: each the new state from the old one (size x size) and from what was
 * left a tooth ago, at the step's begin and at its end, straight in between (size x 2 each). */
typedef struct step_cache {
    int count;
    int size;
    double *at;
} step_cache;

static double *step_at(const step_cache *steps, int n)
{
    return steps->at + (size_t)n * (size_t)(steps->size * (steps->size + 4));
}

static rings rings_of(const bite_chatter_case *problem)
{
    const bite_axis_modes *axes[] = {&problem->x, &problem->y};
    rings all = {.count = 0, .scale = 1.0};
    for (int axis = 0; axis < 2; axis++) {
        for (int i = 0; i < axes[axis]->count; i++) {
            all.axis[all.count] = axis;
            all.mode[all.count++] = &axes[axis]->modes[i];
        }
    }
    if (all.count > 0) {
        all.scale = all.mode[0]->natural;
    }
    return all;
}

static void multiply(const matrix *a, const matrix *b, int size, matrix *product)
{
    for (int i = 0; i < size; i++) {
        for (int j = 0; j < size; j++) {
            double sum = 0.0;
            for (int k = 0; k < size; k++) {
                sum += a->at[i][k] * b->at[k][j];
            }
            product->at[i][j] = sum;
        }
    }
}

/* exp(a t), the integral of exp(a (t - s)) ds over 0..t and that of exp(a (t - s)) s ds, by their
 * series over t / 2^n and doubling.
 */
static void exponential(const matrix *a, int size, double time, matrix *grown, matrix *summed,
                        matrix *ramped)
{
    int doublings = 0;
    double norm = 0.0;
    for (int i = 0; i < size; i++) {
        double row = 0.0;
        for (int j = 0; j < size; j++) {
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
    matrix more;
    for (int i = 0; i < size; i++) {
        for (int j = 0; j < size; j++) {
            term.at[i][j] = grown->at[i][j] = i == j;
            summed->at[i][j] = i == j ? part : 0.0;
            ramped->at[i][j] = i == j ? 0.5 * part * part : 0.0;
        }
    }
    for (int order = 1; order <= 9; order++) {
        multiply(&term, a, size, &more);
        for (int i = 0; i < size; i++) {
            for (int j = 0; j < size; j++) {
                term.at[i][j] = more.at[i][j] * (part / order);
                grown->at[i][j] += term.at[i][j];
                summed->at[i][j] += term.at[i][j] * part / (order + 1);
                ramped->at[i][j] += term.at[i][j] * part * part / ((order + 1) * (order + 2));
            }
        }
    }
    for (int n = 0; n < doublings; n++) {
        multiply(grown, ramped, size, &more);
        multiply(grown, summed, size, &term);
        for (int i = 0; i < size; i++) {
            for (int j = 0; j < size; j++) {
                ramped->at[i][j] += more.at[i][j] + part * summed->at[i][j];
                summed->at[i][j] += term.at[i][j];
            }
        }
        multiply(grown, grown, size, &more);
        *grown = more;
        part *= 2.0;
    }
}

/* Mean directions between two angles of the leading tooth, over all teeth in the arc. */
static void mean_directions(const bite_chatter_case *problem, double from, double to, double *mean)
{
    memset(mean, 0, 4 * sizeof *mean);
    double pitch = 2.0 * M_PI / problem->teeth;
    for (int tooth = 0; tooth < (int)problem->teeth; tooth++) {
        for (int turn = -1; turn <= 1; turn++) {
            double shift = pitch * tooth + 2.0 * M_PI * turn;
            bite_arc part = {fmax(from + shift, problem->arc.enter),
                             fmin(to + shift, problem->arc.leave), 0.0};
            double direction[4];
            if (part.leave > part.enter) {
                bite_chatter_directions(part, problem->ratio, direction);
                for (int i = 0; i < 4; i++) {
                    mean[i] += direction[i] / (to - from);
                }
            }
        }
    }
}

/* q'' + 2 zeta wn q' + wn^2 q = (wn^2/k) depth/2 K [direction] (x - x before) for each mode, x the
 * sum of the modes of its axis. Time in units of 1/scale. */
static void make_step(const bite_chatter_case *problem, const rings *all, double depth, double time,
                      const double *mean, double *out)
{
    int count = all->count;
    int size = 2 * count;
    double scale = all->scale;
    double *left = out + (size_t)(size * size);
    matrix a;
    matrix grown;
    matrix summed;
    matrix ramped;
    double drive[RINGS_MOST][2];
    memset(&a, 0, sizeof a);
    for (int i = 0; i < count; i++) {
        const bite_mode *mode = all->mode[i];
        double stiff = mode->natural / scale;
        double gain = 0.5 * depth * problem->tangential * mode->alpha / (scale * scale);
        a.at[i][i + count] = 1.0;
        a.at[i + count][i + count] = -2.0 * mode->damping * stiff;
        for (int j = 0; j < 2; j++) {
            drive[i][j] = gain * mean[2 * all->axis[i] + j];
        }
        for (int j = 0; j < count; j++) {
            a.at[i + count][j] = drive[i][all->axis[j]] - (i == j ? stiff * stiff : 0.0);
        }
    }
    exponential(&a, size, time * scale, &grown, &summed, &ramped);
    for (int i = 0; i < size; i++) {
        memcpy(out + (size_t)(i * size), grown.at[i], (size_t)size * sizeof *out);
        for (int j = 0; j < 2; j++) {
            double whole = 0.0;
            double late = 0.0;
            for (int k = 0; k < count; k++) {
                whole -= summed.at[i][k + count] * drive[k][j];
                late -= ramped.at[i][k + count] * drive[k][j] / (time * scale);
            }
            left[2 * i + j] = whole - late;
            left[2 * (size + i) + j] = late;
        }
    }
}

/* The state and all positions along both axes of the last tooth's time, the newest first. */
typedef struct delay_history {
    double state[STATES_MOST];
    double (*past)[2];
} delay_history;

/* One tooth's pass. past[k]: k steps ago; what was left steps and steps - 1 ago acts. */
static void pass_tooth(const step_cache *made, const rings *all, const delay_history *from,
                       delay_history *to)
{
    int size = made->size;
    int count = made->count;
    double state[STATES_MOST] = {0.0};
    memcpy(state, from->state, sizeof state);
    for (int n = 0; n < count; n++) {
        double next[STATES_MOST];
        /* a tooth ago the step began where from->past[count - n] stands, and ended at the one after
         * it */
        const double *begin = from->past[count - n];
        const double *end = from->past[count - n - 1];
        const double *own = step_at(made, n);
        const double *first = own + (size_t)(size * size);
        const double *last = first + (size_t)(2 * size);
        for (int i = 0; i < size; i++) {
            next[i] = first[2 * i] * begin[0] + first[2 * i + 1] * begin[1] + last[2 * i] * end[0] +
                      last[2 * i + 1] * end[1];
            for (int k = 0; k < size; k++) {
                next[i] += own[i * size + k] * state[k];
            }
        }
        memcpy(state, next, (size_t)size * sizeof *state);
        double *place = to->past[count - 1 - n];
        place[0] = place[1] = 0.0;
        for (int i = 0; i < all->count; i++) {
            place[all->axis[i]] += state[i];
        }
    }
    memcpy(to->state, state, sizeof state);
    to->past[count][0] = from->past[0][0];
    to->past[count][1] = from->past[0][1];
}

static void copy_history(const delay_history *from, delay_history *to, int count)
{
    memcpy(to->state, from->state, sizeof to->state);
    memcpy(to->past, from->past, (size_t)(count + 1) * sizeof *to->past);
}

static double product(const delay_history *a, const delay_history *b, int count)
{
    double sum = 0.0;
    for (int i = 0; i < STATES_MOST; i++) { /* those that are not there are 0 */
        sum += a->state[i] * b->state[i];
    }
    for (int n = 0; n <= count; n++) {
        sum += a->past[n][0] * b->past[n][0] + a->past[n][1] * b->past[n][1];
    }
    return sum;
}

static void shrink(delay_history *history, int count, double by)
{
    for (int i = 0; i < STATES_MOST; i++) {
        history->state[i] *= by;
    }
    for (int n = 0; n <= count; n++) {
        history->past[n][0] *= by;
        history->past[n][1] *= by;
    }
}

/* The larger |root| of q^2 = p q + r fitted to three states in a row: the leading pair, complex or
 * real. */
static double leading(const delay_history *first, const delay_history *second,
                      const delay_history *third, int count)
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

/* So many steps as the room has place for, and no more than are wished. */
static int steps_within(size_t capacity, int size, int steps)
{
    size_t each = (size_t)(size * (size + 4)) + 6;
    size_t most = capacity < 6 + each ? 1 : (capacity - 6) / each;
    return size == 0 ? 1 : (size_t)steps < most ? steps : (int)most;
}

/* Anything that holds a bit of every motion. */
static void begin(const bite_chatter_case *problem, int count, delay_history *first)
{
    memset(first->state, 0, sizeof first->state);
    for (int n = 0; n <= count; n++) {
        first->past[n][0] = problem->x.count > 0 ? 1.0 + 0.3 * sin(1.7 * n) : 0.0;
        first->past[n][1] = problem->y.count > 0 ? 0.7 + 0.4 * cos(2.3 * n) : 0.0;
    }
}

double bite_semidiscrete_growth(const bite_chatter_case *problem, double depth, double speed,
                                int steps, double precision, bite_semidiscrete_room room)
{
    step_cache made;
    delay_history states[3];
    double pitch = 2.0 * M_PI / problem->teeth;
    rings all = rings_of(problem);
    made.size = 2 * all.count;
    made.at = room.numbers;
    int count = made.count = steps_within(room.count, made.size, steps);
    double time = 1.0 / (problem->teeth * speed * count);
    for (int n = 0; n < count; n++) {
        double mean[4];
        mean_directions(problem, pitch * n / count, pitch * (n + 1) / count, mean);
        make_step(problem, &all, depth, time, mean, step_at(&made, n));
    }
    for (int i = 0; i < 3; i++) {
        states[i].past = (double(*)[2])(step_at(&made, count) + 2 * i * (count + 1));
    }
    begin(problem, count, &states[0]);
    double growth = 0.0;
    double before = -1.0;
    int settled = 0;
    for (int round = 0; round < ROUNDS && settled < 2; round++) {
        pass_tooth(&made, &all, &states[0], &states[1]);
        pass_tooth(&made, &all, &states[1], &states[2]);
        growth = leading(&states[0], &states[1], &states[2], count);
        settled = fabs(growth - before) < precision * growth ? settled + 1 : 0;
        before = growth;
        copy_history(&states[2], &states[0], count);
        shrink(&states[0], count, 1.0 / sqrt(fmax(1e-300, product(&states[0], &states[0], count))));
    }
    return growth;
}

double bite_semidiscrete_limit(const bite_chatter_case *problem, double guess, double speed,
                               int steps, double precision, bite_semidiscrete_room room)
{
    double low = guess;
    double high = guess;
    double low_log = log(bite_semidiscrete_growth(problem, guess, speed, steps, precision, room));
    double high_log = low_log;
    for (int i = 0; i < BRACKETS && low_log > 0.0; i++) {
        high = low;
        high_log = low_log;
        low *= 0.7;
        low_log = log(bite_semidiscrete_growth(problem, low, speed, steps, precision, room));
    }
    for (int i = 0; i < BRACKETS && high_log <= 0.0; i++) {
        low = high;
        low_log = high_log;
        high *= 1.4;
        high_log = log(bite_semidiscrete_growth(problem, high, speed, steps, precision, room));
    }
    for (int i = 0; i < 30 && high - low > 100.0 * precision * high; i++) {
        /* straight between the two, but never nearer to an end than a tenth */
        double share = fmin(0.9, fmax(0.1, low_log / (low_log - high_log)));
        double middle = low + share * (high - low);
        double log_growth =
            log(bite_semidiscrete_growth(problem, middle, speed, steps, precision, room));
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
