/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Thread milling: the feed of the centre and the width that is met, against geometry. */
#include "core/physics/geometry/thread_mill.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include <math.h>

/* Published worked example: a cutter of 0.370 in in a 9/16-18 thread, 8.3 in/min at the edge, 2.8
 * at the centre. */
START_TEST(centre_feed_is_that_of_a_published_example)
{
    double feed = bite_thread_mill_centre_feed(8.3, 0.562, 0.370);
    ck_assert_double_lt(fabs(feed - 2.8), 0.05);
}
END_TEST

/* The edge enters where the circle of the tool meets the old wall. The angle there, seen from the
 * tool's centre and counted from the direction of the new wall, is that of a straight cut of width
 * ae: cos = 1 - 2 ae/d. */
START_TEST(width_has_the_arc_of_contact_of_the_circles)
{
    uint64_t seed = 31;
    for (int i = 0; i < 300; i++) {
        double major = bite_test_decades(&seed, 2e-3, 40e-3);
        double hole = major * bite_test_between(&seed, 0.8, 0.97);
        double tool = hole * bite_test_between(&seed, 0.3, 0.9);
        double centre = 0.5 * (major - tool); /* of the hole to that of the tool */
        double radius = 0.5 * tool;
        /* in the triangle of both centres and the point of entry, seen from the tool */
        double cosine =
            (0.25 * hole * hole - centre * centre - radius * radius) / (2.0 * centre * radius);
        double width = bite_thread_mill_width(major, hole, tool);
        bite_assert_near(1.0 - 2.0 * width / tool, cosine, 1e-9);
        ck_assert_double_gt(width, 0.5 * (major - hole)); /* more than on a straight wall */
        ck_assert_double_lt(bite_thread_mill_centre_feed(1.0, major, tool), 1.0);
        ck_assert_double_lt(bite_thread_mill_width(major, hole, 0.9 * tool), width);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("thread mill");
    TCase *mills = tcase_create("thread mill");
    tcase_add_test(mills, centre_feed_is_that_of_a_published_example);
    tcase_add_test(mills, width_has_the_arc_of_contact_of_the_circles);
    suite_add_tcase(suite, mills);
    return bite_test_run(suite);
}
