/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The fields of cases and the columns of their results: what each may be, and what is said of one
 * that it may not be. */
#include "core/base/number.h"
#include "tests/support/open_library.h"
#include "tests/support/support.h"
#include "tests/support/written_text.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static bite_request *request_of(const char *tool)
{
    bite_request *request = NULL;
    ck_assert_int_eq(bite_request_new(library, &request, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_GRADES, "acrylic/cast", NULL), BITE_OK);
    if (tool != NULL) {
        ck_assert_int_eq(bite_request_use(request, BITE_TOOLS, tool, NULL), BITE_OK);
        ck_assert_int_eq(bite_request_set(request, "depth", "0.2mm", NULL), BITE_OK);
        ck_assert_int_eq(bite_request_set(request, "spindle_speed", "9000rpm", NULL), BITE_OK);
        ck_assert_int_eq(bite_request_set(request, "feed_rate", "300mm/min", NULL), BITE_OK);
    }
    return request;
}

static bite_case_options options_of(uint32_t format, const char *const *results, size_t count)
{
    bite_case_options options;
    bite_case_options_init(&options);
    options.format = format;
    options.results = results;
    options.result_count = count;
    return options;
}

static bite_status run(const bite_case_options *options, const char *tool, const char *rows,
                       bite_written_text *out, bite_case_summary *summary, bite_error *error)
{
    bite_request *request = request_of(tool);
    bite_cases *cases = NULL;
    out->at = NULL;
    out->size = 0;
    bite_case_summary_init(summary);
    bite_status status =
        bite_cases_new(request, options, bite_written_text_add, out, &cases, error);
    status = status == BITE_OK ? bite_cases_push(cases, rows, strlen(rows), error) : status;
    status = status == BITE_OK ? bite_cases_end(cases, error) : status;
    bite_cases_summary(cases, summary);
    bite_cases_free(cases);
    bite_request_free(request);
    return status;
}

/* Runs rows; the request has tool, depth, speed and feed, so that a row needs none of them. */
static bite_written_text results_of(const bite_case_options *options, const char *rows)
{
    bite_written_text out;
    bite_error error = BITE_ERROR_INIT;
    bite_case_summary summary;
    ck_assert_msg(run(options, "3mm", rows, &out, &summary, &error) == BITE_OK, "%s: %s: %s", rows,
                  error.key, error.message);
    return out;
}

/* A line of a text, from 0; ended by 0. */
static void line_of(const bite_written_text *all, size_t line, char *to, size_t size)
{
    const char *at = all->at;
    for (; line > 0; line--) {
        at = strchr(at, '\n');
        ck_assert_ptr_nonnull(at);
        at++;
    }
    ck_assert_uint_lt(strcspn(at, "\n"), size);
    (void)snprintf(to, size, "%.*s", (int)strcspn(at, "\n"), at);
}

/* A row by itself: in its format, what it must say, as its last column or member. */
typedef struct row_case {
    const char *row;
    const char *says;
} row_case;

static void check_faults(uint32_t format, const char *head, const row_case *rows, size_t count)
{
    static const char *const results[] = {"verdict"};
    bite_case_options options = options_of(format, results, 1);
    for (size_t i = 0; i < count; i++) {
        char in[9000];
        char line[9000];
        ck_assert_int_lt(snprintf(in, sizeof in, "%s%s\n", head, rows[i].row), (int)sizeof in);
        bite_written_text out = results_of(&options, in);
        line_of(&out, format == BITE_CSV, line, sizeof line);
        ck_assert_msg(strstr(line, rows[i].says) != NULL, "%s: %s, not %s", rows[i].row, line,
                      rows[i].says);
        free(out.at);
    }
}

