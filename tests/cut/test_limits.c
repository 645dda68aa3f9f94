/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every limit: that it says why it does not apply, and the direction in which each input moves it.
 * */
#include "tests/support/limit_cuts.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include <math.h>
#include <string.h>

START_TEST(limits_without_inputs_do_not_apply)
{
    static const bite_limit_id limits[] = {
        BITE_LIMIT_EDGE_CHIP, BITE_LIMIT_CRAZE, BITE_LIMIT_HOLD, BITE_LIMIT_BOND_HEAT,
        BITE_LIMIT_PART_BEND, BITE_LIMIT_GAP,   BITE_LIMIT_WEAR, BITE_LIMIT_PART_GROSS_BEND};
    bite_cut cut = bite_test_acrylic();
    for (size_t i = 0; i < sizeof limits / sizeof *limits; i++) {
        bite_limit limit = bite_test_limit(&cut, limits[i]);
        ck_assert_msg(!limit.applies && limit.why != BITE_WHY_APPLIES && isnan(limit.utilization),
                      "%s", bite_limit_name(limits[i]));
    }
}
END_TEST

/* A pass lies within the flutes, a feature within flutes and neck, both within the stickout; what
 * has less room counts. mm. */
START_TEST(pass_and_feature_lie_within_the_tool)
{
    static const struct {
        double depth;
        double feature; /* NaN: not stated */
        double flutes;
        double neck;
        double neck_diameter;
        double stickout;
        double demand;
        double capacity;
    } cases[] = {
        {3.0, NAN, 9.0, NAN, NAN, 20.0, 3.0, 9.0},    {3.0, 12.0, 9.0, NAN, NAN, 20.0, 12.0, 9.0},
        {3.0, 12.0, 9.0, 6.0, 2.8, 20.0, 12.0, 15.0}, {8.5, 12.0, 9.0, 6.0, 2.8, 20.0, 8.5, 9.0},
        {3.0, 12.0, 9.0, 6.0, 2.8, 14.0, 12.0, 14.0}, {3.0, NAN, 9.0, NAN, NAN, 8.0, 3.0, 8.0},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        bite_cut cut = bite_test_acrylic();
        cut.diameter = 3e-3;
        cut.depth = 1e-3 * cases[i].depth;
        cut.feature_depth = 1e-3 * cases[i].feature;
        cut.flute_length = 1e-3 * cases[i].flutes;
        cut.neck_length = 1e-3 * cases[i].neck;
        cut.neck_diameter = 1e-3 * cases[i].neck_diameter;
        cut.stickout = 1e-3 * cases[i].stickout;
        bite_limit limit = bite_test_limit(&cut, BITE_LIMIT_REACH);
        bite_assert_near(limit.demand, 1e-3 * cases[i].demand, 1e-12);
        bite_assert_near(limit.capacity, 1e-3 * cases[i].capacity, 1e-12);
    }
}
END_TEST

