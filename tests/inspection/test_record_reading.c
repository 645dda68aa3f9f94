/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reading a record: the head, readings and what corrects them, damaged and torn lines. */
#include "core/base/checksum.h"
#include "core/inspection/record_time.h"
#include "tests/inspection/record_fixture.h"
#include "tests/support/support.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

#define MM 1e-3

static record_text file;
static record_faults faults;

static bite_record_line refer(bite_record_action action, uint64_t of)
{
    bite_record_line line = {.action = action,
                             .of = of,
                             .characteristic = 1,
                             .part = 1,
                             .trial = 1,
                             .temperature = (double)NAN,
                             .time = (double)NAN,
                             .value = "3.01mm",
                             .note = "why"};
    return line;
}

/* The check value of CRC-32C, and 32 zeros as in RFC 3720, B.4. */
START_TEST(checksum)
{
    char zeros[32] = {0};
    ck_assert_uint_eq(bite_checksum("123456789", 9), 0xe3069283u);
    ck_assert_uint_eq(bite_checksum(zeros, sizeof zeros), 0x8a9136aau);
}
END_TEST

START_TEST(times)
{
    static const struct {
        const char *text;
        double seconds;
    } known[] = {{"1970-01-01T00:00:00Z", 0.0},           {"2000-02-29T12:00:00Z", 951825600.0},
                 {"2001-09-09T01:46:40Z", 1000000000.0},  {"2100-03-01T00:00:00Z", 4107542400.0},
                 {"2400-02-29T00:00:00Z", 13574563200.0}, {"9999-12-31T23:59:59Z", 253402300799.0}};
    static const char *const bad[] = {"2001-02-29T00:00:00Z", "2100-02-29T00:00:00Z",
                                      "1969-12-31T23:59:59Z", "2001-13-01T00:00:00Z",
                                      "2001-01-01 00:00:00Z", "2001-01-01T24:00:00Z",
                                      "2001-01-01T00:00:00",  "",
                                      "2001-00-01T00:00:00Z", "2001-01-00T00:00:00Z",
                                      "2001-04-31T00:00:00Z", "2001-01-01T00:60:00Z",
                                      "2001-01-01T00:00:60Z", "2001-01-01T0x:00:00Z"};
    char text[BITE_RECORD_TIME_MAX];
    double seconds = -1.0;
    for (size_t i = 0; i < sizeof known / sizeof *known; i++) {
        ck_assert(bite_record_time_read(known[i].text, strlen(known[i].text), &seconds));
        ck_assert_double_eq(seconds, known[i].seconds);
        bite_record_time_write(seconds, text);
        ck_assert_str_eq(text, known[i].text);
    }
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        ck_assert_msg(!bite_record_time_read(bad[i], strlen(bad[i]), &seconds), "%s", bad[i]);
    }
    bite_record_time_write(-5.0, text);
    ck_assert_str_eq(text, "1970-01-01T00:00:00Z");
}
END_TEST

START_TEST(whole_head)
{
    record_text_begin(&file);
    struct bite_record *record = record_of(&file, &faults);
    ck_assert_uint_eq(faults.count, 0);
    ck_assert_str_eq(record->part_name, "lens cover");
    ck_assert_str_eq(record->part_number, "LC-7");
    ck_assert_str_eq(record->lot, "");
    ck_assert_double_eq(record->count, 3.0);
    ck_assert_uint_eq(record->characteristic_count, 3);
    const bite_characteristic *thick = &record->characteristics[0]; /* by their numbers */
    const bite_characteristic *width = &record->characteristics[1];
    const bite_characteristic *thread = &record->characteristics[2];
    ck_assert_uint_eq(thick->number, 1);
    ck_assert_uint_eq(thick->measures, BITE_MEASURED_THICKNESS);
    ck_assert_uint_eq(thick->every, 1);
    ck_assert_double_nan(thick->expansion);
    ck_assert_uint_eq(width->number, 2);
    bite_assert_near(width->upper, 30.1 * MM, 1e-12);
    bite_assert_near(width->wall_error_high, 45e-6, 1e-12);
    bite_assert_near(width->wall_error_low, 10e-6, 1e-12);
    ck_assert_uint_eq(width->pass, 3);
    ck_assert_uint_eq(width->every, 2);
    ck_assert_uint_eq(thread->number, 5);
    ck_assert_uint_eq(thread->judged, 1);
    ck_assert_double_nan(thread->lower);
    bite_record_free(record);
}
END_TEST

