/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits by id: the table of their functions, their utilization and their verdicts. */
#include "core/cut/limits.h"
#include "core/cut/chatter_depth.h"
#include "core/cut/limit_fill.h"
#include "core/cut/limits_chip.h"
#include "core/cut/limits_heat.h"
#include "core/cut/limits_holding.h"
#include "core/cut/limits_machine.h"
#include "core/cut/limits_own.h"
#include "core/cut/limits_part.h"
#include "core/cut/limits_tool.h"
#include "core/cut/physics_inputs.h"
#include <math.h>
#include <string.h>

/* When a limit never makes a cut over. */
typedef enum advisory_if {
    ADVISORY_NEVER = 0,
    ADVISORY_ALWAYS,
    ADVISORY_WITHOUT_TOLERANCE, /* if none was requested */
    ADVISORY_WITHOUT_MODES /* unless modes of vibration were measured: those of frame and spindle
                              are of a class of machines */
} advisory_if;

/* Each limit's functions; the reasons why it does not apply if its demand or its capacity is NaN,
 * that of the demand first (none: it applies nevertheless); and the utilization from which it is
 * tight without draws: with draws its chance decides. Limits of exact sizes and rated speeds have
 * no uncertainty up to their capacity. Advisory: a speed that was entered can evidently be run; a
 * fast edge wears the tool but does not spoil the part. */
