/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits of the tool and the spindle: wear, strength, deflection and torque. */
#include "core/cut/defaults.h"
#include "core/cut/physics_inputs.h"
#include "tests/support/limit_cuts.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include <math.h>

/* Taylor: half the speed gives 2^(1/n) times the life; a path that takes the whole life has a
 * utilization of 1. */
START_TEST(wear_follows_taylors_equation)
{
    bite_cut cut = bite_test_part_cut();
    cut.substance = BITE_METAL;
    cut.taylor_speed = 1.0;
    cut.taylor_exponent = 0.25;
    double life = bite_test_pass(&cut).values[BITE_TOOL_LIFE].value;
    cut.path_length = life * cut.feed_rate;
    bite_assert_near(bite_test_utilization(&cut, BITE_LIMIT_WEAR), 1.0, 1e-12);
    cut.spindle_speed *= 0.5;
    bite_assert_near(bite_test_pass(&cut).values[BITE_TOOL_LIFE].value, 16.0 * life, 1e-9);
    cut.taylor_speed = (double)NAN;
    cut.substance = BITE_AMORPHOUS;
    ck_assert_uint_eq(bite_test_limit(&cut, BITE_LIMIT_WEAR).why, BITE_WHY_DOES_NOT_WEAR);
}
END_TEST

/* Without a tolerance, the default one is advisory, and a deflection that is beyond any reading of
 * "to size" is binding: 0.3 mm for a slender 3 mm tool, a tenth of its diameter and ISO 2768-1 c
 * alike; for 12 mm half a millimetre and a quarter of the way to 0.8; for a light pass its own
 * width. */
START_TEST(gross_bending_of_the_tool_is_binding)
{
    static const double cases[][3] = {
        {3e-3, NAN, 0.3e-3}, {12e-3, NAN, 0.575e-3}, {1e-3, NAN, 0.1e-3}, {3e-3, 0.2e-3, 0.2e-3}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        bite_cut cut = bite_test_part_cut();
        cut.tolerance = (double)NAN;
        cut.diameter = cases[i][0];
        cut.width = cases[i][1];
        cut.stickout = 20e-3;
        bite_result result = bite_test_pass(&cut);
        const bite_limit *gross = &result.limits[BITE_LIMIT_TOOL_GROSS_BEND];
        ck_assert(gross->applies && !gross->advisory);
        bite_assert_near(gross->capacity, cases[i][2], 1e-12);
        double half = 0.5 * cut.runout; /* bending alone, without what runout cuts away */
        double climb = fabs(result.values[BITE_WALL_CLIMB].value + half);
        double other = fabs(result.values[BITE_WALL_CONVENTIONAL].value + half);
        bite_assert_near(gross->demand, fmax(climb, other), 1e-9);
        ck_assert_uint_eq(gross->verdict, BITE_CLEAR);
    }
    bite_cut cut =
        bite_test_rod_cut(3e-3, 80e-3); /* 0.864797 N/um of 20 mm (BM-U-3x20-580) / 64: 74 um/N */
    cut.depth = 1e-3;
    cut.tool_strength = 1e10;
    cut.substance = BITE_METAL;
    cut.welding = (double)NAN;
    bite_result result = bite_test_pass(&cut);
    const bite_limit *deflection = &result.limits[BITE_LIMIT_DEFLECTION];
    const bite_limit *gross = &result.limits[BITE_LIMIT_TOOL_GROSS_BEND];
    ck_assert(deflection->advisory && deflection->capacity == 0.05e-3 &&
              deflection->verdict == BITE_TIGHT);
    ck_assert_uint_eq(gross->verdict, BITE_OVER);
    ck_assert_uint_eq(result.verdict, BITE_OVER);
    ck_assert_double_ge(result.limits[result.worst].utilization, gross->utilization);
    cut.tolerance = 1e-3; /* a wide tolerance must be given */
    result = bite_test_pass(&cut);
    ck_assert(!result.limits[BITE_LIMIT_TOOL_GROSS_BEND].applies &&
              result.limits[BITE_LIMIT_TOOL_GROSS_BEND].why == BITE_WHY_TOLERANCE);
    ck_assert(!result.limits[BITE_LIMIT_DEFLECTION].advisory &&
              result.limits[BITE_LIMIT_DEFLECTION].capacity == 0.5e-3);
    ck_assert_str_ne(bite_limit_why(BITE_WHY_TOLERANCE), "");
    cut = bite_test_acrylic();
    cut.operation = BITE_DRILL_HOLE;
    ck_assert_uint_eq(bite_test_limit(&cut, BITE_LIMIT_TOOL_GROSS_BEND).why, BITE_WHY_DRILL);
}
END_TEST