static void refused(const char *head, const char *message, uint32_t line)
{
    struct bite_record *record = NULL;
    bite_error error = BITE_ERROR_INIT;
    bite_status status = bite_record_parse(bite_memory_default(), head, strlen(head), "part.record",
                                           NULL, NULL, &record, &error);
    ck_assert_int_eq(status, BITE_BAD_FILE);
    ck_assert_ptr_null(record);
    ck_assert_msg(strstr(error.message, message) != NULL, "%s", error.message);
    ck_assert_uint_eq(error.line, line);
}

#define FORMAT "[format]\nkind = record\nversion = 1\n"

START_TEST(heads_with_faults)
{
    refused("", "empty", 0);
    refused("[format]\nkind = job\nversion = 1\n", "kind job", 2);
    refused("[format]\nkind = record\nversion = 2\n", "newer", 3);
    refused(FORMAT "[record]\nunits = metric\n", "no characteristic", 0);
    refused(FORMAT "[characteristic.1]\nnominal = 3 mm\n", "what is measured", 4);
    refused(FORMAT "[characteristic.one]\nwhat = a\n", "number", 4);
    refused(FORMAT "[characteristic.01]\nwhat = a\n", "number", 4);
    refused(FORMAT "[characteristic.1]\nwhat = a\nlower = 3 mm\nupper = 2 mm\n", "above", 6);
    refused(FORMAT "[characteristic.1]\nwhat = a\nnominal = 3\n", "unit", 6);
    refused(FORMAT "[characteristic.1]\nwhat = a\nevery = 2.5\n", "whole", 6);
    refused(FORMAT "[characteristic.1]\nwhat = a\n[record]\nlots = 3\n", "lots", 7);
}
END_TEST

START_TEST(readings)
{
    record_text_begin(&file);
    uint64_t first = record_text_read(&file, 1, 1, 1, "3.002mm");
    record_text_read(&file, 2, 1, 1, "1.18 in");
    record_text_read(&file, 5, 1, 1, "accept");
    record_text_read(&file, 5, 2, 1, "Reject");
    struct bite_record *record = record_of(&file, &faults);
    ck_assert_uint_eq(faults.count, 0);
    ck_assert_uint_eq(record->reading_count, 4);
    ck_assert_uint_eq(record->readings[0].line, first);
    bite_assert_near(record->readings[0].value, 3.002 * MM, 1e-12);
    ck_assert_str_eq(record->readings[0].text, "3.002mm");
    bite_assert_near(record->readings[1].value, 29.972 * MM, 1e-12);
    ck_assert_uint_eq(record->readings[1].characteristic, 1);
    ck_assert_double_eq(record->readings[2].value, 1.0);
    ck_assert_double_eq(record->readings[3].value, 0.0);
    ck_assert_double_nan(record->readings[3].uncertainty_20);
    ck_assert_uint_eq(record->readings[3].part, 2);
    bite_record_free(record);
}
END_TEST

/* 30 mm of a plastic that was 3 K warm by a caliper that was too: 30 mm x 3 K x (70 - 11.5) um/m/K
 * = 5.265 um less. The uncertainty by hand: of the reading 12 um, of the two expansions 0.45 um and
 * 0.052 um, of the temperatures 1.21 um and 0.20 um. */
START_TEST(at_20_degrees)
{
    bite_record_line line = refer(BITE_RECORD_READ, 0);
    record_text_begin(&file);
    line.characteristic = 2;
    line.temperature = 296.15;
    memcpy(line.value, "30mm", 5);
    record_text_line(&file, line);
    line.temperature = (double)NAN;
    record_text_line(&file, line);
    line.characteristic = 1; /* of a material whose expansion is not stated */
    line.temperature = 296.15;
    record_text_line(&file, line);
    struct bite_record *record = record_of(&file, &faults);
    ck_assert_uint_eq(record->reading_count, 3);
    const bite_reading *warm = &record->readings[0];
    ck_assert_uint_eq(warm->corrected, 1);
    ck_assert_double_eq_tol(warm->value, 30 * MM, 1e-15);
    ck_assert_double_eq_tol(warm->value_20, 30 * MM - 5.265e-6, 1e-12);
    double terms[] = {12e-6, 30e-3 * 3 * 5e-6, 30e-3 * 3 * 0.05 * 11.5e-6,
                      30e-3 * 70e-6 / sqrt(3.0), 30e-3 * 11.5e-6 / sqrt(3.0)};
    double sum = 0.0;
    for (size_t i = 0; i < 5; i++) {
        sum += terms[i] * terms[i];
    }
    bite_assert_near(warm->uncertainty_20, sqrt(sum), 1e-5);
    ck_assert_uint_eq(record->readings[1].corrected, 0);
    ck_assert_double_eq(record->readings[1].value_20, record->readings[1].value);
    bite_assert_near(record->readings[1].uncertainty_20, 12e-6, 1e-12);
    ck_assert_uint_eq(record->readings[2].corrected, 0);
    bite_record_free(record);
}
END_TEST

