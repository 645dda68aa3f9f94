/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A NULL where something is needed: each function that returns a status refuses it with one clear
 * error, whichever argument it is; those that return a value say that there is none. */
#include "core/names/registry.h"
#include "tests/api/example_request.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static bite_answer *answer;
static bite_choice *choice;
static bite_window *window;
static bite_diagnosis *diagnosis;
static bite_thread_answer *thread;
static bite_job *job;
static bite_record *record;
static bite_batch *batch;
static bite_shop *shop; /* without a file */
static char path[700];

static const char job_text[] =
    "[format]\nkind = job\nversion = 1\n[part]\nmaterial = acrylic/cast\nlength = 40 mm\nwidth = "
    "30 mm\nthickness = 2 mm\n[hold]\nmethod = tape\n[pass.a]\nwork = cut-free\ntool = 2mm\n"
    "spindle = 9000rpm\nfeed = 300mm/min\n";

static int take(void *user, const char *text, size_t size)
{
    (void)user;
    (void)text;
    (void)size;
    return 0;
}

/* This argument, or NULL if it is the one whose turn it is. */
#define GIVE(place, argument) (null == (place) ? NULL : (argument))

/* ---- each function, with the argument of that number NULL ---- */

static bite_status file_write(int null, bite_error *error)
{
    return bite_file_write(GIVE(0, path), GIVE(1, "text"), 4, error);
}

static bite_status file_output_open(int null, bite_error *error)
{
    bite_file_output *output = NULL;
    return bite_file_output_open(GIVE(0, path), GIVE(1, &output), error);
}

static bite_status quantity_read(int null, bite_error *error)
{
    double si = 0.0;
    return bite_quantity_read(GIVE(0, "1 mm"), BITE_KIND_LENGTH, GIVE(1, &si), error);
}

static bite_status cut_pass(int null, bite_error *error)
{
    bite_cut cut;
    bite_result result;
    bite_cut_init(&cut);
    memset(&result, 0, sizeof result);
    result.struct_size = sizeof result;
    return bite_cut_pass(GIVE(0, &cut), GIVE(1, &result), error);
}

static bite_status batch_new(int null, bite_error *error)
{
    const uint32_t depth = (uint32_t)bite_input_index(bite_input_find("depth"));
    const bite_batch_output verdict = {BITE_BATCH_VERDICT, 0};
    bite_batch *made = NULL;
    bite_cut cut;
    bite_cut_init(&cut);
    return bite_batch_new(NULL, GIVE(0, &cut), GIVE(1, &depth), 1, GIVE(2, &verdict), 1,
                          GIVE(3, &made), error);
}

/* The data of an input, those of an output, and, as the last one, an output without a stride. */
static bite_status batch_run(int null, bite_error *error)
{
    double depths[1] = {1e-4};
    double verdicts[1];
    const bite_column in = {GIVE(3, depths), 1};
    const bite_result_column out = {GIVE(4, verdicts), null == 5 ? 0 : 1};
    return bite_batch_run(GIVE(0, batch), 1, GIVE(1, &in), GIVE(2, &out), NULL, 1, NULL, error);
}

static bite_status library_item(int null, bite_error *error)
{
    bite_item item;
    return bite_library_item(GIVE(0, bite_example_library), BITE_TOOLS, 0, GIVE(1, &item), error);
}

static bite_status library_list(int null, bite_error *error)
{
    return bite_library_list_write(GIVE(0, bite_example_library), BITE_TOOLS, NULL, GIVE(1, take),
                                   NULL, error);
}

static bite_status library_show(int null, bite_error *error)
{
    return bite_library_show(GIVE(0, bite_example_library), BITE_TOOLS, GIVE(1, "0.8mm"), NULL,
                             GIVE(2, take), NULL, error);
}

static bite_status library_compare(int null, bite_error *error)
{
    return bite_library_compare(GIVE(0, bite_example_library), BITE_GRADES, GIVE(1, "acrylic/cast"),
                                GIVE(2, "acrylic/extruded"), NULL, GIVE(3, take), NULL, error);
}

