/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Structures and arrays that a caller fills wrongly: one clear error that names the member, never a
 * crash. */
#include "tests/api/example_request.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

/* ---- choice ---- */

static void choice_refused(const bite_choice_options *options, bite_status wanted, const char *key)
{
    bite_error error = BITE_ERROR_INIT;
    bite_choice *choice = NULL;
    bite_status status = bite_choice_new(bite_example_request, options, &choice, &error);
    bite_assert_refused(status, wanted, &error, key);
    ck_assert_ptr_null(choice);
}

START_TEST(choice_refuses_bad_tools)
{
    const char *tools[3] = {"0.8mm", NULL, "1mm"};
    bite_choice_options options = bite_example_choice();
    options.tools = tools;
    options.tool_count = 3;
    choice_refused(&options, BITE_BAD_ARGUMENT, "tools");
    options.tool_count = SIZE_MAX;
    choice_refused(&options, BITE_BAD_ARGUMENT, "tools");
    options.tool_count = SIZE_MAX / 64;
    choice_refused(&options, BITE_BAD_ARGUMENT, "tools");
    options.tools = NULL;
    options.tool_count = 1;
    choice_refused(&options, BITE_BAD_ARGUMENT, "tools");
    options.tools = tools;
    tools[0] = "";
    choice_refused(&options, BITE_UNKNOWN_NAME, "");
    char *large = malloc(100000);
    ck_assert_ptr_nonnull(large);
    memset(large, '7', 99999);
    large[99999] = 0;
    tools[0] = large;
    bite_error error = BITE_ERROR_INIT;
    bite_choice *choice = NULL;
    ck_assert_int_ne(bite_choice_new(bite_example_request, &options, &choice, &error), BITE_OK);
    ck_assert_int_gt((int)strlen(error.message), 10);
    free(large);
}
END_TEST

START_TEST(choice_refuses_bad_steps)
{
    double steps[2] = {50.0, 100.0};
    bite_choice_options options = bite_example_choice();
    options.steps = steps;
    options.step_count = 2;
    for (size_t k = 0; k < BITE_HOSTILE_NUMBERS; k++) {
        steps[1] = bite_hostile_numbers[k];
        choice_refused(&options, BITE_OUT_OF_RANGE, "steps");
    }
    steps[1] = 100.0;
    options.step_count = SIZE_MAX / 8;
    choice_refused(&options, BITE_BAD_ARGUMENT, "steps");
    options.steps = NULL;
    options.step_count = 1;
    choice_refused(&options, BITE_BAD_ARGUMENT, "steps");
    options.steps = steps;
    options.step_count = 2;
    choice_refused(&options, BITE_BAD_ARGUMENT,
                   "spindle_speed"); /* good steps, but a speed was given */
}
END_TEST

START_TEST(choice_refuses_bad_members)
{
    for (size_t k = 0; k < BITE_HOSTILE_WORDS; k++) {
        bite_choice_options options = bite_example_choice();
        options.goal = bite_hostile_words[k];
        choice_refused(&options, BITE_BAD_ARGUMENT, "options");
        options = bite_example_choice();
        options.units = bite_hostile_words[k];
        choice_refused(&options, BITE_BAD_ARGUMENT, "options");
        options = bite_example_choice();
        options.effort = bite_hostile_words[k];
        choice_refused(&options, BITE_BAD_ARGUMENT, "options");
        options = bite_example_choice();
        options.struct_size = bite_hostile_words[k];
        choice_refused(&options, BITE_BAD_ARGUMENT, "options");
        options = bite_example_choice();
        options.draws = k == 0 ? 5 : (size_t)BITE_DRAWS_MAX + bite_hostile_words[k];
        choice_refused(&options, BITE_BAD_ARGUMENT, "draws");
    }
    for (size_t k = 0; k < BITE_HOSTILE_NUMBERS; k++) {
        bite_choice_options options = bite_example_choice();
        options.confidence = bite_hostile_numbers[k];
        if (options.confidence != 0.0) { /* the usual one */
            choice_refused(&options, BITE_BAD_ARGUMENT, "confidence");
        }
    }
    bite_choice_options options = bite_example_choice();
    bite_choice *choice = NULL;
    ck_assert_int_eq(bite_choice_new(NULL, &options, &choice, NULL), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_choice_new(bite_example_request, &options, NULL, NULL),
                     BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_choice_new(bite_example_request, &options, &choice, NULL), BITE_OK);
    bite_choice_free(choice);
}
END_TEST

