/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tolerances of standards and what instruments can read. */
#include "core/inspection/gauge_effect.h"
#include "core/inspection/general_tolerance.h"
#include "core/inspection/instrument.h"
#include "core/library/collection.h"
#include "tests/support/open_library.h"
#include "tests/support/support.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

#define MM 1e-3

static void has(const char *class, double nominal, double lower, double upper)
{
    bite_tolerance tolerance;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_msg(bite_general_tolerance(class, nominal * MM, &tolerance, &error) == BITE_OK, "%s",
                  error.message);
    ck_assert_double_eq_tol(tolerance.lower, lower * MM, 1e-12);
    ck_assert_double_eq_tol(tolerance.upper, upper * MM, 1e-12);
}

static void has_none(const char *class, double nominal, bite_status status)
{
    bite_tolerance tolerance;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_general_tolerance(class, nominal * MM, &tolerance, &error), status);
    ck_assert_uint_gt(strlen(error.message), 0);
}

/* As reprinted (0.5 to 4000 mm), with the borders of the ranges: a size belongs to the range that
 * ends with it. */
START_TEST(general_tolerances)
{
    static const double middle[] = {2.0, 5.0, 20.0, 60.0, 300.0, 700.0, 1500.0, 3000.0};
    static const double expected[][4] = {
        {0.05, 0.1, 0.2, 0.0}, {0.05, 0.1, 0.3, 0.5}, {0.1, 0.2, 0.5, 1.0}, {0.15, 0.3, 0.8, 1.5},
        {0.2, 0.5, 1.2, 2.5},  {0.3, 0.8, 2.0, 4.0},  {0.5, 1.2, 3.0, 6.0}, {0.0, 2.0, 4.0, 8.0}};
    static const char *const names[] = {"2768-f", "ISO 2768-m", "iso2768-1 c", "2768 v"};
    for (size_t i = 0; i < sizeof middle / sizeof *middle; i++) {
        for (size_t k = 0; k < 4; k++) {
            if (expected[i][k] > 0.0) {
                has(names[k], middle[i], -expected[i][k], expected[i][k]);
            } else {
                has_none(names[k], middle[i], BITE_OUT_OF_RANGE);
            }
        }
    }
    has("2768-m", 6.0, -0.1, 0.1);
    has("2768-m", 6.001, -0.2, 0.2);
    has("2768-mK", 30.0, -0.2, 0.2);
    has_none("2768-m", 0.499, BITE_OUT_OF_RANGE);
    has_none("2768-m", 4001.0, BITE_OUT_OF_RANGE);
    has_none("2768-x", 10.0, BITE_UNKNOWN_NAME);
    has_none("2768-mm", 10.0, BITE_UNKNOWN_NAME);
    has_none("2768-", 10.0, BITE_UNKNOWN_NAME);
}
END_TEST

/* Grades 6, 7, 8, 9, 11 and 12 as reprinted, um. */
START_TEST(grades_of_sizes)
{
    static const double size[] = {5.0, 8.0, 15.0, 25.0};
    static const int grade[] = {6, 7, 8, 9, 11, 12};
    static const double width[][6] = {{8, 12, 18, 30, 75, 120},
                                      {9, 15, 22, 36, 90, 150},
                                      {11, 18, 27, 43, 110, 180},
                                      {13, 21, 33, 52, 130, 210}};
    char name[16];
    for (size_t i = 0; i < 4; i++) {
        for (size_t k = 0; k < 6; k++) {
            (void)snprintf(name, sizeof name, "H%d", grade[k]);
            has(name, size[i], 0.0, width[i][k] * 1e-3);
            (void)snprintf(name, sizeof name, "h%d", grade[k]);
            has(name, size[i], -width[i][k] * 1e-3, 0.0);
            (void)snprintf(name, sizeof name, "js%d", grade[k]);
            has(name, size[i], -0.5 * width[i][k] * 1e-3, 0.5 * width[i][k] * 1e-3);
        }
    }
    has("H7", 6.0, 0.0, 0.012);
    has("H7", 6.001, 0.0, 0.015);
    has_none("H4", 10.0, BITE_UNKNOWN_NAME);
    has_none("H15", 10.0, BITE_UNKNOWN_NAME);
    has_none("g6", 10.0, BITE_UNKNOWN_NAME);
    has_none("H7x", 10.0, BITE_UNKNOWN_NAME);
    has_none("H7", 500.1, BITE_OUT_OF_RANGE);
    has_none("H7", 0.0, BITE_OUT_OF_RANGE);
    has_none("", 10.0, BITE_UNKNOWN_NAME);
}
END_TEST

/* A grade is wider for larger sizes and larger numbers, by about 1.6 from one to the next. */
START_TEST(grades_grow)
{
    char name[16];
    for (int grade = 6; grade <= 14; grade++) {
        double last = 0.0;
        for (double size = 1.0; size <= 500.0; size *= 1.1) {
            bite_tolerance here;
            bite_tolerance finer;
            (void)snprintf(name, sizeof name, "H%d", grade);
            ck_assert_int_eq(bite_general_tolerance(name, size * MM, &here, NULL), BITE_OK);
            (void)snprintf(name, sizeof name, "H%d", grade - 1);
            ck_assert_int_eq(bite_general_tolerance(name, size * MM, &finer, NULL), BITE_OK);
            ck_assert(here.upper >= last);
            ck_assert(here.upper > 1.25 * finer.upper && here.upper < 1.9 * finer.upper);
            last = here.upper;
        }
    }
}
END_TEST