static bite_status tool_list(int null, bite_error *error)
{
    return bite_tool_list_write(GIVE(0, bite_example_library), NULL, NULL, GIVE(1, take), NULL,
                                error);
}

static bite_status thread_answer(int null, bite_error *error)
{
    bite_thread_answer *made = NULL;
    return bite_thread_answer_new(GIVE(0, bite_example_library), GIVE(1, "m4"),
                                  GIVE(2, "acrylic/cast"), NULL, GIVE(3, &made), error);
}

static bite_status thread_write(int null, bite_error *error)
{
    return bite_thread_answer_write(GIVE(0, thread), NULL, GIVE(1, take), NULL, error);
}

static bite_status compatibility_find(int null, bite_error *error)
{
    bite_compatibility found;
    memset(&found, 0, sizeof found);
    found.struct_size = sizeof found;
    return bite_compatibility_find(GIVE(0, bite_example_library), GIVE(1, "isopropanol"),
                                   GIVE(2, "acrylic/cast"), GIVE(3, &found), error);
}

static bite_status compatibility_write(int null, bite_error *error)
{
    return bite_compatibility_write(GIVE(0, bite_example_library), GIVE(1, "isopropanol"),
                                    GIVE(2, "acrylic/cast"), NULL, GIVE(3, take), NULL, error);
}

static bite_status compatibility_list(int null, bite_error *error)
{
    return bite_compatibility_list_write(GIVE(0, bite_example_library), GIVE(1, "acrylic/cast"),
                                         NULL, GIVE(2, take), NULL, error);
}

static bite_status request_new(int null, bite_error *error)
{
    bite_request *made = NULL;
    return bite_request_new(GIVE(0, bite_example_library), GIVE(1, &made), error);
}

static bite_status request_use(int null, bite_error *error)
{
    return bite_request_use(GIVE(0, bite_example_request), BITE_TOOLS, GIVE(1, "0.8mm"), error);
}

static bite_status request_set(int null, bite_error *error)
{
    return bite_request_set(GIVE(0, bite_example_request), GIVE(1, "depth"), GIVE(2, "1mm"), error);
}

static bite_status request_json(int null, bite_error *error)
{
    return bite_request_json(GIVE(0, bite_example_request), GIVE(1, "{}"), 2, error);
}

static bite_status request_cut(int null, bite_error *error)
{
    bite_cut cut;
    return bite_request_cut_sized(GIVE(0, bite_example_request), GIVE(1, &cut), sizeof cut, error);
}

/* The last time the key is one that the set-up does not state. */
static bite_status take_from_shop(int null, bite_error *error)
{
    return bite_request_take_from_shop(GIVE(0, bite_example_request), GIVE(1, "units"), error);
}

static bite_status answer_new(int null, bite_error *error)
{
    bite_answer *made = NULL;
    return bite_answer_new(GIVE(0, bite_example_request), BITE_DRAWS_NONE, 0.9, GIVE(1, &made),
                           error);
}

static bite_status answer_caution(int null, bite_error *error)
{
    bite_caution caution;
    return bite_answer_caution(GIVE(0, answer), 0, GIVE(1, &caution), error);
}

static bite_status answer_input(int null, bite_error *error)
{
    bite_used_input used;
    memset(&used, 0, sizeof used);
    used.struct_size = sizeof used;
    return bite_answer_input_find(GIVE(0, answer), GIVE(1, "depth"), GIVE(2, &used), error);
}

static bite_status answer_write(int null, bite_error *error)
{
    return bite_answer_write(GIVE(0, answer), NULL, GIVE(1, take), NULL, error);
}

static bite_status answer_compare(int null, bite_error *error)
{
    return bite_answer_compare(GIVE(0, answer), GIVE(1, answer), NULL, GIVE(2, take), NULL, error);
}