START_TEST(fields_of_csv)
{
    static const row_case rows[] = {
        {"1,300,4,conventional,", ",clear,"},
        {"2,300x,3,climb,", "feed_rate [mm/min]: x is not a unit"},
        {"3,0.3m/min,3,climb,", ",clear,"}, /* its own unit counts */
        {"4,300,3 mm,climb,", "flutes: "},
        {"5,300,,sideways,", "side: "},
        {"6,300,,,no-such", "tool: there is no tool"},
        {"7,300,,,3.1mm", ",clear,"},
        {"8,1e30,,,", "feed_rate [mm/min]: "},
        {"9,300,,,\"3mm\" x", "text follows a closing quote"},
        {"\"10\", 300 ,\t2\t, \"climb\" ,3mm", ",clear,"},
        {"11,300,3,climb", "4 fields; the first line has 5"},
        {"12,300,3,climb,3mm,,", "7 fields; the first line has 5"},
    };
    check_faults(BITE_CSV, "id,feed_rate [mm/min],flutes,side,tool\n", rows,
                 sizeof rows / sizeof *rows);
}
END_TEST

START_TEST(members_of_json)
{
    static const row_case rows[] = {
        {"{\"flutes\": 3, \"side\": null, \"id\": [1, {\"a\": 2}], \"note\": true}",
         "\"note\": true, \"verdict\": \"clear\"}"},
        {"{\"blind\": true} \t", "{\"blind\": true, \"verdict\": \""},
        {"{\"blind\": false}", "{\"blind\": false, \"verdict\": \""},
        {"{\"blind\": 1}", "\"fault\": \"blind: a number; a word was expected\"}"},
        {"{\"flutes\": true}", "\"fault\": \"flutes: a text or a number was expected\"}"},
        {"{\"flutes\": [3]}", "\"fault\": \"flutes: a text or a number was expected\"}"},
        {"{\"tool\": 3}", "\"fault\": \"tool: a number; a name was expected\"}"},
        {"{\"tool\": true}", "\"fault\": \"tool: a text or a number was expected\"}"},
        {"{\"depth\": 0.2}", "\"fault\": \"depth: a number without a unit; a length was expected"},
        {"{\"depth [mm]\": 0.2}", "\"verdict\": \"clear\"}"},
        {"{\"depth [mm]\": \"0.2\"}", "\"verdict\": \"clear\"}"},
        {"{\"depth [mm]\": \"0.008in\"}", "\"verdict\": \"clear\"}"},
        {"{\"depth [degC]\": 0.2}", "degC is not a unit of depth"},
        {"{\"depth [mm\": 0.2}", "there is no input named depth [mm"},
        {"{\"dept\": 0.2}", "did you mean depth? columns named id"},
        {"{\"q\": 0.2}", "list inputs shows the names"},
        {"{\"\": 0.2}", "a column has no name"},
        {"{\"verdict\": 0.2}", "verdict: "},
        {"{\"feed_rate [mm/min]\": 300, \"feed_rate\": \"500mm/min\"}",
         "\"fault\": \"feed_rate: its input is named twice"},
        {"{\"tool\": \"3mm\", \"diameter\": \"3.1mm\"}",
         "\"fault\": \"diameter: its input is named twice"},
        {"{\"tool\": \"3mm\", \"Tool\": \"3.1mm\"}", "\"fault\": \"Tool: its input is named twice"},
        {"{\"tool\": \"3mm\", \"depth\": \"0.2mm\", \"depth [mm]\": 0.3}",
         "\"fault\": \"depth [mm]: its input is named twice"},
        {"null", "{\"fault\": \"not JSON: "},
        {"[]", "{\"fault\": \"not an object in braces"},
        {"{\"flutes\": 3}}", "{\"fault\": \"not JSON"},
        {"{}", "{\"verdict\": \"clear\"}"},
    };
    check_faults(BITE_JSON, "", rows, sizeof rows / sizeof *rows);
}
END_TEST

/* A record that a row does not name is that of the request again: a row between two others must
 * not change the second of them. */
