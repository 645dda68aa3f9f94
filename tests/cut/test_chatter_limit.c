/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The chatter limit: measured modes, the estimated mode of a slender tool, and process damping. */
#include "core/cut/defaults.h"
#include "core/cut/physics_inputs.h"
#include "core/physics/dynamics/semi_discretization.h"
#include "core/physics/dynamics/stability_lobes.h"
#include "core/physics/dynamics/tool_modes.h"
#include "tests/reference/textbook/vibration.h"
#include "tests/support/limit_cuts.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include "tests/support/test_physics.h"
#include <math.h>

/* With a measured mode the limit is not advisory, the stable depth varies with the speed, and its
 * least is that of the worst speed. */
START_TEST(measured_mode_has_stability_lobes)
{
    bite_cut cut = bite_test_part_cut();
    cut.width = (double)NAN;
    double worst = bite_test_limit(&cut, BITE_LIMIT_CHATTER).capacity;
    ck_assert(bite_test_limit(&cut, BITE_LIMIT_CHATTER).advisory);
    cut.mode_frequency = 900.0;
    double deepest = 0.0;
    double least = INFINITY;
    for (int i = 0; i < 200; i++) {
        cut.spindle_speed = 100.0 + 2.0 * i;
        bite_limit limit = bite_test_limit(&cut, BITE_LIMIT_CHATTER);
        ck_assert(!limit.advisory);
        deepest = fmax(deepest, limit.capacity);
        least = fmin(least, limit.capacity);
    }
    ck_assert_double_gt(deepest, 3.0 * worst);
    ck_assert_double_ge(least, worst * (1.0 - 1e-3));
    ck_assert_double_lt(least, worst * 1.05);
}
END_TEST

/* Of several measured modes the worse one decides, a much stiffer one changes nothing, and their
 * order does not matter; also in light passes, which are simulated in time steps. */
START_TEST(several_measured_modes_act_together)
{
    static const double widths[] = {NAN, 0.1}; /* times the diameter: a slot, a light pass */
    for (int k = 0; k < 2; k++) {
        bite_cut cut = bite_test_part_cut();
        cut.width = widths[k] * cut.diameter;
        cut.mode_frequency = 900.0;
        cut.mode_stiffness = 4e6;
        cut.mode_damping = 0.03;
        double one = bite_test_limit(&cut, BITE_LIMIT_CHATTER).capacity;
        bite_cut stiff = cut;
        stiff.mode2_frequency = 2500.0;
        stiff.mode2_stiffness = 8e9;
        stiff.mode2_damping = 0.03;
        bite_assert_near(bite_test_limit(&stiff, BITE_LIMIT_CHATTER).capacity, one, 2e-2);
        bite_cut second = cut;
        second.mode_frequency = (double)NAN;
        second.mode2_frequency = 900.0;
        second.mode2_stiffness = 4e6;
        second.mode2_damping = 0.03;
        ck_assert(!bite_test_limit(&second, BITE_LIMIT_CHATTER).advisory);
        bite_assert_near(bite_test_limit(&second, BITE_LIMIT_CHATTER).capacity, one, 1e-9);
        bite_cut both = cut;
        both.mode3_frequency = 610.0;
        both.mode3_stiffness = 1e6;
        both.mode3_damping = 0.02;
        bite_cut reordered = cut;
        reordered.mode_frequency = 610.0;
        reordered.mode_stiffness = 1e6;
        reordered.mode_damping = 0.02;
        double soft = bite_test_limit(&reordered, BITE_LIMIT_CHATTER).capacity;
        reordered.mode2_frequency = 900.0;
        reordered.mode2_stiffness = 4e6;
        reordered.mode2_damping = 0.03;
        double together = bite_test_limit(&both, BITE_LIMIT_CHATTER).capacity;
        bite_assert_near(bite_test_limit(&reordered, BITE_LIMIT_CHATTER).capacity, together, 1e-2);
        ck_assert_double_lt(together, 1.3 * fmin(one, soft));
        ck_assert_double_gt(together, 0.2 * fmin(one, soft));
    }
}
END_TEST

