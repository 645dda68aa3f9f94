/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One pass: identities, trends that shops know (common practice, no source), limits, and hostile
 * numbers. */
#include "core/cut/defaults.h"
#include "core/cut/limits.h"
#include "core/cut/limits_part.h"
#include "core/names/registry.h"
#include "core/physics/geometry/engagement.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include "tests/support/test_engagement.h"
#include "tests/support/test_segment.h"
#include <math.h>
#include <string.h>

#define MANY 10000

static double value(const bite_result *result, bite_value_id id)
{
    return result->values[id].value;
}

/* The heat of chip, tool and part and the stored energy add up to the power, and the power of the
 * heat model is that of the forces wherever a chip forms. */
START_TEST(heat_shares_add_up_to_the_power)
{
    uint64_t seed = 1;
    double worst = 0.0;
    double apart = 0.0;
    for (int i = 0; i < MANY; i++) {
        bite_cut cut = bite_test_cut(&seed);
        bite_result result = bite_test_pass(&cut);
        double sum = result.heat_share[0] + result.heat_share[1] + result.heat_share[2] +
                     result.heat_share[3];
        worst = fmax(worst, fabs(sum - 1.0));
        bite_cut full = cut;
        bite_defaults_fill(&full);
        bite_segment segment;
        bite_test_segment(&full,
                          bite_engagement_straight(full.diameter,
                                                   isnan(full.width) ? full.diameter : full.width,
                                                   (bite_side)full.side),
                          &segment);
        worst = fmax(worst, fabs(segment.energy_gap));
        apart = fmax(apart, fabs(segment.heat_power / value(&result, BITE_POWER_MEAN) - 1.0));
        for (int k = 0; k < BITE_VALUE_COUNT; k++) {
            ck_assert_msg(
                isfinite(value(&result, (bite_value_id)k)) || k == BITE_PART_TEMPERATURE ||
                    k == BITE_HAZE || k == BITE_TOOL_LIFE || k == BITE_TIP_FREQUENCY ||
                    k == BITE_SURFACE_SPEED_SMALL || k == BITE_WALL_CLIMB ||
                    k == BITE_WALL_CONVENTIONAL ||
                    (k >= BITE_STABILITY_DEPTH && isinf(value(&result, (bite_value_id)k))),
                "cut %d: %s is no number", i, bite_value_name((bite_value_id)k));
        }
    }
    ck_assert_msg(worst <= 1e-9, "energy is off by %g of the power", worst);
    ck_assert_msg(apart <= 1e-6, "force power and heat power differ by %g", apart);
}
END_TEST

/* Without edge force, power is K times the removal rate at any runout, helix and direction. */
START_TEST(power_is_pressure_times_removal_rate)
{
    uint64_t seed = 2;
    for (int i = 0; i < 3000; i++) {
        bite_cut cut = bite_test_cut(&seed);
        cut.edge_t = 0.0; /* below the minimum chip too: what is not cut waits for the next tooth */
        bite_result result = bite_test_pass(&cut);
        double expected = cut.pressure_t * value(&result, BITE_REMOVAL_RATE);
        bite_assert_near(value(&result, BITE_POWER_MEAN), expected, 1e-6);
    }
}
END_TEST

/* Peaks are at least the means, the thickest chip is at least the chip load, and the lighter tooth
 * carries no more than the heavier one. */
START_TEST(values_are_ordered)
{
    uint64_t seed = 3;
    for (int i = 0; i < 3000; i++) {
        bite_cut cut = bite_test_cut(&seed);
        bite_result result = bite_test_pass(&cut);
        double mean_tangential =
            value(&result, BITE_POWER_MEAN) / (M_PI * cut.diameter * cut.spindle_speed);
        ck_assert(value(&result, BITE_FORCE_TANGENTIAL_PEAK) >= mean_tangential * (1.0 - 1e-9));
        ck_assert(value(&result, BITE_FORCE_SIDE_PEAK) >=
                  value(&result, BITE_FORCE_SIDE_MEAN) * (1.0 - 1e-9));
        ck_assert(value(&result, BITE_CHIP_LOAD_HEAVY) >= value(&result, BITE_CHIP_LOAD));
        ck_assert(value(&result, BITE_CHIP_LOAD_LIGHT) <= value(&result, BITE_CHIP_LOAD));
        ck_assert(value(&result, BITE_CHIP_THICKNESS_MAX) <=
                  value(&result, BITE_CHIP_LOAD) * (1.0 + 1e-12));
        ck_assert(value(&result, BITE_PREHEAT) > 0.0);
        ck_assert(value(&result, BITE_SURFACE_TEMPERATURE) >= cut.room_temperature);
        ck_assert(fabs(value(&result, BITE_WALL_ERROR)) <=
                  value(&result, BITE_DEFLECTION_TIP) * (1.0 + 1e-6) + 0.5 * cut.runout);
    }
}
END_TEST

