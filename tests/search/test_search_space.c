/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the search may vary, and how far, worked by hand. */
#include "tests/search/search_problem.h"
#include "tests/support/open_library.h"
#include "tests/support/test_cuts.h"
#include <math.h>

/* Feeds for each tooth from 1/2000 of the diameter to the largest that shops run: 6 mm mills 0.05 x
 * 6 mm in plastics, 0.03 x 6 in metals, half of that in stainless steel; a side cut of a tenth of
 * the diameter thins the chip, 0.5/sqrt(0.1 x 0.9) = 1.6667 times as much, one of a hundredth twice
 * as much at most. A drill of 3 mm 0.003 to 0.03 diameters in a turn of two lips, whatever the
 * metal.
 */
START_TEST(feeds_reach_as_far_as_practice)
{
    static const struct {
        search_input words[6];
        double least; /* mm */
        double most;
    } cases[] = {
        {{{"material", "acetal"}, {"tool", "6mm"}, {"depth", "1mm"}}, 0.003, 0.30},
        {{{"material", "aluminium/6061-T6"}, {"tool", "6mm"}, {"depth", "1mm"}}, 0.003, 0.18},
        {{{"material", "stainless/304"}, {"tool", "6mm"}, {"depth", "1mm"}}, 0.003, 0.09},
        {{{"material", "aluminium/6061-T6"}, {"tool", "6mm"}, {"depth", "1mm"}, {"width", "0.6mm"}},
         0.003,
         0.30},
        {{{"material", "aluminium/6061-T6"},
          {"tool", "6mm"},
          {"depth", "1mm"},
          {"width", "0.06mm"}},
         0.003,
         0.36},
        {{{"material", "aluminium/6061-T6"},
          {"tool", "drill-3"},
          {"operation", "drill"},
          {"depth", "3mm"}},
         0.0045,
         0.045},
        {{{"material", "stainless/304"},
          {"tool", "drill-3"},
          {"operation", "drill"},
          {"depth", "3mm"}},
         0.0045,
         0.045},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        bite_search_problem *problem = search_problem_of(BITE_GOAL_FAST, cases[i].words, 6, 0);
        bite_assert_near(1e3 * problem->tooth[0], cases[i].least, 1e-9);
        bite_assert_near(1e3 * problem->tooth[1], cases[i].most, 1e-9);
        ck_assert(isnan(problem->feed));
        ck_assert_double_gt(problem->spindle[1], problem->spindle[0]);
        search_problem_free(problem);
    }
}
END_TEST

/* A feature of 10 mm by 8 mm with a tool of 6 mm: one pass over 10 mm if the flutes reach, else
 * more; two side by side. What is given stays: 4 mm are 3 passes, 3 mm of width are 3. */
START_TEST(passes_follow_the_feature)
{
    static const search_input open[] = {{"material", "acetal"},
                                        {"tool", "6mm"},
                                        {"feature_depth", "10mm"},
                                        {"feature_width", "8mm"}};
    static const search_input fixed[] = {{"material", "acetal"},    {"tool", "6mm"},
                                         {"feature_depth", "10mm"}, {"depth", "4mm"},
                                         {"feature_width", "8mm"},  {"width", "3mm"}};
    bite_search_problem *problem = search_problem_of(BITE_GOAL_FAST, open, 4, 0);
    double reach = fmin(problem->full.flute_length, problem->full.stickout);
    bite_assert_near(problem->down.whole, 10e-3, 1e-12);
    ck_assert_uint_eq(problem->down.fewest, (uint32_t)ceil(10e-3 / reach));
    bite_assert_near(problem->across.whole, 8e-3, 1e-12);
    ck_assert_uint_eq(problem->across.fewest, 2);
    ck_assert(bite_pass_count_allows(&problem->across, 2));
    ck_assert(!bite_pass_count_allows(&problem->across, 1));
    ck_assert(bite_pass_count_allows(&problem->across, 5));
    ck_assert_uint_eq(bite_pass_count_least(&problem->across), 2);
    bite_setting setting = bite_problem_setting(problem, 3, 4, 100.0, 0.01);
    bite_assert_near(setting.depth, 3.335e-3, 1e-9); /* 3.3333 mm, in steps of 0.005 mm, up */
    bite_assert_near(setting.width, 2e-3, 1e-12);
    search_problem_free(problem);
    problem = search_problem_of(BITE_GOAL_FAST, fixed, 6, 0);
    ck_assert(isnan(problem->down.whole) && isnan(problem->across.whole));
    ck_assert_uint_eq(problem->down.given, 3);
    ck_assert_uint_eq(problem->across.given, 3);
    ck_assert_uint_eq(bite_pass_count_least(&problem->down), 3);
    ck_assert(bite_pass_count_allows(&problem->down, 3));
    ck_assert(!bite_pass_count_allows(&problem->down, 4));
    setting = bite_problem_setting(problem, 3, 3, 100.0, 0.01);
    bite_assert_near(setting.depth, 4e-3, 1e-12);
    ck_assert(isnan(setting.width));
    search_problem_free(problem);
}
END_TEST

/* Of tools that are all over, and certain to be, that which is the least over: the stated settings
 * are far too much for either, so that the thicker one is, whichever is named first. */
START_TEST(of_hopeless_tools_the_least_hopeless)
{
    static const char *const tools[] = {"1mm", "3mm"};
    for (size_t first = 0; first < 2; first++) {
        search_request made;
        search_request_begin(BITE_GOAL_FAST, &made);
        search_request_put(&made, "material", "stainless/304");
        search_request_put(&made, "depth", "3mm");
        search_request_put(&made, "spindle_speed", "24000rpm");
        search_request_put(&made, "feed_rate", "6000mm/min");
        search_request_put_tool(&made, tools[first]);
        search_request_put_tool(&made, tools[1 - first]);
        bite_choice *choice = search_request_choose(&made);
        const bite_result *result = bite_answer_result(bite_choice_answer(choice));
        ck_assert_uint_eq(result->verdict, BITE_OVER);
        ck_assert_double_gt(result->chance, 0.999);
        ck_assert_str_eq(bite_choice_tool(choice), "3mm");
        bite_choice_free(choice);
        search_request_end(&made);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("search space");
    TCase *tests = tcase_create("search space");
    tcase_add_unchecked_fixture(tests, open_library, close_library);
    tcase_add_test(tests, feeds_reach_as_far_as_practice);
    tcase_add_test(tests, passes_follow_the_feature);
    tcase_add_test(tests, of_hopeless_tools_the_least_hopeless);
    tcase_set_timeout(tests, 120);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
