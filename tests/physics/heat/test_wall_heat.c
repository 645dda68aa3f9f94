/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Softening over time, the heat of wall and floor, and recut chips: numbers by hand, limits and
 * scaling laws. */
#include "core/physics/heat/chip_recutting.h"
#include "core/physics/heat/softening_time.h"
#include "core/physics/heat/wall_heat.h"
#include "tests/support/support.h"
#include "tests/support/test_formulas.h"
#include <math.h>

/* Cast acrylic: 105 degC, C1 34, C2 80. */
static const bite_softening_law cast = {378.15, 34.0, 80.0};

/* At the transition it flows in 100 s; in 10 ms, four decades sooner, 80 x 4/30 K above it. The
 * pole of the law is not reached: 0.8 C1 is the most, 4 C2 above. What is crystalline melts. */
START_TEST(less_time_needs_more_heat)
{
    bite_assert_near(bite_softening_temperature(&cast, 100.0, 0.0), 378.15, 1e-12);
    bite_assert_near(bite_softening_temperature(&cast, 0.01, 0.0), 378.15 + 320.0 / 30.0, 1e-12);
    bite_assert_near(bite_softening_temperature(&cast, 0.01, 6.0), 378.15 + 800.0 / 24.0, 1e-12);
    bite_assert_near(bite_softening_temperature(&cast, 1e-40, 0.0), 378.15 + 320.0, 1e-12);
    bite_softening_law acetal = {439.15, NAN, NAN};
    ck_assert_double_eq(bite_softening_temperature(&acetal, 1e-6, 6.0), 439.15);
    double before = 0.0;
    for (double time = 1e4; time > 1e-9; time *= 0.5) {
        double now = bite_softening_temperature(&cast, time, 0.0);
        ck_assert_double_gt(now, before);
        before = now;
    }
}
END_TEST

/* 1 - 1/e of a stress after 100 s at the transition; more with warmth and time; below 0.6 C2 under
 * it as at that. A crystalline polymer keeps its stress until it melts. */
START_TEST(warm_stress_relaxes)
{
    bite_assert_near(bite_softening_relaxed_share(&cast, 378.15, 100.0), -expm1(-1.0), 1e-12);
    bite_assert_near(bite_softening_relaxed_share(&cast, 378.15, 25.0), -expm1(-0.5), 1e-12);
    double coldest = bite_softening_relaxed_share(&cast, 378.15 - 48.0, 1.0);
    ck_assert_double_lt(coldest, 1e-9);
    ck_assert_double_eq(bite_softening_relaxed_share(&cast, 200.0, 1.0), coldest);
    double before = 0.0;
    for (double temperature = 331.0; temperature < 480.0; temperature += 1.0) {
        double share = bite_softening_relaxed_share(&cast, temperature, 0.01);
        ck_assert(share >= before && share <= 1.0);
        before = share;
    }
    ck_assert_double_gt(before, 0.999);
    bite_softening_law acetal = {439.15, NAN, NAN};
    ck_assert_double_eq(bite_softening_relaxed_share(&acetal, 439.0, 1e6), 0.0);
    ck_assert_double_eq(bite_softening_relaxed_share(&acetal, 440.0, 1e-6), 1.0);
}
END_TEST

/* rho c = 2e6 J/(m3 K), e = 632.456: a plastic, cut at 1000 teeth a second without spring-back. */
static bite_wall_heat_case plastic(void)
{
    bite_wall_heat_case heat_case = {
        .edge_energy = 100.0,
        .layer = 1e-12,
        .feed_rate = 0.05,
        .feed_real = 50e-6,
        .radius = 1.6e-3,
        .width = 3.2e-3,
        .spring_back = 0.0,
        .rub_heat = 0.5,
        .dish = 0.034920769,
        .cooling = 0.0,
        .conductivity = 0.2,
        .diffusivity = 1e-7,
    };
    return heat_case;
}

/* One pulse of 100 J/m2 on a half-space is 100/(e sqrt(pi t)) = 2.8209 K warm after 1 ms; the
 * closed sum of pulses has 1.0159 for one. In a thick layer it is E/(rho c d). */
START_TEST(one_pulse_on_a_half_space)
{
    bite_wall_heat_case heat_case = plastic();
    bite_wall_heat floor = bite_wall_heat_floor(&heat_case);
    bite_assert_near(floor.rise, 100.0 / (632.4555320 * sqrt(M_PI * 1e-3)) * (sqrt(6.13) - 1.46),
                     5e-4);
    bite_assert_near(floor.dwell, 1e-3, 1e-12);
    ck_assert_double_eq(floor.cuts, 1.0);
    ck_assert_double_eq(floor.rubs, 0.0);
    heat_case.layer = 10e-3;
    bite_assert_near(bite_wall_heat_floor(&heat_case).rise, 100.0 / (2e6 * 10e-3), 1e-6);
}
END_TEST

/* With many sweeps, fast enough that the circle and not the end of the arc ends them, the rise goes
 * with E R^(1/3) vf^(1/3)/fr; at fixed revolutions with vf^(-2/3). */
