/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The search over numbers of passes: with few draws against a grid over all of them, each point of
 * which is drawn; at the best estimates against the best of each pair alone. */
#include "core/base/watch.h"
#include "core/search/pass_counts.h"
#include "tests/search/search_problem.h"
#include "tests/support/open_library.h"
#include "tests/support/test_cuts.h"
#include <math.h>
#include <stdlib.h>

enum { INPUTS = 10, DRAWS = 16, COLUMNS = 5, ROWS = 8 };

typedef struct searched {
    uint32_t goal;
    uint32_t axial; /* numbers of passes that the grid goes through */
    uint32_t radial;
    size_t drawn; /* settings at most: what it takes now, and half as many more */
    search_input inputs[INPUTS];
} searched;

/* What the search may lose of the time; and of the burden where nothing is within its limits: fewer
 * passes are taken for so much. */
static const double loss = 0.01;
static const double fewer_passes = 1.0 / 0.95;

/* What a rough search may miss, of the time and of the burden: a fourth and a fifth. */
static const double rough_cost = 0.22;
static const double rough_burden = 1.2;

static const searched cases[] = {
    /* many layers of a groove in steel */
    {BITE_GOAL_FAST,
     16,
     1,
     34,
     {{"material", "304"}, {"tool", "3mm"}, {"feature_depth", "6mm"}, {"machine", "small-vmc"}}},
    /* layers and laps; laps alone, for their deflection; laps alone, for chatter */
    {BITE_GOAL_FAST,
     4,
     8,
     26,
     {{"material", "6061"},
      {"tool", "6mm"},
      {"feature_depth", "12mm"},
      {"feature_width", "10mm"},
      {"machine", "small-vmc"}}},
    {BITE_GOAL_FAST,
     4,
     8,
     8,
     {{"material", "polycarbonate"},
      {"tool", "2mm"},
      {"feature_depth", "6mm"},
      {"feature_width", "2mm"},
      {"tolerance", "0.02mm"}}},
    {BITE_GOAL_FAST,
     1,
     9,
     14,
     {{"material", "6061"},
      {"tool", "6mm"},
      {"feature_depth", "6mm"},
      {"feature_width", "6mm"},
      {"mode_frequency", "900Hz"},
      {"mode_stiffness", "2N/um"},
      {"mode_damping", "0.03"},
      {"machine", "small-vmc"}}},
    /* a hole with pecks */
    {BITE_GOAL_FAST,
     10,
     1,
     8,
     {{"material", "6061"},
      {"tool", "drill-3"},
      {"operation", "drill"},
      {"feature_depth", "12mm"},
      {"machine", "small-vmc"}}},
    /* nothing is within its limits */
    {BITE_GOAL_FAST,
     16,
     1,
     14,
     {{"material", "acrylic/cast"},
      {"tool", "0.8mm"},
      {"feature_depth", "3mm"},
      {"tolerance", "0.01mm"}}},
    {BITE_GOAL_FAST,
     8,
     1,
     9,
     {{"material", "304"}, {"tool", "1mm"}, {"feature_depth", "1mm"}, {"machine", "small-vmc"}}},
};
enum { CASES = sizeof cases / sizeof *cases };

static bite_search_problem *problem_of(const searched *one)
{
    return search_problem_of(one->goal, one->inputs, INPUTS, DRAWS);
}

/* Speeds and feeds of the range of one pair, drawn unless they are slower than the best. */
static void draw_grid(const searched *one, uint32_t axial, uint32_t radial, bite_point *best)
{
    bite_search_problem *problem = problem_of(one);
    const bite_wish wish = search_wish_of(problem, INFINITY, bite_far_beyond);
    const bite_point passes = {.axial = axial, .radial = radial};
    const double slow = log(problem->spindle[0]);
    const double fast = log(problem->spindle[1]);
    for (int i = 0; i < COLUMNS && bite_pass_count_allows(&problem->down, axial) &&
                    bite_pass_count_allows(&problem->across, radial);
         i++) {
        double log_spindle = slow + (fast - slow) * i / (COLUMNS - 1);
        double least = bite_point_within(&wish, &passes, log_spindle, -INFINITY).log_feed;
        double most = bite_point_within(&wish, &passes, log_spindle, INFINITY).log_feed;
        for (int k = 0; k < ROWS; k++) {
            bite_point point = bite_point_at(&wish, axial, radial, log_spindle,
                                             least + (most - least) * k / (ROWS - 1));
            if (best->burden <= 1.0 && point.cost >= best->cost) {
                continue;
            }
            ck_assert_int_eq(bite_point_draw(&wish, INFINITY, &point, NULL), BITE_OK);
            *best = bite_point_better(&point, best) ? point : *best;
        }
    }
    search_problem_free(problem);
}

