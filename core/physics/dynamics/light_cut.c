/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Stability of light side cuts. */
#include "core/physics/dynamics/light_cut.h"
#include "core/physics/dynamics/equal_axes_lobes.h"
#include "core/physics/dynamics/wave_scan.h"
#include <math.h>
#include <stdbool.h>

#define LANES BITE_WAVE_LANES

static const double precision = 1e-3; /* of the load */
/* Loads at which growing waves are counted, in parts of the zero-order limit, of the largest load
 * so far if none grows, and of a limit that was found. */
static const double first_loads[LANES] = {0.6, 0.95, 1.4, 2.2};
static const double higher_loads[LANES] = {1.3, 1.7, 2.2, 2.9};
static const double lower_loads[][LANES] = {{0.3, 0.5, 0.75, 0.89}, {0.65, 0.82, 0.94, 0.98}};
#define CHECKS (int)(sizeof lower_loads / sizeof *lower_loads)
/* Polynomials for waves of no length, and for each rad of the fastest motion within the arc: for
 * the polynomial in the load, and for the limit in the end. */
static const double least_order = 3.5;
static const double order_each = 0.4;
static const double order_at_rest = 4.0;
static const double exact_each = 0.5;
#define SEARCHES 24
#define NEWTON_ROUNDS 8
#define POLYNOMIALS 4

/* A wave that neither grows nor decays. */
typedef struct wave_limit {
    double turn;
    double load; /* INFINITY: none */
} wave_limit;

static const wave_limit no_limit = {0.0, (double)INFINITY};

/* Whether the line from a to b crosses the negative real numbers. */
static bool crosses_negative(bite_complex a, bite_complex b)
{
    double across = a.real * b.imaginary - a.imaginary * b.real;
    bool up = a.imaginary < 0.0 && b.imaginary >= 0.0 && across < 0.0;
    bool down = a.imaginary >= 0.0 && b.imaginary < 0.0 && across > 0.0;
    return up || down;
}

/* The ratio of the determinants at the loads of two lanes, times a positive number. Its phase is
 * that between them. */
static bite_complex ratio_at(const bite_wave_scan *scan, int i, int low, int high)
{
    const bite_lane_vector *value = scan->value[i];
    bite_complex a = {value[0][high], value[1][high]};
    bite_complex b = {value[0][low], -value[1][low]};
    return bite_complex_product(a, b);
}

/* The size of the determinant at a share of the way between two turns. */
static double size_between(const bite_wave_scan *scan, int i, double share, int lane)
{
    int k = scan->next[i] >= 0 ? scan->next[i] : i;
    double real = (1.0 - share) * scan->value[i][0][lane] + share * scan->value[k][0][lane];
    double imaginary = (1.0 - share) * scan->value[i][1][lane] + share * scan->value[k][1][lane];
    return sqrt(real * real + imaginary * imaginary);
}

/* Where about, between the loads of two lanes, the first determinant is 0: at that turn those of
 * both loads are opposite. */
static wave_limit first_zero(const bite_wave_scan *scan, int low, int high)
{
    wave_limit first = no_limit;
    bite_complex here = ratio_at(scan, 0, low, high);
    for (int i = 0; i >= 0; i = scan->next[i]) {
        int k = scan->next[i];
        bite_complex next = k >= 0 ? ratio_at(scan, k, low, high) : here;
        bool at_end = k < 0 && here.real < 0.0;
        if (at_end || crosses_negative(here, next)) {
            double share = at_end ? 0.0 : here.imaginary / (here.imaginary - next.imaginary);
            double under = size_between(scan, i, share, low);
            double over = size_between(scan, i, share, high);
            double load =
                scan->load[low] + (scan->load[high] - scan->load[low]) * under / (under + over);
            if (load < first.load) {
                double from = scan->turn[i].turn;
                first.load = load;
                first.turn = from + (at_end ? 0.0 : share * (scan->turn[k].turn - from));
            }
        }
        here = next;
    }
    return first;
}

