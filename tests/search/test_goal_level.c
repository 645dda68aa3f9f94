/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The levels at which goals count as met, and what is chosen of that which meets them. */
#include "core/search/goal.h"
#include "core/search/pass_counts.h"
#include "tests/search/search_problem.h"
#include "tests/support/open_library.h"
#include "tests/support/test_cuts.h"
#include <math.h>

enum { INPUTS = 8, DRAWS = 64 };

static void solve(const bite_search_problem *problem, bite_solution *found)
{
    ck_assert_int_eq(bite_problem_solve(problem, 1.0, found, NULL), BITE_OK);
}

/* Cool: half of the way to softening; what does not soften warm to the hand, 20 K, but soft metals
 * below their ageing, 100 K, and hard ones below the colour of heat, 200 K. */
START_TEST(cool_is_so_many_kelvins)
{
    static const struct {
        search_input inputs[INPUTS];
        double level; /* K; 0: half of the way to softening */
    } cases[] = {
        {{{"material", "304"}, {"tool", "6mm"}, {"depth", "0.2mm"}}, 200.0},
        {{{"material", "6061"}, {"tool", "6mm"}, {"depth", "0.2mm"}}, 100.0},
        {{{"material", "brass"}, {"tool", "6mm"}, {"depth", "0.2mm"}}, 100.0},
        {{{"material", "graphite"}, {"tool", "3mm"}, {"depth", "0.2mm"}}, 20.0},
        {{{"material", "acrylic/cast"}, {"tool", "3mm"}, {"depth", "0.2mm"}}, 0.0},
    };
    bite_search_problem *problem =
        search_problem_of(BITE_GOAL_COOL, cases[_i].inputs, INPUTS, DRAWS);
    bite_solution found;
    solve(problem, &found);
    if (cases[_i].level > 0.0) {
        bite_assert_near(found.wish.level, found.excess * cases[_i].level, 1e-9);
    } else { /* of the way at the least feed and the fastest speed, where it is shortest */
        ck_assert_double_le(found.wish.level, 0.5 * found.point.soft);
        ck_assert_double_ge(found.wish.level, 0.45 * found.point.soft);
    }
    ck_assert(found.point.soft > 0.0 || cases[_i].level > 0.0);
    ck_assert_double_le(found.point.burden, 1.0);
    ck_assert_double_le(found.point.goal, found.wish.level * (1.0 + 1e-9));
    search_problem_free(problem);
}
END_TEST

/* Gentle: at most four fifths of every limit, whichever has the least room; fine: half of the
 * tolerance; fast: no level. */
START_TEST(other_goals)
{
    static const search_input inputs[INPUTS] = {
        {"material", "6061"}, {"tool", "6mm"}, {"depth", "0.5mm"}, {"machine", "small-vmc"}};
    static const struct {
        uint32_t goal;
        double quantile;
        double level;
    } cases[] = {{BITE_GOAL_GENTLE, 0.8, INFINITY},
                 {BITE_GOAL_FINE, 1.0, 0.5},
                 {BITE_GOAL_FAST, 1.0, INFINITY}};
    double cost[3];
    for (int i = 0; i < 3; i++) {
        bite_search_problem *problem = search_problem_of(cases[i].goal, inputs, INPUTS, DRAWS);
        bite_solution found;
        solve(problem, &found);
        ck_assert_double_eq(found.excess, 1.0);
        bite_assert_near(found.wish.quantile, cases[i].quantile, 1e-12);
        ck_assert(isinf(cases[i].level) ? isinf(found.wish.level)
                                        : found.wish.level == cases[i].level);
        ck_assert_double_le(found.point.burden, 1.0);
        ck_assert(found.clear && found.relaxed == 0);
        cost[i] = found.point.cost;
        search_problem_free(problem);
    }
    ck_assert_double_gt(cost[0], cost[2]); /* the fast one is the fastest */
    ck_assert_double_ge(cost[1], cost[2]);
}
END_TEST

