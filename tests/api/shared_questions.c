/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Questions to a library, and to handles of it, whose answers are text. */
#include "tests/api/shared_questions.h"
#include "tests/api/example_request.h"
#include <stdio.h>
#include <string.h>

#define ROWS 300

static bite_style style_of(uint32_t format)
{
    bite_style style;
    bite_style_init(&style);
    style.format = format;
    style.sources = 1;
    style.all_limits = 1;
    return style;
}

/* A request of another thread, filled in. */
static bite_status make_request(const bite_library *library, const char *material,
                                bite_request **request, bite_error *error)
{
    static const char *const typed[][2] = {{"flutes", "2"},
                                           {"spindle_speed", "12000rpm"},
                                           {"feed_rate", "300mm/min"},
                                           {"depth", "0.2mm"},
                                           {"tolerance", "0.05mm"}};
    bite_status status = bite_request_new(library, request, error);
    if (status == BITE_OK) {
        status = bite_request_use(*request, BITE_GRADES, material, error);
    }
    if (status == BITE_OK) {
        status = bite_request_use(*request, BITE_TOOLS, "1.5mm", error);
    }
    if (status == BITE_OK) {
        status = bite_request_use(*request, BITE_MACHINES, "bench-24k", error);
    }
    for (size_t i = 0; i < sizeof typed / sizeof *typed && status == BITE_OK; i++) {
        status = bite_request_set(*request, typed[i][0], typed[i][1], error);
    }
    if (status == BITE_OK) {
        status = bite_request_threads(*request, 2, error);
    }
    if (status != BITE_OK) {
        bite_request_free(*request);
        *request = NULL;
    }
    return status;
}

static bite_status write_cut(const bite_library *library, const char *material,
                             bite_test_paper *page, bite_error *error)
{
    bite_style style = style_of(BITE_JSON);
    bite_request *request = NULL;
    bite_answer *answer = NULL;
    bite_status status = make_request(library, material, &request, error);
    if (status == BITE_OK) {
        status = bite_answer_new(request, 64, 0.95, &answer, error);
    }
    bite_request_free(request);
    if (status == BITE_OK) {
        status = bite_answer_write(answer, &style, bite_test_paper_take, page, error);
    }
    bite_answer_free(answer);
    return status;
}

static bite_status cut(const bite_shared_handles *of, const bite_shared_question *what,
                       bite_test_paper *page, bite_error *error)
{
    return write_cut(of->library, what->name, page, error);
}

/* A library of the thread's own, opened and closed while others read theirs. */
static bite_status open_own(const bite_shared_handles *of, const bite_shared_question *what,
                            bite_test_paper *page, bite_error *error)
{
    bite_library_options options = {sizeof options, NULL, bite_example_shop.families,
                                    bite_example_shop.tables};
    bite_library *own = NULL;
    (void)of;
    bite_status status = bite_library_open(&options, &own, error);
    if (status == BITE_OK) {
        status = write_cut(own, what->name, page, error);
        bite_library_close(own);
    }
    return status;
}

static bite_status choose(const bite_shared_handles *of, const bite_shared_question *what,
                          bite_test_paper *page, bite_error *error)
{
    bite_style style = style_of(BITE_TEXT);
    bite_choice_options options = bite_example_choice();
    bite_request *request = NULL;
    bite_choice *choice = NULL;
    bite_status status = bite_request_new(of->library, &request, error);
    if (status == BITE_OK) {
        status = bite_request_use(request, BITE_GRADES, what->name, error);
    }
    if (status == BITE_OK) {
        status = bite_request_set(request, "feature_depth", "0.6mm", error);
    }
    if (status == BITE_OK) {
        status = bite_choice_new(request, &options, &choice, error);
    }
    if (status == BITE_OK) {
        status = bite_choice_write(choice, &style, bite_test_paper_take, page, error);
    }
    bite_choice_free(choice);
    bite_request_free(request);
    return status;
}

static bite_status plan(const bite_shared_handles *of, const bite_shared_question *what,
                        bite_test_paper *page, bite_error *error)
{
    char path[4096];
    bite_style style = style_of(BITE_JSON);
    bite_job_options options = bite_example_job();
    bite_job *job = NULL;
    options.draws = BITE_DRAWS_NONE;
    options.threads = 2;
    bite_test_source(path, sizeof path, what->name);
    bite_status status = bite_job_open(of->library, path, &options, NULL, NULL, &job, error);
    if (status == BITE_OK) {
        status = bite_job_write(job, &style, bite_test_paper_take, page, error);
    }
    bite_job_free(job);
    return status;
}