START_TEST(rise_of_many_sweeps_scales)
{
    bite_wall_heat_case heat_case = plastic();
    heat_case.feed_rate = 5.0;
    heat_case.feed_real = 1e-8;
    double base = bite_wall_heat_wall(&heat_case).rise;
    bite_wall_heat_case other = heat_case;
    other.edge_energy *= 3.0;
    bite_assert_near(bite_wall_heat_wall(&other).rise / base, 3.0, 1e-12);
    other = heat_case;
    other.radius *= 2.0;
    other.width *= 2.0;
    bite_assert_near(bite_wall_heat_wall(&other).rise / base, cbrt(2.0), 0.01);
    other = heat_case;
    other.feed_rate *= 2.0;
    bite_assert_near(bite_wall_heat_wall(&other).rise / base, cbrt(2.0), 0.01);
    other.feed_real *= 2.0;
    bite_assert_near(bite_wall_heat_wall(&other).rise / base, pow(2.0, -2.0 / 3.0), 0.01);
}
END_TEST

/* Spring-back adds rubs, a coolant takes warmth; neither changes the sign of anything. A cooled
 * surface keeps 1/(1 + 0.886 + 0.121) of its rise at h sqrt(a t) = k. */
START_TEST(rubs_warm_and_coolant_cools)
{
    bite_wall_heat_case heat_case = plastic();
    double plain = bite_wall_heat_wall(&heat_case).rise;
    heat_case.spring_back = 1e-6;
    bite_wall_heat rubbed = bite_wall_heat_wall(&heat_case);
    ck_assert_double_ge(rubbed.rise, plain * (1.0 - 5e-4)); /* a few rubs come while it cools */
    bite_assert_near(rubbed.rubs, sqrt(2.0 * 1.6e-3 * 1e-6) / 50e-6, 1e-12);
    heat_case.spring_back = 200e-6;
    ck_assert_double_gt(bite_wall_heat_wall(&heat_case).rise, 1.1 * plain);
    heat_case.spring_back = 0.0;
    bite_wall_heat dry = bite_wall_heat_floor(&heat_case);
    heat_case.cooling = heat_case.conductivity / sqrt(heat_case.diffusivity * dry.dwell);
    bite_assert_near(bite_wall_heat_floor(&heat_case).rise, dry.rise / 2.007, 1e-12);
    double before = INFINITY;
    for (double cooling = 1.0; cooling < 1e6; cooling *= 3.0) {
        heat_case.cooling = cooling;
        double rise = bite_wall_heat_wall(&heat_case).rise;
        ck_assert(rise > 0.0 && rise < before);
        before = rise;
    }
}
END_TEST

/* The flash: a layer that takes all of it, and a half-space that is heated for the contact. */
START_TEST(flash_has_both_limits)
{
    bite_assert_near(bite_wall_heat_flash(372.0, 5e-6, 1.75e6, 1e-7, 1e-15),
                     372.0 / (1.75e6 * 5e-6), 1e-6);
    bite_assert_near(bite_wall_heat_flash(372.0, 1e-15, 1.75e6, 1e-7, 2e-6),
                     372.0 / (1.75e6 * 0.5 * sqrt(M_PI * 1e-7 * 2e-6)), 1e-6);
}
END_TEST

/* A chip of 100 K that is not cut again stays so with a constant heat capacity, and is 87.397 K
 * warm where that grows by 0.0033/K; full flutes add kappa of it, four times emptier ones 1/256. */
START_TEST(full_flutes_cut_chips_again)
{
    bite_recutting_case chips = {.rise = 100.0,
                                 .packing = 0.0,
                                 .again = 0.4,
                                 .cooling = 0.0,
                                 .chip = 50e-6,
                                 .turns = 300.0,
                                 .volumetric = 1.75e6,
                                 .warming = 0.0};
    ck_assert_double_eq(bite_recutting_rise(&chips), 100.0);
    chips.packing = 1.0;
    bite_assert_near(bite_recutting_rise(&chips), 140.0, 1e-12);
    chips.packing = 0.25;
    bite_assert_near(bite_recutting_rise(&chips), 100.0 + 40.0 / 256.0, 1e-12);
    chips.packing = 1.0;
    chips.cooling = 0.5 * 1.75e6 * 50e-6 * 300.0; /* half of what is added leaves in a turn */
    bite_assert_near(bite_recutting_rise(&chips), 120.0, 1e-12);
    chips.packing = 0.0;
    chips.warming = 0.0033;
    bite_assert_near(bite_recutting_rise(&chips), (sqrt(1.66) - 1.0) / 0.0033, 1e-12);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("wall heat");
    TCase *heat = tcase_create("wall heat");
    tcase_add_test(heat, less_time_needs_more_heat);
    tcase_add_test(heat, warm_stress_relaxes);
    tcase_add_test(heat, one_pulse_on_a_half_space);
    tcase_add_test(heat, rise_of_many_sweeps_scales);
    tcase_add_test(heat, rubs_warm_and_coolant_cools);
    tcase_add_test(heat, flash_has_both_limits);
    tcase_add_test(heat, full_flutes_cut_chips_again);
    suite_add_tcase(suite, heat);
    return bite_test_run(suite);
}
