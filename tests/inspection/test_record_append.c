/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Appending to a record: what is confirmed stays, whatever happens to the writer, the disk or the
 * file. */
#include "core/base/memory.h"
#include "core/inspection/record.h"
#include "core/inspection/record_line.h"
#include "tests/inspection/record_fixture.h"
#include "tests/support/support.h"
#include <fcntl.h>
#include <math.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#define MM 1e-3

static char folder[400];
static char path[500];
static record_text text;

static void setup(void)
{
    bite_test_folder(folder, sizeof folder);
    (void)snprintf(path, sizeof path, "%s/part.record", folder);
}

static void teardown(void)
{
    bite_test_remove(folder);
}

static void store(void)
{
    bite_test_write(path, text.text, text.size);
}

static bite_record *opened(size_t unsettled)
{
    bite_record *record = NULL;
    bite_error error = BITE_ERROR_INIT;
    bite_status status = bite_record_open(path, NULL, NULL, &record, &error);
    ck_assert_msg(status == (unsettled == 0 ? BITE_OK : BITE_BAD_FILE), "%u: %s", error.line,
                  error.message);
    ck_assert_uint_eq(bite_record_unsettled(record), unsettled);
    return record;
}

static bite_record_entry entry_of(uint32_t action, uint32_t characteristic, uint32_t part,
                                  const char *value)
{
    bite_record_entry entry = {.struct_size = (uint32_t)sizeof entry,
                               .action = action,
                               .characteristic = characteristic,
                               .part = part,
                               .value = value,
                               .person = "Ann",
                               .temperature = (double)NAN,
                               .time = 1.0e9};
    return entry;
}

static uint64_t append(bite_record *record, const bite_record_entry *entry)
{
    bite_error error = BITE_ERROR_INIT;
    uint64_t line = 0;
    ck_assert_msg(bite_record_append(record, entry, &line, &error) == BITE_OK, "%s: %s", error.key,
                  error.message);
    ck_assert_uint_gt(line, 0);
    return line;
}

static uint64_t append_reading(bite_record *record, uint32_t part, const char *value)
{
    bite_record_entry entry = entry_of(BITE_RECORD_READ, 0, part, value);
    return append(record, &entry);
}

static void refuses(bite_record *record, const bite_record_entry *entry, bite_status status,
                    const char *says)
{
    bite_error error = BITE_ERROR_INIT;
    uint64_t line = 77;
    ck_assert_int_eq(bite_record_append(record, entry, &line, &error), status);
    ck_assert_msg(strstr(error.message, says) != NULL, "%s", error.message);
    ck_assert_uint_gt(strlen(error.hint), 0);
    ck_assert_uint_eq(line, 77);
}

static size_t size_of_file(void)
{
    struct stat about;
    ck_assert_int_eq(stat(path, &about), 0);
    return (size_t)about.st_size;
}

START_TEST(lines)
{
    record_text_begin(&text);
    store();
    bite_record *record = opened(0);
    uint64_t first = append_reading(record, 1, " 3.012 ");
    bite_record_entry entry = entry_of(BITE_RECORD_READ, 0, 1, "0.119in");
    entry.temperature = 296.15;
    uint64_t second = append(record, &entry);
    ck_assert_uint_eq(second, first + 1);
    const bite_reading *one = bite_record_reading(record, 0);
    ck_assert_str_eq(one->text, "3.012mm");
    ck_assert_uint_eq(one->trial, 1);
    ck_assert_double_eq(one->time, 1.0e9);
    ck_assert_uint_eq(bite_record_reading(record, 1)->trial, 2);
    entry = entry_of(BITE_RECORD_READ, 2, 1, "ok");
    append(record, &entry);
    ck_assert_str_eq(bite_record_reading(record, 2)->text, "accept");
    entry = entry_of(BITE_RECORD_CORRECT, 0, 0, "3.02");
    entry.of = second;
    append(record, &entry);
    one = bite_record_reading(record, 3);
    ck_assert_uint_eq(one->replaces, second);
    ck_assert_uint_eq(one->trial, 2);
    ck_assert_double_eq_tol(one->temperature, 296.15, 1e-9); /* that of the reading */
    ck_assert_uint_eq(bite_record_reading(record, 1)->state, BITE_READING_REPLACED);
    entry = entry_of(BITE_RECORD_UNDO, 0, 0, NULL);
    entry.of = first;
    append(record, &entry);
    ck_assert_uint_eq(bite_record_reading(record, 0)->state, BITE_READING_WITHDRAWN);
    refuses(record, &entry, BITE_UNKNOWN_NAME, "withdrawn already");
    entry = entry_of(BITE_RECORD_SKIP, 1, 2, NULL);
    refuses(record, &entry, BITE_MISSING, "reason");
    entry.note = "the jaws do not reach";
    append(record, &entry);
    bite_record_free(record);
    record = opened(0); /* what was written is what was kept in memory */
    ck_assert_ptr_nonnull(bite_record_reading(record, 4));
    ck_assert_ptr_null(bite_record_reading(record, 5));
    ck_assert_str_eq(bite_record_reading(record, 4)->note, "the jaws do not reach");
    ck_assert_uint_eq(bite_record_reading(record, 4)->state, BITE_READING_SKIPPED);
    bite_record_free(record);
}
END_TEST

