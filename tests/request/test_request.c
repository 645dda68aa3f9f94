/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Inputs of a request, as text and as numbers. */
#include "core/library/material.h"
#include "core/library/material_record.h"
#include "core/names/registry.h"
#include "core/request/request.h"
#include "core/units/format_quantity.h"
#include "core/units/unit_table.h"
#include "tests/support/open_library.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static bite_request *request_new(void)
{
    bite_request *request = NULL;
    ck_assert_int_eq(bite_request_new(library, &request, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_GRADES, "acrylic/cast", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_TOOLS, "0.8mm", NULL), BITE_OK);
    return request;
}

static bite_cut cut_of(const bite_request *request)
{
    bite_cut cut;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_msg(bite_request_cut(request, &cut, &error) == BITE_OK, "%s", error.message);
    return cut;
}

/* Millimetres, millimetres a minute and revolutions a minute as text; SI as numbers. */
START_TEST(number_sets_what_its_text_sets)
{
    static const struct {
        const char *input;
        const char *text;
        double si;
    } cases[] = {{"spindle_speed", "12000rpm", 12000.0 / 60.0},
                 {"feed_rate", "200mm/min", 200.0 * (1e-3 / 60.0)},
                 {"depth", "0.2mm", 0.2e-3},
                 {"stickout", "12mm", 12.0 * 1e-3},
                 {"flutes", "2", 2.0},
                 {"room_temperature", "296.5K", 296.5}};
    bite_request *by_text = request_new();
    bite_request *by_number = request_new();
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const bite_input *input = bite_input_find(cases[i].input);
        ck_assert_int_eq(bite_request_set(by_text, cases[i].input, cases[i].text, NULL), BITE_OK);
        ck_assert_int_eq(bite_request_set_number(by_number, cases[i].input, cases[i].si, NULL),
                         BITE_OK);
        bite_cut first = cut_of(by_text);
        bite_cut second = cut_of(by_number);
        bite_assert_near(*bite_input_number_of(&first, input),
                         *bite_input_number_of(&second, input), 1e-15);
        bite_assert_near(*bite_input_number_of(&second, input), cases[i].si, 1e-15);
    }
    bite_answer *answers[2] = {NULL, NULL};
    ck_assert_int_eq(bite_answer_new(by_text, BITE_DRAWS_NONE, 0.95, &answers[0], NULL), BITE_OK);
    ck_assert_int_eq(bite_answer_new(by_number, BITE_DRAWS_NONE, 0.95, &answers[1], NULL), BITE_OK);
    ck_assert_str_eq(bite_answer_source(answers[1], "depth"), ""); /* given, so no source */
    ck_assert_str_eq(bite_answer_source(answers[0], "depth"), "");
    bite_answer_free(answers[0]);
    bite_answer_free(answers[1]);
    bite_request_free(by_text);
    bite_request_free(by_number);
}
END_TEST

/* As text with 15 digits in the SI unit, which is refused for the same reason. */
START_TEST(number_is_refused_where_its_text_is)
{
    bite_request *request = request_new();
    size_t refused = 0;
    size_t accepted = 0;
    for (size_t i = 0; i < bite_input_count(); i++) {
        const bite_input *input = bite_input_at(i);
        const double tries[] = {0.5 * (input->least + input->most), 0.5 * input->least,
                                2.0 * input->most, -2.0 * fabs(input->most)};
        if (input->words > 0) {
            continue;
        }
        for (size_t k = 0; k < sizeof tries / sizeof *tries; k++) {
            char text[64];
            size_t length = 0;
            if (bite_quantity_write_unit(tries[k], (bite_kind)input->kind,
                                         bite_unit_si((bite_kind)input->kind), 15, text,
                                         sizeof text, &length, NULL) != BITE_OK) {
                continue; /* the SI unit of this kind cannot be entered */
            }
            bite_error error = BITE_ERROR_INIT;
            bite_status status = bite_request_set(request, input->name, text, &error);
            ck_assert_msg(bite_request_set_number(request, input->name, tries[k], &error) == status,
                          "%s of %s: %s", input->name, text, error.message);
            ck_assert_str_eq(error.key, status == BITE_OK ? "" : input->name);
            accepted += status == BITE_OK;
            refused += status != BITE_OK;
        }
        const double absent[] = {(double)NAN, (double)INFINITY, -(double)INFINITY};
        for (size_t k = 0; k < 3; k++) {
            bite_error error = BITE_ERROR_INIT;
            ck_assert_int_eq(bite_request_set_number(request, input->name, absent[k], &error),
                             BITE_BAD_QUANTITY);
            ck_assert_str_eq(error.key, input->name);
        }
        ck_assert_int_eq(bite_request_set(request, input->name, "nan", NULL), BITE_BAD_QUANTITY);
    }
    ck_assert_uint_gt(accepted, 100);
    ck_assert_uint_gt(refused, 200);
    bite_request_free(request);
}
END_TEST

