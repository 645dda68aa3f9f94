/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Corner-radius end mills: as the radius vanishes their forces approach those of a square end mill,
 * and they satisfy the same identities. */
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include <math.h>
#include <stdlib.h>

static double value(const bite_result *result, bite_value_id id)
{
    return result->values[id].value;
}

/* A random cut with a helix and a corner radius of this fraction of the tool radius. */
static bite_cut rounded(uint64_t *seed, double share)
{
    bite_cut cut = bite_test_cut(seed);
    cut.helix = bite_test_between(seed, 0.1, 0.8);
    cut.corner_radius = 0.5 * share * cut.diameter;
    return cut;
}

START_TEST(small_corner_approaches_a_square_tool)
{
    static const bite_value_id like[] = {
        BITE_FORCE_TANGENTIAL_PEAK, BITE_FORCE_SIDE_PEAK, BITE_FORCE_SIDE_MEAN,
        BITE_FORCE_LIFT_PEAK,       BITE_TORQUE_PEAK,     BITE_POWER_MEAN,
        BITE_REMOVAL_RATE,          BITE_TOOL_STRESS,     BITE_DEFLECTION_TIP};
    uint64_t seed = 31;
    for (int i = 0; i < 200; i++) {
        bite_cut cut = rounded(&seed, 0.0);
        bite_result square = bite_test_pass(&cut);
        cut.corner_radius = fmin(1e-6 * cut.diameter, 1e-3 * cut.depth);
        bite_result small = bite_test_pass(&cut);
        for (size_t k = 0; k < sizeof like / sizeof *like; k++) {
            double a = value(&square, like[k]);
            double b = value(&small, like[k]);
            /* the sum is evaluated at some angles only, so a peak between two of them is missed
             * slightly */
            double share = like[k] == BITE_POWER_MEAN || like[k] == BITE_REMOVAL_RATE ? 2e-3 : 0.02;
            /* the lift is a small difference of larger forces */
            double scale =
                like[k] == BITE_FORCE_LIFT_PEAK ? value(&square, BITE_FORCE_SIDE_PEAK) : fabs(a);
            ck_assert_msg(fabs(a - b) <= share * scale,
                          "cut %d: %s is %g with a small corner, %g with none", i,
                          bite_value_name(like[k]), b, a);
        }
        bite_assert_near(value(&small, BITE_SURFACE_TEMPERATURE) - cut.room_temperature,
                         value(&square, BITE_SURFACE_TEMPERATURE) - cut.room_temperature, 5e-3);
    }
}
END_TEST

/* The differences over many cuts have no systematic sign. */
START_TEST(small_corner_has_no_bias)
{
    uint64_t seed = 32;
    double sum = 0.0;
    double square_sum = 0.0;
    int count = 300;
    for (int i = 0; i < count; i++) {
        bite_cut cut = rounded(&seed, 0.0);
        bite_result plain = bite_test_pass(&cut);
        double square = value(&plain, BITE_FORCE_SIDE_PEAK);
        cut.corner_radius = fmin(1e-6 * cut.diameter, 1e-3 * cut.depth);
        bite_result small = bite_test_pass(&cut);
        double apart = log(value(&small, BITE_FORCE_SIDE_PEAK) / square);
        sum += apart;
        square_sum += apart * apart;
    }
    ck_assert_msg(fabs(sum / count) < 0.01, "side force leans by %g", sum / count);
    ck_assert_msg(sqrt(square_sum / count) < 0.03, "side force scatters by %g",
                  sqrt(square_sum / count));
}
END_TEST

/* Without edge force, power is K times the removal rate for any corner radius, and the heat shares
 * add up to 1. */
