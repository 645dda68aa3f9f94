/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Files while calls fail: each call that the library makes fails once in turn, for several
 * reasons, alone or with all after it. What was to be written is complete or as before, what is
 * read is right or refused, and nothing stays open or behind. */
#include "core/base/error.h"
#include "core/base/file.h"
#include "core/base/private_file.h"
#include "core/inspection/record.h"
#include "core/inspection/record_file.h"
#include "tests/inspection/record_fixture.h"
#include "tests/job/job_fixture.h"
#include "tests/machine/call_faults.h"
#include "tests/support/support.h"
#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static char folder[400];
static char path[500];
static record_text record_before;
static bite_job *job; /* whose time is recorded */

static const char *at(const char *name)
{
    (void)snprintf(path, sizeof path, "%s/%s", folder, name);
    return path;
}

/* Empties the folder and puts into it what is there before each act. */
static void prepare(void)
{
    bite_test_remove(folder);
    ck_assert_int_eq(mkdir(folder, 0700), 0);
    bite_test_write(at("old"), "before", 6);
    ck_assert_int_eq(chmod(path, 0640), 0);
    ck_assert_int_eq(symlink("old", at("link")), 0);
    bite_test_write(at("record"), record_before.text, record_before.size);
}

/* -1: there is no such file. */
static long contents(const char *name, char *text, size_t capacity)
{
    FILE *file = fopen(at(name), "rb");
    if (file == NULL) {
        return -1;
    }
    size_t size = fread(text, 1, capacity, file);
    ck_assert_int_eq(fclose(file), 0);
    return (long)size;
}

static int holds(const char *name, const char *text)
{
    char found[200];
    long size = contents(name, found, sizeof found);
    return size == (long)strlen(text) && memcmp(found, text, (size_t)size) == 0;
}

static size_t entries(const char *name)
{
    size_t count = 0;
    DIR *list = opendir(name);
    ck_assert_ptr_nonnull(list);
    while (readdir(list) != NULL) {
        count++;
    }
    (void)closedir(list);
    return count;
}

/* ---- what is done, and what must hold after it ---- */

static bite_status write_new(bite_error *error)
{
    return bite_file_write(at("new"), "after", 5, error);
}

static void new_is_whole_or_absent(bite_status status)
{
    char text[10];
    ck_assert(status == BITE_OK ? holds("new", "after")
                                : contents("new", text, sizeof text) < 0 || holds("new", "after"));
}

static bite_status write_over(bite_error *error)
{
    return bite_file_write(at("old"), "after", 5, error);
}

static bite_status write_through_a_link(bite_error *error)
{
    return bite_file_write(at("link"), "after", 5, error);
}

static bite_status write_in_pieces(bite_error *error)
{
    bite_file_output *output = NULL;
    bite_status status = bite_file_output_open(at("old"), &output, error);
    if (status != BITE_OK) {
        return status;
    }
    status = bite_file_output_write(output, "af", 2, error);
    status = status == BITE_OK ? bite_file_output_write(output, "ter", 3, error) : status;
    if (status == BITE_OK) {
        return bite_file_output_keep(output, error);
    }
    bite_file_output_drop(output);
    return status;
}

static void old_is_whole(bite_status status)
{
    struct stat about;
    ck_assert(holds("old", "after") || (status != BITE_OK && holds("old", "before")));
    ck_assert_int_eq(lstat(at("link"), &about), 0);
    ck_assert(S_ISLNK(about.st_mode));
    ck_assert_int_eq(stat(at("old"), &about), 0);
    ck_assert_int_eq(about.st_mode & 07137, 0); /* not more than it had */
}

static char by_number[100];

static bite_status write_by_number(bite_error *error)
{
    return bite_file_write(by_number, "after", 5, error);
}

/* The file that is open for it holds the text, or a part of it. */
static void open_file_has_it(bite_status status)
{
    char text[10];
    long size = contents("open", text, sizeof text);
    ck_assert(size >= 0 && memcmp(text, "after", (size_t)size) == 0);
    ck_assert(size == 5 || status != BITE_OK);
}

static bite_status lock_a_folder(bite_error *error)
{
    int lock = -1;
    bite_status status = bite_file_lock(at("old"), &lock, error);
    bite_file_unlock(lock);
    return status;
}

/* A file that cannot be examined is not the same as another. */
static bite_status compare(bite_error *error)
{
    char link[500];
    (void)snprintf(link, sizeof link, "%s", at("link"));
    int same = bite_file_same(at("old"), link);
    ck_assert(same == (call_faults_failed(NULL) == 0));
    bite_error_clear(error);
    return BITE_OK;
}

static void nothing_changed(bite_status status)
{
    (void)status;
    ck_assert(holds("old", "before"));
}

static bite_status read_it(bite_error *error)
{
    char *text = NULL;
    size_t size = 0;
    bite_status status = bite_file_read(bite_memory_default(), at("old"), 100, &text, &size, error);
    ck_assert(status != BITE_OK || (size == 6 && memcmp(text, "before", 6) == 0));
    bite_memory_free(bite_memory_default(), text);
    return status;
}

