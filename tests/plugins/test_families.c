/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the plugins of the families do that their tables cannot: by hand, from the numbers of the
 * answer and the figures of the tables. */
#include "core/library/material.h"
#include "core/library/material_record.h"
#include "core/request/answer.h"
#include "tests/library/private_library.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static const double pi = 3.14159265358979323846;
static bite_library *library;

static void setup(void)
{
    private_setup();
    library = open_private_library(NULL);
}

static void teardown(void)
{
    bite_library_close(library);
    private_teardown();
}

/* A cut of 6 mm, 1 mm deep, at 8000 rpm and 400 mm/min, with pairs of inputs in addition. */
static bite_answer *cut_of(const char *material, const char *const (*inputs)[2])
{
    bite_request *request = NULL;
    bite_answer *answer = NULL;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_request_new(library, &request, NULL), BITE_OK);
    bite_status status = bite_request_use(request, BITE_GRADES, material, &error);
    ck_assert_msg(status == BITE_OK, "%s", error.message);
    ck_assert_int_eq(bite_request_use(request, BITE_TOOLS, "6mm", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "spindle_speed", "8000rpm", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "feed_rate", "400mm/min", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "depth", "1mm", NULL), BITE_OK);
    for (size_t i = 0; inputs != NULL && inputs[i][0] != NULL; i++) {
        status = bite_request_set(request, inputs[i][0], inputs[i][1], &error);
        ck_assert_msg(status == BITE_OK, "%s %s", error.key, error.message);
    }
    status = bite_answer_new(request, 256, 0.95, &answer, &error);
    ck_assert_msg(status == BITE_OK, "%s", error.message);
    bite_request_free(request);
    return answer;
}

static double number_of(const bite_answer *answer, const char *name)
{
    bite_kind kind;
    double low;
    double high;
    double number = bite_answer_number(answer, name, &kind, &low, &high);
    ck_assert_msg(kind != BITE_KIND_COUNT, "there is no %s", name);
    return number;
}

static int has_caution(const bite_answer *answer, const char *name)
{
    for (size_t i = 0; i < bite_answer_caution_count(answer); i++) {
        bite_caution caution;
        ck_assert_int_eq(bite_answer_caution(answer, i, &caution, NULL), BITE_OK);
        ck_assert_ptr_null(strstr(caution.text, "(not known)"));
        if (strcmp(caution.name, name) == 0) {
            return 1;
        }
    }
    return 0;
}

/* Chances are of the draws, and the verdict is that of the chance. */
static void expect_limit(const bite_answer *answer, const char *name, double demand,
                         double capacity)
{
    char part[80];
    (void)snprintf(part, sizeof part, "%s.demand", name);
    bite_assert_near(number_of(answer, part), demand, 1e-9);
    (void)snprintf(part, sizeof part, "%s.capacity", name);
    bite_assert_near(number_of(answer, part), capacity, 1e-9);
    (void)snprintf(part, sizeof part, "%s.utilization", name);
    bite_assert_near(number_of(answer, part), demand / capacity, 1e-9);
    (void)snprintf(part, sizeof part, "%s.chance", name);
    ck_assert(number_of(answer, part) >= 0.0 && number_of(answer, part) <= 1.0);
}

/* Whether the cut is asked for a limit of the family at all. */
static int is_asked(const bite_answer *answer, const char *name)
{
    char part[80];
    (void)snprintf(part, sizeof part, "%s.utilization", name);
    return !isnan(number_of(answer, part));
}

