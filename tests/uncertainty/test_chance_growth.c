/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Chances grow as conditions become worse. */
#include "core/cut/pass.h"
#include "core/names/registry.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include <math.h>

/* The chance grows with more runout, a longer stick-out and a weaker machine (common practice, no
 * source). The load of the whole tool may fall by a few percent with runout where many teeth are in
 * the cut: some of them then meet no stock. */
START_TEST(chance_grows_with_worse_conditions)
{
    uint64_t seed = 11;
    int seen = 0;
    for (int i = 0; i < 60; i++) {
        bite_cut cut = bite_test_cut(&seed);
        cut.runout = 5e-6;
        cut.tolerance = 20e-6;
        cut.flute_length = 3.0 * cut.diameter;
        bite_spread spreads[3] = {bite_test_spread_about(&cut, "pressure_t", 1.6),
                                  bite_test_spread_about(&cut, "edge_t", 1.6),
                                  bite_test_spread_about(&cut, "edge_radius", 1.5)};
        bite_result base = {0};
        bite_result worse = {0};
        base.struct_size = worse.struct_size = (uint32_t)sizeof base;
        ck_assert_int_eq(bite_cut_band(&cut, spreads, 3, 256, 1, 0.95, &base, NULL), BITE_OK);
        bite_cut eccentric = cut;
        eccentric.runout = 25e-6;
        ck_assert_int_eq(bite_cut_band(&eccentric, spreads, 3, 256, 1, 0.95, &worse, NULL),
                         BITE_OK);
        ck_assert(worse.limits[BITE_LIMIT_RUNOUT].chance >= base.limits[BITE_LIMIT_RUNOUT].chance);
        ck_assert(worse.limits[BITE_LIMIT_FEED_TOOTH].utilization >=
                  base.limits[BITE_LIMIT_FEED_TOOTH].utilization * (1.0 - 1e-12));
        ck_assert(worse.limits[BITE_LIMIT_TOOL_BREAK].utilization >=
                  0.95 * base.limits[BITE_LIMIT_TOOL_BREAK].utilization);
        bite_cut weaker = cut;
        weaker.machine_stiffness *= 0.5;
        ck_assert_int_eq(bite_cut_band(&weaker, spreads, 3, 256, 1, 0.95, &worse, NULL), BITE_OK);
        ck_assert(worse.limits[BITE_LIMIT_DEFLECTION].chance >=
                  base.limits[BITE_LIMIT_DEFLECTION].chance - 1e-12);
        bite_cut longer = cut;
        longer.stickout *= 1.5;
        ck_assert_int_eq(bite_cut_band(&longer, spreads, 3, 256, 1, 0.95, &worse, NULL), BITE_OK);
        ck_assert(worse.values[BITE_DEFLECTION_TIP].value > base.values[BITE_DEFLECTION_TIP].value);
        seen += base.limits[BITE_LIMIT_DEFLECTION].chance > 0.0;
    }
    ck_assert_int_gt(seen, 5);
}
END_TEST

/* Without a tolerance the joint chance grows with the deflection, without a step where a limit
 * becomes binding. */
static void grows_with(bite_cut cut, const char *input, double from, double to, bite_limit_id limit)
{
    enum { STEPS = 60 };
    bite_spread spreads[3] = {bite_test_spread_about(&cut, "pressure_t", 1.6),
                              bite_test_spread_about(&cut, "edge_t", 1.6),
                              bite_test_spread_about(&cut, "machine_stiffness", 2.0)};
    double before = 0.0;
    double limit_before = 0.0;
    int between = 0;
    for (int i = 0; i <= STEPS; i++) {
        bite_result result = {0};
        result.struct_size = (uint32_t)sizeof result;
        *bite_input_number(&cut, bite_input_find(input)) = from * pow(to / from, (double)i / STEPS);
        ck_assert_int_eq(bite_cut_band(&cut, spreads, 3, 1024, 1, 0.95, &result, NULL), BITE_OK);
        double chance = result.limits[limit].chance;
        ck_assert(result.limits[limit].applies && !result.limits[limit].advisory);
        ck_assert_msg(chance >= limit_before && result.chance >= before, "%s: %g after %g", input,
                      result.chance, before);
        ck_assert_msg(result.chance - before < 0.3, "%s: from %g to %g at once", input, before,
                      result.chance);
        between += chance > 0.02 && chance < 0.98;
        before = result.chance;
        limit_before = chance;
    }
    ck_assert_double_lt(before, 1.0 + 1e-12);
    ck_assert_double_gt(limit_before, 0.95);
    ck_assert_int_gt(between, 2);
}

START_TEST(chance_of_gross_bending_grows_without_a_step)
{
    bite_cut cut = bite_test_acrylic();
    cut.diameter = cut.shank_diameter = 3e-3;
    cut.flute_length = 9e-3;
    cut.depth = 1e-3;
    cut.width = 1e-3;
    cut.pressure = BITE_PRESSURE_EDGE;
    cut.pressure_t = 600e6;
    cut.edge_t = 12e3;
    cut.stickout = 12e-3;
    cut.machine_stiffness = 20e6;
    cut.substance = BITE_METAL;
    cut.welding = (double)NAN;
    cut.tool_strength = 1e10;
    cut.stable_share = 50.0; /* chatter depends on the stick-out in lobes */
    grows_with(cut, "stickout", 20e-3, 150e-3, BITE_LIMIT_TOOL_GROSS_BEND);
    cut.modulus = 3.3e9;
    cut.poisson = 0.37;
    cut.wall_height = 10e-3;
    grows_with(cut, "wall_thickness", 4e-3, 0.4e-3, BITE_LIMIT_PART_GROSS_BEND);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("growth");
    TCase *growth = tcase_create("growth");
    tcase_add_test(growth, chance_grows_with_worse_conditions);
    tcase_add_test(growth, chance_of_gross_bending_grows_without_a_step);
    tcase_set_timeout(growth, 300);
    suite_add_tcase(suite, growth);
    return bite_test_run(suite);
}
