/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One pass at its best estimates: checks, defaults, the straight, the corner, the entry move, the
 * limits. */
#include "core/cut/pass.h"
#include "core/base/error.h"
#include "core/base/memory.h"
#include "core/cut/defaults.h"
#include "core/cut/entry_move.h"
#include "core/cut/input_check.h"
#include "core/cut/limits.h"
#include "core/cut/physics_inputs.h"
#include "core/cut/required_limits.h"
#include "core/names/registry.h"
#include "core/physics/dynamics/tool_modes.h"
#include "core/physics/elastic/tool_deflection.h"
#include <math.h>
#include <string.h>

void bite_cut_init(bite_cut *cut)
{
    if (cut == NULL) {
        return;
    }
    memset(cut, 0, sizeof *cut);
    cut->struct_size = (uint32_t)sizeof *cut;
    size_t count = bite_input_count();
    for (size_t i = 0; i < count; i++) {
        const bite_input *input = bite_input_at(i);
        if (input->words == 0) {
            *bite_input_number(cut, input) = (double)NAN;
        }
    }
}

bite_status bite_checked_cut_init(const bite_cut *cut, bite_checked_cut *checked, bite_error *error)
{
    bite_status status = bite_check_cut(cut, error);
    if (status != BITE_OK) {
        return status;
    }
    checked->requested = *cut;
    checked->full = *cut;
    bite_defaults_fill(&checked->full);
    return bite_check_together(&checked->full, error);
}

/* A limit is that of the corner if its utilization there is higher than on the straight by more
 * than rounding: a wall that both finish at the same instant belongs to the straight. */
static void judge_corner(const bite_checked_cut *checked, const bite_segment *turn,
                         bite_limit limits[BITE_LIMIT_COUNT])
{
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        if (limits[i].applies) {
            bite_limit corner;
            bite_limit_evaluate((bite_limit_id)i, &checked->requested, &checked->full, turn,
                                &corner);
            if (corner.utilization > limits[i].utilization * (1.0 + 1e-9)) {
                corner.in_corner = 1;
                limits[i] = corner;
            }
        }
    }
}

/* Limits that the entry move may load more than the cut does. */
static void judge_entry(const bite_checked_cut *checked, bite_segment_cache *cache,
                        bite_limit limits[BITE_LIMIT_COUNT])
{
    static const bite_limit_id entry_limits[] = {BITE_LIMIT_TOOL_BREAK,   BITE_LIMIT_FEED_TOOTH,
                                                 BITE_LIMIT_CHIP_PACKING, BITE_LIMIT_TORQUE,
                                                 BITE_LIMIT_POWER,        BITE_LIMIT_FEED_FAST};
    bite_cut entry_cut;
    bite_cut along = checked->full; /* the axes run at the feed along the path, sloped or not */
    bite_segment segment;
    bite_entry_cut(&checked->full, &entry_cut, cache, &segment);
    along.feed_rate = bite_entry_feed(&checked->full);
    for (size_t i = 0; i < sizeof entry_limits / sizeof *entry_limits; i++) {
        bite_limit *limit = &limits[entry_limits[i]];
        bite_limit entry;
        if (limit->applies) {
            bite_limit_evaluate(entry_limits[i], &checked->requested,
                                entry_limits[i] == BITE_LIMIT_FEED_FAST ? &along : &entry_cut,
                                &segment, &entry);
            if (entry.applies && entry.utilization > limit->utilization) {
                entry.in_corner = 2;
                *limit = entry;
            }
        }
    }
}

/* Width of the cut; of a chamfer that at its upper end. */
static double width_of(const bite_cut *full)
{
    if (full->operation == BITE_CHAMFER) {
        return full->depth * tan(full->taper);
    }
    if (bite_cut_is_groove(full)) {
        return bite_cutting_diameter(full);
    }
    return isnan(full->width) || full->operation == BITE_DRILL_HOLE
               ? full->diameter
               : fmin(full->width, full->diameter);
}

/* Radius of the finished corner where most is cut: of a chamfer at its upper end. */
static double corner_of(const bite_cut *full, double width)
{
    return full->inside_radius + (full->operation == BITE_CHAMFER ? width : 0.0);
}

