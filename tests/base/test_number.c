/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbers are read and written the same way in every locale. */
#include "core/base/number.h"
#include "tests/support/support.h"
#include "tests/support/test_locale.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

static double read_one(const char *text, size_t *used)
{
    double value = (double)NAN;
    ck_assert_msg(bite_number_read(text, strlen(text), &value, used), "%s is a number", text);
    return value;
}

START_TEST(plain_decimal_numbers_are_read)
{
    bite_test_set_locale(bite_test_locales[_i]);
    static const struct {
        const char *text;
        double value;
        size_t used;
    } cases[] = {{"1.5", 1.5, 3},   {"-2", -2, 2},   {"+3e2x", 300, 4}, {".5mm", 0.5, 2},
                 {"5.mm", 5, 2},    {"010", 10, 3},  {"1e", 1, 1},      {"1e+", 1, 1},
                 {"0x10", 0, 1},    {"1,5", 1, 1},   {"1.5.2", 1.5, 3}, {"12 mm", 12, 2},
                 {"1e-3", 1e-3, 4}, {"1E3", 1000, 3}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        size_t used = 0;
        ck_assert_double_eq(read_one(cases[i].text, &used), cases[i].value);
        ck_assert_uint_eq(used, cases[i].used);
    }
}
END_TEST

START_TEST(what_is_not_a_number_is_refused)
{
    static const char *const cases[] = {"",    "-",  ".",   "e5",    "inf",    "nan",
                                        "NaN", " 1", "abc", "1e999", "-1e999", "--1"};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        double value = 7.0;
        size_t used = 0;
        ck_assert_msg(!bite_number_read(cases[i], strlen(cases[i]), &value, &used),
                      "%s is not a number", cases[i]);
        ck_assert_double_eq(value, 7.0);
    }
}
END_TEST

START_TEST(numbers_are_written_with_a_point)
{
    bite_test_set_locale(bite_test_locales[_i]);
    static const struct {
        double value;
        int digits;
        const char *text;
    } cases[] = {{0.4, 5, "0.4"},          {203.2, 5, "203.2"},
                 {12000, 6, "12000"},      {1234567, 3, "1.23e+06"},
                 {0.00012, 3, "0.00012"},  {0.000012345, 3, "1.23e-05"},
                 {-1.5, 2, "-1.5"},        {0, 4, "0"},
                 {99.96, 3, "100"},        {9.9999e9, 12, "9999900000"},
                 {1.0 / 3.0, 4, "0.3333"}, {1e300, 4, "1e+300"},
                 {100, 2, "1e+02"}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[64];
        size_t length = bite_number_write(cases[i].value, cases[i].digits, text, sizeof text);
        ck_assert_str_eq(text, cases[i].text);
        ck_assert_uint_eq(length, strlen(cases[i].text));
    }
}
END_TEST

START_TEST(a_short_buffer_returns_the_length_needed)
{
    char text[4] = "zzz";
    ck_assert_uint_eq(bite_number_write(1.2345, 5, text, sizeof text), 6);
    ck_assert_str_eq(text, "1.2");
    ck_assert_uint_eq(bite_number_write(1.2345, 5, NULL, 0), 6);
}
END_TEST

START_TEST(what_is_no_number_is_written_as_a_word)
{
    static const struct {
        double value;
        const char *text;
    } cases[] = {{(double)NAN, "nan"},
                 {(double)INFINITY, "inf"},
                 {-(double)INFINITY, "-inf"},
                 {-0.0, "0"},
                 {1e-300, "1e-300"}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[20];
        ck_assert_uint_eq(bite_number_write(cases[i].value, 6, text, sizeof text),
                          strlen(cases[i].text));
        ck_assert_str_eq(text, cases[i].text);
    }
}
END_TEST

START_TEST(seventeen_digits_read_back_exactly)
{
    srand48(_i);
    for (int i = 0; i < 2000; i++) {
        double value = ldexp(drand48() - 0.5, (int)(drand48() * 200.0) - 100);
        char text[64];
        size_t used = 0;
        (void)bite_number_write(value, 17, text, sizeof text);
        ck_assert_double_eq(read_one(text, &used), value);
        ck_assert_uint_eq(used, strlen(text));
    }
}
END_TEST

/* The same double, without the text, over the magnitudes that a shop enters. */
START_TEST(rounding_equals_writing_and_reading)
{
    srand48(_i);
    for (int i = 0; i < 20000; i++) {
        double value = (i % 2 == 0 ? 1.0 : -1.0) * pow(10.0, drand48() * 20.0 - 8.0);
        int digits = 1 + (int)(drand48() * 12.0);
        char text[64];
        size_t used = 0;
        (void)bite_number_write(value, digits, text, sizeof text);
        ck_assert_msg(!(fabs(bite_number_round(value, digits) - read_one(text, &used)) > 0.0),
                      "%.17g to %d digits is %s, not %.17g", value, digits, text,
                      bite_number_round(value, digits));
    }
}
END_TEST

START_TEST(rounding_keeps_ties_even_and_what_is_no_number)
{
    static const struct {
        double value;
        int digits;
        double rounded;
    } cases[] = {{0.125, 2, 0.12}, {0.375, 2, 0.38},        {2.5, 1, 2.0},
                 {-3.5, 1, -4.0},  {0.0, 3, 0.0},           {9.9996, 4, 10.0},
                 {1e5, 3, 1e5},    {123456.0, 3, 123000.0}, {999.9999, 3, 1000.0}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        ck_assert_double_eq(bite_number_round(cases[i].value, cases[i].digits), cases[i].rounded);
    }
    bite_assert_near(bite_number_round(1.2345e300, 3), 1.23e300, 1e-15);
    bite_assert_near(bite_number_round(1.2345e-200, 3), 1.23e-200, 1e-15);
    ck_assert(isnan(bite_number_round((double)NAN, 3)));
    ck_assert(isinf(bite_number_round((double)INFINITY, 3)));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("number");
    TCase *tests = tcase_create("number");
    tcase_add_loop_test(tests, plain_decimal_numbers_are_read, 0, BITE_TEST_LOCALES);
    tcase_add_test(tests, what_is_not_a_number_is_refused);
    tcase_add_loop_test(tests, numbers_are_written_with_a_point, 0, BITE_TEST_LOCALES);
    tcase_add_test(tests, a_short_buffer_returns_the_length_needed);
    tcase_add_test(tests, what_is_no_number_is_written_as_a_word);
    tcase_add_loop_test(tests, seventeen_digits_read_back_exactly, 0, 5);
    tcase_add_loop_test(tests, rounding_equals_writing_and_reading, 0, 5);
    tcase_add_test(tests, rounding_keeps_ties_even_and_what_is_no_number);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
