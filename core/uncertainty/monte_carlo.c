/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The band of a cut: the same pass at many draws of its uncertain inputs. */
#include "core/uncertainty/monte_carlo.h"
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
#include <stddef.h>

/* Fewer draws than this are not worth a thread. */
#define DRAWS_A_THREAD 128

/* Caches of one run of draws: of the straight, the corner and the entry move, and of each the edge
 * integrals with all teeth forming a chip, with some, and with none. */
#define SEGMENTS 3
#define EDGES_A_SEGMENT 3
typedef struct run_cache {
    bite_fin_cache fin;
    bite_segment_cache cache[SEGMENTS];
    bite_edge_cache edges[SEGMENTS][EDGES_A_SEGMENT];
    bite_scratch scratch;
} run_cache;

/* The draws are split into as many runs as there are threads; each run has its own counts. */
typedef struct draw_job {
    const bite_sampling_plan *plan;
    const bite_checked_cut *checked;
    uint64_t seed;
    const bite_draw_samples *out;
    run_cache *run_caches; /* one for each run */
    size_t runs;
    size_t enough; /* a run ends once this many of its draws exceed a limit */
    bite_draw_counts counts[BITE_THREADS_MAX];
} draw_job;

static void init_run_cache(run_cache *run)
{
    for (int i = 0; i < SEGMENTS; i++) {
        bite_segment_cache_init(&run->cache[i], &run->fin, run->edges[i], EDGES_A_SEGMENT,
                                &run->scratch);
    }
}

static void draw_run(void *work, size_t run, size_t worker)
{
    (void)worker; /* each run has its own cache */
    draw_job *all = work;
    size_t from = all->out->draws * run / all->runs;
    size_t to = all->out->draws * (run + 1) / all->runs;
    bite_sobol sobol;
    bite_checked_cut checked = *all->checked;
    double z[BITE_SPREAD_MAX];
    run_cache *own = &all->run_caches[run];
    bite_evaluation_options options = {&own->cache[0], &own->cache[1], &own->cache[2],
                                       all->out->applies};
    init_run_cache(own);
    (void)bite_sobol_init(&sobol, all->plan->dimensions, all->seed);
    bite_sobol_skip(&sobol, (uint32_t)from);
    for (size_t at = from; at < to && all->counts[run].any < all->enough; at++) {
        bite_segment straight;
        bite_limit limits[BITE_LIMIT_COUNT];
        bite_sampling_plan_deviates(all->plan, &sobol, z);
        bite_sampling_plan_apply(all->plan, z, &checked.full); /* every draw sets the same inputs */
        bite_checked_cut_evaluate(&checked, &options, &straight, limits);
        bite_draw_samples_store(all->out, at, &straight, limits, &all->counts[run]);
    }
}

static size_t runs_of(const bite_sampling *sampling, size_t draws)
{
    size_t worth = draws / DRAWS_A_THREAD;
    size_t runs = sampling->threads < worth ? sampling->threads : worth;
    return runs > BITE_THREADS_MAX ? BITE_THREADS_MAX : runs < 1 ? 1 : runs;
}

/* 0: enough of them exceed a limit. */
static int draw_all(const bite_sampling_plan *plan, const bite_checked_cut *checked,
                    const bite_sampling *sampling, run_cache *run_caches, size_t runs,
                    const bite_draw_samples *out, bite_draw_counts *counts)
{
    draw_job all = {plan,
                    checked,
                    sampling->seed,
                    out,
                    run_caches,
                    runs,
                    sampling->over_enough > 0 ? sampling->over_enough : SIZE_MAX,
                    {{{0}, 0}}};
    bite_thread_pool_run(all.runs, all.runs, draw_run, &all);
    for (size_t run = 0; run < all.runs; run++) {
        for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
            counts->over[i] += all.counts[run].over[i];
        }
        counts->any += all.counts[run].any;
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
                        const bite_sampling *sampling, size_t runs, const bite_draw_counts *counts,
                        bite_draw_samples *samples, bite_result *result)
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
    bite_bands_fill(samples, sampling->limits_only ? 1 : runs, result);
    if (!sampling->limits_only) {
        fill_tip_frequency(plan, &checked->full, &result->values[BITE_TIP_FREQUENCY]);
    }
}

/* The pass at its best estimates, and the draws around it. run_caches: one for each run; they need
 * not be set. */
static bite_status draw_band(const bite_cut *cut, const bite_checked_cut *checked,
                             const bite_sampling *sampling, run_cache *run_caches, size_t runs,
                             const bite_sampling_plan *plan, bite_draw_samples *samples,
                             bite_result *result, bite_error *error)
{
    bite_draw_counts counts = {{0}, 0};
    bite_evaluation_options plain = {&run_caches->cache[0], &run_caches->cache[1],
                                     &run_caches->cache[2], NULL};
    init_run_cache(run_caches);
    bite_status status = bite_checked_cut_pass(cut, &plain, result, error);
    if (status != BITE_OK) {
        return status;
    }
    bite_draw_samples_select(samples, result, sampling);
    if (!draw_all(plan, checked, sampling, run_caches, runs, samples, &counts)) {
        return bite_error_set(error, BITE_NO_ANSWER, "enough draws exceeded a limit");
    }
    fill_result(plan, checked, sampling, runs, &counts, samples, result);
    return BITE_OK;
}

bite_status bite_monte_carlo_run(const bite_cut *cut, const bite_spread *spreads, size_t count,
                                 const bite_sampling *sampling, bite_result *result,
                                 bite_error *error)
{
    bite_checked_cut checked;
    bite_sampling_plan plan;
    bite_error_clear(error);
    bite_status status = bite_check_result(result, error);
    status = status != BITE_OK ? status : bite_checked_cut_init(cut, &checked, error);
    status =
        status != BITE_OK ? status : bite_check_draws(sampling->draws, sampling->confidence, error);
    status = status != BITE_OK
                 ? status
                 : bite_sampling_plan_init(spreads, count, &checked.full, &plan, error);
    if (status != BITE_OK) {
        return status;
    }
    if (count == 0) { /* no input is uncertain: one draw is enough */
        plan.dimensions = 1;
    }
    bite_draw_samples samples = {0};
    samples.draws = count == 0 ? 1 : sampling->draws;
    size_t runs = runs_of(sampling, samples.draws);
    run_cache *run_caches = bite_memory_grow(bite_memory_default(), NULL, runs, sizeof *run_caches);
    if (run_caches == NULL || !bite_draw_samples_allocate(&samples, sampling, runs, &plan)) {
        status = bite_error_set(error, BITE_NO_MEMORY, "no memory for the draws");
    } else {
        status =
            draw_band(cut, &checked, sampling, run_caches, runs, &plan, &samples, result, error);
    }
    bite_memory_free(bite_memory_default(), samples.values);
    bite_memory_free(bite_memory_default(), run_caches);
    return status;
}

bite_status bite_cut_band(const bite_cut *cut, const bite_spread *spreads, size_t count,
                          size_t draws, uint64_t seed, double confidence, bite_result *result,
                          bite_error *error)
{
    bite_sampling alone = {.draws = draws, .seed = seed, .confidence = confidence};
    return bite_monte_carlo_run(cut, spreads, count, &alone, result, error);
}
