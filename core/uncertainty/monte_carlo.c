/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The band of a cut: the same pass at many draws of its uncertain inputs. */
#include "core/uncertainty/monte_carlo.h"
#include "core/base/caller_struct.h"
#include "core/base/error.h"
#include "core/base/memory.h"
#include "core/base/thread_pool.h"
#include "core/cut/input_check.h"
#include "core/cut/pass.h"
#include "core/cut/required_limits.h"
#include "core/names/registry.h"
#include "core/uncertainty/bands.h"
#include "core/uncertainty/chances.h"
#include "core/uncertainty/draw_samples.h"
#include "core/uncertainty/sampling_plan.h"
#include "core/uncertainty/sobol.h"
#include "core/uncertainty/widest_inputs.h"
#include <math.h>
#include <stdatomic.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

/* Draws of a chunk of work: threads take the next chunk until none is left. */
#define CHUNK (8 * BITE_LANES)

typedef struct draw_job {
    const bite_sampling_plan *plan;
    const bite_checked_cut *checked;
    const bite_sobol *sobol; /* at its first point */
    const bite_draw_samples *out;
    bite_block_space *spaces; /* one for each worker */
    size_t enough;            /* the rest is left out once this many draws exceed a limit */
    atomic_size_t exceeded;
    bite_draw_counts counts[BITE_THREADS_MAX]; /* of each worker */
} draw_job;

/* Draws the inputs of a block. Not inlined, for small frames. */
__attribute__((noinline)) static void draw_block(const draw_job *all, bite_sobol *sobol,
                                                 size_t count, bite_block *block)
{
    double values[BITE_SPREAD_MAX][BITE_LANES];
    bite_sampling_plan_draw(all->plan, sobol, count, BITE_LANES, &values[0][0]);
    for (size_t i = 0; i < all->plan->count; i++) {
        memcpy(bite_block_row(block, all->plan->offset[i]), values[i], count * sizeof **values);
    }
}

static void draw_chunk(void *work, size_t chunk, size_t worker)
{
    draw_job *all = work;
    bite_block_space *space = &all->spaces[worker];
    bite_draw_counts *counts = &all->counts[worker];
    bite_sobol sobol = *all->sobol;
    size_t at = chunk * CHUNK;
    size_t end = at + CHUNK < all->out->draws ? at + CHUNK : all->out->draws;
    if (atomic_load(&all->exceeded) >= all->enough) {
        return;
    }
    size_t before = counts->any;
    bite_block_start(space, all->checked, all->plan->offset, all->plan->count);
    bite_sobol_skip(&sobol, (uint32_t)at);
    for (; at < end; at += BITE_LANES) {
        size_t count = end - at < BITE_LANES ? end - at : BITE_LANES;
        draw_block(all, &sobol, count, &space->block);
        bite_block_evaluate(space, count, all->out->applies);
        bite_draw_samples_store(all->out, at, count, space, counts);
    }
    atomic_fetch_add(&all->exceeded, counts->any - before);
}

static size_t workers_of(const bite_sampling *sampling, size_t draws)
{
    size_t chunks = (draws + CHUNK - 1) / CHUNK;
    size_t workers = sampling->threads < chunks ? sampling->threads : chunks;
    return workers > BITE_THREADS_MAX ? BITE_THREADS_MAX : workers < 1 ? 1 : workers;
}

/* 0: enough of them exceed a limit. Not inlined, for small frames. */
__attribute__((noinline)) static int
draw_all(const bite_sampling_plan *plan, const bite_checked_cut *checked,
         const bite_sampling *sampling, bite_block_space *spaces, size_t workers,
         const bite_draw_samples *out, bite_draw_counts *counts)
{
    bite_sobol sobol;
    (void)bite_sobol_init(&sobol, plan->dimensions, sampling->seed);
    draw_job all = {.plan = plan,
                    .checked = checked,
                    .sobol = &sobol,
                    .out = out,
                    .spaces = spaces,
                    .enough = sampling->over_enough > 0 ? sampling->over_enough : SIZE_MAX};
    bite_thread_pool_run((out->draws + CHUNK - 1) / CHUNK, workers, draw_chunk, &all);
    for (size_t worker = 0; worker < workers; worker++) {
        for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
            counts->over[i] += all.counts[worker].over[i];
        }
        counts->any += all.counts[worker].any;
        counts->wanted += all.counts[worker].wanted;
    }
    return counts->any < all.enough;
}

/* Whether the tool's frequency depends on an input. */
static int changes_frequency(const bite_input *input)
{
    static const size_t members[] = {
        offsetof(bite_cut, diameter),       offsetof(bite_cut, flute_length),
        offsetof(bite_cut, neck_diameter),  offsetof(bite_cut, neck_length),
        offsetof(bite_cut, shank_diameter), offsetof(bite_cut, stickout),
        offsetof(bite_cut, stiff_share),    offsetof(bite_cut, tool_modulus),
        offsetof(bite_cut, tool_density)};
    for (size_t i = 0; i < sizeof members / sizeof *members; i++) {
        if (input->offset == members[i]) {
            return 1;
        }
    }
    return 0;
}

/* To first order: each input is moved to its low and its high end alone, and the logarithms of the
 * changes are added as squares. */
