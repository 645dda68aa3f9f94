/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The shop's recorded times: they correct the plan, and are unchanged if a write fails. */
#include "tests/job/job_fixture.h"
#include <dirent.h>
#include <math.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

/* ---- recorded times ---- */

static void times_path(char *path, size_t size)
{
    (void)snprintf(path, size, "%s/data/coolbite/tables/times.ini", job_shop.root);
}

static char *read_times(void)
{
    char path[800];
    times_path(path, sizeof path);
    FILE *file = fopen(path, "rb");
    ck_assert_msg(file != NULL, "%s", path);
    char *text = calloc(1, 100000);
    ck_assert_ptr_nonnull(text);
    (void)fread(text, 1, 99999, file);
    (void)fclose(file);
    return text;
}

static void reopen(void)
{
    bite_library_close(job_library);
    job_library = bite_test_shop_open(&job_shop, NULL);
}

static bite_job *job_of(const char *title, int count)
{
    return plan_of(HEAD "[job]\ntitle = %s\n" ACRYLIC
                        "count = %d\n[hold]\nmethod = tape\n" ONE_PASS,
                   title, count);
}

static void took(const char *title, int count, double ratio, double more)
{
    bite_error error = BITE_ERROR_INIT;
    bite_job *job = job_of(title, count);
    ck_assert_msg(bite_job_time_add(job, ratio * job->time.whole + more, &error) == BITE_OK,
                  "%s: %s", error.file, error.message);
    bite_job_free(job);
    reopen();
}

START_TEST(recorded_times_correct_the_plan)
{
    bite_job *job = job_of("Plan, of four", 4);
    ck_assert(isnan(job->time.corrected) && job->time.records == 0);
    bite_job_free(job);
    took("First job", 1, 1.5, 0.0); /* one or two: by their mean ratio */
    job = job_of("Plan, of four", 4);
    bite_assert_near(job->time.corrected, 1.5 * job->time.whole, 1e-5);
    bite_job_free(job);
    took("Second job", 1, 2.5, 0.0);
    job = job_of("Plan, of four", 4);
    bite_assert_near(job->time.corrected, 2.0 * job->time.whole, 1e-5);
    bite_job_free(job);
    took("Third", 1, 2.0, 0.0); /* three of the same length determine no line: still the ratio */
    job = job_of("Plan, of four", 4);
    bite_assert_near(job->time.corrected, 2.0 * job->time.whole, 1e-5);
    bite_job_free(job);
    took("First job", 1, 1.25, 300.0); /* again: replaces the first */
    took("Second job", 9, 1.25, 300.0);
    took("Third", 40, 1.25, 300.0);
    char *text = read_times();
    ck_assert_uint_eq(count_of(text, "[time."), 3);
    ck_assert_uint_eq(count_of(text, "[time.first-job]"), 1);
    free(text);
    job = job_of("Plan, of four", 4); /* all on one line: least squares finds it */
    ck_assert_uint_eq(job->time.records, 3);
    bite_assert_near(job->time.corrected, 1.25 * job->time.whole + 300.0, 1e-5);
    char *shown = write_as(job, BITE_TEXT, 0);
    ck_assert_ptr_nonnull(strstr(shown, "corrected by 3 of this shop's own times"));
    free(shown);
    bite_job_free(job);
}
END_TEST

typedef struct recorded {
    double planned; /* s */
    double took;
} recorded;

static void record_all(const recorded *of, size_t count)
{
    growing_text text = {NULL, 0, 0};
    append(&text, "[format]\nkind = times\nversion = 1\n");
    for (size_t i = 0; i < count; i++) {
        append(&text,
               "[time.t%zu]\nplanned = %.9g s\nplanned.source = estimate: planned\ntook = %.9g s\n"
               "took.source = memory\n",
               i, of[i].planned, of[i].took);
    }
    job_own_table("times.ini", text.text);
    free(text.text);
}

