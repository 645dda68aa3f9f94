/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One tool in a pocket, or several: whichever is done first. */
#include "tests/job/job_fixture.h"
#include <math.h>

static double whole_of(const char *change, const char *count, const char *keys)
{
    bite_job *job = plan_of(HEAD "[part]\nmaterial = acrylic/cast\nlength = 120 mm\nwidth = 90 "
                                 "mm\nthickness = 8 mm\ncount = %s\n[machine]\nname = "
                                 "bench-24k\n[hold]\nmethod = tape\n[tools]\nat_hand = 1.5mm 3mm "
                                 "6mm\nchange = %s\n[pass.a]\nwork = pocket\nlength = 20 "
                                 "mm\nacross = 12 mm\ndepth = 1 mm\ninside_radius = 0.8 mm\n%s"
                                 "[pass.free]\nwork = cut-free\n",
                            count, change, keys);
    double whole = job->time.whole;
    check_plan(job);
    bite_job_free(job);
    return whole;
}

/* Whatever the change of a tool takes, the plan takes the way with which the whole job is done
 * first. */
START_TEST(the_faster_way_is_taken)
{
    static const char *const changes[] = {"1 s", "20 s", "60 s", "200 s"};
    static const char *const counts[] = {"1", "4", "12"};
    const char *change = changes[_i % 4];
    const char *count = counts[_i / 4];
    double free_choice = whole_of(change, count, "");
    double one = whole_of(change, count, "rest = no\n");
    double two = whole_of(change, count, "rest = yes\n");
    ck_assert_msg(free_choice <= fmin(one, two) * (1.0 + 1e-6), "%s x %s: %g, not %g or %g", count,
                  change, free_choice, one, two);
    ck_assert_double_gt(fabs(one - two), 0.0);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("stage choice");
    TCase *tests = tcase_create("stage choice");
    tcase_add_checked_fixture(tests, job_setup, job_teardown);
    tcase_add_loop_test(tests, the_faster_way_is_taken, 0, 12);
    tcase_set_timeout(tests, 600);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
