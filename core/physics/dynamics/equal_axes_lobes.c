/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Stability lobes of several modes that are the same along both axes. */
#include "core/physics/dynamics/equal_axes_lobes.h"
#include <math.h>

/* Frequencies about a mode, in half widths of its resonance, and beyond all modes, in frequencies
 * of the outer ones. */
static const double about[] = {-40.0, -14.0, -6.0, -3.2, -2.0, -1.3, -0.8, -0.4, 0.0,
                               0.4,   0.8,   1.3,  2.0,  3.2,  6.0,  14.0, 40.0};
#define ABOUT (sizeof about / sizeof *about)
static const double beyond[] = {0.02, 0.2, 0.5, 1.5, 2.5, 6.0};
#define BEYOND (sizeof beyond / sizeof *beyond)
#define POINTS_MAX (BITE_MODES_MAX * ABOUT + BEYOND)
#define ROUNDS 40

/* The response of an axis at a frequency, and its derivative. */
typedef struct response {
    double real;
    double imaginary;
    double real_slope;
    double imaginary_slope;
} response;

static response response_at(const bite_axis_modes *modes, double w)
{
    response sum = {0.0, 0.0, 0.0, 0.0};
    for (int i = 0; i < modes->count; i++) {
        const bite_mode *mode = &modes->modes[i];
        double width = 2.0 * mode->damping * mode->natural;
        double real = mode->natural * mode->natural - w * w;
        double imaginary = width * w;
        double over = 1.0 / (real * real + imaginary * imaginary);
        double x = mode->alpha * real * over;
        double y = -mode->alpha * imaginary * over;
        /* -g d/D, with d = -2 w + i width the derivative of the denominator D */
        double u = (-2.0 * w * real + width * imaginary) * over;
        double v = (width * real + 2.0 * w * imaginary) * over;
        sum.real += x;
        sum.imaginary += y;
        sum.real_slope -= x * u - y * v;
        sum.imaginary_slope -= x * v + y * u;
    }
    return sum;
}

/* What is searched. */
typedef struct lobe_search {
    const bite_axis_modes *modes;
    const bite_direction_root *root;
    double period; /* s, between teeth */
    int count;
    double at[POINTS_MAX];   /* rad/s, rising */
    double real[POINTS_MAX]; /* of the response there */
    double imaginary[POINTS_MAX];
    double gain[POINTS_MAX];
    double best;  /* largest Re(L G) so far that is on a lobe */
    double share; /* lobes of less than this share of the best gain are of no interest */
    double kept_gain[BITE_LOBES_MAX]; /* the best lobes, best first, and their frequencies */
    double kept_frequency[BITE_LOBES_MAX];
    int kept;
} lobe_search;

/* A frequency with the gain Re(L G) and the number of waves there. */
typedef struct wave_point {
    double w;
    double gain;
    double gain_slope;
    double waves;
    double waves_slope;
} wave_point;

static wave_point point_at(const lobe_search *search, double w)
{
    const bite_direction_root *root = search->root;
    response g = response_at(search->modes, w);
    double square = g.real * g.real + g.imaginary * g.imaginary;
    double lag = atan2(-g.imaginary, g.real);
    double lag_slope = (g.imaginary * g.real_slope - g.real * g.imaginary_slope) / square;
    wave_point point = {
        .w = w,
        .gain = root->real * g.real - root->imaginary * g.imaginary,
        .gain_slope = root->real * g.real_slope - root->imaginary * g.imaginary_slope,
        .waves = (w * search->period + 2.0 * (lag - root->phase)) / (2.0 * M_PI),
        .waves_slope = (search->period + 2.0 * lag_slope) / (2.0 * M_PI),
    };
    return point;
}

