/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Structures and arrays that a caller fills wrongly: one clear error that names the member, never a
 * crash. */
#include "tests/support/test_tables.h"
#include <float.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double hostile[] = {
    (double)NAN, (double)INFINITY, -(double)INFINITY, DBL_MAX, -DBL_MAX, 1e30, -1.0, 0.0, 5e-324,
};
#define HOSTILE (sizeof hostile / sizeof *hostile)

static const uint32_t words[] = {5, 100, 4000000, 0x80000000u, UINT32_MAX};
#define WORDS (sizeof words / sizeof *words)

static bite_test_shop shop;
static bite_library *library;
static bite_request *request;

static void set(const char *input, const char *text)
{
    bite_error error = BITE_ERROR_INIT;
    ck_assert_msg(bite_request_set(request, input, text, &error) == BITE_OK, "%s", error.message);
}

static void open_shop(void)
{
    bite_test_shop_make(&shop);
    library = bite_test_shop_open(&shop, NULL);
    ck_assert_int_eq(bite_request_new(library, &request, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_GRADES, "acrylic/cast", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_TOOLS, "0.8mm", NULL), BITE_OK);
    set("flutes", "2");
    set("spindle_speed", "12000rpm");
    set("feed_rate", "200mm/min");
    set("depth", "0.2mm");
}

static void close_shop(void)
{
    bite_request_free(request);
    bite_library_close(library);
    bite_test_remove(shop.root);
}

/* That status, with words; the key begins with `key`. */
static void refused(bite_status status, bite_status wanted, const bite_error *error,
                    const char *key)
{
    ck_assert_msg(status == wanted, "%s instead of %s: %s", bite_status_name(status),
                  bite_status_name(wanted), error->message);
    ck_assert_int_eq(error->status, (int)wanted);
    ck_assert_msg(strlen(error->message) > 10, "%s has no words", bite_status_name(status));
    ck_assert_msg(strncmp(error->key, key, strlen(key)) == 0, "key %s instead of %s", error->key,
                  key);
}

/* ---- choice ---- */

static bite_choice_options choice_options(void)
{
    static const char *const tools[] = {"0.8mm", "1mm"};
    bite_choice_options options;
    memset(&options, 0, sizeof options);
    options.struct_size = (uint32_t)sizeof options;
    options.goal = BITE_GOAL_USUAL;
    options.effort = BITE_EFFORT_QUICK;
    options.tools = tools;
    options.tool_count = 2;
    options.draws = 64;
    options.confidence = 0.95;
    return options;
}

static void choice_refused(const bite_choice_options *options, bite_status wanted, const char *key)
{
    bite_error error = BITE_ERROR_INIT;
    bite_choice *choice = NULL;
    bite_status status = bite_choice_new(request, options, &choice, &error);
    refused(status, wanted, &error, key);
    ck_assert_ptr_null(choice);
}

START_TEST(choice_tools)
{
    const char *tools[3] = {"0.8mm", NULL, "1mm"};
    bite_choice_options options = choice_options();
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
    ck_assert_int_ne(bite_choice_new(request, &options, &choice, &error), BITE_OK);
    ck_assert_int_gt((int)strlen(error.message), 10);
    free(large);
}
END_TEST

START_TEST(choice_steps)
{
    double steps[2] = {50.0, 100.0};
    bite_choice_options options = choice_options();
    options.steps = steps;
    options.step_count = 2;
    for (size_t k = 0; k < HOSTILE; k++) {
        steps[1] = hostile[k];
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
                   "spindle_speed"); /* good steps, but a speed was said */
}
END_TEST

START_TEST(choice_words_and_numbers)
{
    for (size_t k = 0; k < WORDS; k++) {
        bite_choice_options options = choice_options();
        options.goal = words[k];
        choice_refused(&options, BITE_BAD_ARGUMENT, "options");
        options = choice_options();
        options.units = words[k];
        choice_refused(&options, BITE_BAD_ARGUMENT, "options");
        options = choice_options();
        options.effort = words[k];
        choice_refused(&options, BITE_BAD_ARGUMENT, "options");
        options = choice_options();
        options.struct_size = words[k];
        choice_refused(&options, BITE_BAD_ARGUMENT, "options");
        options = choice_options();
        options.draws = k == 0 ? 5 : (size_t)BITE_DRAWS_MAX + words[k];
        choice_refused(&options, BITE_BAD_ARGUMENT, "draws");
    }
    for (size_t k = 0; k < HOSTILE; k++) {
        bite_choice_options options = choice_options();
        options.confidence = hostile[k];
        choice_refused(&options, BITE_BAD_ARGUMENT, "confidence");
    }
    bite_choice_options options = choice_options();
    bite_choice *choice = NULL;
    ck_assert_int_eq(bite_choice_new(NULL, &options, &choice, NULL), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_choice_new(request, NULL, &choice, NULL), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_choice_new(request, &options, NULL, NULL), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_choice_new(request, &options, &choice, NULL), BITE_OK);
    bite_choice_free(choice);
}
END_TEST

