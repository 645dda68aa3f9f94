/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pass counts over depth and width, compared with a dense grid over both, spindle speed and feed.
 */
#include "core/search/pass_count_find.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

#define GRID 64        /* for the pair that was chosen */
#define GRID_OTHERS 28 /* for all others */
#define NUMBERS 8
#define CUTS 5
#define LOOPS 12

static bite_block_space space;

/* A search and the cut it is for. */
typedef struct tool_requirement {
    bite_checked_cut ready;
    bite_search search;
    bite_pass_counts counts;
} tool_requirement;

/* A side cut of a feature that may be deeper and wider than the tool. */
static void make_wish(tool_requirement *wanted, uint32_t goal, uint64_t *seed)
{
    bite_error error = BITE_ERROR_INIT;
    bite_cut cut = bite_test_bounded(seed);
    cut.feature_depth = cut.diameter * bite_test_decades(seed, 0.5, 2.9);
    cut.feature_width = cut.diameter * bite_test_decades(seed, 0.3, 4.0);
    cut.depth = fmin(cut.feature_depth, cut.diameter);
    cut.width = fmin(cut.feature_width, cut.diameter);
    ck_assert_msg(bite_checked_cut_init(&cut, &wanted->ready, &error) == BITE_OK, "%s %s",
                  error.key, error.message);
    memset(&wanted->search, 0, sizeof wanted->search);
    wanted->search.checked = &wanted->ready;
    wanted->search.spaces = &space;
    wanted->search.goal = goal;
    wanted->search.feed = (double)NAN;
    wanted->search.spindle[0] = cut.spindle_fastest / 8.0;
    wanted->search.spindle[1] = cut.spindle_fastest;
    wanted->search.tooth[0] = 5e-4 * cut.diameter;
    wanted->search.tooth[1] = 0.05 * cut.diameter;
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        wanted->search.margin[i] = bite_test_between(seed, 1.0, 1.6);
    }
    bite_pass_counts counts = {&wanted->ready, cut.feature_depth, cut.feature_width, 1, 1};
    wanted->counts = counts;
}

static bite_point best_of_grid(const bite_search *search, int count)
{
    bite_point best = {0.0, 0.0, INFINITY, INFINITY, 0, 0};
    for (int i = 0; i < count; i++) {
        double spindle =
            search->spindle[0] * pow(search->spindle[1] / search->spindle[0], i / (count - 1.0));
        for (int k = 0; k < count; k++) {
            double tooth =
                search->tooth[0] * pow(search->tooth[1] / search->tooth[0], k / (count - 1.0));
            bite_point point =
                bite_speed_feed_at(search, spindle, tooth * spindle * search->checked->full.flutes);
            best = bite_speed_feed_better(&point, &best) ? point : best;
        }
    }
    return best;
}

/* By how much a is worse than b, as a share of the goal. */
static double worse_by(const bite_search *search, const bite_point *a, const bite_point *b)
{
    return search->goal == BITE_GOAL_FAST ? 1.0 - exp(b->goal - a->goal)
                                          : (a->goal - b->goal) / fabs(b->goal);
}

static uint32_t fewest_side(const tool_requirement *wanted)
{
    return (uint32_t)ceil(wanted->counts.width / wanted->ready.full.diameter - 1e-9);
}

/* At the pair found, by the same comparison as for the search of speed and feed. */
static bite_point hold_chosen(tool_requirement *wanted, int number)
{
    bite_point found = bite_speed_feed_find(&wanted->search, BITE_SEARCH_FULL);
    bite_point grid = best_of_grid(&wanted->search, GRID);
    ck_assert_msg(found.worst <= 1.0 || grid.worst > 1.0,
                  "cut %d: the grid holds at %u x %u, the search does not", number,
                  wanted->counts.axial, wanted->counts.radial);
    if (grid.worst <= 1.0) {
        double by = worse_by(&wanted->search, &found, &grid);
        ck_assert_msg(by <= 1e-3, "cut %d, goal %s, %u x %u: worse by %.3g", number,
                      bite_goal_name(wanted->search.goal), wanted->counts.axial,
                      wanted->counts.radial, by);
    }
    return found;
}

/* No pair with fewer passes in total is within the limits. */
static void hold_fewest(tool_requirement *wanted, int number)
{
    uint32_t axial = wanted->counts.axial;
    uint32_t radial = wanted->counts.radial;
    for (uint32_t a = fewest_side(wanted); a < axial * radial; a++) {
        for (uint32_t d = 1; d * a < axial * radial; d++) {
            bite_pass_counts_set(&wanted->counts, d, a);
            bite_point grid = best_of_grid(&wanted->search, GRID_OTHERS);
            ck_assert_msg(grid.worst > 1.0,
                          "cut %d, goal %s: %u x %u passes were chosen, %u x %u hold (%g)", number,
                          bite_goal_name(wanted->search.goal), axial, radial, d, a, grid.worst);
        }
    }
    bite_pass_counts_set(&wanted->counts, axial, radial);
}

/* For the goal of removal rate, no other pair removes more. If nothing is within the limits, no
 * other pair is, and the one found is not much worse than the least bad. */
