/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The shop's recorded times: which record belongs to which job, a full table, killed and concurrent
 * writers. */
#include "core/job/title_key.h"
#include "core/library/schema.h"
#include "tests/job/job_fixture.h"
#include <dirent.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#define REST                                                                                       \
    "[part]\nmaterial = acrylic/cast\nlength = 40 mm\nwidth = 30 mm\nthickness = 2 "               \
    "mm\n[hold]\nmethod = tape\n"                                                                  \
    "[pass.a]\nwork = cut-free\ntool = 2mm\nspindle = 9000rpm\nfeed = 300mm/min\n"
#define TIMES_HEAD "[format]\nkind = times\nversion = 1\n"
#define FIGURES                                                                                    \
    "planned = 100 s\nplanned.source = estimate: planned\ntook = 150 s\ntook.source = "            \
    "common-practice: here\n"

static char times[800];
static char times_folder[700];

static void setup(void)
{
    job_setup();
    (void)snprintf(times_folder, sizeof times_folder, "%s/data/coolbite/tables", job_shop.root);
    (void)snprintf(times, sizeof times, "%s/times.ini", times_folder);
}

static void reopen(void)
{
    bite_library_close(job_library);
    job_library = bite_test_shop_open(&job_shop, NULL);
}

/* title NULL: the file name is the title. */
static bite_job *plan_titled(const char *title, const char *file)
{
    char text[4000];
    bite_job *job = NULL;
    bite_error error = BITE_ERROR_INIT;
    bite_job_options options = job_options(BITE_DRAWS_NONE);
    int length = title == NULL
                     ? snprintf(text, sizeof text, HEAD REST)
                     : snprintf(text, sizeof text, HEAD "[job]\ntitle = \"%s\"\n" REST, title);
    ck_assert(length > 0 && (size_t)length < sizeof text);
    ck_assert_msg(bite_job_parse(job_library, file, text, strlen(text), &options, NULL, NULL, &job,
                                 &error) == BITE_OK,
                  "%s: %s", error.key, error.message);
    return job;
}

static bite_status keep(const char *title, const char *file, double seconds, bite_error *error)
{
    bite_job *job = plan_titled(title, file);
    bite_status status = bite_job_time_add(job, seconds, error);
    bite_job_free(job);
    return status;
}

static void kept(const char *title, double seconds)
{
    bite_error error = BITE_ERROR_INIT;
    ck_assert_msg(keep(title, "job.ini", seconds, &error) == BITE_OK, "%s: %s", error.file,
                  error.message);
}

static bite_status forget(const char *title)
{
    bite_job *job = plan_titled(title, "job.ini");
    bite_status status = bite_job_time_remove(job, NULL);
    bite_job_free(job);
    return status;
}

/* The text of the table; owned. */
static char *read_table(void)
{
    FILE *file = fopen(times, "rb");
    ck_assert_msg(file != NULL, "%s", times);
    char *text = calloc(1, (1 << 20) + 1);
    ck_assert_ptr_nonnull(text);
    (void)fread(text, 1, 1 << 20, file);
    (void)fclose(file);
    return text;
}

static size_t count_in_table(const char *what)
{
    char *text = read_table();
    size_t count = 0;
    for (const char *at = strstr(text, what); at != NULL; at = strstr(at + 1, what)) {
        count++;
    }
    free(text);
    return count;
}

static void write_table(const char *text)
{
    char path[800];
    (void)snprintf(path, sizeof path, "%s/data", job_shop.root);
    (void)mkdir(path, 0755);
    (void)snprintf(path, sizeof path, "%s/data/coolbite", job_shop.root);
    (void)mkdir(path, 0755);
    (void)mkdir(times_folder, 0755);
    bite_test_write(times, text, strlen(text));
}

/* The number of records that are read. */
static size_t records(void)
{
    reopen();
    size_t count = bite_library_count(job_library, BITE_TIMES);
    ck_assert_uint_eq(bite_library_count(job_library, BITE_LEFT_OUT), 0);
    return count;
}

static size_t files_beside(void)
{
    size_t count = 0;
    DIR *list = opendir(times_folder);
    ck_assert_ptr_nonnull(list);
    for (struct dirent *entry = readdir(list); entry != NULL; entry = readdir(list)) {
        count += strcmp(entry->d_name, ".") != 0 && strcmp(entry->d_name, "..") != 0 &&
                 strcmp(entry->d_name, "times.ini") != 0;
    }
    (void)closedir(list);
    return count;
}

