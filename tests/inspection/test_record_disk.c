/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A record on a bad disk. The system calls of the library are those below: they write in pieces,
 * are interrupted, find the disk full, fail to sync or to read, or store another byte, as told. */
#include "tests/inspection/record_fixture.h"
#include "tests/support/support.h"
#include <errno.h>
#include <math.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <sys/wait.h>
#include <unistd.h>

static struct disk {
    size_t piece;   /* bytes that a write takes at most; 0: all */
    size_t room;    /* bytes until it is full; SIZE_MAX: never */
    int interrupts; /* calls that are interrupted before one is not */
    int interrupted;
    int sync_fails;
    int cannot_shrink;
    unsigned pause; /* us, after each piece */
    int reads;      /* that succeed before one fails; -1: all */
    int ends;       /* 1: instead of failing, the file seems to end there */
    int garbles;    /* 1: the first byte of what is written is stored as another one */
} disk = {.room = SIZE_MAX, .reads = -1};

static int interrupt(void)
{
    if (disk.interrupted < disk.interrupts) {
        disk.interrupted++;
        errno = EINTR;
        return 1;
    }
    disk.interrupted = 0;
    return 0;
}

static int is_file(int descriptor)
{
    struct stat about;
    return fstat(descriptor, &about) == 0 && S_ISREG(about.st_mode);
}

ssize_t write(int descriptor, const void *text, size_t size)
{
    if (!is_file(descriptor)) {
        return syscall(SYS_write, descriptor, text, size);
    }
    if (interrupt()) {
        return -1;
    }
    size_t part = disk.piece > 0 && disk.piece < size ? disk.piece : size;
    if (disk.room < SIZE_MAX) {
        part = part < disk.room ? part : disk.room;
        disk.room -= part;
        if (part == 0) {
            errno = ENOSPC;
            return -1;
        }
    }
    char other = (char)(*(const char *)text ^ 1);
    ssize_t done = disk.garbles ? syscall(SYS_write, descriptor, &other, 1)
                                : syscall(SYS_write, descriptor, text, part);
    disk.garbles = 0;
    if (disk.pause > 0) {
        (void)usleep(disk.pause);
    }
    return done;
}

ssize_t read(int descriptor, void *text, size_t size)
{
    if (disk.reads == 0 && is_file(descriptor)) {
        errno = EIO;
        return disk.ends ? 0 : -1;
    }
    disk.reads -= disk.reads > 0 && is_file(descriptor);
    return syscall(SYS_read, descriptor, text, size);
}

int fsync(int descriptor)
{
    if (interrupt()) {
        return -1;
    }
    if (disk.sync_fails) {
        errno = EIO;
        return -1;
    }
    return (int)syscall(SYS_fsync, descriptor);
}

int ftruncate(int descriptor, off_t size)
{
    if (disk.cannot_shrink) {
        errno = EIO;
        return -1;
    }
    return (int)syscall(SYS_ftruncate, descriptor, size);
}

static char folder[400];
static char path[500];
static record_text text;

static void setup(void)
{
    bite_test_folder(folder, sizeof folder);
    (void)snprintf(path, sizeof path, "%s/part.record", folder);
    record_text_begin(&text);
    record_text_read(&text, 1, 1, 1, "3.001mm");
    bite_test_write(path, text.text, text.size);
}

static void teardown(void)
{
    disk = (struct disk){.room = SIZE_MAX, .reads = -1};
    bite_test_remove(folder);
}

static bite_record *opened(void)
{
    bite_record *record = NULL;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_msg(bite_record_open(path, NULL, NULL, &record, &error) == BITE_OK, "%u: %s",
                  error.line, error.message);
    return record;
}

static bite_status append(bite_record *record, const char *value, uint64_t *line, bite_error *error)
{
    const bite_record_entry entry = {.struct_size = (uint32_t)sizeof entry,
                                     .action = BITE_RECORD_READ,
                                     .part = 2,
                                     .value = value,
                                     .temperature = (double)NAN,
                                     .time = (double)NAN};
    return bite_record_append(record, &entry, line, error);
}

static size_t readings(void)
{
    bite_record *record = opened();
    size_t count = 0;
    while (bite_record_reading(record, count) != NULL) {
        count++;
    }
    bite_record_free(record);
    return count;
}