static const struct {
    bite_limit_fill *fill;
    bite_limit_omit *omit; /* NULL: nothing else makes it not apply */
    double tight_from;
    bite_why without_capacity;
    bite_why without_demand;
    advisory_if advisory;
    int milling_only; /* a drilled hole does not have it */
} rows[BITE_LIMIT_COUNT] = {
    [BITE_LIMIT_SPINDLE_FAST] = {bite_limit_spindle_fast, .tight_from = 1.0,
                                 .without_capacity = BITE_WHY_NOT_GIVEN},
    [BITE_LIMIT_SPINDLE_SLOW] = {bite_limit_spindle_slow, .tight_from = 1.0,
                                 .without_demand = BITE_WHY_NOT_GIVEN, .advisory = ADVISORY_ALWAYS},
    [BITE_LIMIT_FEED_FAST] = {bite_limit_feed_fast, .tight_from = BITE_UTILIZATION_TIGHT,
                              .without_capacity = BITE_WHY_NOT_GIVEN},
    [BITE_LIMIT_EDGE_SPEED] = {bite_limit_edge_speed, .tight_from = BITE_UTILIZATION_TIGHT,
                               .without_capacity = BITE_WHY_NO_DATA, .advisory = ADVISORY_ALWAYS},
    [BITE_LIMIT_POWER] = {bite_limit_power, .tight_from = BITE_UTILIZATION_TIGHT,
                          .without_capacity = BITE_WHY_NOT_GIVEN,
                          .without_demand = BITE_WHY_NO_DATA},
    [BITE_LIMIT_TORQUE] = {bite_limit_torque, .tight_from = BITE_UTILIZATION_TIGHT,
                           .without_capacity = BITE_WHY_NOT_GIVEN,
                           .without_demand = BITE_WHY_NO_DATA},
    [BITE_LIMIT_RUBBING] = {bite_limit_rubbing, .tight_from = BITE_UTILIZATION_TIGHT},
    [BITE_LIMIT_RUNOUT] = {bite_limit_runout, .tight_from = BITE_UTILIZATION_TIGHT},
    [BITE_LIMIT_TOOL_BREAK] = {bite_limit_tool_break, .tight_from = BITE_UTILIZATION_TIGHT,
                               .without_demand = BITE_WHY_NO_DATA},
    [BITE_LIMIT_DEFLECTION] = {bite_limit_deflection, .tight_from = BITE_UTILIZATION_TIGHT,
                               .without_demand = BITE_WHY_NO_DATA,
                               .advisory = ADVISORY_WITHOUT_TOLERANCE, .milling_only = 1},
    [BITE_LIMIT_SOFTENING] = {bite_limit_softening, .omit = bite_limit_softening_omit,
                              .tight_from = BITE_UTILIZATION_TIGHT,
                              .without_capacity = BITE_WHY_NO_DATA,
                              .without_demand = BITE_WHY_NO_DATA},
    [BITE_LIMIT_CHIP_WELD] = {bite_limit_chip_weld, .omit = bite_limit_chip_weld_omit,
                              .tight_from = BITE_UTILIZATION_TIGHT,
                              .without_capacity = BITE_WHY_NO_DATA,
                              .without_demand = BITE_WHY_NO_DATA},
    [BITE_LIMIT_CHIP_PACKING] = {bite_limit_chip_packing, .tight_from = BITE_UTILIZATION_TIGHT,
                                 .without_demand = BITE_WHY_NO_DATA},
    [BITE_LIMIT_CORNER] = {bite_limit_corner, .tight_from = 1.0,
                           .without_capacity = BITE_WHY_NOT_GIVEN, .milling_only = 1},
    [BITE_LIMIT_REACH] = {bite_limit_reach, .tight_from = 1.0},
    [BITE_LIMIT_FINISH] = {bite_limit_finish, .tight_from = BITE_UTILIZATION_TIGHT,
                           .without_capacity = BITE_WHY_NOT_GIVEN, .milling_only = 1},
    [BITE_LIMIT_CHATTER] = {bite_limit_chatter, .tight_from = BITE_UTILIZATION_TIGHT,
                            .without_capacity = BITE_WHY_NO_DATA,
                            .advisory = ADVISORY_WITHOUT_MODES, .milling_only = 1},
    [BITE_LIMIT_EDGE_CHIP] = {bite_limit_edge_chip, .tight_from = BITE_UTILIZATION_TIGHT,
                              .without_capacity = BITE_WHY_NO_DATA, .advisory = ADVISORY_ALWAYS},
    [BITE_LIMIT_CRAZE] = {bite_limit_craze, .omit = bite_limit_craze_omit,
                          .tight_from = BITE_UTILIZATION_TIGHT,
                          .without_capacity = BITE_WHY_NO_DATA, .without_demand = BITE_WHY_NO_DATA},
    [BITE_LIMIT_HOLD] = {bite_limit_hold, .omit = bite_limit_hold_omit,
                         .tight_from = BITE_UTILIZATION_TIGHT, .without_demand = BITE_WHY_NO_DATA},
    [BITE_LIMIT_BOND_HEAT] = {bite_limit_bond_heat, .tight_from = BITE_UTILIZATION_TIGHT,
                              .without_capacity = BITE_WHY_NOT_GIVEN,
                              .without_demand = BITE_WHY_NOT_GIVEN},
    [BITE_LIMIT_PART_BEND] = {bite_limit_part_bend, .omit = bite_limit_part_bend_omit,
                              .tight_from = BITE_UTILIZATION_TIGHT,
                              .without_demand = BITE_WHY_NO_DATA,
                              .advisory = ADVISORY_WITHOUT_TOLERANCE},
    [BITE_LIMIT_GAP] = {bite_limit_gap, .tight_from = 1.0, .without_capacity = BITE_WHY_NOT_GIVEN,
                        .milling_only = 1},
    [BITE_LIMIT_WEAR] = {bite_limit_wear, .omit = bite_limit_wear_omit,
                         .tight_from = BITE_UTILIZATION_TIGHT, .without_capacity = BITE_WHY_NO_DATA,
                         .without_demand = BITE_WHY_NOT_GIVEN},
    [BITE_LIMIT_WARP] = {bite_limit_warp, .omit = bite_limit_warp_omit,
                         .tight_from = BITE_UTILIZATION_TIGHT, .without_demand = BITE_WHY_NO_DATA},
    [BITE_LIMIT_STOCK_THICKNESS] = {bite_limit_stock_thickness, .tight_from = 1.0,
                                    .without_capacity = BITE_WHY_NOT_GIVEN,
                                    .without_demand = BITE_WHY_NOT_GIVEN},
    [BITE_LIMIT_TOOL_GROSS_BEND] = {bite_limit_tool_gross_bend, .omit = bite_limit_toleranced_omit,
                                    .tight_from = BITE_UTILIZATION_TIGHT,
                                    .without_demand = BITE_WHY_NO_DATA, .milling_only = 1},
    [BITE_LIMIT_PART_GROSS_BEND] = {bite_limit_part_gross_bend,
                                    .omit = bite_limit_part_gross_bend_omit,
                                    .tight_from = BITE_UTILIZATION_TIGHT,
                                    .without_demand = BITE_WHY_NO_DATA},
    [BITE_LIMIT_FEED_TOOTH] = {bite_limit_feed_tooth, .tight_from = BITE_UTILIZATION_TIGHT,
                               .without_demand = BITE_WHY_NO_DATA},
    [BITE_LIMIT_CHATTER_TOOL] = {bite_limit_chatter_tool, .omit = bite_limit_chatter_tool_omit,
                                 .tight_from = BITE_UTILIZATION_TIGHT,
                                 .without_capacity = BITE_WHY_NO_DATA, .milling_only = 1},
    [BITE_LIMIT_UNPROVEN] = {bite_limit_unproven, .omit = bite_limit_unproven_omit,
                             .tight_from = BITE_UTILIZATION_TIGHT,
                             .without_capacity = BITE_WHY_NO_DATA, .advisory = ADVISORY_ALWAYS,
                             .milling_only = 1},
    [BITE_LIMIT_PLUNGE_FEED] = {bite_limit_plunge_feed, .omit = bite_limit_plunge_feed_omit,
                                .tight_from = BITE_UTILIZATION_TIGHT, .advisory = ADVISORY_ALWAYS,
                                .milling_only = 1},
};

