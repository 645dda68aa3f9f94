/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Statistics of readings against certified and published results. */
#include "core/statistics/capability.h"
#include "core/statistics/conformity.h"
#include "core/statistics/gauge_study.h"
#include "core/statistics/moments.h"
#include "core/statistics/polynomial_fit.h"
#include "core/statistics/range_factors.h"
#include "core/statistics/variance_analysis.h"
#include "tests/statistics/reference_readings.h"
#include "tests/support/support.h"
#include <math.h>
#include <stdlib.h>

#define COUNT(list) (sizeof list / sizeof *list)

/* Agreement to so many digits of the expected number. */
static void same_to(double got, double expected, double digits)
{
    ck_assert_msg(fabs(got - expected) <= pow(10.0, -digits) * fabs(expected),
                  "%.17g instead of %.17g", got, expected);
}

/* NIST StRD, univariate: certified means and deviations are exact. A reading near 1e7 is rounded
 * to 1e-9 as it is read, which leaves eight digits of a deviation of 0.1. */
START_TEST(certified_moments)
{
    static const double accurate_1[] = {10000001.0, 10000003.0, 10000002.0};
    static const double around[] = {0.0, 1.2, 1000000.2, 10000000.2};
    static const double digits[] = {0.0, 14.0, 9.0, 8.0};
    bite_moments moments;
    bite_moments_of(accurate_1, COUNT(accurate_1), &moments);
    ck_assert_double_eq(moments.mean, 10000002.0);
    ck_assert_double_eq(moments.deviation, 1.0);
    for (size_t set = 1; set < COUNT(around); set++) { /* NumAcc2, 3 and 4 */
        double readings[1001];
        readings[0] = around[set];
        for (size_t i = 1; i < COUNT(readings); i++) {
            readings[i] = i % 2 == 1 ? around[set] - 0.1 : around[set] + 0.1;
        }
        bite_moments_of(readings, COUNT(readings), &moments);
        same_to(moments.mean, around[set], 15.0);
        same_to(moments.deviation, 0.1, digits[set]);
        ck_assert_double_eq(moments.least, around[set] - 0.1);
        ck_assert_double_eq(moments.most, around[set] + 0.1);
    }
}
END_TEST

START_TEST(few_readings_have_no_spread)
{
    static const double one[] = {3.0};
    bite_moments moments;
    bite_moments_of(one, 0, &moments);
    ck_assert(isnan(moments.mean) && isnan(moments.deviation));
    bite_moments_of(one, 1, &moments);
    ck_assert_double_eq(moments.mean, 3.0);
    ck_assert(isnan(moments.deviation));
}
END_TEST

START_TEST(certified_line)
{
    bite_polynomial_fit fit;
    ck_assert(bite_polynomial_fit_points(norris_x, norris_y, COUNT(norris_x), 1, &fit));
    same_to(fit.coefficient[0], -0.262323073774029, 12.0);
    same_to(fit.coefficient[1], 1.00211681802045, 14.0);
    same_to(fit.deviation[0], 0.232818234301152, 12.5);
    same_to(fit.deviation[1], 0.429796848199937e-3, 12.5);
    same_to(fit.residual, 0.884796396144373, 12.5);
    same_to(fit.explained, 0.999993745883712, 14.0);
}
END_TEST

START_TEST(certified_parabola)
{
    double load[COUNT(pontius_y)];
    bite_polynomial_fit fit;
    for (size_t i = 0; i < COUNT(load); i++) {
        load[i] = 150000.0 * (double)(i % 20 + 1);
    }
    ck_assert(bite_polynomial_fit_points(load, pontius_y, COUNT(load), 2, &fit));
    same_to(fit.coefficient[0], 0.673565789473684e-3, 11.0);
    same_to(fit.coefficient[1], 0.732059160401003e-6, 13.0);
    same_to(fit.coefficient[2], -0.316081871345029e-14, 11.5);
    same_to(fit.deviation[0], 0.107938612033077e-3, 12.0);
    same_to(fit.deviation[1], 0.157817399981659e-9, 12.0);
    same_to(fit.deviation[2], 0.486652849992036e-16, 12.0);
    same_to(fit.residual, 0.205177424076185e-3, 12.0);
    same_to(fit.explained, 0.999999900178537, 14.0);
}
END_TEST

