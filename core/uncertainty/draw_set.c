/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One set of draws of a cut's uncertain inputs, over which settings are evaluated. */
#include "core/uncertainty/draw_set.h"
#include "core/base/error.h"
#include "core/base/quantile.h"
#include "core/base/thread_pool.h"
#include "core/cut/block/tool_block.h"
#include "core/cut/limits.h"
#include "core/names/registry.h"
#include "core/uncertainty/chances.h"
#include "core/uncertainty/sampling_plan.h"
#include "core/uncertainty/sobol.h"
#include <math.h>
#include <stddef.h>
#include <string.h>

/* A setting that exceeds a limit in half of the first few draws, those of its first block, is
 * hopeless at any usual confidence, and so is one that exceeds it by this factor at the best
 * estimates. Its quantile is then taken as this multiple of the utilization at the best estimates.
 */
#define DRAWS_FIRST (BITE_LANES - 1)
static const double best_hopeless = 1.2;
static const double quantile_hopeless = 2.0;

/* Working memory of one thread. */
typedef struct worker {
    bite_block_space *space;
    double *utilizations; /* limit x draws */
    double *worst;        /* of each draw */
    double *sorting;
} worker;

struct bite_draw_set {
    bite_allocator allocator;
    const bite_checked_cut *cut;
    size_t draws;
    size_t count; /* of scattering inputs */
    size_t threads;
    size_t offsets[BITE_SPREAD_MAX];
    double *values;               /* input x draw */
    double best[BITE_SPREAD_MAX]; /* of the scattering inputs */
    double *numbers;              /* of all workers */
    worker *workers;
    bite_block_space *spaces; /* of all workers, each started with the cut */
};

/* ---- drawing ---- */

/* The values of every draw, by the plan that all draws of the library follow. */
static bite_status draw_values(bite_draw_set *set, const bite_spread *spreads, uint64_t seed,
                               bite_error *error)
{
    bite_sampling_plan plan;
    bite_sobol sobol;
    bite_status status =
        bite_sampling_plan_init(spreads, set->count, &set->cut->full, &plan, error);
    if (status != BITE_OK) {
        return status;
    }
    bite_sampling_plan_set_cells(&plan, set->draws);
    double *deviates = bite_memory_grow(&set->allocator, NULL, plan.cells, sizeof *deviates);
    if (deviates == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for the draws");
    }
    bite_sampling_plan_set_deviates(&plan, deviates);
    (void)bite_sobol_init(&sobol, plan.dimensions > 0 ? plan.dimensions : 1, seed);
    for (size_t i = 0; i < set->count; i++) {
        set->offsets[i] = plan.offset[i];
        set->best[i] = *bite_input_number_of(&set->cut->full, plan.inputs[i]);
    }
    for (size_t draw = 0; draw < set->draws; draw += BITE_LANES) {
        size_t left = set->draws - draw;
        bite_sampling_plan_draw(&plan, &sobol, left < BITE_LANES ? left : BITE_LANES, set->draws,
                                set->values + draw);
    }
    bite_memory_free(&set->allocator, deviates);
    return BITE_OK;
}

static int allocate(bite_draw_set *set)
{
    size_t own = (BITE_LIMIT_COUNT + 2) * set->draws;
    set->values =
        bite_memory_grow(&set->allocator, NULL, set->draws * (set->count + 1), sizeof(double));
    set->numbers = bite_memory_grow(&set->allocator, NULL, set->threads * own, sizeof(double));
    set->workers = bite_memory_grow(&set->allocator, NULL, set->threads, sizeof *set->workers);
    set->spaces = bite_block_spaces_new(&set->allocator, set->threads);
    if (set->values == NULL || set->numbers == NULL || set->workers == NULL ||
        set->spaces == NULL) {
        return 0;
    }
    for (size_t i = 0; i < set->threads; i++) {
        worker *one = &set->workers[i];
        one->space = &set->spaces[i];
        one->utilizations = set->numbers + i * own;
        one->worst = one->utilizations + BITE_LIMIT_COUNT * set->draws;
        one->sorting = one->worst + set->draws;
    }
    return 1;
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
    fresh->threads = threads < 1 ? 1 : threads < BITE_THREADS_MAX ? threads : BITE_THREADS_MAX;
    bite_status status = allocate(fresh)
                             ? draw_values(fresh, spreads, seed, error)
                             : bite_error_set(error, BITE_NO_MEMORY, "no memory for the draws");
    if (status != BITE_OK) {
        bite_draw_set_free(fresh);
        return status;
    }
    for (size_t i = 0; i < fresh->threads; i++) {
        bite_block_start(&fresh->spaces[i], cut, fresh->offsets, count);
        fresh->spaces[i].work.tool_alike &= !bite_block_tool_reads(offsetof(bite_cut, depth));
    }
    *set = fresh;
    return BITE_OK;
}

