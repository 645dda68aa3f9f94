/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits of the entry move: plunge, ramp and helix. */
#include "core/cut/entry_move.h"
#include "tests/support/limit_cuts.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include <math.h>

/* A ramp beside a side cut is a slot; a plunge at the full feed loads the tool more than one at a
 * third; the default entry feed loads it less than the feed rate of the cut. */
START_TEST(entry_loads_the_tool_by_its_feed)
{
    bite_cut cut = bite_test_part_cut();
    double beside = bite_test_utilization(&cut, BITE_LIMIT_TOOL_BREAK);
    cut.entry = BITE_ENTRY_RAMP;
    cut.entry_feed = cut.feed_rate;
    bite_limit ramp = bite_test_limit(&cut, BITE_LIMIT_TOOL_BREAK);
    ck_assert_double_gt(ramp.utilization, beside);
    ck_assert_uint_eq(ramp.in_corner, 2);
    cut.entry_feed = (double)NAN;
    ck_assert_double_lt(bite_test_utilization(&cut, BITE_LIMIT_TOOL_BREAK), ramp.utilization);
    cut.entry = BITE_ENTRY_PLUNGE;
    cut.entry_feed = cut.feed_rate;
    double fast = bite_test_utilization(&cut, BITE_LIMIT_TOOL_BREAK);
    cut.entry_feed = cut.feed_rate / 3.0;
    double slow = bite_test_utilization(&cut, BITE_LIMIT_TOOL_BREAK);
    ck_assert_double_ge(fast, slow);
    ck_assert_double_ge(slow, beside);
    bite_assert_near(bite_entry_feed(&cut), cut.feed_rate / 3.0, 1e-15);
    ck_assert_double_gt(bite_test_utilization(&cut, BITE_LIMIT_CHIP_PACKING), 0.0);
    ck_assert_uint_eq(bite_test_limit(&cut, BITE_LIMIT_CHIP_PACKING).in_corner, 2);
}
END_TEST

/* The feed limit of the machine applies to the entry move too: along the move, whatever part of it
 * is horizontal. */
START_TEST(entry_feed_is_limited_by_the_machine)
{
    bite_cut cut = bite_test_part_cut();
    cut.feed_fastest = 0.05;
    cut.feed_rate = 0.01;
    cut.ramp_angle = 0.5;
    for (uint32_t entry = BITE_ENTRY_PLUNGE; entry <= BITE_ENTRY_HELIX; entry++) {
        cut.entry = entry;
        cut.entry_feed = 0.06;
        bite_limit limit = bite_test_limit(&cut, BITE_LIMIT_FEED_FAST);
        bite_assert_near(limit.demand, 0.06, 1e-15);
        bite_assert_near(limit.utilization, 1.2, 1e-12);
        ck_assert_uint_eq(limit.verdict, BITE_OVER);
        ck_assert_uint_eq(limit.in_corner, 2);
        cut.entry_feed = 0.005;
        limit = bite_test_limit(&cut, BITE_LIMIT_FEED_FAST);
        bite_assert_near(limit.utilization, 0.2, 1e-12);
        ck_assert_uint_eq(limit.in_corner, 0);
        cut.entry_feed = (double)NAN; /* the default: a fraction of the feed rate */
        bite_assert_near(bite_test_limit(&cut, BITE_LIMIT_FEED_FAST).utilization, 0.2, 1e-12);
    }
    cut.operation = BITE_DRILL_HOLE; /* a drill has no entry move */
    cut.entry_feed = 0.06;
    bite_assert_near(bite_test_limit(&cut, BITE_LIMIT_FEED_FAST).utilization, 0.2, 1e-12);
}
END_TEST

/* An entry move has the chip space of the slot: a short plunge beside an edge is not a plunge into
 * a blind slot. */
START_TEST(plunge_beside_an_edge_is_not_a_blind_slot)
{
    bite_cut cut = bite_test_acrylic();
    cut.depth = 0.25 * cut.diameter;
    cut.substance = BITE_METAL;
    cut.welding = (double)NAN;
    cut.chip_form = BITE_CHIP_SOFT;
    cut.packing_limit = 0.5;
    cut.width = 0.1 * cut.diameter;
    cut.entry = BITE_ENTRY_PLUNGE;
    bite_limit limit = bite_test_limit(&cut, BITE_LIMIT_CHIP_PACKING);
    ck_assert_uint_eq(limit.in_corner, 2);
    bite_assert_near(limit.utilization, 0.25 / (0.5 * 0.85), 1e-12);
    ck_assert_uint_eq(limit.verdict, BITE_CLEAR);
    cut.blind = 1;
    bite_assert_near(bite_test_utilization(&cut, BITE_LIMIT_CHIP_PACKING),
                     0.25 / (0.5 * 0.85 * 0.7), 1e-12);
    ck_assert_uint_eq(bite_test_limit(&cut, BITE_LIMIT_CHIP_PACKING).verdict, BITE_TIGHT);
}
END_TEST

/* In a helix the tool cuts one turn's depth, at most pi D tan(slope) and at most the depth of the
 * pass, so it loads no more than a ramp to the whole depth. What packs is the mean over the
 * descent: the depth grows along the first turn, along the whole of a ramp. */
START_TEST(helix_cuts_one_turn_at_a_time)
{
    bite_cut cut = bite_test_acrylic();
    cut.width = 0.1e-3;
    cut.depth = 1.5 * cut.diameter;
    cut.entry = BITE_ENTRY_HELIX;
    cut.ramp_angle = 0.1;
    bite_limit helix = bite_test_limit(&cut, BITE_LIMIT_CHIP_PACKING);
    ck_assert_uint_eq(helix.in_corner, 2);
    double turn = M_PI * tan(0.1);                                 /* in diameters, of 1.5 */
    double mean = (turn * 0.5 * turn + (1.5 - turn) * turn) / 1.5; /* first turn, and the rest */
    bite_assert_near(helix.demand, mean / 0.85, 1e-12);            /* of two flutes */
    double break_helix = bite_test_utilization(&cut, BITE_LIMIT_TOOL_BREAK);
    cut.entry = BITE_ENTRY_RAMP;
    bite_assert_near(bite_test_limit(&cut, BITE_LIMIT_CHIP_PACKING).demand, 0.75 / 0.85, 1e-12);
    ck_assert_double_lt(break_helix, bite_test_utilization(&cut, BITE_LIMIT_TOOL_BREAK));
    cut.depth = 0.1 * cut.diameter;
    bite_limit ramp = bite_test_limit(&cut, BITE_LIMIT_CHIP_PACKING);
    cut.entry = BITE_ENTRY_HELIX;
    bite_assert_near(bite_test_limit(&cut, BITE_LIMIT_CHIP_PACKING).demand, ramp.demand, 1e-12);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("entry limits");
    TCase *limits = tcase_create("entry limits");
    tcase_add_test(limits, entry_loads_the_tool_by_its_feed);
    tcase_add_test(limits, entry_feed_is_limited_by_the_machine);
    tcase_add_test(limits, plunge_beside_an_edge_is_not_a_blind_slot);
    tcase_add_test(limits, helix_cuts_one_turn_at_a_time);
    tcase_set_timeout(limits, 120);
    suite_add_tcase(suite, limits);
    return bite_test_run(suite);
}
