/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Stability of light side cuts. */
#include "core/physics/dynamics/light_cut.h"
#include "core/physics/dynamics/equal_axes_lobes.h"
#include <math.h>
#include <stdbool.h>
#include <string.h>

/* Lobes of the zero-order solution up to this many times the least depth are starting points. */
static const double deeper_lobes = 1.5;
/* A lobe is not tried if it would have to be shallower by this factor than it seems. */
static const double hopeless = 0.8;
static const double precision = 1e-3; /* of the depth */
/* Growing waves are counted at this share of the depth that was found. */
#define BELOW 0.98
#define NEWTON_ROUNDS 20
#define TURNS_MAX 200
#define REFINEMENTS 12
#define SEARCHES 8
#define BISECTIONS 40

static bite_complex product(bite_complex a, bite_complex b)
{
    bite_complex c = {a.real * b.real - a.imaginary * b.imaginary,
                      a.real * b.imaginary + a.imaginary * b.real};
    return c;
}

static bite_complex quotient(bite_complex a, bite_complex b)
{
    double over = 1.0 / (b.real * b.real + b.imaginary * b.imaginary);
    bite_complex c = {(a.real * b.real + a.imaginary * b.imaginary) * over,
                      (a.imaginary * b.real - a.real * b.imaginary) * over};
    return c;
}

static void subtract(bite_complex *a, bite_complex b)
{
    a->real -= b.real;
    a->imaginary -= b.imaginary;
}

static void swap(bite_complex *a, bite_complex *b)
{
    bite_complex other = *a;
    *a = *b;
    *b = other;
}

/* The matrix into its triangles, by rows with the largest pivot; the diagonal is inverted. */
static void factorize(bite_complex *matrix, int count, int *pivot)
{
    const bite_complex one = {1.0, 0.0};
    for (int k = 0; k < count; k++) {
        double largest = -1.0;
        pivot[k] = k;
        for (int i = k; i < count; i++) {
            bite_complex of = matrix[i * count + k];
            double size = fabs(of.real) + fabs(of.imaginary);
            if (size > largest) {
                largest = size;
                pivot[k] = i;
            }
        }
        for (int j = 0; j < count && pivot[k] != k; j++) {
            swap(&matrix[k * count + j], &matrix[pivot[k] * count + j]);
        }
        bite_complex over = quotient(one, matrix[k * count + k]);
        matrix[k * count + k] = over;
        for (int i = k + 1; i < count; i++) {
            bite_complex factor = product(matrix[i * count + k], over);
            matrix[i * count + k] = factor;
            for (int j = k + 1; j < count; j++) {
                subtract(&matrix[i * count + j], product(factor, matrix[k * count + j]));
            }
        }
    }
}

static void normalize(bite_complex *x, int count)
{
    double sum = 0.0;
    for (int i = 0; i < count; i++) {
        sum += x[i].real * x[i].real + x[i].imaginary * x[i].imaginary;
    }
    double scale = 1.0 / sqrt(sum);
    for (int i = 0; i < count; i++) {
        x[i].real *= scale;
        x[i].imaginary *= scale;
    }
}

/* Solves for a right vector, and scales it to length 1. */
static void solve_right(const bite_complex *matrix, int count, const int *pivot, bite_complex *x)
{
    for (int k = 0; k < count; k++) {
        swap(&x[k], &x[pivot[k]]);
    }
    for (int i = 0; i < count; i++) {
        for (int j = 0; j < i; j++) {
            subtract(&x[i], product(matrix[i * count + j], x[j]));
        }
    }
    for (int i = count - 1; i >= 0; i--) {
        for (int j = i + 1; j < count; j++) {
            subtract(&x[i], product(matrix[i * count + j], x[j]));
        }
        x[i] = product(x[i], matrix[i * count + i]);
    }
    normalize(x, count);
}