static uint8_t is_advisory(advisory_if when, const bite_block *block)
{
    switch (when) {
    case ADVISORY_ALWAYS:
        return 1;
    case ADVISORY_WITHOUT_TOLERANCE:
        return !bite_is_given(block->tolerance);
    case ADVISORY_WITHOUT_MODES:
        return !bite_cut_has_measured_modes(block->cut);
    case ADVISORY_NEVER:
    default:
        return 0;
    }
}

/* Why a limit does not apply to this block, whatever its demand and capacity are. */
static bite_why why_omitted(bite_limit_id id, const bite_block *block,
                            const bite_block_segment *segment)
{
    if (rows[id].milling_only && bite_cut_is_axial(block->cut)) {
        return BITE_WHY_DRILL;
    }
    return rows[id].omit == NULL ? BITE_WHY_APPLIES : rows[id].omit(block, segment);
}

/* Why a limit without utilization does not apply. */
static bite_why why_unknown(bite_limit_id id, double demand)
{
    return isnan(demand) && rows[id].without_demand != BITE_WHY_APPLIES ? rows[id].without_demand
                                                                        : rows[id].without_capacity;
}

/* Returns whether some lane has a utilization. NaN where a NaN demand or capacity makes a limit not
 * apply; in others it counts as the largest demand. need_demand, need_capacity: 1 if it does. */
BITE_FORMULA int use_of(const bite_block *block, double need_demand, double need_capacity,
                        const double *restrict demand, double *restrict capacity,
                        double *restrict utilization)
{
    double known = 0.0;
    BITE_EACH_LANE(k, block)
    {
        double available = bite_larger(capacity[k], 0.0);
        double use = bite_smaller(demand[k] / available, BITE_UTILIZATION_MAX);
        double unknown = demand[k] != demand[k] ? need_demand : 0.0;
        unknown = capacity[k] != capacity[k] ? unknown + need_capacity : unknown;
        use = available > 0.0 ? use : BITE_UTILIZATION_MAX;
        use = unknown > 0.0 ? (double)NAN : use;
        known = use == use ? 1.0 : known;
        utilization[k] = use;
        capacity[k] = available;
    }
    return known > 0.0;
}

BITE_IN_LANES static int utilization_of(const bite_block *block, int needs_demand,
                                        int needs_capacity, const double *restrict demand,
                                        double *restrict capacity, double *restrict utilization)
{
    return use_of(block, needs_demand ? 1.0 : 0.0, needs_capacity ? 1.0 : 0.0, demand, capacity,
                  utilization);
}

/* Fills demand, capacity and utilization of one limit; returns whether it applies to some lane. */
static int evaluate(bite_limit_id id, const bite_block *block, const bite_block_segment *segment,
                    double *restrict demand, double *restrict capacity,
                    double *restrict utilization)
{
    rows[id].fill(block, segment, demand, capacity);
    return utilization_of(block, rows[id].without_demand != BITE_WHY_APPLIES,
                          rows[id].without_capacity != BITE_WHY_APPLIES, demand, capacity,
                          utilization);
}

/* ---- all limits of the straight segment ---- */

/* The limits of a block whose demand and capacity are filled. */
typedef struct filled_limits {
    int count;
    bite_limit_id id[BITE_LIMIT_COUNT];
    double need_demand[BITE_LIMIT_COUNT]; /* 1: it does not apply without a demand */
    double need_capacity[BITE_LIMIT_COUNT];
    int known[BITE_LIMIT_COUNT]; /* 1: it applies to some lane */
} filled_limits;