static bite_point best_of_grid(const searched *one)
{
    bite_point best = {.burden = INFINITY, .cost = INFINITY};
    for (uint32_t axial = 1; axial <= one->axial; axial++) {
        for (uint32_t radial = 1; radial <= one->radial; radial++) {
            draw_grid(one, axial, radial, &best);
        }
    }
    return best;
}

/* A bite_progress: counts the settings that are drawn. */
static int count_drawn(void *user, uint64_t done, uint64_t total)
{
    (void)done;
    (void)total;
    *(size_t *)user += 1;
    return 0;
}

START_TEST(no_drawn_point_of_a_grid_is_better)
{
    const bite_point best = best_of_grid(&cases[_i]);
    bite_search_problem *problem = problem_of(&cases[_i]);
    const bite_wish wish = search_wish_of(problem, INFINITY, bite_far_beyond);
    bite_point found;
    bite_watch watch;
    size_t draws = 0;
    bite_watch_start(&watch, count_drawn, &draws);
    problem->request.watch = &watch;
    ck_assert_int_eq(bite_search_everywhere(&wish, &found, NULL), BITE_OK);
    problem->request.watch = NULL;
    ck_assert_int_eq(bite_watch_end(&watch, BITE_OK, NULL), BITE_OK);
    ck_assert_uint_le(draws, cases[_i].drawn);
    bite_point drawn = found; /* what is found was drawn by all draws */
    ck_assert_int_eq(bite_point_draw(&wish, INFINITY, &drawn, NULL), BITE_OK);
    bite_assert_near(drawn.burden, found.burden, 1e-9);
    if (best.burden <= 1.0) {
        ck_assert_double_le(found.burden, 1.0);
        ck_assert_double_le(found.cost, best.cost + loss);
    } else {
        ck_assert_double_le(found.burden, best.burden * fewer_passes);
    }
    search_problem_free(problem);
}
END_TEST

/* The best of each pair alone, by fine searches. */
static bite_point best_of_pairs(const searched *one, const bite_wish *wish)
{
    bite_point best = {.burden = INFINITY, .cost = INFINITY};
    bite_point *points = calloc(BITE_PAIR_POINTS, sizeof *points);
    ck_assert_ptr_nonnull(points);
    for (uint32_t axial = 1; axial <= one->axial; axial++) {
        for (uint32_t radial = 1; radial <= one->radial; radial++) {
            if (bite_pass_count_allows(&wish->problem->down, axial) &&
                bite_pass_count_allows(&wish->problem->across, radial)) {
                bite_point point = bite_search_pair(wish, axial, radial, 1, NULL, INFINITY, points);
                best = bite_point_better(&point, &best) ? point : best;
            }
        }
    }
    free(points);
    return best;
}

/* A rough search may miss what a fine one finds, but not by much; what costs more than it is worth
 * is not found. */
START_TEST(estimates_miss_little_of_the_best_pair)
{
    bite_search_problem *problem = problem_of(&cases[_i]);
    const bite_wish wish = search_wish_of(problem, INFINITY, bite_far_beyond);
    const bite_point best = best_of_pairs(&cases[_i], &wish);
    bite_point found;
    ck_assert_int_eq(bite_search_estimates(&wish, INFINITY, &found, NULL), BITE_OK);
    ck_assert_double_le(found.burden, fmax(1.0, best.burden) * rough_burden);
    if (best.burden <= 1.0) {
        ck_assert_double_le(found.cost, best.cost + rough_cost);
        ck_assert_double_ge(found.cost, best.cost - (found.burden <= 1.0 ? loss : rough_cost));
        ck_assert_int_eq(bite_search_estimates(&wish, best.cost - loss, &found, NULL), BITE_OK);
        ck_assert(found.burden > 1.0 || found.cost > best.cost - loss);
    }
    search_problem_free(problem);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("pass counts");
    TCase *tests = tcase_create("pass counts");
    tcase_add_unchecked_fixture(tests, open_library, close_library);
    tcase_add_loop_test(tests, no_drawn_point_of_a_grid_is_better, 0, CASES);
    tcase_add_loop_test(tests, estimates_miss_little_of_the_best_pair, 0, CASES);
    tcase_set_timeout(tests, 300);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