/* ---- answer ---- */

START_TEST(answer_draws_and_confidence)
{
    bite_answer *answer = NULL;
    for (size_t k = 0; k < WORDS; k++) {
        bite_error error = BITE_ERROR_INIT;
        size_t draws = k == 0 ? 5 : (size_t)BITE_DRAWS_MAX + words[k];
        refused(bite_answer_new(request, draws, 0.95, &answer, &error), BITE_BAD_ARGUMENT, &error,
                "draws");
    }
    for (size_t k = 0; k < HOSTILE; k++) {
        bite_error error = BITE_ERROR_INIT;
        refused(bite_answer_new(request, 64, hostile[k], &answer, &error), BITE_BAD_ARGUMENT,
                &error, "confidence");
        refused(bite_answer_new(request, BITE_DRAWS_NONE, hostile[k], &answer, &error),
                BITE_BAD_ARGUMENT, &error, "confidence");
    }
    ck_assert_ptr_null(answer);
}
END_TEST

/* ---- window ---- */

static bite_window_options window_options(void)
{
    bite_window_options options;
    memset(&options, 0, sizeof options);
    options.struct_size = (uint32_t)sizeof options;
    options.columns = 5;
    options.rows = 4;
    options.across_least = options.across_most = options.up_least = options.up_most = (double)NAN;
    return options;
}

static void window_refused(const bite_answer *answer, const bite_window_options *options,
                           bite_status wanted, const char *key)
{
    bite_error error = BITE_ERROR_INIT;
    bite_window *window = NULL;
    bite_status status = bite_window_new(answer, options, &window, &error);
    refused(status, wanted, &error, key);
    ck_assert_ptr_null(window);
}

static bite_answer *answer_of(size_t draws)
{
    bite_answer *answer = NULL;
    ck_assert_int_eq(bite_answer_new(request, draws, 0.95, &answer, NULL), BITE_OK);
    return answer;
}

START_TEST(window_members)
{
    bite_answer *answer = answer_of(BITE_DRAWS_NONE);
    for (size_t k = 0; k < WORDS; k++) {
        uint32_t many = k == 0 ? 1 : k == 1 ? 402 : words[k];
        bite_window_options options = window_options();
        options.columns = many;
        window_refused(answer, &options, BITE_BAD_ARGUMENT, "options");
        options = window_options();
        options.rows = many;
        window_refused(answer, &options, BITE_BAD_ARGUMENT, "options");
        options = window_options();
        options.reserved = words[k];
        window_refused(answer, &options, BITE_BAD_ARGUMENT, "options");
        options = window_options();
        options.struct_size = words[k];
        window_refused(answer, &options, BITE_BAD_ARGUMENT, "options");
    }
    for (size_t k = 1; k < HOSTILE; k++) { /* NaN is the usual end */
        for (int end = 0; end < 4; end++) {
            bite_window_options options = window_options();
            double *ends[] = {&options.across_least, &options.across_most, &options.up_least,
                              &options.up_most};
            *ends[end] = hostile[k];
            window_refused(answer, &options, BITE_OUT_OF_RANGE, "axis");
        }
    }
    bite_window_options options = window_options();
    options.across = "";
    window_refused(answer, &options, BITE_UNKNOWN_NAME, "axis");
    options.across = options.up = "depth";
    window_refused(answer, &options, BITE_BAD_ARGUMENT, "axis");
    options = window_options();
    bite_window *window = NULL;
    ck_assert_int_eq(bite_window_new(NULL, &options, &window, NULL), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_window_new(answer, NULL, &window, NULL), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_window_new(answer, &options, NULL, NULL), BITE_BAD_ARGUMENT);
    bite_answer_free(answer);
}
END_TEST

/* ---- job ---- */

static bite_job_options job_options(void)
{
    bite_job_options options;
    memset(&options, 0, sizeof options);
    options.struct_size = (uint32_t)sizeof options;
    options.draws = 64;
    options.confidence = 0.95;
    return options;
}

static void job_refused(const bite_job_options *options, bite_status wanted, const char *key)
{
    char path[4096];
    bite_error error = BITE_ERROR_INIT;
    bite_job *job = NULL;
    bite_test_source(path, sizeof path, "tables/jobs/cover-lens.ini");
    bite_status status = bite_job_open(library, path, options, NULL, NULL, &job, &error);
    refused(status, wanted, &error, key);
    ck_assert_ptr_null(job);
}