static bite_status judge_rows(const bite_shared_handles *of, const bite_shared_question *what,
                              bite_test_paper *page, bite_error *error)
{
    static const char rows[] = "material,tool,depth [mm],feed_rate [mm/min],spindle_speed\n"
                               "acrylic/cast,0.8mm,0.2,200,12000rpm\n"
                               "polycarbonate/sheet,1mm,0.2,250,14000rpm\n"
                               "6061,3mm,0.3,300,20000rpm\n"
                               "nothing/such,3mm,0.3,300,20000rpm\n"
                               "acetal/copolymer,1/8in,0.5,600,18000rpm\n"
                               "wood/hardwood,6mm,1,900,18000rpm\n";
    bite_request *request = NULL;
    bite_cases *cases = NULL;
    bite_case_options options;
    (void)what;
    bite_case_options_init(&options);
    options.format = BITE_CSV;
    options.draws = 64;
    options.threads = 2;
    bite_status status = bite_request_new(of->library, &request, error);
    if (status == BITE_OK) {
        status = bite_cases_new(request, &options, bite_test_paper_take, page, &cases, error);
    }
    if (status == BITE_OK) {
        status = bite_cases_push(cases, rows, sizeof rows - 1, error);
    }
    if (status == BITE_OK) {
        status = bite_cases_end(cases, error);
    }
    bite_cases_free(cases);
    bite_request_free(request);
    return status;
}

static bite_status list(const bite_shared_handles *of, const bite_shared_question *what,
                        bite_test_paper *page, bite_error *error)
{
    bite_style style = style_of(BITE_JSON);
    char text[80];
    size_t left_out = 0;
    bite_status status =
        bite_library_left_out(of->library, (bite_collection)what->collection, &left_out, error);
    int length =
        snprintf(text, sizeof text, "%zu, %zu left out\n",
                 bite_library_count(of->library, (bite_collection)what->collection), left_out);
    (void)bite_test_paper_take(page, text, (size_t)length);
    return status != BITE_OK
               ? status
               : bite_library_list_write(of->library, (bite_collection)what->collection, &style,
                                         bite_test_paper_take, page, error);
}

static bite_status show(const bite_shared_handles *of, const bite_shared_question *what,
                        bite_test_paper *page, bite_error *error)
{
    bite_style style = style_of(BITE_TEXT);
    return bite_library_show(of->library, (bite_collection)what->collection, what->name, &style,
                             bite_test_paper_take, page, error);
}

static bite_status compare(const bite_shared_handles *of, const bite_shared_question *what,
                           bite_test_paper *page, bite_error *error)
{
    bite_style style = style_of(BITE_TEXT);
    return bite_library_compare(of->library, BITE_GRADES, what->name, "acetal/copolymer", &style,
                                bite_test_paper_take, page, error);
}

static bite_status list_tools(const bite_shared_handles *of, const bite_shared_question *what,
                              bite_test_paper *page, bite_error *error)
{
    bite_style style = style_of(what->collection);
    return bite_tool_list_write(of->library, NULL, &style, bite_test_paper_take, page, error);
}

static bite_status explain(const bite_shared_handles *of, const bite_shared_question *what,
                           bite_test_paper *page, bite_error *error)
{
    (void)of;
    return bite_explain_write(what->name, NULL, bite_test_paper_take, page, error);
}

static bite_status ask_for_thread(const bite_shared_handles *of, const bite_shared_question *what,
                                  bite_test_paper *page, bite_error *error)
{
    bite_thread_answer *answer = NULL;
    bite_status status =
        bite_thread_answer_new(of->library, "M3", what->name, NULL, &answer, error);
    if (status == BITE_OK) {
        status = bite_thread_answer_write(answer, NULL, bite_test_paper_take, page, error);
    }
    bite_thread_answer_free(answer);
    return status;
}

static bite_status rate_fluids(const bite_shared_handles *of, const bite_shared_question *what,
                               bite_test_paper *page, bite_error *error)
{
    return bite_compatibility_list_write(of->library, what->name, NULL, bite_test_paper_take, page,
                                         error);
}

