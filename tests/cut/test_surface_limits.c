/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits and values of a cut surface: softening, welding of chips, crazing, and the haze of a clear
 * part. */
#include "tests/support/limit_cuts.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include <math.h>

/* The everyday cut in cast acrylic, of which the heat of wall and floor was computed by hand. */
static bite_cut everyday(void)
{
    bite_cut cut = bite_test_acrylic();
    cut.diameter = cut.shank_diameter = 3.175e-3;
    cut.flutes = 1.0;
    cut.spindle_speed = 300.0;
    cut.feed_rate = 2.0 / 60.0;
    cut.depth = 2e-3;
    cut.coolant = BITE_COOLANT_AIR;
    cut.runout = 0.0;
    cut.edge_radius = 3.175e-6;
    cut.stickout = 17.525e-3;
    cut.wlf_c1 = 34.0;
    cut.wlf_c2 = 80.0;
    cut.modulus = 3.3e9;
    cut.poisson = 0.37;
    cut.expansion = 70e-6;
    cut.crazing = 10.34e6;
    return cut;
}

/* The wall stays 12.5 K warm for 10 ms, in which it would flow at 116 degC: 0.13. */
START_TEST(everyday_wall_stays_cool)
{
    bite_cut cut = everyday();
    bite_result result = bite_test_pass(&cut);
    bite_limit softening = result.limits[BITE_LIMIT_SOFTENING];
    ck_assert_double_eq_tol(result.values[BITE_SURFACE_TEMPERATURE].value, 293.15 + 12.5, 0.3);
    ck_assert_double_eq_tol(result.values[BITE_SURFACE_DWELL].value, 10.1e-3, 0.1e-3);
    ck_assert_double_eq_tol(result.values[BITE_FLOW_TEMPERATURE].value, 273.15 + 115.6, 0.1);
    ck_assert_double_eq_tol(softening.utilization, 0.131, 0.003);
    ck_assert_uint_eq(softening.verdict, BITE_CLEAR);
    ck_assert_double_lt(bite_test_utilization(&cut, BITE_LIMIT_CRAZE), 1e-9);
}
END_TEST

/* A corner that is taken at a quarter of the feed warms 2.5 times as much: with many sweeps the
 * rise goes with the feed to the power -2/3. */
START_TEST(less_feed_warms_the_wall_more)
{
    bite_cut cut = everyday();
    double fast = bite_test_limit(&cut, BITE_LIMIT_SOFTENING).demand;
    cut.feed_rate *= 0.25;
    double slow = bite_test_limit(&cut, BITE_LIMIT_SOFTENING).demand;
    ck_assert_double_gt(slow / fast, 2.0);
    ck_assert_double_lt(slow / fast, 2.8);
}
END_TEST

/* Dry is worse than air, air than mist, mist than flood; extruded sheet, which flows 2.5 decades of
 * time above its transition, clogs before cast, which does at 6. */
START_TEST(coolant_and_kind_of_sheet_matter)
{
    bite_cut cut = everyday();
    double before[2] = {INFINITY, INFINITY};
    for (uint32_t coolant = BITE_COOLANT_NONE; coolant <= BITE_COOLANT_FLOOD; coolant++) {
        cut.coolant = coolant;
        cut.tack_decades = 6.0;
        double softens = bite_test_utilization(&cut, BITE_LIMIT_SOFTENING);
        double cast = bite_test_utilization(&cut, BITE_LIMIT_CHIP_WELD);
        cut.tack_decades = 2.5;
        ck_assert_double_gt(bite_test_utilization(&cut, BITE_LIMIT_CHIP_WELD), cast);
        ck_assert_double_lt(softens, before[0]);
        ck_assert_double_lt(cast, before[1]);
        before[0] = softens;
        before[1] = cast;
    }
}
END_TEST

/* A crystalline polymer melts at its melting point, however short the time; a metal does not
 * soften. */
START_TEST(softening_is_of_the_kind_of_material)
{
    bite_cut cut = everyday();
    cut.substance = BITE_CRYSTALLINE;
    cut.transition = 439.15;
    bite_limit limit = bite_test_limit(&cut, BITE_LIMIT_SOFTENING);
    bite_assert_near(limit.capacity, 439.15 - 293.15, 1e-12);
    ck_assert_double_eq(bite_test_utilization(&cut, BITE_LIMIT_CRAZE), 0.0);
    cut.substance = BITE_METAL;
    ck_assert_uint_eq(bite_test_limit(&cut, BITE_LIMIT_SOFTENING).why, BITE_WHY_METAL);
}
END_TEST

/* A skin that stays cool keeps no tension; one that relaxes completely keeps E alpha dT/(1 - nu) of
 * its temperature, which is compared with the crazing stress of acrylic. */