/* A paper reports for 0.5 mm tools in brass 2 to 4 N over a whole life and more than 30 N at the
 * break (Proc. IMechE B 2020, doi 10.1177/0954405420969347, abstract). With flutes of two
 * diameters, as such tools are sold (memory), half of the tools survive the first force, and not
 * one in twenty the second: the strong end of their scatter is 1.55. */
START_TEST(strength_of_small_tools_agrees_with_measured_forces)
{
    bite_cut cut;
    bite_cut_init(&cut);
    cut.diameter = 0.5e-3;
    cut.flute_length = 1e-3;
    cut.depth = 0.05e-3;
    cut.spindle_speed = 500.0;
    cut.feed_rate = 5e-3;
    bite_defaults_fill(&cut);
    bite_tool_body tool = bite_cut_tool_body(&cut);
    ck_assert_double_lt(bite_tool_stress(&tool, 4.0, 4.0 * 0.25e-3), cut.tool_strength);
    ck_assert_double_gt(bite_tool_stress(&tool, 30.0, 30.0 * 0.25e-3), 1.55 * cut.tool_strength);
}
END_TEST

/* What a tooth bears by hand: 44 N/mm2 x D, less with more and deeper teeth, more on small ones; a
 * quarter at the least.
 * The demand is K h + Ke of the heavy tooth, here 600 x 0.1 + 12 N/mm. */
START_TEST(tooth_bears_a_share_of_its_diameter)
{
    static const double cases[][4] = {/* D, z, depth/D, capacity */
                                      {6e-3, 1.0, 0.5, 264e3},        {6e-3, 1.0, 1.0, 264e3},
                                      {6e-3, 1.0, 2.0, 0.75 * 264e3}, {6e-3, 1.0, 3.0, 0.5 * 264e3},
                                      {6e-3, 1.0, 6.0, 0.25 * 264e3}, {6e-3, 4.0, 1.0, 214434.7},
                                      {3e-3, 1.0, 1.0, 156975.3}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        bite_cut cut = bite_test_rod_cut(cases[i][0], 30e-3);
        cut.edge_reference = cut.edge_radius;
        cut.flutes = cases[i][1];
        cut.depth = cases[i][2] * cut.diameter;
        cut.feed_rate = 0.1e-3 * cut.flutes * cut.spindle_speed;
        bite_limit limit = bite_test_limit(&cut, BITE_LIMIT_FEED_TOOTH);
        bite_assert_near(limit.demand, 72e3, 1e-9);
        bite_assert_near(limit.capacity, cases[i][3], 1e-5);
        ck_assert(!limit.advisory);
    }
}
END_TEST

/* A tool may whip by 0.15 of its diameter, and by twice that with one flute. */
START_TEST(runout_is_a_share_of_the_diameter)
{
    bite_cut cut = bite_test_rod_cut(1e-3, 10e-3);
    cut.runout = 0.1e-3;
    bite_assert_near(bite_test_utilization(&cut, BITE_LIMIT_RUNOUT), 0.1 / 0.15, 1e-12);
    cut.flutes = 1.0;
    bite_assert_near(bite_test_utilization(&cut, BITE_LIMIT_RUNOUT), 0.1 / 0.3, 1e-12);
    ck_assert(!bite_test_limit(&cut, BITE_LIMIT_RUNOUT).advisory);
}
END_TEST

