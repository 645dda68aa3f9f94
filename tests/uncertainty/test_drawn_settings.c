/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Settings that were drawn predict others: exactly themselves, closely what is near them. */
#include "core/base/quantile.h"
#include "core/uncertainty/chances.h"
#include "core/uncertainty/drawn_settings.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

enum { DRAWS = 512, CUTS = 12 };
static const double allowed = 0.1;

static bite_checked_cut checked;
static bite_draw_set *set;
static bite_drawn_settings *drawn;

static bite_limit_rule usual_rule(void)
{
    bite_limit_rule rule = {allowed, {0}, {0}};
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        rule.capacity[i] = 1.0;
    }
    return rule;
}

static void open_cut(uint64_t *seed)
{
    bite_cut cut = bite_test_cut(seed);
    cut.tolerance = 40e-6;
    ck_assert_int_eq(bite_checked_cut_init(&cut, &checked, NULL), BITE_OK);
    const bite_spread spreads[] = {bite_test_spread_about(&checked.full, "pressure_t", 1.6),
                                   bite_test_spread_about(&checked.full, "edge_t", 1.6),
                                   bite_test_spread_about(&checked.full, "edge_radius", 1.8),
                                   bite_test_spread_about(&checked.full, "machine_stiffness", 2.0)};
    ck_assert_int_eq(
        bite_draw_set_new(bite_memory_default(), &checked, spreads, 4, DRAWS, 7, 1, &set, NULL),
        BITE_OK);
    ck_assert_int_eq(bite_drawn_settings_new(bite_memory_default(), set, &drawn, NULL), BITE_OK);
}

static void close_cut(void)
{
    bite_drawn_settings_free(drawn);
    bite_draw_set_free(set);
}

static bite_setting setting_of(double faster, double more_feed)
{
    const bite_cut *cut = &checked.full;
    bite_setting setting = {cut->spindle_speed * faster, cut->feed_rate * faster * more_feed,
                            cut->depth, (double)NAN};
    return setting;
}

static bite_estimate estimate_of(const bite_setting *setting)
{
    bite_estimate estimate;
    bite_draw_set_estimate(set, setting, 1, &estimate);
    return estimate;
}

/* Counted directly over all draws. Chatter of unmeasured modes counts where it is gross. */
static double quantile_by_draws(const bite_setting *setting)
{
    static double utilizations[BITE_LIMIT_COUNT * DRAWS];
    double worst[DRAWS] = {0.0};
    bite_estimate estimate = estimate_of(setting);
    uint8_t counts[BITE_LIMIT_COUNT];
    memcpy(counts, estimate.binds, sizeof counts);
    counts[BITE_LIMIT_CHATTER] = 1;
    ck_assert_int_eq(bite_draw_set_draw(set, setting, counts, 0, DRAWS, utilizations, NULL),
                     BITE_OK);
    int over = 0;
    for (size_t k = 0; k < DRAWS; k++) {
        over += utilizations[BITE_LIMIT_CHATTER * DRAWS + k] > 1.0;
    }
    counts[BITE_LIMIT_CHATTER] =
        estimate.binds[BITE_LIMIT_CHATTER] || (double)over >= bite_gross_chatter * (double)DRAWS;
    for (size_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        for (size_t k = 0; counts[i] && k < DRAWS; k++) {
            worst[k] = fmax(worst[k], utilizations[i * DRAWS + k]);
        }
    }
    return bite_quantile_select(worst, DRAWS, DRAWS - (size_t)ceil(allowed * DRAWS));
}

static void add(const bite_setting *setting)
{
    bite_estimate estimate = estimate_of(setting);
    ck_assert_int_eq(bite_drawn_settings_add(drawn, setting, &estimate, SIZE_MAX, NULL), BITE_OK);
}

static double predicted(const bite_setting *setting, const bite_limit_rule *rule)
{
    bite_estimate estimate = estimate_of(setting);
    return bite_drawn_settings_risk(drawn, setting, &estimate, rule, INFINITY).quantile;
}