START_TEST(job_members)
{
    for (size_t k = 0; k < WORDS; k++) {
        bite_job_options options = job_options();
        options.units = words[k];
        job_refused(&options, BITE_BAD_ARGUMENT, "options");
        options = job_options();
        options.units_given = words[k];
        job_refused(&options, BITE_BAD_ARGUMENT, "options");
        options = job_options();
        options.struct_size = words[k];
        job_refused(&options, BITE_BAD_ARGUMENT, "options");
        options = job_options();
        options.threads = k == 0 ? 17 : words[k];
        job_refused(&options, BITE_OUT_OF_RANGE, "threads");
        options = job_options();
        options.draws = k == 0 ? 5 : (size_t)BITE_DRAWS_MAX + words[k];
        job_refused(&options, BITE_BAD_ARGUMENT, "draws");
    }
    for (size_t k = 0; k < HOSTILE; k++) {
        bite_job_options options = job_options();
        options.confidence = hostile[k];
        job_refused(&options, BITE_BAD_ARGUMENT, "confidence");
    }
    job_refused(NULL, BITE_BAD_ARGUMENT, "options");
}
END_TEST

/* ---- style ---- */

static int count_bytes(void *user, const char *text, size_t size)
{
    (void)text;
    *(size_t *)user += size;
    return 0;
}

/* Everything that is written, by number. */
typedef struct written {
    bite_answer *answer;
    bite_choice *choice;
    bite_diagnosis *after;
    bite_window *window;
    bite_job *job;
} written;

#define WRITERS 8
static const struct {
    const char *name;
    uint32_t formats;
    int style_needed;
} writers[WRITERS] = {
    {"answer", 1u << BITE_TEXT | 1u << BITE_JSON, 0},
    {"comparison", 1u << BITE_TEXT | 1u << BITE_JSON, 0},
    {"choice", 1u << BITE_TEXT | 1u << BITE_JSON, 0},
    {"after", 1u << BITE_TEXT | 1u << BITE_JSON, 0},
    {"explain", 1u << BITE_TEXT | 1u << BITE_JSON, 0},
    {"show", 1u << BITE_TEXT | 1u << BITE_JSON, 0},
    {"window", 1u << BITE_TEXT | 1u << BITE_JSON | 1u << BITE_CSV | 1u << BITE_SVG, 1},
    {"job", 1u << BITE_TEXT | 1u << BITE_JSON | 1u << BITE_HTML, 1},
};

static bite_status write_it(const written *all, int which, const bite_style *style, bite_sink sink,
                            bite_error *error)
{
    size_t bytes = 0;
    switch (which) {
    case 0:
        return bite_answer_write(all->answer, style, sink, &bytes, error);
    case 1:
        return bite_answer_compare(all->answer, all->answer, style, sink, &bytes, error);
    case 2:
        return bite_choice_write(all->choice, style, sink, &bytes, error);
    case 3:
        return bite_diagnosis_write(all->after, style, sink, &bytes, error);
    case 4:
        return bite_explain_write("softening", style, sink, &bytes, error);
    case 5:
        return bite_library_show(library, BITE_GRADES, "acrylic/cast", style, sink, &bytes, error);
    case 6:
        return bite_window_write(all->window, style, sink, &bytes, error);
    default:
        return bite_job_write(all->job, style, sink, &bytes, error);
    }
}

static void make_all(written *all)
{
    char path[4096];
    bite_choice_options choice = choice_options();
    bite_window_options window = window_options();
    bite_job_options job = job_options();
    memset(all, 0, sizeof *all);
    bite_test_source(path, sizeof path, "tables/jobs/cover-lens.ini");
    choice.tool_count = 0;
    all->answer = answer_of(64);
    ck_assert_int_eq(bite_choice_new(request, &choice, &all->choice, NULL), BITE_OK);
    ck_assert_int_eq(bite_diagnosis_new(all->answer, "melted-edge", &all->after, NULL), BITE_OK);
    ck_assert_int_eq(bite_window_new(all->answer, &window, &all->window, NULL), BITE_OK);
    ck_assert_int_eq(bite_job_open(library, path, &job, NULL, NULL, &all->job, NULL), BITE_OK);
}

static void free_all(written *all)
{
    bite_job_free(all->job);
    bite_window_free(all->window);
    bite_diagnosis_free(all->after);
    bite_choice_free(all->choice);
    bite_answer_free(all->answer);
}