START_TEST(corrections_keep_the_original)
{
    record_text_begin(&file);
    uint64_t first = record_text_read(&file, 1, 1, 1, "3.2mm");
    uint64_t second = record_text_line(&file, refer(BITE_RECORD_CORRECT, first));
    uint64_t third =
        record_text_line(&file, refer(BITE_RECORD_CORRECT, first)); /* another person */
    struct bite_record *record = record_of(&file, &faults);
    ck_assert_uint_eq(faults.count, 0);
    ck_assert_uint_eq(record->readings[0].state, BITE_READING_REPLACED);
    ck_assert_uint_eq(record->readings[0].closed_by, second);
    bite_assert_near(record->readings[0].value, 3.2 * MM, 1e-12);
    ck_assert_uint_eq(record->readings[1].state, BITE_READING_REPLACED);
    ck_assert_uint_eq(record->readings[2].state, BITE_READING_STANDS);
    ck_assert_uint_eq(record->readings[2].replaces, second);
    bite_record_free(record);
    record_text_line(&file, refer(BITE_RECORD_UNDO, third)); /* gives back the second */
    record = record_of(&file, &faults);
    ck_assert_uint_eq(record->readings[1].state, BITE_READING_STANDS);
    ck_assert_uint_eq(record->readings[1].closed_by, 0);
    ck_assert_uint_eq(record->readings[2].state, BITE_READING_WITHDRAWN);
    bite_record_free(record);
    record_text_line(&file, refer(BITE_RECORD_UNDO, first)); /* the reading as such */
    record = record_of(&file, &faults);
    ck_assert_uint_eq(record->readings[0].state, BITE_READING_REPLACED);
    ck_assert_uint_eq(record->readings[1].state, BITE_READING_WITHDRAWN);
    bite_record_free(record);
}
END_TEST

START_TEST(skipped)
{
    record_text_begin(&file);
    uint64_t first = record_text_line(&file, refer(BITE_RECORD_SKIP, 0));
    struct bite_record *record = record_of(&file, &faults);
    ck_assert_uint_eq(record->readings[0].state, BITE_READING_SKIPPED);
    ck_assert_str_eq(record->readings[0].note, "why");
    ck_assert_double_nan(record->readings[0].value);
    bite_record_free(record);
    record_text_line(&file, refer(BITE_RECORD_UNDO, first));
    record = record_of(&file, &faults);
    ck_assert_uint_eq(record->readings[0].state, BITE_READING_WITHDRAWN);
    bite_record_free(record);
}
END_TEST

/* Every change of one byte of a line is found, the other lines stay, and a person can settle it. */
START_TEST(damaged_lines)
{
    static record_text changed;
    record_text_begin(&file);
    uint64_t before = record_text_read(&file, 1, 1, 1, "3.001mm");
    size_t start = file.size;
    uint64_t hurt = record_text_read(&file, 1, 2, 1, "3.002mm");
    size_t end = file.size - 1; /* without the line end */
    uint64_t after = record_text_read(&file, 1, 3, 1, "3.003mm");
    for (size_t i = start; i < end; i++) {
        changed = file;
        changed.text[i] ^= 4;
        struct bite_record *record = record_of(&changed, &faults);
        ck_assert_uint_eq(faults.count, 1);
        ck_assert_uint_eq(faults.first.line, hurt);
        ck_assert_msg(strstr(faults.first.message, "checksum") != NULL, "%s", faults.first.message);
        ck_assert_uint_eq(record->reading_count, 2);
        ck_assert_uint_eq(record->readings[0].line, before);
        ck_assert_uint_eq(record->readings[1].line, after);
        bite_record_free(record);
    }
    changed.line = file.line;
    record_text_line(&changed, refer(BITE_RECORD_UNDO, hurt));
    struct bite_record *record = record_of(&changed, &faults);
    ck_assert_uint_eq(faults.count, 0);
    ck_assert_uint_eq(record->damage_count, 1);
    ck_assert_uint_eq(record->damages[0].settled, 1);
    bite_record_free(record);
}
END_TEST