static void hold_against_all(tool_requirement *wanted, const bite_point *chosen, int number)
{
    uint32_t first = fewest_side(wanted);
    for (uint32_t a = first; a < first + NUMBERS; a++) {
        for (uint32_t d = 1; d <= NUMBERS; d++) {
            uint32_t axial = wanted->counts.axial;
            uint32_t radial = wanted->counts.radial;
            bite_pass_counts_set(&wanted->counts, d, a);
            bite_point grid = best_of_grid(&wanted->search, GRID_OTHERS);
            bite_pass_counts_set(&wanted->counts, axial, radial);
            if (chosen->worst > 1.0) {
                ck_assert_msg(chosen->worst <= 1.25 * grid.worst,
                              "cut %d: %u x %u is over by %g (%s), %u x %u by %g (%s)", number,
                              axial, radial, chosen->worst,
                              bite_limit_name((bite_limit_id)chosen->limit), d, a, grid.worst,
                              bite_limit_name((bite_limit_id)grid.limit));
            } else if (grid.worst <= 1.0) {
                double by = worse_by(&wanted->search, chosen, &grid);
                ck_assert_msg(by <= 1e-3, "cut %d: %u x %u removes %.3g less than %u x %u", number,
                              axial, radial, by, d, a);
            }
        }
    }
}

START_TEST(pass_counts_are_as_good_as_a_dense_grid)
{
    static tool_requirement wanted;
    uint64_t seed = 7000 + (uint64_t)_i;
    int count = getenv("BITE_TEST_SHORT") != NULL ? 1 : CUTS;
    for (int i = 0; i < count; i++) {
        make_wish(&wanted, (uint32_t)(_i + i) % BITE_GOAL_COUNT, &seed);
        bite_pass_counts_found found = bite_pass_counts_find(&wanted.search, &wanted.counts);
        bite_point chosen = hold_chosen(&wanted, 100 * _i + i);
        ck_assert(found.point.worst > 1.0 || chosen.worst <= 1.0);
        ck_assert(found.fewest == 0 ||
                  (found.point.worst <= 1.0 && wanted.search.goal != BITE_GOAL_FAST));
        if (found.fewest) {
            hold_fewest(&wanted, 100 * _i + i);
        }
        if (found.point.worst > 1.0 || wanted.search.goal == BITE_GOAL_FAST) {
            hold_against_all(&wanted, &chosen, 100 * _i + i);
        }
    }
}
END_TEST

/* At least a third of the same cuts report it, so the comparison with the grid is not empty. */
START_TEST(fewest_is_reported_for_many_cuts)
{
    static tool_requirement wanted;
    int said = 0;
    for (int loop = 0; loop < LOOPS; loop++) {
        uint64_t seed = 7000 + (uint64_t)loop;
        for (int i = 0; i < CUTS; i++) {
            make_wish(&wanted, (uint32_t)(loop + i) % BITE_GOAL_COUNT, &seed);
            said += bite_pass_counts_find(&wanted.search, &wanted.counts).fewest != 0;
        }
    }
    ck_assert_msg(said >= LOOPS * CUTS / 3, "%d of %d choices say that they are the fewest", said,
                  LOOPS * CUTS);
}
END_TEST

/* A fixed number stays, a quarter more is at most that, and the quick search leaves a pair that can
 * be cut. */
START_TEST(pass_counts_stay_in_bounds)
{
    static tool_requirement wanted;
    uint64_t seed = 40;
    for (int i = 0; i < 40; i++) {
        make_wish(&wanted, (uint32_t)i % BITE_GOAL_COUNT, &seed);
        bite_pass_counts_found glance = bite_pass_counts_quick(&wanted.search, &wanted.counts);
        bite_point again =
            bite_speed_feed_at(&wanted.search, glance.point.spindle, glance.point.feed);
        ck_assert(again.goal == glance.point.goal && again.worst == glance.point.worst);
        ck_assert_double_le(wanted.ready.full.width, wanted.ready.full.diameter * (1.0 + 1e-9));
        bite_assert_near(wanted.ready.full.width * wanted.counts.radial, wanted.counts.width,
                         1e-12);
        bite_assert_near(wanted.ready.full.depth * wanted.counts.axial, wanted.counts.depth, 1e-12);
        uint32_t before = wanted.counts.axial * wanted.counts.radial;
        if (bite_pass_counts_more(&wanted.search, &wanted.counts)) {
            uint32_t after = wanted.counts.axial * wanted.counts.radial;
            ck_assert_msg(after > before && after <= before + 1 + before / 4, "%u after %u", after,
                          before);
        }
        bite_pass_counts side = {&wanted.ready, (double)NAN, wanted.counts.width, 7, 1};
        double depth = wanted.ready.full.depth;
        (void)bite_pass_counts_find(&wanted.search, &side);
        ck_assert_uint_eq(side.axial, 7);
        ck_assert_double_eq(wanted.ready.full.depth, depth);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("passes");
    TCase *passes = tcase_create("passes");
    tcase_add_loop_test(passes, pass_counts_are_as_good_as_a_dense_grid, 0, LOOPS);
    tcase_add_test(passes, fewest_is_reported_for_many_cuts);
    tcase_add_test(passes, pass_counts_stay_in_bounds);
    tcase_set_timeout(passes, 300);
    suite_add_tcase(suite, passes);
    return bite_test_run(suite);
}