/* A left-hand helix presses down as a right-hand one lifts; all else is the same or mirrored. */
START_TEST(left_hand_helix_mirrors_the_lift)
{
    uint64_t seed = 4;
    for (int i = 0; i < 1000; i++) {
        bite_cut cut = bite_test_cut(&seed);
        bite_result right = bite_test_pass(&cut);
        cut.helix = -cut.helix;
        bite_result left = bite_test_pass(&cut);
        bite_assert_near(value(&left, BITE_FORCE_LIFT_PEAK), -value(&right, BITE_FORCE_LIFT_PEAK),
                         2e-2);
        bite_assert_near(value(&left, BITE_POWER_MEAN), value(&right, BITE_POWER_MEAN), 1e-9);
        bite_assert_near(value(&left, BITE_FORCE_SIDE_MEAN), value(&right, BITE_FORCE_SIDE_MEAN),
                         1e-9);
    }
}
END_TEST

/* With every length doubled, also those in other inputs, the forces are four times as large: the
 * dimensions are consistent. */
START_TEST(forces_scale_with_the_square_of_size)
{
    uint64_t seed = 5;
    for (int i = 0; i < 500; i++) {
        bite_cut cut = bite_test_cut(&seed);
        cut.feed_rate = fmin(cut.feed_rate, 0.45);
        cut.edge_radius = 1e-3 * cut.diameter;
        cut.edge_reference = cut.edge_radius;
        cut.flute_length = 3.0 * cut.diameter;
        cut.shank_diameter = 2.0 * cut.diameter;
        cut.minimum_chip = 0.01;
        bite_result small = bite_test_pass(&cut);
        bite_cut large = cut;
        large.diameter *= 2.0;
        large.feed_rate *= 2.0;
        large.depth *= 2.0;
        large.width *= 2.0;
        large.runout *= 2.0;
        large.edge_radius *= 2.0;
        large.edge_reference *= 2.0;
        large.edge_t *= 2.0;
        large.stickout *= 2.0;
        large.flute_length *= 2.0;
        large.shank_diameter *= 2.0;
        large.machine_stiffness *= 2.0;
        bite_result result = bite_test_pass(&large);
        bite_assert_near(value(&result, BITE_FORCE_SIDE_PEAK),
                         4.0 * value(&small, BITE_FORCE_SIDE_PEAK), 1e-6);
        bite_assert_near(value(&result, BITE_DEFLECTION_TIP),
                         2.0 * value(&small, BITE_DEFLECTION_TIP), 1e-6);
        bite_assert_near(value(&result, BITE_POWER_MEAN), 8.0 * value(&small, BITE_POWER_MEAN),
                         1e-6);
    }
}
END_TEST

/* ---- common practice, no source ---- */

START_TEST(starved_cut_is_hotter_and_rubs_more)
{
    bite_cut cut = bite_test_acrylic();
    bite_result base = bite_test_pass(&cut);
    cut.feed_rate /= 5.0;
    bite_result starved = bite_test_pass(&cut);
    ck_assert(value(&starved, BITE_SURFACE_TEMPERATURE) >
              value(&base, BITE_SURFACE_TEMPERATURE) + 2.0);
    ck_assert(starved.limits[BITE_LIMIT_RUBBING].utilization >
              2.0 * base.limits[BITE_LIMIT_RUBBING].utilization);
}
END_TEST

START_TEST(faster_spindle_at_one_feed_is_hotter)
{
    bite_cut cut = bite_test_acrylic();
    double last = 0.0;
    for (double turns = 100.0; turns <= 800.0; turns *= 2.0) {
        cut.spindle_speed = turns;
        bite_result result = bite_test_pass(&cut);
        ck_assert(value(&result, BITE_SURFACE_TEMPERATURE) > last);
        last = value(&result, BITE_SURFACE_TEMPERATURE);
    }
}
END_TEST

START_TEST(dull_edge_heats_the_tool)
{
    bite_cut cut = bite_test_acrylic();
    double last = 0.0;
    for (double edge = 1.5e-6; edge < 20e-6; edge *= 2.0) {
        cut.edge_radius = edge;
        bite_result result = bite_test_pass(&cut);
        ck_assert(value(&result, BITE_TOOL_TEMPERATURE) > last);
        last = value(&result, BITE_TOOL_TEMPERATURE);
    }
}
END_TEST

