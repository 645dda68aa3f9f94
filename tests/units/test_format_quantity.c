/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Formatting of quantities: what is written reads back, and programs find one unit for each kind.
 */
#include "core/units/format_quantity.h"
#include "core/units/unit_table.h"
#include "tests/support/support.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

/* What is written reads back within the printed digits, in both systems, for every kind. */
START_TEST(what_is_written_reads_back)
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
                continue; /* larger than what is accepted as input */
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

START_TEST(every_kind_has_a_noun_and_a_unit)
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

/* What a program reads has one unit for each kind and unit system, whatever the size. */
START_TEST(the_fixed_unit_does_not_depend_on_the_size)
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

/* What a control takes: no micrometres, no thousandths, no exponents. */
START_TEST(lengths_are_written_as_a_control_shows_them)
{
    static const struct {
        double si;
        bite_units units;
        const char *text;
    } cases[] = {{0.000333333, BITE_METRIC, "0.333 mm"},
                 {12e-6, BITE_METRIC, "0.012 mm"},
                 {0.4e-6, BITE_METRIC, "under 0.001 mm"},
                 {0.0, BITE_METRIC, "0 mm"},
                 {2.4, BITE_METRIC, "2400 mm"},
                 {0.1e-3, BITE_INCH, "0.0039 in"},
                 {25.4e-3 / 64.0, BITE_INCH, "0.0156 in"},
                 {0.004 * 25.4e-3, BITE_INCH, "0.004 in"},
                 {2.54e-6, BITE_INCH, "0.0001 in"},
                 {1e-6, BITE_INCH, "under 0.0001 in"},
                 {25.4e-3, BITE_INCH, "1 in"},
                 {-0.05e-3, BITE_METRIC, "-0.05 mm"},
                 {(double)NAN, BITE_INCH, "-"},
                 {(double)INFINITY, BITE_METRIC, "-"}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[40];
        bite_control_length_write(cases[i].si, cases[i].units, text, sizeof text);
        ck_assert_str_eq(text, cases[i].text);
    }
    for (double si = 1e-12; si < 1e304; si *= 10.0) { /* any size has room */
        char text[40];
        bite_control_length_write(si, BITE_METRIC, text, sizeof text);
        ck_assert_ptr_nonnull(strstr(text, " mm"));
        if (si > 0.9e-6) {
            bite_assert_near(strtod(text, NULL) / 1e3, si, 1e-8);
        }
    }
}
END_TEST

/* Digits, and the choice between units, of each size. */
START_TEST(sizes_are_written_as_a_shop_writes_them)
{
    static const struct {
        double si;
        bite_kind kind;
        bite_units units;
        const char *text;
    } cases[] = {{0.0, BITE_KIND_LENGTH, BITE_METRIC, "0 mm"},
                 {0.4, BITE_KIND_FRACTION, BITE_METRIC, "40%"},
                 {1234.56, BITE_KIND_NUMBER, BITE_METRIC, "1235"},
                 {12345.6, BITE_KIND_NUMBER, BITE_METRIC, "12350"},
                 {9999999.0, BITE_KIND_NUMBER, BITE_METRIC, "10000000"},
                 {3.2e7, BITE_KIND_NUMBER, BITE_METRIC, "3.2e+07"},
                 {3.2e-7, BITE_KIND_NUMBER, BITE_METRIC, "3.2e-07"},
                 {123456e-3 / 60.0, BITE_KIND_SPEED, BITE_METRIC, "123460 mm/min"},
                 {-123456e-3 / 60.0, BITE_KIND_SPEED, BITE_METRIC, "-123460 mm/min"},
                 {273.15, BITE_KIND_TEMPERATURE, BITE_METRIC, "0 degC"},
                 {273.55, BITE_KIND_TEMPERATURE, BITE_METRIC, "0.4 degC"},
                 {278.55, BITE_KIND_TEMPERATURE, BITE_METRIC, "5.4 degC"},
                 {373.75, BITE_KIND_TEMPERATURE, BITE_METRIC, "101 degC"},
                 {1507.4, BITE_KIND_TEMPERATURE, BITE_METRIC, "1234 degC"},
                 {1234.4, BITE_KIND_RISE, BITE_METRIC, "1230 K"},
                 {0.26, BITE_KIND_RISE, BITE_METRIC, "0.3 K"},
                 {119.0, BITE_KIND_TIME, BITE_METRIC, "119 s"},
                 {120.0, BITE_KIND_TIME, BITE_METRIC, "2 min"}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[40];
        size_t length = 0;
        ck_assert_int_eq(bite_quantity_write(cases[i].si, cases[i].kind, cases[i].units, text,
                                             sizeof text, &length, NULL),
                         BITE_OK);
        ck_assert_str_eq(text, cases[i].text);
    }
}
END_TEST