START_TEST(missing_and_copied_lines)
{
    static record_text changed;
    size_t at[6];
    record_text_begin(&file);
    for (uint32_t i = 0; i < 5; i++) {
        at[i] = file.size;
        record_text_read(&file, 1, i + 1, 1, "3.002mm");
    }
    at[5] = file.size;
    memcpy(changed.text, file.text, at[1]); /* without the second and the third */
    memcpy(changed.text + at[1], file.text + at[3], at[5] - at[3]);
    changed.size = at[1] + at[5] - at[3];
    changed.line = file.line;
    struct bite_record *record = record_of(&changed, &faults);
    ck_assert_uint_eq(faults.count, 1);
    ck_assert_msg(strstr(faults.first.message, "are missing") != NULL, "%s", faults.first.message);
    ck_assert_uint_eq(record->reading_count, 3);
    bite_record_free(record);
    record_text_line(&changed, refer(BITE_RECORD_UNDO, file.line - 3)); /* one of the two */
    record = record_of(&changed, &faults);
    ck_assert_uint_eq(faults.count, 0);
    bite_record_free(record);

    changed = file; /* the second once more at the end */
    memcpy(changed.text + at[5], file.text + at[1], at[2] - at[1]);
    changed.size += at[2] - at[1];
    record = record_of(&changed, &faults);
    ck_assert_uint_eq(faults.count, 1);
    ck_assert_msg(strstr(faults.first.message, "copied") != NULL, "%s", faults.first.message);
    ck_assert_uint_eq(record->reading_count, 5);
    bite_record_free(record);
}
END_TEST

/* A line that is cut off at any byte is ignored with a note, and is no fault. Whole but for its
 * line end, it is a reading. */
START_TEST(torn_line)
{
    static record_text cut;
    record_text_begin(&file);
    record_text_read(&file, 1, 1, 1, "3.001mm");
    size_t start = file.size;
    uint64_t last = record_text_read(&file, 1, 2, 1, "3.002mm");
    for (size_t size = start; size <= file.size; size++) {
        cut = file;
        cut.size = size;
        struct bite_record *record = record_of(&cut, &faults);
        ck_assert_uint_eq(faults.count, 0);
        ck_assert_uint_eq(record->reading_count, size + 1 >= file.size ? 2 : 1);
        ck_assert_uint_eq(record->torn_line, size == start || size + 1 >= file.size ? 0 : last);
        bite_record_free(record);
    }
    cut.size = start + 9; /* closed by a later append */
    cut.line = last;
    record_text_add(&cut, BITE_RECORD_CUT "\n");
    record_text_read(&cut, 1, 2, 1, "3.002mm");
    struct bite_record *record = record_of(&cut, &faults);
    ck_assert_uint_eq(faults.count, 0);
    ck_assert_uint_eq(record->reading_count, 2);
    bite_record_free(record);
}
END_TEST

START_TEST(changed_head)
{
    record_text_begin(&file);
    record_text_read(&file, 1, 1, 1, "3.001mm");
    char *limit = strstr(file.text, "upper = 3.1 mm");
    ck_assert_ptr_nonnull(limit);
    limit[8] = '4';
    struct bite_record *record = record_of(&file, &faults);
    ck_assert_uint_eq(faults.count, 1);
    ck_assert_msg(strstr(faults.first.message, "head was changed") != NULL, "%s",
                  faults.first.message);
    ck_assert_uint_eq(record->reading_count, 1);
    bite_record_line seal = refer(BITE_RECORD_SEAL, 0);
    seal.head = record->head_checksum;
    bite_record_free(record);
    record_text_line(&file, seal);
    record = record_of(&file, &faults);
    ck_assert_uint_eq(faults.count, 0);
    bite_record_free(record);
}
END_TEST

/* An editor that writes other line ends changes nothing that counts. */
START_TEST(line_ends)
{
    static record_text other;
    record_text_begin(&file);
    record_text_read(&file, 1, 1, 1, "3.001mm");
    other.size = 0;
    for (size_t i = 0; i < file.size; i++) {
        if (file.text[i] == '\n') {
            other.text[other.size++] = '\r';
        }
        other.text[other.size++] = file.text[i];
    }
    struct bite_record *record = record_of(&other, &faults);
    ck_assert_uint_eq(faults.count, 0);
    ck_assert_uint_eq(record->reading_count, 1);
    bite_record_free(record);
}
END_TEST