void bite_checked_cut_evaluate(const bite_checked_cut *checked,
                               const bite_evaluation_options *options, bite_segment *straight,
                               bite_limit limits[BITE_LIMIT_COUNT])
{
    const bite_cut *full = &checked->full;
    bite_side side = (bite_side)full->side;
    int mills = full->operation == BITE_MILL;
    double diameter = bite_cutting_diameter(full);
    double width = width_of(full);
    bite_segment_compute_cached(full, bite_engagement_straight(diameter, width, side),
                                options->straight, straight);
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        limits[i].applies = 0;
        if (options->wanted == NULL || options->wanted[i]) {
            bite_limit_evaluate((bite_limit_id)i, &checked->requested, full, straight, &limits[i]);
        }
    }
    if (!isnan(full->inside_radius) && width < diameter && full->operation != BITE_DRILL_HOLE) {
        bite_segment turn;
        bite_segment_compute_cached(
            full, bite_engagement_corner(diameter, width, side, corner_of(full, width)),
            options->corner, &turn);
        judge_corner(checked, &turn, limits);
    }
    if (full->entry != BITE_ENTRY_OUTSIDE && mills) {
        judge_entry(checked, options->entry, limits);
    }
}

bite_evaluation_options bite_evaluation_options_in(bite_workspace *space)
{
    bite_evaluation_options options = {&space->cache, &space->cache, &space->cache, NULL};
    return options;
}

void bite_result_init(bite_result *result)
{
    static const bite_value none = {(double)NAN, (double)NAN, (double)NAN};
    static const bite_limit no_limit = {
        (double)NAN, (double)NAN, (double)NAN, (double)NAN, (double)NAN, 0, 0, 0, 0, 0, 0};
    result->value_count = BITE_VALUE_COUNT;
    result->limit_count = BITE_LIMIT_COUNT;
    result->draws = 0;
    result->chance = (double)NAN;
    result->judged = result->not_applicable = result->not_judged = result->reserved = 0;
    result->widest[0] = result->widest[1] = BITE_NO_INPUT;
    for (int i = 0; i < BITE_VALUE_SLOTS; i++) {
        result->values[i] = none;
    }
    for (int i = 0; i < BITE_LIMIT_SLOTS; i++) {
        result->limits[i] = no_limit;
    }
}

double bite_tool_first_frequency(const bite_cut *full)
{
    bite_shaft shaft;
    bite_tool_body tool = bite_cut_tool_body(full);
    bite_tool_shaft_init(&tool, full->stiff_share, &shaft);
    return bite_tool_mode_frequency(&shaft, full->tool_modulus, full->tool_density, 1);
}

bite_status bite_checked_cut_pass(const bite_cut *cut, const bite_evaluation_options *options,
                                  bite_result *result, bite_error *error)
{
    bite_checked_cut checked;
    bite_segment straight;
    bite_limit limits[BITE_LIMIT_COUNT];
    uint32_t worst = 0;
    bite_error_clear(error);
    bite_status status = bite_check_result(result, error);
    status = status != BITE_OK ? status : bite_checked_cut_init(cut, &checked, error);
    if (status != BITE_OK) {
        return status;
    }
    bite_checked_cut_evaluate(&checked, options, &straight, limits);
    bite_verdict verdict = bite_limits_verdict(limits, BITE_LIMIT_COUNT, &worst);
    /* a cut that is over stays over, whatever the missing numbers would be */
    status =
        verdict == BITE_OVER ? BITE_OK : bite_check_values(&checked.full, straight.value, error);
    if (status != BITE_OK) {
        return status;
    }
    bite_result_init(result);
    memcpy(result->limits, limits, sizeof limits);
    for (int i = 0; i < BITE_VALUE_COUNT; i++) {
        result->values[i].value = straight.value[i];
    }
    memcpy(result->heat_share, straight.heat_share, sizeof result->heat_share);
    result->verdict = verdict;
    result->worst = worst;
    bite_result_count(&checked.full, result);
    return BITE_OK;
}

bite_status bite_cut_pass_with(const bite_allocator *allocator, const bite_cut *cut,
                               bite_result *result, bite_error *error)
{
    bite_workspace *space = bite_memory_grow(allocator, NULL, 1, sizeof *space);
    if (space == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a pass");
    }
    bite_evaluation_options options = bite_evaluation_options_in(space);
    bite_workspace_init(space);
    bite_status status = bite_checked_cut_pass(cut, &options, result, error);
    bite_memory_free(allocator, space);
    return status;
}

/* This pass allocates nothing, as its interface promises, so its workspace of some 100 KB is in
 * this one frame. The library itself uses it only where little else is on the stack. */
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wframe-larger-than="
bite_status bite_cut_pass(const bite_cut *cut, bite_result *result, bite_error *error)
{
    bite_workspace space;
    bite_evaluation_options options = bite_evaluation_options_in(&space);
    bite_workspace_init(&space);
    return bite_checked_cut_pass(cut, &options, result, error);
}
#pragma GCC diagnostic pop
