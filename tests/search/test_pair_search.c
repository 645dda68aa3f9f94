/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The search of speed and feed with given pass counts, at the best estimates, against a grid over
 * the whole range that is much finer than its own. */
#include "core/search/goal.h"
#include "core/search/pass_counts.h"
#include "tests/search/search_problem.h"
#include "tests/support/open_library.h"
#include "tests/support/test_cuts.h"
#include <math.h>
#include <stdbool.h>
#include <stdlib.h>

enum { INPUTS = 10, COLUMNS = 400, ROWS = 120, MOST_POINTS = COLUMNS * ROWS };

/* What the search may lose: a two-hundredth of the time, of the burden as much. */
static const double loss = 0.005;

typedef struct searched {
    uint32_t goal;
    double level; /* of the goal; INFINITY: any */
    bool lobes;   /* of chatter: the best point of one is not that of the next */
    search_input inputs[INPUTS];
} searched;

static const searched cases[] = {
    /* the fastest spindle speed, and a load on the teeth */
    {BITE_GOAL_FAST,
     INFINITY,
     false,
     {{"material", "6061"}, {"tool", "6mm"}, {"depth", "0.5mm"}, {"machine", "small-vmc"}}},
    {BITE_GOAL_FAST,
     INFINITY,
     false,
     {{"material", "304"},
      {"tool", "6mm"},
      {"depth", "0.2mm"},
      {"width", "2mm"},
      {"tolerance", "0.02mm"},
      {"machine", "small-vmc"}}},
    /* lobes of chatter between the columns of the search's own grid */
    {BITE_GOAL_FAST,
     INFINITY,
     true,
     {{"material", "6061"},
      {"tool", "6mm"},
      {"depth", "0.5mm"},
      {"mode_frequency", "900Hz"},
      {"mode_stiffness", "2N/um"},
      {"mode_damping", "0.03"},
      {"machine", "small-vmc"}}},
    {BITE_GOAL_FAST,
     INFINITY,
     true,
     {{"material", "brass/c360"},
      {"tool", "6mm"},
      {"depth", "0.1mm"},
      {"mode_frequency", "2500Hz"},
      {"mode_stiffness", "1N/um"},
      {"mode_damping", "0.02"},
      {"machine", "small-vmc"}}},
    /* the deflection of a thin tool, and heat */
    {BITE_GOAL_FAST,
     INFINITY,
     false,
     {{"material", "acrylic/cast"}, {"tool", "0.8mm"}, {"depth", "1mm"}, {"tolerance", "0.02mm"}}},
    {BITE_GOAL_FAST,
     INFINITY,
     false,
     {{"material", "acrylic/cast"}, {"tool", "2mm"}, {"depth", "4mm"}, {"width", "0.4mm"}}},
    /* one axis alone */
    {BITE_GOAL_FAST,
     INFINITY,
     false,
     {{"material", "polycarbonate"},
      {"tool", "3mm"},
      {"depth", "1mm"},
      {"spindle_speed", "9000rpm"}}},
    {BITE_GOAL_FAST,
     INFINITY,
     false,
     {{"material", "polycarbonate"},
      {"tool", "3mm"},
      {"depth", "1mm"},
      {"feed_rate", "500mm/min"}}},
    {BITE_GOAL_COOL,
     10.0,
     false,
     {{"material", "acrylic/cast"},
      {"tool", "3mm"},
      {"depth", "0.5mm"},
      {"feed_rate", "0.02mm/tooth"}}},
    /* a goal with a level: warmer by 10 K; half the tolerance */
    {BITE_GOAL_COOL,
     10.0,
     false,
     {{"material", "acrylic/cast"}, {"tool", "3mm"}, {"depth", "0.5mm"}, {"coolant", "air"}}},
    {BITE_GOAL_FINE,
     0.5,
     false,
     {{"material", "brass/c360"}, {"tool", "2mm"}, {"depth", "1mm"}, {"tolerance", "0.03mm"}}},
    /* nothing is within its limits: a weak machine, a deep slot */
    {BITE_GOAL_FAST,
     INFINITY,
     false,
     {{"material", "304"}, {"tool", "1mm"}, {"depth", "3mm"}, {"machine", "desktop-light"}}},
    {BITE_GOAL_FAST,
     INFINITY,
     false,
     {{"material", "6061"}, {"tool", "6mm"}, {"depth", "4mm"}, {"machine", "desktop-light"}}},
    /* a hole */
    {BITE_GOAL_FAST,
     INFINITY,
     false,
     {{"material", "6061"},
      {"tool", "drill-3"},
      {"operation", "drill"},
      {"feature_depth", "6mm"},
      {"machine", "small-vmc"}}},
};
enum { CASES = sizeof cases / sizeof *cases };