static bite_status make_private(unsigned ways, bite_error *error)
{
    bite_private_file made;
    char text[20];
    bite_status status = bite_private_file_make("secret", 6, ways, &made, error);
    if (status == BITE_OK) {
        call_faults_end();
        FILE *file = fopen(made.path, "rb");
        ck_assert_ptr_nonnull(file);
        ck_assert_uint_eq(fread(text, 1, sizeof text, file), 6);
        (void)fclose(file);
        ck_assert_mem_eq(text, "secret", 6);
        bite_private_file_remove(&made);
    }
    return status;
}

static bite_status make_in_memory(bite_error *error)
{
    return make_private(BITE_PRIVATE_ALL, error);
}

static bite_status make_without_name(bite_error *error)
{
    return make_private(BITE_PRIVATE_BY_PROC, error);
}

static bite_status make_named(bite_error *error)
{
    return make_private(0, error);
}

static bite_status create_record(bite_error *error)
{
    return bite_record_file_create(at("new"), "after", 5, error);
}

static bite_status create_over_record(bite_error *error)
{
    bite_status status = bite_record_file_create(at("record"), "after", 5, error);
    ck_assert_int_ne(status, BITE_OK);
    return status;
}

static void record_is_as_before(bite_status status)
{
    char text[sizeof record_before.text];
    long size = contents("record", text, sizeof text);
    (void)status;
    ck_assert_int_eq(size, (long)record_before.size);
    ck_assert_mem_eq(text, record_before.text, record_before.size);
}

static bite_status read_record(bite_error *error)
{
    bite_record *record = NULL;
    bite_status status = bite_record_open(at("record"), NULL, NULL, &record, error);
    if (status == BITE_OK) {
        ck_assert_uint_eq(record->reading_count, 1);
        ck_assert_uint_eq(record->damage_count, 0);
    }
    bite_record_free(record);
    return status;
}

static bite_status append_reading(bite_error *error)
{
    bite_record *record = NULL;
    bite_record_entry entry;
    bite_record_entry_init(&entry);
    entry.characteristic = 1;
    entry.part = 2;
    entry.value = "3.01mm";
    bite_status status = bite_record_open(at("record"), NULL, NULL, &record, error);
    status = status == BITE_OK ? bite_record_append(record, &entry, NULL, error) : status;
    bite_record_free(record);
    return status;
}

/* What was there is there; the reading too, if it is said to be recorded. */
static void readings_are_kept(bite_status status)
{
    char text[sizeof record_before.text];
    bite_error error = BITE_ERROR_INIT;
    bite_record *record = NULL;
    long size = contents("record", text, sizeof text);
    ck_assert_int_ge(size, (long)record_before.size);
    ck_assert_mem_eq(text, record_before.text, record_before.size);
    ck_assert_int_eq(bite_record_open(at("record"), NULL, NULL, &record, &error), BITE_OK);
    ck_assert_uint_eq(record->damage_count, 0);
    ck_assert(record->reading_count == 2 || (record->reading_count == 1 && status != BITE_OK));
    bite_record_free(record);
}

static bite_status add_time(bite_error *error)
{
    return bite_job_time_add(job, 1800.0, error);
}

/* There is no table of times, or one that is read. */
static void times_are_whole(bite_status status)
{
    bite_error error = BITE_ERROR_INIT;
    bite_library *library = bite_test_shop_open(&job_shop, NULL);
    size_t count = bite_library_count(library, BITE_TIMES);
    ck_assert(count == 1 || (status != BITE_OK && count == 0));
    ck_assert_uint_eq(bite_library_count(library, BITE_LEFT_OUT), 0);
    bite_library_close(library);
    if (count == 1) {
        ck_assert_int_eq(bite_job_time_remove(job, &error), BITE_OK);
    }
}

static bite_status read_tables(bite_error *error)
{
    bite_library_options options;
    bite_library *library = NULL;
    const bite_material *grade = NULL;
    bite_library_options_init(&options);
    options.table_path = job_shop.tables;
    options.family_path = job_shop.families;
    bite_status status = bite_library_open(&options, &library, error);
    status =
        status == BITE_OK ? bite_library_grade(library, "acrylic/cast", &grade, error) : status;
    size_t left_out = library == NULL ? 0 : bite_library_count(library, BITE_LEFT_OUT);
    /* it is there: without it something is told to be left out */
    ck_assert(status != BITE_UNKNOWN_NAME || left_out > 0);
    double density_found =
        status == BITE_OK ? bite_item_figure_or(&grade->record, "density", 0.0) : 0.0;
    bite_library_close(library);
    if (left_out == 0 && status == BITE_OK) {
        ck_assert(density_found > 1100.0 && density_found < 1300.0);
    }
    return status;
}