/* The determinant and its derivatives by the turn and by the logarithm of the load, with the whole
 * matrices. */
typedef struct exact_point {
    bite_complex value;
    bite_complex by_turn;
    bite_complex by_turn_twice;
    bite_complex by_load;
} exact_point;

static exact_point exact_at(const bite_arc_waves *waves, bite_lane_matrices *matrices,
                            wave_limit limit)
{
    const double step = 1e-4;
    double turn[LANES] = {limit.turn, limit.turn + step, limit.turn - step, limit.turn};
    double load[LANES] = {limit.load, limit.load, limit.load, limit.load * (1.0 + step)};
    bite_complex f[LANES];
    bite_lane_complex value;
    bite_wave_exact(waves, turn, load, matrices, &value);
    for (int l = 0; l < LANES; l++) {
        f[l].real = value.real[l];
        f[l].imaginary = value.imaginary[l];
    }
    bite_complex minus = bite_complex_scaled(-1.0, f[0]);
    bite_complex forth = bite_complex_sum(f[1], minus);
    bite_complex back = bite_complex_sum(f[2], minus);
    exact_point at = {
        f[0],
        bite_complex_scaled(0.5 / step, bite_complex_sum(forth, bite_complex_scaled(-1.0, back))),
        bite_complex_scaled(1.0 / (step * step), bite_complex_sum(forth, back)),
        bite_complex_scaled(1.0 / step, bite_complex_sum(f[3], minus))};
    return at;
}

/* The determinant at a load in the source's unit, times a number. */
static bite_wave_point point_at(const bite_wave_source *source, double turn, double load)
{
    if (source->polynomial != NULL) {
        return bite_wave_polynomial_at(source->polynomial, turn, load);
    }
    wave_limit limit = {turn, load * source->unit};
    exact_point exact = exact_at(source->waves, source->matrices, limit);
    bite_wave_point at = {exact.value, exact.by_turn,
                          bite_complex_scaled(1.0 / load, exact.by_load)};
    return at;
}

/* Newton's method for the zero, between two loads, from a point next to it. */
static wave_limit exact_zero(const bite_wave_source *source, wave_limit near, double low,
                             double high)
{
    const double longest_step = 0.3;
    double turn = near.turn;
    double load = near.load;
    for (int round = 0; round < NEWTON_ROUNDS; round++) {
        bite_wave_point at = point_at(source, turn, load);
        const bite_complex *f = &at.value;
        const bite_complex *t = &at.by_turn;
        const bite_complex *x = &at.by_load;
        double over = 1.0 / (t->real * x->imaginary - t->imaginary * x->real);
        double turn_step = -(f->real * x->imaginary - f->imaginary * x->real) * over;
        double load_step = -(t->real * f->imaginary - t->imaginary * f->real) * over;
        turn += fmax(-longest_step, fmin(longest_step, turn_step));
        load += load_step;
        if (!(load > low && load <= high)) {
            return no_limit;
        }
        /* the error after the step is of the order of its square */
        if (fabs(turn_step) < 0.01 && fabs(load_step) < 0.1 * sqrt(precision) * load) {
            wave_limit found = {turn, load};
            return found;
        }
    }
    return no_limit;
}

static void set_loads(bite_wave_scan *scan, const double *parts, double from, double size)
{
    for (int l = 0; l < LANES; l++) {
        scan->load[l] = from + size * parts[l];
    }
}

static int first_growing(const bite_wave_scan *scan)
{
    int lane = 0;
    while (lane < LANES && scan->growing[lane] == 0) {
        lane++;
    }
    return lane;
}

/* What is known of the least load with a growing wave. */
typedef struct load_range {
    double low;       /* none grows there */
    double high;      /* some do there; INFINITY: not known */
    wave_limit found; /* between them */
    int checks;       /* of loads below it */
} load_range;