START_TEST(stainless_hardens)
{
    static const char *const slow[][2] = {{"feed_rate", "60mm/min"}, {NULL, NULL}};
    static const char *const hole[][2] = {{"operation", "drill"}, {NULL, NULL}};
    bite_answer *answer = cut_of("stainless/316", NULL);
    double skin = 2.0 * number_of(answer, "edge_radius") * number_of(answer, "edge_wear");
    expect_limit(answer, "hardened_skin", skin, 0.4 / 60.0 / (8000.0 / 60.0) / 2.0);
    bite_answer_free(answer);
    answer = cut_of("stainless/316", slow);
    ck_assert_double_gt(number_of(answer, "hardened_skin.utilization"), 1.0);
    ck_assert_int_eq(has_caution(answer, "hardened_skin"), 1);
    bite_answer_free(answer);
    answer = cut_of("stainless/303", hole);
    ck_assert_int_eq(is_asked(answer, "hardened_skin"), 1);
    bite_answer_free(answer);
}
END_TEST

/* An ideal slot: mean chip fz x 2/pi, arc pi, so that a chip is fz x ap x D long in volume. */
START_TEST(magnesium_burns)
{
    static const char *const wet[][2] = {
        {"coolant", "flood"},    {"spindle_speed", "24000rpm"},   {"feed_rate", "100mm/min"},
        {"edge_radius", "30um"}, {"spindle_fastest", "24000rpm"}, {NULL, NULL}};
    bite_answer *answer = cut_of("magnesium", NULL);
    double fz = 0.4 / 8000.0 / 2.0;
    double ball = cbrt(6.0 / pi * fz * 1e-3 * 6e-3);
    expect_limit(answer, "chip_fines", 0.5e-3, ball);
    expect_limit(answer, "chip_ignition",
                 number_of(answer, "chip_temperature") - number_of(answer, "room_temperature"),
                 473.0 + 273.15 - number_of(answer, "room_temperature"));
    ck_assert_int_eq(has_caution(answer, "dust"), 0);
    bite_answer_free(answer);
    answer = cut_of("magnesium", wet);
    ck_assert_double_gt(number_of(answer, "chip_fines.utilization"), 1.0);
    ck_assert_int_eq(has_caution(answer, "dust"), 1);
    ck_assert_int_eq(has_caution(answer, "wet"), 1); /* that of the table */
    ck_assert_int_eq(has_caution(answer, "hydrogen"),
                     number_of(answer, "chip_ignition.utilization") > 0.5);
    bite_answer_free(answer);
}
END_TEST

/* Fire is not left to a table alone. */
START_TEST(magnesium_needs_its_plugin)
{
    char path[700];
    const bite_material *material = NULL;
    bite_error error = BITE_ERROR_INIT;
    (void)snprintf(path, sizeof path, "%s/magnesium.so", families);
    ck_assert_int_eq(unlink(path), 0);
    ck_assert_int_eq(bite_library_grade(library, "magnesium", &material, &error), BITE_BAD_PLUGIN);
    ck_assert_ptr_nonnull(strstr(error.message, "requires the plugin magnesium.so"));
}
END_TEST

START_TEST(titanium_oxidizes_and_burns)
{
    static const char *const fast[][2] = {{"spindle_speed", "20000rpm"}, {NULL, NULL}};
    bite_answer *answer = cut_of("titanium/6al-4v", NULL);
    double room = number_of(answer, "room_temperature");
    double chip = number_of(answer, "chip_thickness_mean");
    double fines = 600.0 + 273.15;
    double lights = fines + (number_of(answer, "melting") - fines) * chip / (chip + 20e-6);
    expect_limit(answer, "alpha_case", number_of(answer, "surface_temperature") - room,
                 540.0 + 273.15 - room);
    expect_limit(answer, "chip_ignition", number_of(answer, "chip_temperature") - room,
                 lights - room);
    double before = number_of(answer, "chip_ignition.utilization");
    bite_answer_free(answer);
    answer = cut_of("titanium/6al-4v", fast);
    ck_assert_double_gt(number_of(answer, "chip_ignition.utilization"), before);
    ck_assert_int_eq(has_caution(answer, "chip_fire"),
                     number_of(answer, "chip_ignition.utilization") > 0.9);
    ck_assert_int_eq(has_caution(answer, "alpha_case"), 1);
    bite_answer_free(answer);
}
END_TEST

