/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Figures and limits of a plugin's own: versions of the interface, faults of the lists, and that
 * the limits are asked in cuts, draws, batches, searches and windows like those of the library. */
#include "core/library/collection.h"
#include "core/library/material.h"
#include "core/library/material_record.h"
#include "core/request/answer.h"
#include "core/search/choice.h"
#include "tests/library/private_library.h"
#include "tests/support/paper.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char head[] =
    "[format]\nkind = material\nversion = 1\n[family]\nname = toy\ntitle = Toy\n"
    "[caution.eyes]\nseverity = care\ntext = Wear eye protection.\nsource = common-practice\n"
    "[caution.table]\nseverity = note\ntext = The table knows this.\nsource = common-practice\n"
    "[grade.hard]\nsource = memory\nsubstance = metal\npressure = edge\nchip_form = short\n"
    "density = 2700 kg/m3\nheat_capacity = 900 J/kg/K\nconductivity = 150 W/m/K\n"
    "pressure_t = 500 N/mm2\nedge_t = 8 N/mm\nchip_ratio = 2\nheat_share = 0.95\n"
    "friction_share = 0.25\nsublayer_share = 0.9\nminimum_chip = 0.3\npacking_limit = 1.5\n"
    "speed_carbide = 400 m/min\nmodulus = 70 GPa\npoisson = 0.3\n";
static const char own[] = "own.toy_toughness = 3 N/mm (2 .. 4)\n";

static const double feed = 0.3 / 60.0;
/* By hand: 3000 N/m x 1 mm, and 4 N less 100 N/(m/s) x 5 mm/s. */
static const double demand = 3.0;
static const double capacity = 3.5;

static bite_library *open_toy(const char *what, const char *figures)
{
    char text[2000];
    (void)setenv("BITE_TEST_TOY", what, 1);
    (void)snprintf(text, sizeof text, "%s%s", head, figures);
    write_table("materials/toy.ini", text);
    put_family("tests/plugins/.libs/toy.so", "toy");
    return open_private_library(NULL);
}

/* A request without settings. */
static bite_request *ask_openly(const bite_library *library)
{
    bite_request *request = NULL;
    ck_assert_int_eq(bite_request_new(library, &request, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_GRADES, "toy/hard", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_TOOLS, "6mm", NULL), BITE_OK);
    return request;
}

static bite_request *ask(const bite_library *library)
{
    bite_request *request = ask_openly(library);
    ck_assert_int_eq(bite_request_set(request, "spindle_speed", "10000rpm", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "feed_rate", "300mm/min", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "depth", "1mm", NULL), BITE_OK);
    return request;
}

static bite_answer *answer_of(const bite_request *request, size_t draws)
{
    bite_answer *answer = NULL;
    bite_error error = BITE_ERROR_INIT;
    bite_status status = bite_answer_new(request, draws, 0.95, &answer, &error);
    ck_assert_msg(status == BITE_OK, "%s %s", error.key, error.message);
    return answer;
}

static const bite_limit *limit_of(const bite_answer *answer, const char *name)
{
    for (bite_limit_id id = BITE_LIMIT_OWN_1; id < BITE_LIMIT_COUNT; id++) {
        const char *own_name = bite_cut_limit_name(&answer->full, id);
        if (own_name != NULL && strcmp(own_name, name) == 0) {
            return &answer->result.limits[id];
        }
    }
    ck_abort_msg("no limit %s", name);
}

static int caution_count(const bite_answer *answer, const char *text)
{
    int count = 0;
    for (size_t i = 0; i < bite_answer_caution_count(answer); i++) {
        bite_caution caution;
        ck_assert_int_eq(bite_answer_caution(answer, i, &caution, NULL), BITE_OK);
        count += strstr(caution.text, text) != NULL;
    }
    return count;
}

