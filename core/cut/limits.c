/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits by id: the table of their functions, their utilization and their verdicts. */
#include "core/cut/limits.h"
#include "core/cut/limit_case.h"
#include "core/cut/limits_chip.h"
#include "core/cut/limits_heat.h"
#include "core/cut/limits_holding.h"
#include "core/cut/limits_machine.h"
#include "core/cut/limits_part.h"
#include "core/cut/limits_tool.h"
#include <math.h>

/* Each limit's function, and the utilization from which it is tight without draws: with draws its
 * chance decides. Limits of exact sizes and rated speeds have no uncertainty up to their capacity.
 */
static const struct {
    void (*evaluate)(bite_limit_case *limit);
    double tight_from;
} rows[BITE_LIMIT_COUNT] = {
    [BITE_LIMIT_SPINDLE_FAST] = {bite_limit_spindle_fast, 1.0},
    [BITE_LIMIT_SPINDLE_SLOW] = {bite_limit_spindle_slow, 1.0},
    [BITE_LIMIT_FEED_FAST] = {bite_limit_feed_fast, BITE_UTILIZATION_TIGHT},
    [BITE_LIMIT_EDGE_SPEED] = {bite_limit_edge_speed, BITE_UTILIZATION_TIGHT},
    [BITE_LIMIT_POWER] = {bite_limit_power, BITE_UTILIZATION_TIGHT},
    [BITE_LIMIT_TORQUE] = {bite_limit_torque, BITE_UTILIZATION_TIGHT},
    [BITE_LIMIT_RUBBING] = {bite_limit_rubbing, BITE_UTILIZATION_TIGHT},
    [BITE_LIMIT_RUNOUT] = {bite_limit_runout, BITE_UTILIZATION_TIGHT},
    [BITE_LIMIT_TOOL_BREAK] = {bite_limit_tool_break, BITE_UTILIZATION_TIGHT},
    [BITE_LIMIT_DEFLECTION] = {bite_limit_deflection, BITE_UTILIZATION_TIGHT},
    [BITE_LIMIT_SOFTENING] = {bite_limit_softening, BITE_UTILIZATION_TIGHT},
    [BITE_LIMIT_CHIP_WELD] = {bite_limit_chip_weld, BITE_UTILIZATION_TIGHT},
    [BITE_LIMIT_CHIP_PACKING] = {bite_limit_chip_packing, BITE_UTILIZATION_TIGHT},
    [BITE_LIMIT_CORNER] = {bite_limit_corner, 1.0},
    [BITE_LIMIT_REACH] = {bite_limit_reach, 1.0},
    [BITE_LIMIT_FINISH] = {bite_limit_finish, BITE_UTILIZATION_TIGHT},
    [BITE_LIMIT_CHATTER] = {bite_limit_chatter, BITE_UTILIZATION_TIGHT},
    [BITE_LIMIT_EDGE_CHIP] = {bite_limit_edge_chip, BITE_UTILIZATION_TIGHT},
    [BITE_LIMIT_CRAZE] = {bite_limit_craze, BITE_UTILIZATION_TIGHT},
    [BITE_LIMIT_HOLD] = {bite_limit_hold, BITE_UTILIZATION_TIGHT},
    [BITE_LIMIT_BOND_HEAT] = {bite_limit_bond_heat, BITE_UTILIZATION_TIGHT},
    [BITE_LIMIT_PART_BEND] = {bite_limit_part_bend, BITE_UTILIZATION_TIGHT},
    [BITE_LIMIT_GAP] = {bite_limit_gap, 1.0},
    [BITE_LIMIT_WEAR] = {bite_limit_wear, BITE_UTILIZATION_TIGHT},
    [BITE_LIMIT_WARP] = {bite_limit_warp, BITE_UTILIZATION_TIGHT},
    [BITE_LIMIT_STOCK_THICKNESS] = {bite_limit_stock_thickness, 1.0},
    [BITE_LIMIT_TOOL_GROSS_BEND] = {bite_limit_tool_gross_bend, BITE_UTILIZATION_TIGHT},
    [BITE_LIMIT_PART_GROSS_BEND] = {bite_limit_part_gross_bend, BITE_UTILIZATION_TIGHT},
    [BITE_LIMIT_FEED_TOOTH] = {bite_limit_feed_tooth, BITE_UTILIZATION_TIGHT},
    [BITE_LIMIT_CHATTER_TOOL] = {bite_limit_chatter_tool, BITE_UTILIZATION_TIGHT},
    [BITE_LIMIT_UNPROVEN] = {bite_limit_unproven, BITE_UTILIZATION_TIGHT},
    [BITE_LIMIT_PLUNGE_FEED] = {bite_limit_plunge_feed, BITE_UTILIZATION_TIGHT},
};