/* The best point of the whole range. */
static bite_point best_of_grid(const bite_wish *wish, uint32_t axial, uint32_t radial)
{
    const bite_search_problem *problem = wish->problem;
    const bite_point passes = {.axial = axial, .radial = radial};
    const double slow = log(problem->spindle[0]);
    const double fast = log(problem->spindle[1]);
    static bite_point points[ROWS];
    bite_point best = {.burden = INFINITY, .cost = INFINITY};
    for (int i = 0; i < COLUMNS; i++) {
        double log_spindle = slow + (fast - slow) * i / (COLUMNS - 1);
        double least = bite_point_within(wish, &passes, log_spindle, -INFINITY).log_feed;
        double most = bite_point_within(wish, &passes, log_spindle, INFINITY).log_feed;
        for (int k = 0; k < ROWS; k++) {
            points[k] = bite_point_at(wish, axial, radial, log_spindle,
                                      least + (most - least) * k / (ROWS - 1));
        }
        bite_points_evaluate(wish, points, ROWS);
        for (int k = 0; k < ROWS; k++) {
            best = bite_point_better(&points[k], &best) ? points[k] : best;
        }
    }
    return best;
}

static void expect_as_good(const bite_point *found, const bite_point *best)
{
    if (best->burden <= 1.0) {
        ck_assert_double_le(found->burden, 1.0);
        ck_assert_double_le(found->cost, best->cost + loss);
    } else {
        ck_assert_double_le(found->burden, best->burden * (1.0 + loss));
    }
}

static bite_point search_pair(const bite_wish *wish, uint32_t axial, uint32_t radial, int fine)
{
    bite_point *points = calloc(BITE_PAIR_POINTS, sizeof *points);
    ck_assert_ptr_nonnull(points);
    bite_point found = bite_search_pair(wish, axial, radial, fine, NULL, INFINITY, points);
    free(points);
    return found;
}

START_TEST(no_point_of_a_fine_grid_is_better)
{
    bite_search_problem *problem = search_problem_of(cases[_i].goal, cases[_i].inputs, INPUTS, 0);
    const bite_wish wish = search_wish_of(problem, cases[_i].level, INFINITY);
    uint32_t axial = bite_pass_count_least(&problem->down);
    uint32_t radial = bite_pass_count_least(&problem->across);
    const bite_point best = best_of_grid(&wish, axial, radial);
    const bite_point found = search_pair(&wish, axial, radial, 1);
    expect_as_good(&found, &best);
    search_problem_free(problem);
}
END_TEST

/* From a point that is slower than the best one and has another speed, both within reach. */
START_TEST(the_best_point_nearby_is_found)
{
    bite_search_problem *problem = search_problem_of(cases[_i].goal, cases[_i].inputs, INPUTS, 0);
    const bite_wish wish = search_wish_of(problem, cases[_i].level, INFINITY);
    const bite_point best = search_pair(&wish, bite_pass_count_least(&problem->down),
                                        bite_pass_count_least(&problem->across), 1);
    static const double moved[][2] = {{0.0, -0.2}, {-0.2, -0.3}, {0.15, -0.1}};
    for (size_t i = 0; i < (cases[_i].lobes ? 1 : sizeof moved / sizeof *moved); i++) {
        bite_point point = bite_point_within(&wish, &best, best.log_spindle + moved[i][0],
                                             best.log_feed + moved[i][1]);
        bite_search_nearby(&wish, 1.5, 10, &point);
        expect_as_good(&point, &best);
    }
    search_problem_free(problem);
}
END_TEST