/* The same for a left vector. */
static void solve_left(const bite_complex *matrix, int count, const int *pivot, bite_complex *x)
{
    for (int i = 0; i < count; i++) {
        for (int j = 0; j < i; j++) {
            subtract(&x[i], product(matrix[j * count + i], x[j]));
        }
        x[i] = product(x[i], matrix[i * count + i]);
    }
    for (int i = count - 1; i >= 0; i--) {
        for (int j = i + 1; j < count; j++) {
            subtract(&x[i], product(matrix[j * count + i], x[j]));
        }
    }
    for (int k = count - 1; k >= 0; k--) {
        swap(&x[k], &x[pivot[k]]);
    }
    normalize(x, count);
}

/* left A right/(left right) */
static bite_complex rayleigh(const bite_complex *left, const bite_complex *matrix,
                             const bite_complex *right, int count)
{
    bite_complex above = {0.0, 0.0};
    bite_complex under = {0.0, 0.0};
    for (int i = 0; i < count; i++) {
        bite_complex sum = {0.0, 0.0};
        for (int j = 0; j < count; j++) {
            bite_complex term = product(matrix[i * count + j], right[j]);
            sum.real += term.real;
            sum.imaginary += term.imaginary;
        }
        bite_complex term = product(left[i], sum);
        above.real += term.real;
        above.imaginary += term.imaginary;
        term = product(left[i], right[i]);
        under.real += term.real;
        under.imaginary += term.imaginary;
    }
    return quotient(above, under);
}

/* A wave that neither grows nor decays. */
typedef struct wave_limit {
    double turn;
    double inverse; /* 1/(b K), m/N times m2; 0: none */
} wave_limit;

/* The eigenvalue next to `shift`, by inverse iteration from both sides, and its derivative. */
static bite_complex eigenvalue_at(bite_light_cut_room *room, double turn, bite_complex shift,
                                  int rounds, bite_complex *right, bite_complex *left,
                                  bite_complex *slope)
{
    int count = room->waves.count;
    int pivot[BITE_ARC_POINTS_MAX];
    bite_wave_factors factors, changes;
    bite_complex *matrix = room->at.matrix[0];
    bite_complex *change = room->at.matrix[1];
    bite_complex *shifted = room->at.matrix[2];
    bite_wave_factors_at(&room->waves, turn, &factors, &changes);
    bite_arc_matrix(&room->waves, &factors, matrix);
    bite_arc_matrix(&room->waves, &changes, change);
    memcpy(shifted, matrix, (size_t)(count * count) * sizeof *matrix);
    for (int i = 0; i < count; i++) {
        subtract(&shifted[i * count + i], shift);
    }
    factorize(shifted, count, pivot);
    for (int i = 0; i < rounds; i++) {
        solve_right(shifted, count, pivot, right);
        solve_left(shifted, count, pivot, left);
    }
    *slope = rayleigh(left, change, right, count);
    return rayleigh(left, matrix, right, count);
}

/* Moves the turn until the eigenvalue is real. frequency: rad/s, of the wave to start from. */
static wave_limit real_eigenvalue(bite_light_cut_room *room, double frequency, double inverse)
{
    const double longest_step = 0.3;
    bite_complex right[BITE_ARC_POINTS_MAX];
    bite_complex left[BITE_ARC_POINTS_MAX];
    bite_complex shift = {inverse, 0.0};
    wave_limit none = {0.0, 0.0};
    double turn = frequency * room->waves.period;
    for (int i = 0; i < room->waves.count; i++) {
        double angle = frequency * room->waves.time[i];
        right[i].real = left[i].real = cos(angle);
        right[i].imaginary = sin(angle);
        left[i].imaginary = -right[i].imaginary;
    }
    for (int round = 0; round < NEWTON_ROUNDS; round++) {
        bite_complex slope;
        bite_complex value =
            eigenvalue_at(room, turn, shift, round == 0 ? 2 : 1, right, left, &slope);
        double step = -value.imaginary / slope.imaginary;
        if (!isfinite(step)) {
            return none;
        }
        /* the error after the step is of the order of the squares of both */
        double change = fabs(value.imaginary) + fabs(slope.real * step);
        if (change < 0.1 * sqrt(precision) * fabs(value.real)) {
            wave_limit found = {turn + step, value.real + slope.real * step};
            return found.inverse > 0.0 ? found : none;
        }
        step = fmax(-longest_step, fmin(longest_step, step));
        turn += step;
        shift.real = value.real + slope.real * step;
        shift.imaginary = value.imaginary + slope.imaginary * step;
    }
    return none;
}