static const struct scene {
    const char *name;
    bite_status (*act)(bite_error *error);
    void (*judge)(bite_status status);
    size_t adds; /* entries of the folder, at most */
    int calls;   /* at least so many */
} scenes[] = {
    {"write a new file", write_new, new_is_whole_or_absent, 1, 8},
    {"write over a file", write_over, old_is_whole, 0, 8},
    {"write through a link", write_through_a_link, old_is_whole, 0, 9},
    {"write in pieces", write_in_pieces, old_is_whole, 0, 9},
    {"write by the number of a descriptor", write_by_number, open_file_has_it, 1, 2},
    {"lock", lock_a_folder, nothing_changed, 0, 3},
    {"compare", compare, nothing_changed, 0, 4},
    {"read", read_it, nothing_changed, 0, 3},
    {"private, in memory", make_in_memory, nothing_changed, 0, 4},
    {"private, without a name", make_without_name, nothing_changed, 0, 4},
    {"private, named", make_named, nothing_changed, 0, 3},
    {"a new record", create_record, new_is_whole_or_absent, 1, 8},
    {"a record that is there", create_over_record, record_is_as_before, 0, 2},
    {"read a record", read_record, record_is_as_before, 0, 3},
    {"append a reading", append_reading, readings_are_kept, 0, 12},
    {"record a time", add_time, times_are_whole, 0, 12},
    {"read tables", read_tables, nothing_changed, 0, 12},
};

static void setup(void)
{
    job_setup();
    bite_test_folder(folder, sizeof folder);
    (void)setenv("TMPDIR", folder, 1);
    memset(&record_before, 0, sizeof record_before);
    record_text_begin(&record_before);
    (void)record_text_read(&record_before, 1, 1, 1, "3.00mm");
    job = plan(HEAD "[job]\ntitle = lens\n" ACRYLIC "[hold]\nmethod = tape\n" ONE_PASS);
}

static void teardown(void)
{
    bite_job_free(job);
    bite_test_remove(folder);
    job_teardown();
}

/* One act of which a call fails. Returns how many calls it made. */
static int act(const struct scene *scene, int which, int number, int rest)
{
    bite_error error = BITE_ERROR_INIT;
    prepare();
    int open_for = -1;
    if (scene->act == write_by_number) {
        open_for = open(at("open"), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0600);
        if (which % 2 == 0) {
            (void)snprintf(by_number, sizeof by_number, "/dev/fd/%d", open_for);
        } else {
            (void)snprintf(by_number, sizeof by_number, "/proc/%ld/fd/%d", (long)getpid(),
                           open_for);
        }
    }
    size_t open_before = entries("/proc/self/fd");
    size_t files_before = entries(folder);
    call_faults_begin(which, number, rest);
    bite_status status = scene->act(&error);
    int calls = call_faults_end();
    size_t open_after = entries("/proc/self/fd");
    size_t files_after = entries(folder);
    size_t drafts = (size_t)call_faults_failed("unlinkat");
    ck_assert_msg(open_after == open_before, "%s: call %d, errno %d: %zu descriptors, then %zu",
                  scene->name, which, number, open_before, open_after);
    ck_assert_msg(files_after >= files_before && files_after <= files_before + scene->adds + drafts,
                  "%s: call %d, errno %d: %zu files, then %zu", scene->name, which, number,
                  files_before, files_after);
    ck_assert_msg(status == BITE_OK || (error.status == (int32_t)status && error.message[0] != 0),
                  "%s: call %d, errno %d: status %d, but error %d %s", scene->name, which, number,
                  (int)status, (int)error.status, error.message);
    scene->judge(status);
    if (open_for >= 0) {
        (void)close(open_for);
    }
    return calls;
}

#define MANY 50

START_TEST(each_call_fails_once)
{
    static const struct {
        int number;
        int rest;
    } ways[] = {{EIO, 0}, {EIO, 1}, {EACCES, 0}, {ENOSPC, 0}, {ENOMEM, 0}};
    const struct scene *scene = &scenes[_i];
    int calls = act(scene, 0, 0, 0);
    ck_assert_msg(calls >= scene->calls, "%s: only %d calls", scene->name, calls);
    for (size_t k = 0; k < sizeof ways / sizeof *ways; k++) {
        /* of very many calls each fails for the first reason, and some for the others */
        int few = k > 0 || getenv("BITE_TEST_SHORT") != NULL;
        int step = calls > MANY && few ? calls / MANY * 3 + 1 : 1;
        for (int which = 1; which <= calls; which += step) {
            (void)act(scene, which, ways[k].number, ways[k].rest);
        }
    }
    printf("%s: %d calls\n", scene->name, calls);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("failing_files");
    TCase *tests = tcase_create("failing_files");
    tcase_set_timeout(tests, 120);
    tcase_add_checked_fixture(tests, setup, teardown);
    tcase_add_loop_test(tests, each_call_fails_once, 0, sizeof scenes / sizeof *scenes);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