/* Narrows the range by a scan, whose first lane with a growing wave is given, and sets the loads of
 * the next one. */
static void narrow_range(const bite_wave_source *source, int lane, bite_wave_scan *scan,
                         load_range *range)
{
    static const double thirds[LANES] = {0.0, 1.0 / 3.0, 2.0 / 3.0, 1.0};
    range->found = no_limit;
    range->checks = 0;
    if (lane == LANES) {
        range->low = scan->load[LANES - 1];
    } else {
        range->high = scan->load[lane];
        range->low = lane > 0 ? scan->load[lane - 1] : range->low < range->high ? range->low : 0.0;
    }
    if (lane > 0 && lane < LANES) {
        range->found =
            exact_zero(source, first_zero(scan, lane - 1, lane), range->low, range->high);
    }
    if (isfinite(range->found.load)) {
        set_loads(scan, lower_loads[range->checks++], 0.0, range->found.load);
    } else if (isfinite(range->high)) {
        set_loads(scan, thirds, range->low, range->high - range->low);
    } else {
        set_loads(scan, higher_loads, 0.0, range->low);
    }
}

/* The least load at which a wave grows, in the source's unit; none: no wave grows at any load.
 * *grazes: whether a wave almost grows at a load well below it. */
static wave_limit least_load(const bite_wave_source *source, bite_wave_scan *scan, bool *grazes)
{
    const double well_below = 0.9;
    const double almost = 0.03;
    load_range range = {0.0, (double)INFINITY, no_limit, 0};
    bite_wave_scan_set(source, scan);
    set_loads(scan, first_loads, 0.0, 1.0);
    for (int i = 0; i < SEARCHES && !(range.high - range.low < precision * range.high); i++) {
        bite_wave_scan_count(source, scan);
        int lane = first_growing(scan);
        if (lane < LANES || !isfinite(range.found.load)) {
            narrow_range(source, lane, scan, &range);
            *grazes = false;
            continue;
        }
        *grazes |= bite_wave_scan_is_close(scan, well_below * range.found.load, almost);
        if (range.checks == CHECKS) {
            return range.found;
        }
        set_loads(scan, lower_loads[range.checks++], 0.0, range.found.load);
    }
    range.found.load = isfinite(range.high) ? 0.5 * (range.low + range.high) : range.high;
    return range.found;
}

/* How well a polynomial stands for the determinant. */
typedef enum fidelity {
    FAITHFUL,
    TOO_FEW_POWERS,
    TOO_MUCH_ROUNDING,
    PART_TOO_SMALL /* of the matrices */
} fidelity;

/* At the largest load of the last scan the coefficients, of which the last ones show how large
 * those are that were left out, and their rounding must be small beside the poles where they are
 * smallest. */
static fidelity fidelity_of(const bite_wave_scan *scan, int powers)
{
    const double small = 1e-2;
    const double rounding = 1e-13;
    double largest = 0.0;
    double least = INFINITY;
    for (int q = 0; q < powers; q++) {
        double size = fabs(scan->coefficient[q][LANES - 1]);
        largest = size > largest ? size : largest;
    }
    for (int i = 0; i < scan->count; i++) {
        const bite_complex *poles = &scan->turn[i].poles;
        double size = fabs(poles->real) + fabs(poles->imaginary);
        least = size < least ? size : least;
    }
    double last = fabs(scan->coefficient[powers - 1][LANES - 1]) +
                  fabs(scan->coefficient[powers - 2][LANES - 1]);
    if (!(rounding * largest <= small * least)) {
        return TOO_MUCH_ROUNDING;
    }
    return last <= small * least ? FAITHFUL : TOO_FEW_POWERS;
}

static int usual_samples(int modes, bool overlap)
{
    int samples = modes < 3 ? 8 : modes == 3 ? 12 : 16;
    return overlap ? samples + LANES : samples;
}

