/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The search for spindle speed and feed, compared with a dense grid. */
#include "core/search/speed_feed.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

#define GRID 64

static bite_block_space space;

static bite_search search_of(const bite_cut *cut, bite_checked_cut *checked, uint32_t goal,
                             uint64_t *seed)
{
    bite_search search;
    bite_error error = BITE_ERROR_INIT;
    memset(&search, 0, sizeof search);
    ck_assert_msg(bite_checked_cut_init(cut, checked, &error) == BITE_OK, "%s %s", error.key,
                  error.message);
    search.checked = checked;
    search.spaces = &space;
    search.goal = goal;
    search.feed = (double)NAN;
    search.spindle[0] = cut->spindle_fastest / 24.0;
    search.spindle[1] = cut->spindle_fastest;
    search.tooth[0] = 5e-4 * cut->diameter;
    search.tooth[1] = 0.2 * cut->diameter;
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        search.margin[i] = bite_test_between(seed, 1.0, 1.8);
    }
    return search;
}

static bite_point best_of_grid(const bite_search *search)
{
    bite_point best = {0.0, 0.0, INFINITY, INFINITY, 0, 0};
    for (int i = 0; i < GRID; i++) {
        double spindle =
            search->spindle[0] * pow(search->spindle[1] / search->spindle[0], i / (GRID - 1.0));
        for (int k = 0; k < GRID; k++) {
            double tooth =
                search->tooth[0] * pow(search->tooth[1] / search->tooth[0], k / (GRID - 1.0));
            bite_point point =
                bite_speed_feed_at(search, spindle, tooth * spindle * search->checked->full.flutes);
            if (bite_speed_feed_better(&point, &best)) {
                best = point;
            }
        }
    }
    return best;
}

/* By how much a is worse than b, as a share of the goal. */
static double worse_by(const bite_search *search, const bite_point *a, const bite_point *b)
{
    if (search->goal == BITE_GOAL_FAST) {
        return 1.0 - exp(b->goal - a->goal);
    }
    return (a->goal - b->goal) / fabs(b->goal);
}

START_TEST(speed_and_feed_are_as_good_as_a_dense_grid)
{
    static bite_checked_cut checked;
    uint64_t seed = 1000 + (uint64_t)_i;
    int count = getenv("BITE_TEST_SHORT") != NULL ? 1 : 25;
    for (int i = 0; i < count; i++) {
        bite_cut cut = bite_test_bounded(&seed);
        bite_search search = search_of(&cut, &checked, (uint32_t)i % BITE_GOAL_COUNT, &seed);
        bite_point found = bite_speed_feed_find(&search, BITE_SEARCH_FULL);
        bite_point grid = best_of_grid(&search);
        ck_assert_msg(
            found.worst <= 1.0 || grid.worst > 1.0,
            "cut %d.%d, goal %s: the grid holds at %g 1/s %g m/s, the search does not (%g)", _i, i,
            bite_goal_name(search.goal), grid.spindle, grid.feed, found.worst);
        if (grid.worst <= 1.0) {
            double by = worse_by(&search, &found, &grid);
            ck_assert_msg(by <= 1e-3,
                          "cut %d.%d, goal %s: worse by %.3g: %g 1/s %g m/s against %g 1/s %g m/s",
                          _i, i, bite_goal_name(search.goal), by, found.spindle, found.feed,
                          grid.spindle, grid.feed);
        } else {
            /* the least bad settings are compared less strictly: peak forces are accurate to 2e-3
             * and cause small local minima, and the lobes of chatter have narrow ones */
            ck_assert_msg(found.worst <= grid.worst * 1.05,
                          "cut %d.%d: nothing holds, and the least bad is %g (%s, %g 1/s, %g m/s) "
                          "against %g (%s, %g 1/s, %g m/s)",
                          _i, i, found.worst, bite_limit_name((bite_limit_id)found.limit),
                          found.spindle, found.feed, grid.worst,
                          bite_limit_name((bite_limit_id)grid.limit), grid.spindle, grid.feed);
        }
        bite_point again = bite_speed_feed_at(&search, found.spindle, found.feed);
        ck_assert(again.goal == found.goal && again.worst == found.worst);
    }
}
END_TEST

/* The fastest settings that are nearly as cool, gentle or fine: as good as the grid, and never
 * beyond the cap. */