/* Limits that a drilled hole does not have. */
static int is_for_milling_only(bite_limit_id id)
{
    return id == BITE_LIMIT_DEFLECTION || id == BITE_LIMIT_CORNER || id == BITE_LIMIT_CHATTER ||
           id == BITE_LIMIT_CHATTER_TOOL || id == BITE_LIMIT_UNPROVEN ||
           id == BITE_LIMIT_PLUNGE_FEED || id == BITE_LIMIT_GAP || id == BITE_LIMIT_FINISH ||
           id == BITE_LIMIT_TOOL_GROSS_BEND;
}

static bite_verdict verdict_of(double utilization, double tight_from, uint32_t advisory)
{
    if (utilization > 1.0) {
        return advisory ? BITE_TIGHT : BITE_OVER;
    }
    return utilization > tight_from ? BITE_TIGHT : BITE_CLEAR;
}

void bite_limit_evaluate(bite_limit_id id, const bite_cut *requested, const bite_cut *cut,
                         const bite_segment *segment, bite_limit *limit)
{
    bite_limit_case one = {requested, cut, segment, (double)NAN, (double)NAN, BITE_WHY_APPLIES, 0};
    bite_limit none = {(double)NAN,
                       (double)NAN,
                       (double)NAN,
                       (double)NAN,
                       (double)NAN,
                       BITE_NOT_JUDGED,
                       0,
                       0,
                       0,
                       0,
                       0};
    *limit = none;
    rows[id].evaluate(&one);
    if (cut->operation == BITE_DRILL_HOLE && is_for_milling_only(id)) {
        one.why = BITE_WHY_DRILL;
    }
    limit->advisory = one.advisory;
    limit->why = one.why;
    if (one.why != BITE_WHY_APPLIES) {
        return;
    }
    limit->applies = 1;
    limit->demand = one.demand;
    limit->capacity = fmax(0.0, one.capacity);
    limit->utilization = one.capacity > 0.0 ? fmin(BITE_UTILIZATION_MAX, one.demand / one.capacity)
                                            : BITE_UTILIZATION_MAX;
    limit->verdict = verdict_of(limit->utilization, rows[id].tight_from, one.advisory);
}

uint32_t bite_verdict_worse(uint32_t one, uint32_t other)
{
    static const int ranks[] = {[BITE_NOT_JUDGED] = 0,
                                [BITE_CLEAR] = 1,
                                [BITE_TIGHT] = 2,
                                [BITE_UNKNOWN] = 3,
                                [BITE_OVER] = 4};
    return ranks[other] > ranks[one] ? other : one;
}

bite_verdict bite_limits_verdict(const bite_limit *limits, uint32_t count, uint32_t *worst)
{
    uint32_t verdict = BITE_CLEAR;
    double utilization = -1.0;
    *worst = 0;
    for (uint32_t i = 0; i < count; i++) {
        if (limits[i].applies && !limits[i].advisory) {
            verdict = limits[i].verdict > verdict ? limits[i].verdict : verdict;
            if (limits[i].utilization > utilization) {
                utilization = limits[i].utilization;
                *worst = i;
            }
        }
    }
    return (bite_verdict)verdict;
}
