/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Weights of draws by observed cuts: against closed forms, and on cases whose answer is known. */
#include "core/uncertainty/observation_weights.h"
#include "core/uncertainty/sobol.h"
#include "tests/support/support.h"
#include <math.h>
#include <string.h>

#define DRAWS 1024
#define CUTS 40

static double values[DRAWS];
static double others[DRAWS];
static double exceeded[DRAWS * CUTS];
static double log_weights[DRAWS];
static double other_weights[DRAWS];
static double marginal[DRAWS];
static bite_weighted_value scratch[DRAWS];
static bite_observation observations[CUTS];

static bite_observation observation(size_t source, int trouble)
{
    bite_observation made = {source, trouble, 0.8, 0.1};
    return made;
}

static bite_observation_set set_of(size_t draws, size_t count, double within)
{
    bite_observation_set set = {observations, exceeded, draws, count, within};
    return set;
}

/* Two inputs that are level from 0 to 1. */
static void draw_values(void)
{
    bite_sobol sobol;
    uint32_t digits[BITE_SOBOL_DIMENSIONS];
    (void)bite_sobol_init(&sobol, 2, 7);
    for (size_t draw = 0; draw < DRAWS; draw++) {
        bite_sobol_digits(&sobol, digits);
        values[draw] = ldexp(digits[0] + 0.5, -BITE_SOBOL_DIGITS);
        others[draw] = ldexp(digits[1] + 0.5, -BITE_SOBOL_DIGITS);
    }
}

START_TEST(without_observations_all_weights_are_one)
{
    bite_observation_set set = set_of(DRAWS, 0, 0.5);
    ck_assert_int_eq(bite_observation_set_check(&set, NULL), BITE_OK);
    bite_observation_log_weights(&set, BITE_NO_SOURCE, log_weights);
    for (size_t draw = 0; draw < DRAWS; draw++) {
        ck_assert_double_eq(log_weights[draw], 0.0);
    }
    bite_assert_near(bite_effective_draws(log_weights, DRAWS), DRAWS, 1e-12);
}
END_TEST

/* One draw exceeds the limit, one does not, one in half of the cut's own draws. */
START_TEST(weights_are_the_chances_of_what_was_observed)
{
    static const double flags[] = {1.0, 0.0, 0.5};
    static const double trouble[] = {0.8, 0.1, 0.45};
    memcpy(exceeded, flags, sizeof flags);
    for (int wrong = 0; wrong < 2; wrong++) {
        observations[0] = observation(0, wrong);
        bite_observation_set set = set_of(3, 1, 0.5);
        double mean = wrong ? 1.35 / 3.0 : 1.65 / 3.0;
        bite_observation_log_weights(&set, BITE_NO_SOURCE, log_weights);
        bite_observation_likelihood(&set, 0, other_weights);
        double squares = 0.0;
        for (size_t draw = 0; draw < 3; draw++) {
            double chance = wrong ? trouble[draw] : 1.0 - trouble[draw];
            bite_assert_near(exp(log_weights[draw]), chance / mean, 1e-12);
            bite_assert_near(exp(other_weights[draw]), chance, 1e-12);
            squares += chance * chance;
        }
        bite_assert_near(bite_effective_draws(log_weights, 3), 9.0 * mean * mean / squares, 1e-12);
    }
}
END_TEST

/* The power of one source: n, 1, and between them n/(1 + (n - 1)/2). */
START_TEST(a_source_weighs_as_its_correlation_says)
{
    static const double within[] = {0.0, 1.0, 0.5};
    static const double power[] = {10.0, 1.0, 10.0 / 5.5};
    for (size_t i = 0; i < 10; i++) {
        observations[i] = observation(3, 0);
        exceeded[i] = 0.0;
        exceeded[10 + i] = 1.0;
    }
    for (size_t k = 0; k < 3; k++) {
        bite_observation_set set = set_of(2, 10, within[k]);
        bite_observation_log_weights(&set, BITE_NO_SOURCE, log_weights);
        bite_assert_near(log_weights[0] - log_weights[1], power[k] * log(0.9 / 0.2), 1e-12);
        bite_observation_log_weights(&set, 3, log_weights);
        ck_assert_double_eq(log_weights[0], log_weights[1]);
    }
}
END_TEST

START_TEST(sources_are_independent)
{
    observations[0] = observation(5, 0);
    observations[1] = observation(2, 1);
    observations[2] = observation(5, 1);
    for (size_t i = 0; i < 12; i++) {
        exceeded[i] = (double)(i % 5) / 5.0;
    }
    bite_observation_set set = set_of(4, 3, 0.7);
    double first[4];
    double second[4];
    bite_observation_log_weights(&set, BITE_NO_SOURCE, log_weights);
    bite_observation_likelihood(&set, 5, first);
    bite_observation_likelihood(&set, 2, second);
    bite_observation_likelihood(&set, 4, other_weights); /* no such source */
    for (size_t draw = 0; draw < 4; draw++) {
        ck_assert_double_eq_tol(log_weights[draw] - log_weights[0],
                                first[draw] + second[draw] - first[0] - second[0], 1e-12);
        ck_assert_double_eq(other_weights[draw], 0.0);
    }
}
END_TEST