/* The plan takes between 500 and 950 s: whole = base + share x whole, by hand. */
START_TEST(records_that_define_no_line)
{
    static const struct {
        recorded records[3];
        size_t count;
        uint32_t used;
        double base; /* s */
        double share;
    } tables[] = {
        {{{100, 150}, {200, 250}, {300, 350}}, 3, 3, 50.0, 1.0},
        /* least squares: 1.5 (x - 200) + 283.333 */
        {{{100, 150}, {200, 250}, {300, 450}}, 3, 3, -16.6666667, 1.5},
        /* it falls: (3 + 1 + 1/3)/3 */
        {{{100, 300}, {200, 200}, {300, 100}}, 3, 3, 0.0, 1.4444444},
        /* 1.1 x - 1050 is below nothing: (0.05 + 0.575 + 0.75)/3 */
        {{{1000, 50}, {2000, 1150}, {3000, 2250}}, 3, 3, 0.0, 0.4583333},
        /* two: (1.5 + 2.5)/2 */
        {{{100, 150}, {200, 500}}, 2, 2, 0.0, 2.0},
        /* thirty times as much, or as little: something else was timed */
        {{{100, 150}, {100, 3000}, {3000, 100}}, 3, 1, 0.0, 1.5},
        {{{100, 2999}, {3000, 100.1}}, 2, 2, 0.0, 15.0116833},
        {{{100, 3000}}, 1, 0, 0.0, NAN},
    };
    for (size_t i = 0; i < sizeof tables / sizeof *tables; i++) {
        record_all(tables[i].records, tables[i].count);
        bite_job *job = job_of("Plan", 1);
        double whole = job->time.whole;
        ck_assert_msg(whole > 500.0 && whole < 950.0, "%g s", whole);
        ck_assert_uint_eq(job->time.records, tables[i].used);
        if (isnan(tables[i].share)) {
            ck_assert(isnan(job->time.corrected));
        } else {
            bite_assert_near(job->time.corrected, tables[i].base + tables[i].share * whole, 1e-7);
        }
        bite_job_free(job);
    }
}
END_TEST

/* Of very many the latest count: the first 44 of 300 took four times as long as planned. */
START_TEST(the_latest_records_count)
{
    recorded many[300];
    for (size_t i = 0; i < 300; i++) {
        many[i] = (recorded){100.0 + (double)i, (i < 44 ? 4.0 : 2.0) * (100.0 + (double)i)};
    }
    record_all(many, 300);
    bite_job *job = job_of("Plan", 1);
    ck_assert_uint_eq(job->time.records, 256);
    bite_assert_near(job->time.corrected, 2.0 * job->time.whole, 1e-9);
    bite_job_free(job);
}
END_TEST

/* Titles that give the same section name have separate records: with other characters, or equal in
 * their first sixty. */
START_TEST(similar_titles_keep_separate_records)
{
    static const char *const titles[] = {
        "\xd0\x9b\xd0\xb8\xd0\xbd\xd0\xb7\xd0\xb0",
        "\xd0\x9e\xd0\xba\xd0\xbd\xd0\xbe",
        "a very long title of a job that goes on and on and on, first half",
        "a very long title of a job that goes on and on and on, second half",
        "!",
        "Plain"};
    for (size_t i = 0; i < 6; i++) {
        took(titles[i], 1, 1.0 + (double)i, 0.0);
    }
    took(titles[0], 1, 3.0, 0.0);
    char *text = read_times();
    ck_assert_msg(count_of(text, "[time.") == 6, "%s", text);
    ck_assert_uint_eq(count_of(text, "[time.job]"), 1);
    ck_assert_uint_eq(count_of(text, "[time.plain]"), 1);
    free(text);
    bite_job *job = job_of("x", 1);
    ck_assert_uint_eq(job->time.records, 6);
    bite_job_free(job);
}
END_TEST

/* The table is read again when a time is added: records that another program has added since, and
 * text that this one cannot read, are kept. */