/* By hand of the glass laminate: pi sqrt(8 x 600 J/m2 x 18 GPa x (0.18 mm)^3/(3 (1 - 0.14^2))) =
 * 41.12 N; 20 m at 400 mm/min are 3000 s, 400 000 turns of 3 mm x pi: 3770 m. */
START_TEST(laminates_part_and_grind)
{
    static const char *const long_way[][2] = {{"path_length", "20m"}, {NULL, NULL}};
    static const char *const diamond[][2] = {
        {"path_length", "20m"}, {"tool_material", "diamond"}, {NULL, NULL}};
    static const char *const hole[][2] = {
        {"operation", "drill"}, {"feed_rate", "1500mm/min"}, {NULL, NULL}};
    bite_answer *answer = cut_of("glass-laminate/g10", long_way);
    expect_limit(
        answer, "delamination", fabs(number_of(answer, "force_lift_peak")),
        pi * sqrt(8.0 * 600.0 * 18e9 * 0.18e-3 * 0.18e-3 * 0.18e-3 / (3.0 * (1.0 - 0.14 * 0.14))));
    bite_assert_near(number_of(answer, "delamination.capacity"), 41.12, 1e-3);
    expect_limit(answer, "abrasion", 7.5e-9 * 400000.0 * 3e-3 * pi, 15e-6);
    ck_assert_int_eq(has_caution(answer, "abrasion"), 1);
    bite_answer_free(answer);
    answer = cut_of("glass-laminate/g10", diamond);
    expect_limit(answer, "abrasion", 0.03 * 7.5e-9 * 400000.0 * 3e-3 * pi, 15e-6);
    ck_assert_int_eq(has_caution(answer, "abrasion"), 0);
    bite_answer_free(answer);
    answer = cut_of("carbon-laminate", hole);
    ck_assert_double_gt(number_of(answer, "delamination.utilization"), 1.0);
    ck_assert_int_eq(has_caution(answer, "delamination"), 1);
    ck_assert_int_eq(is_asked(answer, "abrasion"), 0); /* no path was given */
    bite_answer_free(answer);
}
END_TEST

/* The states of nylon, by name: 3.2 GPa dry and 1.9 GPa in air are those of the data sheet. */
START_TEST(nylon_takes_up_water)
{
    static const char *const size[][2] = {
        {"part_span", "100mm"}, {"tolerance", "0.05mm"}, {NULL, NULL}};
    bite_answer *dry = cut_of("nylon/6@dry", size);
    bite_answer *air = cut_of("nylon@conditioned", size);
    bite_answer *wet = cut_of("nylon/6@wet", size);
    bite_answer *any = cut_of("nylon/6", NULL);
    ck_assert_str_eq(dry->request.grade->record.name, "nylon/6-dry");
    bite_assert_near(number_of(dry, "modulus"), 3.2e9, 1e-9);
    bite_assert_near(number_of(air, "modulus"), 1.9e9, 1e-9);
    bite_assert_near(number_of(dry, "tensile_yield"), 90e6, 1e-9);
    bite_assert_near(number_of(air, "tensile_yield"), 50e6, 1e-9);
    bite_assert_near(number_of(wet, "tensile_yield"), 18e6, 1e-9);
    bite_assert_near(number_of(any, "modulus"), 2.6e9, 1e-9); /* as the table says */
    bite_assert_near(number_of(air, "shear_strength") / number_of(dry, "shear_strength"),
                     50.0 / 90.0, 1e-9);
    ck_assert_double_lt(number_of(air, "power_mean"), number_of(dry, "power_mean"));
    expect_limit(dry, "moisture_growth", 0.3 * (0.025 - 0.002) * 0.1, 0.05e-3);
    ck_assert_int_eq(has_caution(dry, "moisture_growth"), 1);
    bite_assert_near(number_of(air, "moisture_growth.demand") + 1.0, 1.0, 1e-12);
    ck_assert_int_eq(is_asked(any, "moisture_growth"), 0); /* neither size nor tolerance */
    bite_answer_free(dry);
    bite_answer_free(air);
    bite_answer_free(wet);
    bite_answer_free(any);
}
END_TEST