static void fill_tip_frequency(const bite_sampling_plan *plan, const bite_cut *full,
                               bite_value *value)
{
    double down = 0.0;
    double up = 0.0;
    value->value = bite_tool_first_frequency(full);
    for (size_t i = 0; i < plan->count; i++) {
        if (!changes_frequency(plan->inputs[i])) {
            continue;
        }
        for (int end = 0; end < 2; end++) {
            bite_cut moved = *full;
            *bite_input_number(&moved, plan->inputs[i]) =
                end ? plan->spreads[i]->high : plan->spreads[i]->low;
            double away = log(bite_tool_first_frequency(&moved) / value->value);
            down += away < 0.0 ? away * away : 0.0;
            up += away > 0.0 ? away * away : 0.0;
        }
    }
    value->low = value->value * exp(-sqrt(down));
    value->high = value->value * exp(sqrt(up));
}

static void fill_result(const bite_sampling_plan *plan, const bite_checked_cut *checked,
                        const bite_sampling *sampling, size_t workers,
                        const bite_draw_counts *counts, bite_draw_samples *samples,
                        bite_result *result)
{
    result->draws = (uint32_t)sampling->draws;
    bite_chances_fill(counts, samples, sampling->confidence, result);
    bite_result_count(&checked->full, result);
    if (plan->count > 0) {
        result->worst = bite_chances_governing(samples, result);
    }
    if (plan->count > 0 && !sampling->limits_only) {
        bite_widest_inputs_find(plan, samples, sampling->seed, result->worst, result);
    }
    bite_bands_fill(samples, sampling->limits_only ? 1 : workers, result);
    if (!sampling->limits_only) {
        fill_tip_frequency(plan, &checked->full, &result->values[BITE_TIP_FREQUENCY]);
    }
}

/* The pass at its best estimates, and the draws around it. spaces: one for each worker. */
static bite_status draw_band(const bite_checked_cut *checked, const bite_sampling *sampling,
                             bite_block_space *spaces, size_t workers,
                             const bite_sampling_plan *plan, bite_draw_samples *samples,
                             bite_result *result, bite_error *error)
{
    bite_draw_counts counts = {{0}, 0, 0};
    bite_status status = bite_checked_cut_pass(checked, spaces, result, error);
    if (status != BITE_OK) {
        return status;
    }
    bite_draw_samples_select(samples, result, sampling);
    if (!draw_all(plan, checked, sampling, spaces, workers, samples, &counts)) {
        return bite_error_set(error, BITE_NO_ANSWER, "enough draws exceeded a limit");
    }
    fill_result(plan, checked, sampling, workers, &counts, samples, result);
    if (sampling->wanted_over != NULL) {
        *sampling->wanted_over = counts.wanted * sampling->draws / samples->draws;
    }
    return BITE_OK;
}

/* What a run keeps on the heap: the draws need the stack. */
typedef struct run_space {
    bite_checked_cut checked;
    bite_sampling_plan plan;
} run_space;

static bite_status run(run_space *space, const bite_cut *cut, const bite_spread *spreads,
                       size_t count, const bite_sampling *sampling, bite_result *result,
                       bite_error *error)
{
    bite_checked_cut *checked = &space->checked;
    bite_sampling_plan *plan = &space->plan;
    bite_status status = bite_check_result(result, error);
    status = status != BITE_OK ? status : bite_checked_cut_init(cut, checked, error);
    status =
        status != BITE_OK ? status : bite_check_draws(sampling->draws, sampling->confidence, error);
    status = status != BITE_OK
                 ? status
                 : bite_sampling_plan_init(spreads, count, &checked->full, plan, error);
    if (status != BITE_OK) {
        return status;
    }
    if (count == 0) { /* no input is uncertain: one draw is enough */
        plan->dimensions = 1;
    }
    bite_draw_samples samples = {0};
    samples.draws = count == 0 ? 1 : sampling->draws;
    size_t workers = workers_of(sampling, samples.draws);
    bite_block_space *spaces = bite_block_spaces_new(bite_memory_default(), workers);
    if (spaces == NULL || !bite_draw_samples_allocate(&samples, sampling, workers, plan)) {
        status = bite_error_set(error, BITE_NO_MEMORY, "no memory for the draws");
    } else {
        status = draw_band(checked, sampling, spaces, workers, plan, &samples, result, error);
    }
    bite_memory_free(bite_memory_default(), samples.values);
    bite_block_spaces_free(bite_memory_default(), spaces);
    return status;
}

bite_status bite_monte_carlo_run(const bite_cut *cut, const bite_spread *spreads, size_t count,
                                 const bite_sampling *sampling, bite_result *result,
                                 bite_error *error)
{
    bite_error_clear(error);
    run_space *space = bite_memory_new(bite_memory_default(), 1, sizeof *space);
    if (space == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for the draws");
    }
    bite_status status = run(space, cut, spreads, count, sampling, result, error);
    bite_memory_free(bite_memory_default(), space);
    return status;
}

bite_status bite_cut_band(const bite_cut *cut, const bite_spread *spreads, size_t count,
                          size_t draws, uint64_t seed, double confidence, bite_result *result,
                          bite_error *error)
{
    bite_sampling alone = {
        .draws = draws, .seed = seed, .confidence = bite_confidence_or_usual(confidence)};
    bite_cut own;
    bite_result made;
    bite_error_clear(error);
    bite_status status = bite_struct_check(&bite_struct_result, result, "struct_size", error);
    status = status != BITE_OK ? status : bite_cut_read(cut, &own, error);
    if (status != BITE_OK) {
        return status;
    }
    bite_result_init(&made);
    status = bite_monte_carlo_run(&own, spreads, count, &alone, &made, error);
    if (status == BITE_OK) {
        bite_struct_write(&bite_struct_result, &made, result);
    }
    return status;
}