/* Newton's method with the whole matrices, from a limit found with a part of them: one step, with
 * the curvature along the turn, which is sharp about a resonance. In N/m. None: the step is not
 * small enough to be good to the precision. */
static wave_limit refined(bite_light_cut_room *room, wave_limit limit)
{
    const double longest = 0.01;
    exact_point at = exact_at(&room->waves, &room->matrices, limit);
    const bite_complex *t = &at.by_turn;
    const bite_complex *x = &at.by_load;
    double over = 1.0 / (t->real * x->imaginary - t->imaginary * x->real);
    double turned = 0.0;
    double grown = 0.0;
    double before = 0.0;
    for (int i = 0; i < 3; i++) {
        before = grown;
        bite_complex f = bite_complex_sum(
            at.value, bite_complex_scaled(0.5 * turned * turned, at.by_turn_twice));
        turned = -(f.real * x->imaginary - f.imaginary * x->real) * over;
        grown = -(t->real * f.imaginary - t->imaginary * f.real) * over;
    }
    if (!(fabs(grown) < longest && fabs(grown - before) < precision)) {
        return no_limit;
    }
    limit.turn += turned;
    limit.load *= 1.0 + grown;
    return limit;
}

/* Whether the wave that changes its sign from tooth to tooth, whose determinant is real, is close
 * to growing at the loads of the last scan. Such a wave may be stable again at larger loads, and
 * then it takes little to turn a determinant that is almost 0 into one that is negative. */
static bool sign_change_is_near(const bite_wave_scan *scan)
{
    const bite_complex *poles = &scan->turn[scan->last].poles;
    double close = 0.25 * (poles->real * poles->real + poles->imaginary * poles->imaginary);
    bite_lane_vector value = scan->value[scan->last][0];
    return value[0] < close || value[1] < close || value[2] < close || value[3] < close;
}

/* Whether it grows in the whole matrices at some loads below one, N/m. */
static bool sign_change_grows(bite_light_cut_room *room, double limit)
{
    static const double turns[LANES] = {M_PI, M_PI, M_PI, M_PI};
    static const double parts[LANES] = {0.99, 0.96, 0.9, 0.8};
    double load[LANES];
    bite_lane_complex value;
    for (int l = 0; l < LANES; l++) {
        load[l] = parts[l] * limit;
    }
    bite_wave_exact(&room->waves, turns, load, &room->matrices, &value);
    return value.real[0] < 0.0 || value.real[1] < 0.0 || value.real[2] < 0.0 || value.real[3] < 0.0;
}

static double whole_order(double rate)
{
    return ceil(order_at_rest + exact_each * rate);
}

static double part_order(double rate)
{
    return ceil(least_order + order_each * rate);
}

/* What a limit is searched with. */
typedef struct limit_search {
    const bite_axis_modes *modes;
    double ratio;
    const bite_excitation *cut;
    double unit;  /* of the loads, N/m */
    double whole; /* order of the matrices */
    double part;  /* order of the part of which the polynomial is made */
    int samples;
} limit_search;

/* A limit in the whole matrices, in N/m, from one that was found with a part of them in the unit of
 * the search; none: the part was too small. */
static wave_limit whole_limit(bite_light_cut_room *room, const limit_search *search,
                              wave_limit found)
{
    bool near = sign_change_is_near(&room->at.scan); /* that memory is used again below */
    found.load *= search->unit;
    double rate = bite_arc_rate(search->modes, search->cut, found.load);
    double whole = fmin(BITE_ARC_ORDER_MAX, whole_order(rate));
    if (whole > search->whole) {
        bite_arc_waves_set(search->modes, search->ratio, search->cut, (int)whole, &room->at.arc,
                           &room->waves);
    }
    if (search->part >= whole) {
        return found;
    }
    if (fmin(part_order(rate), whole) > search->part + 1.0 ||
        (near && sign_change_grows(room, found.load))) {
        return no_limit;
    }
    return refined(room, found);
}