START_TEST(a_limit_of_a_plugin_is_judged)
{
    bite_library *library = open_toy("sound", own);
    bite_request *request = ask(library);
    bite_answer *answer = answer_of(request, 4096);
    const bite_limit *limit = limit_of(answer, "toy_load");
    bite_kind kind;
    double low;
    double high;
    ck_assert_uint_eq(limit->applies, 1);
    bite_assert_near(limit->demand, demand, 1e-12);
    bite_assert_near(limit->capacity, capacity, 1e-12);
    bite_assert_near(limit->utilization, demand / capacity, 1e-12);
    /* 3 x exp(1.645 s) = 4 above the best estimate: P(x > 3.5) = P(z > 1.645 ln(3.5/3)/ln(4/3)) =
     * P(z > 0.881) = 0.189 */
    bite_assert_near(limit->chance, 0.189, 0.05);
    bite_assert_near(limit->utilization_high, 4.0 / 3.5, 0.01);
    ck_assert_uint_eq(limit->verdict, BITE_TIGHT);
    ck_assert_uint_eq(answer->result.verdict, BITE_TIGHT);
    ck_assert_uint_eq(limit_of(answer, "toy_chip")->advisory, 1);
    ck_assert_uint_eq(limit_of(answer, "toy_chip")->verdict, BITE_TIGHT);
    bite_assert_near(bite_answer_number(answer, "toy_load.demand", &kind, &low, &high), demand,
                     1e-12);
    ck_assert_int_eq(kind, BITE_KIND_FORCE);
    bite_assert_near(bite_answer_number(answer, "toy_toughness", &kind, &low, &high), 3000.0,
                     1e-12);
    bite_assert_near(low, 2000.0, 1e-12);
    ck_assert_str_eq(bite_answer_advice(answer, BITE_LIMIT_OWN_1), "Cut less deep.");
    ck_assert_str_eq(bite_answer_source(answer, "toy_load"), "memory");
    ck_assert_ptr_null(bite_cut_limit_name(&answer->full, BITE_LIMIT_OWN_3));
    ck_assert_uint_eq(answer->result.judged + answer->result.not_applicable +
                          answer->result.not_judged,
                      BITE_LIMIT_OWN_1 + 2);
    bite_answer_free(answer);
    bite_request_free(request);
    bite_library_close(library);
}
END_TEST

/* A caution that the table and the plugin share is shown once, as the more severe of both; two that
 * share a name only are both shown. */
START_TEST(cautions_are_joined)
{
    bite_library *library = open_toy("sound", own);
    bite_request *request = ask(library);
    bite_answer *answer = answer_of(request, 0);
    bite_caution caution;
    ck_assert_int_eq(caution_count(answer, "Wear eye protection."), 1);
    ck_assert_int_eq(bite_answer_caution(answer, 0, &caution, NULL), BITE_OK);
    ck_assert_str_eq(caution.name, "eyes");
    ck_assert_uint_eq(caution.severity, 3);
    ck_assert_int_eq(caution_count(answer, "The table knows this."), 1);
    ck_assert_int_eq(caution_count(answer, "The plugin knows more."), 1);
    ck_assert_int_eq(caution_count(answer, "Toys break: 3 N"), 1);
    bite_answer_free(answer);
    bite_request_free(request);
    bite_library_close(library);
}
END_TEST

/* Descriptors of an older and of a newer header. */
START_TEST(other_versions_of_the_interface_are_read)
{
    static const struct {
        const char *what;
        int limits;
        int cautions;
    } cases[] = {{"old", 0, 1}, {"new", 1, 1}, {"name_only", 0, 0}};
    bite_library *library = open_toy(cases[_i].what, cases[_i].limits ? own : "");
    bite_request *request = ask(library);
    bite_answer *answer = answer_of(request, 0);
    ck_assert_int_eq(bite_cut_limit_name(&answer->full, BITE_LIMIT_OWN_1) != NULL,
                     cases[_i].limits);
    ck_assert_int_eq(caution_count(answer, "Toys break"), cases[_i].cautions);
    ck_assert_uint_eq(bite_library_count(library, BITE_LEFT_OUT), 0);
    bite_answer_free(answer);
    bite_request_free(request);
    bite_library_close(library);
}
END_TEST