START_TEST(number_out_of_range_is_reported_in_shop_units)
{
    bite_request *request = request_new();
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_request_set_number(request, "tolerance", 0.5, &error), BITE_OUT_OF_RANGE);
    ck_assert_str_eq(error.message,
                     "tolerance of 500 mm is outside what any shop runs: 0.1 um to 10 mm");
    ck_assert_str_eq(error.hint, "check the unit and the zeros");
    bite_request_free(request);
}
END_TEST

START_TEST(refused_number_leaves_the_request_as_it_was)
{
    bite_request *request = request_new();
    ck_assert_int_eq(bite_request_set_number(request, "depth", 0.2e-3, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set_number(request, "depth", 2.0, NULL), BITE_OUT_OF_RANGE);
    ck_assert_int_eq(bite_request_set_number(request, "depth", (double)NAN, NULL),
                     BITE_BAD_QUANTITY);
    ck_assert_double_eq(cut_of(request).depth, 0.2e-3);
    bite_request_free(request);
}
END_TEST

START_TEST(number_needs_a_request_and_an_input_that_takes_numbers)
{
    bite_request *request = request_new();
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_request_set_number(NULL, "depth", 1e-3, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_request_set_number(request, NULL, 1e-3, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_request_set_number(request, "dept", 1e-3, &error), BITE_UNKNOWN_NAME);
    ck_assert_str_eq(error.hint, "did you mean depth?");
    ck_assert_int_eq(bite_request_set_number(request, "coolant", 1.0, &error), BITE_BAD_ARGUMENT);
    ck_assert_str_eq(error.message, "coolant takes a word, not a number");
    ck_assert_str_eq(error.key, "coolant");
    bite_request_free(request);
}
END_TEST

/* What is set as a number is rounded as if it had been written in that unit and read again. */
START_TEST(rounding_in_a_unit_equals_its_text)
{
    static const struct {
        bite_kind kind;
        const char *unit;
        double si; /* of the order of this */
    } cases[] = {{BITE_KIND_LENGTH, "mm", 1e-3},        {BITE_KIND_ROTATION, "rpm", 200.0},
                 {BITE_KIND_SPEED, "mm/min", 1e-2},     {BITE_KIND_AREA, "mm2", 1e-4},
                 {BITE_KIND_STRESS, "MPa", 1e6},        {BITE_KIND_FRACTION, "%", 0.05},
                 {BITE_KIND_TEMPERATURE, "degC", 300.0}};
    srand48(_i);
    for (int i = 0; i < 2000; i++) {
        double si = cases[_i].si * (0.95 + drand48());
        int digits = 9 + i % 2;
        char text[64];
        size_t length = 0;
        double read = 0.0;
        ck_assert_int_eq(bite_quantity_write_unit(si, cases[_i].kind, cases[_i].unit, digits, text,
                                                  sizeof text, &length, NULL),
                         BITE_OK);
        ck_assert_int_eq(bite_quantity_read(text, cases[_i].kind, &read, NULL), BITE_OK);
        ck_assert_msg(
            !(fabs(bite_unit_round(si, cases[_i].kind, cases[_i].unit, digits) - read) > 0.0),
            "%.17g is %s, not %.17g", si, text,
            bite_unit_round(si, cases[_i].kind, cases[_i].unit, digits));
    }
}
END_TEST

START_TEST(long_quantity_is_refused_with_its_input)
{
    bite_request *request = request_new();
    bite_error error = BITE_ERROR_INIT;
    static const char text[] =
        "0.2000000000000000000000000000000000000000000000000          0000000000000000mm";
    ck_assert_uint_gt(strlen(text), 63);
    ck_assert_int_eq(bite_request_set(request, "depth", text, &error), BITE_BAD_QUANTITY);
    ck_assert_str_eq(error.key, "depth");
    bite_request_free(request);
}
END_TEST

START_TEST(records_of_each_collection_are_used_or_refused)
{
    static const struct {
        bite_collection collection;
        const char *name;
        bite_status status;
        const char *says;
    } cases[] = {{BITE_FAMILIES, "acrylic", BITE_OK, ""},
                 {BITE_TOOLS, "3\tmm", BITE_OK, ""},
                 {BITE_DRILLS, "drill-3.3", BITE_OK, ""},
                 {BITE_COOLANTS, "air", BITE_OK, ""},
                 {BITE_COOLANTS, "milk", BITE_UNKNOWN_NAME, "milk is not a word of coolant"},
                 {BITE_HOLDERS, "no-such", BITE_UNKNOWN_NAME, "there is no holder named no-such"},
                 {BITE_THREADS, "M3", BITE_OK, ""},
                 {BITE_TOOLS, "3mmm", BITE_BAD_QUANTITY, "mmm is not a unit"},
                 {BITE_SYMPTOMS, "chattering", BITE_BAD_ARGUMENT, "cannot use a record"},
                 {BITE_SHEETS, "acrylic-cast", BITE_BAD_ARGUMENT, "cannot use a record"},
                 {BITE_LEFT_OUT, "x", BITE_BAD_ARGUMENT, "cannot use a record"},
                 {(bite_collection)99, "x", BITE_BAD_ARGUMENT, "cannot use a record"},
                 {BITE_GRADES, NULL, BITE_BAD_ARGUMENT, "a request and a name were expected"}};
    bite_request *request = request_new();
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        bite_error error = BITE_ERROR_INIT;
        ck_assert_msg(bite_request_use(request, cases[i].collection, cases[i].name, &error) ==
                          cases[i].status,
                      "case %zu: %s", i, error.message);
        ck_assert_msg(strstr(error.message, cases[i].says) != NULL, "case %zu: %s", i,
                      error.message);
    }
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_request_use(NULL, BITE_TOOLS, "3mm", &error), BITE_BAD_ARGUMENT);
    bite_request_free(request);
    bite_request_free(NULL);
}
END_TEST

