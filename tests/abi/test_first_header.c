/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A program that was built with the first header runs with this library, and gets the answers that
 * one built with the present header gets. */
#include "tests/abi/first_calls.h"
#include "tests/api/example_request.h"
#include <math.h>
#include <string.h>

static void holds(const char *wrong)
{
    ck_assert_msg(wrong == NULL, "%s", wrong);
}

/* The same choice by the present header. */
static double removal_of(const bite_request *request, uint32_t goal, size_t *passes)
{
    bite_choice_options options;
    bite_choice *choice = NULL;
    bite_choice_options_init(&options);
    options.goal = goal;
    options.draws = 64;
    options.effort = BITE_EFFORT_QUICK;
    ck_assert_int_eq(bite_choice_new(request, &options, &choice, NULL), BITE_OK);
    double removal =
        bite_answer_result(bite_choice_answer(choice))->values[BITE_REMOVAL_RATE].value;
    *passes = bite_choice_passes(choice);
    bite_choice_free(choice);
    return removal;
}

START_TEST(cuts_are_judged)
{
    first_numbers numbers = {0};
    holds(first_cut(&numbers));
    ck_assert(numbers.power > 10.0 && numbers.power < 1000.0);
    ck_assert(numbers.chance >= 0.0 && numbers.chance <= 1.0);
    holds(first_refusals());
}
END_TEST

START_TEST(choices_have_the_goals_of_that_header)
{
    first_numbers numbers = {0};
    size_t passes = 0;
    bite_request *request = NULL;
    ck_assert_int_eq(bite_request_new(bite_example_library, &request, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_GRADES, "6061", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_TOOLS, "3mm", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "feature_depth", "3mm", NULL), BITE_OK);
    holds(first_choices(request, &numbers));
    ck_assert_double_eq(numbers.cooler, removal_of(request, BITE_GOAL_COOL, &passes));
    ck_assert_double_eq(numbers.faster, removal_of(request, BITE_GOAL_FAST, &passes));
    ck_assert_double_eq(numbers.usual, removal_of(request, BITE_GOAL_USUAL, &passes));
    ck_assert_uint_eq(numbers.passes, passes);
    bite_request_free(request);
}
END_TEST

START_TEST(requests_answers_and_windows_are_filled_to_its_sizes)
{
    first_numbers numbers = {0};
    bite_cut cut;
    holds(first_request(bite_example_request, &numbers));
    ck_assert_int_eq(bite_request_cut(bite_example_request, &cut, NULL), BITE_OK);
    ck_assert_double_eq(numbers.side, cut.feed_rate);
    holds(first_answer(bite_example_request));
    holds(first_library(bite_example_shop.families, bite_example_shop.tables));
}
END_TEST

START_TEST(jobs_are_planned_without_what_it_did_not_know)
{
    char path[4096];
    bite_test_source(path, sizeof path, "tables/jobs/cover-lens.ini");
    holds(first_job(bite_example_library, path));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("first header");
    TCase *all = tcase_create("first header");
    tcase_set_timeout(all, 240);
    tcase_add_unchecked_fixture(all, bite_example_open, bite_example_close);
    tcase_add_test(all, cuts_are_judged);
    tcase_add_test(all, choices_have_the_goals_of_that_header);
    tcase_add_test(all, requests_answers_and_windows_are_filled_to_its_sizes);
    tcase_add_test(all, jobs_are_planned_without_what_it_did_not_know);
    suite_add_tcase(suite, all);
    return bite_test_run(suite);
}