START_TEST(faults_are_told)
{
    static const struct {
        const char *what;
        bite_status status;
        const char *says;
    } cases[] = {
        {"major", BITE_BAD_PLUGIN, "version 2 of the plugin interface"},
        {"cut_off", BITE_BAD_PLUGIN, "does not end after a member"},
        {"huge", BITE_BAD_PLUGIN, "does not end after a member: it has 1048576 bytes"},
        {"figure_taken", BITE_BAD_PLUGIN, "figure density: the library has this name already"},
        {"figure_name", BITE_BAD_PLUGIN, "figure Toy toughness: a name begins with a letter"},
        {"figure_quantity", BITE_BAD_PLUGIN, "toy_toughness: it measures no quantity"},
        {"figure_range", BITE_BAD_PLUGIN, "toy_toughness: its range is not one"},
        {"figure_escape", BITE_BAD_PLUGIN, "toy_toughness: it has no summary of one line"},
        {"figure_twice", BITE_BAD_PLUGIN, "another figure of the plugin has this name"},
        {"figure_short", BITE_BAD_PLUGIN, "struct_size is shorter than a figure"},
        {"limit_taken", BITE_BAD_PLUGIN, "limit power: the library has this name already"},
        {"limit_number", BITE_BAD_PLUGIN, "it reads feed_ratio, which is no number of a cut"},
        {"limit_word", BITE_BAD_PLUGIN, "it reads operation:knit, which is no number of a cut"},
        {"limit_many", BITE_BAD_PLUGIN, "reads more than 16 numbers"},
        {"limit_source", BITE_BAD_PLUGIN, "toy_load: its source does not begin with a grade"},
        {"limit_nameless", BITE_BAD_PLUGIN, "limit (no name): a name begins with a letter"},
        {"limit_remedy", BITE_BAD_PLUGIN, "a source and a remedy"},
        {"limit_function", BITE_BAD_PLUGIN, "toy_load: it has no function"},
        {"limit_twice", BITE_BAD_PLUGIN, "another limit of the plugin has this name"},
    };
    const bite_material *material = NULL;
    bite_error error = BITE_ERROR_INIT;
    bite_item item;
    bite_library *library = open_toy(cases[_i].what, own);
    (void)bite_library_grade(library, "toy/hard", &material, &error);
    ck_assert_uint_eq(bite_library_count(library, BITE_LEFT_OUT), 1);
    ck_assert_int_eq(bite_library_item(library, BITE_LEFT_OUT, 0, &item, NULL), BITE_OK);
    ck_assert_msg(strstr(item.summary, cases[_i].says) != NULL, "%s", item.summary);
    ck_assert_ptr_nonnull(strstr(item.file, "toy.so"));
    bite_library_close(library);
}
END_TEST

/* Figures in the table. */
START_TEST(faults_of_a_table_are_told)
{
    static const struct {
        const char *what;
        const char *figures;
        const char *key;
        const char *says;
    } cases[] = {
        {"sound", "own.toy_toughnes = 3 N/mm\n", "grade.hard:own.toy_toughnes", "has no figure"},
        {"sound", "own.toy_toughness = 3 mm\n", "grade.hard:own.toy_toughness", ""},
        {"sound", "own.toy_toughness = 3e9 N/mm\n", "grade.hard:own.toy_toughness", ""},
        {"sound", "own.toy_toughness = 3 N/mm (4 .. 5)\n", "grade.hard:own.toy_toughness", ""},
        {"sound", "own.a.b = 3 N/mm\n", "grade.hard:own.a.b", "there is no key"},
        {"needed", "", "grade.hard:own.toy_toughness", "needs the figure toy_toughness"},
        {"old", "own.toy_toughness = 3 N/mm\n", "grade.hard:own.toy_toughness", "has no figure"},
    };
    const bite_material *material = NULL;
    bite_error error = BITE_ERROR_INIT;
    bite_library *library = open_toy(cases[_i].what, cases[_i].figures);
    bite_status status = bite_library_grade(library, "toy/hard", &material, &error);
    ck_assert_int_ne(status, BITE_OK);
    ck_assert_str_eq(error.key, cases[_i].key);
    ck_assert_msg(strstr(error.message, cases[_i].says) != NULL, "%s", error.message);
    ck_assert_ptr_nonnull(strstr(error.file, "toy.ini"));
    bite_library_close(library);
}
END_TEST