/* ---- answer ---- */

START_TEST(answer_refuses_bad_draws_and_confidence)
{
    bite_answer *answer = NULL;
    for (size_t k = 0; k < BITE_HOSTILE_WORDS; k++) {
        bite_error error = BITE_ERROR_INIT;
        size_t draws = k == 0 ? 5 : (size_t)BITE_DRAWS_MAX + bite_hostile_words[k];
        bite_assert_refused(bite_answer_new(bite_example_request, draws, 0.95, &answer, &error),
                            BITE_BAD_ARGUMENT, &error, "draws");
    }
    for (size_t k = 0; k < BITE_HOSTILE_NUMBERS; k++) {
        bite_error error = BITE_ERROR_INIT;
        if (bite_hostile_numbers[k] == 0.0) { /* the usual confidence */
            continue;
        }
        bite_assert_refused(
            bite_answer_new(bite_example_request, 64, bite_hostile_numbers[k], &answer, &error),
            BITE_BAD_ARGUMENT, &error, "confidence");
        bite_assert_refused(bite_answer_new(bite_example_request, BITE_DRAWS_NONE,
                                            bite_hostile_numbers[k], &answer, &error),
                            BITE_BAD_ARGUMENT, &error, "confidence");
    }
    ck_assert_ptr_null(answer);
}
END_TEST

/* ---- window ---- */

static void window_refused(const bite_answer *answer, const bite_window_options *options,
                           bite_status wanted, const char *key)
{
    bite_error error = BITE_ERROR_INIT;
    bite_window *window = NULL;
    bite_status status = bite_window_new(answer, options, &window, &error);
    bite_assert_refused(status, wanted, &error, key);
    ck_assert_ptr_null(window);
}

START_TEST(window_refuses_bad_members)
{
    bite_answer *answer = bite_example_answer(BITE_DRAWS_NONE);
    for (size_t k = 0; k < BITE_HOSTILE_WORDS; k++) {
        uint32_t many = k == 0 ? 1 : k == 1 ? 402 : bite_hostile_words[k];
        bite_window_options options = bite_example_window();
        options.columns = many;
        window_refused(answer, &options, BITE_BAD_ARGUMENT, "options");
        options = bite_example_window();
        options.rows = many;
        window_refused(answer, &options, BITE_BAD_ARGUMENT, "options");
        options = bite_example_window();
        options.reserved = bite_hostile_words[k];
        window_refused(answer, &options, BITE_BAD_ARGUMENT, "options");
        options = bite_example_window();
        options.struct_size = bite_hostile_words[k];
        window_refused(answer, &options, BITE_BAD_ARGUMENT, "options");
    }
    for (size_t k = 1; k < BITE_HOSTILE_NUMBERS; k++) { /* NaN is the default end */
        for (int end = 0; end < 4; end++) {
            bite_window_options options = bite_example_window();
            double *ends[] = {&options.across_least, &options.across_most, &options.up_least,
                              &options.up_most};
            *ends[end] = bite_hostile_numbers[k];
            window_refused(answer, &options, BITE_OUT_OF_RANGE, "axis");
        }
    }
    bite_window_options options = bite_example_window();
    options.across = "";
    window_refused(answer, &options, BITE_UNKNOWN_NAME, "axis");
    options.across = options.up = "depth";
    window_refused(answer, &options, BITE_BAD_ARGUMENT, "axis");
    options = bite_example_window();
    bite_window *window = NULL;
    ck_assert_int_eq(bite_window_new(NULL, &options, &window, NULL), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_window_new(answer, &options, NULL, NULL), BITE_BAD_ARGUMENT);
    bite_answer_free(answer);
}
END_TEST

/* ---- job ---- */

static void job_refused(const bite_job_options *options, bite_status wanted, const char *key)
{
    char path[4096];
    bite_error error = BITE_ERROR_INIT;
    bite_job *job = NULL;
    bite_test_source(path, sizeof path, "tables/jobs/cover-lens.ini");
    bite_status status =
        bite_job_open(bite_example_library, path, options, NULL, NULL, &job, &error);
    bite_assert_refused(status, wanted, &error, key);
    ck_assert_ptr_null(job);
}

