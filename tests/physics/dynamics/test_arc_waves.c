/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The operator of the waves on the arc against its integrals, and its characteristic polynomial
 * against its determinant. */
#include "core/physics/dynamics/wave_polynomial.h"
#include "core/physics/dynamics/wave_scan.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include <math.h>

static bite_arc_room arc_room;
static bite_arc_waves waves;
static bite_wave_room wave_room;
static bite_wave_polynomial polynomial;
static bite_lane_matrices matrices;

typedef struct random_cut {
    bite_axis_modes modes;
    double ratio;
    bite_excitation cut;
} random_cut;

static random_cut make_cut(uint64_t *seed, double teeth, double span)
{
    random_cut made = {.cut = {.teeth = teeth, .span = span}};
    made.ratio = bite_test_between(seed, 0.05, 0.8);
    made.modes.count = (int)bite_test_between(seed, 1.0, 4.0);
    for (int i = 0; i < made.modes.count; i++) {
        made.modes.modes[i] =
            bite_mode_plain(bite_test_between(seed, 400.0, 3000.0),
                            bite_test_decades(seed, 2e6, 2e7), bite_test_decades(seed, 0.01, 0.08));
    }
    made.cut.speed = 3000.0 / (teeth * bite_test_decades(seed, 0.5, 4.0));
    return made;
}

/* The normalized Legendre polynomial. */
static double polynomial_at(int order, double x)
{
    double last = 0.0;
    double value = 1.0;
    for (int k = 0; k < order; k++) {
        double next = ((2 * k + 1) * x * value - k * last) / (k + 1);
        last = value;
        value = next;
    }
    return value * sqrt(order + 0.5);
}

enum part { COSINE, SINE, TO_COME, LATER, SOONER, PARTS };

/* What a part adds to the response at one time to a force at another, `apart` later. */
static double kernel(const random_cut *cut, enum part part, int mode, double apart)
{
    double direction = -sin(2.0 * M_PI * cut->cut.speed * apart) -
                       cut->ratio * cos(2.0 * M_PI * cut->cut.speed * apart);
    double sum = 0.0;
    for (int i = 0; i < cut->modes.count; i++) {
        const bite_mode *of = &cut->modes.modes[i];
        double rate = of->natural * sqrt(1.0 - of->damping * of->damping);
        double period = part == LATER ? waves.period : part == SOONER ? -waves.period : 0.0;
        double time = apart + period;
        double size = of->alpha / rate * exp(-of->damping * of->natural * time);
        if (part == COSINE) {
            sum += i == mode ? size * cos(rate * time) : 0.0;
        } else if (part == SINE) {
            sum += i == mode ? size * sin(rate * time) : 0.0;
        } else if (part == SOONER) {
            sum += time > 0.0 ? size * sin(rate * time) : 0.0;
        } else {
            sum -= time < 0.0 ? size * sin(rate * time) : 0.0;
        }
    }
    return direction * sum;
}

static const double *part_of(enum part part, int mode)
{
    const double *const parts[PARTS] = {waves.cosine[mode], waves.sine[mode], waves.to_come,
                                        waves.later[0], waves.sooner[0]};
    return parts[part];
}

#define STEPS 300

static double integral(const random_cut *cut, enum part part, int mode, int a, int b)
{
    double length = cut->cut.span / (2.0 * M_PI * cut->cut.speed);
    double sum = 0.0;
    for (int i = 0; i < STEPS; i++) {
        double x = (2.0 * i + 1.0) / STEPS - 1.0;
        for (int k = 0; k < STEPS; k++) {
            double y = (2.0 * k + 1.0) / STEPS - 1.0;
            sum += polynomial_at(a, x) * polynomial_at(b, y) *
                   kernel(cut, part, mode, 0.5 * length * (x - y));
        }
    }
    return 0.5 * length * sum * 4.0 / (STEPS * STEPS);
}

/* Each entry is the integral of two polynomials and the response between them, to the error of the
 * midpoint rule. */
START_TEST(entries_are_integrals)
{
    const int order = 5;
    uint64_t seed = 31;
    random_cut cut = make_cut(&seed, 9.0, 1.1);
    bite_arc_waves_set(&cut.modes, cut.ratio, &cut.cut, order, &arc_room, &waves);
    ck_assert_int_eq(waves.overlaps, 1);
    for (enum part part = COSINE; part < PARTS; part++) {
        for (int mode = 0; mode < (part < TO_COME ? cut.modes.count : 1); mode++) {
            const double *entries = part_of(part, mode);
            double largest = 0.0;
            for (int k = 0; k < order * order; k++) {
                largest = fmax(largest, fabs(entries[k]));
            }
            for (int k = 0; k < order * order; k++) {
                double wanted = integral(&cut, part, mode, k / order, k % order);
                ck_assert_msg(fabs(entries[k] - wanted) < 1e-3 * largest,
                              "part %d, mode %d, entry %d: %g, not %g", (int)part, mode, k,
                              entries[k], wanted);
            }
        }
    }
}
END_TEST

