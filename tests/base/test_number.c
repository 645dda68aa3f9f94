/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbers and text are the same in every locale. */
#include "core/base/memory.h"
#include "core/base/number.h"
#include "core/base/text.h"
#include "core/units/inch_text.h"
#include "tests/support/support.h"
#include <locale.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

static const char *const locales[] = {"C", "de_DE.UTF-8", "tr_TR.UTF-8"};

static double read_one(const char *text, size_t *used)
{
    double value = (double)NAN;
    ck_assert_msg(bite_number_read(text, strlen(text), &value, used), "%s is a number", text);
    return value;
}

START_TEST(reads_plain_numbers)
{
    (void)setlocale(LC_ALL, locales[_i]);
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

/* Quantities of a sentence, and nothing that only looks like one. */
START_TEST(sentences_in_inches)
{
    (void)setlocale(LC_ALL, locales[_i]);
    static const struct {
        const char *metric;
        const char *inch;
    } cases[] = {
        {"Mill 3 mm off.", "Mill 0.12 in off."},
        {"grooves of 2 to 5 mm, 25.4 mm at most", "grooves of 0.079 to 0.2 in, 1 in at most"},
        {"4 mm by 0.8 mm", "0.16 in by 0.031 in"},
        {"not over 50 degC", "not over 122 degF"},
        {"10 um, 30 m/min, 254 mm/min", "0.39 thou, 98 ft/min, 10 in/min"},
        {"", ""},
        {"the tool 3mm, em-3 mm, 4 mmol, 5 m, 2 bar (30 psi), x3 mm, 1.2.3 mm", NULL},
        {"60 degC: 3 tabs of 4 mm", "140 degF: 3 tabs of 0.16 in"},
    };
    bite_arena *arena = bite_arena_new(bite_memory_default());
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const char *spoken = bite_text_inches(arena, cases[i].metric);
        ck_assert_str_eq(spoken, cases[i].inch == NULL ? cases[i].metric : cases[i].inch);
    }
    bite_arena_free(arena);
}
END_TEST

START_TEST(refuses_what_is_none)
{
    static const char *const cases[] = {"",    "-",  ".",   "e5",    "inf",    "nan",
                                        "NaN", " 1", "abc", "1e999", "-1e999", "--1"};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        double value = 7.0;
        size_t used = 0;
        ck_assert_msg(!bite_number_read(cases[i], strlen(cases[i]), &value, &used), "%s is none",
                      cases[i]);
        ck_assert_double_eq(value, 7.0);
    }
}
END_TEST

START_TEST(writes_points)
{
    (void)setlocale(LC_ALL, locales[_i]);
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

START_TEST(tells_what_it_needs)
{
    char text[4] = "zzz";
    ck_assert_uint_eq(bite_number_write(1.2345, 5, text, sizeof text), 6);
    ck_assert_str_eq(text, "1.2");
    ck_assert_uint_eq(bite_number_write(1.2345, 5, NULL, 0), 6);
}
END_TEST

/* What was written with 17 digits reads back to the very number. */
START_TEST(goes_there_and_back)
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

START_TEST(text_has_no_locale)
{
    (void)setlocale(LC_ALL, locales[_i]);
    ck_assert(bite_text_equals("INCH", "inch"));
    ck_assert(bite_text_equals("I", "i"));
    ck_assert(!bite_text_equals("inch", "inches"));
    ck_assert_uint_eq(bite_text_distance("acrilic", "acrylic", 3), 1);
    ck_assert_uint_eq(bite_text_distance("acrylci", "acrylic", 3), 1);
    ck_assert_uint_eq(bite_text_distance("", "abc", 2), 3);
    ck_assert_uint_eq(bite_text_columns("\xc2\xb5m", 3), 2);
    ck_assert_uint_eq(bite_text_columns("a\xcc\x81", 3), 1);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("number");
    TCase *tests = tcase_create("number");
    tcase_add_loop_test(tests, reads_plain_numbers, 0, 3);
    tcase_add_loop_test(tests, sentences_in_inches, 0, 3);
    tcase_add_test(tests, refuses_what_is_none);
    tcase_add_loop_test(tests, writes_points, 0, 3);
    tcase_add_test(tests, tells_what_it_needs);
    tcase_add_loop_test(tests, goes_there_and_back, 0, 5);
    tcase_add_loop_test(tests, rounding_equals_writing_and_reading, 0, 5);
    tcase_add_test(tests, rounding_keeps_ties_even_and_what_is_no_number);
    tcase_add_loop_test(tests, text_has_no_locale, 0, 3);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
