/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cases as text: each row is what its own answer says, whatever the pieces, threads and format; a
 * bad row has a fault and spoils no other. */
#include "core/base/number.h"
#include "core/names/registry.h"
#include "tests/support/open_library.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include "tests/support/written_text.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define ROWS 400

static const char *const materials[] = {"acrylic/cast", "6061", "acetal/copolymer", "brass/c360"};
static const char *const tools[] = {"3mm", "1/8in", "0.8mm", "6mm"};
static const char *const sides[] = {"climb", "conventional"};

static void put(bite_written_text *all, const char *piece)
{
    (void)bite_written_text_add(all, piece, strlen(piece));
}

/* ---- the rows of the test ---- */

typedef struct test_row {
    const char *material; /* NULL: not given */
    const char *tool;
    const char *side;
    double spindle; /* rpm */
    double feed;    /* mm/min */
    double depth;   /* mm; NaN: not given */
    double width;   /* mm; NaN: not given */
} test_row;

static size_t one_of(uint64_t *seed, size_t count)
{
    return (size_t)bite_test_between(seed, 0.0, (double)count);
}

static test_row row_at(size_t i)
{
    uint64_t seed = 1000 + i;
    test_row row = {materials[one_of(&seed, 4)],
                    tools[one_of(&seed, 4)],
                    one_of(&seed, 3) == 0 ? sides[one_of(&seed, 2)] : NULL,
                    (double)(3000 + one_of(&seed, 20000)),
                    (double)(20 + one_of(&seed, 1500)),
                    one_of(&seed, 4) == 0 ? (double)NAN : 0.05 + 0.01 * (double)one_of(&seed, 90),
                    (double)NAN};
    row.width = row.side == NULL ? (double)NAN : 0.1;
    if (i % 7 == 0) {
        row.material = NULL;
    }
    return row;
}

static void put_number(bite_written_text *all, double number, const char *name, int json)
{
    char field[64];
    if (json && !isnan(number)) {
        (void)snprintf(field, sizeof field, ", \"%s\": %.10g", name, number);
    } else if (json) {
        field[0] = 0;
    } else {
        (void)snprintf(field, sizeof field, isnan(number) ? "," : ",%.10g", number);
    }
    put(all, field);
}

static void put_word(bite_written_text *all, const char *word, const char *name, int json)
{
    char field[64];
    (void)snprintf(field, sizeof field, json ? ", \"%s\": \"%s\"" : "%.0s,%s", name,
                   word == NULL ? "" : word);
    put(all, json && word == NULL ? "" : field);
}

static void put_row(bite_written_text *all, size_t i, int json)
{
    test_row row = row_at(i);
    char field[32];
    (void)snprintf(field, sizeof field, json ? "{\"id\": %zu" : "%zu", i);
    put(all, field);
    put_word(all, row.material, "material", json);
    put_word(all, row.tool, "tool", json);
    put_word(all, row.side, "side", json);
    put_number(all, row.spindle, "spindle_speed [rpm]", json);
    put_number(all, row.feed, "feed [mm/min]", json);
    put_number(all, row.depth, "depth [mm]", json);
    put_number(all, row.width, "width [mm]", json);
    put(all, json ? "}\n" : "\n");
}

static bite_written_text make_rows(size_t count, int json)
{
    bite_written_text all = {NULL, 0};
    put(&all, json ? ""
                   : "id,material,tool,side,spindle_speed [rpm],feed [mm/min],depth [mm],width "
                     "[mm]\n");
    for (size_t i = 0; i < count; i++) {
        put_row(&all, i, json);
    }
    return all;
}

/* ---- running ---- */

static const bite_case_word words[] = {{"feed", "feed_rate"}};
static const char *const results[] = {"verdict",   "worst_limit",  "worst_utilization",
                                      "softening", "wall_error",   "power_mean",
                                      "flutes",    "tip_frequency"};
enum { RESULTS = sizeof results / sizeof *results };