/* The point with this number of waves between two others. */
static wave_point point_of_waves(const lobe_search *search, wave_point from, wave_point to,
                                 double waves)
{
    const double close = 1e-8; /* the next step is of the order of its square */
    double low = fmin(from.w, to.w);
    double high = fmax(from.w, to.w);
    int rises = (to.waves - from.waves) * (to.w - from.w) > 0.0;
    double share = (waves - from.waves) / (to.waves - from.waves);
    wave_point point = point_at(search, from.w + share * (to.w - from.w));
    for (int i = 0; i < ROUNDS; i++) {
        double gap = point.waves - waves;
        if ((gap < 0.0) == rises) {
            low = point.w;
        } else {
            high = point.w;
        }
        double step = -gap / point.waves_slope;
        double next = point.w + step;
        if (fabs(step) <= close * point.w) {
            point.gain += point.gain_slope * step;
            point.w = next;
            return point;
        }
        point = point_at(search, next > low && next < high ? next : 0.5 * (low + high));
    }
    return point;
}

/* The point between two others, where the number of waves is largest or least. */
static wave_point turning_point(const lobe_search *search, wave_point low, wave_point high)
{
    wave_point middle = low;
    for (int i = 0; i < 6; i++) {
        double share = low.waves_slope / (low.waves_slope - high.waves_slope);
        share = fmin(0.9, fmax(0.1, share));
        middle = point_at(search, low.w + share * (high.w - low.w));
        if ((middle.waves_slope > 0.0) == (low.waves_slope > 0.0)) {
            low = middle;
        } else {
            high = middle;
        }
    }
    return middle;
}

/* Keeps a lobe in its place among the best ones. */
static void keep_lobe(lobe_search *search, const wave_point *point)
{
    int i = search->kept < BITE_LOBES_MAX ? search->kept++ : BITE_LOBES_MAX;
    for (; i > 0 && search->kept_gain[i - 1] < point->gain; i--) {
        if (i < BITE_LOBES_MAX) {
            search->kept_gain[i] = search->kept_gain[i - 1];
            search->kept_frequency[i] = search->kept_frequency[i - 1];
        }
    }
    if (i < BITE_LOBES_MAX) {
        search->kept_gain[i] = point->gain;
        search->kept_frequency[i] = point->w;
    }
    search->best = search->kept_gain[0];
}

/* Whether a whole number of waves lies between two points; the one next to `from` is taken into the
 * search. */
static int take_crossing(lobe_search *search, wave_point from, wave_point to)
{
    double whole = floor(from.waves);
    if (floor(to.waves) == whole) {
        return 0;
    }
    wave_point point =
        point_of_waves(search, from, to, to.waves > from.waves ? whole + 1.0 : whole);
    if (point.gain > search->share * search->best) {
        keep_lobe(search, &point);
    }
    return 1;
}

/* The first whole number of waves to one side of a maximum of the gain, as long as the gain falls
 * and is above the best one. next: index of the first frequency there; step: 1 or -1. */
static void search_side(lobe_search *search, wave_point from, int next, int step)
{
    for (int i = next; i >= 0 && i < search->count; i += step) {
        if (from.gain <= search->share * search->best) {
            return;
        }
        wave_point to = point_at(search, search->at[i]);
        if (from.waves_slope * to.waves_slope < 0.0) {
            wave_point turn = turning_point(search, from, to);
            if (take_crossing(search, from, turn)) {
                return;
            }
            from = turn;
        }
        if (take_crossing(search, from, to) || (i != next && to.gain > from.gain)) {
            return;
        }
        from = to;
    }
}

/* Moves towards the maximum of the gain between two frequencies until less than half a wave is
 * between them: whole numbers next to that point are then those next to the maximum. */
static wave_point summit(const lobe_search *search, int i)
{
    double low = search->at[i > 0 ? i - 1 : 0];
    double high = search->at[i < search->count - 1 ? i + 1 : i];
    wave_point point = point_at(search, search->at[i]);
    for (int round = 0; round < ROUNDS; round++) {
        if (point.gain_slope > 0.0) {
            low = point.w;
        } else {
            high = point.w;
        }
        if (fabs(point.waves_slope) * (high - low) < 0.5 || high - low < 1e-9 * high) {
            break;
        }
        wave_point next = point_at(search, 0.5 * (low + high));
        point = next;
    }
    return point;
}