START_TEST(drawn_setting_is_exact)
{
    uint64_t seed = 3;
    bite_limit_rule rule = usual_rule();
    for (int i = 0; i < CUTS; i++) {
        open_cut(&seed);
        const bite_setting settings[] = {setting_of(1.0, 1.0), setting_of(0.7, 1.4),
                                         setting_of(0.9, 0.5)};
        for (int k = 0; k < 3; k++) {
            add(&settings[k]);
        }
        for (int k = 0; k < 3; k++) {
            ck_assert_double_eq_tol(predicted(&settings[k], &rule) /
                                        quantile_by_draws(&settings[k]),
                                    1.0, 1e-6); /* ratios are kept as float */
        }
        close_cut();
    }
}
END_TEST

/* The reason why so few settings are drawn: a percent or two at the distance of a step of the grid,
 * while the best estimates alone are off by tens of percents. */
START_TEST(near_settings_are_predicted)
{
    uint64_t seed = 5;
    bite_limit_rule rule = usual_rule();
    double sum = 0.0;
    double sum_of_estimates = 0.0;
    int count = 0;
    for (int i = 0; i < CUTS; i++) {
        open_cut(&seed);
        bite_setting here = setting_of(1.0, 1.0);
        add(&here);
        for (int k = 0; k < 4; k++) {
            bite_setting near = setting_of(k & 1 ? 1.05 : 0.95, k & 2 ? 1.05 : 0.95);
            bite_estimate estimate = estimate_of(&near);
            double truth = quantile_by_draws(&near);
            double at_estimates = 0.0;
            for (int j = 0; j < BITE_LIMIT_COUNT; j++) {
                at_estimates =
                    fmax(at_estimates, estimate.binds[j] ? estimate.utilization[j] : 0.0);
            }
            sum += fabs(log(predicted(&near, &rule) / truth));
            sum_of_estimates += fabs(log(at_estimates / truth));
            count++;
        }
        close_cut();
    }
    printf("mean error of a prediction %.4f, of the best estimates %.4f\n", sum / count,
           sum_of_estimates / count);
    ck_assert_double_lt(sum / count, 0.02);
    ck_assert_double_gt(sum_of_estimates / count, 5.0 * sum / count);
}
END_TEST

/* Halfway between two drawn settings, the second one corrects what is predicted by the first. */
START_TEST(another_setting_corrects_a_prediction)
{
    uint64_t seed = 21;
    bite_limit_rule rule = usual_rule();
    double by_one = 0.0;
    double by_two = 0.0;
    for (int i = 0; i < 2 * CUTS; i++) {
        const double faster = i % 2 == 0 ? 1.0 : 0.5;
        open_cut(&seed);
        bite_setting here = setting_of(1.0, 1.0);
        bite_setting far = setting_of(faster, 2.0);
        bite_setting between = setting_of(sqrt(faster), sqrt(2.0));
        double truth = quantile_by_draws(&between);
        add(&here);
        by_one += fabs(log(predicted(&between, &rule) / truth));
        add(&far);
        by_two += fabs(log(predicted(&between, &rule) / truth));
        close_cut();
    }
    printf("mean error by one setting %.4f, by two %.4f\n", 0.5 * by_one / CUTS,
           0.5 * by_two / CUTS);
    ck_assert_double_lt(by_two, 0.5 * by_one);
}
END_TEST

/* Without draws a limit counts as it is; once drawn, its quantile is higher. */
START_TEST(nothing_drawn_is_the_best_estimate)
{
    uint64_t seed = 9;
    bite_limit_rule rule = usual_rule();
    open_cut(&seed);
    bite_setting here = setting_of(1.0, 1.0);
    bite_estimate estimate = estimate_of(&here);
    bite_setting_risk risk = bite_drawn_settings_risk(drawn, &here, &estimate, &rule, INFINITY);
    double most = 0.0;
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        most = fmax(most, estimate.binds[i] ? estimate.utilization[i] : 0.0);
    }
    ck_assert_double_eq_tol(risk.quantile, most, 1e-12);
    ck_assert(isinf(risk.distance));
    add(&here);
    risk = bite_drawn_settings_risk(drawn, &here, &estimate, &rule, INFINITY);
    ck_assert(risk.quantile > most);
    ck_assert(!(risk.distance > 0.0));
    close_cut();
}
END_TEST

/* Whatever is relaxed, what is hardly apart is predicted as what was drawn: the draws that decide
 * are the worst of the other limits. */