/* Determinants at turns from 0 to pi, rising. */
typedef struct determinant_walk {
    int count;
    double turn[TURNS_MAX];
    bite_complex value[TURNS_MAX];
    double flattest; /* the turn of the smallest one */
} determinant_walk;

/* The values of turns from `from` on. */
static void fill_values(bite_light_cut_room *room, double load, int from, determinant_walk *walk)
{
    const double loads[BITE_ARC_LANES] = {load, load, load, load};
    for (int k = from; k < walk->count; k += BITE_ARC_LANES) {
        double turn[BITE_ARC_LANES];
        bite_complex value[BITE_ARC_LANES];
        for (int l = 0; l < BITE_ARC_LANES; l++) {
            turn[l] = walk->turn[k + l < walk->count ? k + l : k];
        }
        bite_arc_determinants(&room->waves, turn, loads, &room->at.determinant, value);
        for (int l = 0; l < BITE_ARC_LANES && k + l < walk->count; l++) {
            walk->value[k + l] = value[l];
        }
    }
}

/* Sorts what follows the first `sorted` entries into them. */
static void sort_walk(int sorted, determinant_walk *walk)
{
    for (int k = sorted; k < walk->count; k++) {
        double turn = walk->turn[k];
        bite_complex value = walk->value[k];
        int i = k;
        for (; i > 0 && walk->turn[i - 1] > turn; i--) {
            walk->turn[i] = walk->turn[i - 1];
            walk->value[i] = walk->value[i - 1];
        }
        walk->turn[i] = turn;
        walk->value[i] = value;
    }
}

static void add_turn(determinant_walk *walk, double turn)
{
    if (walk->count < TURNS_MAX) {
        walk->turn[walk->count++] = fabs(remainder(turn, 2.0 * M_PI));
    }
}

/* Whether the phase between two determinants is less than 1.2 rad, so that it is that and not a
 * turn more. */
static bool is_resolved(bite_complex a, bite_complex b)
{
    double along = a.real * b.real + a.imaginary * b.imaginary;
    double across = a.real * b.imaginary - a.imaginary * b.real;
    return fabs(across) < 2.57 * along;
}

/* The phase between two determinants, to 0.01 rad if it is resolved: of the sum over all turns only
 * the nearest multiple of pi matters. */
static double phase_between(bite_complex a, bite_complex b)
{
    double along = a.real * b.real + a.imaginary * b.imaginary;
    double across = a.real * b.imaginary - a.imaginary * b.real;
    if (!is_resolved(a, b)) {
        return atan2(across, along);
    }
    double square = along * along + 0.28 * across * across; /* atan t = t/(1 + 0.28 t^2), t < 1 */
    double reverse = across * across + 0.28 * along * along;
    return fabs(across) < along ? across * along / square
                                : copysign(0.5 * M_PI, across) - across * along / reverse;
}

/* Turns to begin with: a few, some about the resonance of each mode, and, as far as one is known,
 * some about the wave at whose limit the determinant is almost 0. */