/* A buffer that is too small gets nothing, and its caller learns what is needed. */
START_TEST(a_small_buffer_stays_empty)
{
    const size_t needed = strlen("25.4 mm");
    for (size_t size = 0; size < needed + 3; size++) {
        char text[20] = "untouched";
        size_t length = 0;
        ck_assert_int_eq(bite_quantity_write(0.0254, BITE_KIND_LENGTH, BITE_METRIC,
                                             size == 0 ? NULL : text, size, &length, NULL),
                         BITE_OK);
        ck_assert_uint_eq(length, needed);
        ck_assert_str_eq(text, size == 0 ? "untouched" : size > needed ? "25.4 mm" : "");
    }
}
END_TEST

START_TEST(what_is_no_quantity_is_refused)
{
    const struct {
        double si;
        int kind;
        int units;
        int has_length;
        int has_buffer;
    } cases[] = {{(double)NAN, BITE_KIND_LENGTH, BITE_METRIC, 1, 1},
                 {-(double)INFINITY, BITE_KIND_LENGTH, BITE_METRIC, 1, 1},
                 {1.0, BITE_KIND_COUNT, BITE_METRIC, 1, 1},
                 {1.0, -1, BITE_METRIC, 1, 1},
                 {1.0, BITE_KIND_LENGTH, BITE_INCH + 1, 1, 1},
                 {1.0, BITE_KIND_LENGTH, BITE_METRIC, 0, 1},
                 {1.0, BITE_KIND_LENGTH, BITE_METRIC, 1, 0}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[20] = "untouched";
        size_t length = 77;
        bite_error error = BITE_ERROR_INIT;
        ck_assert_int_eq(bite_quantity_write(cases[i].si, (bite_kind)cases[i].kind,
                                             (bite_units)cases[i].units,
                                             cases[i].has_buffer ? text : NULL, sizeof text,
                                             cases[i].has_length ? &length : NULL, &error),
                         BITE_BAD_ARGUMENT);
        ck_assert_str_eq(error.message,
                         "a finite number, its kind, and a buffer for the text were expected");
        ck_assert_str_eq(text, "untouched");
        ck_assert_uint_eq(length, 77);
    }
}
END_TEST

START_TEST(a_named_unit_is_used_or_refused)
{
    char text[40] = "untouched";
    size_t length = 0;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_quantity_write_unit(0.0254, BITE_KIND_LENGTH, "in", 3, text, sizeof text,
                                              &length, &error),
                     BITE_OK);
    ck_assert_str_eq(text, "1 in");
    ck_assert_int_eq(bite_quantity_write_unit(1.0, BITE_KIND_LENGTH, "rpm", 3, text, sizeof text,
                                              &length, &error),
                     BITE_BAD_ARGUMENT);
    ck_assert_str_eq(error.message, "rpm is not a unit of a length, or the number is not finite");
    ck_assert_int_eq(bite_quantity_write_unit((double)NAN, BITE_KIND_LENGTH, "mm", 3, text,
                                              sizeof text, &length, &error),
                     BITE_BAD_ARGUMENT);
    ck_assert_str_eq(text, "1 in");
    bite_assert_near(bite_unit_round(1.23456e-3, BITE_KIND_LENGTH, "mm", 3), 1.23e-3, 1e-15);
    ck_assert_double_eq(bite_unit_round(1.23456e-3, BITE_KIND_LENGTH, "rpm", 3), 1.23456e-3);
    bite_assert_near(bite_control_step(BITE_METRIC), 1e-6, 1e-15);
    bite_assert_near(bite_control_step(BITE_INCH), 2.54e-6, 1e-15);
}
END_TEST

/* A number that is not known has no unit; a kind of a newer header has no name. */
START_TEST(what_is_not_known_has_no_unit)
{
    double number = 0.0;
    ck_assert_str_eq(bite_unit_shop((double)NAN, BITE_KIND_LENGTH, BITE_METRIC, &number), "");
    ck_assert_double_nan(number);
    ck_assert_str_eq(bite_unit_si(BITE_KIND_COUNT), "");
    ck_assert_str_eq(bite_unit_noun(BITE_KIND_COUNT), "a quantity");
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("format_quantity");
    TCase *tests = tcase_create("format_quantity");
    tcase_add_loop_test(tests, what_is_written_reads_back, 0, BITE_KIND_COUNT);
    tcase_add_test(tests, every_kind_has_a_noun_and_a_unit);
    tcase_add_test(tests, the_fixed_unit_does_not_depend_on_the_size);
    tcase_add_test(tests, lengths_are_written_as_a_control_shows_them);
    tcase_add_test(tests, sizes_are_written_as_a_shop_writes_them);
    tcase_add_test(tests, a_small_buffer_stays_empty);
    tcase_add_test(tests, what_is_no_quantity_is_refused);
    tcase_add_test(tests, a_named_unit_is_used_or_refused);
    tcase_add_test(tests, what_is_not_known_has_no_unit);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
