/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The chatter limit: measured modes, the estimated mode of a slender tool, and process damping. */
#include "core/cut/defaults.h"
#include "core/cut/physics_inputs.h"
#include "core/physics/dynamics/mode_stability.h"
#include "core/physics/dynamics/stability_lobes.h"
#include "core/physics/dynamics/tool_modes.h"
#include "tests/reference/textbook/frequency_sweep.h"
#include "tests/reference/textbook/semi_discretization.h"
#include "tests/reference/textbook/vibration.h"
#include "tests/support/limit_cuts.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include "tests/support/test_physics.h"
#include <math.h>

/* The chatter limit of a slot, with one measured mode. */
static bite_cut measured_slot(void)
{
    bite_cut cut = bite_test_part_cut();
    cut.width = (double)NAN;
    cut.mode_frequency = 900.0;
    cut.mode_stiffness = 4e6;
    cut.mode_damping = 0.03;
    return cut;
}

/* With a measured mode the limit is not advisory and has no margin, that of the tool's own bending
 * is not judged, the stable depth varies with the speed, and its least is that of the worst speed.
 */
START_TEST(measured_mode_has_stability_lobes)
{
    bite_cut cut = bite_test_part_cut();
    ck_assert(bite_test_limit(&cut, BITE_LIMIT_CHATTER).advisory);
    ck_assert(!bite_test_limit(&cut, BITE_LIMIT_CHATTER_TOOL).advisory);
    cut = measured_slot();
    ck_assert_uint_eq(bite_test_limit(&cut, BITE_LIMIT_CHATTER_TOOL).why, BITE_WHY_MEASURED);
    double worst = 0.0;
    double deepest = 0.0;
    double least = INFINITY;
    bite_arc slot = {0.0, M_PI, 0.0};
    for (int i = 0; i < 200; i++) {
        cut.spindle_speed = 100.0 + 2.0 * i;
        bite_limit limit = bite_test_limit(&cut, BITE_LIMIT_CHATTER);
        ck_assert(!limit.advisory);
        deepest = fmax(deepest, limit.capacity);
        least = fmin(least, limit.capacity);
        bite_pressure pressure = bite_test_pressure(&cut);
        worst =
            bite_test_equal_axes_depth(slot, cut.flutes, pressure.tangential,
                                       bite_pressure_ratio(cut.pressure_r, &pressure), 4e6, 0.03);
    }
    ck_assert_double_gt(deepest, 3.0 * worst);
    /* K falls a little with speed: the chip is sheared for a shorter time at 100 to 500 turns */
    bite_assert_near(least, worst, 0.05);
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
        double depth = textbook_chatter_at(&whole_mode, speed);
        bite_assert_near(textbook_chatter_at(&halves, speed), depth, 1e-6);
        /* if two pairs of eigenvalues alternate, the iteration ends before they separate: six
         * digits */
        static double numbers[TEXTBOOK_SEMIDISCRETE_SIZE(4, 40)];
        textbook_semidiscrete_room room = {numbers, sizeof numbers / sizeof *numbers};
        double grown = textbook_semidiscrete_growth(&whole_mode, depth, speed, 40, 1e-11, room);
        bite_assert_near(textbook_semidiscrete_growth(&halves, depth, speed, 40, 1e-11, room),
                         grown, 1e-5);
    }
}
END_TEST

/* A random cut and one mode that is the same along both axes. */
static bite_chatter_case random_case(uint64_t *seed, int down, double *damping)
{
    bite_chatter_case problem = {.teeth = floor(bite_test_between(seed, 1.0, 7.0)),
                                 .tangential = 5e8};
    double span = bite_test_between(seed, 0.15, M_PI);
    *damping = bite_test_decades(seed, 0.005, 0.1);
    problem.arc.enter = down ? M_PI - span : 0.0;
    problem.arc.leave = problem.arc.enter + span;
    problem.ratio = bite_test_between(seed, 0.05, 0.8);
    problem.x.count = problem.y.count = 1;
    problem.x.modes[0] = problem.y.modes[0] = bite_mode_plain(1000.0, 5e6, *damping);
    return problem;
}

/* The closed form for one mode, at its worst speed, against a sweep over frequencies, for random
 * arcs, teeth and damping. */
START_TEST(worst_speed_matches_a_sweep)
{
    uint64_t seed = 77;
    for (int i = 0; i < 200; i++) {
        double damping;
        bite_chatter_case problem = random_case(&seed, i % 2, &damping);
        double swept = textbook_chatter_least(&problem, NULL);
        double closed = bite_test_equal_axes_depth(problem.arc, problem.teeth, problem.tangential,
                                                   problem.ratio, 5e6, damping);
        ck_assert_msg(fabs(closed / swept - 1.0) < 5e-3, "cut %d: closed %g, swept %g", i, closed,
                      swept);
    }
}
END_TEST

