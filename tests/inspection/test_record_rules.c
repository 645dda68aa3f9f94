/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rules of a record that few files meet: lines that contradict each other, heads at their bounds,
 * files that are none, and calls that are wrong. */
#include "core/inspection/record_head.h"
#include "core/inspection/size_verdict.h"
#include "tests/inspection/record_fixture.h"
#include "tests/support/support.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define MM 1e-3
#define NONE ((double)NAN)
#define FORMAT "[format]\nkind = record\nversion = 1\n"

static record_text file;
static record_faults faults;
static char folder[400];
static char path[500];

static void make_folder(void)
{
    bite_test_folder(folder, sizeof folder);
    (void)snprintf(path, sizeof path, "%s/part.record", folder);
}

static void remove_folder(void)
{
    bite_test_remove(folder);
}

static uint64_t add(uint32_t action, uint64_t of, uint32_t part, const char *value)
{
    bite_record_line line = {.action = action,
                             .of = of,
                             .characteristic = 1,
                             .part = part,
                             .trial = 1,
                             .temperature = NONE,
                             .time = NONE,
                             .note = "why"};
    (void)snprintf(line.value, sizeof line.value, "%s", value);
    return record_text_line(&file, line);
}

/* ---- lines ---- */

/* What was withdrawn stays withdrawn: its correction is a reading of its own, and withdrawing that
 * gives nothing back. */
START_TEST(a_correction_of_what_was_withdrawn)
{
    record_text_begin(&file);
    uint64_t first = add(BITE_RECORD_READ, 0, 1, "3.05mm");
    add(BITE_RECORD_UNDO, first, 1, "");
    uint64_t second = add(BITE_RECORD_CORRECT, first, 1, "3.01mm");
    struct bite_record *record = record_of(&file, &faults);
    ck_assert_uint_eq(record->readings[0].state, BITE_READING_WITHDRAWN);
    ck_assert_uint_eq(record->readings[1].state, BITE_READING_STANDS);
    ck_assert_uint_eq(record->readings[1].replaces, 0);
    bite_record_free(record);
    add(BITE_RECORD_UNDO, second, 1, "");
    record = record_of(&file, &faults);
    ck_assert_uint_eq(record->readings[0].state, BITE_READING_WITHDRAWN);
    ck_assert_uint_eq(record->readings[1].state, BITE_READING_WITHDRAWN);
    bite_record_free(record);
}
END_TEST

START_TEST(two_persons_withdraw_the_same)
{
    record_text_begin(&file);
    uint64_t first = add(BITE_RECORD_READ, 0, 1, "3.05mm");
    uint64_t by = add(BITE_RECORD_UNDO, first, 1, "");
    add(BITE_RECORD_UNDO, first, 1, "");
    struct bite_record *record = record_of(&file, &faults);
    ck_assert_uint_eq(faults.count, 0);
    ck_assert_uint_eq(record->readings[0].state, BITE_READING_WITHDRAWN);
    ck_assert_uint_eq(record->readings[0].closed_by, by);
    bite_record_free(record);
}
END_TEST

/* A skip that was corrected to a reading is one again when that is withdrawn. */
START_TEST(a_skip_comes_back)
{
    record_text_begin(&file);
    uint64_t skip = add(BITE_RECORD_SKIP, 0, 1, "");
    uint64_t reading = add(BITE_RECORD_CORRECT, skip, 1, "3.01mm");
    struct bite_record *record = record_of(&file, &faults);
    ck_assert_uint_eq(record->readings[0].state, BITE_READING_REPLACED);
    ck_assert_uint_eq(record->readings[1].state, BITE_READING_STANDS);
    bite_record_free(record);
    add(BITE_RECORD_UNDO, reading, 1, "");
    record = record_of(&file, &faults);
    ck_assert_uint_eq(record->readings[0].state, BITE_READING_SKIPPED);
    ck_assert_uint_eq(record->readings[0].closed_by, 0);
    bite_record_free(record);
}
END_TEST