static bite_status choice_new(int null, bite_error *error)
{
    const bite_choice_options options = bite_example_choice();
    bite_choice *made = NULL;
    return bite_choice_new(GIVE(0, bite_example_request), &options, GIVE(1, &made), error);
}

static bite_status choice_write(int null, bite_error *error)
{
    return bite_choice_write(GIVE(0, choice), NULL, GIVE(1, take), NULL, error);
}

static bite_status diagnosis_new(int null, bite_error *error)
{
    bite_diagnosis *made = NULL;
    return bite_diagnosis_new(GIVE(0, answer), GIVE(1, "melted-edge"), GIVE(2, &made), error);
}

static bite_status diagnosis_write(int null, bite_error *error)
{
    return bite_diagnosis_write(GIVE(0, diagnosis), NULL, GIVE(1, take), NULL, error);
}

static bite_status window_new(int null, bite_error *error)
{
    const bite_window_options options = bite_example_window();
    bite_window *made = NULL;
    return bite_window_new(GIVE(0, answer), &options, GIVE(1, &made), error);
}

static bite_status window_write(int null, bite_error *error)
{
    return bite_window_write(GIVE(0, window), NULL, GIVE(1, take), NULL, error);
}

static bite_status job_open(int null, bite_error *error)
{
    bite_job *made = NULL;
    return bite_job_open(GIVE(0, bite_example_library), GIVE(1, path), NULL, NULL, NULL,
                         GIVE(2, &made), error);
}

static bite_status job_write(int null, bite_error *error)
{
    return bite_job_write(GIVE(0, job), NULL, GIVE(1, take), NULL, error);
}

static bite_status time_remove(int null, bite_error *error)
{
    return bite_job_time_remove(GIVE(0, job), error);
}

static bite_status time_add(int null, bite_error *error)
{
    return bite_job_time_add(GIVE(0, job), 60.0, error);
}

/* Either text of a field. */
static bite_status record_new(int null, bite_error *error)
{
    const char *const fields[1][2] = {{GIVE(3, "note"), GIVE(4, "text")}};
    return bite_record_new(GIVE(0, job), GIVE(1, path), GIVE(2, fields), 1, error);
}

static bite_status record_open(int null, bite_error *error)
{
    bite_record *made = NULL;
    return bite_record_open(GIVE(0, path), NULL, NULL, GIVE(1, &made), error);
}

static bite_status record_review(int null, bite_error *error)
{
    bite_record_entry entry;
    bite_review review;
    bite_record_entry_init(&entry);
    memset(&review, 0, sizeof review);
    review.struct_size = sizeof review;
    return bite_record_review(GIVE(0, record), GIVE(1, &entry), GIVE(2, &review), error);
}

static bite_status record_append(int null, bite_error *error)
{
    bite_record_entry entry;
    bite_record_entry_init(&entry);
    return bite_record_append(GIVE(0, record), GIVE(1, &entry), NULL, error);
}

static bite_status record_append_csv(int null, bite_error *error)
{
    return bite_record_append_csv(GIVE(0, record), GIVE(1, "characteristic,value\n"), 21, NULL,
                                  NULL, NULL, NULL, NULL, error);
}

static bite_status record_verdict(int null, bite_error *error)
{
    uint32_t verdict = 0;
    return bite_record_verdict(GIVE(0, record), GIVE(1, &verdict), error);
}

static bite_status record_report(int null, bite_error *error)
{
    return bite_record_report_write(GIVE(0, record), NULL, GIVE(1, take), NULL, error);
}

static bite_status explain(int null, bite_error *error)
{
    return bite_explain_write(GIVE(0, "depth"), NULL, GIVE(1, take), NULL, error);
}

static bite_status audit_file(int null, bite_error *error)
{
    bite_audit audit;
    bite_audit_init(&audit);
    return bite_audit_file(GIVE(0, path), NULL, GIVE(1, &audit), error);
}