/* Two equal modes of twice the stiffness are the same as one mode. */
START_TEST(two_half_modes_equal_one)
{
    uint64_t seed = 78;
    for (int i = 0; i < 20; i++) {
        bite_chatter_case whole_mode = {.teeth = 2.0, .tangential = 5e8, .ratio = 0.3};
        whole_mode.arc.enter = 0.0;
        whole_mode.arc.leave = bite_test_between(&seed, 0.4, M_PI);
        whole_mode.x.count = whole_mode.y.count = 1;
        whole_mode.x.modes[0] = whole_mode.y.modes[0] = bite_mode_plain(900.0, 3e6, 0.03);
        bite_chatter_case halves = whole_mode;
        halves.x.count = halves.y.count = 2;
        for (int k = 0; k < 2; k++) {
            halves.x.modes[k] = halves.y.modes[k] = bite_mode_plain(900.0, 6e6, 0.03);
        }
        double speed = bite_test_between(&seed, 50.0, 300.0);
        double depth = bite_chatter_at(&whole_mode, speed);
        bite_assert_near(bite_chatter_at(&halves, speed), depth, 1e-6);
        /* if two pairs of eigenvalues alternate, the iteration ends before they separate: six
         * digits */
        static double numbers[BITE_SEMIDISCRETE_SIZE(4, 40)];
        bite_semidiscrete_room room = {numbers, sizeof numbers / sizeof *numbers};
        double grown = bite_semidiscrete_growth(&whole_mode, depth, speed, 40, 1e-11, room);
        bite_assert_near(bite_semidiscrete_growth(&halves, depth, speed, 40, 1e-11, room), grown,
                         1e-5);
    }
}
END_TEST

/* The closed form for one mode that is the same along both axes against a sweep over frequencies,
 * for random arcs, teeth and damping. */
START_TEST(worst_speed_matches_a_sweep)
{
    uint64_t seed = 77;
    for (int i = 0; i < 200; i++) {
        bite_chatter_case problem = {.teeth = floor(bite_test_between(&seed, 1.0, 7.0)),
                                     .tangential = 5e8};
        double span = bite_test_between(&seed, 0.15, M_PI);
        double damping = bite_test_decades(&seed, 0.005, 0.1);
        problem.arc.enter = i % 2 ? M_PI - span : 0.0;
        problem.arc.leave = problem.arc.enter + span;
        problem.ratio = bite_test_between(&seed, 0.05, 0.8);
        problem.x.count = problem.y.count = 1;
        problem.x.modes[0] = problem.y.modes[0] = bite_mode_plain(1000.0, 5e6, damping);
        double swept = textbook_chatter_least(&problem, NULL);
        double closed = bite_test_equal_axes_depth(problem.arc, problem.teeth, problem.tangential,
                                                   problem.ratio, 5e6, damping);
        ck_assert_msg(fabs(closed / swept - 1.0) < 5e-3, "cut %d: closed %g, swept %g", i, closed,
                      swept);
    }
}
END_TEST

/* The static shape under a tip force has a frequency 1.465 % above the first one of a cylinder,
 * sqrt(3 x 140/33)/1.8751^2, and never below the first one of any shaft. 3 mm x 20 mm of carbide:
 * 6546.2565 Hz (tests/reference/dynamics.csv, BM-U-3x20-580, derived). */
START_TEST(frequency_of_the_bent_shape_is_an_upper_bound)
{
    bite_shaft rod = {1, {{20e-3, 3e-3, 3e-3}}};
    bite_assert_near(bite_tool_mode_bent(&rod, 580e9, 14900.0),
                     6546.2565 * sqrt(420.0 / 33.0) / pow(textbook_cantilever_root(1), 2.0), 1e-6);
    bite_shaft halves = {2, {{8e-3, 3e-3, 3e-3}, {12e-3, 3e-3, 3e-3}}};
    bite_assert_near(bite_tool_mode_bent(&halves, 580e9, 14900.0),
                     bite_tool_mode_bent(&rod, 580e9, 14900.0), 1e-12);
    uint64_t seed = 91;
    for (int i = 0; i < 200; i++) {
        double tip = bite_test_decades(&seed, 0.3e-3, 10e-3);
        double shank = tip * bite_test_between(&seed, 1.0, 4.0);
        bite_shaft tool = {2,
                           {{tip * bite_test_between(&seed, 1.0, 6.0), tip, tip},
                            {bite_test_between(&seed, 5e-3, 60e-3), shank, shank}}};
        double first = bite_tool_mode_frequency(&tool, 580e9, 14900.0, 1);
        double bent = bite_tool_mode_bent(&tool, 580e9, 14900.0);
        ck_assert_double_ge(bent, first * (1.0 - 1e-9));
        ck_assert(shank > 1.3 * tip || bent < 1.1 * first);
    }
}
END_TEST

