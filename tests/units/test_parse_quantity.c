/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Parsing of quantities: every form that a shop writes, and every refusal with its reason. */
#include "core/units/parse_quantity.h"
#include "tests/support/support.h"
#include <coolbite/coolbite.h>
#include <math.h>
#include <string.h>

#define KELVIN 273.15

START_TEST(every_form_of_a_shop_is_read)
{
    static const struct {
        const char *text;
        bite_kind kind;
        double si;
    } cases[] = {
        {"0.8mm", BITE_KIND_LENGTH, 0.8e-3},
        {"1/32in", BITE_KIND_LENGTH, 0.0254 / 32},
        {"1-1/4in", BITE_KIND_LENGTH, 1.25 * 0.0254},
        {"0.0312in", BITE_KIND_LENGTH, 0.0312 * 0.0254},
        {"3thou", BITE_KIND_LENGTH, 3 * 25.4e-6},
        {"3 mil", BITE_KIND_LENGTH, 3 * 25.4e-6},
        {"2tenths", BITE_KIND_LENGTH, 2 * 2.54e-6},
        {"20um", BITE_KIND_LENGTH, 20e-6},
        {"20\xc2\xb5m", BITE_KIND_LENGTH, 20e-6},
        {"32uin", BITE_KIND_LENGTH, 32 * 0.0254e-6},
        {"1/4\"", BITE_KIND_LENGTH, 0.25 * 0.0254},
        {"18000rpm", BITE_KIND_ROTATION, 300},
        {"18000 RPM", BITE_KIND_ROTATION, 300},
        {"300Hz", BITE_KIND_ROTATION, 300},
        {"45m/min", BITE_KIND_SURFACE_SPEED, 0.75},
        {"150sfm", BITE_KIND_SURFACE_SPEED, 150 * 0.3048 / 60},
        {"150fpm", BITE_KIND_SURFACE_SPEED, 150 * 0.3048 / 60},
        {"400mm/min", BITE_KIND_SPEED, 0.4 / 60},
        {"16in/min", BITE_KIND_SPEED, 16 * 0.0254 / 60},
        {"16ipm", BITE_KIND_SPEED, 16 * 0.0254 / 60},
        {"5mm/s", BITE_KIND_SPEED, 5e-3},
        {"0.02mm/tooth", BITE_KIND_TOOTH_FEED, 0.02e-3},
        {"0.8thou/tooth", BITE_KIND_TOOTH_FEED, 0.8 * 25.4e-6},
        {"0.001ipt", BITE_KIND_TOOTH_FEED, 25.4e-6},
        {"20degC", BITE_KIND_TEMPERATURE, 20 + KELVIN},
        {"68degF", BITE_KIND_TEMPERATURE, 20 + KELVIN},
        {"-40degF", BITE_KIND_TEMPERATURE, -40 + KELVIN},
        {"10K", BITE_KIND_RISE, 10},
        {"18degF", BITE_KIND_RISE, 10},
        {"0.75kW", BITE_KIND_POWER, 750},
        {"1hp", BITE_KIND_POWER, 745.6998715822702},
        {"12N", BITE_KIND_FORCE, 12},
        {"3lbf", BITE_KIND_FORCE, 3 * 4.4482216152605},
        {"5min", BITE_KIND_TIME, 300},
        {"30deg", BITE_KIND_ANGLE, M_PI / 6},
        {"-30deg", BITE_KIND_ANGLE, -M_PI / 6},
        {"2-1/2deg", BITE_KIND_ANGLE, 2.5 * M_PI / 180},
        {"-2-1/2deg", BITE_KIND_ANGLE, -2.5 * M_PI / 180}, /* the sign is that of all of it */
        {"-0-1/2deg", BITE_KIND_ANGLE, -0.5 * M_PI / 180},
        {"-1/2deg", BITE_KIND_ANGLE, -0.5 * M_PI / 180},
        {"+1/2deg", BITE_KIND_ANGLE, 0.5 * M_PI / 180},
        {"-.5deg", BITE_KIND_ANGLE, -0.5 * M_PI / 180},
        {"3%", BITE_KIND_FRACTION, 0.03},
        {"0.03", BITE_KIND_FRACTION, 0.03},
        {"2", BITE_KIND_NUMBER, 2},
        {"1466 J/kg/K", BITE_KIND_HEAT_CAPACITY, 1466},
        {"1.466J/g/K", BITE_KIND_HEAT_CAPACITY, 1466},
        {"0.2W/m/K", BITE_KIND_CONDUCTIVITY, 0.2},
        {"70um/m/K", BITE_KIND_EXPANSION, 70e-6},
        {"7e-5 1/K", BITE_KIND_EXPANSION, 70e-6},
        {"500J/m2", BITE_KIND_SURFACE_ENERGY, 500},
        {"1.19g/cm3", BITE_KIND_DENSITY, 1190},
        {"180MPa", BITE_KIND_STRESS, 180e6},
        {"180N/mm2", BITE_KIND_STRESS, 180e6},
        {"5N/um", BITE_KIND_STIFFNESS, 5e6},
        {"12N/mm", BITE_KIND_EDGE_FORCE, 12e3},
        {"0.7Nm", BITE_KIND_TORQUE, 0.7},
        {"0.012 1/deg", BITE_KIND_PER_ANGLE, 0.012 * 180 / M_PI},
        {"  0.8mm  ", BITE_KIND_LENGTH, 0.8e-3},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        bite_error error = BITE_ERROR_INIT;
        double si = (double)NAN;
        ck_assert_msg(bite_quantity_read(cases[i].text, cases[i].kind, &si, &error) == BITE_OK,
                      "%s: %s", cases[i].text, error.message);
        ck_assert_msg(fabs(si - cases[i].si) <= 1e-12 * fabs(cases[i].si),
                      "%s is %.17g, expected %.17g", cases[i].text, si, cases[i].si);
    }
}
END_TEST

