/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Styles that a caller fills wrongly: every writer refuses them with one clear error. */
#include "tests/api/example_request.h"
#include <jansson.h>
#include <stdio.h>
#include <string.h>

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
    bite_record *record;
} written;

#define WRITERS 9
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
    {"window",
     1u << BITE_TEXT | 1u << BITE_JSON | 1u << BITE_CSV | 1u << BITE_SVG | 1u << BITE_HTML, 1},
    {"job", 1u << BITE_TEXT | 1u << BITE_JSON | 1u << BITE_HTML, 1},
    {"record report",
     1u << BITE_TEXT | 1u << BITE_JSON | 1u << BITE_CSV | 1u << BITE_HTML | 1u << BITE_QIF, 1},
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
        return bite_library_show(bite_example_library, BITE_GRADES, "acrylic/cast", style, sink,
                                 &bytes, error);
    case 6:
        return bite_window_write(all->window, style, sink, &bytes, error);
    case 7:
        return bite_job_write(all->job, style, sink, &bytes, error);
    default:
        return bite_record_report_write(all->record, style, sink, &bytes, error);
    }
}

/* A record of the job, without readings. */
static bite_record *record_of(const bite_job *job)
{
    char folder[256];
    char path[300];
    bite_record *record = NULL;
    bite_test_folder(folder, sizeof folder);
    (void)snprintf(path, sizeof path, "%s/lens.record", folder);
    ck_assert_int_eq(bite_record_new(job, path, NULL, 0, NULL), BITE_OK);
    ck_assert_int_eq(bite_record_open(path, NULL, NULL, &record, NULL), BITE_OK);
    bite_test_remove(folder);
    return record;
}

static void make_all(written *all)
{
    char path[4096];
    bite_choice_options choice = bite_example_choice();
    bite_window_options window = bite_example_window();
    bite_job_options job = bite_example_job();
    memset(all, 0, sizeof *all);
    bite_test_source(path, sizeof path, "tables/jobs/cover-lens.ini");
    choice.tool_count = 0;
    all->answer = bite_example_answer(64);
    ck_assert_int_eq(bite_choice_new(bite_example_request, &choice, &all->choice, NULL), BITE_OK);
    ck_assert_int_eq(bite_diagnosis_new(all->answer, "melted-edge", &all->after, NULL), BITE_OK);
    ck_assert_int_eq(bite_window_new(all->answer, &window, &all->window, NULL), BITE_OK);
    ck_assert_int_eq(bite_job_open(bite_example_library, path, &job, NULL, NULL, &all->job, NULL),
                     BITE_OK);
    all->record = record_of(all->job);
}

static void free_all(written *all)
{
    bite_record_free(all->record);
    bite_job_free(all->job);
    bite_window_free(all->window);
    bite_diagnosis_free(all->after);
    bite_choice_free(all->choice);
    bite_answer_free(all->answer);
}

static void try_styles(const written *all, int which)
{
    static const bite_style plain = {.struct_size = (uint32_t)sizeof plain};
    bite_error error = BITE_ERROR_INIT;
    for (uint32_t format = 0; format < 40; format++) {
        bite_style style = plain;
        style.format = format;
        int known = format < 32 && (writers[which].formats >> format & 1u);
        bite_status status = write_it(all, which, &style, count_bytes, &error);
        ck_assert_msg(status == (known ? BITE_OK : BITE_BAD_ARGUMENT), "%s as %u: %s",
                      writers[which].name, format, error.message);
        bite_assert_refused(write_it(all, which, &style, NULL, &error), BITE_BAD_ARGUMENT, &error,
                            "s"); /* style or sink */
    }
    for (size_t k = 0; k < BITE_HOSTILE_WORDS; k++) {
        bite_style style = plain;
        style.format = bite_hostile_words[k];
        if (style.format >= 32 || (writers[which].formats >> style.format & 1u) == 0) {
            bite_assert_refused(write_it(all, which, &style, count_bytes, &error),
                                BITE_BAD_ARGUMENT, &error, "style");
        }
        style = plain;
        style.units = bite_hostile_words[k];
        bite_assert_refused(write_it(all, which, &style, count_bytes, &error), BITE_BAD_ARGUMENT,
                            &error, "style");
        style = plain;
        style.json = bite_hostile_words[k];
        bite_assert_refused(write_it(all, which, &style, count_bytes, &error), BITE_BAD_ARGUMENT,
                            &error, "style");
        style = plain;
        style.struct_size = bite_hostile_words[k];
        bite_assert_refused(write_it(all, which, &style, count_bytes, &error), BITE_BAD_ARGUMENT,
                            &error, "style");
        style = plain;
        style.columns = bite_hostile_words[k];
        ck_assert_int_eq(write_it(all, which, &style, count_bytes, &error), BITE_OK);
    }
    ck_assert_int_eq(write_it(all, which, NULL, count_bytes, &error),
                     writers[which].style_needed ? BITE_BAD_ARGUMENT : BITE_OK);
}

START_TEST(writers_refuse_bad_styles)
{
    written all;
    make_all(&all);
    for (int which = 0; which < WRITERS; which++) {
        try_styles(&all, which);
    }
    free_all(&all);
    memset(&all, 0, sizeof all);
    for (int which = 0; which < WRITERS; which++) {
        bite_style style = {.struct_size = (uint32_t)sizeof style};
        bite_status status = write_it(&all, which, &style, count_bytes, NULL);
        ck_assert_int_eq(status, which == 4 || which == 5
                                     ? BITE_OK
                                     : BITE_BAD_ARGUMENT); /* these two need names */
    }
}
END_TEST

