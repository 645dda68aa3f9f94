/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Memory that runs out while JSON is made or read: each request fails once, with all after it; that
 * is reported, nothing is held, and no part of a text passes for the whole. */
#include "core/report/job/json.h"
#include "core/search/choice.h"
#include "tests/inspection/measured_record.h"
#include "tests/report/job/example_job.h"
#include "tests/report/report_output.h"
#include "tests/support/open_library.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

static bite_test_memory memory;
static bite_allocator allocator;

static void *take(size_t size)
{
    return allocator.allocate(allocator.user, size);
}

static void give(void *block)
{
    allocator.release(allocator.user, block);
}

static bite_answer *answer;
static bite_answer *drawn;
static bite_choice choice;
static bite_diagnosis *diagnosis;
static bite_thread_answer *thread;
static bite_window *window;
static bite_request *request;
static example_job example;
static measured_record *record;
static bite_style style;

static int swallow(void *user, const char *piece, size_t size)
{
    (void)piece;
    *(size_t *)user += size;
    return 0;
}

static void begin(void)
{
    static const char *const typed[][2] = {{"spindle_speed", "20000rpm"},
                                           {"feed_rate", "100mm/min"},
                                           {"depth", "0.8mm"},
                                           {"tolerance", "0.05mm"}};
    open_library();
    answer = answer_of_typed(library, typed, 4, BITE_DRAWS_NONE);
    drawn = answer_of_typed(library, typed, 4, 64);
    choice.allocator = *bite_memory_default();
    choice.answer = answer;
    choice.active_count = 2;
    choice.freeing[0].change.what = choice.freeing[1].change.what = "stickout";
    choice.freeing[1].change.kind = BITE_KIND_COUNT;
    memcpy(choice.second.tool, "2mm", 4);
    ck_assert_int_eq(bite_diagnosis_new(answer, "melted-edge", &diagnosis, NULL), BITE_OK);
    ck_assert_int_eq(bite_thread_answer_new(library, "m3", "acrylic", NULL, &thread, NULL),
                     BITE_OK);
    bite_window_options options;
    bite_window_options_init(&options);
    options.columns = options.rows = 3;
    ck_assert_int_eq(bite_window_new(answer, &options, &window, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_new(library, &request, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_GRADES, "acrylic/cast", NULL), BITE_OK);
    example_job_fill(&example, library, BITE_DRAWS_NONE, BITE_METRIC, 0);
    for (size_t i = 0; i < EXAMPLE_TOOLS; i++) {
        example.tools[i].kind = "end mill";
    }
    record = measured_example(BITE_METRIC);
    style = report_style(BITE_JSON, BITE_METRIC);
    allocator = bite_test_allocator(&memory);
    json_set_alloc_funcs(take, give);
}

static void end(void)
{
    json_set_alloc_funcs(malloc, free);
    free(record);
    example_job_free(&example);
    bite_request_free(request);
    bite_window_free(window);
    bite_thread_answer_free(thread);
    bite_diagnosis_free(diagnosis);
    bite_answer_free(drawn);
    bite_answer_free(answer);
    close_library();
}

/* ---- writers ---- */

static bite_status write_answer(void *with, bite_error *error)
{
    return bite_answer_write(drawn, &style, swallow, with, error);
}

static bite_status write_comparison(void *with, bite_error *error)
{
    return bite_answer_compare(answer, drawn, &style, swallow, with, error);
}

static bite_status write_choice(void *with, bite_error *error)
{
    return bite_choice_write(&choice, &style, swallow, with, error);
}

static bite_status write_diagnosis(void *with, bite_error *error)
{
    return bite_diagnosis_write(diagnosis, &style, swallow, with, error);
}

static bite_status write_thread(void *with, bite_error *error)
{
    return bite_thread_answer_write(thread, &style, swallow, with, error);
}

static bite_status write_window(void *with, bite_error *error)
{
    return bite_window_write(window, &style, swallow, with, error);
}

static bite_status write_explanation(void *with, bite_error *error)
{
    return bite_explain_write("chip_load", &style, swallow, with, error);
}

static bite_status write_grade(void *with, bite_error *error)
{
    return bite_library_show(library, BITE_GRADES, "acrylic/cast", &style, swallow, with, error);
}

static bite_status write_two_grades(void *with, bite_error *error)
{
    return bite_library_compare(library, BITE_GRADES, "acrylic/cast", "6061", &style, swallow, with,
                                error);
}

static bite_status write_list(void *with, bite_error *error)
{
    return bite_library_list_write(library, BITE_HOLDERS, &style, swallow, with, error);
}

static bite_status write_tools(void *with, bite_error *error)
{
    return bite_tool_list_write(library, NULL, &style, swallow, with, error);
}

static bite_status write_fluid(void *with, bite_error *error)
{
    return bite_compatibility_write(library, "ipa", "acrylic/cast", &style, swallow, with, error);
}

static bite_status write_fluids(void *with, bite_error *error)
{
    return bite_compatibility_list_write(library, "acrylic/cast", &style, swallow, with, error);
}

static bite_status write_job(void *with, bite_error *error)
{
    return bite_job_json(&example.job, &style, swallow, with, error);
}

static bite_status write_record(void *with, bite_error *error)
{
    return bite_record_report_write(&record->record, &style, swallow, with, error);
}

/* ---- readers ---- */

static bite_status read_request(void *with, bite_error *error)
{
    static const char text[] = "{\"depth\": \"1mm\", \"flutes\": 2, \"note\": [1, {\"a\": 2}]}";
    (void)with;
    return bite_request_json(request, text, sizeof text - 1, error);
}

static bite_status read_cases(void *with, bite_error *error)
{
    static const char rows[] = "{\"tool\": \"3mm\", \"depth\": \"0.5mm\", \"spindle_speed\": "
                               "\"9000rpm\", \"feed_rate\": \"300mm/min\"}\n{\"tool\": 3}\n";
    bite_case_options options;
    bite_cases *cases = NULL;
    bite_case_options_init(&options);
    options.format = BITE_JSON;
    bite_status status = bite_cases_new(request, &options, swallow, with, &cases, error);
    status = status == BITE_OK ? bite_cases_push(cases, rows, sizeof rows - 1, error) : status;
    status = status == BITE_OK ? bite_cases_end(cases, error) : status;
    bite_cases_free(cases);
    return status;
}

static const struct {
    const char *name;
    bite_test_run_once *run;
} runs[] = {{"answer", write_answer},
            {"comparison", write_comparison},
            {"choice", write_choice},
            {"diagnosis", write_diagnosis},
            {"thread", write_thread},
            {"window", write_window},
            {"explanation", write_explanation},
            {"grade", write_grade},
            {"two grades", write_two_grades},
            {"list", write_list},
            {"tools", write_tools},
            {"fluid", write_fluid},
            {"fluids", write_fluids},
            {"job", write_job},
            {"record", write_record},
            {"request", read_request},
            {"cases", read_cases}};
enum { RUNS = sizeof runs / sizeof *runs };

START_TEST(each_request_fails_once)
{
    size_t size = 0;
    memory.held = 0;
    bite_test_fail_allocations(&memory, 60, 5, runs[_i].run, &size);
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("json_memory");
    tcase_add_unchecked_fixture(tests, begin, end);
    tcase_set_timeout(tests, 300);
    tcase_add_loop_test(tests, each_request_fails_once, 0, RUNS);
    Suite *suite = suite_create("json_memory");
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
