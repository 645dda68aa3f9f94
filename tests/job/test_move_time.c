/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The time of moves with acceleration, and of corners. */
#include "core/job/move_time.h"
#include "tests/reference/textbook/motion.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include <math.h>

START_TEST(no_move_is_quicker_than_its_feed)
{
    uint64_t seed = 31;
    for (int i = 0; i < 2000; i++) {
        double length = bite_test_decades(&seed, 1e-5, 1.0);
        double v = bite_test_decades(&seed, 1e-3, 0.5);
        double a = bite_test_decades(&seed, 0.05, 20.0);
        double j = bite_test_decades(&seed, 0.5, 2000.0);
        double feed = length / v;
        double rest = bite_move_time_rest(length, v, a);
        double jerk = bite_move_time_jerk(length, v, a, j);
        ck_assert(rest > feed && jerk > rest);
        ck_assert(bite_move_time_rest(length, v, 1.3 * a) < rest);
        ck_assert(bite_move_time_jerk(length, v, a, 1.3 * j) < jerk);
        ck_assert(bite_move_time_jerk(length, v, 1.3 * a, j) <= jerk * (1.0 + 1e-12));
        ck_assert(bite_move_time_jerk(length, 1.1 * v, a, j) <= jerk * (1.0 + 1e-12));
        ck_assert(bite_move_time_jerk(1.1 * length, v, a, j) > jerk);
        bite_assert_near(bite_move_time_jerk(length, v, a, 1e14), rest, 1e-5);
        bite_assert_near(bite_move_time_rest(length, v, 1e12), feed, 1e-5);
        bite_assert_near(bite_move_time_between(length, v, a, 0.0, 0.0), rest, 1e-12);
        /* half of the distance, up to the highest speed, and the other half back */
        double top = fmin(v, sqrt(a * length));
        bite_assert_near(bite_move_time_between(0.5 * length, v, a, 0.0, top) +
                             bite_move_time_between(0.5 * length, v, a, top, 0.0),
                         rest, 1e-9);
        double enter = bite_test_between(&seed, 0.0, v);
        double leave = bite_test_between(&seed, 0.0, v);
        double between = bite_move_time_between(length, v, a, enter, leave);
        ck_assert(between >= feed * (1.0 - 1e-12) && between <= rest * (1.0 + 1e-12));
        bite_assert_near(between, bite_move_time_between(length, v, a, leave, enter), 1e-12);
    }
}
END_TEST

/* Too short for the change of speed: the reachable speed depends on the distance. 1 mm from rest at
 * 0.5 m/s2 takes sqrt(2 L/a), whatever the target speed. */
START_TEST(a_short_move_does_not_reach_its_feed)
{
    bite_assert_near(bite_move_time_between(1e-3, 0.1, 0.5, 0.0, 0.1), sqrt(2e-3 / 0.5), 1e-12);
    bite_assert_near(bite_move_time_between(1e-3, 0.1, 0.5, 0.1, 0.0), sqrt(2e-3 / 0.5), 1e-12);
}
END_TEST

/* Small time steps with the jerk: at the end of the ramp the speed is reached, over the distance of
 * the ramp. */