START_TEST(states_are_named_in_errors)
{
    static const struct {
        const char *name;
        const char *message;
        const char *hint;
    } cases[] = {{"nylon/6@moist", "nylon/6 has no state moist",
                  "its states are 6@dry, 6@conditioned, 6@wet"},
                 {"nylon@", "nylon/6 has no state", "6@dry"},
                 {"nylon/7@dry", "no grade named 7", ""},
                 {"brass@dry", "has no state dry", "its table states none"},
                 {"nylon/6@66", "has no state 66", "6@dry"},
                 {"nylon/6@dry@wet", "has no state dry@wet", "6@dry"}};
    const bite_material *material = NULL;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_library_grade(library, cases[_i].name, &material, &error),
                     BITE_UNKNOWN_NAME);
    ck_assert_msg(strstr(error.message, cases[_i].message) != NULL, "%s", error.message);
    ck_assert_msg(strstr(error.hint, cases[_i].hint) != NULL, "%s", error.hint);
    ck_assert_str_eq(error.key, "material");
}
END_TEST

/* Hankinson: 1 along and 2.5 across the grain are 1/sqrt(2.5) and sqrt(2.5) of their mean. */
START_TEST(wood_has_a_grain)
{
    static const char *const conventional[][2] = {{"side", "conventional"}, {NULL, NULL}};
    bite_answer *any = cut_of("wood/hardwood", NULL);
    bite_answer *along = cut_of("wood/oak@along", NULL);
    bite_answer *across = cut_of("wood/hardwood@across", NULL);
    bite_answer *lifted = cut_of("wood/hardwood", conventional);
    bite_answer *board = cut_of("wood/mdf", NULL);
    double chip = 0.4 / 8000.0 / 2.0;
    double mean = number_of(any, "shear_strength");
    bite_assert_near(number_of(along, "shear_strength"), mean / sqrt(2.5), 1e-9);
    bite_assert_near(number_of(across, "shear_strength"), mean * sqrt(2.5), 1e-9);
    ck_assert_double_lt(number_of(along, "power_mean"), number_of(across, "power_mean"));
    expect_limit(any, "tear_out", chip, 0.25e-3);
    expect_limit(along, "tear_out", chip, 1e-3);
    expect_limit(lifted, "tear_out", chip, 0.6 * 0.25e-3);
    ck_assert_int_eq(is_asked(board, "tear_out"), 0);
    bite_answer_free(any);
    bite_answer_free(along);
    bite_answer_free(across);
    bite_answer_free(lifted);
    bite_answer_free(board);
}
END_TEST

/* Glassy polymers: the skin relaxes from 20 K below the transition, which no table states. */
START_TEST(glassy_polymers_relax)
{
    static const char *const names[] = {"acrylic/cast", "polycarbonate"};
    bite_answer *answer = cut_of(names[_i], NULL);
    bite_assert_near(number_of(answer, "relaxing"), number_of(answer, "transition") - 20.0, 1e-9);
    bite_answer_free(answer);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("plugins of families");
    TCase *tests = tcase_create("plugins of families");
    tcase_add_checked_fixture(tests, setup, teardown);
    tcase_add_test(tests, stainless_hardens);
    tcase_add_test(tests, magnesium_burns);
    tcase_add_test(tests, magnesium_needs_its_plugin);
    tcase_add_test(tests, titanium_oxidizes_and_burns);
    tcase_add_test(tests, laminates_part_and_grind);
    tcase_add_test(tests, nylon_takes_up_water);
    tcase_add_loop_test(tests, states_are_named_in_errors, 0, 6);
    tcase_add_test(tests, wood_has_a_grain);
    tcase_add_loop_test(tests, glassy_polymers_relax, 0, 2);
    tcase_set_timeout(tests, 120);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
