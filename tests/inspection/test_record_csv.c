/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Readings from a CSV text: what each column says, and that a text with a fault leaves the record
 * as it was. */
#include "tests/inspection/record_fixture.h"
#include "tests/support/support.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define MM 1e-3
#define HEAD "characteristic,part,value\n"

static char folder[400];
static char path[500];
static bite_record *record;

static void open_record(void)
{
    static record_text text;
    bite_error error = BITE_ERROR_INIT;
    bite_test_folder(folder, sizeof folder);
    (void)snprintf(path, sizeof path, "%s/part.record", folder);
    record_text_begin(&text);
    bite_test_write(path, text.text, text.size);
    ck_assert_int_eq(bite_record_open(path, NULL, NULL, &record, &error), BITE_OK);
}

static void close_record(void)
{
    bite_record_free(record);
    bite_test_remove(folder);
}

static size_t readings_of(const bite_record *of)
{
    size_t count = 0;
    while (bite_record_reading(of, count) != NULL) {
        count++;
    }
    return count;
}

typedef struct heard {
    size_t count;
    bite_error last;
} heard;

static void hear(void *user, const bite_error *fault)
{
    heard *to = user;
    to->last = *fault;
    to->count++;
}

static bite_record_entry no_defaults(void)
{
    bite_record_entry entry;
    bite_record_entry_init(&entry);
    return entry;
}

static bite_status push(const char *csv, const bite_record_entry *defaults, heard *faults,
                        size_t *appended, bite_error *error)
{
    memset(faults, 0, sizeof *faults);
    return bite_record_append_csv(record, csv, strlen(csv), "readings.csv", defaults, hear, faults,
                                  appended, error);
}

/* Appends a text without faults; `count` lines must come of it. */
static void takes(const char *csv, const bite_record_entry *defaults, size_t count)
{
    heard faults;
    bite_error error = BITE_ERROR_INIT;
    size_t appended = SIZE_MAX;
    size_t before = readings_of(record);
    ck_assert_msg(push(csv, defaults, &faults, &appended, &error) == BITE_OK, "%s: %u: %s: %s", csv,
                  error.line, error.key, error.message);
    ck_assert_uint_eq(faults.count, 0);
    ck_assert_uint_eq(appended, count);
    ck_assert_uint_eq(readings_of(record), before + count);
}

/* Refuses a text; the first fault is the one that is expected, and nothing was appended. */
static void refuses(const char *csv, const bite_record_entry *defaults, uint32_t line,
                    const char *key, const char *says, const char *hint)
{
    heard faults;
    bite_error error = BITE_ERROR_INIT;
    size_t appended = SIZE_MAX;
    size_t before = readings_of(record);
    ck_assert_msg(push(csv, defaults, &faults, &appended, &error) == BITE_BAD_FILE, "%s", csv);
    ck_assert_msg(strstr(error.message, says) != NULL, "%s: %s", csv, error.message);
    ck_assert_msg(strstr(error.hint, hint) != NULL, "%s: %s", csv, error.hint);
    ck_assert_str_eq(error.key, key);
    ck_assert_msg(error.line == line, "%s: line %u", csv, error.line);
    ck_assert_str_eq(error.file, "readings.csv");
    ck_assert_uint_gt(faults.count, 0);
    ck_assert_uint_eq(error.faults, faults.count);
    ck_assert_uint_eq(appended, 0);
    ck_assert_uint_eq(readings_of(record), before);
}