START_TEST(crazing_begins_when_stress_relaxes)
{
    bite_cut cut = everyday();
    cut.edge_radius = 25e-6;
    cut.feed_rate = 0.2 / 60.0;
    cut.floor_thickness = 0.0; /* it leaves a wall only */
    bite_result result = bite_test_pass(&cut);
    bite_limit limit = result.limits[BITE_LIMIT_CRAZE];
    double rise = result.values[BITE_SURFACE_TEMPERATURE].value - 293.15;
    bite_assert_near(limit.demand, 3.3e9 * 70e-6 * rise / (1.0 - 0.37), 1e-3);
    ck_assert_double_eq(limit.capacity, 10.34e6);
    ck_assert_uint_eq(limit.verdict, BITE_OVER);
    cut.edge_radius = 5e-6;
    ck_assert_double_gt(bite_test_utilization(&cut, BITE_LIMIT_CRAZE), 1e-3);
    cut.transition = 600.0;
    ck_assert_double_lt(bite_test_utilization(&cut, BITE_LIMIT_CRAZE), 1e-9);
    cut.substance = BITE_THERMOSET; /* a crazing stress that somebody stated has no meaning there */
    ck_assert_uint_eq(bite_test_limit(&cut, BITE_LIMIT_CRAZE).applies, 0);
    ck_assert_uint_eq(bite_test_limit(&cut, BITE_LIMIT_CRAZE).why, BITE_WHY_NO_DATA);
    cut.substance = everyday().substance;
    cut.crazing = (double)NAN;
    ck_assert_uint_eq(bite_test_limit(&cut, BITE_LIMIT_CRAZE).applies, 0);
    ck_assert_uint_eq(bite_test_limit(&cut, BITE_LIMIT_CRAZE).why, BITE_WHY_NO_DATA);
    cut.substance = BITE_METAL;
    ck_assert_uint_eq(bite_test_limit(&cut, BITE_LIMIT_CRAZE).applies, 0);
    ck_assert_uint_eq(bite_test_limit(&cut, BITE_LIMIT_CRAZE).why, BITE_WHY_DOES_NOT_CRAZE);
}
END_TEST

/* Of random cuts the heat goes somewhere: energy closes to 1e-9 of the power, and every limit of
 * heat is finite. */
START_TEST(energy_closes_and_limits_are_finite)
{
    static const bite_limit_id limits[] = {BITE_LIMIT_SOFTENING, BITE_LIMIT_CRAZE,
                                           BITE_LIMIT_CHIP_WELD};
    uint64_t seed = 12;
    for (int i = 0; i < 400; i++) {
        bite_cut cut = bite_test_cut(&seed);
        cut.modulus = 3.3e9;
        cut.poisson = 0.37;
        cut.expansion = 70e-6;
        cut.crazing = 10.34e6;
        bite_result result = bite_test_pass(&cut);
        double sum = result.heat_share[0] + result.heat_share[1] + result.heat_share[2] +
                     result.heat_share[3];
        ck_assert_double_eq_tol(sum, 1.0, 1e-9);
        for (size_t k = 0; k < sizeof limits / sizeof *limits; k++) {
            ck_assert(result.limits[limits[k]].applies);
            ck_assert(isfinite(result.limits[limits[k]].utilization));
        }
    }
}
END_TEST

/* Only clear parts have a haze; finer marks scatter a smaller share of the light. */
START_TEST(haze_falls_with_finer_marks)
{
    bite_cut cut = bite_test_part_cut();
    double before = 1.0;
    for (double feed = 0.02; feed > 1e-5; feed *= 0.5) {
        cut.feed_rate = feed;
        double haze = bite_test_pass(&cut).values[BITE_HAZE].value;
        ck_assert_msg(haze > 0.0 && haze <= before, "%g after %g", haze, before);
        before = haze;
    }
    cut.refraction = (double)NAN;
    ck_assert(isnan(bite_test_pass(&cut).values[BITE_HAZE].value));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("surface limits");
    TCase *limits = tcase_create("surface limits");
    tcase_add_test(limits, everyday_wall_stays_cool);
    tcase_add_test(limits, less_feed_warms_the_wall_more);
    tcase_add_test(limits, coolant_and_kind_of_sheet_matter);
    tcase_add_test(limits, softening_is_of_the_kind_of_material);
    tcase_add_test(limits, energy_closes_and_limits_are_finite);
    tcase_add_test(limits, crazing_begins_when_stress_relaxes);
    tcase_add_test(limits, haze_falls_with_finer_marks);
    tcase_set_timeout(limits, 120);
    suite_add_tcase(suite, limits);
    return bite_test_run(suite);
}