void bite_draw_set_free(bite_draw_set *set)
{
    if (set != NULL) {
        bite_allocator allocator = set->allocator;
        bite_memory_free(&allocator, set->values);
        bite_memory_free(&allocator, set->numbers);
        bite_memory_free(&allocator, set->workers);
        bite_block_spaces_free(&allocator, set->spaces);
        bite_memory_free(&allocator, set);
    }
}

/* ---- one setting ---- */

/* A setting at its best estimates, and which limits its draws follow. */
typedef struct estimate {
    bite_limit limits[BITE_LIMIT_COUNT];
    double value[BITE_VALUE_COUNT];
    uint8_t applies[BITE_LIMIT_COUNT];
    uint8_t binds[BITE_LIMIT_COUNT];
    double relaxed; /* the largest utilization of a relaxed limit over the accepted one */
    double worst;   /* the largest of a binding limit */
    uint32_t limit; /* that limit */
} estimate;

static void set_setting(const bite_setting *setting, bite_block_space *space)
{
    bite_block_fill(&space->block, offsetof(bite_cut, spindle_speed), setting->spindle);
    bite_block_fill(&space->block, offsetof(bite_cut, feed_rate), setting->feed);
    bite_block_fill(&space->block, offsetof(bite_cut, depth), setting->depth);
    if (!isnan(setting->width)) {
        bite_block_fill(&space->block, offsetof(bite_cut, width), setting->width);
    }
}

/* The draws from `from` on, in the lanes from `lane` on. */
static void set_draws(const bite_draw_set *set, size_t from, size_t count, size_t lane,
                      bite_block_space *space)
{
    for (size_t i = 0; i < set->count; i++) {
        memcpy(bite_block_row(&space->block, set->offsets[i]) + lane,
               set->values + i * set->draws + from, count * sizeof *set->values);
    }
}

/* Lane 0 is at the best estimates. */
static void estimate_best(const bite_limit_rule *rule, const bite_block_space *space,
                          estimate *best)
{
    best->relaxed = best->worst = 0.0;
    best->limit = 0;
    for (size_t i = 0; i < BITE_VALUE_COUNT; i++) {
        best->value[i] = space->straight.value[i][0];
    }
    for (uint32_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        bite_limit *limit = &best->limits[i];
        bite_block_limit_of(&space->limits, (bite_limit_id)i, 0, limit);
        int relaxed = limit->applies && rule->relaxed[i] > 0.0;
        best->applies[i] = limit->applies && !relaxed;
        best->binds[i] = best->applies[i] && !limit->advisory;
        if (relaxed && !limit->advisory) {
            best->relaxed = fmax(best->relaxed, limit->utilization / rule->relaxed[i]);
        }
        if (best->binds[i] && limit->utilization / rule->capacity[i] > best->worst) {
            best->worst = limit->utilization / rule->capacity[i];
            best->limit = i;
        }
    }
}

/* Takes the utilizations of `count` draws from the lanes of a block. */
static void take(const bite_draw_set *set, const bite_limit_rule *rule, const estimate *best,
                 size_t from, size_t count, size_t lane, worker *with)
{
    double *worst = with->worst + from;
    for (size_t k = 0; k < count; k++) {
        worst[k] = 0.0;
    }
    for (size_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        const double *lanes = with->space->limits.utilization[i] + lane;
        double *own = with->utilizations + i * set->draws + from;
        if (!best->applies[i]) {
            continue;
        }
        for (size_t k = 0; k < count; k++) {
            double utilization = lanes[k] / rule->capacity[i];
            own[k] = utilization > 0.0 ? utilization : 0.0; /* NaN: it does not apply */
            worst[k] = best->binds[i] && own[k] > worst[k] ? own[k] : worst[k];
        }
    }
}

/* The utilizations of some draws. */
static void draw(const bite_draw_set *set, const bite_limit_rule *rule, const estimate *best,
                 size_t from, size_t to, worker *with)
{
    for (size_t at = from; at < to; at += BITE_LANES) {
        size_t count = to - at < BITE_LANES ? to - at : BITE_LANES;
        set_draws(set, at, count, 0, with->space);
        bite_block_evaluate(with->space, count, best->applies);
        take(set, rule, best, at, count, 0, with);
    }
}

/* A setting at the end of a range is within it, however its logarithm was rounded. */
static const double rounding = 1e-9;

static size_t count_over(const double *utilizations, size_t draws)
{
    size_t over = 0;
    for (size_t i = 0; i < draws; i++) {
        over += utilizations[i] > 1.0 + rounding;
    }
    return over;
}

/* The number at the rank that fewer than the allowed share exceed. */
static double quantile_of(const double *numbers, size_t draws, double allowed, double *sorting)
{
    double above = ceil(allowed * (double)draws * (1.0 - 1e-12)) - 1.0;
    size_t rank = draws - 1 - (above > 0.0 ? (size_t)above : 0);
    return bite_quantile_select_copy(numbers, draws, rank, sorting);
}