/* Fills their utilizations; of the others NaN. */
BITE_IN_LANES static void fill_utilizations(const bite_block *restrict block,
                                            filled_limits *restrict limits,
                                            bite_block_limits_result *restrict out)
{
    for (int i = 0; i < limits->count; i++) {
        bite_limit_id id = limits->id[i];
        limits->known[i] = use_of(block, limits->need_demand[i], limits->need_capacity[i],
                                  out->demand[id], out->capacity[id], out->utilization[id]);
    }
}

BITE_IN_LANES static void blank(const bite_block *restrict block, double *restrict row)
{
    BITE_EACH_LANE(k, block)
    {
        row[k] = (double)NAN;
    }
}

static void omit(const bite_block *block, bite_limit_id id, bite_why why,
                 bite_block_limits_result *out)
{
    out->applies[id] = 0;
    out->why[id] = (uint8_t)why;
    blank(block, out->utilization[id]);
}

/* Those of the family's plugin. A lane without numbers has the largest utilization, so that nothing
 * takes it for one that is kept; bite_block_limit_of makes it unknown. */
static void judge_own(const bite_block *block, const bite_block_segment *segment,
                      const uint8_t *wanted, bite_block_limits_result *out)
{
    for (bite_limit_id id = BITE_LIMIT_OWN_1; id <= BITE_LIMIT_OWN_4; id++) {
        const bite_own_limit *limit = bite_own_limit_at(block->cut->own, id);
        int is_wanted = wanted == NULL || wanted[id];
        bite_why why = BITE_WHY_NO_LIMIT;
        out->advisory[id] = limit != NULL && limit->advisory;
        if (limit != NULL) {
            why = is_wanted ? bite_limit_own_fill(limit, block, segment, out->demand[id],
                                                  out->capacity[id])
                            : BITE_WHY_APPLIES;
        }
        if (!is_wanted || why != BITE_WHY_APPLIES) {
            omit(block, id, why, out);
            continue;
        }
        (void)utilization_of(block, 0, 0, out->demand[id], out->capacity[id], out->utilization[id]);
        out->applies[id] = 1;
        out->why[id] = BITE_WHY_APPLIES;
    }
}

void bite_block_limits(const bite_block *block, const bite_block_segment *segment,
                       const uint8_t *wanted, bite_block_limits_result *out)
{
    filled_limits filled;
    filled.count = 0;
    for (bite_limit_id id = 0; id < BITE_LIMIT_COUNT; id++) {
        if (bite_limit_is_own(id)) {
            continue;
        }
        int is_wanted = wanted == NULL || wanted[id];
        bite_why why = is_wanted ? why_omitted(id, block, segment) : BITE_WHY_APPLIES;
        out->advisory[id] = is_advisory(rows[id].advisory, block);
        if (!is_wanted || why != BITE_WHY_APPLIES) {
            omit(block, id, why, out);
            continue;
        }
        rows[id].fill(block, segment, out->demand[id], out->capacity[id]);
        filled.id[filled.count] = id;
        filled.need_demand[filled.count] = rows[id].without_demand != BITE_WHY_APPLIES ? 1.0 : 0.0;
        filled.need_capacity[filled.count] =
            rows[id].without_capacity != BITE_WHY_APPLIES ? 1.0 : 0.0;
        filled.count++;
    }
    fill_utilizations(block, &filled, out);
    memset(out->in_corner, 0, sizeof out->in_corner);
    for (int i = 0; i < filled.count; i++) {
        bite_limit_id id = filled.id[i];
        bite_why why = filled.known[i] ? BITE_WHY_APPLIES : why_unknown(id, out->demand[id][0]);
        out->applies[id] = why == BITE_WHY_APPLIES;
        out->why[id] = (uint8_t)why;
    }
    judge_own(block, segment, wanted, out);
}

/* ---- other segments ---- */

/* Of another segment: its demand and capacity, and its utilization where that is higher than factor
 * times the one so far. */
typedef struct other_segment {
    bite_lanes demand;
    bite_lanes capacity;
    bite_lanes utilization;
} other_segment;