static void lay_turns(const bite_arc_waves *waves, const wave_limit *known, determinant_walk *walk)
{
    static const double widths[] = {-2.5, -0.8, 0.8, 2.5};
    walk->count = 0;
    for (int i = 0; i <= 4; i++) {
        add_turn(walk, 0.25 * M_PI * i);
    }
    walk->value[0].real = 1.0; /* waves that repeat themselves leave the chip as it is */
    walk->value[0].imaginary = 0.0;
    for (int m = 0; m < waves->modes; m++) {
        for (size_t k = 0; k < sizeof widths / sizeof *widths; k++) {
            add_turn(walk,
                     waves->natural[m] * waves->period * (1.0 + waves->damping[m] * widths[k]));
        }
    }
    if (known->inverse > 0.0) {
        add_turn(walk, known->turn);
    }
}

/* Number of growing waves at a load b K, or of pairs of them. */
static int growing_waves(bite_light_cut_room *room, double load, const wave_limit *known,
                         determinant_walk *walk)
{
    lay_turns(&room->waves, known, walk);
    fill_values(room, load, 1, walk);
    sort_walk(1, walk);
    for (int round = 0; round < REFINEMENTS; round++) {
        int before = walk->count;
        for (int k = 1; k < before && walk->count < TURNS_MAX; k++) {
            if (!is_resolved(walk->value[k - 1], walk->value[k])) {
                walk->turn[walk->count++] = 0.5 * (walk->turn[k - 1] + walk->turn[k]);
            }
        }
        if (walk->count == before) {
            break;
        }
        fill_values(room, load, before, walk);
        sort_walk(before, walk);
    }
    double phase = 0.0;
    double least = INFINITY;
    for (int k = 1; k < walk->count; k++) {
        double size = fabs(walk->value[k].real) + fabs(walk->value[k].imaginary);
        phase += phase_between(walk->value[k - 1], walk->value[k]);
        if (size < least) {
            least = size;
            walk->flattest = walk->turn[k];
        }
    }
    return isfinite(phase) ? (int)lround(fabs(phase) / M_PI) : 0;
}

static const double flips[BITE_ARC_LANES] = {M_PI, M_PI, M_PI, M_PI};

/* The least of some loads below one at which a wave grows that changes its sign from tooth to
 * tooth; 0: none. Such waves may be stable again at a larger load. */
static double flip_load(bite_light_cut_room *room, double load)
{
    static const double shares[BITE_ARC_LANES] = {0.55, 0.75, 0.9, BELOW};
    double loads[BITE_ARC_LANES];
    bite_complex value[BITE_ARC_LANES];
    for (int l = 0; l < BITE_ARC_LANES; l++) {
        loads[l] = shares[l] * load;
    }
    bite_arc_determinants(&room->waves, flips, loads, &room->at.determinant, value);
    for (int l = 0; l < BITE_ARC_LANES; l++) {
        if (value[l].real < 0.0) {
            return loads[l];
        }
    }
    return 0.0;
}

/* The least load at which a wave changes its sign from tooth to tooth, given one at which the
 * determinant of those is negative; there it is real, and 1 without a load. */
static wave_limit flip_limit(bite_light_cut_room *room, double load)
{
    double low = 0.0;
    double high = load;
    for (int round = 0; round < BISECTIONS && high - low > 0.5 * precision * high; round++) {
        double loads[BITE_ARC_LANES];
        bite_complex value[BITE_ARC_LANES];
        double step = (high - low) / (BITE_ARC_LANES + 1);
        for (int l = 0; l < BITE_ARC_LANES; l++) {
            loads[l] = low + step * (l + 1);
        }
        bite_arc_determinants(&room->waves, flips, loads, &room->at.determinant, value);
        int first = 0;
        while (first < BITE_ARC_LANES && value[first].real > 0.0) {
            first++;
        }
        high = low + step * (first + 1);
        low += step * first;
    }
    wave_limit found = {M_PI, 2.0 / (low + high)};
    return found;
}

/* The limit next to the flattest point of a walk, if it is between two loads; else none. */
static wave_limit limit_between(bite_light_cut_room *room, const determinant_walk *walk, double low,
                                double high)
{
    const wave_limit none = {0.0, 0.0};
    wave_limit found = real_eigenvalue(room, walk->flattest / room->waves.period, 1.0 / high);
    return found.inverse * high > 1.0 && found.inverse * low < 1.0 ? found : none;
}