START_TEST(relaxed_limits_decide_nothing)
{
    uint64_t seed = 17;
    for (int i = 0; i < CUTS; i++) {
        open_cut(&seed);
        bite_setting here = setting_of(1.0, 1.0);
        bite_setting near = setting_of(1.0 + 1e-6, 1.0);
        bite_estimate estimate = estimate_of(&here);
        add(&here);
        for (int k = 0; k < BITE_LIMIT_COUNT; k++) {
            bite_limit_rule rule = usual_rule();
            rule.relaxed[k] = estimate.binds[k] ? 1e3 : 0.0;
            ck_assert_double_eq_tol(predicted(&near, &rule) / predicted(&here, &rule), 1.0, 1e-3);
        }
        close_cut();
    }
}
END_TEST

/* A relaxed limit counts at the best estimates over what is accepted; a larger capacity lowers the
 * quantile of a limit alone. */
START_TEST(rules_change_what_counts)
{
    uint64_t seed = 13;
    bite_limit_rule rule = usual_rule();
    bite_limit_risk limits[BITE_LIMIT_COUNT];
    bite_limit_risk wider[BITE_LIMIT_COUNT];
    open_cut(&seed);
    bite_setting here = setting_of(1.0, 1.0);
    bite_estimate estimate = estimate_of(&here);
    add(&here);
    bite_drawn_settings_limits(drawn, &here, &estimate, &rule, limits);
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        rule.capacity[i] = 2.0;
    }
    bite_drawn_settings_limits(drawn, &here, &estimate, &rule, wider);
    int bind = 0;
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        ck_assert_double_eq_tol(wider[i].quantile, 0.5 * limits[i].quantile, 1e-12);
        ck_assert(wider[i].chance <= limits[i].chance);
        bind += limits[i].quantile > 0.0;
    }
    ck_assert_int_gt(bind, 5);
    rule = usual_rule();
    double before = predicted(&here, &rule);
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        rule.relaxed[i] = 2.0 * estimate.utilization[i];
    }
    ck_assert_double_eq_tol(predicted(&here, &rule), 0.5, 1e-12);
    ck_assert(before > 0.0);
    close_cut();
}
END_TEST

/* More settings than are kept replace the oldest ones; the last ones stay exact. */
START_TEST(old_settings_are_replaced)
{
    uint64_t seed = 17;
    bite_limit_rule rule = usual_rule();
    open_cut(&seed);
    for (int i = 0; i < 150; i++) {
        bite_setting one = setting_of(0.5 + 0.004 * i, 1.0);
        add(&one);
        if (i % 30 == 29) {
            ck_assert_double_eq_tol(predicted(&one, &rule) / quantile_by_draws(&one), 1.0, 1e-6);
        }
    }
    close_cut();
}
END_TEST

/* What is drawn in two parts is what is drawn at once. */
START_TEST(more_draws_are_added)
{
    uint64_t seed = 21;
    bite_limit_rule rule = usual_rule();
    open_cut(&seed);
    bite_setting here = setting_of(0.8, 1.2);
    bite_estimate estimate = estimate_of(&here);
    ck_assert_int_eq(bite_drawn_settings_add(drawn, &here, &estimate, 128, NULL), BITE_OK);
    ck_assert_int_eq(bite_drawn_settings_add(drawn, &here, &estimate, SIZE_MAX, NULL), BITE_OK);
    ck_assert_double_eq_tol(predicted(&here, &rule) / quantile_by_draws(&here), 1.0, 1e-6);
    close_cut();
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("drawn settings");
    TCase *tests = tcase_create("drawn settings");
    tcase_add_test(tests, drawn_setting_is_exact);
    tcase_add_test(tests, near_settings_are_predicted);
    tcase_add_test(tests, another_setting_corrects_a_prediction);
    tcase_add_test(tests, nothing_drawn_is_the_best_estimate);
    tcase_add_test(tests, relaxed_limits_decide_nothing);
    tcase_add_test(tests, rules_change_what_counts);
    tcase_add_test(tests, old_settings_are_replaced);
    tcase_add_test(tests, more_draws_are_added);
    tcase_set_timeout(tests, 300);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