START_TEST(each_column_is_kept)
{
    bite_record_entry usual = no_defaults();
    usual.person = "Ann";
    usual.part = 3;
    usual.temperature = 294.15;
    takes("\xef\xbb\xbf"
          "Part; characteristic ;value [in];person;temperature;time;note;# gauge\r\n"
          "2; 2 ;1.1815;Ben;23degC;2026-11-30T19:25:49Z;at the root;7\r\n"
          ";;;;;;;\r\n"
          ";WIDTH;30.01mm;;;;;\r\n"
          "1;thread M3;ok;;;;;\r\n",
          &usual, 3);
    const bite_reading *one = bite_record_reading(record, 0);
    ck_assert_uint_eq(one->characteristic, 1);
    ck_assert_uint_eq(one->part, 2);
    ck_assert_str_eq(one->text, "1.1815in");
    bite_assert_near(one->value, 1.1815 * 25.4 * MM, 1e-12);
    ck_assert_str_eq(one->person, "Ben");
    ck_assert_str_eq(one->note, "at the root");
    bite_assert_near(one->temperature, 296.15, 1e-12);
    ck_assert_double_eq(one->time, 1796066749.0);
    one = bite_record_reading(record, 1); /* what the row leaves open is the caller's */
    ck_assert_uint_eq(one->characteristic, 1);
    ck_assert_uint_eq(one->part, 3);
    ck_assert_str_eq(one->person, "Ann");
    bite_assert_near(one->value, 30.01 * MM, 1e-12);
    bite_assert_near(one->temperature, 294.15, 1e-12);
    ck_assert_double_nan(one->time);
    one = bite_record_reading(record, 2);
    ck_assert_uint_eq(one->characteristic, 2);
    ck_assert_str_eq(one->text, "accept");
}
END_TEST

START_TEST(trials_are_counted_or_stated)
{
    bite_record_entry usual = no_defaults();
    static const struct {
        const char *person;
        uint32_t trial;
    } known[] = {{"Ann", 1}, {"Ben", 1}, {"Ann", 2}, {"Ann", 3}};
    takes("characteristic,part,value,person\n1,1,3.01,Ann\n1,1,3.011,Ben\n1,1,3.012,Ann\n"
          "1,1,3.01,Ann\n",
          &usual, 4);
    for (size_t i = 0; i < 4; i++) {
        const bite_reading *one = bite_record_reading(record, i);
        ck_assert_str_eq(one->person, known[i].person);
        ck_assert_uint_eq(one->trial, known[i].trial);
    }
    takes("characteristic,part,value,person,trial\n1,1,3.014,Ben,7\n", &usual, 1);
    ck_assert_uint_eq(bite_record_reading(record, 4)->trial, 7);
}
END_TEST

/* A run that was interrupted is repeated: what is recorded already is passed over. */
START_TEST(what_is_recorded_is_passed_over)
{
    bite_record_entry usual = no_defaults();
    usual.person = "Ann";
    takes(HEAD "1,1,3.01\n", &usual, 1);
    takes(HEAD "1,1,3.01\n1,2,3.02\n", &usual, 1);
    takes(HEAD "1,1,3.010mm\n1,2,3.02\n", &usual, 0);
    refuses(HEAD "1,1,3.02\n1,3,3.01\n", &usual, 2, "value", "the record has 3.01mm for this trial",
            "another trial");
    usual.person = "Ben"; /* another person's reading is another one */
    takes(HEAD "1,1,3.02\n", &usual, 1);
}
END_TEST

/* A reading that was corrected since is recorded already, whoever corrected it; one that was
 * withdrawn is not. */
START_TEST(a_corrected_reading_does_not_come_back)
{
    bite_record_entry usual = no_defaults();
    usual.person = "Ann";
    takes(HEAD "1,1,3.05\n1,2,3.06\n", &usual, 2);
    static const char *const correctors[] = {"Ann", "Ben"};
    for (size_t i = 0; i < 2; i++) {
        bite_record_entry correct = no_defaults();
        correct.action = BITE_RECORD_CORRECT;
        correct.of = bite_record_reading(record, i)->line;
        correct.value = "3.01";
        correct.person = correctors[i];
        ck_assert_int_eq(bite_record_append(record, &correct, NULL, NULL), BITE_OK);
    }
    takes(HEAD "1,1,3.05\n1,2,3.06\n", &usual, 0);
    bite_record_entry undo = no_defaults();
    takes(HEAD "1,3,3.07\n", &usual, 1);
    undo.action = BITE_RECORD_UNDO;
    undo.of = bite_record_reading(record, 4)->line;
    ck_assert_int_eq(bite_record_append(record, &undo, NULL, NULL), BITE_OK);
    takes(HEAD "1,3,3.07\n", &usual, 1);
    ck_assert_uint_eq(bite_record_reading(record, 5)->state, BITE_READING_STANDS);
}
END_TEST