/* Records that an answer names are those that were used, as they were entered. */
START_TEST(an_answer_names_its_records)
{
    bite_answer *answer = NULL;
    bite_request *request = NULL;
    bite_used_input used;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_request_new(library, &request, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_GRADES, "acrylic\tcast", NULL),
                     BITE_UNKNOWN_NAME);
    ck_assert_int_eq(bite_request_use(request, BITE_GRADES, "PMMA\tGS", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_THREADS, "M3", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "spindle_speed", "600rpm", NULL), BITE_OK);
    ck_assert_int_eq(bite_answer_new(request, BITE_DRAWS_NONE, 0.9, &answer, &error), BITE_OK);
    ck_assert_str_eq(bite_answer_record(answer, BITE_GRADES), "acrylic/cast");
    ck_assert_str_eq(bite_answer_record(answer, BITE_FAMILIES), "acrylic");
    ck_assert_str_eq(bite_answer_record(answer, BITE_THREADS), "m3");
    ck_assert_str_eq(bite_answer_record(answer, BITE_MACHINES), "bench-24k");
    ck_assert_ptr_null(bite_answer_record(answer, BITE_TOOLS));
    ck_assert_ptr_null(bite_answer_record(answer, BITE_HOLDERS));
    ck_assert_ptr_null(bite_answer_record(answer, BITE_HOLDS));
    ck_assert_ptr_null(bite_answer_record(answer, BITE_FLUIDS));
    ck_assert_ptr_null(bite_answer_record(NULL, BITE_GRADES));
    bite_used_input_init(&used);
    ck_assert_int_eq(bite_answer_input_find(answer, "pitch", &used, &error), BITE_OK);
    ck_assert_double_eq_tol(used.value, 0.5e-3, 1e-12);
    ck_assert_int_eq(bite_answer_input_find(answer, "wall_length", &used, &error), BITE_MISSING);
    ck_assert_str_eq(error.message, "the answer used no wall_length");
    ck_assert_int_eq(bite_answer_input_find(answer, "pich", &used, &error), BITE_UNKNOWN_NAME);
    ck_assert_str_eq(error.hint, "did you mean pitch?");
    ck_assert_int_eq(bite_answer_input_find(answer, "zzz", &used, &error), BITE_UNKNOWN_NAME);
    ck_assert_str_eq(error.hint, "explain lists the inputs");
    ck_assert_int_eq(bite_answer_input_find(answer, NULL, &used, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_answer_input_find(NULL, "pitch", &used, &error), BITE_BAD_ARGUMENT);
    size_t count = bite_answer_input_count(answer);
    ck_assert_uint_gt(count, 50);
    ck_assert_uint_eq(bite_answer_input_count(NULL), 0);
    for (size_t i = 0; i < count; i++) {
        ck_assert_int_eq(bite_answer_input(answer, i, &used, &error), BITE_OK);
        ck_assert_uint_gt(strlen(used.name), 0);
    }
    ck_assert_int_eq(bite_answer_input(answer, count, &used, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_answer_input(NULL, 0, &used, &error), BITE_BAD_ARGUMENT);
    bite_answer_free(answer);
    bite_request_free(request);
}
END_TEST

/* Separators of a name do not count, so that it may be longer than what is shown of it. */
START_TEST(a_long_name_is_shown_in_part)
{
    char name[120];
    bite_request *request = request_new();
    (void)snprintf(name, sizeof name, "acrylic/%070d", 0);
    memset(name + strlen("acrylic/"), '-', 70);
    strcat(name, "cast");
    ck_assert_int_eq(bite_request_use(request, BITE_GRADES, name, NULL), BITE_OK);
    ck_assert_str_eq(request->grade->record.name, "acrylic/cast");
    ck_assert_uint_eq(strlen(request->grade_name), BITE_TYPED_MAX - 1);
    ck_assert_int_eq(strncmp(request->grade_name, name, BITE_TYPED_MAX - 1), 0);
    bite_request_free(request);
}
END_TEST

/* A number of a table of cuts, which may be of a second kind. */
START_TEST(a_number_of_a_second_kind_is_checked_in_its_own)
{
    static const struct {
        bite_kind kind;
        double si;
        bite_status status;
    } cases[] = {{BITE_KIND_SPEED, 0.01, BITE_OK},
                 {BITE_KIND_TOOTH_FEED, 2e-5, BITE_OK},
                 {BITE_KIND_TOOTH_FEED, (double)NAN, BITE_BAD_QUANTITY},
                 {BITE_KIND_SPEED, (double)INFINITY, BITE_BAD_QUANTITY},
                 {BITE_KIND_TOOTH_FEED, 1.0, BITE_OUT_OF_RANGE},
                 {BITE_KIND_TOOTH_FEED, -1e-6, BITE_OUT_OF_RANGE},
                 {BITE_KIND_SPEED, 1e3, BITE_OUT_OF_RANGE}};
    bite_request *request = request_new();
    const bite_input *feed = bite_input_find("feed_rate");
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        bite_error error = BITE_ERROR_INIT;
        bite_status status = bite_request_put(request, feed, cases[i].kind, cases[i].si, &error);
        ck_assert_msg(status == cases[i].status, "case %zu: %s", i, error.message);
        ck_assert_str_eq(error.key, status == BITE_OK ? "" : "feed_rate");
    }
    ck_assert_int_eq(bite_request_set_number(request, "spindle_speed", 200.0, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set_number(request, "flutes", 2.0, NULL), BITE_OK);
    bite_assert_near(cut_of(request).feed_rate, 2e-5 * 2.0 * 200.0, 1e-12); /* the last good one */
    bite_request_free(request);
}
END_TEST

START_TEST(wrong_arguments_leave_the_request_as_it_was)
{
    bite_request *request = request_new();
    bite_request *none = NULL;
    bite_error error = BITE_ERROR_INIT;
    bite_cut cut;
    bite_cut_init(&cut);
    ck_assert_int_eq(bite_request_new(NULL, &none, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_request_new(library, NULL, &error), BITE_BAD_ARGUMENT);
    ck_assert_str_eq(error.message, "an open library and a place for the request were expected");
    ck_assert_int_eq(bite_request_set(NULL, "depth", "1mm", &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_request_set(request, NULL, "1mm", &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_request_set(request, "depth", NULL, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_request_set(request, "deflecton", "1mm", &error), BITE_UNKNOWN_NAME);
    ck_assert_str_eq(error.hint, "explain lists the inputs"); /* the nearest name is no input */
    ck_assert_int_eq(bite_request_set(request, "zzz", "1mm", &error), BITE_UNKNOWN_NAME);
    ck_assert_str_eq(error.hint, "explain lists the inputs");
    ck_assert_int_eq(bite_request_set(request, "substance", "wool", &error), BITE_UNKNOWN_NAME);
    ck_assert_str_eq(error.hint, "one of metal, amorphous, crystalline, thermoset, mineral");
    ck_assert_int_eq(bite_request_threads(NULL, 1, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_request_threads(request, 0, &error), BITE_OUT_OF_RANGE);
    ck_assert_int_eq(bite_request_threads(request, 1000000, &error), BITE_OUT_OF_RANGE);
    ck_assert_str_eq(error.key, "threads");
    ck_assert_int_eq(bite_request_cut_sized(request, &cut, 3, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_request_cut(NULL, &cut, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_request_cut_sized(request, NULL, sizeof cut, &error), BITE_BAD_ARGUMENT);
    ck_assert(isnan(cut.depth));
    ck_assert_ptr_null(none);
    bite_request_free(request);
    ck_assert_int_eq(bite_request_new(library, &request, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_cut(request, &cut, &error), BITE_MISSING);
    ck_assert_str_eq(error.key, "material");
    ck_assert_int_eq(bite_request_use(request, BITE_GRADES, "acrylic", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_cut(request, &cut, &error), BITE_MISSING);
    ck_assert_str_eq(error.key, "tool");
    bite_request_free(request);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("request");
    TCase *tests = tcase_create("request");
    tcase_add_unchecked_fixture(tests, open_library, close_library);
    tcase_add_test(tests, number_sets_what_its_text_sets);
    tcase_add_test(tests, number_is_refused_where_its_text_is);
    tcase_add_test(tests, number_out_of_range_is_reported_in_shop_units);
    tcase_add_test(tests, refused_number_leaves_the_request_as_it_was);
    tcase_add_test(tests, number_needs_a_request_and_an_input_that_takes_numbers);
    tcase_add_loop_test(tests, rounding_in_a_unit_equals_its_text, 0, 7);
    tcase_add_test(tests, long_quantity_is_refused_with_its_input);
    tcase_add_test(tests, records_of_each_collection_are_used_or_refused);
    tcase_add_test(tests, an_answer_names_its_records);
    tcase_add_test(tests, a_long_name_is_shown_in_part);
    tcase_add_test(tests, a_number_of_a_second_kind_is_checked_in_its_own);
    tcase_add_test(tests, wrong_arguments_leave_the_request_as_it_was);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