static void try_styles(const written *all, int which)
{
    static const bite_style plain = {(uint32_t)sizeof plain, BITE_TEXT, BITE_METRIC, 0, 0, 0, 0, 0};
    bite_error error = BITE_ERROR_INIT;
    for (uint32_t format = 0; format < 40; format++) {
        bite_style style = plain;
        style.format = format;
        int known = format < 32 && (writers[which].formats >> format & 1u);
        bite_status status = write_it(all, which, &style, count_bytes, &error);
        ck_assert_msg(status == (known ? BITE_OK : BITE_BAD_ARGUMENT), "%s as %u: %s",
                      writers[which].name, format, error.message);
        refused(write_it(all, which, &style, NULL, &error), BITE_BAD_ARGUMENT, &error,
                "s"); /* style or sink */
    }
    for (size_t k = 0; k < WORDS; k++) {
        bite_style style = plain;
        style.format = words[k];
        refused(write_it(all, which, &style, count_bytes, &error), BITE_BAD_ARGUMENT, &error,
                "style");
        style = plain;
        style.units = words[k];
        refused(write_it(all, which, &style, count_bytes, &error), BITE_BAD_ARGUMENT, &error,
                "style");
        style = plain;
        style.struct_size = words[k];
        refused(write_it(all, which, &style, count_bytes, &error), BITE_BAD_ARGUMENT, &error,
                "style");
        style = plain;
        style.columns = words[k];
        ck_assert_int_eq(write_it(all, which, &style, count_bytes, &error), BITE_OK);
    }
    ck_assert_int_eq(write_it(all, which, NULL, count_bytes, &error),
                     writers[which].style_needed ? BITE_BAD_ARGUMENT : BITE_OK);
}

START_TEST(style_members)
{
    written all;
    make_all(&all);
    for (int which = 0; which < WRITERS; which++) {
        try_styles(&all, which);
    }
    free_all(&all);
    memset(&all, 0, sizeof all);
    for (int which = 0; which < WRITERS; which++) {
        bite_style style = {(uint32_t)sizeof style, BITE_TEXT, BITE_METRIC, 0, 0, 0, 0, 0};
        bite_status status = write_it(&all, which, &style, count_bytes, NULL);
        ck_assert_int_eq(status, which == 4 || which == 5
                                     ? BITE_OK
                                     : BITE_BAD_ARGUMENT); /* those two take names */
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

/* Of an allocator's three functions seven choices leave one out. */
START_TEST(library_members)
{
    for (int with = 0; with < 8; with++) {
        bite_allocator allocator = {with & 1 ? take : NULL, with & 2 ? resize : NULL,
                                    with & 4 ? release : NULL, NULL};
        bite_library_options options = {sizeof options, &allocator, shop.families, shop.tables};
        bite_library *opened = NULL;
        bite_error error = BITE_ERROR_INIT;
        bite_status status = bite_library_open(&options, &opened, &error);
        if (with == 7) {
            ck_assert_int_eq(status, BITE_OK);
        } else {
            refused(status, BITE_BAD_ARGUMENT, &error, "");
            ck_assert_ptr_null(opened);
        }
        bite_library_close(opened);
    }
    static const size_t sizes[] = {0, 1, sizeof(bite_library_options) - 1,
                                   sizeof(bite_library_options) + 1, SIZE_MAX};
    for (size_t k = 0; k < sizeof sizes / sizeof *sizes; k++) {
        bite_library_options options = {sizes[k], NULL, shop.families, shop.tables};
        bite_library *opened = NULL;
        bite_error error = BITE_ERROR_INIT;
        refused(bite_library_open(&options, &opened, &error), BITE_BAD_ARGUMENT, &error, "");
    }
    bite_library_options options = {sizeof options, NULL, shop.families, shop.tables};
    ck_assert_int_eq(bite_library_open(&options, NULL, NULL), BITE_BAD_ARGUMENT);
}
END_TEST

/* An error of another size is left alone; what it would have said is lost, no more. */
START_TEST(error_of_another_size)
{
    for (size_t k = 0; k < WORDS; k++) {
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
    tcase_add_unchecked_fixture(all, open_shop, close_shop);
    tcase_add_test(all, choice_tools);
    tcase_add_test(all, choice_steps);
    tcase_add_test(all, choice_words_and_numbers);
    tcase_add_test(all, answer_draws_and_confidence);
    tcase_add_test(all, window_members);
    tcase_add_test(all, job_members);
    tcase_add_test(all, style_members);
    tcase_add_test(all, library_members);
    tcase_add_test(all, error_of_another_size);
    suite_add_tcase(suite, all);
    return bite_test_run(suite);
}
