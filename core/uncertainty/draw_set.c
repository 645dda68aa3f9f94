/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One set of draws of a cut's uncertain inputs, over which settings are evaluated. */
#include "core/uncertainty/draw_set.h"
#include "core/base/error.h"
#include "core/base/thread_pool.h"
#include "core/cut/block/tool_block.h"
#include "core/cut/limits.h"
#include "core/names/registry.h"
#include "core/uncertainty/sampling_plan.h"
#include "core/uncertainty/sobol.h"
#include <math.h>
#include <stddef.h>
#include <string.h>

/* Draws that a thread takes at a time, and estimates up to which no thread is worth starting. */
enum { DRAWS_OF_CHUNK = 128, ESTIMATES_ALONE = 128 };

/* Working memory of one thread: for settings at the best estimates, and for one setting by its
 * draws. */
typedef struct worker {
    bite_block_space *settings;
    bite_block_space *draws;
} worker;

struct bite_draw_set {
    bite_allocator allocator;
    const bite_checked_cut *cut;
    size_t draws;
    size_t count; /* of scattering inputs */
    size_t threads;
    uint64_t seed;
    bite_spread spreads[BITE_SPREAD_MAX];
    bite_sampling_plan plan;  /* of these spreads */
    double *values;           /* input x draw; NULL: nothing was drawn yet */
    bite_block_space *spaces; /* two of each thread, started with the cut */
    worker workers[BITE_THREADS_MAX];
};

/* ---- drawing ---- */

/* The members of a cut that a setting sets. */
static const size_t set_by_setting[] = {offsetof(bite_cut, spindle_speed),
                                        offsetof(bite_cut, feed_rate), offsetof(bite_cut, depth),
                                        offsetof(bite_cut, width)};

static void start_workers(bite_draw_set *set)
{
    for (size_t i = 0; i < set->threads; i++) {
        worker *one = &set->workers[i];
        one->settings = &set->spaces[2 * i];
        one->draws = &set->spaces[2 * i + 1];
        bite_block_start(one->settings, set->cut, set_by_setting,
                         sizeof set_by_setting / sizeof *set_by_setting);
    }
}

/* The values of every draw, by the plan that all draws of the library follow. */
static void fill_values(bite_draw_set *set, double *deviates)
{
    bite_sobol sobol;
    unsigned dimensions = set->plan.dimensions > 0 ? set->plan.dimensions : 1;
    bite_sampling_plan_set_deviates(&set->plan, deviates);
    (void)bite_sobol_init(&sobol, dimensions, set->seed);
    for (size_t draw = 0; draw < set->draws; draw += BITE_LANES) {
        size_t left = set->draws - draw;
        bite_sampling_plan_draw(&set->plan, &sobol, left < BITE_LANES ? left : BITE_LANES,
                                set->draws, set->values + draw);
    }
}

/* Draws, unless it was done: many tools are compared without draws. */
static bite_status make_values(bite_draw_set *set, bite_error *error)
{
    if (set->values != NULL) {
        return BITE_OK;
    }
    bite_sampling_plan_set_cells(&set->plan, set->draws);
    double *deviates = bite_memory_grow(&set->allocator, NULL, set->plan.cells, sizeof *deviates);
    double *values =
        bite_memory_grow(&set->allocator, NULL, set->draws * (set->count + 1), sizeof *values);
    if (deviates == NULL || values == NULL) {
        bite_memory_free(&set->allocator, deviates);
        bite_memory_free(&set->allocator, values);
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for the draws");
    }
    set->values = values;
    fill_values(set, deviates);
    bite_memory_free(&set->allocator, deviates);
    for (size_t i = 0; i < set->threads; i++) {
        bite_block_space *space = set->workers[i].draws;
        bite_block_start(space, set->cut, set->plan.offset, set->count);
        space->work.tool_alike &= !bite_block_tool_reads(offsetof(bite_cut, depth));
    }
    return BITE_OK;
}

bite_status bite_draw_set_new(const bite_allocator *allocator, const bite_checked_cut *cut,
                              const bite_spread *spreads, size_t count, size_t draws, uint64_t seed,
                              size_t threads, bite_draw_set **set, bite_error *error)
{
    bite_draw_set *fresh = bite_memory_new(allocator, 1, sizeof *fresh);
    if (fresh == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for the draws");
    }
    fresh->allocator = *allocator;
    fresh->cut = cut;
    fresh->draws = count == 0 ? 1 : draws; /* nothing is uncertain: one draw is enough */
    fresh->count = count;
    fresh->seed = seed;
    fresh->threads = threads < 1 ? 1 : threads < BITE_THREADS_MAX ? threads : BITE_THREADS_MAX;
    if (count > 0 && count <= BITE_SPREAD_MAX) {
        memcpy(fresh->spreads, spreads, count * sizeof *spreads);
    }
    bite_status status =
        bite_sampling_plan_init(fresh->spreads, count, &cut->full, &fresh->plan, error);
    if (status == BITE_OK) {
        fresh->spaces = bite_block_spaces_new(allocator, 2 * fresh->threads);
        status = fresh->spaces != NULL
                     ? BITE_OK
                     : bite_error_set(error, BITE_NO_MEMORY, "no memory for the draws");
    }
    if (status != BITE_OK) {
        bite_draw_set_free(fresh);
        return status;
    }
    start_workers(fresh);
    *set = fresh;
    return BITE_OK;
}

