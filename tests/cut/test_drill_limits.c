/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Drills: their limits, forces and heat. */
#include "tests/support/limit_cuts.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include <math.h>
#include <stdint.h>

/* The side force of runout bends a drill back towards the centre: the longer the drill, the smaller
 * the force, and the point never bends by more than the runout. Common practice: a carbide drill of
 * 3 mm survives 0.05 mm/rev in a metal of 2800 N/mm2. */
START_TEST(runout_bends_a_drill_by_at_most_itself)
{
    bite_cut cut = bite_test_part_cut();
    double before = INFINITY;
    cut.operation = BITE_DRILL_HOLE;
    cut.diameter = 3e-3;
    cut.width = (double)NAN;
    cut.runout = 8e-6;
    cut.pressure = BITE_PRESSURE_EDGE;
    cut.pressure_t = 2800e6;
    cut.edge_t = 20e3;
    cut.spindle_speed = 4300.0 / 60.0;
    cut.feed_rate = 0.05e-3 * cut.spindle_speed;
    cut.flute_length = 30e-3;
    for (double stickout = 31e-3; stickout < 80e-3; stickout *= 1.2) {
        bite_result result = {0};
        result.struct_size = (uint32_t)sizeof result;
        cut.stickout = stickout;
        ck_assert_int_eq(bite_cut_pass(&cut, &result, NULL), BITE_OK);
        double side = result.values[BITE_FORCE_SIDE_PEAK].value;
        ck_assert_double_gt(side, 0.0);
        ck_assert_double_lt(side, before);
        ck_assert_double_le(result.values[BITE_DEFLECTION_TIP].value, cut.runout);
        ck_assert_double_lt(result.limits[BITE_LIMIT_TOOL_BREAK].utilization, 1.0);
        before = side;
    }
}
END_TEST

/* Without edge force, power is K times the removal rate; the heat shares add up to 1; torque and
 * thrust grow with the feed; deeper pecks pack more; limits of milling do not apply. */
START_TEST(drill_conserves_energy_and_volume)
{
    uint64_t seed = 91;
    for (int i = 0; i < 300; i++) {
        bite_cut cut = bite_test_cut(&seed);
        cut.operation = BITE_DRILL_HOLE;
        cut.flutes = 2.0;
        bite_result result = bite_test_pass(&cut);
        double sum = result.heat_share[0] + result.heat_share[1] + result.heat_share[2] +
                     result.heat_share[3];
        bite_assert_near(sum, 1.0, 1e-9);
        ck_assert_double_lt(result.values[BITE_FORCE_LIFT_PEAK].value, 0.0); /* a thrust */
        ck_assert(!result.limits[BITE_LIMIT_DEFLECTION].applies &&
                  result.limits[BITE_LIMIT_DEFLECTION].why == BITE_WHY_DRILL);
        bite_cut faster = cut;
        faster.feed_rate = fmin(0.99, 2.0 * cut.feed_rate);
        bite_result more = bite_test_pass(&faster);
        ck_assert_double_gt(more.values[BITE_TORQUE_PEAK].value,
                            result.values[BITE_TORQUE_PEAK].value);
        ck_assert_double_lt(more.values[BITE_FORCE_LIFT_PEAK].value,
                            result.values[BITE_FORCE_LIFT_PEAK].value);
        bite_cut deeper = cut;
        deeper.depth *= 1.5;
        ck_assert_double_gt(bite_test_utilization(&deeper, BITE_LIMIT_CHIP_PACKING),
                            bite_test_utilization(&cut, BITE_LIMIT_CHIP_PACKING));
        cut.edge_t = 0.0;
        result = bite_test_pass(&cut);
        bite_assert_near(result.values[BITE_POWER_MEAN].value,
                         cut.pressure_t * result.values[BITE_REMOVAL_RATE].value, 1e-9);
        bite_assert_near(result.values[BITE_REMOVAL_RATE].value,
                         0.25 * M_PI * cut.diameter * cut.diameter * cut.feed_rate, 1e-12);
    }
}
END_TEST

/* A drill that runs true is twisted, 16 T/(pi d^3) at its core, and pushed, 4 F/(pi d^2). */
START_TEST(drill_bears_torque_and_thrust)
{
    bite_cut cut = bite_test_part_cut();
    cut.operation = BITE_DRILL_HOLE;
    cut.diameter = 3e-3;
    cut.width = (double)NAN;
    cut.runout = 0.0;
    cut.core_share = 0.6;
    cut.pressure = BITE_PRESSURE_EDGE;
    cut.pressure_t = 2800e6;
    cut.edge_t = 20e3;
    cut.spindle_speed = 4300.0 / 60.0;
    cut.feed_rate = 0.05e-3 * cut.spindle_speed;
    bite_result result = bite_test_pass(&cut);
    double core = 0.6 * cut.diameter;
    double thrust = -result.values[BITE_FORCE_LIFT_PEAK].value;
    double pushed = 4.0 * thrust / (M_PI * core * core);
    double twisted = 16.0 * result.values[BITE_TORQUE_PEAK].value / (M_PI * core * core * core);
    bite_assert_near(result.values[BITE_FORCE_SIDE_PEAK].value, 0.0, 1e-9);
    ck_assert_double_gt(pushed, 0.05 * twisted);
    bite_assert_near(result.values[BITE_TOOL_STRESS].value, twisted + pushed, 1e-9);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("drill limits");
    TCase *limits = tcase_create("drill limits");
    tcase_add_test(limits, runout_bends_a_drill_by_at_most_itself);
    tcase_add_test(limits, drill_conserves_energy_and_volume);
    tcase_add_test(limits, drill_bears_torque_and_thrust);
    tcase_set_timeout(limits, 120);
    suite_add_tcase(suite, limits);
    return bite_test_run(suite);
}
