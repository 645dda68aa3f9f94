/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Stability lobes by a search over the frequency. */
#include "tests/reference/textbook/frequency_sweep.h"
#include "tests/reference/textbook/vibration.h"
#include <complex.h>
#include <math.h>

/* Frequencies are scanned from half of the lowest mode to this many times the highest, in steps of
 * the width of the narrowest resonance. */
static const double lowest_share = 0.5;
static const double highest_share = 2.5;
static const double step_of_width = 1.0;
#define STEPS_MAX 6000
#define SPLITS 24
#define LOBES 30

/* An interval in which the number of waves changes by less than this, and passes no whole number,
 * contains no lobe. */
static const double waves_resolved = 0.2;

static double complex response(const bite_axis_modes *axis, double w)
{
    double complex sum = 0.0;
    for (int i = 0; i < axis->count; i++) {
        const bite_mode *mode = &axis->modes[i];
        double complex denominator =
            mode->natural * mode->natural - w * w + 2.0 * I * mode->damping * mode->natural * w;
        sum += (mode->alpha + I * mode->beta * w) / denominator;
    }
    return sum;
}

/* The eigenvalues L, roots of a0 L^2 + a1 L + 1 = 0, at a frequency; only one if an axis is rigid.
 */
typedef struct eigenvalues {
    int count;
    double complex root[2];
} eigenvalues;

static eigenvalues roots_at(const bite_chatter_case *problem, const double *direction, double w)
{
    double complex gx = response(&problem->x, w);
    double complex gy = response(&problem->y, w);
    double complex a0 = gx * gy * (direction[0] * direction[3] - direction[1] * direction[2]);
    double complex a1 = direction[0] * gx + direction[3] * gy;
    eigenvalues found = {1, {0.0, 0.0}};
    if (a0 == 0.0) {
        found.root[0] = -1.0 / a1;
        return found;
    }
    double complex root = csqrt(a1 * a1 - 4.0 * a0);
    found.count = 2;
    found.root[0] = (-a1 + root) / (2.0 * a0);
    found.root[1] = (-a1 - root) / (2.0 * a0);
    return found;
}

/* The reciprocal 1/alim of the depth of an eigenvalue, which passes through 0 where the depth is
 * infinite. Only a positive depth is a limit. */
static double inverse_depth(const bite_chatter_case *problem, double complex root)
{
    double size = creal(root) * creal(root) + cimag(root) * cimag(root);
    return -problem->teeth * problem->tangential * creal(root) / (2.0 * M_PI * size);
}

static double depth_of(double inverse)
{
    return inverse > 0.0 ? 1.0 / inverse : INFINITY;
}

/* Puts the two eigenvalues of the next frequency into the order of the frequency before. */
static void match_order(const eigenvalues *before, eigenvalues *next)
{
    if (next->count == 2 &&
        cabs(next->root[0] - before->root[0]) > cabs(next->root[1] - before->root[0])) {
        double complex other = next->root[0];
        next->root[0] = next->root[1];
        next->root[1] = other;
    }
}

typedef struct frequency_sweep {
    double from;
    double step;
    int steps;
} frequency_sweep;

/* tooth_passing: 2 pi times the tooth passing frequency; INFINITY: the whole range. Farther than
 * LOBES of these from the modes no lobe is the lowest. */
static frequency_sweep sweep_of(const bite_chatter_case *problem, double tooth_passing)
{
    const bite_axis_modes *axes[] = {&problem->x, &problem->y};
    double low = INFINITY;
    double high = 0.0;
    double narrow = INFINITY;
    for (int k = 0; k < 2; k++) {
        for (int i = 0; i < axes[k]->count; i++) {
            low = fmin(low, axes[k]->modes[i].natural);
            high = fmax(high, axes[k]->modes[i].natural);
            narrow = fmin(narrow, axes[k]->modes[i].natural * axes[k]->modes[i].damping);
        }
    }
    double from = fmax(lowest_share * low, low - LOBES * tooth_passing);
    double to = fmin(highest_share * high, high + LOBES * tooth_passing);
    double steps = fmin(STEPS_MAX, ceil((to - from) / (step_of_width * narrow)));
    frequency_sweep found = {from, (to - from) / steps, (int)steps};
    return found;
}

/* Number of waves between two teeth: a whole number if the speed lies on a lobe of this frequency.
 */
static double waves_of(double complex root, double w, double pitch_time)
{
    double shift = M_PI - 2.0 * atan2(cimag(root), creal(root));
    return (w * pitch_time - shift) / (2.0 * M_PI);
}

/* An interval of frequencies, with the eigenvalues at both ends. */
typedef struct frequency_range {
    double low;
    double high;
    eigenvalues at_low;
    eigenvalues at_high;
} frequency_range;

/* Change of the number of waves from one frequency to the next; whole turns of the phase are
 * removed. */
static double waves_change(double before, double after)
{
    double change = after - before;
    return change - floor(change + 0.5);
}

/* The smallest depth on the lobes of one eigenvalue within an interval. The interval is split until
 * the number of waves changes little over each part, so that no lobe is missed. */
static double depth_within(const bite_chatter_case *problem, const double *direction, int index,
                           const frequency_range *range, double pitch_time, int splits)
{
    double before = waves_of(range->at_low.root[index], range->low, pitch_time);
    double change =
        waves_change(before, waves_of(range->at_high.root[index], range->high, pitch_time));
    int crosses = floor(before + change) != floor(before);
    int resolved = fabs(change) < waves_resolved;
    if (splits == 0 || (resolved && !crosses)) {
        /* a jump that no splitting resolves is a swap of the two eigenvalues, and not a lobe */
        return crosses && resolved ? depth_of(inverse_depth(problem, range->at_low.root[index]))
                                   : INFINITY;
    }
    double middle = 0.5 * (range->low + range->high);
    eigenvalues next = roots_at(problem, direction, middle);
    match_order(&range->at_low, &next);
    frequency_range below = {range->low, middle, range->at_low, next};
    frequency_range above = {middle, range->high, next, range->at_high};
    return fmin(depth_within(problem, direction, index, &below, pitch_time, splits - 1),
                depth_within(problem, direction, index, &above, pitch_time, splits - 1));
}

double textbook_chatter_at(const bite_chatter_case *problem, double speed)
{
    double direction[4];
    double least = INFINITY;
    double pitch_time = 1.0 / (problem->teeth * speed);
    textbook_chatter_directions(problem->arc, problem->ratio, direction);
    frequency_sweep sweep = sweep_of(problem, 2.0 * M_PI / pitch_time);
    frequency_range range;
    range.at_low = roots_at(problem, direction, sweep.from);
    for (int i = 1; i <= sweep.steps; i++) {
        range.low = sweep.from + sweep.step * (i - 1);
        range.high = sweep.from + sweep.step * i;
        range.at_high = roots_at(problem, direction, range.high);
        match_order(&range.at_low, &range.at_high);
        for (int r = 0; r < range.at_high.count; r++) {
            least = fmin(least, depth_within(problem, direction, r, &range, pitch_time, SPLITS));
        }
        range.at_low = range.at_high;
    }
    return least;
}
