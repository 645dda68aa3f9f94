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
    for (double si = 1e-12; si < 1e300; si *= 10.0) { /* any size has room */
        char text[40];
        bite_control_length_write(si, BITE_METRIC, text, sizeof text);
        ck_assert_ptr_nonnull(strstr(text, " mm"));
    }
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
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
