/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Parsing of quantities: every form that a shop writes, and every refusal with its reason. */
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
        {"1/0in", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, ""},
        {"0.8mm;rm", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, ""},
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
    ck_assert_int_eq(bite_quantity_read(longer, BITE_KIND_NUMBER, &si, NULL), BITE_BAD_QUANTITY);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("parse_quantity");
    TCase *tests = tcase_create("parse_quantity");
    tcase_add_test(tests, every_form_of_a_shop_is_read);
    tcase_add_test(tests, every_refusal_gives_its_reason);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
