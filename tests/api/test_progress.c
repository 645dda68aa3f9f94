/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Long calls say how far they are, and end when the caller asks: with BITE_STOPPED, with nothing
 * left behind, and never with an answer that was not finished. */
#include "tests/api/example_request.h"
#include <math.h>
#include <string.h>

#define ROWS 3000

/* What a caller heard. */
typedef struct listener {
    uint64_t calls;
    uint64_t stop_at; /* the call that stops; 0: none does */
    uint64_t done;
    uint64_t total;
    int inside; /* 1: while it is called */
} listener;

static int hear(void *user, uint64_t done, uint64_t total)
{
    listener *heard = user;
    ck_assert_int_eq(heard->inside, 0);
    heard->inside = 1;
    ck_assert_uint_le(heard->done, done);
    ck_assert_uint_le(done, total);
    heard->calls++;
    heard->done = done;
    heard->total = total;
    heard->inside = 0;
    return heard->stop_at > 0 && heard->calls >= heard->stop_at;
}

/* One kind of long call. It frees what it makes. */
typedef bite_status long_call(listener *heard, size_t threads, bite_error *error);

static bite_status choose(listener *heard, size_t threads, bite_error *error)
{
    bite_request *request = NULL;
    bite_choice *choice = NULL;
    bite_choice_options options = bite_example_choice();
    options.progress = hear;
    options.progress_user = heard;
    ck_assert_int_eq(bite_request_new(bite_example_library, &request, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_GRADES, "acrylic/cast", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "feature_depth", "0.6mm", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_threads(request, threads, NULL), BITE_OK);
    bite_status status = bite_choice_new(request, &options, &choice, error);
    ck_assert((status == BITE_OK) == (choice != NULL));
    if (choice != NULL) { /* its answer is used when the call is long over */
        bite_window_options axes = bite_example_window();
        bite_window *window = NULL;
        uint64_t calls = heard->calls;
        ck_assert_int_eq(bite_window_new(bite_choice_answer(choice), &axes, &window, NULL),
                         BITE_OK);
        ck_assert_uint_eq(heard->calls, calls);
        bite_window_free(window);
    }
    bite_choice_free(choice);
    bite_request_free(request);
    return status;
}

/* No settings are clear: the changes that would make some are searched too. */
static bite_status choose_in_vain(listener *heard, size_t threads, bite_error *error)
{
    bite_request *request = NULL;
    bite_choice *choice = NULL;
    bite_choice_options options;
    bite_choice_options_init(&options);
    options.draws = 64;
    options.progress = hear;
    options.progress_user = heard;
    ck_assert_int_eq(bite_request_new(bite_example_library, &request, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_GRADES, "acrylic/cast", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_TOOLS, "0.8mm", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "feature_depth", "0.6mm", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "inside_radius", "0.2mm", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_threads(request, threads, NULL), BITE_OK);
    bite_status status = bite_choice_new(request, &options, &choice, error);
    ck_assert((status == BITE_OK) == (choice != NULL));
    bite_choice_free(choice);
    bite_request_free(request);
    return status;
}

static bite_status map(listener *heard, size_t threads, bite_error *error)
{
    bite_answer *answer = NULL;
    bite_window *window = NULL;
    bite_window_options options = bite_example_window();
    options.columns = options.rows = 41;
    options.progress = hear;
    options.progress_user = heard;
    ck_assert_int_eq(bite_request_threads(bite_example_request, threads, NULL), BITE_OK);
    ck_assert_int_eq(bite_answer_new(bite_example_request, 64, 0.0, &answer, NULL), BITE_OK);
    bite_status status = bite_window_new(answer, &options, &window, error);
    ck_assert((status == BITE_OK) == (window != NULL));
    bite_window_free(window);
    bite_answer_free(answer);
    return status;
}

static bite_status plan(listener *heard, size_t threads, bite_error *error)
{
    char path[4096];
    bite_job *job = NULL;
    bite_job_options options = bite_example_job();
    options.threads = (uint32_t)threads;
    options.progress = hear;
    options.progress_user = heard;
    bite_test_source(path, sizeof path, "tables/jobs/cover-lens.ini");
    bite_status status =
        bite_job_open(bite_example_library, path, &options, NULL, NULL, &job, error);
    ck_assert((status == BITE_OK) == (job != NULL));
    bite_job_free(job);
    return status;
}

static bite_status run(listener *heard, size_t threads, bite_error *error)
{
    static double depth[ROWS];
    static double power[ROWS];
    static uint32_t status[ROWS];
    uint32_t input = 0;
    bite_cut cut;
    bite_batch *batch = NULL;
    bite_batch_options options;
    const bite_batch_output output = {BITE_BATCH_VALUE, BITE_POWER_MEAN};
    const bite_column in = {depth, 1};
    const bite_result_column out = {power, 1};
    bite_batch_options_init(&options);
    options.threads = (uint32_t)threads;
    options.progress = hear;
    options.progress_user = heard;
    while (strcmp(bite_input_at(input)->name, "depth") != 0) {
        input++;
    }
    for (size_t i = 0; i < ROWS; i++) {
        depth[i] = 1e-4 + 1e-8 * (double)i;
    }
    ck_assert_int_eq(bite_request_cut(bite_example_request, &cut, NULL), BITE_OK);
    ck_assert_int_eq(bite_batch_new(NULL, &cut, &input, 1, &output, 1, &batch, NULL), BITE_OK);
    bite_status result = bite_batch_run_with(batch, ROWS, &in, &out, status, &options, error);
    size_t stopped = 0;
    for (size_t i = 0; i < ROWS; i++) {
        ck_assert(status[i] == BITE_OK || status[i] == BITE_STOPPED);
        ck_assert(isnan(power[i]) == (status[i] == BITE_STOPPED));
        stopped += status[i] == BITE_STOPPED;
    }
    ck_assert((result == BITE_STOPPED) == (stopped > 0));
    bite_batch_free(batch);
    return result;
}

static const struct {
    long_call *call;
    uint64_t calls_least;
} calls[] = {{choose, 5}, {choose_in_vain, 10}, {map, 20}, {plan, 20}, {run, ROWS / 256}};
enum { CALLS = sizeof calls / sizeof *calls };

START_TEST(progress_grows_to_the_end)
{
    listener heard = {0};
    bite_error error = BITE_ERROR_INIT;
    ck_assert_msg(calls[_i].call(&heard, 1, &error) == BITE_OK, "%s", error.message);
    ck_assert_uint_ge(heard.calls, calls[_i].calls_least);
    ck_assert_uint_gt(heard.total, 0);
    ck_assert_uint_eq(heard.done, heard.total);
}
END_TEST

/* At the first call, and in steps to the last; on one thread and on two. */
START_TEST(calls_stop_when_asked)
{
    listener whole = {0};
    ck_assert_int_eq(calls[_i].call(&whole, 1, NULL), BITE_OK);
    for (uint64_t part = 0; part < 6; part++) {
        listener heard = {.stop_at = 1 + part * whole.calls / 8};
        bite_error error = BITE_ERROR_INIT;
        bite_status status = calls[_i].call(&heard, 1 + part % 2, &error);
        ck_assert_msg(status == BITE_STOPPED, "%s: %s", bite_status_name(status), error.message);
        ck_assert_int_eq(error.status, BITE_STOPPED);
        ck_assert_str_eq(error.message, "stopped as the caller asked");
        ck_assert_uint_eq(heard.calls, heard.stop_at); /* who has asked is not asked again */
    }
}
END_TEST

/* The answer of a call does not depend on who listens. */
START_TEST(batches_do_without_options)
{
    bite_cut cut;
    bite_batch *batch = NULL;
    double power = 0.0;
    const bite_batch_output output = {BITE_BATCH_VALUE, BITE_POWER_MEAN};
    const bite_result_column out = {&power, 1};
    ck_assert_int_eq(bite_request_cut(bite_example_request, &cut, NULL), BITE_OK);
    ck_assert_int_eq(bite_batch_new(NULL, &cut, NULL, 0, &output, 1, &batch, NULL), BITE_OK);
    ck_assert_int_eq(bite_batch_run_with(batch, 1, NULL, &out, NULL, NULL, NULL), BITE_OK);
    ck_assert(power > 0.0);
    bite_batch_options options;
    bite_error error = BITE_ERROR_INIT;
    bite_batch_options_init(&options);
    options.struct_size = 9;
    bite_assert_refused(bite_batch_run_with(batch, 1, NULL, &out, NULL, &options, &error),
                        BITE_BAD_ARGUMENT, &error, "options");
    ck_assert_int_eq(bite_batch_run_with(NULL, 1, NULL, &out, NULL, NULL, NULL), BITE_BAD_ARGUMENT);
    bite_batch_free(batch);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("progress");
    TCase *all = tcase_create("progress");
    tcase_set_timeout(all, 240);
    tcase_add_unchecked_fixture(all, bite_example_open, bite_example_close);
    tcase_add_loop_test(all, progress_grows_to_the_end, 0, CALLS);
    tcase_add_loop_test(all, calls_stop_when_asked, 0, CALLS);
    tcase_add_test(all, batches_do_without_options);
    suite_add_tcase(suite, all);
    return bite_test_run(suite);
}
