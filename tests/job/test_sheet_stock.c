/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sheets: thickness, layouts, yields. */
#include "core/job/sheet_stock.h"
#include "tests/reference/textbook/motion.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include <math.h>

#define MM 1e-3

START_TEST(the_thinnest_sheet_suffices)
{
    uint64_t seed = 41;
    for (int i = 0; i < 1000; i++) {
        bite_sheet_rule rule = {.fixed = bite_test_between(&seed, 0.0, 0.6) * MM};
        rule.share = bite_test_between(&seed, 0.0, 0.15);
        rule.thin_share = bite_test_between(&seed, 0.0, 0.2);
        rule.thin_under = bite_test_between(&seed, 0.0, 5.0) * MM;
        for (double t = 1.0 * MM; rule.count < 20; t += bite_test_between(&seed, 0.3, 3.0) * MM) {
            rule.nominals[rule.count++] = t;
        }
        double needed = bite_test_between(&seed, 0.1, 40.0) * MM;
        double found = bite_sheet_stock_thinnest(&rule, needed);
        double best = 0.0;
        for (size_t k = 0; k < rule.count; k++) {
            double t = rule.nominals[k];
            double thin = t - rule.fixed - (t < rule.thin_under ? rule.thin_share : rule.share) * t;
            if (thin >= needed && (best == 0.0 || t < best)) {
                best = t;
            }
        }
        ck_assert_double_eq(found, best);
        /* faces that stay: a sheet within the tolerance if there is one, and never one whose
         * nominal is below it while there is a thicker one */
        double tolerance = bite_test_between(&seed, 0.0, 1.0) * MM;
        double sold = bite_sheet_stock_as_sold(&rule, needed, tolerance);
        for (size_t k = 0; k < rule.count; k++) {
            double t = rule.nominals[k];
            double wide = rule.fixed + (t < rule.thin_under ? rule.thin_share : rule.share) * t;
            int within = t - wide >= needed - tolerance && t + wide <= needed + tolerance;
            ck_assert(!within || (sold > 0.0 && sold <= t));
            ck_assert(t < needed - tolerance || sold > 0.0);
        }
        ck_assert(sold <= 0.0 || sold >= needed - tolerance - 1e-9);
        /* removed from both faces or from the top only, the rest is the part */
        double share = bite_test_between(&seed, 0.0, 1.0);
        bite_sheet_stock_removal off = bite_sheet_stock_remove(0.003, 0.004, 0.0025, share);
        bite_assert_near(off.thin_top + off.thin_below, 0.0005, 1e-9);
        bite_assert_near(off.thick_top + off.thick_below, 0.0015, 1e-9);
        bite_assert_near(off.thick_top, share * 0.0015, 1e-9);
    }
    /* 10 % below 3 mm, 5 % from there on */
    bite_sheet_rule steps = {
        .fixed = 0.1 * MM, .share = 0.05, .thin_share = 0.1, .thin_under = 3.0 * MM};
    bite_assert_near(bite_sheet_stock_tolerance(&steps, 2.9 * MM), 0.39 * MM, 1e-12);
    bite_assert_near(bite_sheet_stock_tolerance(&steps, 3.0 * MM), 0.25 * MM, 1e-12);
    /* in steps, each up to its thickness; one that is never thinner than it is called */
    bite_sheet_rule table = {
        .step_count = 2, .steps = {{1.0 * MM, 0.08 * MM}, {2.0 * MM, 0.13 * MM}}, .over_only = 1};
    bite_assert_near(bite_sheet_stock_tolerance(&table, 1.0 * MM), 0.08 * MM, 1e-12);
    bite_assert_near(bite_sheet_stock_tolerance(&table, 1.5 * MM), 0.13 * MM, 1e-12);
    bite_assert_near(bite_sheet_stock_tolerance(&table, 9.0 * MM), 0.13 * MM, 1e-12);
    ck_assert_double_eq(bite_sheet_stock_thin(&table, 1.5 * MM), 1.5 * MM);
    bite_assert_near(bite_sheet_stock_thick(&table, 1.5 * MM), 1.63 * MM, 1e-12);
    bite_sheet_stock_removal none = bite_sheet_stock_remove(
        0.001, 0.002, 0.0025, 0.5); /* thinner than the part: nothing is removed */
    ck_assert(none.thin_top == 0.0 && none.thick_top == 0.0 && none.thin_below == 0.0 &&
              none.thick_below == 0.0);
}
END_TEST

/* The length of a number of parts in a row. */
static double row_of(int count, double part, double gap, double margin)
{
    double length = margin;
    for (int i = 0; i < count; i++) {
        length += (i > 0 ? gap : 0.0) + part;
    }
    return length + margin;
}