START_TEST(coolant_cools_the_tool)
{
    bite_cut cut = bite_test_acrylic();
    double last = 1e9;
    for (uint32_t coolant = BITE_COOLANT_NONE; coolant <= BITE_COOLANT_FLOOD; coolant++) {
        cut.coolant = coolant;
        bite_result result = bite_test_pass(&cut);
        ck_assert(value(&result, BITE_TOOL_TEMPERATURE) < last);
        last = value(&result, BITE_TOOL_TEMPERATURE);
    }
}
END_TEST

START_TEST(stickout_bends_and_runout_loads_the_tool)
{
    bite_cut cut = bite_test_acrylic();
    bite_result base = bite_test_pass(&cut);
    cut.stickout *= 2.0;
    bite_result longer = bite_test_pass(&cut);
    ck_assert(value(&longer, BITE_DEFLECTION_TIP) > value(&base, BITE_DEFLECTION_TIP));
    cut = bite_test_acrylic();
    cut.runout = 2e-6;
    bite_result true_running = bite_test_pass(&cut);
    cut.runout = 20e-6;
    bite_result wobbling = bite_test_pass(&cut);
    ck_assert(value(&wobbling, BITE_CHIP_LOAD_HEAVY) > value(&true_running, BITE_CHIP_LOAD_HEAVY));
    ck_assert(value(&wobbling, BITE_TOOL_STRESS) > value(&true_running, BITE_TOOL_STRESS));
}
END_TEST

START_TEST(left_hand_helix_pushes_down)
{
    bite_cut cut = bite_test_acrylic();
    bite_result up = bite_test_pass(&cut);
    cut.helix = -0.5;
    bite_result down = bite_test_pass(&cut);
    ck_assert(value(&up, BITE_FORCE_LIFT_PEAK) > 0.0);
    ck_assert(value(&down, BITE_FORCE_LIFT_PEAK) < 0.0);
}
END_TEST

/* A 1/32 in tool fits into an inside corner of 0.015 in with a tolerance of 0.003 in, but not
 * without. */
START_TEST(tolerance_decides_whether_a_tool_fits_a_corner)
{
    bite_cut cut = bite_test_acrylic();
    cut.diameter = 0.0254 / 32.0;
    cut.width = 0.1e-3;
    cut.inside_radius = 0.015 * 0.0254;
    bite_result without = bite_test_pass(&cut);
    ck_assert_uint_eq(without.limits[BITE_LIMIT_CORNER].verdict, BITE_OVER);
    cut.tolerance = 0.003 * 0.0254;
    bite_result with = bite_test_pass(&cut);
    ck_assert_uint_eq(with.limits[BITE_LIMIT_CORNER].verdict, BITE_CLEAR);
}
END_TEST

START_TEST(corner_decides_if_it_is_worse)
{
    bite_cut cut = bite_test_acrylic();
    cut.diameter = 3e-3;
    cut.stickout = 20e-3;
    cut.width = 0.3e-3;
    cut.inside_radius = 1.65e-3;
    bite_result result = bite_test_pass(&cut);
    ck_assert_uint_eq(result.limits[BITE_LIMIT_TOOL_BREAK].in_corner, 1);
    cut.inside_radius = (double)NAN;
    bite_result straight = bite_test_pass(&cut);
    ck_assert(result.limits[BITE_LIMIT_TOOL_BREAK].utilization >
              straight.limits[BITE_LIMIT_TOOL_BREAK].utilization);
    ck_assert_uint_eq(straight.limits[BITE_LIMIT_TOOL_BREAK].in_corner, 0);
    ck_assert_uint_eq(straight.limits[BITE_LIMIT_CORNER].applies, 0);
}
END_TEST

/* A warmed-up tool is hotter than one at the start of a short path; the temperature approaches both
 * ends. */
START_TEST(tool_warms_up_along_its_path)
{
    bite_cut cut = bite_test_acrylic();
    double last = 0.0;
    for (double path = 1e-3; path < 10.0; path *= 10.0) {
        cut.path_length = path;
        bite_result result = bite_test_pass(&cut);
        ck_assert(value(&result, BITE_TOOL_TEMPERATURE) >= last);
        last = value(&result, BITE_TOOL_TEMPERATURE);
    }
    cut.path_length = (double)NAN;
    bite_result warm = bite_test_pass(&cut);
    bite_assert_near(value(&warm, BITE_TOOL_TEMPERATURE), last, 1e-3);
}
END_TEST

