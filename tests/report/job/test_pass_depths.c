/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The depths of a pass as they are entered add up to the feature, and never to more. */
#include "core/report/job/pass_depths.h"
#include "core/units/format_quantity.h"
#include "tests/support/support.h"
#include <math.h>

#define MM 1e-3
#define IN 25.4e-3

START_TEST(the_last_depth_is_the_rest)
{
    static const struct {
        double feature;
        double each;
        bite_units units;
        const char *text;
    } cases[] = {
        {1.6 * MM, 0.33 * MM, BITE_METRIC, "4 x 0.33 + 0.28 mm"},
        {1.0 * MM, MM / 3.0, BITE_METRIC, "2 x 0.333 + 0.334 mm"},
        {1.5 * MM, 0.5 * MM, BITE_METRIC, "3 x 0.5 mm"},
        {0.8 * MM, 0.8 * MM, BITE_METRIC, "0.8 mm"},
        {0.8 * MM, 2.0 * MM, BITE_METRIC, "0.8 mm"},
        {3.0 * MM, 1.504 * MM, BITE_METRIC, "1.504 + 1.496 mm"},
        {0.1181 * IN, 0.0592 * IN, BITE_INCH, "0.0592 + 0.0589 in"},
        {1.67 * MM, 0.335 * MM, BITE_INCH, "4 x 0.0131 + 0.0133 in"},
        {0.0625 * IN, 0.0625 * IN, BITE_INCH, "0.0625 in"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[80];
        bite_pass_depths depths =
            bite_pass_depths_of(cases[i].feature, cases[i].each, cases[i].units);
        bite_pass_depths_write(&depths, cases[i].units, "x", text, sizeof text);
        ck_assert_str_eq(text, cases[i].text);
    }
}
END_TEST

/* Over features of 0.05 mm to 40 mm and passes of any part of them. */
START_TEST(the_sum_never_exceeds_the_feature)
{
    const bite_units units = (bite_units)_i;
    const double step = bite_control_step(units);
    for (int i = 0; i < 4000; i++) {
        double feature = 0.05 * MM * pow(800.0, fmod(i * 0.618034, 1.0));
        double each = fmax(step, feature * (0.02 + 0.98 * fmod(i * 0.754878, 1.0)));
        bite_pass_depths depths = bite_pass_depths_of(feature, each, units);
        double sum = (depths.count - 1.0) * depths.each + depths.last;
        ck_assert_double_le(sum, feature + 1e-5 * step);
        ck_assert_double_ge(sum, feature - step);
        ck_assert_double_eq_tol(sum, depths.whole, 1e-6 * step);
        ck_assert_double_le(depths.each, each + 1e-5 * step);
        ck_assert_double_gt(depths.last, 0.0);
        /* what rounding left of all of them */
        ck_assert_double_le(depths.last, each + depths.count * step);
    }
}
END_TEST

START_TEST(missing_numbers_do_not_make_passes)
{
    static const double odd[] = {(double)NAN, (double)INFINITY, -1.0, 0.0, 1e300};
    for (size_t i = 0; i < sizeof odd / sizeof *odd; i++) {
        for (size_t k = 0; k < sizeof odd / sizeof *odd; k++) {
            char text[80];
            bite_pass_depths depths = bite_pass_depths_of(odd[i], odd[k], BITE_METRIC);
            bite_pass_depths_write(&depths, BITE_METRIC, "x", text, sizeof text);
            ck_assert_double_eq(depths.count, 1.0);
        }
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("pass depths");
    TCase *tests = tcase_create("pass depths");
    tcase_add_test(tests, the_last_depth_is_the_rest);
    tcase_add_loop_test(tests, the_sum_never_exceeds_the_feature, BITE_METRIC, BITE_INCH + 1);
    tcase_add_test(tests, missing_numbers_do_not_make_passes);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