START_TEST(records_are_those_of_the_row)
{
    static const char *const results[] = {
        "stickout", "machine_stiffness", "bond_width", "tip_frequency", "diameter",
        "flutes",   "spindle_fastest",   "depth",      "removal_rate"};
    static const struct {
        const char *column;
        const char *name;
    } others[] = {{"material", "6061"},     {"tool", "6mm"},       {"holder", "drill-chuck"},
                  {"machine", "knee-mill"}, {"hold", "tape-glue"}, {"tool", "4.1mm"},
                  {"thread", "m3"}};
    bite_case_options options = options_of(BITE_JSON, results, sizeof results / sizeof *results);
    for (size_t i = 0; i < sizeof others / sizeof *others; i++) {
        char rows[400];
        char lines[3][2000];
        (void)snprintf(rows, sizeof rows, "{ }\n{\"%s\": \"%s\"}\n{ }\n", others[i].column,
                       others[i].name);
        bite_written_text out = results_of(&options, rows);
        for (size_t k = 0; k < 3; k++) {
            line_of(&out, k, lines[k], sizeof lines[k]);
        }
        ck_assert_str_eq(lines[0], lines[2]);
        ck_assert_msg(strstr(lines[0], "\"stickout\": 0.0") != NULL, "%s", lines[0]);
        ck_assert_msg(strstr(lines[1], "no ") == NULL, "%s: %s", others[i].column, lines[1]);
        free(out.at);
    }
}
END_TEST

static double member_of(const char *line, const char *name)
{
    char key[64];
    double number = (double)NAN;
    size_t used = 0;
    (void)snprintf(key, sizeof key, "\"%s\": ", name);
    const char *found = strstr(line, key);
    ck_assert_msg(found != NULL, "%s: %s", name, line);
    found += strlen(key);
    return bite_number_read(found, strlen(found), &number, &used) ? number : (double)NAN;
}

/* Inputs as results: as used, defaults included, a word by its name; in CSV in shop units. */
START_TEST(inputs_are_results_too)
{
    static const char *const results[] = {"depth", "side",         "flutes", "room_temperature",
                                          "width", "spindle_speed"};
    bite_case_options options = options_of(BITE_JSON, results, 6);
    char line[2000];
    bite_written_text out = results_of(&options, "{\"note\": 1}\n");
    line_of(&out, 0, line, sizeof line);
    bite_assert_near(member_of(line, "depth"), 0.2e-3, 1e-9);
    bite_assert_near(member_of(line, "room_temperature"), 293.15, 1e-9);
    bite_assert_near(member_of(line, "spindle_speed"), 150.0, 1e-9);
    ck_assert_msg(strstr(line, "\"side\": \"climb\"") != NULL, "%s", line);
    ck_assert_double_eq(member_of(line, "flutes"), 2.0);
    free(out.at);
    options.format = BITE_CSV;
    options.units = BITE_INCH;
    out = results_of(&options, "note\nx\n");
    line_of(&out, 0, line, sizeof line);
    ck_assert_str_eq(line, "note,depth [in],side,flutes,room_temperature [degF],width [in],"
                           "spindle_speed [rpm],fault");
    line_of(&out, 1, line, sizeof line);
    ck_assert_str_eq(line, "x,0.00787401575,climb,2,68,,9000,");
    free(out.at);
}
END_TEST

START_TEST(a_usual_set_of_results)
{
    char line[2000];
    bite_case_options options = options_of(BITE_CSV, NULL, 0);
    bite_written_text out = results_of(&options, "note\nx\n");
    line_of(&out, 0, line, sizeof line);
    ck_assert_str_eq(line, "note,verdict,worst_limit,worst_utilization,chip_load [mm/tooth],"
                           "removal_rate [cm3/min],power_mean [kW],wall_error [mm],"
                           "surface_temperature [degC],fault");
    free(out.at);
    options.draws = 64;
    out = results_of(&options, "note\nx\n");
    line_of(&out, 0, line, sizeof line);
    ck_assert_msg(strncmp(line, "note,verdict,chance,worst_limit,", 32) == 0, "%s", line);
    free(out.at);
}
END_TEST