static bite_request *template_of(void)
{
    bite_error error = BITE_ERROR_INIT;
    bite_request *request = NULL;
    ck_assert_int_eq(bite_request_new(library, &request, &error), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_GRADES, "polycarbonate/sheet", &error),
                     BITE_OK);
    return request;
}

static bite_case_options options_of(int json)
{
    bite_case_options options = {.struct_size = (uint32_t)sizeof options,
                                 .format = json ? BITE_JSON : BITE_CSV,
                                 .words = words,
                                 .word_count = 1,
                                 .results = results,
                                 .result_count = RESULTS};
    return options;
}

/* Runs text through cases in pieces of that many bytes. */
static bite_status run(const bite_case_options *options, const bite_written_text *in, size_t piece,
                       bite_written_text *out, bite_case_summary *summary, bite_error *error)
{
    bite_request *request = template_of();
    bite_cases *cases = NULL;
    out->at = NULL;
    out->size = 0;
    bite_status status =
        bite_cases_new(request, options, bite_written_text_add, out, &cases, error);
    for (size_t at = 0; status == BITE_OK && at < in->size; at += piece) {
        size_t left = in->size - at;
        status = bite_cases_push(cases, in->at + at, left < piece ? left : piece, error);
    }
    status = status == BITE_OK ? bite_cases_end(cases, error) : status;
    if (summary != NULL) {
        summary->struct_size = (uint32_t)sizeof *summary;
        bite_cases_summary(cases, summary);
    }
    bite_cases_free(cases);
    bite_request_free(request);
    return status;
}

static bite_written_text run_well(const bite_case_options *options, const bite_written_text *in,
                                  size_t piece)
{
    bite_error error = BITE_ERROR_INIT;
    bite_written_text out;
    bite_status status = run(options, in, piece, &out, NULL, &error);
    ck_assert_msg(status == BITE_OK, "%s: %s", error.key, error.message);
    return out;
}

/* ---- what a row should be ---- */

static bite_answer *answer_of(size_t i)
{
    bite_error error = BITE_ERROR_INIT;
    test_row row = row_at(i);
    bite_request *request = template_of();
    bite_answer *answer = NULL;
    bite_status status = row.material == NULL
                             ? BITE_OK
                             : bite_request_use(request, BITE_GRADES, row.material, &error);
    const struct {
        const char *name;
        double si;
    } numbers[] = {{"spindle_speed", row.spindle / 60.0},
                   {"feed_rate", row.feed / 60000.0},
                   {"depth", row.depth * 1e-3},
                   {"width", row.width * 1e-3}};
    if (status == BITE_OK) {
        status = bite_request_use(request, BITE_TOOLS, row.tool, &error);
    }
    if (status == BITE_OK && row.side != NULL) {
        status = bite_request_set(request, "side", row.side, &error);
    }
    for (size_t n = 0; status == BITE_OK && n < 4; n++) {
        if (!isnan(numbers[n].si)) {
            status = bite_request_set_number(request, numbers[n].name, numbers[n].si, &error);
        }
    }
    ck_assert_msg(status == BITE_OK, "row %zu: %s: %s", i, error.key, error.message);
    if (bite_answer_new(request, BITE_DRAWS_NONE, 0.9, &answer, &error) != BITE_OK) {
        answer = NULL;
    }
    bite_request_free(request);
    return answer;
}

/* The field of a line after `skip` commas; the line has no quotes there. */
static const char *field_at(const char *line, size_t skip)
{
    for (; skip > 0; skip--) {
        line = strchr(line, ',');
        ck_assert_ptr_nonnull(line);
        line++;
    }
    return line;
}

static double number_at(const char *line, size_t skip)
{
    const char *field = field_at(line, skip);
    double number = (double)NAN;
    size_t used = 0;
    return bite_number_read(field, strcspn(field, ",\n"), &number, &used) ? number : (double)NAN;
}