/* The least load with a growing wave, about a load to begin with: by bisection, until Newton's
 * method finds a limit below which no wave grows. */
static wave_limit bisect(bite_light_cut_room *room, double load, determinant_walk *walk)
{
    const wave_limit unknown = {0.0, 0.0};
    double low = load;
    double high = load;
    for (int i = 0; i < BISECTIONS && growing_waves(room, low, &unknown, walk) > 0; i++) {
        high = low;
        low *= 0.6;
    }
    for (int i = 0; i < BISECTIONS && low == high; i++) {
        high *= 1.5;
        low = growing_waves(room, high, &unknown, walk) > 0 ? low : high;
    }
    for (int i = 0; i < BISECTIONS && high - low > precision * high; i++) {
        double middle = 0.5 * (low + high);
        if (growing_waves(room, middle, &unknown, walk) == 0) {
            low = middle;
            continue;
        }
        high = middle;
        wave_limit found = limit_between(room, walk, low, high);
        if (found.inverse > 0.0) {
            double lower = BELOW / found.inverse;
            if (lower <= low || growing_waves(room, lower, &found, walk) == 0) {
                return found;
            }
            high = lower;
        }
    }
    wave_limit found = {walk->flattest, 2.0 / (low + high)};
    return found;
}

/* Lowers the limit until no wave grows below it. */
static wave_limit verified(bite_light_cut_room *room, wave_limit limit)
{
    const wave_limit unknown = {0.0, 0.0};
    determinant_walk walk;
    for (int i = 0; i < SEARCHES; i++) {
        double load = BELOW / limit.inverse;
        double flip = flip_load(room, 1.0 / limit.inverse);
        wave_limit next;
        if (flip > 0.0) {
            next = flip_limit(room, flip);
        } else if (growing_waves(room, load, &limit, &walk) == 0) {
            return limit;
        } else {
            /* at a smaller load the wave that is known is no longer the flattest */
            (void)growing_waves(room, 0.85 * load, &unknown, &walk);
            next = real_eigenvalue(room, walk.flattest / room->waves.period, limit.inverse);
        }
        if (!(next.inverse > limit.inverse)) {
            return bisect(room, load, &walk);
        }
        limit = next;
    }
    return limit;
}

double bite_light_cut_depth(const bite_axis_modes *modes, double ratio, const bite_excitation *cut,
                            bite_light_cut_room *room)
{
    bite_direction_root roots[2];
    bite_lobe lobes[BITE_LOBES_MAX];
    bite_arc arc = {0.0, cut->span, 0.0};
    bite_mode_roots(arc, ratio, roots);
    int count = bite_equal_axes_lobes(modes, roots, cut, 1.0 / deeper_lobes, lobes);
    if (count == 0) {
        return INFINITY;
    }
    double points = bite_arc_points(modes, cut, lobes[0].depth);
    if (!(points <= BITE_ARC_POINTS_MAX)) {
        return lobes[0].depth;
    }
    bite_arc_waves_set(modes, cut->span, ratio, cut->teeth, cut->speed, (int)points, &room->waves);
    wave_limit limit = {0.0, 0.0};
    for (int i = 0; i < count; i++) {
        double inverse = 1.0 / (lobes[i].depth * cut->tangential);
        if (inverse < hopeless * limit.inverse) {
            break;
        }
        wave_limit found = real_eigenvalue(room, lobes[i].frequency, inverse);
        limit = found.inverse > limit.inverse ? found : limit;
    }
    if (!(limit.inverse > 0.0)) {
        determinant_walk walk;
        limit = bisect(room, lobes[0].depth * cut->tangential, &walk);
    }
    limit = verified(room, limit);
    return 1.0 / (limit.inverse * cut->tangential);
}