START_TEST(ramps_match_small_time_steps)
{
    uint64_t seed = 32;
    for (int i = 0; i < 100; i++) {
        double v = bite_test_decades(&seed, 1e-3, 0.5);
        double a = bite_test_decades(&seed, 0.05, 20.0);
        double j = bite_test_decades(&seed, 0.5, 2000.0);
        double way = textbook_motion_ramp(v, a, j);
        double time = 2.0 * way / v;
        double rise = fmin(a / j, 0.5 * time);
        double speed = 0.0;
        double gone = 0.0;
        double most = 0.0; /* asserted once: Check notes every assertion in a file */
        enum { N = 20000 };
        for (int k = 0; k < N; k++) {
            double t = (k + 0.5) * time / N;
            double now = fmin(fmin(j * t, j * rise), j * (time - t));
            most = fmax(most, now);
            speed += 0.5 * now * time / N;
            gone += speed * time / N;
            speed += 0.5 * now * time / N;
        }
        ck_assert_double_le(most, a * (1.0 + 1e-9));
        bite_assert_near(speed, v, 1e-6);
        bite_assert_near(gone, way, 1e-6);
        /* a move of exactly two ramps, and one slightly longer or shorter: no jump */
        double just = bite_move_time_jerk(2.0 * way, v, a, j);
        bite_assert_near(just, 2.0 * time, 1e-9);
        bite_assert_near(bite_move_time_jerk(2.0 * way * (1.0 - 1e-9), v, a, j), just, 1e-7);
        bite_assert_near(bite_move_time_jerk(2.0 * way * (1.0 + 1e-9), v, a, j), just, 1e-7);
        /* also where the acceleration is just reached: v = a^2/j there */
        double edge = 2.0 * a * a * a / (j * j);
        double faster = 10.0 * a * a / j;
        bite_assert_near(bite_move_time_jerk(edge * (1.0 - 1e-9), faster, a, j),
                         bite_move_time_jerk(edge * (1.0 + 1e-9), faster, a, j), 1e-7);
    }
}
END_TEST

START_TEST(corner_times_match_their_form)
{
    ck_assert(isinf(bite_move_time_corner(M_PI, 1e-5, 0.5)));
    double last = 0.0;
    for (double angle = 0.05; angle < 3.1; angle += 0.05) {
        double v = bite_move_time_corner(angle, 1e-5, 0.5);
        double radius = v * v / 0.5;
        ck_assert(v > last);
        /* the arc is tangent to both sides: its centre is R/sin(th/2) from the corner, and the arc
         * one deviation from the corner */
        bite_assert_near(radius / sin(0.5 * angle) - radius, 1e-5, 1e-9);
        bite_assert_near(bite_move_time_corner(angle, 4e-5, 0.5), 2.0 * v, 1e-12);
        bite_assert_near(textbook_motion_arc_speed(radius, 0.5), v, 1e-12);
        last = v;
    }
}
END_TEST

START_TEST(loops_have_no_jumps)
{
    uint64_t seed = 33;
    for (int i = 0; i < 500; i++) {
        double length = bite_test_decades(&seed, 1e-4, 1.0);
        double v = bite_test_decades(&seed, 1e-3, 0.2);
        double a = bite_test_decades(&seed, 0.05, 10.0);
        double corner = bite_test_decades(&seed, 1e-4, 0.4);
        double time = bite_move_time_loop(length, 4.0, v, a, corner);
        ck_assert(time >= length / v * (1.0 - 1e-12) &&
                  time <= 4.0 * bite_move_time_rest(0.25 * length, v, a) * (1.0 + 1e-12));
        bite_assert_near(bite_move_time_loop(length * (1.0 + 1e-9), 4.0, v, a, corner), time, 1e-7);
        bite_assert_near(bite_move_time_loop(length, 4.0, v * (1.0 + 1e-9), a, corner), time, 1e-7);
        bite_assert_near(bite_move_time_loop(length, 4.0, v, a, corner * (1.0 + 1e-9)), time, 1e-7);
        ck_assert(bite_move_time_loop(length, 8.0, v, a, corner) >=
                  time * (1.0 - 1e-12)); /* more corners are not faster */
        bite_assert_near(bite_move_time_loop(length, 4.0, v, a, v), length / v, 1e-12);
        bite_assert_near(bite_move_time_loop(length, 4.0, v, a, INFINITY), length / v, 1e-12);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("move time");
    TCase *tests = tcase_create("move time");
    tcase_add_test(tests, no_move_is_quicker_than_its_feed);
    tcase_add_test(tests, a_short_move_does_not_reach_its_feed);
    tcase_add_test(tests, ramps_match_small_time_steps);
    tcase_add_test(tests, corner_times_match_their_form);
    tcase_add_test(tests, loops_have_no_jumps);
    tcase_set_timeout(tests, 120);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