START_TEST(rows_with_faults)
{
    static const struct {
        const char *csv;
        uint32_t line;
        const char *key;
        const char *says;
        const char *hint;
    } bad[] = {
        {"", 1, "", "were expected", "names the columns"},
        {"part,value\n1,3.01\n", 1, "", "characteristic, part and value", "names the columns"},
        {"characteristic,part\n1,1\n", 1, "", "characteristic, part and value", "names"},
        {"characteristic,value\n1,3.01\n", 1, "", "characteristic, part and value", "names"},
        {"characteristic,part,vaule\n1,1,3\n", 1, "vaule", "no column named vaule", "value?"},
        {"characteristic,part,value,hygrometer\n", 1, "hygrometer", "no column named", "#"},
        {"characteristic,part,value,part\n1,1,3,1\n", 1, "part", "two columns", "leave one"},
        {"characteristic,part,\"value\n", 1, "", "does not end", "first line"},
        {"characteristic,part,value [mm\n1,1,3.01\n", 1, "value", "unit", "value [mm]"},
        {"characteristic,part,value [thousandths]\n1,1,118\n", 1, "value", "unit", "value [mm]"},
        {"characteristic,part,value [degC]\n1,1,3.01\n", 1, "value", "unit", "value [mm]"},
        {"characteristic,part,value []\n1,1,3.01\n", 1, "value", "unit", "value [mm]"},
        {HEAD "1,1,3.01\n9,1,3.01\n", 3, "characteristic", "no such characteristic", "called"},
        {HEAD ",1,3.01\n", 2, "characteristic", "is missing", "called"},
        {HEAD "1,,3.01\n", 2, "part", "is missing", "1, 2, 3"},
        {HEAD "1,0,3.01\n", 2, "part", "whole number", "10000"},
        {HEAD "1,10001,3.01\n", 2, "part", "whole number", "10000"},
        {HEAD "1,99999999999999999999,3.01\n", 2, "part", "whole number", "10000"},
        {HEAD "1,1.5,3.01\n", 2, "part", "whole number", "10000"},
        {HEAD "1,4,3.01\n", 2, "part", "fewer parts", "head"},
        {HEAD "1,1,\n", 2, "value", "value is missing", "12.03mm"},
        {HEAD "1,1,!\n", 2, "value", "value is missing", "12.03mm"},
        {HEAD "1,1,three\n", 2, "value", "", "12.03mm"},
        {HEAD "5,1,3.01\n", 2, "value", "not a judgement", "accept or reject"},
        {HEAD "5,1,\n", 2, "value", "", "accept or reject"},
        {HEAD "1,1,3.0000000000000000000000000000000000000000000000000000000000000000001\n", 2,
         "value", "not a reading", "12.03"},
        {HEAD "1,1,30.01\n", 2, "value", "30.01mm is far outside the limits; 3.001 mm may be",
         "put !"},
        {HEAD "2,1,95\n", 2, "value", "95mm is far outside the limits", "put !"},
        {HEAD "1,1,3,01\n", 2, "", "more values than there are columns", "decimal point"},
        {HEAD "1,1,\"3.01\n", 2, "", "does not end", "nothing was recorded"},
        {"characteristic,part,value,trial\n1,1,3.01,0\n", 2, "trial", "whole number", "10000"},
        {"characteristic,part,value,time\n1,1,3.01,noon\n", 2, "time", "not a time", "UTC"},
        {"characteristic,part,value,temperature\n1,1,3.01,23\n", 2, "temperature", "unit", ""},
        {"characteristic,part,value,temperature\n1,1,3.01,21degC\n1,2,3.01,230degC\n", 3,
         "temperature", "nobody measures a part at this temperature", "23degC"},
        {"characteristic,part,value,temperature\n1,1,3.01,-80degC\n", 2, "temperature",
         "nobody measures a part at this temperature", "23degC"},
        {"characteristic,part,value,note\n1,1,3.01,a\\b\n", 2, "note", "cannot be in a record",
         "without quotation marks"},
        {"characteristic,part,value,person\n1,1,3.01,\"An \"\"n\"\"\"\n", 2, "person",
         "cannot be in a record", "without quotation marks"},
    };
    bite_record_entry usual = no_defaults();
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        refuses(bad[i].csv, &usual, bad[i].line, bad[i].key, bad[i].says, bad[i].hint);
    }
}
END_TEST