/* A search with a part of the matrices, in the unit of the search. Where the polynomial cannot
 * tell, the matrices themselves do, which takes longer. part: set to `whole` then, and if a wave
 * almost grows at smaller loads, which a part might miss. */
static wave_limit part_limit(bite_light_cut_room *room, limit_search *search, bool is_last,
                             fidelity *how)
{
    bite_wave_source source = {&room->waves, &room->polynomial, search->unit, &room->matrices};
    bool grazes = false;
    bite_wave_polynomial_set(&room->waves, (int)search->part, search->unit, search->samples,
                             &room->matrices, &room->at.wave, &room->polynomial);
    wave_limit found = least_load(&source, &room->at.scan, &grazes);
    *how = fidelity_of(&room->at.scan, room->polynomial.powers);
    if (*how == TOO_MUCH_ROUNDING ||
        (*how == TOO_FEW_POWERS && (is_last || search->samples == BITE_WAVE_SAMPLES_MAX))) {
        source.polynomial = NULL;
        found = least_load(&source, &room->at.scan, &grazes);
        search->part = search->whole;
        *how = FAITHFUL;
    }
    if (grazes && search->part < search->whole && isfinite(found.load)) {
        search->part = search->whole;
        *how = PART_TOO_SMALL;
    }
    return found;
}

/* The limit, in N/m. Searches with more and more of the matrices, until the whole ones agree with
 * the part; then they are the part. */
static wave_limit limit_of(bite_light_cut_room *room, limit_search search)
{
    wave_limit found = no_limit;
    for (int i = 1; i <= POLYNOMIALS; i++) {
        fidelity how;
        search.part = i < POLYNOMIALS ? fmin(search.part, search.whole) : search.whole;
        bite_arc_waves_set(search.modes, search.ratio, search.cut, (int)search.whole, &room->at.arc,
                           &room->waves);
        found = part_limit(room, &search, i == POLYNOMIALS, &how);
        if (how == FAITHFUL) {
            wave_limit whole = isfinite(found.load) ? whole_limit(room, &search, found) : found;
            if (isfinite(whole.load) || !isfinite(found.load)) {
                return whole;
            }
            search.part += 2.0;
        }
        search.samples += how == TOO_FEW_POWERS ? LANES : 0;
        search.unit *= isfinite(found.load) ? found.load : 1.0;
        double rate = bite_arc_rate(search.modes, search.cut, search.unit);
        search.whole = fmin(BITE_ARC_ORDER_MAX, fmax(search.whole, whole_order(rate)));
        search.part = fmax(search.part, part_order(rate));
    }
    found.load = search.unit;
    return found;
}

double bite_light_cut_depth(const bite_axis_modes *modes, double ratio, const bite_excitation *cut,
                            bite_light_cut_room *room)
{
    const double usual_load = 1.5; /* of the zero-order limit */
    bite_direction_root roots[2];
    bite_lobe lobes[BITE_LOBES_MAX];
    bite_arc arc = {0.0, cut->span, 0.0};
    bite_mode_roots(arc, ratio, roots);
    if (bite_equal_axes_lobes(modes, roots, cut, 1.0, lobes) == 0) {
        return INFINITY;
    }
    double load = lobes[0].depth * cut->tangential;
    double rate = bite_arc_rate(modes, cut, usual_load * load);
    if (!(whole_order(rate) <= BITE_ARC_ORDER_MAX) ||
        !(cut->span * cut->teeth < 2.0 * M_PI * (BITE_ARC_OVERLAPS_MAX + 1))) {
        return lobes[0].depth;
    }
    limit_search search = {
        .modes = modes,
        .ratio = ratio,
        .cut = cut,
        .unit = load,
        .whole = whole_order(rate),
        .part = part_order(rate),
        .samples = usual_samples(modes->count, cut->span * cut->teeth > 2.0 * M_PI),
    };
    return limit_of(room, search).load / cut->tangential;
}