START_TEST(a_plugin_sets_a_figure_of_its_own)
{
    bite_library *library = open_toy("sets", "");
    bite_request *request = ask(library);
    bite_answer *answer = answer_of(request, 0);
    bite_assert_near(limit_of(answer, "toy_load")->demand, demand, 1e-12);
    ck_assert_str_eq(bite_answer_source(answer, "toy_toughness"), "estimate: by the plugin");
    bite_answer_free(answer);
    bite_request_free(request);
    bite_library_close(library);
}
END_TEST

/* What is not a usable number makes the cut unknown, with a caution that says why; no search calls
 * such a cut clear. */
START_TEST(numbers_that_are_none_are_never_a_pass)
{
    static const char *const cases[] = {"nan", "infinite", "negative", "lazy", "empty", "sound"};
    bite_library *library = open_toy(cases[_i], _i == 5 ? "" : own); /* the last: no figure */
    bite_request *request = ask(library);
    bite_choice_options options = {
        .struct_size = (uint32_t)sizeof options, .draws = 64, .confidence = 0.95};
    bite_choice *choice = NULL;
    for (size_t draws = 0; draws <= 64; draws += 64) {
        bite_answer *answer = answer_of(request, draws);
        const bite_limit *limit = limit_of(answer, "toy_load");
        ck_assert_uint_eq(limit->applies, 0);
        ck_assert_uint_eq(limit->why, BITE_WHY_BAD_NUMBER);
        ck_assert(isnan(limit->utilization));
        ck_assert_uint_eq(answer->result.not_judged, 1);
        ck_assert_uint_eq(answer->result.verdict, BITE_UNKNOWN);
        ck_assert_int_eq(caution_count(answer, "no usable number for its limit toy_load"), 1);
        bite_answer_free(answer);
    }
    bite_request_free(request);
    request = ask_openly(library);
    ck_assert_int_eq(bite_request_set(request, "depth", "1mm", NULL), BITE_OK);
    ck_assert_int_eq(bite_choice_new(request, &options, &choice, NULL), BITE_OK);
    ck_assert_uint_eq(choice->clear, 0);
    ck_assert_uint_ne(choice->answer->result.verdict, BITE_CLEAR);
    bite_choice_free(choice);
    bite_request_free(request);
    bite_library_close(library);
}
END_TEST

/* An advisory one leaves the cut as it is, but is not hidden. */
START_TEST(advice_that_is_unknown_is_told)
{
    bite_library *library = open_toy("advisory", "");
    bite_request *request = ask(library);
    bite_answer *answer = answer_of(request, 64);
    ck_assert_uint_eq(limit_of(answer, "toy_load")->why, BITE_WHY_BAD_NUMBER);
    ck_assert_uint_eq(limit_of(answer, "toy_load")->verdict, BITE_NOT_JUDGED);
    ck_assert_uint_eq(answer->result.verdict, BITE_CLEAR);
    ck_assert_int_eq(caution_count(answer, "the cut is judged without it"), 1);
    bite_answer_free(answer);
    bite_request_free(request);
    bite_library_close(library);
}
END_TEST

START_TEST(a_limit_may_concern_other_cuts)
{
    bite_library *library = open_toy("sound", own);
    bite_request *request = ask(library);
    ck_assert_int_eq(bite_request_set(request, "operation", "drill", NULL), BITE_OK);
    bite_answer *answer = answer_of(request, 64);
    const bite_limit *limit = limit_of(answer, "toy_load");
    ck_assert_uint_eq(limit->applies, 0);
    ck_assert_uint_eq(limit->why, BITE_WHY_NOT_ASKED);
    ck_assert_uint_eq(answer->result.not_judged, 0);
    bite_answer_free(answer);
    bite_request_free(request);
    bite_library_close(library);
}
END_TEST

