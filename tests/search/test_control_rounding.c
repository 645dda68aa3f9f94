/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Settings as they are entered at a control: which numbers are round, and which of the round ones
 * around a point is taken. */
#include "core/search/control_rounding.h"
#include "tests/search/search_problem.h"
#include "tests/support/open_library.h"
#include "tests/support/test_cuts.h"
#include <math.h>

enum { INPUTS = 8, DRAWS = 16, POINTS = 40 };

static const double rpm = 1.0 / 60.0;
static const double mm_min = 1e-3 / 60.0;
static const double inch_min = 25.4e-3 / 60.0;

/* The largest of 1, 2, 5, 10, 20 ... thousandths that is at most 2 % of a number. */
static double expected_step(double number)
{
    double step = 1e-3;
    for (int i = 0; step * (i % 3 == 1 ? 2.5 : 2.0) <= 0.02 * number * (1.0 + 1e-12); i++) {
        step *= i % 3 == 1 ? 2.5 : 2.0;
    }
    return step;
}

static void check_multiple(double number, double step)
{
    ck_assert_msg(fabs(number / step - round(number / step)) < 1e-6, "%g is not a multiple of %g",
                  number, step);
}

/* Below 2000 rpm tens, above hundreds; feeds at most 2 % apart, in the unit of the shop. None of
 * the round numbers around is better; the speed is less than two steps away, the feed less than
 * three. */
static void check_rounding(bite_search_problem *problem, double unit, int *odd, int *below)
{
    const bite_wish wish = search_wish_of(problem, INFINITY, bite_far_beyond);
    uint64_t seed = 7;
    for (int i = 0; i < POINTS; i++) {
        const bite_point passes = {.axial = 1, .radial = 1};
        double log_spindle =
            bite_test_between(&seed, log(problem->spindle[0]), log(problem->spindle[1]));
        double slow = bite_point_within(&wish, &passes, log_spindle, -INFINITY).log_feed;
        double fast = bite_point_within(&wish, &passes, log_spindle, INFINITY).log_feed;
        bite_point point =
            bite_point_at(&wish, 1, 1, log_spindle, bite_test_between(&seed, slow, fast));
        bite_point rounded = bite_round_point(&wish, &point);
        double n_step = (point.at.spindle >= 2000.0 * rpm ? 100.0 : 10.0) * rpm;
        double f_step = expected_step(point.at.feed / unit) * unit;
        check_multiple(rounded.at.spindle, n_step);
        check_multiple(rounded.at.feed, f_step);
        ck_assert_double_lt(fabs(rounded.at.spindle - point.at.spindle), 2.0 * n_step);
        ck_assert_double_lt(fabs(rounded.at.feed - point.at.feed), 3.0 * f_step);
        *odd += lround(rounded.at.spindle / n_step) % 2 != 0;
        *below += point.at.spindle < 2000.0 * rpm;
        for (int n = -1; n <= 1; n++) {
            for (int f = -2; f <= 1; f++) {
                double spindle = (floor(point.at.spindle / n_step) + n) * n_step;
                double feed = (floor(point.at.feed / f_step) + f) * f_step;
                bite_point other = bite_point_at(&wish, 1, 1, log(spindle), log(feed));
                if (spindle <= 0.0 || feed <= 0.0 || spindle > problem->spindle[1] * (1 + 1e-9) ||
                    feed > problem->tooth[1] * problem->full.flutes * spindle) {
                    continue;
                }
                bite_points_evaluate(&wish, &other, 1);
                ck_assert(rounded.burden <= fmax(1.0, other.burden) * (1.0 + 1e-9));
                ck_assert(rounded.burden > 1.0 || other.burden > 1.0 ||
                          rounded.cost <= other.cost + 1e-9);
            }
        }
    }
}