void bite_draw_set_free(bite_draw_set *set)
{
    if (set != NULL) {
        bite_allocator allocator = set->allocator;
        bite_memory_free(&allocator, set->values);
        bite_block_spaces_free(&allocator, set->spaces);
        bite_memory_free(&allocator, set);
    }
}

size_t bite_draw_set_size(const bite_draw_set *set)
{
    return set->draws;
}

/* ---- settings at the best estimates ---- */

static void set_lane(const bite_setting *setting, size_t lane, bite_block *block)
{
    BITE_ROW(block, spindle_speed)[lane] = setting->spindle;
    BITE_ROW(block, feed_rate)[lane] = setting->feed;
    BITE_ROW(block, depth)[lane] = setting->depth;
    if (!isnan(setting->width)) {
        BITE_ROW(block, width)[lane] = setting->width;
    }
}

static void take_estimate(const bite_block_space *space, double room, size_t lane,
                          bite_estimate *to)
{
    const bite_lanes *value = space->straight.value;
    const bite_block_limits_result *limits = &space->limits;
    for (size_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        double utilization = limits->applies[i] ? limits->utilization[i][lane] : (double)NAN;
        to->utilization[i] = isnan(utilization) ? 0.0 : utilization;
        to->binds[i] = !isnan(utilization) && !limits->advisory[i];
    }
    double soft =
        limits->applies[BITE_LIMIT_SOFTENING] ? limits->capacity[BITE_LIMIT_SOFTENING][lane] : 0.0;
    to->removal = value[BITE_REMOVAL_RATE][lane];
    to->rise = value[BITE_SURFACE_TEMPERATURE][lane] - room;
    to->error = fabs(value[BITE_WALL_ERROR][lane]);
    to->marks = fmax(value[BITE_ROUGHNESS_FLOOR][lane], value[BITE_ROUGHNESS_WALL][lane]);
    to->soft = soft > 0.0 ? soft : 0.0;
}

typedef struct estimating {
    bite_draw_set *set;
    const bite_setting *settings;
    size_t count;
    bite_estimate *estimates;
} estimating;

static void estimate_block(void *work, size_t index, size_t at)
{
    const estimating *all = work;
    bite_block_space *space = all->set->workers[at].settings;
    size_t from = index * BITE_LANES;
    size_t count = all->count - from < BITE_LANES ? all->count - from : BITE_LANES;
    for (size_t i = 0; i < count; i++) {
        set_lane(&all->settings[from + i], i, &space->block);
    }
    bite_block_evaluate(space, count, NULL);
    for (size_t i = 0; i < count; i++) {
        take_estimate(space, all->set->cut->full.room_temperature, i, &all->estimates[from + i]);
    }
}

void bite_draw_set_estimate(bite_draw_set *set, const bite_setting *settings, size_t count,
                            bite_estimate *estimates)
{
    estimating all = {set, settings, count, estimates};
    bite_thread_pool_run((count + BITE_LANES - 1) / BITE_LANES,
                         count <= ESTIMATES_ALONE ? 1 : set->threads, estimate_block, &all);
}

/* ---- one setting by its draws ---- */

typedef struct drawing {
    bite_draw_set *set;
    const bite_setting *setting;
    const uint8_t *wanted;
    size_t from;
    size_t to;
    double *utilizations;
} drawing;

/* Takes the utilizations of `count` draws from `from` on. */
static void take_draws(const drawing *all, const bite_block_limits_result *limits, size_t from,
                       size_t count)
{
    for (size_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        double *own = all->utilizations + i * all->set->draws + from;
        for (size_t k = 0; k < count; k++) {
            double utilization = all->wanted[i] ? limits->utilization[i][k] : 0.0;
            own[k] = utilization > 0.0 ? utilization : 0.0; /* NaN: it does not apply */
        }
    }
}

static void draw_block(const drawing *all, size_t from, size_t count, bite_block_space *space)
{
    const bite_draw_set *set = all->set;
    for (size_t i = 0; i < set->count; i++) {
        memcpy(bite_block_row(&space->block, set->plan.offset[i]),
               set->values + i * set->draws + from, count * sizeof *set->values);
    }
    bite_block_evaluate(space, count, all->wanted);
    take_draws(all, &space->limits, from, count);
}

static void draw_chunk(void *work, size_t index, size_t at)
{
    const drawing *all = work;
    bite_block_space *space = all->set->workers[at].draws;
    size_t from = all->from + index * DRAWS_OF_CHUNK;
    size_t to = all->to - from < DRAWS_OF_CHUNK ? all->to : from + DRAWS_OF_CHUNK;
    for (size_t i = 0; i < BITE_LANES; i++) {
        set_lane(all->setting, i, &space->block);
    }
    for (; from < to; from += BITE_LANES) {
        draw_block(all, from, to - from < BITE_LANES ? to - from : BITE_LANES, space);
    }
}

bite_status bite_draw_set_draw(bite_draw_set *set, const bite_setting *setting,
                               const uint8_t *wanted, size_t from, size_t to, double *utilizations,
                               bite_error *error)
{
    drawing all = {set, setting, wanted, from, to, utilizations};
    bite_status status = make_values(set, error);
    if (status == BITE_OK) {
        bite_thread_pool_run((to - from + DRAWS_OF_CHUNK - 1) / DRAWS_OF_CHUNK, set->threads,
                             draw_chunk, &all);
    }
    return status;
}
