/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tapped and reamed holes as passes of the engine: loads, strength, what is refused. */
#include "core/physics/geometry/thread.h"
#include "tests/support/limit_cuts.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include <math.h>
#include <stdint.h>

static bite_cut tap_of(uint64_t *seed)
{
    bite_cut cut = bite_test_cut(seed);
    cut.operation = BITE_TAP;
    cut.width = cut.feature_width = cut.inside_radius = (double)NAN;
    cut.corner_radius = 0.0;
    cut.taper = (double)NAN;
    cut.flutes = 3.0;
    cut.diameter = bite_test_decades(seed, 1e-3, 20e-3);
    cut.pitch = cut.diameter * bite_test_between(seed, 0.1, 0.2);
    cut.thread_share = bite_test_between(seed, 0.4, 0.85);
    cut.neck_diameter = cut.neck_length = (double)NAN;
    cut.shank_diameter = cut.flute_length = cut.stickout = (double)NAN;
    cut.core_share = cut.edge_radius = (double)NAN;
    cut.spindle_speed = bite_test_decades(seed, 1.0, 40.0);
    cut.feed_rate = cut.pitch * cut.spindle_speed;
    cut.depth = cut.diameter * bite_test_between(seed, 0.5, 2.0);
    cut.feature_depth = (double)NAN;
    cut.pressure = BITE_PRESSURE_EDGE;
    cut.pressure_t = bite_test_decades(seed, 40e6, 4e9);
    cut.edge_t = bite_test_decades(seed, 100.0, 40e3);
    cut.tool_material = BITE_TOOL_HSS;
    return cut;
}

/* Power is that of the torque, the torque grows with the thread and with drag, the hole is that of
 * the thread, the core carries the torque, and limits of milling do not apply. */
START_TEST(tap_carries_the_torque_of_its_thread)
{
    uint64_t seed = 41;
    for (int i = 0; i < 200; i++) {
        bite_cut cut = tap_of(&seed);
        bite_result result = bite_test_pass(&cut);
        double torque = result.values[BITE_TORQUE_PEAK].value;
        ck_assert_double_gt(torque, 0.0);
        bite_assert_near(result.values[BITE_POWER_MEAN].value,
                         2.0 * M_PI * cut.spindle_speed * torque, 1e-9);
        ck_assert_double_eq(result.values[BITE_FORCE_SIDE_PEAK].value, 0.0);
        ck_assert(!result.limits[BITE_LIMIT_DEFLECTION].applies);
        double core = 0.7 * bite_thread_root(cut.diameter, cut.pitch);
        bite_assert_near(result.values[BITE_TOOL_STRESS].value,
                         sqrt(3.0) * 16.0 * torque / (M_PI * core * core * core), 1e-9);
        double sum = result.heat_share[0] + result.heat_share[1] + result.heat_share[2] +
                     result.heat_share[3];
        bite_assert_near(sum, 1.0, 1e-9);
        bite_cut fuller = cut;
        fuller.thread_share = 1.1 * cut.thread_share;
        ck_assert_double_gt(bite_test_pass(&fuller).values[BITE_TORQUE_PEAK].value, torque);
        ck_assert_double_gt(bite_test_utilization(&fuller, BITE_LIMIT_TOOL_BREAK),
                            bite_test_utilization(&cut, BITE_LIMIT_TOOL_BREAK));
        bite_cut dragged = cut;
        dragged.tap_drag = 2.4;
        bite_assert_near(bite_test_pass(&dragged).values[BITE_TORQUE_PEAK].value, 2.0 * torque,
                         1e-9);
        bite_cut drilled = cut;
        drilled.hole_diameter = bite_thread_hole(cut.diameter, cut.pitch, cut.thread_share);
        bite_assert_near(bite_test_pass(&drilled).values[BITE_TORQUE_PEAK].value, torque, 1e-9);
        bite_cut blind = cut;
        blind.blind = 1;
        blind.tap_lead = 5.0;
        ck_assert_double_gt(bite_test_utilization(&blind, BITE_LIMIT_CHIP_PACKING),
                            bite_test_utilization(&cut, BITE_LIMIT_CHIP_PACKING));
    }
}
END_TEST