/* At a slower feed more of the heat in the work is met again, and the wall is swept more often:
 * preheat, tool, dwell and rise of the wall grow, and the heat that stays in the part with them. */
START_TEST(slower_feed_recirculates_more_heat)
{
    static const double feeds[] = {3000, 1600, 800, 400, 200, 80, 40, 20};
    bite_cut cut = bite_test_acrylic();
    cut.runout = 0.0;
    bite_result before = {0};
    for (size_t i = 0; i < sizeof feeds / sizeof *feeds; i++) {
        cut.feed_rate = feeds[i] * 1e-3 / 60.0;
        bite_result result = bite_test_pass(&cut);
        ck_assert(value(&result, BITE_PREHEAT) > value(&before, BITE_PREHEAT));
        ck_assert(value(&result, BITE_SURFACE_DWELL) > value(&before, BITE_SURFACE_DWELL));
        ck_assert(result.limits[BITE_LIMIT_SOFTENING].utilization >
                  before.limits[BITE_LIMIT_SOFTENING].utilization);
        ck_assert(result.heat_share[2] >= before.heat_share[2]);
        before = result;
    }
}
END_TEST

/* ---- limits and hostile numbers ---- */

START_TEST(default_tolerance_is_that_of_the_input)
{
    ck_assert_double_eq(bite_tolerance_default, bite_input_find("tolerance")->fallback);
}
END_TEST

START_TEST(limits_say_why_they_do_not_apply)
{
    bite_cut cut = bite_test_acrylic();
    bite_result result = bite_test_pass(&cut);
    ck_assert_uint_eq(result.limits[BITE_LIMIT_POWER].applies, 0);
    ck_assert_uint_eq(result.limits[BITE_LIMIT_POWER].why, BITE_WHY_NOT_GIVEN);
    ck_assert_uint_eq(result.limits[BITE_LIMIT_DEFLECTION].advisory, 1);
    cut.flutes = 1.0;
    cut.substance = BITE_METAL;
    cut.welding = (double)NAN;
    result = bite_test_pass(&cut);
    ck_assert_uint_eq(result.limits[BITE_LIMIT_SOFTENING].why, BITE_WHY_METAL);
    ck_assert_uint_eq(result.limits[BITE_LIMIT_CHIP_WELD].why, BITE_WHY_DOES_NOT_WELD);
    cut.pressure = BITE_PRESSURE_NONE;
    result = bite_test_pass(&cut);
    ck_assert_uint_eq(result.limits[BITE_LIMIT_TOOL_BREAK].why, BITE_WHY_NO_DATA);
    ck_assert(isnan(value(&result, BITE_FORCE_SIDE_PEAK)));
    ck_assert(isfinite(value(&result, BITE_CHIP_LOAD)));
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        ck_assert_msg(result.limits[i].applies || strlen(bite_limit_why(result.limits[i].why)) > 5,
                      "%s", bite_limit_name((bite_limit_id)i));
    }
}
END_TEST

START_TEST(advisory_limits_are_never_over)
{
    bite_cut cut = bite_test_acrylic();
    cut.tool_speed_limit = 0.1;
    cut.spindle_slowest = 10.0 * cut.spindle_speed;
    bite_result result = bite_test_pass(&cut);
    ck_assert(result.limits[BITE_LIMIT_EDGE_SPEED].utilization > 1.0);
    ck_assert_uint_eq(result.limits[BITE_LIMIT_EDGE_SPEED].verdict, BITE_TIGHT);
    ck_assert_uint_eq(result.limits[BITE_LIMIT_SPINDLE_SLOW].verdict, BITE_TIGHT);
}
END_TEST

/* Every input at and beyond its bounds, infinite and missing: a result, or a refusal that names the
 * input; never a crash. */