/* What is dearer than a point may cost is not found; at the price of the best point it is. */
START_TEST(nothing_dearer_than_its_worth_is_found)
{
    bite_search_problem *problem = search_problem_of(cases[0].goal, cases[0].inputs, INPUTS, 0);
    bite_wish wish = search_wish_of(problem, cases[0].level, INFINITY);
    bite_point *points = calloc(BITE_PAIR_POINTS, sizeof *points);
    ck_assert_ptr_nonnull(points);
    const bite_point best = search_pair(&wish, 1, 1, 1);
    for (int fine = 0; fine < 2; fine++) {
        bite_point found = bite_search_pair(&wish, 1, 1, fine, NULL, best.cost - 1.0, points);
        ck_assert(isinf(found.cost) && isinf(found.burden));
        found = bite_search_pair(&wish, 1, 1, fine, NULL, best.cost + 0.01, points);
        ck_assert_double_le(found.burden, 1.0);
        ck_assert_double_le(found.cost, best.cost + 0.01);
        ck_assert_double_ge(found.cost, best.cost - loss);
    }
    wish.worth = best.cost - 1.0; /* a limit of cost that predictions also have */
    bite_point dear = best;
    bite_points_evaluate(&wish, &dear, 1);
    ck_assert(isinf(dear.burden));
    free(points);
    search_problem_free(problem);
}
END_TEST

/* Equally fast points are ordered by their speed, whichever came first: the order of qsort is not
 * that of every system. */
START_TEST(points_are_ordered_the_same_whichever_came_first)
{
    enum { MANY = 40 };
    bite_search_problem *problem = search_problem_of(cases[8].goal, cases[8].inputs, INPUTS, 0);
    const bite_wish wish = search_wish_of(problem, cases[8].level, INFINITY);
    bite_point points[MANY];
    for (int turn = 0; turn < 2; turn++) {
        for (int i = 0; i < MANY; i++) {
            int at = turn == 0 ? i : MANY - 1 - i;
            points[i] = bite_point_at(&wish, 1, 1, log(100.0) + 0.02 * (at % 20),
                                      log(0.005) + (at < 20 ? 0.1 : 0.0));
        }
        bite_points_evaluate(&wish, points, MANY);
        for (int i = 0; i < MANY; i++) {
            bite_assert_near(points[i].log_feed, log(0.005) + (i < 20 ? 0.1 : 0.0), 1e-12);
            bite_assert_near(points[i].log_spindle, log(100.0) + 0.02 * (i % 20), 1e-12);
        }
    }
    search_problem_free(problem);
}
END_TEST

/* Within the limits before beyond them; then the faster, or of those beyond the less burdened. */
START_TEST(what_makes_a_point_better)
{
    static const struct {
        double burden;
        double cost;
    } from_best[] = {{0.5, 1.0},    {0.9, 1.0}, {1.0, 1.0}, {0.1, 1.1},     {1.0, 2.0},
                     {1.0001, 9.0}, {1.2, 0.5}, {3.0, 0.1}, {INFINITY, 0.0}};
    enum { MANY = sizeof from_best / sizeof *from_best };
    bite_point points[MANY] = {{.axial = 0}};
    for (int i = 0; i < MANY; i++) {
        points[i].burden = from_best[i].burden;
        points[i].cost = from_best[i].cost;
    }
    for (int i = 0; i < MANY; i++) {
        for (int k = 0; k < MANY; k++) {
            ck_assert_msg((bite_point_better(&points[i], &points[k]) != 0) == (i < k), "%d %d", i,
                          k);
        }
    }
    bite_point close = points[2]; /* a difference in the last digits is none */
    close.cost *= 1.0 - 1e-12;
    ck_assert(!bite_point_better(&close, &points[2]) && !bite_point_better(&points[2], &close));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("pair search");
    TCase *tests = tcase_create("pair search");
    tcase_add_unchecked_fixture(tests, open_library, close_library);
    tcase_add_loop_test(tests, no_point_of_a_fine_grid_is_better, 0, CASES);
    tcase_add_loop_test(tests, the_best_point_nearby_is_found, 0, CASES);
    tcase_add_test(tests, nothing_dearer_than_its_worth_is_found);
    tcase_add_test(tests, points_are_ordered_the_same_whichever_came_first);
    tcase_add_test(tests, what_makes_a_point_better);
    tcase_set_timeout(tests, 120);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