START_TEST(titles_that_differ_in_punctuation_have_separate_records)
{
    static const char *const titles[] = {"Lens 1/2",  "Lens 1-2",   "lens 1/2", "Lens 1 2",
                                         "Lens 1/2!", "Lens (1/2)", "!",        "?",
                                         "job",       "100 %",      "100 %25",  "100 %"};
    size_t count = sizeof titles / sizeof *titles -
                   1; /* the last one again: replaces the first with that title */
    for (size_t i = 0; i <= count; i++) {
        kept(titles[i], 1000.0 + (double)i);
    }
    ck_assert_uint_eq(records(), count);
    for (size_t i = 0; i < count; i++) {
        char line[100];
        (void)snprintf(line, sizeof line, "took = %zu s\n", 1000 + (i == 9 ? count : i));
        ck_assert_msg(count_in_table(line) == 1, "%s", line);
    }
    kept("Lens 1-2", 2000.0);
    ck_assert_uint_eq(count_in_table("took = 1001 s"), 0);
    ck_assert_uint_eq(count_in_table("took = 1000 s"), 1);
    ck_assert_int_eq(forget("Lens 1/2"), BITE_OK);
    ck_assert_int_eq(forget("Lens 1/2"), BITE_UNKNOWN_NAME);
    ck_assert_uint_eq(count_in_table("took = 1000 s"), 0);
    ck_assert_uint_eq(records(), count - 1);
}
END_TEST

/* Decodes the value of a key independently: %22 and the like are bytes. */
static void decode(const char *value, char *title)
{
    for (; *value != 0; title++) {
        unsigned byte = 0;
        if (value[0] == '%' && sscanf(value + 1, "%2x", &byte) == 1 &&
            strspn(value + 1, "0123456789abcdefABCDEF") >= 2) {
            *title = (char)(unsigned char)byte;
            value += 3;
        } else {
            *title = *value++;
        }
    }
    *title = 0;
}

static const char *const odd_titles[] = {"plain",
                                         "a \"quoted\" one",
                                         "back\\slash",
                                         "100 %",
                                         "100 %25",
                                         "%",
                                         "%%",
                                         "%2",
                                         "%22",
                                         "\"22",
                                         "%\"",
                                         "%a\"",
                                         "%2\"",
                                         " edge",
                                         "edge ",
                                         "  ",
                                         "a;b#c",
                                         "tab\there",
                                         "line\nend",
                                         "\033[31mred",
                                         "\x7f",
                                         "\xff\xfe",
                                         "half \xe2\x82",
                                         "\xe2\x82\xac",
                                         "\xc2\x85",
                                         "\xc3\x9c",
                                         "'single'",
                                         "[x]",
                                         "=",
                                         "a = b"};

/* No two titles have the same value, and each value can be written to a table unchanged. */
START_TEST(every_title_has_its_own_value)
{
    enum { COUNT = sizeof odd_titles / sizeof *odd_titles };
    bite_arena *arena = bite_arena_new(bite_memory_default());
    const char *values[COUNT];
    for (size_t i = 0; i < COUNT; i++) {
        char title[100];
        char text[1000];
        bite_table *table = NULL;
        bite_error error = BITE_ERROR_INIT;
        values[i] = bite_title_value(arena, odd_titles[i]);
        ck_assert_ptr_nonnull(values[i]);
        decode(values[i], title);
        ck_assert_str_eq(title, odd_titles[i]);
        for (size_t k = 0; k < i; k++) {
            ck_assert_str_ne(values[i], values[k]);
        }
        (void)snprintf(text, sizeof text, TIMES_HEAD "[time.x]\ntitle = \"%s\"\n" FIGURES,
                       values[i]);
        ck_assert_msg(bite_table_parse(bite_memory_default(), text, strlen(text), "t",
                                       bite_time_records_schema(), NULL, NULL, &table,
                                       &error) == BITE_OK,
                      "%s: %s", values[i], error.message);
        ck_assert_str_eq(bite_section_value(bite_table_at(table, 0), "title")->text, values[i]);
        bite_table_free(table);
    }
    bite_arena_free(arena);
}
END_TEST

START_TEST(file_name_is_the_default_title)
{
    static const char *const files[] = {"5\" lens.ini", "5' lens.ini", "5 lens.ini", "a\\b.ini",
                                        "\xff.ini"};
    bite_error error = BITE_ERROR_INIT;
    for (int round = 0; round < 2; round++) {
        for (size_t i = 0; i < 5; i++) {
            ck_assert_msg(keep(NULL, files[i], 100.0 + (double)i, &error) == BITE_OK, "%s: %s",
                          files[i], error.message);
        }
        ck_assert_uint_eq(records(), 5);
    }
    char longest[1200];
    memset(longest, 'x', sizeof longest);
    longest[sizeof longest - 1] = 0;
    char *before = read_table();
    ck_assert_int_eq(keep(NULL, longest, 100.0, &error), BITE_OUT_OF_RANGE);
    ck_assert_ptr_nonnull(strstr(error.message, "too long"));
    longest[980] = 0;
    ck_assert_int_eq(keep(NULL, longest, 100.0, &error), BITE_OK);
    ck_assert_uint_eq(records(), 6);
    free(before);
}
END_TEST