START_TEST(job_refuses_bad_members)
{
    for (size_t k = 0; k < BITE_HOSTILE_WORDS; k++) {
        bite_job_options options = bite_example_job();
        options.units = bite_hostile_words[k];
        job_refused(&options, BITE_BAD_ARGUMENT, "options");
        options = bite_example_job();
        options.units_given = bite_hostile_words[k];
        job_refused(&options, BITE_BAD_ARGUMENT, "options");
        options = bite_example_job();
        options.struct_size = bite_hostile_words[k];
        job_refused(&options, BITE_BAD_ARGUMENT, "options");
        options = bite_example_job();
        options.threads = k == 0 ? 17 : bite_hostile_words[k];
        job_refused(&options, BITE_OUT_OF_RANGE, "threads");
        options = bite_example_job();
        options.draws = k == 0 ? 5 : (size_t)BITE_DRAWS_MAX + bite_hostile_words[k];
        job_refused(&options, BITE_BAD_ARGUMENT, "draws");
    }
    for (size_t k = 0; k < BITE_HOSTILE_NUMBERS; k++) {
        bite_job_options options = bite_example_job();
        options.confidence = bite_hostile_numbers[k];
        if (options.confidence != 0.0) { /* the usual one */
            job_refused(&options, BITE_BAD_ARGUMENT, "confidence");
        }
    }
}
END_TEST

/* ---- library ---- */

static void *take(void *user, size_t size)
{
    (void)user;
    return malloc(size);
}

static void *resize(void *user, void *memory, size_t size)
{
    (void)user;
    return realloc(memory, size);
}

static void release(void *user, void *memory)
{
    (void)user;
    free(memory);
}

/* An allocator has three functions; each of the seven cases omits one or more. */
START_TEST(library_refuses_bad_members)
{
    for (int with = 0; with < 8; with++) {
        bite_allocator allocator = {with & 1 ? take : NULL, with & 2 ? resize : NULL,
                                    with & 4 ? release : NULL, NULL};
        bite_library_options options = {sizeof options, &allocator, bite_example_shop.families,
                                        bite_example_shop.tables};
        bite_library *opened = NULL;
        bite_error error = BITE_ERROR_INIT;
        bite_status status = bite_library_open(&options, &opened, &error);
        if (with == 7) {
            ck_assert_int_eq(status, BITE_OK);
        } else {
            bite_assert_refused(status, BITE_BAD_ARGUMENT, &error, "");
            ck_assert_ptr_null(opened);
        }
        bite_library_close(opened);
    }
    static const size_t sizes[] = {0, 1, sizeof(bite_library_options) - 1,
                                   sizeof(bite_library_options) + 1, SIZE_MAX};
    for (size_t k = 0; k < sizeof sizes / sizeof *sizes; k++) {
        bite_library_options options = {sizes[k], NULL, bite_example_shop.families,
                                        bite_example_shop.tables};
        bite_library *opened = NULL;
        bite_error error = BITE_ERROR_INIT;
        bite_assert_refused(bite_library_open(&options, &opened, &error), BITE_BAD_ARGUMENT, &error,
                            "");
    }
    bite_library_options options = {sizeof options, NULL, bite_example_shop.families,
                                    bite_example_shop.tables};
    ck_assert_int_eq(bite_library_open(&options, NULL, NULL), BITE_BAD_ARGUMENT);
}
END_TEST

/* An error structure of another size is not written; only its message is lost. */
START_TEST(error_of_another_size_is_not_written)
{
    for (size_t k = 0; k < BITE_HOSTILE_WORDS; k++) {
        bite_error error = BITE_ERROR_INIT;
        bite_answer *answer = NULL;
        error.struct_size = k == 0 ? (uint32_t)sizeof error - 1 : k == 1 ? 0 : (uint32_t)k;
        ck_assert_int_eq(bite_answer_new(NULL, 0, 0.95, &answer, &error), BITE_BAD_ARGUMENT);
        ck_assert_str_eq(error.message, "");
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("arguments");
    TCase *all = tcase_create("arguments");
    tcase_set_timeout(all, 240);
    tcase_add_unchecked_fixture(all, bite_example_open, bite_example_close);
    tcase_add_test(all, choice_refuses_bad_tools);
    tcase_add_test(all, choice_refuses_bad_steps);
    tcase_add_test(all, choice_refuses_bad_members);
    tcase_add_test(all, answer_refuses_bad_draws_and_confidence);
    tcase_add_test(all, window_refuses_bad_members);
    tcase_add_test(all, job_refuses_bad_members);
    tcase_add_test(all, library_refuses_bad_members);
    tcase_add_test(all, error_of_another_size_is_not_written);
    suite_add_tcase(suite, all);
    return bite_test_run(suite);
}