START_TEST(hostile_numbers_are_judged_or_refused)
{
    size_t count = bite_input_count();
    for (size_t i = 0; i < count; i++) {
        const bite_input *input = bite_input_at(i);
        const double tries[] = {input->least,
                                input->most,
                                input->least - 1.0,
                                input->most * 2.0 + 1.0,
                                INFINITY,
                                -INFINITY,
                                1e308,
                                -1e308,
                                5e-324,
                                0.0};
        for (size_t k = 0; input->words == 0 && k < sizeof tries / sizeof *tries; k++) {
            bite_cut cut = bite_test_acrylic();
            bite_error error = BITE_ERROR_INIT;
            bite_result result = {0};
            result.struct_size = (uint32_t)sizeof result;
            *bite_input_number(&cut, input) = tries[k];
            bite_status status = bite_cut_pass(&cut, &result, &error);
            if (status != BITE_OK) {
                ck_assert_msg(strlen(error.message) > 5 && strlen(error.key) > 2, "%s at %g",
                              input->name, tries[k]);
            } else {
                ck_assert_msg(tries[k] >= input->least && tries[k] <= input->most, "%s took %g",
                              input->name, tries[k]);
            }
        }
        if (input->words > 0) {
            bite_cut cut = bite_test_acrylic();
            bite_result result = {0};
            result.struct_size = (uint32_t)sizeof result;
            *bite_input_choice(&cut, input) = input->words;
            ck_assert_int_eq(bite_cut_pass(&cut, &result, NULL), BITE_BAD_ARGUMENT);
        }
    }
}
END_TEST

START_TEST(missing_and_malformed_inputs_are_refused)
{
    bite_cut cut;
    bite_error error = BITE_ERROR_INIT;
    bite_result result = {0};
    bite_cut_init(&cut);
    ck_assert_int_eq(bite_cut_pass(&cut, &result, &error), BITE_BAD_ARGUMENT);
    result.struct_size = (uint32_t)sizeof result;
    ck_assert_int_eq(bite_cut_pass(NULL, &result, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_cut_pass(&cut, &result, &error), BITE_MISSING);
    ck_assert_str_eq(error.key, "spindle_speed");
    cut = bite_test_acrylic();
    cut.flutes = 2.5;
    ck_assert_int_eq(bite_cut_pass(&cut, &result, &error), BITE_OUT_OF_RANGE);
    ck_assert_str_eq(error.key, "flutes");
    cut = bite_test_acrylic();
    cut.width = 0.9e-3;
    ck_assert_int_eq(bite_cut_pass(&cut, &result, &error), BITE_OUT_OF_RANGE);
    ck_assert_str_eq(error.key, "width");
    cut = bite_test_acrylic();
    cut.neck_length = 2e-3;
    ck_assert_int_eq(bite_cut_pass(&cut, &result, &error), BITE_MISSING);
    cut = bite_test_acrylic();
    cut.corner_radius = 0.4e-3;
    cut.depth = 0.1e-3;
    ck_assert_int_eq(bite_cut_pass(&cut, &result, &error),
                     BITE_OK); /* a ball end mill, cutting within its radius */
    cut.corner_radius = 0.5e-3;
    ck_assert_int_eq(bite_cut_pass(&cut, &result, &error), BITE_OUT_OF_RANGE);
    ck_assert_str_eq(error.key, "corner_radius");
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("pass");
    TCase *properties = tcase_create("properties");
    tcase_add_test(properties, heat_shares_add_up_to_the_power);
    tcase_add_test(properties, power_is_pressure_times_removal_rate);
    tcase_add_test(properties, values_are_ordered);
    tcase_add_test(properties, left_hand_helix_mirrors_the_lift);
    tcase_add_test(properties, forces_scale_with_the_square_of_size);
    tcase_set_timeout(properties, 120);
    suite_add_tcase(suite, properties);
    TCase *practice = tcase_create("common practice, no source");
    tcase_add_test(practice, starved_cut_is_hotter_and_rubs_more);
    tcase_add_test(practice, faster_spindle_at_one_feed_is_hotter);
    tcase_add_test(practice, dull_edge_heats_the_tool);
    tcase_add_test(practice, coolant_cools_the_tool);
    tcase_add_test(practice, stickout_bends_and_runout_loads_the_tool);
    tcase_add_test(practice, left_hand_helix_pushes_down);
    tcase_add_test(practice, tolerance_decides_whether_a_tool_fits_a_corner);
    suite_add_tcase(suite, practice);
    TCase *model = tcase_create("model");
    tcase_add_test(model, corner_decides_if_it_is_worse);
    tcase_add_test(model, tool_warms_up_along_its_path);
    tcase_add_test(model, slower_feed_recirculates_more_heat);
    suite_add_tcase(suite, model);
    TCase *limits = tcase_create("limits");
    tcase_add_test(limits, default_tolerance_is_that_of_the_input);
    tcase_add_test(limits, limits_say_why_they_do_not_apply);
    tcase_add_test(limits, advisory_limits_are_never_over);
    tcase_add_test(limits, hostile_numbers_are_judged_or_refused);
    tcase_add_test(limits, missing_and_malformed_inputs_are_refused);
    suite_add_tcase(suite, limits);
    return bite_test_run(suite);
}