/* Records without a title, old ones and those written by hand, are read, used, replaced and
 * deleted. */
START_TEST(records_without_a_title_are_read)
{
    write_table(TIMES_HEAD
                "[time.lens-1-2]\n" FIGURES "# by hand\n[time.old-job]\n" FIGURES
                "[time.named]\ntitle = an old job\n"
                "planned = 100 s\nplanned.source = memory\ntook = 300 s\ntook.source = memory\n");
    ck_assert_uint_eq(records(), 3);
    bite_job *job = plan_titled("Another", "job.ini");
    ck_assert_uint_eq(job->time.records, 3);
    bite_job_free(job);
    kept("Lens 1/2", 200.0); /* the first of that name replaces the old record */
    ck_assert_uint_eq(count_in_table("[time.lens-1-2]"), 1);
    ck_assert_uint_eq(count_in_table("took = 200 s"), 1);
    kept("Lens 1-2", 210.0); /* the second does not */
    ck_assert_uint_eq(count_in_table("took = 200 s"), 1);
    ck_assert_uint_eq(count_in_table("[time.lens-1-2-2]"), 1);
    ck_assert_uint_eq(records(), 4);
    ck_assert_int_eq(forget("old JOB"), BITE_OK);
    ck_assert_int_eq(forget("An old job"), BITE_UNKNOWN_NAME);
    ck_assert_int_eq(forget("an old job"), BITE_OK);
    ck_assert_uint_eq(records(), 2);
    ck_assert_uint_eq(count_in_table("# by hand"), 1);
}
END_TEST

/* [format] last, indented sections: only the lines of the record are deleted. */
START_TEST(only_the_lines_of_a_record_are_deleted)
{
    write_table("[time.a]\n" FIGURES "  [time.b]\n" FIGURES
                "# note\n\t[format]\nkind = times\nversion = 1\n");
    ck_assert_uint_eq(records(), 2);
    ck_assert_int_eq(forget("b"), BITE_OK);
    ck_assert_uint_eq(records(), 1);
    ck_assert_uint_eq(count_in_table("# note\n\t[format]\n"), 1);
    ck_assert_int_eq(forget("a"), BITE_OK);
    ck_assert_uint_eq(records(), 0);
    kept("a", 100.0);
    ck_assert_uint_eq(records(), 1);
}
END_TEST

static char *table_of(size_t count, size_t comment)
{
    size_t capacity = comment + count * 300 + 1000;
    char *text = calloc(1, capacity);
    ck_assert_ptr_nonnull(text);
    size_t used = (size_t)snprintf(text, capacity, TIMES_HEAD);
    for (size_t i = 0; i < count; i++) {
        used += (size_t)snprintf(text + used, capacity - used,
                                 "[time.t%zu]\ntitle = t %zu\n" FIGURES, i, i);
    }
    for (size_t i = 0; i < comment; i++) {
        text[used++] = i % 100 == 99 ? '\n' : '#';
    }
    text[used] = 0;
    return text;
}

/* A table with space for one more record: the next is refused with a message, and everything there
 * still works. */
static void fill(size_t count, size_t comment)
{
    bite_error error = BITE_ERROR_INIT;
    char *text = table_of(count, comment);
    write_table(text);
    ck_assert_uint_eq(records(), count);
    kept("the last", 100.0);
    ck_assert_uint_eq(records(), count + 1);
    char *before = read_table();
    ck_assert_int_eq(keep("one too many", "job.ini", 100.0, &error), BITE_CANNOT_WRITE);
    ck_assert_ptr_nonnull(strstr(error.message, "is full and was left unchanged"));
    ck_assert_ptr_nonnull(strstr(error.hint, "forget"));
    ck_assert_str_eq(error.file, times);
    char *after = read_table();
    ck_assert_str_eq(before, after);
    ck_assert_uint_eq(files_beside(), 0);
    ck_assert_uint_eq(records(), count + 1);
    kept("the last", 200.0); /* a record can still be replaced */
    ck_assert_int_eq(forget("t 1"), BITE_OK);
    kept("one too many", 100.0);
    ck_assert_uint_eq(records(), count + 1);
    bite_job *job = plan_titled("Another", "job.ini");
    ck_assert_uint_gt(job->time.records, 0);
    bite_job_free(job);
    free(text);
    free(before);
    free(after);
}

START_TEST(full_number_of_keys_is_reported)
{
    fill(2665, 0); /* 16000 keys: 3 of [format], 6 a record */
}
END_TEST

START_TEST(full_file_size_is_reported)
{
    char *text = table_of(3, 0);
    size_t capacity = ((size_t)1 << 20) - strlen(text) -
                      250; /* space for a record of less than 200 bytes, but not for two */
    free(text);
    fill(3, capacity);
}
END_TEST