START_TEST(capped_goal_is_as_good_as_a_dense_grid)
{
    static bite_checked_cut checked;
    uint64_t seed = 4000 + (uint64_t)_i;
    int count = getenv("BITE_TEST_SHORT") != NULL ? 1 : 9;
    for (int i = 0; i < count; i++) {
        bite_cut cut = bite_test_bounded(&seed);
        bite_search search = search_of(&cut, &checked, (uint32_t)i % BITE_GOAL_FAST, &seed);
        bite_point met = bite_speed_feed_find(&search, BITE_SEARCH_FULL);
        if (met.worst > 1.0 || !(met.goal > 0.0)) {
            continue;
        }
        search.capped_goal = search.goal;
        search.goal_cap = 1.15 * met.goal;
        search.goal = BITE_GOAL_FAST;
        bite_point found = bite_speed_feed_find(&search, BITE_SEARCH_FULL);
        bite_point grid = best_of_grid(&search);
        ck_assert_double_le(found.worst, 1.0);
        if (grid.worst <= 1.0) {
            double by = worse_by(&search, &found, &grid);
            ck_assert_msg(
                by <= 1e-3,
                "cut %d.%d, nearly %s: worse by %.3g: %g 1/s %g m/s against %g 1/s %g m/s", _i, i,
                bite_goal_name(search.capped_goal), by, found.spindle, found.feed, grid.spindle,
                grid.feed);
        }
        search.goal = search.capped_goal;
        search.goal_cap = 0.0;
        ck_assert_double_le(bite_speed_feed_at(&search, found.spindle, found.feed).goal,
                            1.15 * met.goal * (1.0 + 1e-9));
    }
}
END_TEST

START_TEST(search_keeps_fixed_values)
{
    static bite_checked_cut checked;
    uint64_t seed = 5;
    for (int i = 0; i < 20; i++) {
        bite_cut cut = bite_test_bounded(&seed);
        bite_search search = search_of(&cut, &checked, BITE_GOAL_FAST, &seed);
        search.spindle[0] = search.spindle[1] = 150.0;
        bite_point found = bite_speed_feed_find(&search, BITE_SEARCH_FULL);
        ck_assert_double_eq(found.spindle, 150.0);
        search = search_of(&cut, &checked, BITE_GOAL_COOL, &seed);
        search.feed = 5e-3;
        found = bite_speed_feed_find(&search, BITE_SEARCH_FULL);
        ck_assert_double_eq(found.feed, 5e-3);
        search = search_of(&cut, &checked, BITE_GOAL_COOL, &seed);
        search.tooth[0] = search.tooth[1] = 0.02 * cut.diameter;
        found = bite_speed_feed_find(&search, BITE_SEARCH_FULL);
        bite_assert_near(found.feed, 0.02 * cut.diameter * found.spindle * checked.full.flutes,
                         1e-12);
    }
}
END_TEST

START_TEST(wider_limits_never_worsen_the_goal)
{
    static bite_checked_cut checked;
    uint64_t seed = 6;
    for (int i = 0; i < 25; i++) {
        bite_cut cut = bite_test_bounded(&seed);
        bite_search search = search_of(&cut, &checked, (uint32_t)i % BITE_GOAL_COUNT, &seed);
        bite_point tight = bite_speed_feed_find(&search, BITE_SEARCH_FULL);
        for (int k = 0; k < BITE_LIMIT_COUNT; k++) {
            search.margin[k] = fmax(1.0, 0.9 * search.margin[k]);
        }
        bite_point wide = bite_speed_feed_find(&search, BITE_SEARCH_FULL);
        ck_assert(wide.worst <= 1.0 || tight.worst > 1.0);
        if (tight.worst <= 1.0) {
            ck_assert(worse_by(&search, &wide, &tight) <= 1e-3);
        }
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("optimum");
    TCase *optimum = tcase_create("optimum");
    tcase_add_loop_test(optimum, speed_and_feed_are_as_good_as_a_dense_grid, 0, 20);
    tcase_add_loop_test(optimum, capped_goal_is_as_good_as_a_dense_grid, 0, 12);
    tcase_add_test(optimum, search_keeps_fixed_values);
    tcase_add_test(optimum, wider_limits_never_worsen_the_goal);
    tcase_set_timeout(optimum, 300);
    suite_add_tcase(suite, optimum);
    return bite_test_run(suite);
}