START_TEST(round_numbers_are_taken)
{
    static const search_input slow[INPUTS] = {
        {"material", "304"}, {"tool", "12mm"}, {"depth", "0.5mm"}, {"machine", "small-vmc"}};
    static const search_input fast[INPUTS] = {
        {"material", "acrylic/cast"}, {"tool", "3mm"}, {"depth", "1mm"}};
    int odd = 0;
    int below = 0;
    bite_search_problem *problem = search_problem_of(BITE_GOAL_FAST, slow, INPUTS, DRAWS);
    check_rounding(problem, mm_min, &odd, &below);
    ck_assert_int_gt(below, POINTS / 4);
    ck_assert(odd > POINTS / 8 && odd < POINTS - POINTS / 8);
    search_problem_free(problem);
    problem = search_problem_of(BITE_GOAL_FAST, fast, INPUTS, DRAWS);
    problem->units = BITE_INCH;
    odd = below = 0;
    check_rounding(problem, inch_min, &odd, &below);
    ck_assert_int_lt(below, POINTS / 4);
    search_problem_free(problem);
}
END_TEST

/* A speed or feed that was given is kept; with a feed per tooth that was given both are. */
START_TEST(given_settings_are_kept)
{
    static const search_input cases[][INPUTS] = {
        {{"material", "acrylic/cast"},
         {"tool", "3mm"},
         {"depth", "1mm"},
         {"spindle_speed", "9012rpm"}},
        {{"material", "acrylic/cast"},
         {"tool", "3mm"},
         {"depth", "1mm"},
         {"feed_rate", "487mm/min"}},
        {{"material", "acrylic/cast"},
         {"tool", "3mm"},
         {"depth", "1mm"},
         {"feed_rate", "0.031mm/tooth"}},
    };
    for (int i = 0; i < 3; i++) {
        bite_search_problem *problem = search_problem_of(BITE_GOAL_FAST, cases[i], INPUTS, DRAWS);
        const bite_wish wish = search_wish_of(problem, INFINITY, bite_far_beyond);
        const bite_point passes = {.axial = 1, .radial = 1};
        bite_point point =
            bite_point_within(&wish, &passes, log(9012.0 * rpm), log(487.0 * mm_min));
        bite_points_evaluate(&wish, &point, 1);
        bite_point rounded = bite_round_point(&wish, &point);
        int n_kept = fabs(rounded.at.spindle / (9012.0 * rpm) - 1.0) < 1e-9;
        int f_kept = fabs(rounded.at.feed / (487.0 * mm_min) - 1.0) < 1e-9;
        ck_assert_int_eq(n_kept, i != 1);
        ck_assert_int_eq(f_kept, i == 1);
        ck_assert(i != 2 || rounded.at.feed == point.at.feed);
        search_problem_free(problem);
    }
}
END_TEST

/* A tap turns at the round speed below, and advances one pitch a turn. */
START_TEST(tap_is_slowed_to_a_round_speed)
{
    static const search_input inputs[INPUTS] = {
        {"material", "6061"}, {"diameter", "3mm"},        {"operation", "tap"},
        {"pitch", "0.5mm"},   {"hole_diameter", "2.5mm"}, {"depth", "6mm"},
        {"flutes", "3"},      {"machine", "small-vmc"}};
    bite_search_problem *problem = search_problem_of(BITE_GOAL_FAST, inputs, INPUTS, DRAWS);
    const bite_wish wish = search_wish_of(problem, INFINITY, bite_far_beyond);
    const double turns[][2] = {{817.0, 810.0}, {1999.0, 1990.0}, {2351.0, 2300.0}};
    for (size_t i = 0; i < sizeof turns / sizeof *turns; i++) {
        double n = turns[i][0] * rpm;
        bite_point point = bite_point_at(&wish, 1, 1, log(n), log(n * problem->full.pitch));
        bite_point rounded = bite_round_point(&wish, &point);
        bite_assert_near(rounded.at.spindle, turns[i][1] * rpm, 1e-9);
        bite_assert_near(rounded.at.feed, turns[i][1] * rpm * problem->full.pitch, 1e-9);
    }
    search_problem_free(problem);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("control rounding");
    TCase *tests = tcase_create("control rounding");
    tcase_add_unchecked_fixture(tests, open_library, close_library);
    tcase_add_test(tests, round_numbers_are_taken);
    tcase_add_test(tests, given_settings_are_kept);
    tcase_add_test(tests, tap_is_slowed_to_a_round_speed);
    tcase_set_timeout(tests, 60);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