START_TEST(every_refusal_gives_its_reason)
{
    static const struct {
        const char *text;
        bite_kind kind;
        bite_status status;
        const char *says; /* in message or hint */
    } cases[] = {
        {"0.5", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, "0.5mm or 0.5in"},
        {"12000", BITE_KIND_ROTATION, BITE_BAD_QUANTITY, "12000rpm"},
        {"400", BITE_KIND_SPEED, BITE_BAD_QUANTITY, "400mm/min or 400in/min"},
        {"1/32", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, "1/32in"},
        {"20", BITE_KIND_TEMPERATURE, BITE_BAD_QUANTITY, "20degC or 20degF"},
        {"0,5mm", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, "comma"},
        {"nan mm", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, "measurable"},
        {"-inf", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, "measurable"},
        {"-1mm", BITE_KIND_LENGTH, BITE_OUT_OF_RANGE, "negative"},
        {"-5rpm", BITE_KIND_ROTATION, BITE_OUT_OF_RANGE, "negative"},
        {"5000m", BITE_KIND_LENGTH, BITE_OUT_OF_RANGE, "not plausible"},
        {"1e300mm", BITE_KIND_LENGTH, BITE_OUT_OF_RANGE, "not plausible"},
        {"45m/min", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, "is a feed rate"},
        {"3mm", BITE_KIND_SPEED, BITE_BAD_QUANTITY, "is a length"},
        {"3mmm", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, "did you mean"},
        {"3zork", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, "not a unit of a length"},
        {"", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, "empty"},
        {"   ", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, "empty"},
        {"mm", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, "does not begin with a number"},
        {"1/0in", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, "/0in is not a unit"},
        {"0.8mm;rm", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, "mm;rm is not a unit"},
        {"-1-1/4in", BITE_KIND_LENGTH, BITE_OUT_OF_RANGE, "-1-1/4in is negative"},
        {"0,", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, "decimal mark is a point"},
        {"-2e12", BITE_KIND_NUMBER, BITE_OUT_OF_RANGE, "not plausible"},
        /* what begins as a mixed number or a fraction and is none */
        {"1-", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, "- is not a unit of a length"},
        {"1-x", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, "-x is not a unit"},
        {"1-2", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, "-2 is not a unit"},
        {"1-2in", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, "-2in is not a unit"},
        {"1-1e999in", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, "-1e999in is not a unit"},
        {"1-1/", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, "-1/ is not a unit"},
        {"1-1/x", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, "-1/x is not a unit"},
        {"1-1/0in", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, "-1/0in is not a unit"},
        {"1/", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, "/ is not a unit"},
        {"1/1e999in", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, "/1e999in is not a unit"},
        /* what begins with no number */
        {"-", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, "- does not begin with a number"},
        {"+", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, "+ does not begin with a number"},
        {"-.", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, "-. does not begin with a number"},
        {".mm", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, ".mm does not begin with a number"},
        {"nax", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, "nax does not begin with a number"},
        {"+.5e999mm", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, "too large a number"},
        /* a unit of another kind is never proposed, nor one that has no letter of what was written
         */
        {"3x", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, "such as mm or in"},
        {"3x", BITE_KIND_ANGLE, BITE_BAD_QUANTITY, "such as deg or rad"},
        {"3abcdefghijklmnopqrst", BITE_KIND_ANGLE, BITE_BAD_QUANTITY, "such as deg or rad"},
        {"3rqm", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, "such as mm or in"},
        {"3rqm", BITE_KIND_ROTATION, BITE_BAD_QUANTITY, "did you mean rpm?"},
        {"3x", BITE_KIND_CONDUCTIVITY, BITE_BAD_QUANTITY, "such as W/m/K"},
        {"3", BITE_KIND_CONDUCTIVITY, BITE_BAD_QUANTITY, "write 3W/m/K"},
        {"0.8\xff", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, "\\xff is not a unit"},
        {"0.8\x1b[31mmm", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, "\\x1b[31mmm is not a unit"},
        {"2mm", BITE_KIND_NUMBER, BITE_BAD_QUANTITY, ""},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        bite_error error = BITE_ERROR_INIT;
        double si = 7.0;
        ck_assert_msg(bite_quantity_read(cases[i].text, cases[i].kind, &si, &error) ==
                          cases[i].status,
                      "%s: %d", cases[i].text, error.status);
        ck_assert_msg(strstr(error.message, cases[i].says) != NULL ||
                          strstr(error.hint, cases[i].says) != NULL,
                      "%s: %s (%s)", cases[i].text, error.message, error.hint);
        ck_assert_uint_gt(strlen(error.message), 0);
        ck_assert_double_eq(si, 7.0);
    }
    char longer[400];
    memset(longer, '1', sizeof longer - 1);
    longer[sizeof longer - 1] = 0;
    double si = 7.0;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_quantity_read(longer, BITE_KIND_NUMBER, &si, &error), BITE_BAD_QUANTITY);
    ck_assert_str_eq(error.message, "the text is too long for a quantity (at most 79 bytes)");
    ck_assert_str_eq(error.hint, "for example 0.8mm");
    ck_assert_double_eq(si, 7.0);
}
END_TEST