static void add_point(lobe_search *search, double w)
{
    int i = search->count++;
    for (; i > 0 && search->at[i - 1] > w; i--) {
        search->at[i] = search->at[i - 1];
    }
    search->at[i] = w;
}

static void lay_points(lobe_search *search)
{
    double low = INFINITY;
    double high = 0.0;
    search->count = 0;
    for (int i = 0; i < search->modes->count; i++) {
        low = fmin(low, search->modes->modes[i].natural);
        high = fmax(high, search->modes->modes[i].natural);
    }
    for (size_t k = 0; k < BEYOND; k++) {
        add_point(search, beyond[k] * (beyond[k] < 1.0 ? low : high));
    }
    for (int i = 0; i < search->modes->count; i++) {
        const bite_mode *mode = &search->modes->modes[i];
        for (size_t k = 0; k < ABOUT; k++) {
            double share = 1.0 + mode->damping * about[k];
            if (share > 0.1) {
                add_point(search, mode->natural * share);
            }
        }
    }
}

/* The response at all points, without its derivative. */
static void fill_responses(lobe_search *search)
{
    for (int k = 0; k < search->count; k++) {
        search->real[k] = search->imaginary[k] = 0.0;
    }
    for (int i = 0; i < search->modes->count; i++) {
        const bite_mode *mode = &search->modes->modes[i];
        double square = mode->natural * mode->natural;
        double width = 2.0 * mode->damping * mode->natural;
        for (int k = 0; k < search->count; k++) {
            double real = square - search->at[k] * search->at[k];
            double imaginary = width * search->at[k];
            double over = mode->alpha / (real * real + imaginary * imaginary);
            search->real[k] += real * over;
            search->imaginary[k] -= imaginary * over;
        }
    }
}

static void search_root(lobe_search *search)
{
    int last = search->count - 1;
    for (int i = 0; i <= last; i++) {
        search->gain[i] =
            search->root->real * search->real[i] - search->root->imaginary * search->imaginary[i];
    }
    for (int i = 0; i <= last; i++) {
        const double *gain = &search->gain[i];
        int top = (i == 0 || gain[0] >= gain[-1]) && (i == last || gain[0] > gain[1]);
        /* between these frequencies the gain rises to less than twice the larger one */
        if (top && 2.0 * gain[0] > search->share * search->best) {
            wave_point from = summit(search, i);
            search_side(search, from, from.w < search->at[i] ? i : i + 1, 1);
            search_side(search, from, from.w > search->at[i] ? i : i - 1, -1);
        }
    }
}

int bite_equal_axes_lobes(const bite_axis_modes *modes, const bite_direction_root roots[2],
                          const bite_excitation *cut, double share, bite_lobe *lobes)
{
    lobe_search search;
    search.modes = modes;
    search.period = 1.0 / (cut->teeth * cut->speed);
    search.best = 0.0;
    search.share = share;
    search.kept = 0;
    lay_points(&search);
    fill_responses(&search);
    for (int i = 0; i < 2; i++) {
        search.root = &roots[i];
        search_root(&search);
    }
    for (int i = 0; i < search.kept; i++) {
        lobes[i].depth = 2.0 * M_PI / (cut->teeth * cut->tangential * search.kept_gain[i]);
        lobes[i].frequency = search.kept_frequency[i];
    }
    return search.kept;
}

double bite_equal_axes_depth(const bite_axis_modes *modes, const bite_direction_root roots[2],
                             double teeth, double tangential, double speed)
{
    bite_excitation cut = {.teeth = teeth, .speed = speed, .tangential = tangential};
    bite_lobe lobes[BITE_LOBES_MAX];
    return bite_equal_axes_lobes(modes, roots, &cut, 1.0, lobes) > 0 ? lobes[0].depth : INFINITY;
}