START_TEST(other_records_are_kept)
{
    static const char other[] = "[format]\nkind = times\nversion = 1\n[time.other]\nplanned = 100 "
                                "s\nplanned.source = memory\ntook = 130 "
                                "s\ntook.source = memory\n";
    char path[800];
    bite_error error = BITE_ERROR_INIT;
    took("Mine", 1, 1.5, 0.0);
    bite_job *job = job_of("Mine too", 1);
    times_path(path, sizeof path);
    bite_test_write(path, other, sizeof other - 1);
    ck_assert_int_eq(bite_job_time_add(job, 500.0, &error), BITE_OK);
    char *text = read_times();
    ck_assert_uint_eq(count_of(text, "[time.other]") + count_of(text, "[time.mine-too]"), 2);
    ck_assert_ptr_nonnull(strstr(text, "took = 130 s"));
    free(text);
    bite_test_write(path, "[format\nkind = times\n", 21);
    ck_assert_int_eq(bite_job_time_add(job, 500.0, &error), BITE_BAD_FILE);
    ck_assert_str_eq(error.file, path);
    text = read_times();
    ck_assert_str_eq(text, "[format\nkind = times\n"); /* edited by hand: must not be discarded */
    free(text);
    bite_job_free(job);
}
END_TEST

static bite_status took_on_a_full_disk(const bite_job *job, size_t capacity)
{
    pid_t child = fork();
    if (child == 0) {
        struct rlimit limit = {capacity, capacity};
        (void)signal(SIGXFSZ, SIG_IGN);
        _exit(setrlimit(RLIMIT_FSIZE, &limit) != 0 ? 99 : (int)bite_job_time_add(job, 900.0, NULL));
    }
    int status = -1;
    ck_assert_int_eq(waitpid(child, &status, 0), child);
    ck_assert(WIFEXITED(status));
    return (bite_status)WEXITSTATUS(status);
}

START_TEST(failed_writes_leave_the_table_as_it_was)
{
    char path[800];
    char folder[700];
    bite_error error = BITE_ERROR_INIT;
    took("Old", 1, 1.5, 0.0);
    char *before = read_times();
    bite_job *job = job_of("New", 1);
    /* capacity for the old table, not for the new one */
    ck_assert_int_eq(took_on_a_full_disk(job, strlen(before) + 40), BITE_CANNOT_WRITE);
    char *after = read_times();
    ck_assert_str_eq(before, after);
    free(after);
    (void)snprintf(folder, sizeof folder, "%s/data/coolbite/tables", job_shop.root);
    DIR *list = opendir(folder);
    ck_assert_ptr_nonnull(list);
    size_t files = 0;
    for (struct dirent *entry = readdir(list); entry != NULL; entry = readdir(list)) {
        files += entry->d_name[0] != '.';
    }
    (void)closedir(list);
    ck_assert_uint_eq(files, 1); /* no partial file is left */
    if (geteuid() != 0) {        /* root can write anywhere */
        ck_assert_int_eq(chmod(folder, 0555), 0);
        ck_assert_int_eq(bite_job_time_add(job, 900.0, &error), BITE_CANNOT_WRITE);
        ck_assert_int_eq(chmod(folder, 0755), 0);
        after = read_times();
        ck_assert_str_eq(before, after);
        free(after);
    }
    /* a file where a folder should be */
    (void)snprintf(path, sizeof path, "%s/data2", job_shop.root);
    bite_test_write(path, "x", 1);
    ck_assert_int_eq(setenv("XDG_DATA_HOME", path, 1), 0);
    ck_assert_int_eq(bite_job_time_add(job, 900.0, &error), BITE_CANNOT_WRITE);
    ck_assert_ptr_nonnull(strstr(error.file, "data2"));
    free(before);
    bite_job_free(job);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("job times");
    TCase *tests = tcase_create("job times");
    tcase_add_checked_fixture(tests, job_setup, job_teardown);
    tcase_add_test(tests, recorded_times_correct_the_plan);
    tcase_add_test(tests, records_that_define_no_line);
    tcase_add_test(tests, the_latest_records_count);
    tcase_add_test(tests, similar_titles_keep_separate_records);
    tcase_add_test(tests, other_records_are_kept);
    tcase_add_test(tests, failed_writes_leave_the_table_as_it_was);
    tcase_set_timeout(tests, 240);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