START_TEST(a_part_beyond_all_lots)
{
    record_text_begin(&file);
    add(BITE_RECORD_READ, 0, 10001, "3.05mm");
    add(BITE_RECORD_READ, 0, 10000, "3.05mm");
    struct bite_record *record = record_of(&file, &faults);
    ck_assert_uint_eq(faults.count, 1);
    ck_assert_msg(strstr(faults.first.message, "above 10000") != NULL, "%s", faults.first.message);
    ck_assert_uint_eq(record->reading_count, 1);
    ck_assert_uint_eq(record->readings[0].part, 10000);
    bite_record_free(record);
}
END_TEST

START_TEST(one_line_is_missing)
{
    char expected[80];
    record_text_begin(&file);
    add(BITE_RECORD_READ, 0, 1, "3.05mm");
    uint64_t missing = ++file.line;
    add(BITE_RECORD_READ, 0, 2, "3.05mm");
    struct bite_record *record = record_of(&file, &faults);
    (void)snprintf(expected, sizeof expected, "line %u is missing before this one",
                   (unsigned)missing);
    ck_assert_uint_eq(faults.count, 1);
    ck_assert_str_eq(faults.first.message, expected);
    ck_assert_uint_eq(record->reading_count, 2);
    bite_record_free(record);
}
END_TEST

/* Lines without a checksum, and readings before the head was sealed. */
START_TEST(a_head_without_seal)
{
    file.size = 0;
    file.line = 0;
    record_text_add(&file, record_head);
    record_text_add(&file, "[readings]\n");
    for (size_t i = 0; i < file.size; i++) {
        file.line += file.text[i] == '\n';
    }
    add(BITE_RECORD_READ, 0, 1, "3.05mm");
    struct bite_record *record = record_of(&file, &faults);
    ck_assert_uint_eq(faults.count, 1);
    ck_assert_msg(strstr(faults.first.message, "checksum of the head is missing") != NULL, "%s",
                  faults.first.message);
    bite_record_free(record);
}
END_TEST

START_TEST(a_file_of_rubbish_is_no_record)
{
    struct bite_record *record = NULL;
    bite_error error = BITE_ERROR_INIT;
    record_text_begin(&file);
    for (size_t i = 0; i <= BITE_DAMAGES_MAX; i++) {
        record_text_add(&file, "rubbish\n");
    }
    ck_assert_int_eq(bite_record_parse(bite_memory_default(), file.text, file.size, "part.record",
                                       NULL, NULL, &record, &error),
                     BITE_BAD_FILE);
    ck_assert_ptr_null(record);
    ck_assert_msg(strstr(error.message, "more than 1000 lines are damaged") != NULL, "%s",
                  error.message);
    ck_assert_msg(strstr(error.hint, "a copy of the file") != NULL, "%s", error.hint);
}
END_TEST

/* ---- heads ---- */

static bite_status parse(const char *head, struct bite_record **record, bite_error *error)
{
    *record = NULL;
    return bite_record_parse(bite_memory_default(), head, strlen(head), "part.record", NULL, NULL,
                             record, error);
}

START_TEST(numbers_of_characteristics)
{
    static const char *const bad[] = {"0", "01", "10000", "1x", "", "-1"};
    struct bite_record *record = NULL;
    char head[200];
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        bite_error error = BITE_ERROR_INIT;
        (void)snprintf(head, sizeof head, FORMAT "[characteristic.%s]\nwhat = bore\n", bad[i]);
        ck_assert_int_eq(parse(head, &record, &error), BITE_BAD_FILE);
        ck_assert_ptr_null(record);
        ck_assert_uint_eq(error.line, 4);
    }
    ck_assert_int_eq(parse(FORMAT "[characteristic.9999]\nwhat = bore\n", &record, NULL), BITE_OK);
    ck_assert_uint_eq(bite_record_characteristic(record, 0)->number, 9999);
    bite_record_free(record);
}
END_TEST

START_TEST(at_most_150_characteristics)
{
    struct bite_record *record = NULL;
    bite_error error = BITE_ERROR_INIT;
    file.size = 0;
    record_text_add(&file, FORMAT);
    for (int i = 1; i <= BITE_CHARACTERISTICS_MAX; i++) {
        char section[60];
        (void)snprintf(section, sizeof section, "[characteristic.%d]\nwhat = bore\n", i);
        record_text_add(&file, section);
    }
    ck_assert_int_eq(parse(file.text, &record, &error), BITE_OK);
    ck_assert_uint_eq(record->characteristic_count, 150);
    bite_record_free(record);
    record_text_add(&file, "[characteristic.151]\nwhat = bore\n");
    ck_assert_int_eq(parse(file.text, &record, &error), BITE_BAD_FILE);
    ck_assert_ptr_null(record);
    ck_assert_msg(strstr(error.message, "more than 150") != NULL, "%s", error.message);
    ck_assert_str_eq(error.key, "characteristic.151");
}
END_TEST