static const struct call {
    const char *name;
    bite_status (*made)(int null, bite_error *error);
    int arguments;
} calls[] = {
    {"bite_file_write", file_write, 2},
    {"bite_file_output_open", file_output_open, 2},
    {"bite_quantity_read", quantity_read, 2},
    {"bite_cut_pass", cut_pass, 2},
    {"bite_batch_new", batch_new, 4},
    {"bite_batch_run", batch_run, 6},
    {"bite_library_item", library_item, 2},
    {"bite_library_list_write", library_list, 2},
    {"bite_library_show", library_show, 3},
    {"bite_library_compare", library_compare, 4},
    {"bite_tool_list_write", tool_list, 2},
    {"bite_thread_answer_new", thread_answer, 4},
    {"bite_thread_answer_write", thread_write, 2},
    {"bite_compatibility_find", compatibility_find, 4},
    {"bite_compatibility_write", compatibility_write, 4},
    {"bite_compatibility_list_write", compatibility_list, 3},
    {"bite_request_new", request_new, 2},
    {"bite_request_use", request_use, 2},
    {"bite_request_set", request_set, 3},
    {"bite_request_json", request_json, 2},
    {"bite_request_cut_sized", request_cut, 2},
    {"bite_request_take_from_shop", take_from_shop, 3},
    {"bite_answer_new", answer_new, 2},
    {"bite_answer_caution", answer_caution, 2},
    {"bite_answer_input_find", answer_input, 3},
    {"bite_answer_write", answer_write, 2},
    {"bite_answer_compare", answer_compare, 3},
    {"bite_choice_new", choice_new, 2},
    {"bite_choice_write", choice_write, 2},
    {"bite_diagnosis_new", diagnosis_new, 3},
    {"bite_diagnosis_write", diagnosis_write, 2},
    {"bite_window_new", window_new, 2},
    {"bite_window_write", window_write, 2},
    {"bite_job_open", job_open, 3},
    {"bite_job_write", job_write, 2},
    {"bite_job_time_add", time_add, 1},
    {"bite_job_time_remove", time_remove, 1},
    {"bite_record_new", record_new, 5},
    {"bite_record_open", record_open, 2},
    {"bite_record_review", record_review, 3},
    {"bite_record_append", record_append, 2},
    {"bite_record_append_csv", record_append_csv, 2},
    {"bite_record_verdict", record_verdict, 2},
    {"bite_record_report_write", record_report, 2},
    {"bite_explain_write", explain, 2},
    {"bite_audit_file", audit_file, 2},
};

static void setup(void)
{
    const uint32_t depth = (uint32_t)bite_input_index(bite_input_find("depth"));
    const bite_batch_output verdict = {BITE_BATCH_VERDICT, 0};
    const bite_choice_options options = bite_example_choice();
    const bite_window_options range = bite_example_window();
    bite_error error = BITE_ERROR_INIT;
    bite_cut cut;
    bite_example_open();
    answer = bite_example_answer(BITE_DRAWS_NONE);
    (void)snprintf(path, sizeof path, "%s/job.ini", bite_example_shop.root);
    bite_test_write(path, job_text, sizeof job_text - 1);
    bite_job_options plan = bite_example_job();
    plan.draws = BITE_DRAWS_NONE;
    ck_assert_msg(bite_job_open(bite_example_library, path, &plan, NULL, NULL, &job, &error) ==
                      BITE_OK,
                  "%s", error.message);
    (void)snprintf(path, sizeof path, "%s/record", bite_example_shop.root);
    ck_assert_int_eq(bite_record_new(job, path, NULL, 0, &error), BITE_OK);
    ck_assert_int_eq(bite_record_open(path, NULL, NULL, &record, &error), BITE_OK);
    ck_assert_int_eq(bite_choice_new(bite_example_request, &options, &choice, &error), BITE_OK);
    ck_assert_int_eq(bite_window_new(answer, &range, &window, &error), BITE_OK);
    ck_assert_int_eq(bite_request_cut(bite_example_request, &cut, &error), BITE_OK);
    ck_assert_int_eq(bite_batch_new(NULL, &cut, &depth, 1, &verdict, 1, &batch, &error), BITE_OK);
    ck_assert_int_eq(bite_diagnosis_new(answer, "melted-edge", &diagnosis, &error), BITE_OK);
    ck_assert_int_eq(
        bite_thread_answer_new(bite_example_library, "m4", "acrylic/cast", NULL, &thread, &error),
        BITE_OK);
    ck_assert_int_eq(setenv("COOLBITE_CONFIG", "none", 1), 0);
    ck_assert_int_eq(bite_shop_open(NULL, &shop, &error), BITE_OK);
    ck_assert_int_eq(bite_request_use_shop(bite_example_request, shop, &error), BITE_OK);
}