START_TEST(pieces_and_interruptions)
{
    bite_record *record = opened();
    disk.piece = 1;
    disk.interrupts = 3;
    for (int i = 0; i < 5; i++) {
        bite_error error = BITE_ERROR_INIT;
        ck_assert_msg(append(record, "3.002", NULL, &error) == BITE_OK, "%s", error.message);
    }
    bite_record_free(record);
    ck_assert_uint_eq(readings(), 6);
}
END_TEST

/* Full after any number of bytes: one clear line, and the file is as it was. */
START_TEST(full)
{
    bite_record *record = opened();
    for (size_t room = 0; room < 60; room++) {
        bite_error error = BITE_ERROR_INIT;
        disk.room = room;
        ck_assert_int_eq(append(record, "3.002", NULL, &error), BITE_CANNOT_WRITE);
        ck_assert_msg(strstr(error.message, "No space left") != NULL, "%s", error.message);
        ck_assert_str_eq(error.hint, "nothing was recorded");
        bite_test_expect_file(path, text.text);
    }
    disk.room = SIZE_MAX;
    ck_assert_int_eq(append(record, "3.002", NULL, NULL), BITE_OK);
    bite_record_free(record);
    ck_assert_uint_eq(readings(), 2);
}
END_TEST

/* Full, and what was written cannot be taken back: the line is torn, which the next append closes.
 */
START_TEST(full_and_stuck)
{
    bite_record *record = opened();
    bite_error error = BITE_ERROR_INIT;
    disk.room = 20;
    disk.cannot_shrink = 1;
    ck_assert_int_eq(append(record, "3.002", NULL, &error), BITE_CANNOT_WRITE);
    ck_assert_msg(strstr(error.hint, "cut off") != NULL, "%s", error.hint);
    disk.room = SIZE_MAX;
    ck_assert_uint_eq(readings(), 1);
    ck_assert_int_eq(append(record, "3.003", NULL, NULL), BITE_OK);
    bite_record_free(record);
    ck_assert_uint_eq(readings(), 2);
}
END_TEST

START_TEST(no_sync)
{
    bite_record *record = opened();
    bite_error error = BITE_ERROR_INIT;
    disk.sync_fails = 1;
    ck_assert_int_eq(append(record, "3.002", NULL, &error), BITE_IO);
    ck_assert_msg(strstr(error.message, "does not confirm") != NULL, "%s", error.message);
    disk.sync_fails = 0;
    bite_test_expect_file(path, text.text);
    bite_record_free(record);
}
END_TEST

START_TEST(no_reading)
{
    bite_error error = BITE_ERROR_INIT;
    for (disk.ends = 0; disk.ends <= 1; disk.ends++) {
        bite_record *record = NULL;
        disk.reads = 0;
        ck_assert_int_eq(bite_record_open(path, NULL, NULL, &record, &error), BITE_IO);
        ck_assert_ptr_null(record);
        ck_assert_msg(strstr(error.message, "cannot be read") != NULL, "%s", error.message);
        disk.reads = -1;
        record = opened();
        record_text_read(&text, 1, 3, 1, "3.004mm"); /* by another program */
        bite_test_write(path, text.text, text.size);
        disk.reads = 0;
        ck_assert_int_eq(append(record, "3.002", NULL, &error), BITE_IO);
        ck_assert_msg(strstr(error.message, "cannot be read") != NULL, "%s", error.message);
        disk.reads = -1;
        bite_test_expect_file(path, text.text);
        bite_record_free(record);
    }
}
END_TEST

/* A line that cannot be read back, or reads otherwise, is not confirmed. A garbled one proves
 * nothing, and is told when the record is read. */