static int gather(void *user, const char *text, size_t size)
{
    record_text *to = user;
    ck_assert_uint_lt(to->size + size, sizeof to->text);
    memcpy(to->text + to->size, text, size);
    to->size += size;
    to->text[to->size] = 0;
    return 0;
}

/* A head that is written and read again: sizes as they are, whatever the units. */
START_TEST(heads_are_written_and_read)
{
    for (int units = BITE_METRIC; units <= BITE_INCH; units++) {
        struct bite_record *made = NULL;
        struct bite_record *read = NULL;
        bite_characteristic one;
        ck_assert_int_eq(bite_record_begin(bite_memory_default(), "part.record", &made, NULL),
                         BITE_OK);
        made->units = (uint32_t)units;
        made->part_name = "the \"small\" one\\two";
        made->temperature_uncertainty = 0.25;
        bite_characteristic_init(&one);
        one.number = 7;
        one.what = "bore";
        one.nominal = 12.7 * MM;
        one.lower = 3.141592653589793 * MM;
        one.upper = 25.4 / 3.0 * MM * 2.0;
        one.expansion = 70e-6;
        one.every = 4;
        one.wall_error = 20e-6;
        one.wall_error_low = 10e-6;
        one.wall_error_high = 45e-6;
        made->characteristics = &one;
        made->characteristic_count = 1;
        file.size = 0;
        ck_assert_int_eq(bite_record_head_write(made, gather, &file), BITE_OK);
        ck_assert_msg(strstr(file.text, "part_name = \"the 'small' one/two\"") != NULL, "%s",
                      file.text);
        ck_assert_msg(strstr(file.text, "temperature_uncertainty = 0.25 K") != NULL, "%s",
                      file.text);
        ck_assert_msg(strstr(file.text,
                             units == BITE_INCH ? "nominal = 0.5 in" : "nominal = 12.7 mm") != NULL,
                      "%s", file.text);
        ck_assert_int_eq(parse(file.text, &read, NULL), BITE_OK);
        const bite_characteristic *back = bite_record_characteristic(read, 0);
        ck_assert_uint_eq(back->number, 7);
        ck_assert_uint_eq(back->every, 4);
        bite_assert_near(back->nominal, one.nominal, 1e-14);
        bite_assert_near(back->lower, one.lower, 1e-14);
        bite_assert_near(back->upper, one.upper, 1e-14);
        bite_assert_near(back->wall_error_high, one.wall_error_high, 1e-4);
        bite_assert_near(read->temperature_uncertainty, 0.25, 1e-12);
        bite_record_free(read);
        bite_record_free(made);
    }
}
END_TEST

START_TEST(texts_of_a_head)
{
    struct bite_record *record = NULL;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_record_begin(bite_memory_default(), "part.record", &record, NULL),
                     BITE_OK);
    ck_assert_int_eq(bite_record_head_set(record, "lot", "L-17", &error), BITE_OK);
    ck_assert_str_eq(bite_record_text(record, "lot"), "L-17");
    ck_assert_str_eq(bite_record_text(record, "customer"), "");
    ck_assert_ptr_null(bite_record_text(record, "count")); /* it is no text */
    ck_assert_ptr_null(bite_record_text(record, "no such"));
    ck_assert_int_eq(bite_record_head_set(record, "part_numer", "1", &error), BITE_UNKNOWN_NAME);
    ck_assert_str_eq(error.hint, "did you mean part_number?");
    ck_assert_int_eq(bite_record_head_set(record, "q", "1", &error), BITE_UNKNOWN_NAME);
    ck_assert_msg(strstr(error.hint, "such as part_number, serial_number or lot") != NULL, "%s",
                  error.hint);
    ck_assert_int_eq(bite_record_head_set(record, "lot", "a\"b", &error), BITE_OUT_OF_RANGE);
    ck_assert_str_eq(error.key, "lot");
    ck_assert_str_eq(bite_record_text(record, "lot"), "L-17");
    bite_record_free(record);
}
END_TEST