START_TEST(power_and_heat_are_conserved)
{
    uint64_t seed = 33;
    for (int i = 0; i < 500; i++) {
        bite_cut cut = rounded(&seed, bite_test_between(&seed, 0.02, 1.0));
        bite_result result = bite_test_pass(&cut);
        double sum = result.heat_share[0] + result.heat_share[1] + result.heat_share[2] +
                     result.heat_share[3];
        bite_assert_near(sum, 1.0, 1e-9);
        for (int k = 0; k < BITE_VALUE_COUNT; k++) {
            int may = k == BITE_PART_TEMPERATURE || k == BITE_HAZE || k == BITE_TOOL_LIFE ||
                      k == BITE_TIP_FREQUENCY || k == BITE_SURFACE_SPEED_SMALL ||
                      k == BITE_WALL_CLIMB || k == BITE_WALL_CONVENTIONAL ||
                      k == BITE_STABILITY_DEPTH || k == BITE_STABILITY_DEPTH_TOOL;
            ck_assert_msg(may || isfinite(value(&result, (bite_value_id)k)),
                          "cut %d: %s is no number", i, bite_value_name((bite_value_id)k));
        }
        cut.edge_t = 0.0;
        cut.runout = 0.0;
        result = bite_test_pass(&cut);
        bite_assert_near(value(&result, BITE_POWER_MEAN),
                         cut.pressure_t * value(&result, BITE_REMOVAL_RATE), 1e-6);
    }
}
END_TEST

/* The section of a ball end mill's slot is a segment of a circle: R^2 acos(1 - ap/R) - (R - ap)
 * sqrt(2 R ap - ap^2), plus a rectangle above it if the cut is deeper than the radius. */
START_TEST(ball_cuts_a_segment_of_a_circle)
{
    bite_cut cut = bite_test_acrylic();
    cut.diameter = 3e-3;
    cut.stickout = 15e-3;
    cut.corner_radius = 1.5e-3;
    for (double depth = 0.02e-3; depth < 3e-3; depth *= 1.2) {
        double radius = 1.5e-3;
        double low = fmin(depth, radius);
        double section = radius * radius * acos(1.0 - low / radius) -
                         (radius - low) * sqrt(2.0 * radius * low - low * low) +
                         2.0 * radius * (depth - low);
        cut.depth = depth;
        bite_result result = bite_test_pass(&cut);
        bite_assert_near(value(&result, BITE_REMOVAL_RATE), section * cut.feed_rate, 1e-6);
    }
}
END_TEST

/* A ball end mill presses the part down where a square tool of the same helix lifts it; climb and
 * conventional forces are equal. */
START_TEST(ball_presses_down)
{
    bite_cut cut = bite_test_acrylic();
    cut.diameter = 3e-3;
    cut.stickout = 15e-3;
    cut.depth = 0.5e-3;
    cut.feed_rate = 10e-3;
    bite_result square = bite_test_pass(&cut);
    cut.corner_radius = 1.5e-3;
    bite_result ball = bite_test_pass(&cut);
    ck_assert_double_gt(value(&square, BITE_FORCE_LIFT_PEAK), 0.0);
    ck_assert_double_lt(value(&ball, BITE_FORCE_LIFT_PEAK), 0.0);
    ck_assert_double_lt(value(&ball, BITE_SURFACE_SPEED), value(&square, BITE_SURFACE_SPEED));
    cut.width = 0.6e-3;
    cut.helix = 1e-9; /* with a helix the two differ */
    cut.side = BITE_CLIMB;
    bite_result climb = bite_test_pass(&cut);
    cut.side = BITE_CONVENTIONAL;
    bite_result other = bite_test_pass(&cut);
    bite_assert_near(value(&climb, BITE_FORCE_SIDE_PEAK), value(&other, BITE_FORCE_SIDE_PEAK),
                     1e-6);
    bite_assert_near(value(&climb, BITE_POWER_MEAN), value(&other, BITE_POWER_MEAN), 1e-9);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("round");
    TCase *round = tcase_create("round");
    tcase_add_test(round, small_corner_approaches_a_square_tool);
    tcase_add_test(round, small_corner_has_no_bias);
    tcase_add_test(round, power_and_heat_are_conserved);
    tcase_add_test(round, ball_cuts_a_segment_of_a_circle);
    tcase_add_test(round, ball_presses_down);
    tcase_set_timeout(round, 120);
    suite_add_tcase(suite, round);
    return bite_test_run(suite);
}