/* The polynomial at turns and loads between those from which it was made. */
static void check_polynomial(const random_cut *cut, int order, int samples, double unit,
                             uint64_t *seed)
{
    bite_arc_waves_set(&cut->modes, cut->ratio, &cut->cut, order, &arc_room, &waves);
    bite_wave_polynomial_set(&waves, order, unit, samples, &matrices, &wave_room, &polynomial);
    double turn[BITE_WAVE_LANES], part[BITE_WAVE_LANES], load[BITE_WAVE_LANES];
    bite_wave_turn turns[BITE_WAVE_LANES];
    bite_lane_complex exact;
    for (int l = 0; l < BITE_WAVE_LANES; l++) {
        turn[l] = bite_test_between(seed, 0.0, M_PI);
        part[l] = bite_test_between(seed, 0.1, 2.0);
        load[l] = part[l] * unit;
    }
    bite_wave_turns_set(&waves, turn, BITE_WAVE_LANES, turns);
    bite_wave_exact(&waves, turn, load, &matrices, &exact);
    for (int l = 0; l < BITE_WAVE_LANES; l++) {
        bite_complex value = {exact.real[l], exact.imaginary[l]};
        bite_complex wanted = bite_complex_product(value, turns[l].poles);
        bite_wave_point at = bite_wave_polynomial_at(&polynomial, turn[l], part[l]);
        double scale = hypot(wanted.real, wanted.imaginary) +
                       hypot(turns[l].poles.real, turns[l].poles.imaginary);
        double apart = hypot(at.value.real - wanted.real, at.value.imaginary - wanted.imaginary);
        ck_assert_msg(apart < 1e-5 * scale, "order %d, turn %g, load %g: %g + %g i, not %g + %g i",
                      order, turn[l], part[l], at.value.real, at.value.imaginary, wanted.real,
                      wanted.imaginary);
    }
}

START_TEST(polynomial_is_the_determinant)
{
    uint64_t seed = 32;
    for (int order = 2; order <= 14; order++) {
        for (int i = 0; i < 8; i++) {
            random_cut cut = make_cut(&seed, 3.0, bite_test_between(&seed, 0.3, 1.3));
            check_polynomial(&cut, order, 20, 2e5, &seed);
        }
        random_cut cut = make_cut(&seed, 9.0, 1.1);
        check_polynomial(&cut, order, 24, 2e5, &seed);
    }
}
END_TEST

/* The derivatives, by differences. */
START_TEST(derivatives_are_slopes)
{
    const double step = 1e-5;
    uint64_t seed = 33;
    random_cut cut = make_cut(&seed, 2.0, 0.9);
    bite_arc_waves_set(&cut.modes, cut.ratio, &cut.cut, 9, &arc_room, &waves);
    bite_wave_polynomial_set(&waves, 9, 1e6, 12, &matrices, &wave_room, &polynomial);
    bite_wave_point here = bite_wave_polynomial_at(&polynomial, 1.1, 0.8);
    bite_wave_point turned = bite_wave_polynomial_at(&polynomial, 1.1 + step, 0.8);
    bite_wave_point loaded = bite_wave_polynomial_at(&polynomial, 1.1, 0.8 + step);
    bite_assert_near((turned.value.real - here.value.real) / step, here.by_turn.real, 1e-3);
    bite_assert_near((turned.value.imaginary - here.value.imaginary) / step, here.by_turn.imaginary,
                     1e-3);
    bite_assert_near((loaded.value.real - here.value.real) / step, here.by_load.real, 1e-3);
    bite_assert_near((loaded.value.imaginary - here.value.imaginary) / step, here.by_load.imaginary,
                     1e-3);
}
END_TEST

/* The turns with which a scan begins rise from 0 to half a turn, where the last one is. */
START_TEST(a_scan_begins_with_half_a_turn)
{
    static bite_wave_scan scan;
    uint64_t seed = 74;
    for (int i = 0; i < 20; i++) {
        random_cut cut = make_cut(&seed, 2.0, 2.0);
        const bite_wave_source source = {&waves, NULL, 1e6, &matrices};
        bite_arc_waves_set(&cut.modes, cut.ratio, &cut.cut, 9, &arc_room, &waves);
        bite_wave_scan_set(&source, &scan);
        bite_assert_near(scan.turn[scan.last].turn, M_PI, 1e-12);
        ck_assert_double_eq(scan.turn[0].turn, 0.0);
        int last = 0;
        for (int at = scan.next[0]; at >= 0; at = scan.next[at]) {
            ck_assert_double_gt(scan.turn[at].turn, scan.turn[last].turn);
            last = at;
        }
        ck_assert_int_eq(last, scan.last);
    }
}
END_TEST

/* Each load for itself: its determinant below the share of the poles, and the load below the least.
 */
START_TEST(a_scan_is_close_at_any_load)
{
    static bite_wave_scan scan;
    scan.count = 3;
    for (int at = 0; at < scan.count; at++) {
        scan.turn[at].poles.real = 3.0; /* the determinant is 1 times 9 */
        for (int lane = 0; lane < BITE_WAVE_LANES; lane++) {
            scan.value[at][0][lane] = 9.0;
            scan.load[lane] = 5.0 + lane;
        }
    }
    ck_assert(!bite_wave_scan_is_close(&scan, 100.0, 0.1));
    for (int lane = 0; lane < BITE_WAVE_LANES; lane++) {
        scan.value[2][0][lane] = 0.7;
        scan.value[2][1][lane] = -0.5; /* |0.7 - 0.5 i| = 0.86 */
        ck_assert(bite_wave_scan_is_close(&scan, 5.5 + lane, 0.1));
        ck_assert(!bite_wave_scan_is_close(&scan, 5.0 + lane, 0.1));
        ck_assert(!bite_wave_scan_is_close(&scan, 5.5 + lane, 0.09));
        scan.value[2][0][lane] = 9.0;
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("arc waves");
    TCase *operators = tcase_create("operator");
    tcase_add_test(operators, entries_are_integrals);
    tcase_add_test(operators, polynomial_is_the_determinant);
    tcase_add_test(operators, derivatives_are_slopes);
    tcase_add_test(operators, a_scan_begins_with_half_a_turn);
    tcase_add_test(operators, a_scan_is_close_at_any_load);
    suite_add_tcase(suite, operators);
    return bite_test_run(suite);
}