/* A head that somebody wrote, with or without its last line end and its mark. */
START_TEST(head_by_hand)
{
    static const char *const ends[] = {"", "[readings]\n", "[readings]"};
    for (size_t i = 0; i < sizeof ends / sizeof *ends; i++) {
        for (int cut = 0; cut < 2 - (i > 0); cut++) {
            text.size = 0;
            record_text_add(&text, record_head);
            text.size -= (size_t)cut;
            record_text_add(&text, ends[i]);
            store();
            bite_record *record = opened(0);
            bite_record *other = opened(0);
            uint64_t first = append_reading(record, 1, "3.01");
            ck_assert_uint_eq(append_reading(other, 1, "3.02"), first + 1);
            ck_assert_uint_eq(append_reading(record, 1, "3.03"), first + 2);
            bite_record_free(other);
            bite_record_free(record);
            record = opened(0);
            ck_assert_uint_eq(bite_record_reading(record, 2)->line, first + 2);
            ck_assert_uint_eq(bite_record_reading(record, 2)->trial, 3);
            bite_record_free(record);
        }
    }
}
END_TEST

START_TEST(entries_with_faults)
{
    record_text_begin(&text);
    store();
    bite_record *record = opened(0);
    size_t size = size_of_file();
    const struct {
        bite_record_entry entry;
        bite_status status;
        const char *says;
    } bad[] = {
        {entry_of(BITE_RECORD_READ, 0, 1, NULL), BITE_BAD_QUANTITY, "missing"},
        {entry_of(BITE_RECORD_READ, 0, 1, "  "), BITE_BAD_QUANTITY, "missing"},
        {entry_of(BITE_RECORD_READ, 0, 1, "three"), BITE_BAD_QUANTITY, ""},
        {entry_of(BITE_RECORD_READ, 0, 1, "3,01"), BITE_BAD_QUANTITY, ""},
        {entry_of(BITE_RECORD_READ, 0, 1, "nan"), BITE_BAD_QUANTITY, ""},
        {entry_of(BITE_RECORD_READ, 0, 1, "1e999"), BITE_BAD_QUANTITY, ""},
        {entry_of(BITE_RECORD_READ, 0, 1, "3degC"), BITE_BAD_QUANTITY, ""},
        {entry_of(BITE_RECORD_READ, 2, 1, "3.01"), BITE_BAD_QUANTITY, "not a judgement"},
        {entry_of(BITE_RECORD_READ, 0, 0, "3.01"), BITE_OUT_OF_RANGE, "1 to 10000"},
        {entry_of(BITE_RECORD_READ, 0, 10001, "3.01"), BITE_OUT_OF_RANGE, "1 to 10000"},
        {entry_of(BITE_RECORD_READ, 3, 1, "3.01"), BITE_BAD_ARGUMENT, "no such"},
        {entry_of(BITE_RECORD_CORRECT, 0, 0, "3.01"), BITE_UNKNOWN_NAME, "not a reading"},
        {entry_of(BITE_RECORD_UNDO, 0, 0, NULL), BITE_UNKNOWN_NAME, "not a reading"},
        {entry_of(BITE_RECORD_SEAL, 0, 0, NULL), BITE_MISSING, "reason"},
    };
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        refuses(record, &bad[i].entry, bad[i].status, bad[i].says);
    }
    bite_record_entry entry = entry_of(BITE_RECORD_READ, 0, 1, "3.01");
    entry.person = "Ann \"the micrometer\"";
    refuses(record, &entry, BITE_OUT_OF_RANGE, "cannot be in a record");
    entry.person = "Ann\n12 undo of=3";
    refuses(record, &entry, BITE_OUT_OF_RANGE, "cannot be in a record");
    entry.person = "Ann";
    entry.temperature = 23.0;
    refuses(record, &entry, BITE_OUT_OF_RANGE, "temperature");
    ck_assert_uint_eq(size_of_file(), size);
    bite_record_free(record);
}
END_TEST