/* Nine digits are written: half a unit of the last is 5e-9 at most. */
static void same_number(size_t row, const char *name, double found, double expected)
{
    int same = isnan(expected) ? isnan(found) : fabs(found - expected) <= 5.001e-9 * fabs(expected);
    ck_assert_msg(same, "row %zu: %s is %.12g, not %.12g", row, name, found, expected);
}

static size_t refused_rows;

static void check_row(size_t i, const char *line)
{
    enum { FIRST = 8 }; /* columns of the row itself */
    bite_answer *answer = answer_of(i);
    if (answer == NULL) {
        ck_assert_msg(strncmp(field_at(line, FIRST), ",,,,,,,,", RESULTS) == 0, "row %zu: %.80s", i,
                      line);
        refused_rows++;
        return;
    }
    const bite_result *result = bite_answer_result(answer);
    const char *verdict = bite_verdict_name((bite_verdict)result->verdict);
    const char *worst = bite_limit_name((bite_limit_id)result->worst);
    const bite_limit *softening = &result->limits[BITE_LIMIT_SOFTENING];
    ck_assert_msg(strncmp(field_at(line, FIRST), verdict, strlen(verdict)) == 0,
                  "row %zu: %s, not %.80s", i, verdict, field_at(line, FIRST));
    ck_assert_msg(strncmp(field_at(line, FIRST + 1), worst, strlen(worst)) == 0, "row %zu: %s", i,
                  worst);
    same_number(i, results[2], number_at(line, FIRST + 2),
                result->limits[result->worst].utilization);
    same_number(i, results[3], number_at(line, FIRST + 3),
                softening->applies ? softening->utilization : (double)NAN);
    same_number(i, results[4], number_at(line, FIRST + 4),
                result->values[BITE_WALL_ERROR].value * 1e3);
    same_number(i, results[5], number_at(line, FIRST + 5),
                result->values[BITE_POWER_MEAN].value * 1e-3);
    same_number(i, results[7], number_at(line, FIRST + 7),
                result->values[BITE_TIP_FREQUENCY].value * 1e-3);
    bite_answer_free(answer);
}

START_TEST(rows_are_single_answers)
{
    bite_case_options options = options_of(0);
    bite_written_text in = make_rows(ROWS, 0);
    bite_written_text out = run_well(&options, &in, in.size);
    const char *line = out.at;
    for (size_t i = 0; i < ROWS; i++) {
        line = strchr(line, '\n');
        ck_assert_ptr_nonnull(line);
        check_row(i, ++line);
    }
    ck_assert_msg(refused_rows < ROWS / 4, "%zu rows have no answer", refused_rows);
    free(in.at);
    free(out.at);
}
END_TEST

START_TEST(pieces_and_threads_change_nothing)
{
    for (int json = 0; json <= 1; json++) {
        bite_case_options options = options_of(json);
        bite_written_text in = make_rows(ROWS, json);
        bite_written_text whole = run_well(&options, &in, in.size);
        const size_t pieces[] = {1, 7, 4096};
        for (size_t i = 0; i < 3; i++) {
            options.threads = i + 1;
            bite_written_text out = run_well(&options, &in, pieces[i]);
            ck_assert_uint_eq(out.size, whole.size);
            ck_assert(memcmp(out.at, whole.at, out.size) == 0);
            free(out.at);
        }
        free(in.at);
        free(whole.at);
    }
}
END_TEST

/* The number behind "name": in a line of JSON. */
static double member_of(const char *line, const char *name)
{
    char key[64];
    double number = (double)NAN;
    size_t used = 0;
    (void)snprintf(key, sizeof key, "\"%s\": ", name);
    const char *found = strstr(line, key);
    ck_assert_ptr_nonnull(found);
    found += strlen(key);
    return bite_number_read(found, strlen(found), &number, &used) ? number : (double)NAN;
}