START_TEST(points_that_decide_no_curve)
{
    static const double x[] = {1.0, 1.0, 2.0, 2.0};
    static const double y[] = {1.0, 2.0, 3.0, 5.0};
    bite_polynomial_fit fit;
    ck_assert(!bite_polynomial_fit_points(x, y, 4, 2, &fit)); /* two different x */
    ck_assert(!bite_polynomial_fit_points(x, y, 2, 1, &fit)); /* one */
    ck_assert(!bite_polynomial_fit_points(x, y, 1, 1, &fit));
    ck_assert(!bite_polynomial_fit_points(x, y, 4, 3, &fit));
    ck_assert(bite_polynomial_fit_points(x, y, 4, 1, &fit));
    same_to(fit.coefficient[1], 2.5, 14.0);
    ck_assert(bite_polynomial_fit_points(x, y, 4, 0, &fit)); /* the mean */
    same_to(fit.coefficient[0], 2.75, 14.0);
    same_to(fit.residual, sqrt(8.75 / 3.0), 14.0);
}
END_TEST

START_TEST(certified_one_way_analysis)
{
    static const size_t sizes[] = {5, 5, 5, 5, 5};
    bite_one_way result;
    ck_assert(bite_variance_one_way(silicon, sizes, COUNT(sizes), &result));
    same_to(result.between.squares, 0.0511462616, 11.0); /* 10 certified digits are known */
    same_to(result.within.squares, 0.21663656, 11.0);
    same_to(result.between.ratio, 1.18046237440255, 12.0);
    same_to(result.deviation, 0.104076068334656, 12.0);
    same_to(result.explained, 0.190999039051129, 12.0);
    ck_assert_uint_eq(result.between.freedom, 4);
    ck_assert_uint_eq(result.within.freedom, 20);
    ck_assert_double_eq_tol(result.between.chance, 0.349, 0.001);
    ck_assert(!bite_variance_one_way(silicon, sizes, 1, &result));
}
END_TEST

/* d2, d3, d2* and D4 as gauge studies print them (gagerandr.com, read: K1 0.5908, K2 0.5231, K3
 * 0.3146, D4 2.58). */
START_TEST(factors_of_ranges)
{
    ck_assert_double_eq_tol(1.0 / bite_range_mean(3), 0.5908, 5e-5);
    ck_assert_double_eq_tol(1.0 / bite_range_factor(3, 1), 0.5231, 5e-5);
    ck_assert_double_eq_tol(1.0 / bite_range_factor(10, 1), 0.3146, 5e-5);
    ck_assert_double_eq_tol(bite_range_limit(3), 2.58, 0.01);
    same_to(bite_range_mean(2), 2.0 / sqrt(M_PI), 12.0); /* exact: that of a half normal */
    same_to(bite_range_deviation(2), sqrt(2.0 - 4.0 / M_PI), 9.0);
    same_to(bite_range_mean(3), 3.0 / sqrt(M_PI), 12.0);
    ck_assert(isnan(bite_range_mean(1)) && isnan(bite_range_deviation(101)));
}
END_TEST

START_TEST(a_gauge_that_tells_no_parts_apart)
{
    bite_gauge_study study;
    ck_assert(bite_gauge_study_by_variance(gauge_without_parts, 3, 10, 3, 1.0, &study));
    ck_assert_double_eq_tol(study.analysis.first.squares, 1.80067e-4, 5e-10);
    ck_assert_double_eq_tol(study.analysis.second.squares, 2.011656e-3, 5e-10);
    ck_assert_double_eq_tol(study.analysis.interaction.squares, 6.033711e-3, 5e-10);
    ck_assert_double_eq_tol(study.analysis.error.squares, 2.3880667e-2, 5e-10);
    ck_assert_double_eq_tol(study.analysis.first.ratio, 0.269, 5e-4);
    ck_assert_double_eq_tol(study.analysis.second.ratio, 0.667, 5e-4);
    ck_assert_double_eq_tol(study.analysis.interaction.ratio, 0.842, 5e-4);
    ck_assert(study.interaction.estimate < 0.0 && study.persons.estimate < 0.0 &&
              study.parts.estimate < 0.0); /* shown as they are, counted as none */
    ck_assert_double_eq(study.parts.deviation, 0.0);
    ck_assert_double_eq(study.gauge.share, 1.0);
    ck_assert_uint_eq(study.categories, 0);
}
END_TEST