/* The same at any speed, against the search for measured modes, which knows several of them. */
START_TEST(every_speed_matches_the_search)
{
    uint64_t seed = 79;
    int alike = 0;
    for (int i = 0; i < 200; i++) {
        double damping;
        bite_chatter_case problem = random_case(&seed, i % 2, &damping);
        bite_vibration_mode mode = {1000.0, 5e6, damping};
        bite_excitation excitation = {.teeth = problem.teeth, .tangential = problem.tangential};
        bite_direction_root roots[2];
        bite_mode_roots(problem.arc, problem.ratio, roots);
        excitation.speed = 1000.0 / (problem.teeth * bite_test_between(&seed, 0.7, 8.0));
        double closed = bite_test_mode_depth(roots, &mode, &excitation);
        double searched = textbook_chatter_at(&problem, excitation.speed);
        /* the search ends at 2.5 times the frequency of the mode, far from which lobes are deep */
        ck_assert_msg(closed <= searched * (1.0 + 2e-3), "cut %d: %g, by search %g", i, closed,
                      searched);
        alike += fabs(closed / searched - 1.0) < 2e-3;
    }
    ck_assert_int_ge(alike, 190);
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

/* Contact of 8 re behind the edge: with re = 10 um, K = 600 N/mm2, two teeth in a slot, 1 kHz, 1
 * m/s and 1 N/um the damping rises by Z = 24000 pi/m, by hand; 0.1 mm at zeta = 0.05 become 0.1/(1
 * - 48 pi/1000) mm. */
START_TEST(process_damping_has_a_closed_form)
{
    bite_vibration_mode mode = {1000.0, 1e6, 0.05};
    bite_excitation cut = {.teeth = 2.0,
                           .tangential = 600e6,
                           .span = M_PI,
                           .surface_speed = 1.0,
                           .edge_radius = 10e-6};
    bite_assert_near(bite_mode_damped_depth(0.1e-3, &mode, &cut), 0.1e-3 / (1.0 - 0.048 * M_PI),
                     1e-12);
    ck_assert(isfinite(bite_mode_damped_depth(0.649e-3, &mode, &cut)));
    ck_assert(isinf(bite_mode_damped_depth(0.651e-3, &mode, &cut))); /* 0.98 zeta/Z: 0.64988 mm */
}
END_TEST

/* It is additional damping of the mode: with zeta + Z a the undamped depth at the worst speed is a,
 * where zeta is so small that depths are proportional to it. It grows as the surface gets slower.
 */
START_TEST(process_damping_grows_with_short_waves)
{
    uint64_t seed = 92;
    int deeper = 0;
    for (int i = 0; i < 300; i++) {
        double span = bite_test_between(&seed, 0.3, M_PI);
        bite_arc arc = {M_PI - span, M_PI, 0.0};
        bite_vibration_mode mode = {1000.0, bite_test_decades(&seed, 1e5, 1e7), 0.002};
        bite_excitation cut = {.teeth = floor(bite_test_between(&seed, 1.0, 5.0)),
                               .tangential = bite_test_decades(&seed, 1e8, 3e9),
                               .span = span,
                               .surface_speed = bite_test_decades(&seed, 0.02, 5.0),
                               .edge_radius = bite_test_decades(&seed, 1e-6, 10e-6)};
        double plain = bite_test_equal_axes_depth(arc, cut.teeth, cut.tangential, 0.3,
                                                  mode.stiffness, mode.damping);
        double depth = bite_mode_damped_depth(plain, &mode, &cut);
        ck_assert_double_ge(depth, plain);
        double more = 8.0 * cut.edge_radius * cut.tangential * cut.teeth * span * 1000.0 * depth /
                      (4.0 * cut.surface_speed * mode.stiffness);
        if (depth < 3.0 * plain) {
            bite_assert_near(bite_test_equal_axes_depth(arc, cut.teeth, cut.tangential, 0.3,
                                                        mode.stiffness, mode.damping + more),
                             depth, 1e-2);
            deeper += depth > 1.2 * plain;
        }
        cut.surface_speed *= 1.5;
        ck_assert_double_le(bite_mode_damped_depth(plain, &mode, &cut), depth);
    }
    ck_assert_int_gt(deeper, 5);
}
END_TEST

/* The depth at which a mode of a slot chatters, with process damping. */
static double depth_of(const bite_cut *full, const bite_vibration_mode *mode)
{
    bite_arc slot = {0.0, M_PI, 0.0};
    bite_direction_root roots[2];
    bite_pressure pressure = bite_test_pressure(full);
    bite_mode_roots(slot, bite_pressure_ratio(full->pressure_r, &pressure), roots);
    bite_excitation excitation = {
        .teeth = full->flutes,
        .speed = full->spindle_speed,
        .tangential = pressure.tangential,
        .span = M_PI,
        .surface_speed = M_PI * full->diameter * full->spindle_speed,
        .edge_radius = full->edge_radius * full->edge_wear,
    };
    return bite_mode_damped_depth(bite_test_mode_depth(roots, mode, &excitation), mode,
                                  &excitation);
}

/* Frame and spindle share the machine's compliance, the tool has its own bending, and its holder
 * gives. The least of the three advises, that of the tool binds; both have three times the depth of
 * the linear limit. */
START_TEST(three_modes_each_alone)
{
    static const double stickouts[] = {12e-3, 17e-3, 40e-3, 60e-3, 150e-3};
    for (size_t i = 0; i < sizeof stickouts / sizeof *stickouts; i++) {
        bite_cut cut = bite_test_rod_cut(3e-3, stickouts[i]);
        bite_cut full = cut;
        bite_defaults_fill(&full);
        bite_tool_body tool = bite_cut_tool_body(&full);
        bite_tool_deflection deflection = bite_tool_deflection_init(&tool);
        double bent = bite_tool_mode_bent(&deflection.shaft, full.tool_modulus, full.tool_density);
        bite_vibration_mode modes[] = {
            {full.frame_frequency, 20e6 / full.frame_share, full.frame_damping},
            {full.spindle_frequency, 20e6 / (1.0 - full.frame_share), full.spindle_damping},
            {0.8 * bent, 1.0 / deflection.tool, 0.05}};
        double of_tool = depth_of(&full, &modes[2]);
        double of_all = fmin(of_tool, fmin(depth_of(&full, &modes[0]), depth_of(&full, &modes[1])));
        bite_result result = bite_test_pass(&cut);
        bite_assert_near(result.values[BITE_STABILITY_DEPTH_TOOL].value, of_tool, 1e-9);
        bite_assert_near(result.values[BITE_STABILITY_DEPTH].value, of_all, 1e-9);
        bite_assert_near(result.limits[BITE_LIMIT_CHATTER_TOOL].capacity,
                         full.stable_share * of_tool, 1e-9);
        bite_assert_near(result.limits[BITE_LIMIT_CHATTER].capacity, full.stable_share * of_all,
                         1e-9);
        ck_assert(result.limits[BITE_LIMIT_CHATTER].advisory);
        ck_assert(!result.limits[BITE_LIMIT_CHATTER_TOOL].advisory);
    }
    /* measured at the tip, a mode includes the tool */
    bite_cut cut = bite_test_rod_cut(3e-3, 40e-3);
    cut.mode_frequency = 900.0;
    double measured = bite_test_limit(&cut, BITE_LIMIT_CHATTER).capacity;
    cut.stickout = cut.flute_length = 20e-3;
    ck_assert_double_eq(bite_test_limit(&cut, BITE_LIMIT_CHATTER).capacity, measured);
}
END_TEST

/* The least stable depth of the tool's own bending over the speeds between two lobes. */
static double worst_of_speeds(const bite_cut *cut)
{
    double least = INFINITY;
    bite_cut at = *cut;
    for (int i = 0; i < 150; i++) {
        at.spindle_speed = cut->spindle_speed * exp2((double)i / 150.0);
        at.feed_rate = 20e-6 * at.flutes * at.spindle_speed;
        least = fmin(least, bite_test_pass(&at).values[BITE_STABILITY_DEPTH_TOOL].value);
    }
    return least;
}

/* At one speed there are lobes; over the speeds a longer, softer or thinner tool is never stable to
 * a greater depth. */
START_TEST(slender_tool_never_increases_the_stable_depth)
{
    uint64_t seed = 93;
    for (int i = 0; i < 12; i++) {
        bite_cut cut = bite_test_rod_cut(bite_test_decades(&seed, 2e-3, 8e-3),
                                         bite_test_between(&seed, 20e-3, 50e-3));
        cut.edge_radius = 0.5e-6; /* hardly any process damping */
        double depth = worst_of_speeds(&cut);
        ck_assert(isfinite(depth));
        bite_cut longer = cut;
        longer.stickout = longer.flute_length = 1.5 * cut.stickout;
        ck_assert_double_lt(worst_of_speeds(&longer), 0.5 * depth);
        bite_cut soft = cut;
        soft.tool_modulus = 210e9;
        ck_assert_double_lt(worst_of_speeds(&soft), 0.6 * depth);
        bite_cut thick = cut;
        thick.diameter = thick.shank_diameter = 1.2 * cut.diameter;
        ck_assert_double_gt(worst_of_speeds(&thick), 1.5 * depth);
    }
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
    tcase_add_test(chatter, every_speed_matches_the_search);
    tcase_add_test(chatter, process_damping_has_a_closed_form);
    tcase_add_test(chatter, process_damping_grows_with_short_waves);
    tcase_add_test(chatter, three_modes_each_alone);
    tcase_add_test(chatter, slender_tool_never_increases_the_stable_depth);
    tcase_set_timeout(chatter, 120);
    suite_add_tcase(suite, chatter);
    return bite_test_run(suite);
}