/* A torn line of any length is closed by the next append and stays as it is. */
START_TEST(torn_line_is_closed)
{
    record_text_begin(&text);
    record_text_read(&text, 1, 1, 1, "3.001mm");
    size_t start = text.size;
    record_text_read(&text, 1, 2, 1, "3.002mm");
    size_t whole = text.size;
    for (size_t size = start; size < whole; size++) {
        text.size = size;
        store();
        bite_record *record = opened(0);
        bool kept = size + 1 == whole; /* only the line end is missing */
        ck_assert_uint_eq(bite_record_torn_line(record) > 0, size > start && !kept);
        append_reading(record, 3, "3.003");
        ck_assert_uint_eq(bite_record_torn_line(record), 0);
        bite_record_free(record);
        record = opened(0);
        ck_assert_ptr_nonnull(bite_record_reading(record, 1 + kept));
        ck_assert_ptr_null(bite_record_reading(record, 2 + kept));
        bite_record_free(record);
        char *now = calloc(1, size_of_file() + 1);
        FILE *stream = fopen(path, "rb");
        ck_assert(now != NULL && stream != NULL);
        ck_assert_uint_eq(fread(now, 1, size, stream), size);
        ck_assert_int_eq(memcmp(now, text.text, size), 0); /* nothing was changed */
        (void)fclose(stream);
        free(now);
    }
}
END_TEST

/* Zeros at the end, as a file system may leave them after a power cut. */
START_TEST(torn_by_zeros)
{
    record_text_begin(&text);
    record_text_read(&text, 1, 1, 1, "3.001mm");
    memset(text.text + text.size, 0, 700);
    text.size += 700;
    store();
    bite_record *record = opened(0);
    append_reading(record, 2, "3.003");
    bite_record_free(record);
    record = opened(0);
    ck_assert_uint_eq(bite_record_reading(record, 1)->part, 2);
    bite_record_free(record);
}
END_TEST

START_TEST(damage_is_settled)
{
    record_text_begin(&text);
    size_t start = text.size;
    uint64_t hurt = record_text_read(&text, 1, 1, 1, "3.001mm");
    record_text_read(&text, 1, 2, 1, "3.002mm");
    *strstr(text.text + start, "3.001") = '2';
    store();
    bite_record *record = opened(1);
    append_reading(record, 1, "3.001"); /* others can be appended */
    ck_assert_uint_eq(bite_record_unsettled(record), 1);
    bite_record_entry entry = entry_of(BITE_RECORD_UNDO, 0, 0, NULL);
    entry.of = hurt;
    entry.note = "read again";
    append(record, &entry);
    ck_assert_uint_eq(bite_record_unsettled(record), 0);
    refuses(record, &entry, BITE_UNKNOWN_NAME, "not a reading");
    bite_record_free(record);
    bite_record_free(opened(0));
}
END_TEST

START_TEST(changed_head_is_sealed)
{
    record_text_begin(&text);
    record_text_read(&text, 1, 2, 1, "3.002mm");
    *strstr(text.text, "LC-7") = 'X';
    store();
    bite_record *record = opened(1);
    bite_record_entry entry = entry_of(BITE_RECORD_SEAL, 0, 0, NULL);
    entry.note = "a slip in the number";
    append(record, &entry);
    ck_assert_uint_eq(bite_record_unsettled(record), 0);
    bite_record_free(record);
    bite_record_free(opened(0));
}
END_TEST