/* A value that looks like a slip and is right has ! behind it. */
START_TEST(a_surprise_can_be_confirmed)
{
    bite_record_entry usual = no_defaults();
    takes(HEAD "1,1,30.01!\n2,1,95mm!\n", &usual, 2);
    bite_assert_near(bite_record_reading(record, 0)->value, 30.01 * MM, 1e-12);
    ck_assert_str_eq(bite_record_reading(record, 0)->text, "30.01mm");
    bite_assert_near(bite_record_reading(record, 1)->value, 95 * MM, 1e-12);
}
END_TEST

/* All rows are checked: each fault is told, with its line. */
START_TEST(all_faults_are_told)
{
    bite_record_entry usual = no_defaults();
    heard faults;
    bite_error error = BITE_ERROR_INIT;
    size_t appended = SIZE_MAX;
    ck_assert_int_eq(
        push(HEAD "1,1,3.01\n9,1,3\n1,x,3\n1,1,30.01\n", &usual, &faults, &appended, &error),
        BITE_BAD_FILE);
    ck_assert_uint_eq(faults.count, 3);
    ck_assert_uint_eq(error.faults, 3);
    ck_assert_uint_eq(error.line, 3);
    ck_assert_uint_eq(faults.last.line, 5);
    ck_assert_uint_eq(appended, 0);
    ck_assert_uint_eq(readings_of(record), 0);
    /* without somebody who hears them, the first one is told */
    const char *csv = HEAD "9,1,3\n";
    ck_assert_int_eq(
        bite_record_append_csv(record, csv, strlen(csv), "x.csv", &usual, NULL, NULL, NULL, &error),
        BITE_BAD_FILE);
    ck_assert_str_eq(error.key, "characteristic");
    csv = HEAD "1,1,3.02\n";
    ck_assert_int_eq(
        bite_record_append_csv(record, csv, strlen(csv), "x.csv", &usual, NULL, NULL, NULL, NULL),
        BITE_OK);
    ck_assert_uint_eq(readings_of(record), 1);
}
END_TEST

static char *repeated(const char *first, const char *each, size_t count, const char *last)
{
    size_t length = strlen(each);
    char *made = malloc(strlen(first) + count * length + strlen(last) + 1);
    ck_assert_ptr_nonnull(made);
    size_t used = strlen(first);
    memcpy(made, first, used);
    for (size_t i = 0; i < count; i++, used += length) {
        memcpy(made + used, each, length);
    }
    memcpy(made + used, last, strlen(last) + 1);
    return made;
}

START_TEST(what_is_too_much)
{
    bite_record_entry usual = no_defaults();
    char *csv = repeated("characteristic,part,value", ",#", 30, "\n");
    refuses(csv, &usual, 1, "", "more than 32 columns", "leave some");
    free(csv);
    csv = repeated("characteristic,part,value", ",#", 29, "\n1,1,3.01\n");
    takes(csv, &usual, 1);
    free(csv);
    csv = repeated("characteristic,part,value,person\n1,2,3.01,\"", "a", 104, "\"\n");
    refuses(csv, &usual, 2, "person", "too long", "103");
    free(csv);
    csv = repeated("characteristic,part,value,person\n1,2,3.01,", "a", 103, "\n");
    takes(csv, &usual, 1);
    ck_assert_uint_eq(strlen(bite_record_reading(record, 1)->person), 103);
    free(csv);
    csv = repeated("characteristic,part,value,note\n1,2,3.01,", "n", 304, "\n");
    refuses(csv, &usual, 2, "note", "too long", "303");
    free(csv);
    csv = repeated("characteristic,part,value,trial\n", "1,1,3.01,9\n", 20001, "1,1,3.01,9\n");
    refuses(csv, &usual, 20002, "", "more than 20000 rows", "split");
    free(csv);
}
END_TEST