/* A batch gives the same numbers, row by row, in any block. */
START_TEST(a_batch_asks_it)
{
    enum { ROWS = 37 };
    static const bite_batch_output outputs[] = {{BITE_BATCH_UTILIZATION, BITE_LIMIT_OWN_1},
                                                {BITE_BATCH_VERDICT, 0},
                                                {BITE_BATCH_DEMAND, BITE_LIMIT_OWN_1}};
    double depths[ROWS];
    double numbers[3][ROWS];
    bite_batch *batch = NULL;
    bite_cut cut;
    bite_library *library = open_toy("sound", own);
    bite_request *request = ask(library);
    ck_assert_int_eq(bite_request_cut(request, &cut, NULL), BITE_OK);
    uint32_t input = 0;
    while (bite_input_at(input) != bite_input_find("depth")) {
        input++;
    }
    for (int i = 0; i < ROWS; i++) {
        depths[i] = 0.1e-3 + 0.05e-3 * i;
    }
    bite_column in = {depths, 1};
    bite_result_column out[3] = {{numbers[0], 1}, {numbers[1], 1}, {numbers[2], 1}};
    ck_assert_int_eq(bite_batch_new(NULL, &cut, &input, 1, outputs, 3, &batch, NULL), BITE_OK);
    ck_assert_int_eq(bite_batch_run(batch, ROWS, &in, out, NULL, 2, NULL, NULL), BITE_OK);
    for (int i = 0; i < ROWS; i++) {
        bite_assert_near(numbers[0][i], 3000.0 * depths[i] / (4.0 - 100.0 * feed), 1e-12);
        bite_assert_near(numbers[2][i], 3000.0 * depths[i], 1e-12);
        ck_assert_int_eq(numbers[1][i] == BITE_OVER, numbers[0][i] > 1.0);
    }
    bite_batch_free(batch);
    bite_result result = {.struct_size = (uint32_t)sizeof result};
    cut.operation = BITE_DRILL_HOLE; /* of which the limit says nothing */
    ck_assert_int_eq(bite_cut_pass(&cut, &result, NULL), BITE_OK);
    ck_assert_int_eq(result.limits[BITE_LIMIT_OWN_1].why, BITE_WHY_NOT_ASKED);
    ck_assert_int_ne(result.verdict, BITE_UNKNOWN);
    ck_assert_int_eq(bite_batch_new(NULL, &cut, &input, 1, outputs, 3, &batch, NULL), BITE_OK);
    ck_assert_int_eq(bite_batch_run(batch, ROWS, &in, out, NULL, 2, NULL, NULL), BITE_OK);
    for (int i = 0; i < ROWS; i++) {
        ck_assert_double_nan(numbers[0][i]);
        ck_assert_int_ne((int)numbers[1][i], BITE_UNKNOWN);
    }
    bite_batch_free(batch);
    bite_request_free(request);
    bite_library_close(library);
}
END_TEST

/* It binds a search, which goes as deep as it lets; an advisory one does not. */
START_TEST(a_search_keeps_it)
{
    bite_library *library = open_toy(_i ? "advisory" : "sound", own);
    bite_request *request = ask_openly(library);
    bite_choice *choice = NULL;
    bite_choice_options options = {
        .struct_size = (uint32_t)sizeof options, .draws = 1024, .confidence = 0.95};
    ck_assert_int_eq(bite_request_set(request, "feature_depth", "6mm", NULL), BITE_OK);
    ck_assert_int_eq(bite_choice_new(request, &options, &choice, NULL), BITE_OK);
    const bite_limit *limit = limit_of(choice->answer, "toy_load");
    const double deepest = 4.0 / 4000.0; /* m: of no feed, at the upper end of the band */
    ck_assert_uint_eq(choice->clear, 1);
    if (_i == 0) {
        ck_assert_double_le(limit->chance, 0.05);
        ck_assert_double_lt(choice->answer->full.depth, deepest);
        ck_assert_double_gt(limit->utilization_high, 0.7); /* it decides the passes */
    } else {
        ck_assert_double_gt(choice->answer->full.depth, deepest);
    }
    bite_choice_free(choice);
    bite_request_free(request);
    bite_library_close(library);
}
END_TEST