START_TEST(busy)
{
    record_text_begin(&text);
    store();
    bite_record *record = opened(0);
    int other = open(path, O_RDWR);
    ck_assert_int_eq(flock(other, LOCK_EX), 0);
    bite_record_entry entry = entry_of(BITE_RECORD_READ, 0, 1, "3.01");
    refuses(record, &entry, BITE_BUSY, "another program");
    (void)close(other);
    append(record, &entry);
    bite_record_free(record);
}
END_TEST

/* An editor that saves by renaming puts another file in its place. */
START_TEST(replaced)
{
    char aside[600];
    record_text_begin(&text);
    store();
    bite_record *record = opened(0);
    (void)snprintf(aside, sizeof aside, "%s~", path);
    ck_assert_int_eq(rename(path, aside), 0);
    bite_record_entry entry = entry_of(BITE_RECORD_READ, 0, 1, "3.01");
    refuses(record, &entry, BITE_CANNOT_WRITE, "No such file");
    store();
    refuses(record, &entry, BITE_IO, "another file");
    bite_record_free(record);
    record = opened(0);
    bite_test_write(path, text.text, text.size / 2);
    refuses(record, &entry, BITE_IO, "shorter");
    bite_record_free(record);
}
END_TEST

START_TEST(may_not_be_written)
{
    if (geteuid() == 0) {
        return; /* root may write everything */
    }
    record_text_begin(&text);
    store();
    ck_assert_int_eq(chmod(path, 0400), 0);
    bite_record *record = opened(0);
    bite_record_entry entry = entry_of(BITE_RECORD_READ, 0, 1, "3.01");
    refuses(record, &entry, BITE_CANNOT_WRITE, "Permission denied");
    bite_record_free(record);
}
END_TEST

/* The file may not grow beyond a size, as on a full disk: at any byte of a line. */
START_TEST(no_space)
{
    record_text_begin(&text);
    record_text_read(&text, 1, 2, 1, "3.002mm");
    struct rlimit usual;
    struct sigaction old;
    struct sigaction ignored = {0};
    ignored.sa_handler = SIG_IGN;
    ck_assert_int_eq(sigaction(SIGXFSZ, &ignored, &old), 0);
    ck_assert_int_eq(getrlimit(RLIMIT_FSIZE, &usual), 0);
    for (size_t room = 0; room < 90; room += 7) {
        store();
        bite_record *record = opened(0);
        bite_record_entry entry = entry_of(BITE_RECORD_READ, 0, 1, "3.01");
        const struct rlimit limit = {text.size + room, usual.rlim_max};
        ck_assert_int_eq(setrlimit(RLIMIT_FSIZE, &limit), 0);
        bite_error error = BITE_ERROR_INIT;
        bite_status status = bite_record_append(record, &entry, NULL, &error);
        ck_assert_int_eq(setrlimit(RLIMIT_FSIZE, &usual), 0);
        ck_assert_int_eq(status, BITE_CANNOT_WRITE);
        ck_assert_str_eq(error.hint, "nothing was recorded");
        ck_assert_uint_eq(size_of_file(), text.size);
        append(record, &entry); /* with space again */
        bite_record_free(record);
        bite_record_free(opened(0));
    }
    (void)sigaction(SIGXFSZ, &old, NULL);
}
END_TEST

/* Appends readings from now on and confirms each on the pipe after it was appended. */
static void stream(int out, uint32_t part)
{
    bite_record *record = NULL;
    if (bite_record_open(path, NULL, NULL, &record, NULL) != BITE_OK) {
        _exit(3);
    }
    for (uint32_t i = 0;; i++) {
        char value[40];
        (void)snprintf(value, sizeof value, "3.%06umm", (unsigned)i);
        bite_record_entry entry = entry_of(BITE_RECORD_READ, 0, part, value);
        uint64_t line = 0;
        if (bite_record_append(record, &entry, &line, NULL) != BITE_OK) {
            _exit(4);
        }
        double confirmed[2] = {(double)line, 3.0 + 1e-6 * i};
        if (write(out, confirmed, sizeof confirmed) != sizeof confirmed) {
            _exit(5);
        }
    }
}