/* Words that several characteristics have tell none of them. */
START_TEST(a_name_that_two_have_is_refused)
{
    static const char head[] = "[format]\nkind = record\nversion = 1\n[record]\nunits = inch\n"
                               "[characteristic.1]\nwhat = bore\nnominal = 0.25 in\n"
                               "[characteristic.2]\nwhat = bore\nnominal = 0.5 in\n"
                               "[characteristic.3]\nwhat = 2\nnominal = 1 in\n";
    bite_error error = BITE_ERROR_INIT;
    bite_record_entry usual = no_defaults();
    bite_record_free(record);
    record = NULL;
    bite_test_write(path, head, sizeof head - 1);
    ck_assert_int_eq(bite_record_open(path, NULL, NULL, &record, &error), BITE_OK);
    refuses(HEAD "bore,1,0.25\n", &usual, 2, "characteristic", "several characteristics",
            "its number");
    takes(HEAD "2,10000,0.5\n", &usual, 1); /* a number is a number, and no count was stated */
    ck_assert_uint_eq(bite_record_reading(record, 0)->characteristic, 1);
    ck_assert_str_eq(bite_record_reading(record, 0)->text, "0.5in");
    refuses(HEAD "1,1,12.7\n", &usual, 2, "value", "far outside", "put !");
}
END_TEST

START_TEST(arguments)
{
    bite_record_entry usual = no_defaults();
    bite_error error = BITE_ERROR_INIT;
    const char *csv = HEAD "1,1,3.01\n";
    size_t size = strlen(csv);
    size_t appended = 77;
    const struct {
        bite_record *record;
        const char *text;
        const char *path;
        const bite_record_entry *defaults;
    } bad[] = {{NULL, csv, "x.csv", &usual},
               {record, NULL, "x.csv", &usual},
               {record, csv, NULL, &usual},
               {record, csv, "x.csv", NULL}};
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        ck_assert_int_eq(bite_record_append_csv(bad[i].record, bad[i].text, size, bad[i].path,
                                                bad[i].defaults, NULL, NULL, &appended, &error),
                         BITE_BAD_ARGUMENT);
        ck_assert_msg(strstr(error.message, "expected") != NULL, "%s", error.message);
    }
    usual.person = "An \"n\"";
    ck_assert_int_eq(
        bite_record_append_csv(record, csv, size, "x.csv", &usual, NULL, NULL, &appended, &error),
        BITE_OUT_OF_RANGE);
    ck_assert_msg(strstr(error.message, "name cannot be in a record") != NULL, "%s", error.message);
    usual = no_defaults();
    usual.temperature = 23.0; /* degC where K was expected */
    ck_assert_int_eq(
        bite_record_append_csv(record, csv, size, "x.csv", &usual, NULL, NULL, &appended, &error),
        BITE_OUT_OF_RANGE);
    ck_assert_str_eq(error.key, "temperature");
    ck_assert_uint_eq(appended, 77);
    ck_assert_uint_eq(readings_of(record), 0);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("record_csv");
    TCase *tests = tcase_create("record_csv");
    tcase_add_checked_fixture(tests, open_record, close_record);
    tcase_set_timeout(tests, 120);
    tcase_add_test(tests, each_column_is_kept);
    tcase_add_test(tests, trials_are_counted_or_stated);
    tcase_add_test(tests, what_is_recorded_is_passed_over);
    tcase_add_test(tests, a_corrected_reading_does_not_come_back);
    tcase_add_test(tests, rows_with_faults);
    tcase_add_test(tests, a_surprise_can_be_confirmed);
    tcase_add_test(tests, all_faults_are_told);
    tcase_add_test(tests, what_is_too_much);
    tcase_add_test(tests, a_name_that_two_have_is_refused);
    tcase_add_test(tests, arguments);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