START_TEST(results_with_faults)
{
    static const struct {
        const char *results[2];
        size_t draws;
        bite_status status;
        const char *key;
        const char *says;
        const char *hint;
    } bad[] = {
        {{"removal_rat", NULL}, 0, BITE_UNKNOWN_NAME, "removal_rat", "no result", "removal_rate?"},
        {{"q", NULL}, 0, BITE_UNKNOWN_NAME, "q", "no result named q", "list values"},
        {{"verdict", "verdict"}, 0, BITE_BAD_ARGUMENT, "verdict", "named twice", ""},
        {{"depth.low", NULL}, 64, BITE_UNKNOWN_NAME, "depth.low", "no result", ""},
        {{"softening.low", NULL}, 64, BITE_UNKNOWN_NAME, "softening.low", "no result", ""},
        {{"removal_rate.chance", NULL}, 64, BITE_UNKNOWN_NAME, "removal_rate.chance", "no", ""},
        {{".low", NULL}, 64, BITE_UNKNOWN_NAME, ".low", "no result named .low", ""},
        {{"softening.chance", NULL},
         0,
         BITE_BAD_ARGUMENT,
         "softening.chance",
         "needs draws",
         "such as 1024"},
    };
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        size_t count = bad[i].results[1] == NULL ? 1 : 2;
        bite_case_options options = options_of(BITE_CSV, bad[i].results, count);
        bite_error error = BITE_ERROR_INIT;
        bite_case_summary summary;
        bite_written_text out;
        options.draws = bad[i].draws;
        ck_assert_int_eq(run(&options, "3mm", "note\n", &out, &summary, &error), bad[i].status);
        ck_assert_str_eq(error.key, bad[i].key);
        ck_assert_msg(strstr(error.message, bad[i].says) != NULL, "%s", error.message);
        ck_assert_msg(strstr(error.hint, bad[i].hint) != NULL, "%s", error.hint);
        ck_assert_ptr_null(out.at);
    }
}
END_TEST

/* 64 results, 128 columns, 64 bytes of a name, 65536 of a line. */
START_TEST(what_is_too_much)
{
    static const char *names[65];
    static char head[80000];
    bite_case_options options = options_of(BITE_CSV, names, 65);
    bite_error error = BITE_ERROR_INIT;
    bite_case_summary summary;
    bite_written_text out;
    for (size_t i = 0; i < 65; i++) {
        names[i] = i < BITE_LIMIT_COUNT ? bite_limit_name((bite_limit_id)i)
                                        : bite_value_name((bite_value_id)(i - BITE_LIMIT_COUNT));
    }
    ck_assert_int_eq(run(&options, "3mm", "note\n", &out, &summary, &error), BITE_OUT_OF_RANGE);
    ck_assert_msg(strstr(error.message, "more than 64 results") != NULL, "%s", error.message);
    options.result_count = 64;
    out = results_of(&options, "note\nx\n");
    free(out.at);
    options.result_count = 1;
    memset(head, ',', 128);
    memcpy(head + 128, "\n", 2);
    ck_assert_int_eq(run(&options, "3mm", head, &out, &summary, &error), BITE_BAD_FILE);
    ck_assert_msg(strstr(error.message, "more than 128 columns") != NULL, "%s", error.message);
    memset(head, 'a', 64);
    head[64] = 0;
    ck_assert_int_eq(run(&options, "3mm", head, &out, &summary, &error), BITE_BAD_FILE);
    ck_assert_msg(strstr(error.message, "more than 63 bytes") != NULL, "%s", error.message);
    memset(head, 'a', 70000);
    memcpy(head + 70000, "\n", 2);
    ck_assert_int_eq(run(&options, "3mm", head, &out, &summary, &error), BITE_BAD_FILE);
    ck_assert_msg(strstr(error.message, "first line is too long") != NULL, "%s", error.message);
    ck_assert_ptr_null(out.at);
}
END_TEST