/* What is sound by its checksum but makes no sense is not used. */
START_TEST(senseless_lines)
{
    static const struct {
        const char *line;
        const char *says;
    } odd[] = {
        {"read characteristic=9 part=1 trial=1 value=\"3mm\"", "no characteristic"},
        {"read characteristic=1 part=0 trial=1 value=\"3mm\"", "cannot be read"},
        {"read characteristic=1 part=1 trial=1 value=\"3\"", "value cannot be read"},
        {"read characteristic=1 part=1 trial=1 value=\"-3mm\"", "value cannot be read"},
        {"read characteristic=1 part=1 value=\"3mm\"", "is missing"},
        {"read characteristic=1 part=1 part=1 trial=1 value=\"3mm\"", "cannot be read"},
        {"read characteristic=1 part=1 trial=1 value=\"3mm\" colour=red", "does not know"},
        {"read characteristic=1 part=1 trial=1 value=\"3mm\" time=yesterday", "cannot be read"},
        {"read characteristic=1 part=1 trial=1 value=\"3mm\" temperature=nandegC",
         "cannot be read"},
        {"read characteristic=1 part=1 trial=1 value=3mm", "cannot be read"},
        {"read characteristic=5 part=1 trial=1 value=\"3mm\"", "value cannot be read"},
        {"correct of=3 characteristic=1 part=1 trial=1 value=\"3mm\"", "not a reading"},
        {"undo of=99999", "not a reading"},
        {"undo of=18446744073709551616", "cannot be read"},
        {"erase of=30", "does something"},
        {"", "does something"},
    };
    char line[300];
    for (size_t i = 0; i < sizeof odd / sizeof *odd; i++) {
        record_text_begin(&file);
        int length = snprintf(line, sizeof line, "%u %s", (unsigned)++file.line, odd[i].line);
        (void)snprintf(line + length, sizeof line - (size_t)length, " ~%08x\n",
                       (unsigned)bite_checksum(line, (size_t)length));
        record_text_add(&file, line);
        record_text_read(&file, 1, 1, 1, "3.001mm");
        struct bite_record *record = record_of(&file, &faults);
        ck_assert_uint_eq(faults.count, 1);
        ck_assert_msg(strstr(faults.first.message, odd[i].says) != NULL, "%s: %s", odd[i].line,
                      faults.first.message);
        ck_assert_uint_eq(record->reading_count, 1);
        bite_record_free(record);
    }
}
END_TEST

START_TEST(memory_runs_out)
{
    record_text_begin(&file);
    for (uint32_t i = 0; i < 40; i++) {
        record_text_read(&file, 1, i + 1, 1, "3.001mm");
    }
    record_text_line(&file, refer(BITE_RECORD_UNDO, 3));
    for (size_t at = 1;; at++) {
        bite_test_memory memory = {.fail_at = at};
        bite_allocator allocator = bite_test_allocator(&memory);
        struct bite_record *record = NULL;
        bite_status status = bite_record_parse(&allocator, file.text, file.size, "part.record",
                                               NULL, NULL, &record, NULL);
        bite_record_free(record);
        ck_assert_uint_eq(memory.held, 0);
        if (memory.calls < at) {
            ck_assert_int_eq(status, BITE_BAD_FILE);
            ck_assert_uint_gt(at, 15);
            return;
        }
        ck_assert_int_eq(status, BITE_NO_MEMORY);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("record_reading");
    TCase *tests = tcase_create("record_reading");
    tcase_add_test(tests, checksum);
    tcase_add_test(tests, times);
    tcase_add_test(tests, whole_head);
    tcase_add_test(tests, heads_with_faults);
    tcase_add_test(tests, readings);
    tcase_add_test(tests, at_20_degrees);
    tcase_add_test(tests, corrections_keep_the_original);
    tcase_add_test(tests, skipped);
    tcase_add_test(tests, damaged_lines);
    tcase_add_test(tests, missing_and_copied_lines);
    tcase_add_test(tests, torn_line);
    tcase_add_test(tests, changed_head);
    tcase_add_test(tests, line_ends);
    tcase_add_test(tests, senseless_lines);
    tcase_add_test(tests, memory_runs_out);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