/* Process damping acts like additional damping of the mode: z arc C b f/(4 k v), C = 4 re K. It
 * grows as the waves get shorter, and without bound if they are steeper than the clearance. */
START_TEST(process_damping_grows_with_short_waves)
{
    uint64_t seed = 92;
    int deeper = 0;
    for (int i = 0; i < 300; i++) {
        double span = bite_test_between(&seed, 0.3, M_PI);
        bite_arc arc = {M_PI - span, M_PI, 0.0};
        double teeth = floor(bite_test_between(&seed, 1.0, 5.0));
        double tangential = bite_test_decades(&seed, 1e8, 3e9);
        double stiff = bite_test_decades(&seed, 1e5, 1e7);
        bite_ripple waves = {bite_test_decades(&seed, 20e-6, 5e-3), 0.0,
                             bite_test_decades(&seed, 1e-6, 10e-6)};
        double damping = 0.002; /* so small that the depth is proportional to it */
        double plain = bite_test_equal_axes_depth(arc, teeth, tangential, 0.3, stiff, damping);
        double slope = plain * teeth * tangential / (stiff * damping);
        double depth = plain * bite_chatter_damped_by_flank(&waves, arc, slope);
        ck_assert_double_ge(depth, plain);
        double more = teeth * span * 4.0 * waves.edge_radius * tangential * depth /
                      (4.0 * stiff * waves.length);
        if (depth < 3.0 * plain) {
            bite_assert_near(
                bite_test_equal_axes_depth(arc, teeth, tangential, 0.3, stiff, damping + more),
                depth, 1e-2);
            deeper += depth > 1.2 * plain;
        }
        bite_ripple longer = waves;
        longer.length *= 1.5;
        ck_assert_double_le(bite_chatter_damped_by_flank(&longer, arc, slope), depth / plain);
        bite_ripple steep = waves;
        steep.height = 1.001 * 0.2 * steep.length / (2.0 * M_PI);
        ck_assert(isinf(bite_chatter_damped_by_flank(&steep, arc, slope)));
    }
    ck_assert_int_gt(deeper, 5);
}
END_TEST

/* The stable depth of a slot with a mode of this stiffness. */
static double equal_axes_depth(const bite_cut *cut, double stiffness)
{
    bite_arc slot = {0.0, M_PI, 0.0};
    bite_cut full = *cut;
    bite_pressure pressure;
    bite_defaults_fill(&full);
    ck_assert(bite_cut_pressure(&full, &pressure));
    return bite_test_equal_axes_depth(slot, full.flutes, pressure.tangential,
                                      bite_pressure_ratio(full.pressure_r, &pressure), stiffness,
                                      full.mode_damping);
}

/* A short, stiff tool: the mode of the machine alone. A long tool: 3 E I/L^3, for 3 mm x 20 mm
 * 0.864797 N/um and 6546.2565 Hz (tests/reference/dynamics.csv, BM-U-3x20-580, derived), so for 150
 * mm 2049.888 N/m with half of the machine's damping; its waves are too long for process damping.
 * 40 mm is between the two: an eighth of the stiffness, a quarter of the frequency, and some
 * process damping. */