/* More keys of JSON than a worker keeps: the last ones are found anew in each row. */
START_TEST(more_keys_than_are_kept)
{
    static const char *const results[] = {"depth"};
    static bite_written_text rows;
    bite_case_options options = options_of(BITE_JSON, results, 1);
    char line[200];
    for (size_t i = 0; i < 300; i++) {
        char row[120];
        (void)snprintf(row, sizeof row,
                       "{\"width%*s[%*smm]\": 0.2, \"feed_rate\": \"200mm/min\"}\n",
                       (int)(1 + i % 15), "", (int)(1 + i / 15), "");
        (void)bite_written_text_add(&rows, row, strlen(row));
    }
    bite_written_text out = results_of(&options, rows.at);
    for (size_t i = 0; i < 300; i++) {
        line_of(&out, i, line, sizeof line);
        ck_assert_msg(strstr(line, ", \"depth\": 0.0002}") != NULL, "%s", line);
    }
    free(rows.at);
    free(out.at);
}
END_TEST

/* A field that a spreadsheet would take for a formula is not repeated as one. */
START_TEST(formulas_are_repeated_as_text)
{
    static const char *const results[] = {"verdict"};
    bite_case_options options = options_of(BITE_CSV, results, 1);
    char line[300];
    bite_written_text out =
        results_of(&options, "note,depth [mm]\n=1+1,0.2\n\"=\"\"a\"\"\", 0.2\nx,0.2\n");
    line_of(&out, 1, line, sizeof line);
    ck_assert_str_eq(line, "'=1+1,0.2,clear,");
    line_of(&out, 2, line, sizeof line);
    ck_assert_str_eq(line, "\"'=\"\"a\"\"\",0.2,clear,");
    line_of(&out, 3, line, sizeof line);
    ck_assert_str_eq(line, "x,0.2,clear,");
    free(out.at);
}
END_TEST

/* A byte order mark, line ends of another system, blank lines; more rows than are judged at once.
 */
START_TEST(lines_of_all_kinds)
{
    enum { ROWS = 2500 };
    static const char *const results[] = {"verdict"};
    bite_case_options options = options_of(BITE_CSV, results, 1);
    bite_case_summary summary;
    bite_error error = BITE_ERROR_INIT;
    bite_written_text rows = {NULL, 0};
    bite_written_text out;
    char line[200];
    (void)bite_written_text_add(&rows, "\xef\xbb\xbfid\r\n \t\r\n", 11);
    for (size_t i = 0; i < ROWS; i++) {
        (void)snprintf(line, sizeof line, "%zu\n", i);
        (void)bite_written_text_add(&rows, line, strlen(line));
    }
    ck_assert_int_eq(run(&options, "3mm", rows.at, &out, &summary, &error), BITE_OK);
    ck_assert_uint_eq(summary.rows, ROWS);
    ck_assert_uint_eq(summary.refused, 0);
    ck_assert_uint_eq(summary.verdicts[BITE_CLEAR], ROWS);
    line_of(&out, 0, line, sizeof line);
    ck_assert_str_eq(line, "id,verdict,fault");
    line_of(&out, ROWS, line, sizeof line);
    ck_assert_str_eq(line, "2499,clear,");
    free(rows.at);
    free(out.at);
}
END_TEST