/* Common settings of tapping attachments: the slip torque of a clutch for M6 is about 4 N m, and
 * taps of high-speed steel of that size break at 8 to 10 (memory): the usual strength of 1500 N/mm2
 * lies between. */
START_TEST(tap_of_6_mm_breaks_where_it_should)
{
    uint64_t seed = 42;
    bite_cut cut = tap_of(&seed);
    cut.diameter = 6e-3;
    cut.pitch = 1e-3;
    cut.feed_rate = cut.pitch * cut.spindle_speed;
    cut.depth = 6e-3;
    cut.tool_strength = (double)NAN;
    bite_result result = bite_test_pass(&cut);
    double strength =
        result.values[BITE_TORQUE_PEAK].value / result.limits[BITE_LIMIT_TOOL_BREAK].utilization;
    ck_assert_double_gt(strength, 4.0);
    ck_assert_double_lt(strength, 10.0);
}
END_TEST

START_TEST(reamer_takes_its_stock)
{
    uint64_t seed = 43;
    for (int i = 0; i < 200; i++) {
        bite_cut cut = tap_of(&seed);
        cut.operation = BITE_REAM;
        cut.pitch = cut.thread_share = (double)NAN;
        cut.flutes = 6.0;
        cut.ream_stock = cut.diameter * bite_test_between(&seed, 0.01, 0.1);
        cut.feed_rate =
            cut.diameter * bite_test_between(&seed, 0.001, 0.01) * cut.flutes * cut.spindle_speed;
        bite_result result = bite_test_pass(&cut);
        double hole = cut.diameter - cut.ream_stock;
        bite_assert_near(result.values[BITE_REMOVAL_RATE].value,
                         0.25 * M_PI * (cut.diameter * cut.diameter - hole * hole) * cut.feed_rate,
                         1e-9);
        ck_assert_double_lt(result.values[BITE_FORCE_LIFT_PEAK].value, 0.0); /* a thrust */
        bite_cut more = cut;
        more.ream_stock *= 1.5;
        ck_assert_double_gt(bite_test_pass(&more).values[BITE_TORQUE_PEAK].value,
                            result.values[BITE_TORQUE_PEAK].value);
        cut.edge_t = 0.0;
        result = bite_test_pass(&cut);
        bite_assert_near(result.values[BITE_POWER_MEAN].value,
                         cut.pressure_t * result.values[BITE_REMOVAL_RATE].value, 1e-9);
    }
}
END_TEST

static void expect_refused(const bite_cut *cut, bite_status status, const char *key)
{
    bite_result result = {0};
    bite_error error = BITE_ERROR_INIT;
    result.struct_size = (uint32_t)sizeof result;
    ck_assert_int_eq(bite_cut_pass(cut, &result, &error), status);
    ck_assert_str_eq(error.key, key);
    ck_assert(error.hint[0] != 0);
}

START_TEST(impossible_holes_are_refused)
{
    uint64_t seed = 44;
    bite_cut cut = tap_of(&seed);
    bite_cut odd = cut;
    odd.pitch = (double)NAN;
    expect_refused(&odd, BITE_MISSING, "pitch");
    odd = cut;
    odd.hole_diameter = cut.diameter;
    expect_refused(&odd, BITE_OUT_OF_RANGE, "hole_diameter");
    odd.hole_diameter = bite_thread_hole(cut.diameter, cut.pitch, 1.02);
    expect_refused(&odd, BITE_OUT_OF_RANGE, "hole_diameter");
    odd = cut;
    odd.operation = BITE_REAM;
    odd.hole_diameter = 0.3 * cut.diameter;
    expect_refused(&odd, BITE_OUT_OF_RANGE, "hole_diameter");
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("hole work");
    TCase *holes = tcase_create("hole work");
    tcase_add_test(holes, tap_carries_the_torque_of_its_thread);
    tcase_add_test(holes, tap_of_6_mm_breaks_where_it_should);
    tcase_add_test(holes, reamer_takes_its_stock);
    tcase_add_test(holes, impossible_holes_are_refused);
    tcase_set_timeout(holes, 120);
    suite_add_tcase(suite, holes);
    return bite_test_run(suite);
}