/* An input that changes the utilization of a limit in one direction. */
static const struct {
    bite_limit_id limit;
    const char *input;
    double from; /* of the input, in SI units */
    double to;
    int falls;
} trends[] = {
    {BITE_LIMIT_CHATTER, "machine_stiffness", 1e6, 20e6, 1},
    {BITE_LIMIT_CHATTER, "frame_damping", 0.01, 0.08, 1},
    {BITE_LIMIT_CHATTER, "spindle_damping", 0.01, 0.08, 1},
    {BITE_LIMIT_CHATTER, "stable_share", 1.0, 6.0, 1},
    {BITE_LIMIT_CHATTER_TOOL, "tool_damping", 0.025, 0.1, 1},
    {BITE_LIMIT_RUBBING, "edge_wear", 1.0, 4.5, 0},
    {BITE_LIMIT_RUBBING, "hardening", 0.0, 0.6, 0},
    {BITE_LIMIT_RUBBING, "feed_rate", 1e-3, 20e-3, 1},
    {BITE_LIMIT_FEED_TOOTH, "feed_rate", 1e-3, 20e-3, 0},
    {BITE_LIMIT_FEED_TOOTH, "depth", 0.2e-3, 2.4e-3, 0},
    {BITE_LIMIT_FEED_TOOTH, "tooth_strength", 22e6, 58e6, 1},
    {BITE_LIMIT_RUNOUT, "runout", 0.0, 0.1e-3, 0},
    {BITE_LIMIT_RUNOUT, "runout_share", 0.09, 0.25, 1},
    {BITE_LIMIT_SOFTENING, "edge_radius", 0.5e-6, 20e-6, 0},
    {BITE_LIMIT_SOFTENING, "surface_cooling", 20.0, 4000.0, 1},
    {BITE_LIMIT_SOFTENING, "spring_back", 0.1, 0.4, 0},
    {BITE_LIMIT_SOFTENING, "feed_rate", 0.2e-3, 8e-3, 1},
    {BITE_LIMIT_CRAZE, "edge_radius", 0.5e-6, 5e-6, 0},
    {BITE_LIMIT_CRAZE, "feed_rate", 0.2e-3, 8e-3, 1},
    {BITE_LIMIT_CHIP_WELD, "recutting", 0.1, 1.6, 0},
    {BITE_LIMIT_CHIP_WELD, "tack_decades", 1.0, 6.0, 1},
    {BITE_LIMIT_CHIP_WELD, "depth", 0.2e-3, 2.4e-3, 0},
    {BITE_LIMIT_CHIP_PACKING, "packing_share", 0.5, 2.0, 1},
    {BITE_LIMIT_CHATTER, "depth", 0.2e-3, 0.8e-3, 0},
    {BITE_LIMIT_EDGE_CHIP, "feed_rate", 1e-3, 20e-3, 0},
    {BITE_LIMIT_EDGE_CHIP, "runout", 0.0, 20e-6, 0},
    {BITE_LIMIT_HOLD, "bond_area", 50e-6, 2000e-6, 1},
    {BITE_LIMIT_HOLD, "bond_adhesion", 0.2, 1.0, 1},
    {BITE_LIMIT_HOLD, "bond_force", 1.0, 1.5, 0},
    {BITE_LIMIT_HOLD, "load_time", 10.0, 3600.0, 0},
    {BITE_LIMIT_HOLD, "bond_temperature", 290.0, 360.0, 0},
    {BITE_LIMIT_HOLD, "floor_thickness", 0.2e-3, 4e-3, 0},
    {BITE_LIMIT_BOND_HEAT, "floor_thickness", 0.2e-3, 4e-3, 1},
    {BITE_LIMIT_PART_BEND, "wall_thickness", 0.3e-3, 2e-3, 1},
    {BITE_LIMIT_PART_BEND, "wall_height", 1e-3, 8e-3, 0},
    {BITE_LIMIT_PART_BEND, "floor_span", 2e-3, 40e-3, 0},
    {BITE_LIMIT_PART_BEND, "modulus", 1e9, 9e9, 1},
    {BITE_LIMIT_PART_BEND, "bridge_span", 2e-3, 40e-3, 0},
    {BITE_LIMIT_PART_BEND, "bridge_thickness", 0.1e-3, 4e-3, 1},
    {BITE_LIMIT_PART_BEND, "bridge_width", 0.1e-3, 4e-3, 1},
    {BITE_LIMIT_GAP, "gap", 0.5e-3, 3e-3, 1},
    {BITE_LIMIT_TOOL_GROSS_BEND, "stickout", 5e-3, 80e-3, 0},
    {BITE_LIMIT_TOOL_GROSS_BEND, "machine_stiffness", 1e5, 20e6, 1},
    {BITE_LIMIT_PART_GROSS_BEND, "wall_thickness", 0.3e-3, 2e-3, 1},
    {BITE_LIMIT_PART_GROSS_BEND, "wall_height", 1e-3, 8e-3, 0},
    {BITE_LIMIT_PART_GROSS_BEND, "floor_span", 2e-3, 40e-3, 0},
    {BITE_LIMIT_PART_GROSS_BEND, "floor_thickness", 0.2e-3, 4e-3, 1},
    {BITE_LIMIT_PART_GROSS_BEND, "bridge_span", 2e-3, 40e-3, 0},
    {BITE_LIMIT_PART_GROSS_BEND, "bridge_thickness", 0.1e-3, 4e-3, 1},
};

START_TEST(each_input_moves_a_limit_in_one_direction)
{
    const bite_input *input = bite_input_find(trends[_i].input);
    ck_assert_ptr_nonnull(input);
    bite_cut cut =
        strncmp(trends[_i].input, "bridge", 6) == 0 ? bite_test_bridge_cut() : bite_test_part_cut();
    if (trends[_i].limit == BITE_LIMIT_TOOL_GROSS_BEND ||
        trends[_i].limit == BITE_LIMIT_PART_GROSS_BEND) {
        cut.tolerance = (double)NAN;
    }
    if (strcmp(trends[_i].input, "feed_rate") == 0 && trends[_i].falls) {
        cut.runout = 0.0; /* with runout fewer teeth cut a thin chip, each at a higher feed */
    } else if (strcmp(trends[_i].input, "load_time") == 0) {
        cut.bond_exponent = 0.2; /* a layer that creeps */
    } else if (strcmp(trends[_i].input, "bond_temperature") == 0) {
        cut.bond_halving = 25.0;
    }
    double before = (double)NAN;
    for (int i = 0; i < 12; i++) {
        *(double *)((char *)&cut + input->offset) =
            trends[_i].from + (trends[_i].to - trends[_i].from) * i / 11.0;
        double utilization = bite_test_utilization(&cut, trends[_i].limit);
        ck_assert_msg(isnan(before) ||
                          (trends[_i].falls ? utilization <= before : utilization >= before),
                      "%s over %s: %g after %g", bite_limit_name(trends[_i].limit),
                      trends[_i].input, utilization, before);
        before = utilization;
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("limits");
    TCase *limits = tcase_create("limits");
    tcase_add_test(limits, limits_without_inputs_do_not_apply);
    tcase_add_test(limits, pass_and_feature_lie_within_the_tool);
    tcase_add_loop_test(limits, each_input_moves_a_limit_in_one_direction, 0,
                        (int)(sizeof trends / sizeof *trends));
    tcase_set_timeout(limits, 120);
    suite_add_tcase(suite, limits);
    return bite_test_run(suite);
}