/* A goal that nothing meets is met as nearly as it can be: 10 % above the least at most. */
START_TEST(a_goal_that_cannot_be_met)
{
    static const search_input inputs[INPUTS] = {
        {"material", "acrylic/cast"}, {"tool", "3mm"}, {"depth", "2mm"}, {"tolerance", "0.01mm"}};
    bite_search_problem *problem = search_problem_of(BITE_GOAL_FINE, inputs, INPUTS, DRAWS);
    bite_solution found;
    solve(problem, &found);
    ck_assert(!found.clear);
    ck_assert_double_gt(found.excess, 1.0);
    ck_assert_double_le(found.point.goal, found.wish.level * (1.0 + 1e-9));
    bite_assert_near(found.wish.level, 0.5 * found.excess, 1e-12);
    bite_wish lower = found.wish;
    bite_point point;
    lower.level /= 1.12;
    ck_assert_int_eq(bite_search_everywhere(&lower, &point, NULL), BITE_OK);
    ck_assert_double_gt(point.burden, 1.0); /* that much less cannot be met */
    search_problem_free(problem);
}
END_TEST

/* A pass of a job may use a share of the allowed chance, here a quarter: free settings are found
 * within it. Settings that are given and exceed a limit in 6 % of the draws are clear by
 * themselves, so they are taken with all of the chance. */
START_TEST(a_share_of_the_chance_is_used_where_it_can_be)
{
    static const struct {
        search_input inputs[INPUTS];
        double allowed;
    } cases[] = {
        {{{"material", "6061"}, {"tool", "6mm"}, {"depth", "0.5mm"}, {"machine", "small-vmc"}},
         0.025},
        {{{"material", "6061"},
          {"tool", "6mm"},
          {"depth", "0.5mm"},
          {"machine", "small-vmc"},
          {"spindle_speed", "10000rpm"},
          {"feed_rate", "2800mm/min"}},
         0.1},
    };
    for (int i = 0; i < 2; i++) {
        bite_search_problem *problem =
            search_problem_of(BITE_GOAL_FAST, cases[i].inputs, INPUTS, 512);
        bite_solution found;
        problem->request.chance_share = 0.25;
        solve(problem, &found);
        bite_assert_near(found.rule.allowed, cases[i].allowed, 1e-12);
        ck_assert_double_le(found.point.burden, 1.0);
        ck_assert(found.clear);
        search_problem_free(problem);
    }
}
END_TEST

/* Where nothing is within its limits and relaxing some of them does not help, no limit stays
 * relaxed: the point is among the least burdened at the highest chance that is still tight, 0.47,
 * and it does not differ from that by more than what is given for speed (3 %) and what two searches
 * differ by (2 %). */
START_TEST(what_does_not_help_is_not_relaxed)
{
    static const search_input cases[][INPUTS] = {
        {{"material", "6061"}, {"tool", "6mm"}, {"depth", "9mm"}},
        {{"material", "304"}, {"tool", "1mm"}, {"depth", "1.5mm"}},
        {{"material", "304"}, {"tool", "3mm"}, {"depth", "1.5mm"}, {"tolerance", "0.01mm"}},
    };
    bite_search_problem *problem = search_problem_of(BITE_GOAL_FAST, cases[_i], INPUTS, DRAWS);
    bite_solution found;
    solve(problem, &found);
    ck_assert_double_gt(found.point.burden, 1.0);
    ck_assert(!found.clear && found.relaxed == 0);
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        ck_assert_double_eq(found.rule.relaxed[i], problem->rule.relaxed[i]);
    }
    bite_wish least = search_wish_of(problem, INFINITY, bite_far_beyond);
    bite_limit_rule rule = problem->rule;
    bite_point point;
    rule.allowed = 0.47;
    least.rule = &rule;
    ck_assert_int_eq(bite_search_everywhere(&least, &point, NULL), BITE_OK);
    ck_assert_double_le(found.point.burden, 1.03 * 1.02 * point.burden);
    search_problem_free(problem);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("goal level");
    TCase *tests = tcase_create("goal level");
    tcase_add_unchecked_fixture(tests, open_library, close_library);
    tcase_add_loop_test(tests, cool_is_so_many_kelvins, 0, 5);
    tcase_add_test(tests, other_goals);
    tcase_add_test(tests, a_share_of_the_chance_is_used_where_it_can_be);
    tcase_add_test(tests, a_goal_that_cannot_be_met);
    tcase_add_loop_test(tests, what_does_not_help_is_not_relaxed, 0, 3);
    tcase_set_timeout(tests, 120);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
