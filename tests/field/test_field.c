/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The engine against public reports of cuts and recipes of everyday practice.
 *
 * With --report, prints the scores and a line for each case. As a test it asserts the scores that
 * the engine reaches today, so that a change cannot lower them unnoticed. README.md has the aims
 * and says which cases cannot be judged from settings.
 */
#include "tests/field/field_cases.h"
#include "tests/field/field_cures.h"
#include "tests/field/field_flips.h"
#include "tests/field/field_reliability.h"
#include "tests/field/field_scores.h"
#include "tests/field/report_cases.h"
#include "tests/field/report_scores.h"
#include "tests/support/support.h"
#include <stdio.h>
#include <string.h>

static void setup(void)
{
    field_open();
    field_judge_all();
}

static const field_selection reports = {0};
static const field_selection recipes = {.collection = FIELD_RECIPES};

static field_score recipes_of(field_material material)
{
    field_selection selection = {.collection = FIELD_RECIPES, .material = material};
    return field_score_of(selection);
}

static double not_clear(field_material material)
{
    field_score score = recipes_of(material);
    return score.ok - score.clear;
}

/* The scores of today; the aims are in README.md. */
START_TEST(everyday_recipes_score_as_well_as_before)
{
    field_score all = field_score_of(recipes);
    ck_assert_double_eq(all.ok, 23.0);
    ck_assert_double_eq(all.over + all.unknown, 0.0);
    ck_assert_double_ge(all.clear, 17.0);
    ck_assert_double_ge(recipes_of(FIELD_ACRYLIC).clear, 4.0);
    ck_assert_double_le(
        not_clear(FIELD_ACRYLIC) + not_clear(FIELD_PLASTIC) + not_clear(FIELD_ALUMINIUM), 2.0);
    int warned = 0;
    for (size_t i = 0; i < field_case_count; i++) {
        const field_case *report = &field_cases[i];
        ck_assert_msg(report->judged || report->collection != FIELD_RECIPES, "%s: %s", report->id,
                      report->why);
        warned += report->collection == FIELD_RECIPES && report->kind >= 0 &&
                  report->result.verdict != BITE_CLEAR;
    }
    ck_assert_int_ge(warned, 3); /* of 4 */
}
END_TEST

START_TEST(clean_reports_score_as_well_as_before)
{
    field_selection by_source = {.weighted = 1};
    field_selection acrylic = {.material = FIELD_ACRYLIC};
    field_score all = field_score_of(reports);
    field_score sources = field_score_of(by_source);
    ck_assert_double_eq(all.ok, 66.0);
    ck_assert_double_eq(all.unknown, 0.0);
    ck_assert_double_le(all.over, 2.0);
    ck_assert_double_le(sources.over / sources.ok, 0.04);
    ck_assert_double_ge(all.clear, 47.0);
    ck_assert_double_ge(field_score_of(acrylic).clear, 10.0); /* of 13 */
    ck_assert_double_le(all.hums, 0.10 * all.ok);
    ck_assert_double_le(field_over_at_limits(), 3.0);
}
END_TEST

START_TEST(troubles_are_seen_as_often_as_before)
{
    field_selection by_source = {.weighted = 1};
    field_score all = field_score_of(reports);
    field_score sources = field_score_of(by_source);
    ck_assert_double_eq(all.trouble, 20.0);
    ck_assert_double_ge(all.seen, 10.0);
    ck_assert_double_ge(all.warned, 11.0);
    ck_assert_double_ge(all.area, 0.80);
    ck_assert_double_ge(all.joint_area, 0.70);
    ck_assert_double_ge(sources.area, 0.78);
    ck_assert_double_ge(sources.joint_area, 0.67);
    int right = 0;
    int pairs = 0;
    for (size_t i = 0; i < field_flip_count; i++) {
        int judged = 0;
        right += field_flip_is_right(i, 0, &judged);
        pairs += judged;
    }
    ck_assert_int_eq(pairs, 18);
    ck_assert_int_ge(right, 12);
}
END_TEST

/* The higher the chance, the larger the share that went wrong: in three steps, for a bin of ten
 * cuts says little. */
START_TEST(cuts_with_a_higher_chance_go_wrong_more_often)
{
    static const int ends[] = {0, 2, 4, 5}; /* clear, tight, over */
    double before = 0.0;
    for (int step = 0; step < 3; step++) {
        field_bin sum = {0};
        for (int bin = ends[step]; bin < ends[step + 1]; bin++) {
            field_bin part = field_bin_of(bin, reports);
            sum.cases += part.cases;
            sum.wrong += part.wrong;
        }
        double share = sum.wrong / sum.cases;
        ck_assert_double_gt(share, before);
        before = share;
        if (step == 0) {
            ck_assert_double_le(share, 0.17);
        }
    }
    ck_assert_double_ge(before, 0.65);
}
END_TEST

/* Where choose --after puts what helped people. */
START_TEST(cures_are_proposed_as_early_as_before)
{
    field_cure_score tried = field_cure_score_of(1, 0);
    ck_assert_int_eq(tried.reports, 13);
    ck_assert_int_ge(tried.first, 7);
    ck_assert_int_ge(tried.first + tried.second + tried.third, 10);
    ck_assert_int_ge(tried.first + tried.second + tried.third + tried.cause, 11);
}
END_TEST

START_TEST(the_report_is_printed)
{
    field_report_scores();
    field_report_cures();
    field_report_cases();
    (void)fflush(stdout);
}
END_TEST

int main(int argc, char **argv)
{
    Suite *suite = suite_create("field");
    TCase *field = tcase_create("field");
    tcase_add_unchecked_fixture(field, setup, field_close);
    if (argc > 1 && strcmp(argv[1], "--report") == 0) {
        tcase_add_test(field, the_report_is_printed);
    } else {
        tcase_add_test(field, everyday_recipes_score_as_well_as_before);
        tcase_add_test(field, clean_reports_score_as_well_as_before);
        tcase_add_test(field, troubles_are_seen_as_often_as_before);
        tcase_add_test(field, cuts_with_a_higher_chance_go_wrong_more_often);
        tcase_add_test(field, cures_are_proposed_as_early_as_before);
    }
    tcase_set_timeout(field, 300);
    suite_add_tcase(suite, field);
    return bite_test_run(suite);
}