START_TEST(not_stored_as_written)
{
    bite_record *record = opened();
    bite_error error = BITE_ERROR_INIT;
    uint64_t line = 77;
    disk.garbles = 1;
    ck_assert_int_eq(append(record, "3.002", &line, &error), BITE_IO);
    ck_assert_msg(strstr(error.message, "not stored as it was written") != NULL, "%s",
                  error.message);
    ck_assert_msg(strstr(error.hint, "open the record again and look") != NULL, "%s", error.hint);
    ck_assert_uint_eq(line, 77);
    bite_record_free(record);
    record = NULL;
    ck_assert_int_eq(bite_record_open(path, NULL, NULL, &record, &error), BITE_BAD_FILE);
    ck_assert_uint_eq(bite_record_unsettled(record), 1);
    ck_assert_ptr_null(bite_record_reading(record, 1));
    bite_record_free(record);
    bite_test_write(path, text.text, text.size);
    record = opened();
    disk.reads = 0; /* nobody has appended: what is read first is the line itself */
    ck_assert_int_eq(append(record, "3.002", &line, &error), BITE_IO);
    ck_assert_msg(strstr(error.message, "not stored as it was written") != NULL, "%s",
                  error.message);
    ck_assert_uint_eq(line, 77);
    disk.reads = -1;
    bite_record_free(record);
    bite_test_write(path, text.text, text.size);
    record = opened();
    disk.reads = 1; /* it was stored, and cannot be taken into the record that is open */
    ck_assert_int_eq(append(record, "3.002", &line, &error), BITE_IO);
    ck_assert_msg(strstr(error.message, "cannot be read") != NULL, "%s", error.message);
    ck_assert_msg(strstr(error.hint, "the line was recorded") != NULL, "%s", error.hint);
    disk.reads = -1;
    bite_record_free(record);
    ck_assert_uint_eq(readings(), 2);
}
END_TEST

/* Writes in pieces with pauses, so that a kill falls between them. */
static void stream(int out)
{
    bite_record *record = opened();
    disk.piece = 7;
    disk.pause = 100;
    for (unsigned i = 0;; i++) {
        char value[40];
        uint64_t line = 0;
        (void)snprintf(value, sizeof value, "3.%06u", i);
        if (append(record, value, &line, NULL) != BITE_OK ||
            write(out, &line, sizeof line) != (ssize_t)sizeof line) {
            _exit(4);
        }
    }
}

/* Kills while a line is being written tear it; what was confirmed before stays, and writing goes
 * on. BITE_TEST_KILLS: how many times; 50. */
START_TEST(kills_between_pieces)
{
    const char *wanted = getenv("BITE_TEST_KILLS");
    long times = wanted == NULL ? 50 : strtol(wanted, NULL, 10);
    size_t confirmed = 0;
    size_t torn = 0;
    unsigned seed = 4711;
    for (long i = 0; i < times; i++) {
        int ends[2];
        int status = 0;
        uint64_t line = 0;
        size_t at = 0;
        ck_assert_int_eq(pipe(ends), 0);
        pid_t child = fork();
        if (child == 0) {
            stream(ends[1]);
        }
        (void)close(ends[1]);
        seed = seed * 1103515245u + 12345u;
        (void)usleep(2000 + seed / 65536 % 20000);
        ck_assert_int_eq(kill(child, SIGKILL), 0);
        ck_assert_int_eq(waitpid(child, &status, 0), child);
        ck_assert_msg(WIFSIGNALED(status), "it ended with %d", WEXITSTATUS(status));
        bite_record *record = opened();
        torn += bite_record_torn_line(record) > 0;
        while (read(ends[0], &line, sizeof line) == (ssize_t)sizeof line) {
            const bite_reading *one = NULL;
            while ((one = bite_record_reading(record, at)) != NULL && one->line < line) {
                at++;
            }
            ck_assert(one != NULL && one->line == line);
            confirmed++;
        }
        bite_record_free(record);
        (void)close(ends[0]);
    }
    printf("%ld kills between pieces: %zu readings confirmed, 0 lost; %zu torn lines\n", times,
           confirmed, torn);
    ck_assert_uint_gt(torn, (size_t)times / 10);
    ck_assert_uint_gt(confirmed, (size_t)times / 10);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("record_disk");
    TCase *tests = tcase_create("record_disk");
    tcase_add_checked_fixture(tests, setup, teardown);
    tcase_set_timeout(tests, 900);
    tcase_add_test(tests, pieces_and_interruptions);
    tcase_add_test(tests, full);
    tcase_add_test(tests, full_and_stuck);
    tcase_add_test(tests, no_sync);
    tcase_add_test(tests, no_reading);
    tcase_add_test(tests, not_stored_as_written);
    tcase_add_test(tests, kills_between_pieces);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