START_TEST(json_has_the_same_numbers_in_si)
{
    bite_case_options options = options_of(0);
    bite_written_text csv_in = make_rows(ROWS, 0);
    bite_written_text csv = run_well(&options, &csv_in, csv_in.size);
    options = options_of(1);
    bite_written_text json_in = make_rows(ROWS, 1);
    bite_written_text json = run_well(&options, &json_in, json_in.size);
    const char *row = csv.at;
    const char *line = json.at;
    for (size_t i = 0; i < ROWS; i++) {
        row = strchr(row, '\n') + 1;
        char one[2048];
        size_t size = strcspn(line, "\n");
        (void)snprintf(one, sizeof one, "%.*s", (int)size, line);
        if (strstr(one, "\"fault\"") == NULL) {
            same_number(i, "wall_error", member_of(one, "wall_error") * 1e3, number_at(row, 12));
            same_number(i, "softening", member_of(one, "softening"), number_at(row, 11));
        } else {
            ck_assert_int_eq(*field_at(row, 8), ',');
        }
        line += size + 1;
    }
    free(csv_in.at);
    free(csv.at);
    free(json_in.at);
    free(json.at);
}
END_TEST

/* ---- faults ---- */

static size_t refused_lines[16];
static char refused_keys[16][128];
static size_t refused_count;

static void note_refused(void *user, const bite_error *error)
{
    (void)user;
    ck_assert_uint_lt(refused_count, 16);
    (void)snprintf(refused_keys[refused_count], sizeof refused_keys[0], "%s", error->key);
    refused_lines[refused_count++] = error->line;
}

START_TEST(a_bad_row_spoils_no_other)
{
    static const char csv[] = "tool,spindle_speed [rpm],feed,depth,note\r\n"
                              "3mm,9000,300mm/min,0.2mm,good\r\n"
                              "\r\n"
                              "3mm,9000,300,0.2mm,no unit\r\n"
                              "3mm,9000,300mm/min\r\n"
                              "none-such,9000,300mm/min,0.2mm,no tool\r\n"
                              "3mm,1e9,300mm/min,0.2mm,too fast\r\n"
                              "3mm,9000,300mm/min,\"0.2mm,not closed\r\n"
                              "3mm,9000,300mm/min,0.2mm,\x1b[31m\r\n"
                              "\"3mm\" , 9000 ,\"300mm/min\",0.2mm,\"quoted, \"\"too\"\"\"";
    static const size_t lines[] = {4, 5, 6, 7, 8, 9};
    static const char *const keys[] = {"feed", "", "tool", "spindle_speed [rpm]", "", ""};
    const bite_written_text in = {(char *)(uintptr_t)csv, sizeof csv - 1};
    bite_case_options options = options_of(0);
    bite_case_summary summary;
    bite_error error = BITE_ERROR_INIT;
    bite_written_text out;
    refused_count = 0;
    options.refused = note_refused;
    ck_assert_int_eq(run(&options, &in, 5, &out, &summary, &error), BITE_OK);
    ck_assert_uint_eq(summary.rows, 8);
    ck_assert_uint_eq(summary.refused, 6);
    ck_assert_uint_eq(refused_count, 6);
    for (size_t i = 0; i < 6; i++) {
        ck_assert_uint_eq(refused_lines[i], lines[i]);
        ck_assert_str_eq(refused_keys[i], keys[i]);
    }
    /* the first and the last row have the same result, and no escape character goes out */
    char *first = strstr(out.at, "good,");
    char *last = strstr(out.at, "\"\"too\"\"\",");
    ck_assert_ptr_nonnull(first);
    ck_assert_ptr_nonnull(last);
    ck_assert_int_eq(strncmp(first + 5, last + 9, strcspn(first + 5, "\n")), 0);
    ck_assert_ptr_null(strchr(out.at, 0x1b));
    free(out.at);
}
END_TEST

/* Runs a text that is refused as a whole; *error says why. */
static bite_status refuse(int json, const char *csv, bite_error *error)
{
    const bite_written_text in = {(char *)(uintptr_t)csv, strlen(csv)};
    bite_case_options options = options_of(json);
    bite_written_text out;
    bite_status status = run(&options, &in, in.size + 1, &out, NULL, error);
    ck_assert_uint_eq(out.size, 0);
    free(out.at);
    return status;
}