START_TEST(table_behind_a_link_is_written)
{
    char real[700];
    struct stat about;
    (void)snprintf(real, sizeof real, "%s/real.ini", job_shop.root);
    write_table(TIMES_HEAD);
    ck_assert_int_eq(rename(times, real), 0);
    ck_assert_int_eq(symlink("../../../real.ini", times), 0);
    kept("Linked", 100.0);
    ck_assert_int_eq(lstat(times, &about), 0);
    ck_assert(S_ISLNK(about.st_mode));
    ck_assert_uint_eq(records(), 1);
    ck_assert_int_eq(forget("Linked"), BITE_OK);
    ck_assert_uint_eq(records(), 0);
}
END_TEST

START_TEST(file_that_is_not_a_table_is_not_changed)
{
    bite_error error = BITE_ERROR_INIT;
    struct stat about;
    write_table(TIMES_HEAD);
    ck_assert_int_eq(unlink(times), 0);
    ck_assert_int_eq(mkfifo(times, 0600), 0);
    ck_assert_int_eq(keep("x", "job.ini", 100.0, &error), BITE_CANNOT_WRITE);
    ck_assert_int_eq(lstat(times, &about), 0);
    ck_assert(S_ISFIFO(about.st_mode));
    ck_assert_int_eq(unlink(times), 0);
    ck_assert_int_eq(mkdir(times, 0700), 0);
    ck_assert_int_eq(keep("x", "job.ini", 100.0, &error), BITE_CANNOT_WRITE);
    ck_assert_int_eq(rmdir(times), 0);
    ck_assert_int_eq(symlink("times.ini", times), 0);
    ck_assert_int_eq(keep("x", "job.ini", 100.0, &error), BITE_CANNOT_WRITE);
    ck_assert_uint_eq(files_beside(), 0);
}
END_TEST

/* Killed at any moment: the table is complete, and the next writer removes what is left. */
START_TEST(killed_writers_leave_a_complete_table)
{
    kept("first", 100.0);
    bite_job *job = plan_titled("victim", "job.ini");
    for (int i = 0; i < 40; i++) {
        pid_t child = fork();
        if (child == 0) {
            for (int k = 1;; k++) {
                if (bite_job_time_add(job, 100.0 + k, NULL) != BITE_OK) {
                    _exit(1);
                }
            }
        }
        (void)usleep((useconds_t)(300 + 431 * i));
        (void)kill(child, SIGKILL);
        int status = 0;
        ck_assert_int_eq(waitpid(child, &status, 0), child);
        ck_assert(WIFSIGNALED(status));
        ck_assert_uint_le(files_beside(), 1);
        size_t count = records();
        ck_assert(count == 1 || count == 2);
    }
    bite_job_free(job);
    kept("last", 100.0);
    ck_assert_uint_eq(files_beside(), 0);
    ck_assert_uint_ge(records(), 2);
}
END_TEST

START_TEST(records_of_concurrent_writers_are_all_kept)
{
    enum { WRITERS = 6, EACH = 5 };
    pid_t writers[WRITERS];
    for (int i = 0; i < WRITERS; i++) {
        writers[i] = fork();
        if (writers[i] == 0) {
            for (int k = 0; k < EACH; k++) {
                char title[40];
                (void)snprintf(title, sizeof title, "Job %d/%d", i, k);
                if (keep(title, "job.ini", 100.0, NULL) != BITE_OK) {
                    _exit(1);
                }
            }
            _exit(0);
        }
    }
    for (int i = 0; i < WRITERS; i++) {
        int status = -1;
        ck_assert_int_eq(waitpid(writers[i], &status, 0), writers[i]);
        ck_assert(WIFEXITED(status) && WEXITSTATUS(status) == 0);
    }
    ck_assert_uint_eq(records(), WRITERS * EACH);
    ck_assert_uint_eq(files_beside(), 0);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("time records");
    TCase *tests = tcase_create("time records");
    tcase_set_timeout(tests, 120);
    tcase_add_checked_fixture(tests, setup, job_teardown);
    tcase_add_test(tests, titles_that_differ_in_punctuation_have_separate_records);
    tcase_add_test(tests, every_title_has_its_own_value);
    tcase_add_test(tests, file_name_is_the_default_title);
    tcase_add_test(tests, records_without_a_title_are_read);
    tcase_add_test(tests, only_the_lines_of_a_record_are_deleted);
    tcase_add_test(tests, full_number_of_keys_is_reported);
    tcase_add_test(tests, full_file_size_is_reported);
    tcase_add_test(tests, table_behind_a_link_is_written);
    tcase_add_test(tests, file_that_is_not_a_table_is_not_changed);
    tcase_add_test(tests, killed_writers_leave_a_complete_table);
    tcase_add_test(tests, records_of_concurrent_writers_are_all_kept);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
