/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Readings that do not vary, limits that are missing, and questions that have no answer. */
#include "core/statistics/capability.h"
#include "core/statistics/conformity.h"
#include "core/statistics/gauge_study.h"
#include "core/statistics/polynomial_fit.h"
#include "core/statistics/range_factors.h"
#include "core/statistics/variance_analysis.h"
#include "tests/support/support.h"
#include <limits.h>
#include <math.h>

#define NONE ((double)NAN)
#define COUNT(list) (sizeof list / sizeof *list)

START_TEST(a_capability_needs_spread_limits_and_a_confidence)
{
    static const double same[] = {2.0, 2.0, 2.0, 2.0};
    static const double two[] = {1.0, 3.0};
    const struct {
        size_t count;
        double lower;
        double upper;
        double confidence;
    } refused[] = {{1, 0.0, 4.0, 0.95},
                   {2, NONE, NONE, 0.95},
                   {2, 0.0, 4.0, 0.0},
                   {2, 0.0, 4.0, 1.0},
                   {2, 0.0, 4.0, NONE}};
    bite_capability got;
    for (size_t i = 0; i < COUNT(refused); i++) {
        ck_assert_msg(!bite_capability_of(two, refused[i].count, refused[i].lower, refused[i].upper,
                                          refused[i].confidence, &got),
                      "case %zu", i);
    }
    ck_assert(bite_capability_of(same, COUNT(same), 0.0, 4.0, 0.95, &got));
    ck_assert_double_eq(got.mean, 2.0);
    ck_assert_double_eq(got.within, 0.0);
    ck_assert_double_eq(got.overall, 0.0);
    const bite_capability_index *const all[] = {&got.cp, &got.cpk, &got.pp, &got.ppk};
    for (size_t i = 0; i < COUNT(all); i++) {
        ck_assert_double_nan(all[i]->value);
        ck_assert_double_nan(all[i]->low);
        ck_assert_double_nan(all[i]->high);
    }
    /* one limit: no spread between limits, but a distance from the one, of the mean 2 and the
     * deviation sqrt 2 */
    ck_assert(bite_capability_of(two, 2, NONE, 5.0, 0.95, &got));
    ck_assert_double_nan(got.pp.value);
    ck_assert_double_nan(got.pp.low);
    bite_assert_near(got.ppk.value, 3.0 / (3.0 * sqrt(2.0)), 1e-14);
    ck_assert(bite_capability_of(two, 2, -1.0, NONE, 0.95, &got));
    bite_assert_near(got.ppk.value, 3.0 / (3.0 * sqrt(2.0)), 1e-14);
}
END_TEST

/* Without uncertainty of the gauge a size lies within the limits or not, and any width is enough;
 * with one limit there is no width. */
START_TEST(an_exact_gauge_and_a_single_limit)
{
    const bite_size_limits both = {1.0, 2.0};
    const bite_size_limits least = {1.0, NONE};
    ck_assert(isinf(bite_conformity_ratio(&both, 0.0)));
    ck_assert_double_nan(bite_conformity_ratio(&least, 0.0));
    ck_assert_double_nan(bite_conformity_ratio(&least, 0.1));
    ck_assert_double_eq(bite_conformity_chance(&both, 1.0, 0.0), 1.0);
    ck_assert_double_eq(bite_conformity_chance(&both, 2.0 + 1e-12, 0.0), 0.0);
    ck_assert_double_eq(bite_conformity_chance(&both, 1.0 - 1e-12, 0.0), 0.0);
    ck_assert_double_eq_tol(bite_conformity_chance(&least, 1.0, 0.1), 0.5, 1e-15);
    ck_assert_int_eq(bite_conformity_decide(&least, 0.5, 0.0, 0.95), BITE_DECISION_DOES_NOT);
}
END_TEST

/* The posterior by Bayes, summed over sizes, against the closed form for normal priors. */
START_TEST(what_is_known_of_a_process_moves_the_chance)
{
    const bite_prior prior = {BITE_PRIOR_NORMAL, 3.01, 0.03};
    const bite_prior gamma = {BITE_PRIOR_GAMMA, 4.0, 0.25};
    const bite_size_limits limits = {2.95, 3.05};
    const double uncertainty = 0.02;
    const double readings[] = {2.94, 3.0, 3.05, 3.09};
    for (size_t i = 0; i < COUNT(readings); i++) {
        double inside = 0.0;
        double all = 0.0;
        for (double size = 2.7; size < 3.3; size += 1e-5) {
            double of_prior = (size - prior.first) / prior.second;
            double of_reading = (size - readings[i]) / uncertainty;
            double weight = exp(-0.5 * (of_prior * of_prior + of_reading * of_reading));
            all += weight;
            inside += size >= limits.lower && size <= limits.upper ? weight : 0.0;
        }
        ck_assert_double_eq_tol(
            bite_conformity_chance_known(&prior, &limits, readings[i], uncertainty), inside / all,
            1e-3);
    }
    ck_assert_double_nan(bite_conformity_chance_known(&gamma, &limits, 3.0, uncertainty));
}
END_TEST