START_TEST(arguments)
{
    bite_case_options good = options_of(BITE_CSV, NULL, 0);
    enum { BAD = 9 };
    static const char *const no_name[] = {NULL};
    bite_case_options bad[BAD];
    bite_case_word word = {"feed", "feed_rate"};
    const bite_case_word no_word = {NULL, "feed_rate"};
    const bite_case_word no_input = {"feed", NULL};
    bite_request *request = request_of("3mm");
    bite_cases *cases = NULL;
    bite_error error = BITE_ERROR_INIT;
    bite_written_text out = {NULL, 0};
    for (size_t i = 0; i < BAD; i++) {
        bad[i] = good;
    }
    bad[0].format = BITE_TEXT;
    bad[1].units = 2;
    bad[2].word_count = 1;
    bad[3].struct_size = 7;
    bad[4].draws = 3;
    bad[5].draws = 64;
    bad[5].confidence = 2.0;
    bad[6].results = no_name;
    bad[6].result_count = 1;
    bad[7].words = &no_word;
    bad[7].word_count = 1;
    bad[8].words = &no_input;
    bad[8].word_count = 1;
    for (size_t i = 0; i < BAD; i++) {
        bite_status status =
            bite_cases_new(request, &bad[i], bite_written_text_add, &out, &cases, &error);
        ck_assert_msg(status == BITE_BAD_ARGUMENT || status == BITE_OUT_OF_RANGE, "%zu: %d", i,
                      (int)status);
        ck_assert_ptr_null(cases);
    }
    ck_assert_int_eq(bite_cases_new(NULL, &good, bite_written_text_add, &out, &cases, &error),
                     BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_cases_new(request, NULL, bite_written_text_add, &out, &cases, &error),
                     BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_cases_new(request, &good, NULL, &out, &cases, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_cases_new(request, &good, bite_written_text_add, &out, NULL, &error),
                     BITE_BAD_ARGUMENT);
    good.words = &word;
    good.word_count = 1;
    good.threads = 99; /* as many as there may be */
    ck_assert_int_eq(bite_cases_new(request, &good, bite_written_text_add, &out, &cases, &error),
                     BITE_OK);
    ck_assert_int_eq(bite_cases_push(NULL, "x", 1, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_cases_end(NULL, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_cases_push(cases, NULL, 0, &error), BITE_OK);
    ck_assert_int_eq(bite_cases_push(cases, "feed\n300mm/min\n", 15, &error), BITE_OK);
    bite_case_summary summary = {.struct_size = 3, .rows = 77};
    bite_cases_summary(cases, &summary);
    ck_assert_uint_eq(summary.rows, 77); /* its size is none of this library's */
    ck_assert_int_eq(bite_cases_end(cases, &error), BITE_OK);
    ck_assert_int_eq(bite_cases_end(cases, &error), BITE_BAD_ARGUMENT);
    ck_assert_msg(strstr(error.message, "have ended") != NULL, "%s", error.message);
    ck_assert_int_eq(bite_cases_push(cases, NULL, 1, &error), BITE_BAD_ARGUMENT);
    bite_case_summary_init(&summary);
    bite_cases_summary(cases, &summary);
    ck_assert_uint_eq(summary.rows, 1);
    bite_cases_summary(NULL, &summary);
    ck_assert_uint_eq(summary.rows, 1);
    bite_cases_free(cases);
    bite_request_free(request);
    free(out.at);
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("case_fields");
    tcase_add_unchecked_fixture(tests, open_library, close_library);
    tcase_set_timeout(tests, 120);
    tcase_add_test(tests, fields_of_csv);
    tcase_add_test(tests, members_of_json);
    tcase_add_test(tests, records_are_those_of_the_row);
    tcase_add_test(tests, inputs_are_results_too);
    tcase_add_test(tests, a_usual_set_of_results);
    tcase_add_test(tests, results_with_faults);
    tcase_add_test(tests, what_is_too_much);
    tcase_add_test(tests, more_keys_than_are_kept);
    tcase_add_test(tests, formulas_are_repeated_as_text);
    tcase_add_test(tests, lines_of_all_kinds);
    tcase_add_test(tests, arguments);
    Suite *suite = suite_create("case_fields");
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