START_TEST(a_gauge_study_with_parts)
{
    bite_gauge_study study;
    ck_assert(bite_gauge_study_by_variance(gauge_with_parts, 3, 10, 3, 0.25, &study));
    ck_assert_int_eq(study.pooled, 1);
    ck_assert_double_eq_tol(100.0 * study.gauge.share, 27.86, 0.005);
    ck_assert_uint_eq(study.categories, 4);
    ck_assert(bite_gauge_study_by_ranges(gauge_with_parts, 3, 10, 3, &study));
    ck_assert_double_eq_tol(100.0 * study.gauge.share, 26.68, 0.005);
    ck_assert_uint_eq(study.categories, 5);
    ck_assert(!bite_gauge_study_by_ranges(gauge_with_parts, 1, 10, 3, &study));
    ck_assert(!bite_gauge_study_by_variance(gauge_with_parts, 3, 10, 1, 0.25, &study));
}
END_TEST

/* A normal number; the generator's state is the test's. */
static double normal(void)
{
    return sqrt(-2.0 * log(1.0 - drand48())) * cos(2.0 * M_PI * drand48());
}

/* The components of a simulated gauge come back, in the mean of many studies. */
START_TEST(components_of_a_simulated_gauge)
{
    enum { PERSONS = 3, PARTS = 6, TRIALS = 3, STUDIES = 4000 };
    double variance[4] = {0.0, 0.0, 0.0, 0.0};
    srand48(11);
    for (int k = 0; k < STUDIES; k++) {
        double readings[PERSONS * PARTS * TRIALS];
        double parts[PARTS];
        bite_gauge_study study;
        for (int j = 0; j < PARTS; j++) {
            parts[j] = 2.0 * normal();
        }
        for (int i = 0; i < PERSONS; i++) {
            double person = 0.7 * normal();
            for (int j = 0; j < PARTS; j++) {
                double both = 0.5 * normal();
                for (int t = 0; t < TRIALS; t++) {
                    readings[(i * PARTS + j) * TRIALS + t] =
                        1e4 + parts[j] + person + both + 0.3 * normal();
                }
            }
        }
        ck_assert(bite_gauge_study_by_variance(readings, PERSONS, PARTS, TRIALS, 1.0, &study));
        variance[0] += study.repeatability.estimate / STUDIES;
        variance[1] += study.interaction.estimate / STUDIES;
        variance[2] += study.persons.estimate / STUDIES;
        variance[3] += study.parts.estimate / STUDIES;
    }
    ck_assert_double_eq_tol(variance[0], 0.09, 0.002);
    ck_assert_double_eq_tol(variance[1], 0.25, 0.01);
    ck_assert_double_eq_tol(variance[2], 0.49, 0.04);
    ck_assert_double_eq_tol(variance[3], 4.0, 0.15);
}
END_TEST

START_TEST(capability_of_fifty_values)
{
    bite_capability capability;
    ck_assert(bite_capability_of(fifty, COUNT(fifty), 0.8, 2.4, 0.95, &capability));
    ck_assert_double_eq_tol(capability.mean, 1.5212, 5e-5);
    ck_assert_double_eq_tol(capability.overall, 0.132951, 5e-7);
    ck_assert_double_eq_tol(capability.pp.value, 2.00575, 5e-6);
    ck_assert_double_eq_tol(capability.ppk.value, 1.80818, 5e-6);
    ck_assert_double_eq_tol(capability.pp.low, 1.60957, 5e-6);
    ck_assert_double_eq_tol(capability.pp.high, 2.40113, 5e-6);
    ck_assert(capability.ppk.low < 1.80818 && capability.ppk.high > 1.80818);
    ck_assert(capability.cp.high - capability.cp.low > capability.pp.high - capability.pp.low);
}
END_TEST