START_TEST(instruments_of_the_table)
{
    size_t count = bite_library_count(library, BITE_INSTRUMENTS);
    ck_assert_uint_ge(count, 14);
    for (size_t i = 0; i < count; i++) {
        bite_item item;
        const bite_item_record *record = NULL;
        bite_instrument instrument;
        ck_assert_int_eq(bite_library_item(library, BITE_INSTRUMENTS, i, &item, NULL), BITE_OK);
        ck_assert_int_eq(bite_library_record(library, BITE_INSTRUMENTS, item.name, &record, NULL),
                         BITE_OK);
        bite_instrument_read(record, &instrument);
        ck_assert_str_ne(bite_item_text(record, "measures"), "");
        double uncertainty = bite_instrument_uncertainty(&instrument, 0.02);
        ck_assert(instrument.judges ? isnan(uncertainty)
                                    : uncertainty > 1e-6 && uncertainty < 30e-6);
        ck_assert(instrument.judges || instrument.contact == BITE_CONTACT_NONE ||
                  (instrument.force > 0.0 && instrument.contact_size > 0.0));
    }
    const bite_item_record *caliper = NULL;
    bite_instrument instrument;
    ck_assert_int_eq(bite_library_record(library, BITE_INSTRUMENTS, "caliper", &caliper, NULL),
                     BITE_OK);
    bite_instrument_read(caliper, &instrument);
    ck_assert(bite_instrument_measures(&instrument, "inside"));
    ck_assert(!bite_instrument_measures(&instrument, "in"));
    ck_assert(!bite_instrument_measures(&instrument, "flatness"));
    /* 20 um/sqrt(3), 10 um/sqrt(12) and 10 um */
    ck_assert_double_eq_tol(bite_instrument_uncertainty(&instrument, 0.01), 15.546e-6, 1e-9);
}
END_TEST

/* By hand, 5 N on a plate of 40 x 30 x 2 mm of 3 GPa between faces of 6 mm: compressed by F t/(A E)
 * = 0.118 um; bent on its ends by F L^3/(4 E b h^3) = 111 um, which counts where it is not pressed
 * onto a plate. */
START_TEST(the_force_of_an_instrument)
{
    static const struct {
        const char *measures;
        int bends;
        int squeezes;
        int bend_counts;
    } cases[] = {{"thickness", 0, 0, 0}, {"outside", 0, 1, 0}, {"inside", 0, 0, 0},
                 {"depth", 1, 0, 0},     {"height", 1, 0, 1},  {"flatness", 1, 0, 1}};
    const bite_gauged_part part = {40 * MM, 30 * MM, 2 * MM, 3e9, 0.35, 60e6, 1200.0};
    const double compressed = 5.0 * 2e-3 / (0.25 * M_PI * 36e-6 * 3e9);
    const double bent = 5.0 * 64e-6 / (4.0 * 3e9 * 30e-3 * 8e-9);
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        bite_instrument gauge = {
            .force = 5.0, .contact = BITE_CONTACT_FLAT, .contact_size = 6 * MM};
        bite_gauge_effect effect;
        bite_gauge_effect_of(&gauge, cases[i].measures, &part, &effect);
        bite_assert_near(effect.indentation, compressed, 1e-9);
        ck_assert_double_nan(effect.dent_force);
        ck_assert_int_eq(isnan(effect.bend), !cases[i].bends);
        ck_assert_int_eq(isnan(effect.squeeze), !cases[i].squeezes);
        ck_assert_int_eq(isnan(effect.buckling_force), !cases[i].squeezes);
        if (cases[i].bends) {
            bite_assert_near(effect.bend, bent, 1e-9);
        }
        bite_assert_near(bite_gauge_effect_on_reading(&effect, cases[i].measures),
                         compressed + (cases[i].bend_counts ? bent : 0.0) +
                             (cases[i].squeezes ? effect.squeeze : 0.0),
                         1e-12);
        gauge.contact = BITE_CONTACT_BALL;
        bite_gauge_effect_of(&gauge, cases[i].measures, &part, &effect);
        ck_assert(effect.indentation > compressed && effect.dent_force > 0.0);
        bite_instrument without[3] = {gauge, gauge, gauge};
        without[0].judges = 1;
        without[1].contact = BITE_CONTACT_NONE;
        without[2].force = (double)NAN;
        for (size_t k = 0; k < 3; k++) {
            bite_gauge_effect_of(&without[k], cases[i].measures, &part, &effect);
            ck_assert(isnan(effect.indentation) && isnan(effect.bend) && isnan(effect.squeeze));
            ck_assert_double_eq(bite_gauge_effect_on_reading(&effect, cases[i].measures), 0.0);
        }
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("tolerance");
    TCase *tests = tcase_create("tolerance");
    tcase_add_checked_fixture(tests, open_library, close_library);
    tcase_add_test(tests, general_tolerances);
    tcase_add_test(tests, grades_of_sizes);
    tcase_add_test(tests, grades_grow);
    tcase_add_test(tests, instruments_of_the_table);
    tcase_add_test(tests, the_force_of_an_instrument);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