START_TEST(long_tool_lowers_the_stable_depth)
{
    bite_cut cut = bite_test_rod_cut(6e-3, 12e-3);
    bite_assert_near(bite_test_limit(&cut, BITE_LIMIT_CHATTER).capacity,
                     equal_axes_depth(&cut, 20e6), 1e-9);
    cut = bite_test_rod_cut(3e-3, 17e-3);
    bite_assert_near(bite_test_limit(&cut, BITE_LIMIT_CHATTER).capacity,
                     equal_axes_depth(&cut, 20e6), 1e-9);
    cut = bite_test_rod_cut(3e-3, 150e-3);
    bite_assert_near(bite_test_limit(&cut, BITE_LIMIT_CHATTER).capacity,
                     equal_axes_depth(&cut, 0.5 * 0.864797e6 / 421.875), 1e-2);
    ck_assert(bite_test_limit(&cut, BITE_LIMIT_CHATTER).advisory);
    cut = bite_test_rod_cut(3e-3, 40e-3);
    cut.spindle_speed = 150.0;
    cut.feed_rate = 20e-6 * 300.0;
    double frequency = 0.25 * 6546.2565 * 1.01465;
    bite_ripple waves = {M_PI * 3e-3 * 150.0 / frequency, 10e-6, 3e-6};
    bite_arc slot = {0.0, M_PI, 0.0};
    double plain = equal_axes_depth(&cut, 0.5 * 0.864797e6 / 8.0);
    double slope = equal_axes_depth(&cut, 20e6) * 2.0 * 600e6 / (20e6 * 0.03);
    double damped = bite_chatter_damped_by_flank(&waves, slot, slope);
    ck_assert_double_gt(damped, 1.1);
    bite_assert_near(bite_test_limit(&cut, BITE_LIMIT_CHATTER).capacity, plain * damped, 1e-2);
    cut.mode_frequency = 900.0; /* measured at the tip, so it includes the tool */
    double measured = bite_test_limit(&cut, BITE_LIMIT_CHATTER).capacity;
    cut.stickout = cut.flute_length = 20e-3;
    ck_assert_double_eq(bite_test_limit(&cut, BITE_LIMIT_CHATTER).capacity, measured);
}
END_TEST

/* A longer stick-out, a softer tool or a thinner rod never increases the stable depth. */
START_TEST(slender_tool_never_increases_the_stable_depth)
{
    uint64_t seed = 93;
    int fell = 0;
    for (int i = 0; i < 300; i++) {
        bite_cut cut = bite_test_cut(&seed);
        cut.stickout = fmax(cut.stickout, 2.0 * cut.depth);
        double capacity = bite_test_limit(&cut, BITE_LIMIT_CHATTER).capacity;
        bite_cut soft = cut;
        soft.tool_modulus = 210e9;
        ck_assert_double_le(bite_test_limit(&soft, BITE_LIMIT_CHATTER).capacity,
                            capacity * (1.0 + 1e-12));
        bite_cut slender = cut;
        slender.flute_length = 3.0 * cut.diameter;
        double before = bite_test_limit(&slender, BITE_LIMIT_CHATTER).capacity;
        for (int k = 0; k < 6; k++) {
            slender.stickout *= 1.25;
            double now = bite_test_limit(&slender, BITE_LIMIT_CHATTER).capacity;
            ck_assert_msg(now <= before * (1.0 + 1e-12),
                          "cut %d: %g m at %g m of stick-out, %g before", i, now, slender.stickout,
                          before);
            before = now;
        }
        fell += before < 0.5 * capacity;
        bite_cut thin = bite_test_rod_cut(bite_test_decades(&seed, 1e-3, 8e-3),
                                          bite_test_between(&seed, 20e-3, 100e-3));
        bite_cut thick = bite_test_rod_cut(thin.diameter * 1.2, thin.stickout);
        ck_assert_double_ge(bite_test_limit(&thick, BITE_LIMIT_CHATTER).capacity,
                            bite_test_limit(&thin, BITE_LIMIT_CHATTER).capacity * (1.0 - 1e-12));
    }
    ck_assert_int_gt(fell, 100);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("chatter");
    TCase *chatter = tcase_create("chatter");
    tcase_add_test(chatter, measured_mode_has_stability_lobes);
    tcase_add_test(chatter, several_measured_modes_act_together);
    tcase_add_test(chatter, two_half_modes_equal_one);
    tcase_add_test(chatter, worst_speed_matches_a_sweep);
    tcase_add_test(chatter, frequency_of_the_bent_shape_is_an_upper_bound);
    tcase_add_test(chatter, process_damping_grows_with_short_waves);
    tcase_add_test(chatter, long_tool_lowers_the_stable_depth);
    tcase_add_test(chatter, slender_tool_never_increases_the_stable_depth);
    tcase_set_timeout(chatter, 120);
    suite_add_tcase(suite, chatter);
    return bite_test_run(suite);
}
