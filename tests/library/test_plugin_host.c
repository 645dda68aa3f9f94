/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a plugin may ask its host and give it: each figure, curve and caution that is refused, and
 * why; and what a good one does to a grade and an answer. */
#include "core/library/material.h"
#include "core/library/material_record.h"
#include "tests/library/private_library.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define COUNT(list) (sizeof list / sizeof *list)

/* Once a test: a plugin stays open until the process ends. */
static void setup(void)
{
    private_setup();
    put_family("tests/plugins/.libs/asking.so", "acrylic");
}

static bite_library *open_asking(const char *ask)
{
    ck_assert_int_eq(setenv("BITE_TEST_ASK", ask, 1), 0);
    return open_private_library(NULL);
}

static bite_status grade_of(const bite_library *library, const bite_material **material,
                            bite_error *error)
{
    return bite_library_grade(library, "acrylic/cast", material, error);
}

static size_t draws = BITE_DRAWS_NONE;

static bite_status answer_of(const bite_library *library, bite_answer **answer, bite_error *error)
{
    bite_request *request = NULL;
    ck_assert_int_eq(bite_request_new(library, &request, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_GRADES, "acrylic/cast", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_TOOLS, "3mm", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "spindle_speed", "12000rpm", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "feed_rate", "200mm/min", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "depth", "0.5mm", NULL), BITE_OK);
    bite_status status = bite_answer_new(request, draws, 0.9, answer, error);
    bite_request_free(request);
    return status;
}

START_TEST(a_grade_is_refused_with_the_figure_or_curve_at_fault)
{
    static const struct {
        const char *ask;
        const char *says;
    } cases[] = {{"set no key", "set (no key): a grade has no figure of that name"},
                 {"set unknown", "set weight: a grade has no figure of that name"},
                 {"set word", "set substance: a grade has no figure of that name"},
                 {"set curve", "set strength.at: a grade has no figure of that name"},
                 {"set nothing", "set density: the band is not in the order low, value, high"},
                 {"set turned", "set density: the band is not in the order low, value, high"},
                 {"set high", "set density: the band is not in the order low, value, high"},
                 {"set none", "set density: the band is not in the order low, value, high"},
                 {"set light", "set density: the figure is outside its possible range"},
                 {"set heavy", "set density: the figure is outside its possible range"},
                 {"set unsourced", "set density: the source does not begin with a grade"},
                 {"curve too low", "the plugin gives an impossible value for heat_capacity"},
                 {"curve too high", "the plugin gives an impossible value for heat_capacity"},
                 {"curve of nothing", "the plugin gives an impossible value for heat_capacity"},
                 {"curve fails", "for heat_capacity: the furnace is cold"}};
    for (size_t i = 0; i < COUNT(cases); i++) {
        bite_error error = BITE_ERROR_INIT;
        const bite_material *material = NULL;
        bite_library *library = open_asking(cases[i].ask);
        ck_assert_msg(grade_of(library, &material, &error) == BITE_BAD_PLUGIN, "%s", cases[i].ask);
        ck_assert_msg(strstr(error.message, cases[i].says) != NULL, "%s: %s", cases[i].ask,
                      error.message);
        ck_assert_ptr_nonnull(strstr(error.file, "/acrylic.so"));
        ck_assert_ptr_null(material);
        ck_assert_int_eq(bite_library_grade(library, "aluminium", &material, NULL), BITE_OK);
        bite_library_close(library);
    }
}
END_TEST

START_TEST(an_answer_is_refused_with_the_caution_at_fault)
{
    static const struct {
        const char *ask;
        const char *says;
    } cases[] = {{"caution no name", "caution (no name): its name may have only letters"},
                 {"caution empty name", "caution : its name may have only letters"},
                 {"caution Name", "caution Toy: its name may have only letters"},
                 {"caution na-me", "caution to-y: its name may have only letters"},
                 {"caution na{me", "caution to{y: its name may have only letters"},
                 {"caution long name", "fewer than 64"},
                 {"caution 0", "caution toy: its severity is not note, care or danger"},
                 {"caution 4", "caution toy: its severity is not note, care or danger"},
                 {"caution no text", "caution toy: it has no text, or no source"},
                 {"caution no source", "caution toy: it has no text, or no source"},
                 {"caution hearsay", "caution toy: it has no text, or no source"},
                 {"caution long text", "its text or its source is longer than 1000 bytes"},
                 {"caution long source", "its text or its source is longer than 1000 bytes"}};
    for (size_t i = 0; i < COUNT(cases); i++) {
        bite_error error = BITE_ERROR_INIT;
        bite_answer *answer = NULL;
        bite_library *library = open_asking(cases[i].ask);
        ck_assert_msg(answer_of(library, &answer, &error) == BITE_BAD_PLUGIN, "%s", cases[i].ask);
        ck_assert_msg(strstr(error.message, cases[i].says) != NULL, "%s: %s", cases[i].ask,
                      error.message);
        ck_assert_ptr_nonnull(strstr(error.file, "/acrylic.so"));
        ck_assert_ptr_null(answer);
        bite_library_close(library);
    }
}
END_TEST