/* The nearest unit is one of any of the kinds that the quantity may be of. */
START_TEST(a_misspelt_unit_of_either_kind_is_proposed)
{
    static const bite_kind feeds[] = {BITE_KIND_SPEED, BITE_KIND_TOOTH_FEED};
    static const struct {
        const char *text;
        const char *hint;
    } cases[] = {{"2mm/mim", "did you mean mm/min?"},
                 {"2mm/toth", "did you mean mm/tooth?"},
                 {"2mn", "use a unit such as mm/min or in/min"}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        bite_error error = BITE_ERROR_INIT;
        double si = 7.0;
        size_t which = 9;
        ck_assert_int_eq(bite_quantity_read_kinds(cases[i].text, strlen(cases[i].text), feeds, 2,
                                                  &si, &which, &error),
                         BITE_BAD_QUANTITY);
        ck_assert_str_eq(error.hint, cases[i].hint);
        ck_assert_double_eq(si, 7.0);
        ck_assert_uint_eq(which, 9);
    }
}
END_TEST

START_TEST(wrong_arguments_are_refused)
{
    bite_error error = BITE_ERROR_INIT;
    double si = 7.0;
    ck_assert_int_eq(bite_quantity_read(NULL, BITE_KIND_LENGTH, &si, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_quantity_read("3mm", BITE_KIND_LENGTH, NULL, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_quantity_read("3mm", BITE_KIND_COUNT, &si, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_quantity_read("3mm", (bite_kind)-1, &si, &error), BITE_BAD_ARGUMENT);
    ck_assert_str_eq(error.message, "a text, a kind and a pointer to the number were expected");
    ck_assert_double_eq(si, 7.0);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("parse_quantity");
    TCase *tests = tcase_create("parse_quantity");
    tcase_add_test(tests, every_form_of_a_shop_is_read);
    tcase_add_test(tests, every_refusal_gives_its_reason);
    tcase_add_test(tests, wrong_arguments_are_refused);
    tcase_add_test(tests, a_misspelt_unit_of_either_kind_is_proposed);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
