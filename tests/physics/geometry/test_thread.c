/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Threads: drill sizes against published tables, the groove against sums over its slices. */
#include "core/physics/geometry/thread.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include <math.h>

#define SLICES 20000

/* Published pairs of tap drill and percent of thread (drill charts of makers, ASME B1.1 threads and
 * number drills; metric: D - P, printed as 77 % by charts). Percents are printed as whole numbers.
 */
START_TEST(percent_of_thread_is_that_of_published_charts)
{
    static const struct {
        double major;
        double pitch;
        double hole;
        double percent;
    } charts[] = {
        {6.35e-3, 25.4e-3 / 20, 0.2010 * 25.4e-3, 75},         /* 1/4-20, number 7 */
        {6.35e-3, 25.4e-3 / 28, 0.2130 * 25.4e-3, 80},         /* 1/4-28, number 3 */
        {0.190 * 25.4e-3, 25.4e-3 / 32, 0.1590 * 25.4e-3, 76}, /* 10-32, number 21 */
        {0.164 * 25.4e-3, 25.4e-3 / 32, 0.1360 * 25.4e-3, 69}, /* 8-32, number 29 */
        {0.112 * 25.4e-3, 25.4e-3 / 40, 0.0890 * 25.4e-3, 71}, /* 4-40, number 43 */
        {3e-3, 0.5e-3, 2.5e-3, 77},
        {6e-3, 1e-3, 5e-3, 77},
        {10e-3, 1.5e-3, 8.5e-3, 77},
        {8e-3, 1.25e-3, 6.8e-3, 74},
    };
    for (size_t i = 0; i < sizeof charts / sizeof *charts; i++) {
        double share = bite_thread_share(charts[i].major, charts[i].pitch, charts[i].hole);
        ck_assert_double_lt(fabs(100.0 * share - charts[i].percent), 0.6);
    }
}
END_TEST

/* The form in inches: D - 0.01299 percent / N. */
START_TEST(hole_is_that_of_the_form_in_inches)
{
    uint64_t seed = 5;
    for (int i = 0; i < 200; i++) {
        double inches = bite_test_between(&seed, 0.06, 1.0);
        double threads = bite_test_between(&seed, 8.0, 80.0);
        double percent = bite_test_between(&seed, 40.0, 100.0);
        double hole =
            bite_thread_hole(inches * 25.4e-3, 25.4e-3 / threads, 0.01 * percent) / 25.4e-3;
        bite_assert_near(hole, inches - 0.01299 * percent / threads, 1e-3);
        bite_assert_near(bite_thread_share(inches, 1.0 / threads,
                                           bite_thread_hole(inches, 1.0 / threads, 0.01 * percent)),
                         0.01 * percent, 1e-9);
    }
}
END_TEST

/* Grooves that are cut to a height of that share have that share of the section. */
START_TEST(height_of_a_share_has_that_share_of_the_section)
{
    uint64_t seed = 7;
    for (int i = 0; i < 100; i++) {
        double pitch = bite_test_decades(&seed, 0.2e-3, 4e-3);
        double hole = pitch * bite_test_between(&seed, 4.0, 12.0);
        double height = pitch * bite_test_between(&seed, 0.2, 0.65);
        double share = bite_test_between(&seed, 0.05, 1.0);
        double own = bite_thread_height_of(pitch, height, share);
        double whole = bite_thread_groove_of(hole + 2.0 * height, pitch, hole).area;
        double part = bite_thread_groove_of(hole + 2.0 * own, pitch, hole).area;
        bite_assert_near(part / whole, share, 1e-9);
        bite_assert_near(bite_thread_height_of(pitch, height, 1.0), height, 1e-9);
    }
}
END_TEST

START_TEST(groove_is_the_sum_of_its_slices)
{
    uint64_t seed = 6;
    for (int i = 0; i < 50; i++) {
        double major = bite_test_decades(&seed, 1e-3, 30e-3);
        double pitch = major * bite_test_between(&seed, 0.05, 0.25);
        double hole = bite_thread_hole(major, pitch, bite_test_between(&seed, 0.3, 1.0));
        bite_thread_groove groove = bite_thread_groove_of(major, pitch, hole);
        double h = 0.5 * (major - hole);
        double area = 0.0;
        double moment = 0.0;
        for (int k = 0; k < SLICES; k++) {
            double depth = h * (k + 0.5) / SLICES; /* below the major diameter */
            double width = pitch / 8.0 + 2.0 * depth * tan(M_PI / 6.0);
            area += width * h / SLICES;
            moment += width * h / SLICES * (0.5 * major - depth);
        }
        bite_assert_near(groove.height, h, 1e-12);
        bite_assert_near(groove.area, area, 1e-8);
        bite_assert_near(groove.width * h, area, 1e-8);
        bite_assert_near(groove.arm, moment / area, 1e-8);
        ck_assert_double_gt(bite_thread_groove_of(major, pitch, 0.99 * hole).area, groove.area);
    }
}
END_TEST

/* d3 of ISO 724, for bolts: M6 4.773, M10 8.160 (M3 2.387), mm. */
START_TEST(root_is_that_of_iso_724)
{
    ck_assert_double_lt(fabs(bite_thread_root(6e-3, 1e-3) - 4.773e-3), 1e-6);
    ck_assert_double_lt(fabs(bite_thread_root(10e-3, 1.5e-3) - 8.160e-3), 1e-6);
    ck_assert_double_lt(fabs(bite_thread_root(3e-3, 0.5e-3) - 2.387e-3), 1e-6);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("thread");
    TCase *threads = tcase_create("thread");
    tcase_add_test(threads, height_of_a_share_has_that_share_of_the_section);
    tcase_add_test(threads, percent_of_thread_is_that_of_published_charts);
    tcase_add_test(threads, hole_is_that_of_the_form_in_inches);
    tcase_add_test(threads, groove_is_the_sum_of_its_slices);
    tcase_add_test(threads, root_is_that_of_iso_724);
    suite_add_tcase(suite, threads);
    return bite_test_run(suite);
}