BITE_IN_LANES static void take_higher(const bite_block *block, const other_segment *other,
                                      double factor, uint8_t where, bite_limit_id id,
                                      bite_block_limits_result *restrict out)
{
    double *restrict demand = out->demand[id];
    double *restrict capacity = out->capacity[id];
    double *restrict utilization = out->utilization[id];
    uint8_t *restrict in_corner = out->in_corner[id];
    BITE_EACH_LANE(k, block)
    {
        int higher = other->utilization[k] > utilization[k] * factor;
        demand[k] = higher ? other->demand[k] : demand[k];
        capacity[k] = higher ? other->capacity[k] : capacity[k];
        utilization[k] = higher ? other->utilization[k] : utilization[k];
        in_corner[k] = higher ? where : in_corner[k];
    }
}

/* How much higher than on the straight a utilization in the corner is at least: more than rounding.
 */
static const double corner_factor = 1.0 + 1e-9;

void bite_block_limits_corner(const bite_block *block, const bite_block_segment *turn,
                              bite_block_limits_result *out)
{
    other_segment other;
    for (bite_limit_id id = BITE_LIMIT_OWN_1; id <= BITE_LIMIT_OWN_4; id++) {
        if (out->applies[id] &&
            bite_limit_own_fill(bite_own_limit_at(block->cut->own, id), block, turn, other.demand,
                                other.capacity) == BITE_WHY_APPLIES) {
            (void)utilization_of(block, 0, 0, other.demand, other.capacity, other.utilization);
            take_higher(block, &other, corner_factor, 1, id, out);
        }
    }
    for (bite_limit_id id = 0; id < BITE_LIMIT_COUNT; id++) {
        if (out->applies[id] && !bite_limit_is_own(id) &&
            why_omitted(id, block, turn) == BITE_WHY_APPLIES &&
            evaluate(id, block, turn, other.demand, other.capacity, other.utilization)) {
            take_higher(block, &other, corner_factor, 1, id, out);
        }
    }
}

void bite_block_limits_entry(const bite_block *entry, const bite_block_segment *segment,
                             const double *along, bite_block_limits_result *out)
{
    static const bite_limit_id entry_limits[] = {BITE_LIMIT_TOOL_BREAK, BITE_LIMIT_FEED_TOOTH,
                                                 BITE_LIMIT_CHIP_PACKING, BITE_LIMIT_TORQUE,
                                                 BITE_LIMIT_POWER};
    other_segment other;
    for (size_t i = 0; i < sizeof entry_limits / sizeof *entry_limits; i++) {
        bite_limit_id id = entry_limits[i];
        if (out->applies[id] &&
            evaluate(id, entry, segment, other.demand, other.capacity, other.utilization)) {
            take_higher(entry, &other, 1.0, 2, id, out);
        }
    }
    if (out->applies[BITE_LIMIT_FEED_FAST]) {
        const double *fastest = BITE_ROW(entry, feed_fastest);
        for (int k = 0; k < entry->lanes; k++) {
            other.demand[k] = along[k];
            other.capacity[k] = fastest[k];
        }
        if (utilization_of(entry, 0, 1, other.demand, other.capacity, other.utilization)) {
            take_higher(entry, &other, 1.0, 2, BITE_LIMIT_FEED_FAST, out);
        }
    }
}

static bite_verdict verdict_of(double utilization, double tight_from, uint32_t advisory)
{
    if (utilization > 1.0) {
        return advisory ? BITE_TIGHT : BITE_OVER;
    }
    return utilization > tight_from ? BITE_TIGHT : BITE_CLEAR;
}

void bite_block_limit_of(const bite_block_limits_result *limits, bite_limit_id id, int lane,
                         bite_limit *limit)
{
    static const bite_limit none = {(double)NAN,
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
    double utilization = limits->utilization[id][lane];
    *limit = none;
    limit->advisory = limits->advisory[id];
    limit->why = limits->why[id];
    if (!limits->applies[id]) {
        return;
    }
    if (isnan(utilization)) {
        limit->why = why_unknown(id, limits->demand[id][lane]);
        return;
    }
    if (bite_limit_is_own(id) && isnan(limits->demand[id][lane])) {
        limit->why = BITE_WHY_BAD_NUMBER;
        return;
    }
    limit->applies = 1;
    limit->demand = limits->demand[id][lane];
    limit->capacity = limits->capacity[id][lane];
    limit->utilization = utilization;
    limit->in_corner = (uint32_t)limits->in_corner[id][lane];
    limit->verdict = verdict_of(
        utilization, bite_limit_is_own(id) ? BITE_UTILIZATION_TIGHT : rows[id].tight_from,
        limit->advisory);
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