/* Every line that the pipe confirms is in the record with its value; returns their number. */
static size_t expect_confirmed(const bite_record *record, int in)
{
    double confirmed[2];
    size_t count = 0;
    size_t at = 0;
    while (read(in, confirmed, sizeof confirmed) == (ssize_t)sizeof confirmed) {
        const bite_reading *one = NULL;
        while ((one = bite_record_reading(record, at)) != NULL &&
               one->line < (uint64_t)confirmed[0]) {
            at++;
        }
        ck_assert_ptr_nonnull(one);
        ck_assert_uint_eq(one->line, (uint64_t)confirmed[0]);
        ck_assert_double_eq_tol(one->value, confirmed[1] * MM, 1e-12);
        count++;
    }
    return count;
}

/* Two writers at once are killed at random moments: all that was confirmed is in the file, which
 * can always be read. BITE_TEST_KILLS: how many times; 50. */
START_TEST(kills)
{
    const char *wanted = getenv("BITE_TEST_KILLS");
    long times = wanted == NULL ? 50 : strtol(wanted, NULL, 10);
    size_t confirmed = 0;
    size_t torn = 0;
    unsigned seed = 12345;
    record_text_begin(&text);
    for (long i = 0; i < times; i++) {
        int pipes[2][2];
        pid_t child[2];
        if (i % 20 == 0) {
            store();
        }
        for (uint32_t k = 0; k < 2; k++) {
            ck_assert_int_eq(pipe(pipes[k]), 0);
            child[k] = fork();
            ck_assert_int_ge(child[k], 0);
            if (child[k] == 0) {
                stream(pipes[k][1], k + 1);
            }
            (void)close(pipes[k][1]);
        }
        seed = seed * 1103515245u + 12345u;
        (void)usleep(1000 + seed / 65536 % 20000);
        for (size_t k = 0; k < 2; k++) {
            int status = 0;
            ck_assert_int_eq(kill(child[k], SIGKILL), 0);
            ck_assert_int_eq(waitpid(child[k], &status, 0), child[k]);
            ck_assert_msg(WIFSIGNALED(status), "it ended with %d", WEXITSTATUS(status));
        }
        bite_record *record = opened(0);
        torn += bite_record_torn_line(record) > 0;
        for (size_t k = 0; k < 2; k++) {
            confirmed += expect_confirmed(record, pipes[k][0]);
            (void)close(pipes[k][0]);
        }
        bite_record_free(record);
    }
    printf("%ld kills of two writers: %zu readings confirmed, 0 lost; %zu torn lines\n", times,
           confirmed, torn);
    ck_assert_uint_gt(confirmed, (size_t)times);
}
END_TEST

/* Memory that runs out anywhere: nothing is held, and the file can be read. */
static bite_status read_and_append(void *with, bite_error *error)
{
    bite_allocator allocator = bite_test_allocator(with);
    bite_record *record = NULL;
    bite_record_entry entry = entry_of(BITE_RECORD_READ, 0, 3, "3.01");
    bite_status status = bite_record_read(&allocator, path, NULL, NULL, &record, error);
    if (status == BITE_OK) {
        status = bite_record_append(record, &entry, NULL, error);
    }
    bite_record_free(record);
    return status;
}

START_TEST(memory_runs_out)
{
    bite_test_memory memory = {0};
    record_text_begin(&text);
    for (uint32_t i = 0; i < 31; i++) { /* so that the lists grow by the next one */
        record_text_read(&text, 1, 1, i + 1, "3.001mm");
    }
    store();
    bite_test_fail_allocations(&memory, 1000, 20, read_and_append, &memory);
    bite_record *record = opened(0);
    ck_assert_ptr_nonnull(bite_record_reading(record, 31));
    bite_record_free(record);
}
END_TEST

static bite_review reviewed(const bite_record *record, uint32_t characteristic, const char *value)
{
    bite_record_entry entry = entry_of(BITE_RECORD_READ, characteristic, 1, value);
    bite_review review = {.struct_size = (uint32_t)sizeof review};
    bite_error error = BITE_ERROR_INIT;
    ck_assert_msg(bite_record_review(record, &entry, &review, &error) == BITE_OK, "%s",
                  error.message);
    return review;
}