static bite_status test_family(const bite_shared_handles *of, const bite_shared_question *what,
                               bite_test_paper *page, bite_error *error)
{
    size_t cases = 0;
    char text[40];
    bite_status status =
        bite_library_check_family(of->library, what->name, NULL, NULL, &cases, error);
    int length = snprintf(text, sizeof text, "%zu cases\n", cases);
    (void)bite_test_paper_take(page, text, (size_t)length);
    return status;
}

const bite_shared_question bite_questions_of_library[] = {
    {cut, "acrylic/cast", 0, BITE_OK},
    {list, NULL, BITE_LEFT_OUT, BITE_OK},
    {plan, "tests/job/tasks/hold-of-each-setup.ini", 0, BITE_OK},
    {cut, "aluminium/6061-T6", 0, BITE_OK},
    {list, NULL, BITE_GRADES, BITE_OK},
    {open_own, "titanium/6al-4v", 0, BITE_OK},
    {cut, "wood/hardwood", 0, BITE_OK},
    {show, "bench-24k", BITE_MACHINES, BITE_OK},
    {judge_rows, NULL, 0, BITE_OK},
    {cut, "acrilic/cast", 0, BITE_UNKNOWN_NAME},
    {choose, "acrylic/cast", 0, BITE_OK},
    {show, "polycarbonate/sheet", BITE_GRADES, BITE_OK},
    {ask_for_thread, "acrylic/cast", 0, BITE_OK},
    {cut, "acetal/copolymer", 0, BITE_OK},
    {list_tools, NULL, BITE_CSV, BITE_OK},
    {rate_fluids, "acrylic/cast", 0, BITE_OK},
    {explain, "power_mean", 0, BITE_OK},
    {cut, "stainless/304", 0, BITE_OK},
    {list, NULL, BITE_THREADS, BITE_OK},
    {compare, "nylon/66", 0, BITE_OK},
    {show, "no-such-tool", BITE_TOOLS, BITE_UNKNOWN_NAME},
    {list, NULL, BITE_SYMPTOMS, BITE_OK},
    {test_family, "aluminium", 0, BITE_OK},
    {list, NULL, BITE_FAMILIES, BITE_OK},
};

/* ---- handles that many threads read ---------------------------------------------------------- */

static bite_status judge_again(const bite_shared_handles *of, const bite_shared_question *what,
                               bite_test_paper *page, bite_error *error)
{
    bite_style style = style_of(what->collection);
    bite_answer *answer = NULL;
    bite_status status = bite_answer_new(of->request, 64, 0.95, &answer, error);
    if (status == BITE_OK) {
        status = bite_answer_write(answer, &style, bite_test_paper_take, page, error);
    }
    bite_answer_free(answer);
    return status;
}

static bite_status write_answer(const bite_shared_handles *of, const bite_shared_question *what,
                                bite_test_paper *page, bite_error *error)
{
    bite_style style = style_of(what->collection);
    return bite_answer_write(of->answer, &style, bite_test_paper_take, page, error);
}

static bite_status diagnose(const bite_shared_handles *of, const bite_shared_question *what,
                            bite_test_paper *page, bite_error *error)
{
    bite_diagnosis *diagnosis = NULL;
    bite_status status = bite_diagnosis_new(of->answer, what->name, &diagnosis, error);
    if (status == BITE_OK) {
        status = bite_diagnosis_write(diagnosis, NULL, bite_test_paper_take, page, error);
    }
    bite_diagnosis_free(diagnosis);
    return status;
}

static bite_status map(const bite_shared_handles *of, const bite_shared_question *what,
                       bite_test_paper *page, bite_error *error)
{
    bite_style style = style_of(what->collection);
    bite_window_options options = bite_example_window();
    bite_window *window = NULL;
    bite_status status = bite_window_new(of->answer, &options, &window, error);
    if (status == BITE_OK) {
        status = bite_window_write(window, &style, bite_test_paper_take, page, error);
    }
    bite_window_free(window);
    return status;
}

static bite_status write_window(const bite_shared_handles *of, const bite_shared_question *what,
                                bite_test_paper *page, bite_error *error)
{
    bite_style style = style_of(what->collection);
    return bite_window_write(of->window, &style, bite_test_paper_take, page, error);
}