/* Of an exponential distribution (a gamma of shape 1) each tail has a closed form. */
START_TEST(a_share_outside_either_limit)
{
    const bite_prior prior = {BITE_PRIOR_GAMMA, 1.0, 2.0};
    const bite_size_limits limits[] = {{0.5, NONE}, {NONE, 3.0}, {0.5, 3.0}, {-1.0, 3.0}};
    const double outside[] = {1.0 - exp(-0.25), exp(-1.5), 1.0 - exp(-0.25) + exp(-1.5), exp(-1.5)};
    const bite_prior normal = {BITE_PRIOR_NORMAL, 0.0, 1.0};
    const bite_size_limits lower = {-1.0, NONE};
    bite_conformity_risk risk;
    for (size_t i = 0; i < COUNT(limits); i++) {
        ck_assert(bite_conformity_risk_of(&prior, &limits[i], 0.1, 0.0, &risk));
        bite_assert_near(risk.outside, outside[i], 1e-12);
        ck_assert_double_eq_tol(
            risk.accepted - risk.false_accept + risk.false_reject + risk.outside, 1.0, 1e-9);
    }
    ck_assert(bite_conformity_risk_of(&normal, &lower, 0.1, 0.0, &risk));
    bite_assert_near(risk.outside, 0.5 * erfc(sqrt(0.5)), 1e-12);
}
END_TEST

START_TEST(a_risk_needs_a_process_an_uncertainty_and_limits)
{
    const struct {
        bite_prior prior;
        bite_size_limits limits;
        double uncertainty;
        double guard;
    } refused[] = {{{BITE_PRIOR_NORMAL, NONE, 1.0}, {-1.0, 1.0}, 0.1, 0.0},
                   {{BITE_PRIOR_NORMAL, 0.0, 0.0}, {-1.0, 1.0}, 0.1, 0.0},
                   {{BITE_PRIOR_NORMAL, 0.0, (double)INFINITY}, {-1.0, 1.0}, 0.1, 0.0},
                   {{BITE_PRIOR_GAMMA, 0.9, 1.0}, {-1.0, 1.0}, 0.1, 0.0},
                   {{BITE_PRIOR_GAMMA, (double)INFINITY, 1.0}, {-1.0, 1.0}, 0.1, 0.0},
                   {{BITE_PRIOR_NORMAL, 0.0, 1.0}, {NONE, NONE}, 0.1, 0.0},
                   {{BITE_PRIOR_NORMAL, 0.0, 1.0}, {1.0, -1.0}, 0.1, 0.0},
                   {{BITE_PRIOR_NORMAL, 0.0, 1.0}, {-1.0, 1.0}, 0.0, 0.0},
                   {{BITE_PRIOR_NORMAL, 0.0, 1.0}, {-1.0, 1.0}, (double)INFINITY, 0.0},
                   {{BITE_PRIOR_NORMAL, 0.0, 1.0}, {-1.0, 1.0}, 0.1, NONE}};
    for (size_t i = 0; i < COUNT(refused); i++) {
        bite_conformity_risk risk = {7.0, 7.0, 7.0, 7.0};
        ck_assert_msg(!bite_conformity_risk_of(&refused[i].prior, &refused[i].limits,
                                               refused[i].uncertainty, refused[i].guard, &risk),
                      "case %zu", i);
        ck_assert_double_eq(risk.outside, 7.0);
    }
    /* no guard band makes the risk larger than that of accepting nearly everything */
    const bite_prior prior = {BITE_PRIOR_NORMAL, 0.0, 1.0};
    const bite_size_limits limits = {-3.0, 3.0};
    ck_assert_double_nan(bite_conformity_guard_for(&prior, &limits, 0.1, 0.5));
    ck_assert_double_nan(bite_conformity_guard_for(&prior, &limits, 0.0, 1e-3));
    double guard = bite_conformity_guard_for(&prior, &limits, 0.1, 1e-4);
    bite_conformity_risk risk;
    ck_assert(bite_conformity_risk_of(&prior, &limits, 0.1, guard, &risk));
    bite_assert_near(risk.false_accept, 1e-4, 1e-4);
}
END_TEST

/* All readings the same: nothing varies, so nothing has a share. A gauge that repeats itself tells
 * any parts apart. */