/* Thickness: 2.9 to 3.1 mm, u = 3 um: guard bands of 1.645 x 3 um = 4.9 um. Width: 29.9 to 30.1 mm,
 * u = 12 um. */
START_TEST(review)
{
    static const struct {
        uint32_t characteristic;
        const char *value;
        uint32_t place;
        uint32_t slip;
        double likely; /* mm */
    } known[] = {
        {0, "3.094", BITE_PLACE_INSIDE, BITE_SLIP_NONE, 0},
        {0, "3.097", BITE_PLACE_GUARD, BITE_SLIP_NONE, 0},
        {0, "3.103", BITE_PLACE_GUARD, BITE_SLIP_NONE, 0},
        {0, "3.106", BITE_PLACE_OUTSIDE, BITE_SLIP_NONE, 0},
        {0, "2.906", BITE_PLACE_INSIDE, BITE_SLIP_NONE, 0},
        {0, "30.01", BITE_PLACE_OUTSIDE, BITE_SLIP_FACTOR, 3.001},
        {0, "0.3012", BITE_PLACE_OUTSIDE, BITE_SLIP_FACTOR, 3.012},
        {0, "0.118", BITE_PLACE_OUTSIDE, BITE_SLIP_FACTOR, 2.9972},
        {0, "3.012in", BITE_PLACE_OUTSIDE, BITE_SLIP_FACTOR, 3.012},
        {0, "3012", BITE_PLACE_OUTSIDE, BITE_SLIP_FACTOR, 3.012},
        {0, "3.0125", BITE_PLACE_INSIDE, BITE_SLIP_FINER, 3.013},
        {1, "30.05", BITE_PLACE_INSIDE, BITE_SLIP_NONE, 0},
        {1, "30.005", BITE_PLACE_INSIDE, BITE_SLIP_FINER, 30.01},
        {1, "1.1815in", BITE_PLACE_INSIDE, BITE_SLIP_NONE, 0}, /* 0.0005 in, as it shows it */
        {1, "1.1813in", BITE_PLACE_INSIDE, BITE_SLIP_FINER, 30.01},
        {1, "45", BITE_PLACE_OUTSIDE, BITE_SLIP_NONE, 0},
        {1, "0", BITE_PLACE_OUTSIDE, BITE_SLIP_FAR, 0},
        {1, "95", BITE_PLACE_OUTSIDE, BITE_SLIP_FAR, 0},
        {1, "1e5", BITE_PLACE_OUTSIDE, BITE_SLIP_FAR, 0},
        {2, "accept", BITE_PLACE_INSIDE, BITE_SLIP_NONE, 0},
        {2, "r", BITE_PLACE_OUTSIDE, BITE_SLIP_NONE, 0},
    };
    record_text_begin(&text);
    store();
    bite_record *record = opened(0);
    for (size_t i = 0; i < sizeof known / sizeof *known; i++) {
        bite_review made = reviewed(record, known[i].characteristic, known[i].value);
        ck_assert_msg(made.place == known[i].place && made.slip == known[i].slip,
                      "%s: place %u, slip %u", known[i].value, made.place, made.slip);
        if (known[i].slip == BITE_SLIP_NONE || known[i].slip == BITE_SLIP_FAR) {
            ck_assert_double_nan(made.likely);
        } else {
            ck_assert_double_eq_tol(made.likely, known[i].likely * MM, 1e-9);
        }
    }
    bite_record_free(record);
}
END_TEST

/* One limit: three times beyond it before a slip is likely. Without an uncertainty the reading
 * itself decides, and nothing is proven. */
