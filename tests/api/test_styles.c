/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Styles that a caller fills wrongly: every writer refuses them with one clear error. */
#include "tests/api/example_request.h"
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
    static const bite_style plain = {(uint32_t)sizeof plain, BITE_TEXT, BITE_METRIC, 0, 0, 0, 0, 0};
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
        bite_style style = {(uint32_t)sizeof style, BITE_TEXT, BITE_METRIC, 0, 0, 0, 0, 0};
        bite_status status = write_it(&all, which, &style, count_bytes, NULL);
        ck_assert_int_eq(status, which == 4 || which == 5
                                     ? BITE_OK
                                     : BITE_BAD_ARGUMENT); /* these two need names */
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
    suite_add_tcase(suite, all);
    return bite_test_run(suite);
}