START_TEST(quantiles_follow_the_weights)
{
    draw_values();
    for (size_t draw = 0; draw < DRAWS; draw++) {
        log_weights[draw] = 100.0;                       /* even */
        other_weights[draw] = 100.0 + log(values[draw]); /* a density of 2 x */
    }
    for (int i = 1; i < 20; i++) {
        double share = 0.05 * i;
        double even = bite_weighted_quantile(values, log_weights, DRAWS, share, scratch);
        double slope = bite_weighted_quantile(values, other_weights, DRAWS, share, scratch);
        ck_assert_double_eq_tol(even, share, 1e-3);
        ck_assert_double_eq_tol(slope, sqrt(share), 2e-3);
    }
    ck_assert_double_le(bite_weighted_quantile(values, log_weights, DRAWS, 0.0, scratch), 1e-3);
    ck_assert_double_ge(bite_weighted_quantile(values, log_weights, DRAWS, 1.0, scratch), 0.999);
}
END_TEST

/* Cut i exceeds its limit if the input is below i/CUTS; the truth is 0.7. */
static void observe_threshold(void)
{
    draw_values();
    for (size_t i = 0; i < CUTS; i++) {
        double least = ((double)i + 0.5) / CUTS;
        observations[i] = observation(i, least > 0.7);
        for (size_t draw = 0; draw < DRAWS; draw++) {
            exceeded[draw * CUTS + i] = values[draw] < least ? 1.0 : 0.0;
        }
    }
}

START_TEST(a_threshold_is_found_and_an_idle_input_keeps_its_prior)
{
    observe_threshold();
    bite_observation_set set = set_of(DRAWS, CUTS, 1.0);
    bite_observation_log_weights(&set, BITE_NO_SOURCE, log_weights);
    double low = bite_weighted_quantile(values, log_weights, DRAWS, 0.05, scratch);
    double high = bite_weighted_quantile(values, log_weights, DRAWS, 0.95, scratch);
    ck_assert_double_eq_tol(bite_weighted_quantile(values, log_weights, DRAWS, 0.5, scratch), 0.7,
                            0.02);
    ck_assert(low > 0.6 && low < 0.7 && high > 0.7 && high < 0.8);
    double effective = bite_effective_draws(log_weights, DRAWS);
    ck_assert(effective > 20.0 && effective < 0.2 * DRAWS);
    bite_marginal_log_weights(others, log_weights, DRAWS, 8, scratch, marginal);
    ck_assert_double_ge(bite_effective_draws(marginal, DRAWS), 0.97 * DRAWS);
    bite_marginal_log_weights(values, log_weights, DRAWS, 8, scratch, marginal);
    ck_assert_double_le(bite_effective_draws(marginal, DRAWS), 0.3 * DRAWS);
}
END_TEST

/* What was learned from the others forecasts a source that was left out better than the prior. */
START_TEST(sources_left_out_are_forecast_better)
{
    observe_threshold();
    bite_observation_set set = set_of(DRAWS, CUTS, 1.0);
    double gain = 0.0;
    memset(marginal, 0, sizeof marginal);
    for (size_t source = 0; source < CUTS; source++) {
        bite_observation_log_weights(&set, source, log_weights);
        bite_observation_likelihood(&set, source, other_weights);
        gain += bite_predictive_score(log_weights, other_weights, DRAWS) -
                bite_predictive_score(marginal, other_weights, DRAWS);
    }
    ck_assert_double_gt(gain, 0.2 * CUTS);
}
END_TEST

START_TEST(numbers_outside_their_range_are_refused)
{
    static const double wrong[] = {0.0, 1.0, -0.5, 2.0, (double)NAN};
    bite_error error = BITE_ERROR_INIT;
    exceeded[0] = 0.5;
    observations[0] = observation(0, 1);
    bite_observation_set set = set_of(1, 1, 0.5);
    ck_assert_int_eq(bite_observation_set_check(&set, &error), BITE_OK);
    ck_assert_int_eq(bite_observation_set_check(NULL, &error), BITE_BAD_ARGUMENT);
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        observations[0].detection = wrong[i];
        ck_assert_int_eq(bite_observation_set_check(&set, &error), BITE_BAD_ARGUMENT);
        observations[0] = observation(0, 1);
        observations[0].false_alarm = wrong[i];
        ck_assert_int_eq(bite_observation_set_check(&set, &error), BITE_BAD_ARGUMENT);
        observations[0] = observation(0, 1);
        exceeded[0] = wrong[i];
        int inside = wrong[i] >= 0.0 && wrong[i] <= 1.0;
        ck_assert_int_eq(bite_observation_set_check(&set, &error),
                         inside ? BITE_OK : BITE_BAD_ARGUMENT);
        exceeded[0] = 0.5;
        bite_observation_set other = set_of(1, 1, wrong[i]);
        ck_assert_int_eq(bite_observation_set_check(&other, &error),
                         inside ? BITE_OK : BITE_BAD_ARGUMENT);
    }
    set.draws = 0;
    ck_assert_int_eq(bite_observation_set_check(&set, &error), BITE_BAD_ARGUMENT);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("observation_weights");
    TCase *tests = tcase_create("all");
    tcase_add_test(tests, without_observations_all_weights_are_one);
    tcase_add_test(tests, weights_are_the_chances_of_what_was_observed);
    tcase_add_test(tests, a_source_weighs_as_its_correlation_says);
    tcase_add_test(tests, sources_are_independent);
    tcase_add_test(tests, quantiles_follow_the_weights);
    tcase_add_test(tests, a_threshold_is_found_and_an_idle_input_keeps_its_prior);
    tcase_add_test(tests, sources_left_out_are_forecast_better);
    tcase_add_test(tests, numbers_outside_their_range_are_refused);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
