/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One pass at its best estimates: checks, defaults, a block of one cut, its limits. */
#include "core/cut/pass.h"
#include "core/base/caller_struct.h"
#include "core/base/error.h"
#include "core/base/memory.h"
#include "core/cut/defaults.h"
#include "core/cut/input_check.h"
#include "core/cut/limits.h"
#include "core/cut/physics_inputs.h"
#include "core/cut/required_limits.h"
#include "core/names/registry.h"
#include "core/physics/dynamics/tool_modes.h"
#include "core/physics/elastic/tool_deflection.h"
#include <math.h>
#include <string.h>

void bite_cut_init_sized(bite_cut *cut, size_t size)
{
    if (cut == NULL || !bite_struct_may_be(&bite_struct_cut, size)) {
        return;
    }
    bite_struct_start(&bite_struct_cut, cut, size);
    size_t count = bite_input_count();
    for (size_t i = 0; i < count; i++) {
        const bite_input *input = bite_input_at(i);
        if (input->words == 0 && input->offset + sizeof(double) <= size) {
            *bite_input_number(cut, input) = (double)NAN;
        }
    }
    for (size_t i = 0; i < BITE_OWN_FIGURES; i++) { /* they are not counted among the inputs */
        const bite_input *figure = bite_input_entry(count + i);
        if (figure->offset + sizeof(double) <= size) {
            *bite_input_number(cut, figure) = (double)NAN;
        }
    }
}

bite_status bite_cut_read(const bite_cut *given, bite_cut *own, bite_error *error)
{
    bite_status status = bite_struct_check(&bite_struct_cut, given, "struct_size", error);
    if (status == BITE_OK) {
        size_t size = given->struct_size < sizeof *own ? given->struct_size : sizeof *own;
        bite_cut_init(own);
        memcpy(own, given, size);
        own->struct_size = (uint32_t)sizeof *own;
    }
    return status;
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

void bite_result_clear(bite_result *result)
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

static void copy_lane(const bite_block_space *space, size_t lane, double values[BITE_VALUE_COUNT],
                      bite_limit limits[BITE_LIMIT_COUNT])
{
    for (int i = 0; i < BITE_VALUE_COUNT; i++) {
        values[i] = space->straight.value[i][lane];
    }
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        bite_block_limit_of(&space->limits, (bite_limit_id)i, (int)lane, &limits[i]);
    }
}

bite_status bite_block_result_of(const bite_block_space *space, size_t lane, const bite_cut *full,
                                 bite_result *result, bite_error *error)
{
    double values[BITE_VALUE_COUNT];
    bite_limit limits[BITE_LIMIT_COUNT];
    uint32_t worst = 0;
    copy_lane(space, lane, values, limits);
    bite_verdict verdict = bite_limits_verdict(limits, BITE_LIMIT_COUNT, &worst);
    /* a cut that is over stays over, whatever the missing numbers would be */
    bite_status status =
        verdict == BITE_OVER ? BITE_OK : bite_check_values(values, 1, space->pressure, error);
    if (status != BITE_OK) {
        return status;
    }
    bite_result_clear(result);
    memcpy(result->limits, limits, sizeof limits);
    for (int i = 0; i < BITE_VALUE_COUNT; i++) {
        result->values[i].value = values[i];
    }
    for (int i = 0; i < 4; i++) {
        result->heat_share[i] = space->straight.heat_share[i][lane];
    }
    result->verdict = verdict;
    result->worst = worst;
    bite_result_count(full, result);
    return BITE_OK;
}

bite_status bite_checked_cut_pass(const bite_checked_cut *checked, bite_block_space *space,
                                  bite_result *result, bite_error *error)
{
    bite_block_start_one(space, checked);
    bite_block_evaluate(space, 1, NULL);
    return bite_block_result_of(space, 0, &checked->full, result, error);
}

static bite_status pass_in(const bite_cut *cut, bite_block_space *space, bite_result *result,
                           bite_error *error)
{
    bite_checked_cut checked;
    bite_error_clear(error);
    bite_status status = bite_check_result(result, error);
    status = status != BITE_OK ? status : bite_checked_cut_init(cut, &checked, error);
    return status != BITE_OK ? status : bite_checked_cut_pass(&checked, space, result, error);
}

bite_status bite_cut_pass_with(const bite_allocator *allocator, const bite_cut *cut,
                               bite_result *result, bite_error *error)
{
    bite_block_space *space = bite_block_spaces_new(allocator, 1);
    if (space == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a pass");
    }
    bite_status status = pass_in(cut, space, result, error);
    bite_block_spaces_free(allocator, space);
    return status;
}

/* This pass allocates nothing, as its interface promises, so its working memory of some 220 KB is
 * in this one frame. The library itself uses it only where little else is on the stack. */
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wframe-larger-than="
bite_status bite_cut_pass(const bite_cut *cut, bite_result *result, bite_error *error)
{
    bite_block_space space;
    bite_cut own;
    bite_result made;
    bite_error_clear(error);
    bite_status status = bite_struct_check(&bite_struct_result, result, "struct_size", error);
    status = status != BITE_OK ? status : bite_cut_read(cut, &own, error);
    if (status != BITE_OK) {
        return status;
    }
    bite_block_space_init(&space);
    bite_result_init(&made);
    status = pass_in(&own, &space, &made, error);
    if (status == BITE_OK) {
        bite_struct_write(&bite_struct_result, &made, result);
    }
    return status;
}
#pragma GCC diagnostic pop