static double least_area(double a, double b, int count, double gap, double margin, double sheet_a,
                         double sheet_b)
{
    double least = INFINITY;
    for (int along = 1; along <= count; along++) {
        for (int rows = 1; rows <= count; rows++) {
            double length = row_of(along, a, gap, margin);
            double width = row_of(rows, b, gap, margin);
            int fits = (sheet_a == 0.0 || length <= sheet_a + 1e-9) &&
                       (sheet_b == 0.0 || width <= sheet_b + 1e-9);
            if (along * rows >= count && fits) {
                least = fmin(least, length * width);
            }
        }
    }
    return least;
}

START_TEST(layouts_are_the_smallest_that_fit)
{
    uint64_t seed = 42;
    int fitted = 0;
    for (int i = 0; i < 1500; i++) {
        double a = bite_test_between(&seed, 5.0, 120.0) * MM;
        double b = bite_test_between(&seed, 5.0, 120.0) * MM;
        double gap = bite_test_between(&seed, 0.0, 8.0) * MM;
        double margin = bite_test_between(&seed, 0.0, 15.0) * MM;
        int count = 1 + (int)bite_test_between(&seed, 0.0, 24.0);
        double sheet_a = i % 3 == 0 ? 0.0 : bite_test_between(&seed, 50.0, 800.0) * MM;
        double sheet_b = i % 3 == 1 ? 0.0 : bite_test_between(&seed, 50.0, 800.0) * MM;
        bite_layout layout;
        bite_sheet_stock_layout(a, b, (uint32_t)count, gap, margin, sheet_a, sheet_b, &layout);
        double straight = least_area(a, b, count, gap, margin, sheet_a, sheet_b);
        double turned = least_area(b, a, count, gap, margin, sheet_a, sheet_b);
        if (layout.along == 0) {
            ck_assert(isinf(straight) && isinf(turned));
            continue;
        }
        fitted++;
        double along = layout.turned ? b : a;
        double across = layout.turned ? a : b;
        /* every place is a whole part, a gap from its neighbour and a margin from the edge: none
         * overlaps */
        bite_assert_near(layout.length, row_of((int)layout.along, along, gap, margin), 1e-9);
        bite_assert_near(layout.width, row_of((int)layout.rows, across, gap, margin), 1e-9);
        ck_assert_uint_eq(layout.along * layout.rows, (unsigned)count + layout.more);
        ck_assert(sheet_a == 0.0 || layout.length <= sheet_a + 1e-8);
        ck_assert(sheet_b == 0.0 || layout.width <= sheet_b + 1e-8);
        bite_assert_near(layout.length * layout.width, fmin(straight, turned), 1e-7);
    }
    ck_assert_int_gt(fitted, 500);
}
END_TEST

static int in_a_row(double capacity, double part, double gap, double margin)
{
    int count = 0;
    while (row_of(count + 1, part, gap, margin) <= capacity + 1e-9 * (part + gap)) {
        count++;
    }
    return count;
}

START_TEST(yields_match_a_count)
{
    uint64_t seed = 43;
    for (int i = 0; i < 1500; i++) {
        double a = bite_test_between(&seed, 5.0, 120.0) * MM;
        double b = bite_test_between(&seed, 5.0, 120.0) * MM;
        double gap = bite_test_between(&seed, 0.0, 8.0) * MM;
        double margin = bite_test_between(&seed, 0.0, 15.0) * MM;
        double sheet_a = bite_test_between(&seed, 10.0, 800.0) * MM;
        double sheet_b = bite_test_between(&seed, 10.0, 800.0) * MM;
        int straight = in_a_row(sheet_a, a, gap, margin) * in_a_row(sheet_b, b, gap, margin);
        int turned = in_a_row(sheet_a, b, gap, margin) * in_a_row(sheet_b, a, gap, margin);
        ck_assert_uint_eq(bite_sheet_stock_yield(a, b, gap, margin, sheet_a, sheet_b),
                          (unsigned)(straight > turned ? straight : turned));
    }
    /* a number too large to count is not a small one */
    ck_assert_uint_eq(bite_sheet_stock_yield(0.1 * MM, 0.1 * MM, 0.0, 0.0, 10.0, 10.0), UINT32_MAX);
    /* four parts end at the end of the sheet */
    ck_assert_uint_eq(bite_sheet_stock_yield(0.1, 0.1, 0.0, 0.0, 0.4, 0.1), 4);
}
END_TEST

START_TEST(lengths_are_converted_to_20_degrees)
{
    ck_assert_double_eq(textbook_length_at_20(0.1, 7e-5, 293.15), 0.1);
    bite_assert_near(textbook_length_at_20(0.1, 7e-5, 303.15), 0.1 - 0.07 * MM, 1e-12);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("sheet stock");
    TCase *tests = tcase_create("sheet stock");
    tcase_add_test(tests, the_thinnest_sheet_suffices);
    tcase_add_test(tests, layouts_are_the_smallest_that_fit);
    tcase_add_test(tests, yields_match_a_count);
    tcase_add_test(tests, lengths_are_converted_to_20_degrees);
    tcase_set_timeout(tests, 120);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
