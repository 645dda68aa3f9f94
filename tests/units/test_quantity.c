/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Quantities at the door: every form that a shop types, and every refusal by name. */
#include "core/units/quantity.h"
#include "tests/support/support.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

#define KELVIN 273.15

START_TEST(reads_what_shops_type)
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

START_TEST(refuses_by_name)
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
        {"nan mm", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, "measured"},
        {"-inf", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, "measured"},
        {"-1mm", BITE_KIND_LENGTH, BITE_OUT_OF_RANGE, "negative"},
        {"-5rpm", BITE_KIND_ROTATION, BITE_OUT_OF_RANGE, "negative"},
        {"5000m", BITE_KIND_LENGTH, BITE_OUT_OF_RANGE, "absurd"},
        {"1e300mm", BITE_KIND_LENGTH, BITE_OUT_OF_RANGE, "absurd"},
        {"45m/min", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, "is a feed rate"},
        {"3mm", BITE_KIND_SPEED, BITE_BAD_QUANTITY, "is a length"},
        {"3mmm", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, "did you mean"},
        {"3zork", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, "no unit"},
        {"", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, "nothing"},
        {"   ", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, "nothing"},
        {"mm", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, "no number"},
        {"1/0in", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, ""},
        {"0.8mm;rm", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, ""},
        {"0.8\xff", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, "\\xff is no unit"},
        {"0.8\x1b[31mmm", BITE_KIND_LENGTH, BITE_BAD_QUANTITY, "\\x1b[31mmm is no unit"},
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

/* What is written reads back within the printed digits, in both systems, for every kind. */
START_TEST(goes_there_and_back)
{
    bite_kind kind = (bite_kind)_i;
    srand48(_i + 1);
    for (int i = 0; i < 400; i++) {
        double si = pow(10.0, -6.0 + 8.0 * drand48());
        for (int units = BITE_METRIC; units <= BITE_INCH; units++) {
            char text[80];
            size_t length = 0;
            double back = (double)NAN;
            bite_error error = BITE_ERROR_INIT;
            if (kind == BITE_KIND_TEMPERATURE) {
                si = 200.0 + 400.0 * drand48();
            }
            ck_assert_int_eq(bite_quantity_write(si, kind, (bite_units)units, text, sizeof text,
                                                 &length, &error),
                             BITE_OK);
            ck_assert_uint_eq(length, strlen(text));
            bite_status status = bite_quantity_read(text, kind, &back, &error);
            if (status == BITE_OUT_OF_RANGE) {
                continue; /* beyond what is typed at the door */
            }
            ck_assert_msg(status == BITE_OK, "%s: %s", text, error.message);
            double allowed = kind == BITE_KIND_TEMPERATURE || kind == BITE_KIND_RISE
                                 ? 0.6 + 0.06 * si
                                 : 6e-4 * si;
            ck_assert_msg(fabs(back - si) <= allowed, "%.17g became %s, which is %.17g", si, text,
                          back);
        }
    }
}
END_TEST

START_TEST(every_kind_has_words)
{
    for (int i = 0; i < BITE_KIND_COUNT; i++) {
        ck_assert_uint_gt(strlen(bite_unit_noun((bite_kind)i)), 3);
        ck_assert_ptr_nonnull(bite_unit_si((bite_kind)i));
    }
    double number = 0.0;
    ck_assert_str_eq(bite_unit_shop(200.0, BITE_KIND_ROTATION, BITE_METRIC, &number), "rpm");
    ck_assert_double_eq_tol(number, 12000.0, 1e-6);
}
END_TEST

/* What a program reads has one unit for each kind and system, whatever the size. */
START_TEST(fixed_units)
{
    for (int kind = 0; kind < BITE_KIND_COUNT; kind++) {
        for (int units = BITE_METRIC; units <= BITE_INCH; units++) {
            double number = 0.0;
            const char *large = bite_unit_fixed(1e12, (bite_kind)kind, (bite_units)units, &number);
            for (double si = 1e-9; si < 1e12; si *= 10.0) {
                double small = 0.0;
                ck_assert_str_eq(bite_unit_fixed(si, (bite_kind)kind, (bite_units)units, &small),
                                 large);
                if (kind != BITE_KIND_TEMPERATURE) {
                    ck_assert_double_eq_tol(small / number, si / 1e12, 1e-9 * si / 1e12);
                }
            }
        }
    }
    double number = 0.0;
    ck_assert_str_eq(bite_unit_fixed(20e-6, BITE_KIND_LENGTH, BITE_METRIC, &number), "mm");
    ck_assert_double_eq_tol(number, 0.02, 1e-12);
    ck_assert_str_eq(bite_unit_fixed(20e-6, BITE_KIND_LENGTH, BITE_INCH, &number), "in");
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("unit");
    TCase *tests = tcase_create("unit");
    tcase_add_test(tests, reads_what_shops_type);
    tcase_add_test(tests, refuses_by_name);
    tcase_add_loop_test(tests, goes_there_and_back, 0, BITE_KIND_COUNT);
    tcase_add_test(tests, every_kind_has_words);
    tcase_add_test(tests, fixed_units);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