static bite_status write_choice(const bite_shared_handles *of, const bite_shared_question *what,
                                bite_test_paper *page, bite_error *error)
{
    bite_style style = style_of(what->collection);
    return bite_choice_write(of->choice, &style, bite_test_paper_take, page, error);
}

static bite_status write_job(const bite_shared_handles *of, const bite_shared_question *what,
                             bite_test_paper *page, bite_error *error)
{
    bite_style style = style_of(what->collection);
    return bite_job_write(of->job, &style, bite_test_paper_take, page, error);
}

static bite_status compare_answers(const bite_shared_handles *of, const bite_shared_question *what,
                                   bite_test_paper *page, bite_error *error)
{
    bite_style style = style_of(what->collection);
    return bite_answer_compare(of->answer, bite_choice_answer(of->choice), &style,
                               bite_test_paper_take, page, error);
}

static bite_status run_batch(const bite_shared_handles *of, const bite_shared_question *what,
                             bite_test_paper *page, bite_error *error)
{
    double depths[ROWS];
    double powers[ROWS];
    const bite_column in = {depths, 1};
    const bite_result_column out = {powers, 1};
    (void)what;
    for (size_t i = 0; i < ROWS; i++) {
        depths[i] = 1e-4 + 1e-6 * (double)i;
    }
    bite_status status = bite_batch_run(of->batch, ROWS, &in, &out, NULL, 2, NULL, error);
    for (size_t i = 0; i < ROWS && status == BITE_OK; i++) {
        char text[40];
        int length = snprintf(text, sizeof text, "%.17g\n", powers[i]);
        (void)bite_test_paper_take(page, text, (size_t)length);
    }
    return status;
}

const bite_shared_question bite_questions_of_handles[] = {
    {judge_again, NULL, BITE_JSON, BITE_OK},
    {write_answer, NULL, BITE_TEXT, BITE_OK},
    {map, NULL, BITE_CSV, BITE_OK},
    {run_batch, NULL, 0, BITE_OK},
    {write_window, NULL, BITE_SVG, BITE_OK},
    {diagnose, "melted-edge", 0, BITE_OK},
    {write_job, NULL, BITE_HTML, BITE_OK},
    {write_choice, NULL, BITE_JSON, BITE_OK},
    {compare_answers, NULL, BITE_TEXT, BITE_OK},
    {write_window, NULL, BITE_HTML, BITE_OK},
    {write_job, NULL, BITE_JSON, BITE_OK},
};

const size_t bite_questions_of_library_count =
    sizeof bite_questions_of_library / sizeof *bite_questions_of_library;
const size_t bite_questions_of_handles_count =
    sizeof bite_questions_of_handles / sizeof *bite_questions_of_handles;

bite_shared_handles bite_shared_handles_make(void)
{
    static const bite_batch_output power = {BITE_BATCH_VALUE, BITE_POWER_MEAN};
    char path[4096];
    bite_shared_handles of = {.library = bite_example_library, .request = bite_example_request};
    bite_window_options window = bite_example_window();
    bite_choice_options choice = bite_example_choice();
    bite_job_options job = bite_example_job();
    bite_request *request = NULL;
    bite_cut cut_of_batch;
    uint32_t depth = 0;
    while (strcmp(bite_input_at(depth)->name, "depth") != 0) {
        depth++;
    }
    bite_test_source(path, sizeof path, "tables/jobs/sensor-window.ini");
    job.draws = BITE_DRAWS_NONE;
    of.answer = bite_example_answer(64);
    ck_assert_int_eq(bite_window_new(of.answer, &window, &of.window, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_new(of.library, &request, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_GRADES, "acrylic/cast", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "feature_depth", "0.6mm", NULL), BITE_OK);
    ck_assert_int_eq(bite_choice_new(request, &choice, &of.choice, NULL), BITE_OK);
    bite_request_free(request);
    ck_assert_int_eq(bite_job_open(of.library, path, &job, NULL, NULL, &of.job, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_cut(of.request, &cut_of_batch, NULL), BITE_OK);
    ck_assert_int_eq(bite_batch_new(NULL, &cut_of_batch, &depth, 1, &power, 1, &of.batch, NULL),
                     BITE_OK);
    return of;
}

void bite_shared_handles_free(bite_shared_handles *of)
{
    bite_batch_free(of->batch);
    bite_job_free(of->job);
    bite_choice_free(of->choice);
    bite_window_free(of->window);
    bite_answer_free(of->answer);
}