START_TEST(a_gauge_that_repeats_itself)
{
    double same[2 * 3 * 2];
    double exact[2 * 3 * 2];
    for (size_t i = 0; i < COUNT(same); i++) {
        same[i] = 5.0;
        exact[i] = 5.0 + (double)(i / 2 % 3);
    }
    bite_gauge_study study;
    ck_assert(bite_gauge_study_by_variance(same, 2, 3, 2, 0.25, &study));
    ck_assert_double_eq(study.total.deviation, 0.0);
    ck_assert_double_nan(study.gauge.share);
    ck_assert_double_nan(study.analysis.interaction.ratio);
    ck_assert_uint_eq(study.categories, 0);
    ck_assert(bite_gauge_study_by_ranges(same, 2, 3, 2, &study));
    ck_assert_double_nan(study.parts.share);
    ck_assert_uint_eq(study.categories, 0);
    ck_assert(bite_gauge_study_by_variance(exact, 2, 3, 2, 0.25, &study));
    ck_assert_double_eq(study.gauge.share, 0.0);
    ck_assert_double_eq(study.parts.share, 1.0);
    ck_assert_double_eq(study.parts.estimate, 1.0);
    ck_assert_uint_eq(study.categories, UINT_MAX);
}
END_TEST

START_TEST(a_study_has_two_of_everything)
{
    static const double readings[16] = {0.0};
    static const size_t counts[][3] = {{1, 2, 2}, {2, 1, 2}, {2, 2, 1}};
    static const size_t most = BITE_RANGE_SIZE_MAX + 1;
    bite_two_way result;
    bite_gauge_study study;
    for (size_t i = 0; i < COUNT(counts); i++) {
        const size_t *of = counts[i];
        ck_assert(!bite_variance_two_way(readings, of[0], of[1], of[2], &result));
        ck_assert(!bite_gauge_study_by_variance(readings, of[0], of[1], of[2], 0.25, &study));
        ck_assert(!bite_gauge_study_by_ranges(readings, of[0], of[1], of[2], &study));
    }
    ck_assert(!bite_gauge_study_by_ranges(readings, most, 2, 2, &study));
    ck_assert(!bite_gauge_study_by_ranges(readings, 2, most, 2, &study));
    ck_assert(!bite_gauge_study_by_ranges(readings, 2, 2, most, &study));
    ck_assert_double_nan(bite_range_factor(2, 0));
}
END_TEST

START_TEST(groups_that_do_not_vary)
{
    static const size_t pairs[] = {2, 2};
    static const size_t single[] = {1, 1};
    static const double same[] = {3.0, 3.0, 3.0, 3.0};
    static const double apart[] = {1.0, 1.0, 3.0, 3.0};
    bite_one_way result;
    ck_assert(!bite_variance_one_way(same, single, 2, &result)); /* as many groups as readings */
    ck_assert(bite_variance_one_way(same, pairs, 2, &result));
    ck_assert_double_nan(result.explained);
    ck_assert_double_nan(result.between.ratio);
    ck_assert(bite_variance_one_way(apart, pairs, 2, &result));
    ck_assert_double_eq(result.explained, 1.0);
    ck_assert_double_eq(result.between.squares, 4.0);
    ck_assert_double_nan(result.between.ratio); /* against no variance within the groups */
    const bite_variance_row none = bite_variance_row_of(2.0, 0, 1.0, 4);
    ck_assert_double_nan(none.mean_square);
    ck_assert_double_nan(none.chance);
}
END_TEST

START_TEST(a_fit_through_each_point)
{
    static const double x[] = {1.0, 2.0, 4.0};
    static const double y[] = {1.0, 3.0, 3.0};
    static const double level[] = {2.0, 2.0, 2.0};
    bite_polynomial_fit fit;
    ck_assert(bite_polynomial_fit_points(x, y, 3, 2, &fit)); /* no freedom is left */
    ck_assert_double_nan(fit.residual);
    ck_assert_double_nan(fit.deviation[0]);
    for (size_t i = 0; i < COUNT(x); i++) {
        double at = fit.coefficient[0] + x[i] * (fit.coefficient[1] + x[i] * fit.coefficient[2]);
        ck_assert_double_eq_tol(at, y[i], 1e-13);
    }
    ck_assert(bite_polynomial_fit_points(x, level, 3, 1, &fit)); /* y does not vary */
    ck_assert_double_nan(fit.explained);
    ck_assert_double_eq(fit.coefficient[0], 2.0);
    ck_assert_double_eq(fit.coefficient[1], 0.0);
    ck_assert_double_eq(fit.residual, 0.0);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("unvaried_readings");
    TCase *tests = tcase_create("unvaried_readings");
    tcase_add_test(tests, a_capability_needs_spread_limits_and_a_confidence);
    tcase_add_test(tests, an_exact_gauge_and_a_single_limit);
    tcase_add_test(tests, what_is_known_of_a_process_moves_the_chance);
    tcase_add_test(tests, a_share_outside_either_limit);
    tcase_add_test(tests, a_risk_needs_a_process_an_uncertainty_and_limits);
    tcase_add_test(tests, a_gauge_that_repeats_itself);
    tcase_add_test(tests, a_study_has_two_of_everything);
    tcase_add_test(tests, groups_that_do_not_vary);
    tcase_add_test(tests, a_fit_through_each_point);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