/* A plugin that finds a wrong answer refuses the grade or the cut. */
START_TEST(the_host_answers_what_it_is_asked)
{
    bite_error error = BITE_ERROR_INIT;
    bite_answer *answer = NULL;
    const bite_material *material = NULL;
    bite_library *library = open_asking("figures");
    ck_assert_msg(grade_of(library, &material, &error) == BITE_OK, "%s", error.message);
    ck_assert_msg(answer_of(library, &answer, &error) == BITE_OK, "%s", error.message);
    bite_answer_free(answer);
    bite_library_close(library);
}
END_TEST

START_TEST(a_figure_that_is_set_replaces_that_of_the_table)
{
    const bite_material *material = NULL;
    bite_library *library = open_asking("set");
    ck_assert_int_eq(grade_of(library, &material, NULL), BITE_OK);
    const bite_field_value *density = bite_item_field(&material->record, "density");
    ck_assert_double_eq(density->value, 900.0);
    ck_assert_double_eq(density->low, 800.0);
    ck_assert_double_eq(density->high, 1000.0);
    ck_assert_str_eq(density->source, "estimate: by the test");
    ck_assert_uint_eq(density->grade, BITE_GRADE_ESTIMATE);
    bite_library_close(library);
}
END_TEST

/* A curve is sampled from shop temperatures to those of chips; one that ends before is none, and
 * that of a table comes first. */
START_TEST(curves_are_sampled)
{
    const bite_material *material = NULL;
    bite_library *library = open_asking("curve");
    ck_assert_int_eq(grade_of(library, &material, NULL), BITE_OK);
    const bite_field_value *curve = bite_item_field(&material->record, "heat_capacity.at");
    ck_assert_ptr_nonnull(curve);
    ck_assert_uint_eq(curve->grade, BITE_GRADE_ESTIMATE);
    ck_assert_uint_eq(curve->curve.count, BITE_CURVE_POINTS);
    for (size_t i = 0; i < BITE_CURVE_POINTS; i++) {
        ck_assert_double_ge(curve->curve.temperature[i], 253.0);
        ck_assert_double_le(curve->curve.temperature[i], 454.0);
        ck_assert_double_eq(curve->curve.value[i], 1000.0 + 2.0 * curve->curve.temperature[i]);
    }
    const bite_field_value *strength = bite_item_field(&material->record, "strength.at");
    ck_assert_uint_eq(strength->curve.count, 3); /* that of the table */
    bite_library_close(library);
    library = open_asking("curve beside the table");
    ck_assert_int_eq(grade_of(library, &material, NULL), BITE_OK);
    strength = bite_item_field(&material->record, "strength.at");
    ck_assert_uint_eq(strength->curve.count, 3);
    ck_assert_uint_eq(strength->grade, BITE_GRADE_DATASHEET);
    bite_library_close(library);
    library = open_asking("curve without an end");
    ck_assert_int_eq(grade_of(library, &material, NULL), BITE_OK);
    ck_assert_ptr_null(bite_item_field(&material->record, "heat_capacity.at"));
    bite_library_close(library);
}
END_TEST