START_TEST(a_bad_first_line_is_refused)
{
    static const struct {
        const char *csv;
        const char *key;
        const char *says;
    } heads[] = {{"", "", "no line"},
                 {"tool;feed\n3mm;1\n", "", "one column only"},
                 {"tool,fed\n", "fed", "no input named fed"},
                 {"tool,feed [mm]\n", "feed [mm]", "not a unit"},
                 {"tool,feed,feed_rate\n", "feed_rate", "named twice"},
                 {"tool,flutes\n", "flutes", "result too"},
                 {"fault\n", "fault", "no input"},
                 {"tool,,feed\n", "", "no name"}};
    for (size_t i = 0; i < sizeof heads / sizeof *heads; i++) {
        bite_error error = BITE_ERROR_INIT;
        ck_assert_int_eq(refuse(0, heads[i].csv, &error), BITE_BAD_FILE);
        ck_assert_str_eq(error.key, heads[i].key);
        ck_assert_msg(strstr(error.message, heads[i].says) != NULL, "%s", error.message);
        ck_assert_uint_eq(error.line, heads[i].csv[0] == 0 ? 0 : 1);
    }
}
END_TEST

START_TEST(json_rows_have_faults_of_their_own)
{
    static const char rows[] = "{\"tool\": \"3mm\", \"feed\": 300}\n"
                               "[1, 2]\n"
                               "{\"tool\": \"3mm\"\n"
                               "{\"tool\": \"3mm\", \"tool\": \"4mm\"}\n"
                               "{\"fault\": 1}\n"
                               "{\"flutes\": 3}\n"
                               "{\"tool\": 3}\n"
                               "{ }\n";
    const bite_written_text in = {(char *)(uintptr_t)rows, sizeof rows - 1};
    bite_case_options options = options_of(1);
    bite_case_summary summary;
    bite_error error = BITE_ERROR_INIT;
    bite_written_text out;
    refused_count = 0;
    options.refused = note_refused;
    ck_assert_int_eq(run(&options, &in, 64, &out, &summary, &error), BITE_OK);
    ck_assert_uint_eq(summary.refused, 8); /* the last has no tool */
    const char *line = out.at;
    for (size_t i = 0; i < 8; i++) {
        ck_assert_uint_eq(refused_lines[i], i + 1);
        size_t length = strcspn(line, "\n");
        ck_assert(line[0] == '{' && line[length - 1] == '}');
        line += length + 1;
    }
    ck_assert_str_eq(refused_keys[0], "feed");
    ck_assert_str_eq(refused_keys[5], "flutes");
    ck_assert_str_eq(refused_keys[6], "tool");
    free(out.at);
}
END_TEST

START_TEST(a_line_without_end_is_one_refused_row)
{
    enum { LONG = 300000 };
    bite_written_text in = {NULL, 0};
    char *dots = malloc(LONG + 1);
    ck_assert_ptr_nonnull(dots);
    memset(dots, '.', LONG);
    dots[LONG] = 0;
    put(&in, "tool,spindle_speed [rpm],feed,depth\n");
    put(&in, dots);
    put(&in, "\n3mm,9000,300mm/min,0.2mm\n");
    bite_case_options options = options_of(0);
    bite_case_summary summary;
    bite_error error = BITE_ERROR_INIT;
    bite_written_text out;
    ck_assert_int_eq(run(&options, &in, 1000, &out, &summary, &error), BITE_OK);
    ck_assert_uint_eq(summary.rows, 2);
    ck_assert_uint_eq(summary.refused, 1);
    free(dots);
    free(in.at);
    free(out.at);
}
END_TEST