static void expect_written(const bite_answer *answer, const bite_window *window, bite_format format,
                           const char *text)
{
    bite_style style = {
        .struct_size = (uint32_t)sizeof style, .format = format, .all_limits = 1, .sources = 1};
    static bite_test_paper page;
    bite_test_paper_start(&page, 0);
    bite_status status = window == NULL
                             ? bite_answer_write(answer, &style, bite_test_paper_take, &page, NULL)
                             : bite_window_write(window, &style, bite_test_paper_take, &page, NULL);
    ck_assert_msg(status == BITE_OK, "format %d, after %zu", (int)format, page.size);
    ck_assert_msg(strstr(page.text, text) != NULL, "%s not in\n%s", text, page.text);
    ck_assert_msg(strstr(page.text, "own_1") == NULL, "%s", page.text);
}

START_TEST(it_has_its_name_everywhere)
{
    bite_library *library = open_toy("sound", own);
    bite_request *request = ask(library);
    bite_answer *answer = answer_of(request, 256);
    bite_window *window = NULL;
    bite_window_options around = {.struct_size = (uint32_t)sizeof around,
                                  .columns = 17,
                                  .rows = 13,
                                  .across_least = (double)NAN,
                                  .across_most = (double)NAN,
                                  .up_least = (double)NAN,
                                  .up_most = (double)NAN};
    expect_written(answer, NULL, BITE_TEXT, "toy_load");
    expect_written(answer, NULL, BITE_TEXT, "Cut less deep.");
    expect_written(answer, NULL, BITE_JSON, "\"toy_load\"");
    expect_written(answer, NULL, BITE_JSON, "\"toy_toughness\"");
    bite_used_input used;
    bite_used_input_init(&used);
    ck_assert_int_eq(bite_answer_input_find(answer, "toy_toughness", &used, NULL), BITE_OK);
    bite_assert_near(used.value, 3000.0, 1e-12);
    bite_assert_near(used.high, 4000.0, 1e-12);
    ck_assert_str_eq(used.name, "toy_toughness");
    ck_assert_str_eq(used.grade, "memory");
    ck_assert_int_eq(bite_answer_input(answer, bite_answer_input_count(answer) - 1, &used, NULL),
                     BITE_OK);
    ck_assert_str_eq(used.name, "toy_toughness");
    ck_assert_int_eq(bite_window_new(answer, &around, &window, NULL), BITE_OK);
    expect_written(answer, window, BITE_TEXT, "toy_load");
    expect_written(answer, window, BITE_CSV, "toy_load");
    expect_written(answer, window, BITE_JSON, "toy_load");
    expect_written(answer, window, BITE_SVG, "toy_load");
    expect_written(answer, window, BITE_HTML, "toy_load");
    bite_window_free(window);
    bite_answer_free(answer);
    bite_request_free(request);
    bite_library_close(library);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("a plugin's own limits");
    TCase *tests = tcase_create("a plugin's own limits");
    tcase_add_checked_fixture(tests, private_setup, private_teardown);
    tcase_add_test(tests, a_limit_of_a_plugin_is_judged);
    tcase_add_test(tests, cautions_are_joined);
    tcase_add_loop_test(tests, other_versions_of_the_interface_are_read, 0, 3);
    tcase_add_loop_test(tests, faults_are_told, 0, 19);
    tcase_add_loop_test(tests, faults_of_a_table_are_told, 0, 7);
    tcase_add_test(tests, a_plugin_sets_a_figure_of_its_own);
    tcase_add_loop_test(tests, numbers_that_are_none_are_never_a_pass, 0, 6);
    tcase_add_test(tests, advice_that_is_unknown_is_told);
    tcase_add_test(tests, a_limit_may_concern_other_cuts);
    tcase_add_test(tests, a_batch_asks_it);
    tcase_add_loop_test(tests, a_search_keeps_it, 0, 2);
    tcase_add_test(tests, it_has_its_name_everywhere);
    tcase_set_timeout(tests, 120);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