/* What a sink got. */
static struct {
    size_t calls;
    size_t bytes;
    size_t parts; /* calls with other than 4 KiB */
    char text[4000000];
} got;

static int keep(void *user, const char *text, size_t size)
{
    (void)user;
    ck_assert_uint_gt(size, 0);
    ck_assert_uint_lt(got.bytes + size, sizeof got.text);
    memcpy(got.text + got.bytes, text, size);
    got.bytes += size;
    got.text[got.bytes] = 0;
    got.calls++;
    got.parts += size != 4096;
    return 0;
}

static void write_again(const written *all, int which, uint32_t format, uint32_t json)
{
    bite_style style;
    bite_style_init(&style);
    style.format = format;
    style.json = json;
    got.calls = got.bytes = got.parts = 0;
    ck_assert_int_eq(write_it(all, which, &style, keep, NULL), BITE_OK);
}

/* A sink may be a call into another language: it gets 4 KiB at a time, and the rest. */
START_TEST(sinks_are_called_seldom)
{
    written all;
    size_t large = 0;
    make_all(&all);
    for (int which = 0; which < WRITERS; which++) {
        for (uint32_t format = 0; format <= BITE_QIF; format++) {
            if (writers[which].formats >> format & 1u) {
                write_again(&all, which, format, BITE_JSON_INDENTED);
                ck_assert_msg(got.parts <= 1 && got.calls == (got.bytes + 4095) / 4096,
                              "%s as %u: %zu bytes in %zu calls", writers[which].name, format,
                              got.bytes, got.calls);
                large += got.bytes > 8192;
            }
        }
    }
    ck_assert_uint_gt(large, 5);
    free_all(&all);
}
END_TEST

/* Refused at any call, a writer says so and does not call again. */
static int refuse_third(void *user, const char *text, size_t size)
{
    (void)text;
    (void)size;
    (void)user;
    ck_assert_uint_lt(got.calls, 3);
    return ++got.calls == 3;
}

START_TEST(refusals_are_final)
{
    written all;
    make_all(&all);
    for (int which = 0; which < WRITERS; which++) {
        for (uint32_t format = 0; format <= BITE_QIF; format++) {
            if (writers[which].formats >> format & 1u) {
                bite_style style;
                bite_style_init(&style);
                style.format = format;
                write_again(&all, which, format, BITE_JSON_INDENTED);
                size_t calls = got.calls;
                got.calls = 0;
                ck_assert_int_eq(write_it(&all, which, &style, refuse_third, NULL),
                                 calls < 3 ? BITE_OK : BITE_CANNOT_WRITE);
            }
        }
    }
    free_all(&all);
}
END_TEST

/* Compact JSON is the same value on one line. */
START_TEST(json_is_compact_or_indented)
{
    written all;
    make_all(&all);
    for (int which = 0; which < WRITERS; which++) {
        write_again(&all, which, BITE_JSON, BITE_JSON_INDENTED);
        json_t *indented = json_loads(got.text, 0, NULL);
        size_t bytes = got.bytes;
        write_again(&all, which, BITE_JSON, BITE_JSON_COMPACT);
        json_t *compact = json_loads(got.text, 0, NULL);
        ck_assert_msg(indented != NULL && json_equal(indented, compact), "%s", writers[which].name);
        ck_assert_uint_lt(got.bytes, bytes);
        ck_assert_ptr_eq(strchr(got.text, '\n'), got.text + got.bytes - 1);
        json_decref(compact);
        json_decref(indented);
    }
    free_all(&all);
}
END_TEST

/* Lists have an entry a line, or are compact too. */
START_TEST(lists_are_compact_or_an_entry_a_line)
{
    for (int sizes = 0; sizes < 2; sizes++) {
        json_t *lists[2];
        for (uint32_t json = 0; json < 2; json++) {
            bite_style style;
            bite_style_init(&style);
            style.format = BITE_JSON;
            style.json = json;
            got.calls = got.bytes = got.parts = 0;
            ck_assert_int_eq(
                sizes ? bite_tool_list_write(bite_example_library, NULL, &style, keep, NULL, NULL)
                      : bite_library_list_write(bite_example_library, BITE_TOOLS, &style, keep,
                                                NULL, NULL),
                BITE_OK);
            lists[json] = json_loads(got.text, 0, NULL);
            size_t lines = 0;
            for (size_t i = 0; i < got.bytes; i++) {
                lines += got.text[i] == '\n';
            }
            ck_assert_uint_eq(lines, json == 0 ? json_array_size(lists[0]) + 2 : 1);
        }
        ck_assert_uint_gt(json_array_size(lists[0]), 0);
        ck_assert(json_equal(lists[0], lists[1]));
        json_decref(lists[0]);
        json_decref(lists[1]);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("styles");
    TCase *all = tcase_create("styles");
    tcase_set_timeout(all, 240);
    tcase_add_unchecked_fixture(all, bite_example_open, bite_example_close);
    tcase_add_test(all, writers_refuse_bad_styles);
    tcase_add_test(all, sinks_are_called_seldom);
    tcase_add_test(all, refusals_are_final);
    tcase_add_test(all, json_is_compact_or_indented);
    tcase_add_test(all, lists_are_compact_or_an_entry_a_line);
    suite_add_tcase(suite, all);
    return bite_test_run(suite);
}