/* The charts of aluminium end at 0.178 mm for one flute of 6.35 mm, and 1.5 times that is still
 * reported; more flutes have less by their root, other diameters by the exponent of the charts.
 * Without a chart the limit is not judged. */
START_TEST(chip_loads_beyond_the_charts_are_unproven)
{
    bite_cut cut = bite_test_rod_cut(6.35e-3, 30e-3);
    cut.substance = BITE_METAL;
    cut.welding = (double)NAN;
    cut.flutes = 1.0;
    cut.charted_chip = 0.178e-3;
    cut.charted_exponent = 0.68;
    bite_limit limit = bite_test_limit(&cut, BITE_LIMIT_UNPROVEN);
    bite_assert_near(limit.capacity, 0.267e-3, 1e-12);
    ck_assert(limit.advisory);
    cut.flutes = 4.0;
    bite_assert_near(bite_test_limit(&cut, BITE_LIMIT_UNPROVEN).capacity, 0.267e-3 / 2.0, 1e-12);
    cut.flutes = 1.0;
    cut.diameter = cut.shank_diameter = 3.175e-3;
    cut.flute_length = 9e-3;
    bite_assert_near(bite_test_limit(&cut, BITE_LIMIT_UNPROVEN).capacity, 0.267e-3 * pow(0.5, 0.68),
                     1e-12);
    cut.charted_chip = (double)NAN;
    ck_assert_uint_eq(bite_test_limit(&cut, BITE_LIMIT_UNPROVEN).why, BITE_WHY_NO_DATA);
}
END_TEST

/* The inertia of a spindle smooths a load that repeats once per turn: the torque demand is near the
 * peak at low speed and near the mean at high speed. Between the two the spindle is a rotor of
 * first order, which is integrated here in small steps over the turns. */
static double ripple_by_steps(double speed)
{
    const double time_constant = 0.04; /* s */
    const int steps = 2000;
    double step = 1.0 / (speed * steps);
    double felt = 0.0;
    double most = 0.0;
    int turns = 3 + (int)(10.0 * time_constant * speed);
    for (int i = 0; i < turns * steps; i++) {
        double load = cos(2.0 * M_PI * (double)(i % steps) / steps);
        felt += (load - felt) * -expm1(-step / time_constant);
        most = i >= (turns - 1) * steps ? fmax(most, felt) : 0.0;
    }
    return most;
}

START_TEST(torque_demand_is_smoothed_by_inertia)
{
    uint64_t seed = 20;
    for (int i = 0; i < 300; i++) {
        bite_cut cut = bite_test_cut(&seed);
        cut.torque_limit = 1.0;
        bite_result result = bite_test_pass(&cut);
        double mean = result.values[BITE_POWER_MEAN].value / (2.0 * M_PI * cut.spindle_speed);
        double peak = result.values[BITE_TORQUE_PEAK].value;
        double demand = result.limits[BITE_LIMIT_TORQUE].demand;
        ck_assert_double_ge(demand, mean * (1.0 - 1e-9));
        ck_assert_double_le(demand, peak * (1.0 + 1e-9));
        if (i < 10) {
            bite_assert_near((demand - mean) / (peak - mean), ripple_by_steps(cut.spindle_speed),
                             2e-3);
        }
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("tool limits");
    TCase *limits = tcase_create("tool limits");
    tcase_add_test(limits, wear_follows_taylors_equation);
    tcase_add_test(limits, gross_bending_of_the_tool_is_binding);
    tcase_add_test(limits, strength_of_small_tools_agrees_with_measured_forces);
    tcase_add_test(limits, tooth_bears_a_share_of_its_diameter);
    tcase_add_test(limits, runout_is_a_share_of_the_diameter);
    tcase_add_test(limits, chip_loads_beyond_the_charts_are_unproven);
    tcase_add_test(limits, torque_demand_is_smoothed_by_inertia);
    tcase_set_timeout(limits, 120);
    suite_add_tcase(suite, limits);
    return bite_test_run(suite);
}