/* ---- files ---- */

static void opens_not(const char *name, bite_status status, const char *says, const char *hint)
{
    bite_record *record = (bite_record *)(void *)folder;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_record_open(name, NULL, NULL, &record, &error), status);
    ck_assert_ptr_null(record);
    ck_assert_msg(strstr(error.message, says) != NULL, "%s", error.message);
    ck_assert_msg(strstr(error.hint, hint) != NULL, "%s", error.hint);
    ck_assert_str_eq(error.file, name);
}

START_TEST(files_that_are_no_records)
{
    char below[600];
    char loop[600];
    (void)snprintf(below, sizeof below, "%s/below", path);
    (void)snprintf(loop, sizeof loop, "%s/loop", folder);
    opens_not(path, BITE_NOT_FOUND, "cannot be opened", "--job JOB.ini begins one");
    opens_not(folder, BITE_NOT_FOUND, "not a regular file", "");
    ck_assert_int_eq(symlink(loop, loop), 0);
    opens_not(loop, BITE_NOT_FOUND, "cannot be opened", "begins one");
    bite_test_write(path, "x", 1);
    opens_not(below, BITE_NOT_FOUND, "cannot be opened", "begins one");
    ck_assert_int_eq(truncate(path, (off_t)257 << 20), 0); /* with a hole: it takes no space */
    opens_not(path, BITE_BAD_FILE, "too large", "begin another one");
}
END_TEST

static bite_record *opened(void)
{
    bite_record *record = NULL;
    bite_error error = BITE_ERROR_INIT;
    bite_test_write(path, file.text, file.size);
    ck_assert_msg(bite_record_open(path, NULL, NULL, &record, &error) == BITE_OK, "%s",
                  error.message);
    return record;
}

static bite_record_entry reading_of(const char *value)
{
    bite_record_entry entry;
    bite_record_entry_init(&entry);
    entry.part = 1;
    entry.value = value;
    return entry;
}

static void append_fails(bite_record *record, const char *says)
{
    bite_record_entry entry = reading_of("3.01");
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_record_append(record, &entry, NULL, &error), BITE_IO);
    ck_assert_msg(strstr(error.message, says) != NULL, "%s", error.message);
    ck_assert_msg(strstr(error.hint, "nothing was recorded") != NULL, "%s", error.hint);
    bite_record_free(record);
}

START_TEST(files_that_change_while_they_are_open)
{
    record_text_begin(&file);
    bite_record *record = opened();
    ck_assert_int_eq(truncate(path, (off_t)file.size - 9), 0);
    append_fails(record, "became shorter");
    file.size = 0;
    record_text_add(&file, FORMAT "[characteristic.1]\nwhat = bore\n"); /* without its mark */
    record = opened();
    record_text_add(&file, "nominal = 3 mm\n");
    bite_test_write(path, file.text, file.size);
    append_fails(record, "the head of the record has been changed");
}
END_TEST

/* ---- calls ---- */