/* Chatter of a machine whose modes were not measured counts only where it is gross. */
static void add_gross_chatter(const bite_draw_set *set, estimate *best, size_t draws, worker *with)
{
    const double *chatter = with->utilizations + (size_t)BITE_LIMIT_CHATTER * set->draws;
    if (!best->applies[BITE_LIMIT_CHATTER] || best->binds[BITE_LIMIT_CHATTER] ||
        (double)count_over(chatter, draws) < bite_gross_chatter * (double)draws) {
        return;
    }
    best->binds[BITE_LIMIT_CHATTER] = 1;
    for (size_t i = 0; i < draws; i++) {
        with->worst[i] = fmax(with->worst[i], chatter[i]);
    }
}

/* The best estimates and the first draws in one block. Returns how many were drawn. */
static size_t draw_first(const bite_draw_set *set, const bite_limit_rule *rule, size_t draws,
                         const bite_setting *setting, worker *with, estimate *best)
{
    bite_block_space *space = with->space;
    size_t first = draws < DRAWS_FIRST ? draws : DRAWS_FIRST;
    set_setting(setting, space);
    for (size_t i = 0; i < set->count; i++) {
        bite_block_row(&space->block, set->offsets[i])[0] = set->best[i];
    }
    set_draws(set, 0, first, 1, space);
    bite_block_evaluate(space, first + 1, NULL);
    estimate_best(rule, space, best);
    take(set, rule, best, 0, first, 1, with);
    return first;
}

/* Draws as many as wanted. Returns how many were drawn. */
static size_t draw_setting(const bite_draw_set *set, const bite_limit_rule *rule, size_t draws,
                           int give_up, const bite_setting *setting, worker *with, estimate *best)
{
    size_t first = draw_first(set, rule, draws, setting, with, best);
    int gives_up = give_up && draws > first;
    if (gives_up && best->worst > best_hopeless) {
        with->worst[0] = quantile_hopeless * best->worst;
        return 1;
    }
    if (gives_up && 2 * count_over(with->worst, first) >= first) {
        draws = first;
    } else {
        draw(set, rule, best, first, draws, with);
    }
    add_gross_chatter(set, best, draws, with);
    return draws;
}

static void evaluate_setting(const bite_draw_set *set, const bite_limit_rule *rule, size_t draws,
                             int give_up, const bite_setting *setting, worker *with,
                             bite_setting_risk *risk)
{
    estimate best;
    size_t drawn = draw_setting(set, rule, draws, give_up, setting, with, &best);
    const double *value = best.value;
    const bite_limit *soft = &best.limits[BITE_LIMIT_SOFTENING];
    risk->quantile =
        fmax(best.relaxed, quantile_of(with->worst, drawn, rule->allowed, with->sorting));
    risk->chance = (double)count_over(with->worst, drawn) / (double)drawn;
    risk->removal = value[BITE_REMOVAL_RATE];
    risk->rise = value[BITE_SURFACE_TEMPERATURE] - set->cut->full.room_temperature;
    risk->error = fabs(value[BITE_WALL_ERROR]);
    risk->marks = fmax(value[BITE_ROUGHNESS_FLOOR], value[BITE_ROUGHNESS_WALL]);
    risk->soft = soft->applies && soft->capacity > 0.0 ? soft->capacity : 0.0;
    risk->draws = (uint32_t)drawn;
    risk->limit = best.limit;
}

/* ---- many settings ---- */

typedef struct evaluation {
    bite_draw_set *set;
    const bite_limit_rule *rule;
    size_t draws;
    int give_up;
    const bite_setting *settings;
    bite_setting_risk *risks;
} evaluation;

static void evaluate_one(void *work, size_t index, size_t at)
{
    evaluation *all = work;
    evaluate_setting(all->set, all->rule, all->draws, all->give_up, &all->settings[index],
                     &all->set->workers[at], &all->risks[index]);
}

void bite_draw_set_evaluate(bite_draw_set *set, const bite_limit_rule *rule, size_t draws,
                            int give_up, const bite_setting *settings, size_t count,
                            bite_setting_risk *risks)
{
    evaluation all = {set, rule, draws < set->draws ? draws : set->draws, give_up, settings, risks};
    bite_thread_pool_run(count, set->threads, evaluate_one, &all);
}

void bite_draw_set_limits(bite_draw_set *set, const bite_limit_rule *rule,
                          const bite_setting *setting, bite_limit_risk limits[BITE_LIMIT_COUNT])
{
    estimate best;
    worker *with = &set->workers[0];
    size_t drawn = draw_setting(set, rule, set->draws, 0, setting, with, &best);
    for (size_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        const double *own = with->utilizations + i * set->draws;
        bite_limit_risk none = {0.0, 0.0, 0.0};
        limits[i] = none;
        if (best.binds[i]) {
            limits[i].quantile = quantile_of(own, drawn, rule->allowed, with->sorting);
            limits[i].chance = (double)count_over(own, drawn) / (double)drawn;
            limits[i].best = best.limits[i].utilization;
        }
    }
}