START_TEST(review_of_one_limit)
{
    text.size = 0;
    record_text_add(&text, "[format]\nkind = record\nversion = 1\n[record]\nunits = inch\n"
                           "[characteristic.1]\nwhat = flatness\nnominal = 0 mm\nupper = 0.1 mm\n"
                           "[characteristic.2]\nwhat = length\nnominal = 2 in\n");
    store();
    bite_record *record = opened(0);
    bite_review made = reviewed(record, 0, "0.004"); /* in */
    ck_assert_uint_eq(made.place, BITE_PLACE_OUTSIDE);
    ck_assert_uint_eq(made.slip, BITE_SLIP_NONE);
    ck_assert_str_eq(made.text, "0.004in");
    ck_assert_double_nan(made.uncertainty_20);
    ck_assert_uint_eq(reviewed(record, 0, "0.0039").place, BITE_PLACE_INSIDE);
    made = reviewed(record, 0, "0.05");
    ck_assert_uint_eq(made.slip, BITE_SLIP_FACTOR);
    bite_assert_near(made.likely, 0.05 * MM, 1e-9); /* mm read as inches */
    made = reviewed(record, 1, "50.8");
    ck_assert_uint_eq(made.place, BITE_PLACE_NONE);
    ck_assert_uint_eq(made.slip, BITE_SLIP_FACTOR);
    bite_assert_near(made.likely, 50.8 * MM, 1e-9);
    bite_record_free(record);
}
END_TEST

static void next_is(const bite_record *record, const char *person, uint32_t trials, uint32_t from,
                    uint32_t number, uint32_t part)
{
    size_t characteristic = 0;
    uint32_t found = 0;
    ck_assert_int_eq(bite_record_next(record, person, trials, from, &characteristic, &found),
                     number > 0);
    if (number > 0) {
        ck_assert_uint_eq(bite_record_characteristic(record, characteristic)->number, number);
        ck_assert_uint_eq(found, part);
    }
}

/* Three parts; the width on each second one, the first and the last. */
START_TEST(order)
{
    record_text_begin(&text);
    store();
    bite_record *record = opened(0);
    next_is(record, NULL, 0, 0, 1, 1);
    uint64_t first = append_reading(record, 1, "3.01");
    next_is(record, NULL, 0, 0, 2, 1);
    next_is(record, NULL, 0, 2, 1, 2);
    bite_record_entry entry = entry_of(BITE_RECORD_SKIP, 1, 1, NULL);
    entry.note = "no caliper";
    append(record, &entry);
    next_is(record, NULL, 0, 0, 5, 1);
    entry = entry_of(BITE_RECORD_READ, 2, 1, "a");
    append(record, &entry);
    append_reading(record, 2, "3.02");
    next_is(record, NULL, 0, 0, 5, 2);
    entry.part = 2;
    append(record, &entry);
    next_is(record, NULL, 0, 0, 1, 3);
    append_reading(record, 3, "3.02");
    next_is(record, NULL, 0, 0, 2, 3);
    next_is(record, "Ann", 2, 0, 1, 1);
    append_reading(record, 1, "3.012");
    next_is(record, "Ann", 2, 0, 5, 1); /* the skip counts for all trials */
    next_is(record, "Ben", 1, 0, 1, 1);
    next_is(record, NULL, 0, 4, 0, 0);
    entry = entry_of(BITE_RECORD_UNDO, 0, 0, NULL);
    entry.of = first;
    append(record, &entry);
    next_is(record, NULL, 0, 0, 2, 3); /* the second trial stands */
    next_is(record, "Ann", 2, 0, 1, 1);
    bite_record_free(record);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("record_append");
    TCase *tests = tcase_create("record_append");
    tcase_add_checked_fixture(tests, setup, teardown);
    tcase_set_timeout(tests, 600);
    tcase_add_test(tests, lines);
    tcase_add_test(tests, head_by_hand);
    tcase_add_test(tests, entries_with_faults);
    tcase_add_test(tests, torn_line_is_closed);
    tcase_add_test(tests, torn_by_zeros);
    tcase_add_test(tests, damage_is_settled);
    tcase_add_test(tests, changed_head_is_sealed);
    tcase_add_test(tests, busy);
    tcase_add_test(tests, replaced);
    tcase_add_test(tests, may_not_be_written);
    tcase_add_test(tests, no_space);
    tcase_add_test(tests, kills);
    tcase_add_test(tests, memory_runs_out);
    tcase_add_test(tests, review);
    tcase_add_test(tests, review_of_one_limit);
    tcase_add_test(tests, order);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