/* NIST/SEMATECH e-Handbook 6.1.6 (memory) and a printed example (scribd 566886459, read). */
START_TEST(published_indices)
{
    ck_assert_double_eq_tol(bite_capability_spread(8.0, 20.0, 2.0), 1.0, 1e-15);
    ck_assert_double_eq_tol(bite_capability_nearest(8.0, 20.0, 16.0, 2.0), 0.6667, 5e-5);
    ck_assert_double_eq_tol(bite_capability_nearest(15.8, 16.2, 15.9, 0.1), 0.333, 5e-4);
    ck_assert_double_eq_tol(bite_capability_nearest((double)NAN, 20.0, 16.0, 2.0), 0.6667, 5e-5);
    ck_assert(isnan(bite_capability_spread((double)NAN, 20.0, 2.0)));
    ck_assert(isnan(bite_capability_nearest(8.0, 20.0, 16.0, 0.0)));
}
END_TEST

/* An interval of 95 % holds the true index in about so many samples. */
START_TEST(intervals_hold_the_true_index)
{
    enum { SAMPLES = 4000, SIZE = 30 };
    int held[3] = {0, 0, 0};
    srand48(5);
    for (int k = 0; k < SAMPLES; k++) {
        double readings[SIZE];
        bite_capability got;
        for (int i = 0; i < SIZE; i++) {
            readings[i] = normal();
        }
        ck_assert(bite_capability_of(readings, SIZE, -4.5, 4.0, 0.95, &got));
        held[0] += got.pp.low <= 8.5 / 6.0 && got.pp.high >= 8.5 / 6.0;
        held[1] += got.ppk.low <= 4.0 / 3.0 && got.ppk.high >= 4.0 / 3.0;
        held[2] += got.cp.low <= 8.5 / 6.0 && got.cp.high >= 8.5 / 6.0;
    }
    ck_assert_double_eq_tol((double)held[0] / SAMPLES, 0.95, 0.012);
    ck_assert_double_eq_tol((double)held[1] / SAMPLES, 0.95, 0.02); /* an approximation */
    ck_assert_double_eq_tol((double)held[2] / SAMPLES, 0.95, 0.02);
}
END_TEST

START_TEST(published_conformity)
{
    /* JCGM 106, 7.4: y = 13.6, u = 1.8, limits 12.5 and 16.3. */
    const bite_size_limits example = {12.5, 16.3};
    ck_assert_double_eq_tol(bite_conformity_chance(&example, 13.6, 1.8), 0.66263, 5e-6);
    /* 3.00 +- 0.05 with u = 0.005: accepted between 2.9582 and 3.0418. */
    const bite_size_limits limits = {2.95, 3.05};
    double guard = bite_conformity_guard(0.005, 0.95);
    ck_assert_double_eq_tol(2.95 + guard, 2.9582, 5e-5);
    ck_assert_double_eq_tol(bite_conformity_ratio(&limits, 0.005), 5.0, 1e-12);
    ck_assert_int_eq(bite_conformity_decide(&limits, 2.95 + guard + 1e-6, 0.005, 0.95),
                     BITE_DECISION_CONFORMS);
    ck_assert_int_eq(bite_conformity_decide(&limits, 2.95 + guard - 1e-6, 0.005, 0.95),
                     BITE_DECISION_NOT_PROVEN);
    ck_assert_int_eq(bite_conformity_decide(&limits, 2.95 - guard + 1e-6, 0.005, 0.95),
                     BITE_DECISION_NOT_PROVEN);
    ck_assert_int_eq(bite_conformity_decide(&limits, 2.95 - guard - 1e-6, 0.005, 0.95),
                     BITE_DECISION_DOES_NOT);
    const bite_size_limits most = {(double)NAN, 3.05};
    ck_assert_int_eq(bite_conformity_decide(&most, -1e6, 0.005, 0.95), BITE_DECISION_CONFORMS);
    ck_assert_int_eq(bite_conformity_decide(&most, 3.05, 0.0, 0.95), BITE_DECISION_CONFORMS);
    ck_assert_int_eq(bite_conformity_decide(&most, 3.0500001, 0.0, 0.95), BITE_DECISION_DOES_NOT);
    /* limits that the gauge cannot separate prove nothing */
    const bite_size_limits near = {2.999, 3.001};
    ck_assert_int_eq(bite_conformity_decide(&near, 3.0, 0.005, 0.95), BITE_DECISION_NOT_PROVEN);
}
END_TEST