START_TEST(a_caution_is_worded_with_the_numbers_of_the_cut)
{
    bite_error error = BITE_ERROR_INIT;
    bite_answer *answer = NULL;
    bite_library *library = open_asking("caution");
    ck_assert_msg(answer_of(library, &answer, &error) == BITE_OK, "%s", error.message);
    size_t told = 0;
    for (size_t i = 0; i < bite_answer_caution_count(answer); i++) {
        bite_caution caution;
        ck_assert_int_eq(bite_answer_caution(answer, i, &caution, NULL), BITE_OK);
        if (strcmp(caution.name, "toy") == 0) {
            told++;
            ck_assert_str_eq(caution.text, "A depth of 0.5 mm.");
            ck_assert_str_eq(caution.source, "memory");
            ck_assert_uint_eq(caution.severity, 2);
        }
    }
    ck_assert_uint_eq(told, 1);
    bite_answer_free(answer);
    bite_library_close(library);
}
END_TEST

/* The cautions named toy of an answer, in their order. */
static size_t toys_of(const char *ask, bite_caution *toys, size_t most, bite_answer **answer,
                      bite_library **library)
{
    bite_error error = BITE_ERROR_INIT;
    size_t count = 0;
    *library = open_asking(ask);
    ck_assert_msg(answer_of(*library, answer, &error) == BITE_OK, "%s", error.message);
    for (size_t i = 0; i < bite_answer_caution_count(*answer); i++) {
        bite_caution caution;
        ck_assert_int_eq(bite_answer_caution(*answer, i, &caution, NULL), BITE_OK);
        if (strcmp(caution.name, "toy") == 0 && count < most) {
            toys[count++] = caution;
        }
    }
    return count;
}

/* What is said twice is told once, as the more severe of both; danger comes first; a place that
 * names no number says so. */
START_TEST(cautions_are_told_once_and_in_their_order)
{
    bite_caution toys[50];
    bite_answer *answer = NULL;
    bite_library *library = NULL;
    ck_assert_uint_eq(toys_of("caution again", toys, COUNT(toys), &answer, &library), 1);
    ck_assert_str_eq(toys[0].text, "Wear goggles.");
    ck_assert_uint_eq(toys[0].severity, 3);
    bite_answer_free(answer);
    bite_library_close(library);
    ck_assert_uint_eq(toys_of("caution places", toys, COUNT(toys), &answer, &library), 1);
    ck_assert_str_eq(toys[0].text, "(not known) and (not known) {");
    bite_answer_free(answer);
    bite_library_close(library);
    ck_assert_uint_eq(toys_of("caution many", toys, COUNT(toys), &answer, &library), 40);
    for (size_t i = 0; i < 40; i++) { /* the dangers are the even ones, each in its turn */
        char text[20];
        size_t rule = i < 20 ? 2 * i : 2 * (i - 20) + 1;
        (void)snprintf(text, sizeof text, "Rule %02zu.", rule);
        ck_assert_str_eq(toys[i].text, text);
        ck_assert_uint_eq(toys[i].severity, i < 20 ? 3 : 1);
    }
    bite_answer_free(answer);
    bite_library_close(library);
}
END_TEST

/* A text that grows beyond what a caution has room for ends with a whole place. */
START_TEST(a_caution_full_of_bands_ends_in_time)
{
    bite_caution toys[2];
    bite_answer *answer = NULL;
    bite_library *library = NULL;
    draws = 16;
    ck_assert_uint_eq(toys_of("caution bands", toys, COUNT(toys), &answer, &library), 1);
    size_t length = strlen(toys[0].text);
    ck_assert_uint_gt(length, 1900);
    ck_assert_uint_lt(length, 2000);
    ck_assert_ptr_nonnull(strstr(toys[0].text, " to ")); /* with its band */
    ck_assert_ptr_null(strchr(toys[0].text, '{'));
    draws = BITE_DRAWS_NONE;
    bite_answer_free(answer);
    bite_library_close(library);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("plugin host");
    TCase *tests = tcase_create("plugin host");
    tcase_add_checked_fixture(tests, setup, private_teardown);
    tcase_add_test(tests, a_grade_is_refused_with_the_figure_or_curve_at_fault);
    tcase_add_test(tests, an_answer_is_refused_with_the_caution_at_fault);
    tcase_add_test(tests, the_host_answers_what_it_is_asked);
    tcase_add_test(tests, a_figure_that_is_set_replaces_that_of_the_table);
    tcase_add_test(tests, curves_are_sampled);
    tcase_add_test(tests, a_caution_is_worded_with_the_numbers_of_the_cut);
    tcase_add_test(tests, cautions_are_told_once_and_in_their_order);
    tcase_add_test(tests, a_caution_full_of_bands_ends_in_time);
    tcase_set_timeout(tests, 120);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