START_TEST(draws_give_the_chance_of_the_answer)
{
    static const char *const drawn[] = {"chance", "wall_error.high", "softening.chance"};
    static const char csv[] = "tool,spindle_speed [rpm],feed,depth\n3mm,15000,600mm/min,0.5mm\n";
    const bite_written_text in = {(char *)(uintptr_t)csv, sizeof csv - 1};
    bite_case_options options = options_of(0);
    bite_error error = BITE_ERROR_INIT;
    options.results = drawn;
    options.result_count = 3;
    bite_written_text out;
    ck_assert_int_eq(run(&options, &in, in.size, &out, NULL, &error), BITE_BAD_ARGUMENT);
    ck_assert_str_eq(error.key, "chance");
    free(out.at);
    options.draws = 256;
    out = run_well(&options, &in, in.size);
    bite_request *request = template_of();
    bite_answer *answer = NULL;
    ck_assert_int_eq(bite_request_use(request, BITE_TOOLS, "3mm", &error), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "spindle_speed", "15000rpm", &error), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "feed_rate", "600mm/min", &error), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "depth", "0.5mm", &error), BITE_OK);
    ck_assert_int_eq(bite_answer_new(request, 256, 0.9, &answer, &error), BITE_OK);
    const bite_result *result = bite_answer_result(answer);
    const char *line = strchr(out.at, '\n') + 1;
    same_number(0, "chance", number_at(line, 4), result->chance);
    same_number(0, "wall_error.high", number_at(line, 5),
                result->values[BITE_WALL_ERROR].high * 1e3);
    same_number(0, "softening.chance", number_at(line, 6),
                result->limits[BITE_LIMIT_SOFTENING].chance);
    bite_answer_free(answer);
    bite_request_free(request);
    free(out.at);
}
END_TEST

static int refuse_text(void *user, const char *piece, size_t size)
{
    (void)user;
    (void)piece;
    (void)size;
    return 1;
}

START_TEST(it_stops_when_asked_and_when_it_cannot_write)
{
    volatile int stop = 1;
    bite_case_options options = options_of(0);
    bite_error error = BITE_ERROR_INIT;
    bite_written_text in = make_rows(ROWS, 0);
    bite_written_text out;
    bite_request *request = template_of();
    bite_cases *cases = NULL;
    options.stop = &stop;
    ck_assert_int_eq(run(&options, &in, in.size, &out, NULL, &error), BITE_STOPPED);
    ck_assert_ptr_nonnull(strchr(out.at, '\n')); /* the first line, and no part of another */
    ck_assert_uint_eq(out.size, (size_t)(strchr(out.at, '\n') + 1 - out.at));
    options.stop = NULL;
    ck_assert_int_eq(bite_cases_new(request, &options, refuse_text, NULL, &cases, &error), BITE_OK);
    bite_status status = bite_cases_push(cases, in.at, in.size, &error);
    status = status == BITE_OK ? bite_cases_end(cases, &error) : status;
    ck_assert_int_eq(status, BITE_CANNOT_WRITE);
    ck_assert_int_eq(bite_cases_push(cases, "x", 1, &error), BITE_CANNOT_WRITE);
    bite_cases_free(cases);
    bite_request_free(request);
    free(in.at);
    free(out.at);
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("cases");
    tcase_add_unchecked_fixture(tests, open_library, close_library);
    tcase_set_timeout(tests, 120);
    tcase_add_test(tests, rows_are_single_answers);
    tcase_add_test(tests, pieces_and_threads_change_nothing);
    tcase_add_test(tests, json_has_the_same_numbers_in_si);
    tcase_add_test(tests, a_bad_row_spoils_no_other);
    tcase_add_test(tests, a_bad_first_line_is_refused);
    tcase_add_test(tests, json_rows_have_faults_of_their_own);
    tcase_add_test(tests, a_line_without_end_is_one_refused_row);
    tcase_add_test(tests, draws_give_the_chance_of_the_answer);
    tcase_add_test(tests, it_stops_when_asked_and_when_it_cannot_write);
    Suite *suite = suite_create("cases");
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