/* JCGM 106, 9.5.4 (figures read in sandialabs/suncal@d44c2cc1): sizes of gamma(4, 1/4), upper limit
 * 2, u 0.25: 4.238 % outside, false accepts 0.80 %; 0.1 % with a guard band of 0.3282. */
START_TEST(published_risk)
{
    const bite_prior prior = {BITE_PRIOR_GAMMA, 4.0, 0.25};
    const bite_size_limits limits = {(double)NAN, 2.0};
    bite_conformity_risk risk;
    ck_assert(bite_conformity_risk_of(&prior, &limits, 0.25, 0.0, &risk));
    ck_assert_double_eq_tol(100.0 * risk.outside, 4.238, 5e-4);
    ck_assert_double_eq_tol(100.0 * risk.false_accept, 0.80, 5e-3);
    ck_assert_double_eq_tol(bite_conformity_guard_for(&prior, &limits, 0.25, 1e-3), 0.3282, 5e-5);
}
END_TEST

/* Counted by simulation; and the four chances fit together. */
START_TEST(risks_are_those_of_counted_parts)
{
    enum { TRIALS = 400000 };
    const bite_prior prior = {BITE_PRIOR_NORMAL, 3.01, 0.03};
    const bite_size_limits limits = {2.95, 3.05};
    const double uncertainty = 0.01;
    const double guard = 0.008;
    double outside = 0.0;
    double accepted_outside = 0.0;
    double rejected_inside = 0.0;
    bite_conformity_risk risk;
    srand48(3);
    for (int i = 0; i < TRIALS; i++) {
        double size = 3.01 + 0.03 * normal();
        double reading = size + uncertainty * normal();
        int in = size >= limits.lower && size <= limits.upper;
        int taken = reading >= limits.lower + guard && reading <= limits.upper - guard;
        outside += !in;
        accepted_outside += !in && taken;
        rejected_inside += in && !taken;
    }
    ck_assert(bite_conformity_risk_of(&prior, &limits, uncertainty, guard, &risk));
    ck_assert_double_eq_tol(risk.outside, outside / TRIALS, 0.002);
    ck_assert_double_eq_tol(risk.false_accept, accepted_outside / TRIALS, 0.0005);
    ck_assert_double_eq_tol(risk.false_reject, rejected_inside / TRIALS, 0.002);
    ck_assert_double_eq_tol(risk.accepted - risk.false_accept + risk.false_reject + risk.outside,
                            1.0, 1e-9);
    ck_assert(!bite_conformity_risk_of(&prior, &limits, 0.0, guard, &risk));
    ck_assert(bite_conformity_risk_of(&prior, &limits, uncertainty, 0.06, &risk));
    ck_assert_double_eq(risk.accepted, 0.0); /* the guard bands meet */
}
END_TEST

static Suite *statistics_suite(void)
{
    Suite *suite = suite_create("statistics");
    TCase *all = tcase_create("all");
    tcase_set_timeout(all, 60);
    tcase_add_test(all, certified_moments);
    tcase_add_test(all, few_readings_have_no_spread);
    tcase_add_test(all, certified_line);
    tcase_add_test(all, certified_parabola);
    tcase_add_test(all, points_that_decide_no_curve);
    tcase_add_test(all, certified_one_way_analysis);
    tcase_add_test(all, factors_of_ranges);
    tcase_add_test(all, a_gauge_that_tells_no_parts_apart);
    tcase_add_test(all, a_gauge_study_with_parts);
    tcase_add_test(all, components_of_a_simulated_gauge);
    tcase_add_test(all, capability_of_fifty_values);
    tcase_add_test(all, published_indices);
    tcase_add_test(all, intervals_hold_the_true_index);
    tcase_add_test(all, published_conformity);
    tcase_add_test(all, published_risk);
    tcase_add_test(all, risks_are_those_of_counted_parts);
    suite_add_tcase(suite, all);
    return suite;
}

int main(void)
{
    return bite_test_run(statistics_suite());
}
