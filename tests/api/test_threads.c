/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Threads speed up an answer, a choice and a window, and do not change a digit of them. */
#include "tests/support/open_library.h"
#include "tests/support/written_text.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

static bite_request *request_of(size_t threads, int settled)
{
    static const char *const typed[][2] = {
        {"stickout", "6mm"},           {"tolerance", "0.05mm"},    {"runout", "8um"},
        {"spindle_speed", "12000rpm"}, {"feed_rate", "200mm/min"}, {"depth", "0.4mm"}};
    bite_request *request = NULL;
    ck_assert_int_eq(bite_request_new(library, &request, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_GRADES, "acrylic/cast", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_MACHINES, "bench-24k", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_TOOLS, "0.8mm", NULL), BITE_OK);
    for (size_t i = 0; i < (settled ? 6 : 3); i++) {
        ck_assert_int_eq(bite_request_set(request, typed[i][0], typed[i][1], NULL), BITE_OK);
    }
    if (!settled) {
        ck_assert_int_eq(bite_request_set(request, "feature_depth", "0.9mm", NULL), BITE_OK);
    }
    ck_assert_int_eq(bite_request_threads(request, threads, NULL), BITE_OK);
    return request;
}

static bite_style json(void)
{
    bite_style style = {0};
    style.struct_size = (uint32_t)sizeof style;
    style.format = BITE_JSON;
    return style;
}

static bite_written_text answer_with(size_t threads, int window)
{
    bite_request *request = request_of(threads, 1);
    bite_answer *answer = NULL;
    bite_style style = json();
    bite_written_text text = {NULL, 0};
    ck_assert_int_eq(bite_answer_new(request, 1000, 0.95, &answer, NULL), BITE_OK);
    if (window) {
        bite_window_options options;
        bite_window_options_init(&options);
        options.columns = 9;
        options.rows = 7;
        bite_window *made = NULL;
        ck_assert_int_eq(bite_window_new(answer, &options, &made, NULL), BITE_OK);
        ck_assert_int_eq(bite_window_write(made, &style, bite_written_text_add, &text, NULL),
                         BITE_OK);
        bite_window_free(made);
    } else {
        ck_assert_int_eq(bite_answer_write(answer, &style, bite_written_text_add, &text, NULL),
                         BITE_OK);
    }
    bite_answer_free(answer);
    bite_request_free(request);
    return text;
}

static bite_written_text choice_with(size_t threads)
{
    bite_request *request = request_of(threads, 0);
    bite_choice *choice = NULL;
    bite_style style = json();
    bite_written_text text = {NULL, 0};
    bite_choice_options options;
    bite_choice_options_init(&options);
    options.goal = BITE_GOAL_COOL;
    options.draws = 512;
    options.confidence = 0.95;
    ck_assert_int_eq(bite_choice_new(request, &options, &choice, NULL), BITE_OK);
    ck_assert_int_eq(bite_choice_write(choice, &style, bite_written_text_add, &text, NULL),
                     BITE_OK);
    bite_choice_free(choice);
    bite_request_free(request);
    return text;
}

START_TEST(threads_change_no_digit)
{
    static const size_t threads[] = {2, 3, 16};
    bite_written_text alone = _i < 2 ? answer_with(1, _i) : choice_with(1);
    ck_assert_uint_gt(alone.size, 500);
    for (size_t i = 0; i < sizeof threads / sizeof *threads; i++) {
        bite_written_text many = _i < 2 ? answer_with(threads[i], _i) : choice_with(threads[i]);
        ck_assert_str_eq(alone.at, many.at);
        free(many.at);
    }
    free(alone.at);
}
END_TEST

START_TEST(bad_thread_counts_are_refused)
{
    bite_request *request = request_of(1, 1);
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_request_threads(request, 0, &error), BITE_OUT_OF_RANGE);
    ck_assert_str_eq(error.key, "threads");
    ck_assert_int_eq(bite_request_threads(request, 17, &error), BITE_OUT_OF_RANGE);
    ck_assert_int_eq(bite_request_threads(NULL, 1, &error), BITE_BAD_ARGUMENT);
    bite_request_free(request);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("threads");
    TCase *tests = tcase_create("all");
    tcase_set_timeout(tests, 120);
    tcase_add_unchecked_fixture(tests, open_library, close_library);
    tcase_add_loop_test(tests, threads_change_no_digit, 0, 3);
    tcase_add_test(tests, bad_thread_counts_are_refused);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