static void teardown(void)
{
    bite_batch_free(batch);
    bite_window_free(window);
    bite_choice_free(choice);
    bite_record_free(record);
    bite_job_free(job);
    bite_diagnosis_free(diagnosis);
    bite_thread_answer_free(thread);
    bite_answer_free(answer);
    bite_example_close();
    bite_shop_free(shop); /* which the request borrows */
}

START_TEST(each_null_is_refused)
{
    for (size_t i = 0; i < sizeof calls / sizeof *calls; i++) {
        for (int null = 0; null < calls[i].arguments; null++) {
            bite_error error = BITE_ERROR_INIT;
            bite_status status = calls[i].made(null, &error);
            ck_assert_msg(status == BITE_BAD_ARGUMENT, "%s without argument %d: %s (%s)",
                          calls[i].name, null, bite_status_name(status), error.message);
            ck_assert_msg(error.status == (int32_t)status && strlen(error.message) > 10,
                          "%s without argument %d: no words", calls[i].name, null);
            /* and without a place for the error */
            ck_assert_int_eq(calls[i].made(null, NULL), BITE_BAD_ARGUMENT);
        }
    }
}
END_TEST

START_TEST(where_there_is_nothing_there_is_no_value)
{
    double from = 0.0;
    double to = 0.0;
    bite_limit_id limit = BITE_LIMIT_SOFTENING;
    const char *input = NULL;
    const char *word = NULL;
    ck_assert_int_eq(bite_choice_pass(NULL, 0, &from, &to), 0);
    ck_assert_int_eq(bite_choice_side_pass(NULL, 0, &from, &to), 0);
    ck_assert_int_eq(bite_choice_active_limit(NULL, 0, &limit, &from), 0);
    ck_assert_int_eq(bite_choice_active_limit(choice, 0, NULL, &from), 0);
    ck_assert_int_eq(bite_choice_active_limit(choice, 0, &limit, NULL), 0);
    ck_assert_int_eq(bite_choice_freed_by(NULL, 0, &input, &word), 0);
    ck_assert_int_eq(bite_choice_freed_by(choice, 0, NULL, &word), 0);
    ck_assert_int_eq(bite_choice_freed_by(choice, 0, &input, NULL), 0);
    ck_assert_str_eq(bite_shop_path(NULL), "");
    ck_assert_ptr_null(bite_shop_text(NULL, "machine"));
    ck_assert_ptr_null(bite_shop_text(shop, NULL));
    ck_assert(isnan(bite_shop_number(NULL, "tolerance")));
    ck_assert(isnan(bite_shop_number(shop, NULL)));
    ck_assert_ptr_null(bite_shop_tool(NULL, 0));
    ck_assert_ptr_null(bite_input_find(NULL));
    bite_cut_init_sized(NULL, sizeof(bite_cut));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("null_arguments");
    TCase *tests = tcase_create("null_arguments");
    tcase_set_timeout(tests, 60);
    tcase_add_checked_fixture(tests, setup, teardown);
    tcase_add_test(tests, each_null_is_refused);
    tcase_add_test(tests, where_there_is_nothing_there_is_no_value);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