START_TEST(wrong_calls)
{
    record_text_begin(&file);
    bite_record *record = opened();
    bite_error error = BITE_ERROR_INIT;
    bite_record_entry entry = reading_of("3.01");
    bite_review review;
    bite_review_init(&review);
    size_t at = 77;
    uint32_t part = 77;
    uint32_t verdict = 77;
    ck_assert_int_eq(bite_record_open(NULL, NULL, NULL, &record, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_record_open(path, NULL, NULL, NULL, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_record_append(NULL, &entry, NULL, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_record_append(record, NULL, NULL, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_record_review(NULL, &entry, &review, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_record_review(record, &entry, NULL, &error), BITE_BAD_ARGUMENT);
    entry.characteristic = 3;
    ck_assert_int_eq(bite_record_review(record, &entry, &review, &error), BITE_BAD_ARGUMENT);
    entry.characteristic = 0;
    entry.action = 5;
    ck_assert_int_eq(bite_record_append(record, &entry, NULL, &error), BITE_BAD_ARGUMENT);
    entry.action = BITE_RECORD_READ;
    entry.struct_size = 3;
    ck_assert_int_eq(bite_record_append(record, &entry, NULL, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_record_verdict(record, &verdict, &error), BITE_OK);
    ck_assert_uint_eq(verdict, BITE_UNKNOWN); /* there is no reading */
    verdict = 77;
    ck_assert_int_eq(bite_record_verdict(NULL, &verdict, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_record_verdict(record, NULL, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_record_next(NULL, NULL, 0, 0, &at, &part), 0);
    ck_assert_int_eq(bite_record_next(record, NULL, 0, 0, NULL, &part), 0);
    ck_assert_int_eq(bite_record_next(record, NULL, 0, 0, &at, NULL), 0);
    ck_assert_uint_eq(at + part + verdict, 3 * 77);
    ck_assert_uint_eq(bite_record_unsettled(NULL), 0);
    ck_assert_uint_eq(bite_record_torn_line(NULL), 0);
    ck_assert_uint_eq(bite_record_units(NULL), BITE_METRIC);
    ck_assert_double_nan(bite_record_parts(NULL));
    ck_assert_ptr_null(bite_record_text(NULL, "lot"));
    ck_assert_ptr_null(bite_record_text(record, NULL));
    ck_assert_ptr_null(bite_record_characteristic(NULL, 0));
    ck_assert_ptr_null(bite_record_characteristic(record, 3));
    ck_assert_ptr_null(bite_record_reading(NULL, 0));
    ck_assert_ptr_null(bite_record_reading(record, 0));
    bite_record_free(record);
    bite_record_free(NULL);
}
END_TEST

/* A record that does not state how many parts there are goes on to the last number. */
START_TEST(parts_without_a_count)
{
    size_t at = 0;
    uint32_t part = 0;
    file.size = 0;
    record_text_add(&file, FORMAT "[characteristic.1]\nwhat = bore\nevery = 100\n[readings]\n");
    bite_record *record = opened();
    ck_assert_double_nan(bite_record_parts(record));
    ck_assert_int_eq(bite_record_next(record, NULL, 0, 2, &at, &part), 1);
    ck_assert_uint_eq(part, 101);
    ck_assert_int_eq(bite_record_next(record, "Ann", 2, 9902, &at, &part), 0);
    bite_record_free(record);
}
END_TEST

START_TEST(findings_have_words)
{
    ck_assert_str_eq(bite_finding_word(BITE_FINDING_CONFORMS), "conforms");
    ck_assert_ptr_null(bite_finding_word(BITE_FINDING_COUNT));
    const bite_size_limits none = {NONE, NONE};
    const bite_size_limits some = {1.0, 2.0};
    ck_assert_uint_eq(bite_size_finding(&none, 1.5, 0.1), BITE_FINDING_NONE);
    ck_assert_uint_eq(bite_size_finding(&some, NONE, 0.1), BITE_FINDING_NONE);
    ck_assert_uint_eq(bite_size_finding(&some, 1.5, NONE), BITE_FINDING_NOT_PROVEN);
    ck_assert_uint_eq(bite_size_finding(&some, 1.5, 0.1), BITE_FINDING_CONFORMS);
    ck_assert_uint_eq(bite_size_finding(&some, 2.5, 0.1), BITE_FINDING_DOES_NOT);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("record_rules");
    TCase *tests = tcase_create("record_rules");
    tcase_add_checked_fixture(tests, make_folder, remove_folder);
    tcase_set_timeout(tests, 120);
    tcase_add_test(tests, a_correction_of_what_was_withdrawn);
    tcase_add_test(tests, two_persons_withdraw_the_same);
    tcase_add_test(tests, a_skip_comes_back);
    tcase_add_test(tests, a_part_beyond_all_lots);
    tcase_add_test(tests, one_line_is_missing);
    tcase_add_test(tests, a_head_without_seal);
    tcase_add_test(tests, a_file_of_rubbish_is_no_record);
    tcase_add_test(tests, numbers_of_characteristics);
    tcase_add_test(tests, at_most_150_characteristics);
    tcase_add_test(tests, heads_are_written_and_read);
    tcase_add_test(tests, texts_of_a_head);
    tcase_add_test(tests, files_that_are_no_records);
    tcase_add_test(tests, files_that_change_while_they_are_open);
    tcase_add_test(tests, wrong_calls);
    tcase_add_test(tests, parts_without_a_count);
    tcase_add_test(tests, findings_have_words);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
