/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The band: the same pass at many draws of its uncertain inputs.
 *
 * The joint chance is counted over whole draws, for rows share their inputs; it is never a product.
 * Dimensions go by the inputs' names, so that a table's order, or another input beside it, does not
 * change what a draw means.
 */
#include "core/uncertainty/monte_carlo.h"
#include "core/base/error.h"
#include "core/base/memory.h"
#include "core/base/quantile.h"
#include "core/base/thread_pool.h"
#include "core/cut/input_check.h"
#include "core/cut/limits.h"
#include "core/cut/pass.h"
#include "core/names/registry.h"
#include "core/uncertainty/sobol.h"
#include <math.h>
#include <stddef.h>
#include <string.h>

/* The spreads in their order, and which dimension each takes. */
typedef struct sampling_plan {
    const bite_spread *spreads[BITE_SPREAD_MAX];
    const bite_input *inputs[BITE_SPREAD_MAX];
    bite_scatter scatters[BITE_SPREAD_MAX];
    double share_common[BITE_SPREAD_MAX]; /* of the deviate: roots of the shares of the variance */
    double share_own[BITE_SPREAD_MAX];
    double least[BITE_SPREAD_MAX]; /* the inputs' ranges, and where they stand in a cut */
    double most[BITE_SPREAD_MAX];
    size_t offset[BITE_SPREAD_MAX];
    size_t grouped; /* so many inputs have something in common with others */
    struct {
        size_t input;
        unsigned dimension; /* of the group */
    } in_group[BITE_SPREAD_MAX];
    size_t count;
    size_t cells; /* a power of two, at least the draws: deviates are those of the cells' middles */
    unsigned spare;                       /* binary digits of a point beyond its cell */
    const double *deviates;               /* of the cells */
    unsigned group_at[BITE_SOBOL_GROUPS]; /* dimension + 1; 0: no such group */
    unsigned dimensions;
} sampling_plan;

#define A_LINE 8 /* numbers of a cache's line */

/* What is kept of the draws: one row of numbers for each value and each limit's use. */
typedef struct draw_samples {
    size_t draws;
    size_t stride; /* from a value's numbers to the next one's: no power of two, so that they do not
                      meet in one place of a cache */
    double *values;       /* BITE_VALUE_COUNT x stride */
    double *utilizations; /* BITE_LIMIT_COUNT x stride; NaN: does not apply in that draw */
    double *sizes;        /* room for a number of each draw, for each run */
    uint8_t
        has[BITE_VALUE_COUNT]; /* a number at the best estimates: of the others nothing is asked */
    uint8_t applies[BITE_LIMIT_COUNT];
    uint8_t binds[BITE_LIMIT_COUNT];
    unsigned char *over; /* NULL, or of each draw */
} draw_samples;

/* How many draws go over. */
typedef struct draw_counts {
    size_t over[BITE_LIMIT_COUNT];
    size_t any;
} draw_counts;

/* Fewer draws than this are not worth a thread. */
#define DRAWS_A_THREAD 128

/* What a run of draws keeps: of straight, corner and way in, and of each what the edges meet where
 * all teeth form a chip, where some do and where none. */
#define STRETCHES 3
#define MEETS_A_STRETCH 3
typedef struct bench {
    bite_fin_cache fin;
    bite_segment_cache cache[STRETCHES];
    bite_edge_cache meets[STRETCHES][MEETS_A_STRETCH];
    bite_scratch scratch;
} bench;

static bite_status bad_spread(bite_error *error, const bite_input *input, const char *what)
{
    bite_error_set(error, BITE_BAD_ARGUMENT, "%s", what);
    bite_error_key(error, "%s", input == NULL ? "spread" : input->name);
    return BITE_BAD_ARGUMENT;
}

/* How many times the width of its range a spread may reach beyond it: tables state factors of the
 * best estimate, and draws are cut off at the range. What is not finite is beyond all of it. */
static const double spread_most = 100.0;

static bite_status check_spread(const bite_spread *spread, const bite_cut *full, bite_error *error)
{
    const bite_input *input = bite_input_at(spread->input);
    if (input == NULL || input->words > 0) {
        return bad_spread(error, NULL, "a spread names no input that is a number");
    }
    double best = *bite_input_number_of(full, input);
    int known = spread->shape >= BITE_SHAPE_LEVEL && spread->shape <= BITE_SHAPE_LOGNORMAL &&
                spread->reserved == 0;
    if (!known || spread->group >= BITE_SOBOL_GROUPS ||
        !(spread->together >= 0.0 && spread->together <= 1.0)) {
        return bad_spread(error, input, "a spread's shape, group or share in common is none");
    }
    if (!(spread->low <= best && best <= spread->high) ||
        (spread->shape == BITE_SHAPE_LOGNORMAL && !(spread->low > 0.0))) {
        return bad_spread(
            error, input,
            "a spread does not enclose the best estimate, or a logarithm has no number");
    }
    double reach = spread_most * (input->most - input->least);
    if (!(spread->low >= input->least - reach && spread->high <= input->most + reach)) {
        return bad_spread(error, input, "a spread reaches far beyond its input's range");
    }
    return BITE_OK;
}

static const char *name_of(const bite_spread *spread)
{
    return bite_input_at(spread->input)->name;
}

/* Sorted by name; groups come before all inputs. */
static bite_status make_plan(const bite_spread *spreads, size_t count, const bite_cut *full,
                             sampling_plan *out, bite_error *error)
{
    memset(out, 0, sizeof *out);
    if (count > BITE_SPREAD_MAX || (count > 0 && spreads == NULL)) {
        return bad_spread(error, NULL, "more spreads than are drawn, or none where some were said");
    }
    for (size_t i = 0; i < count; i++) {
        bite_status status = check_spread(&spreads[i], full, error);
        if (status != BITE_OK) {
            return status;
        }
        size_t at = i;
        for (; at > 0 && strcmp(name_of(out->spreads[at - 1]), name_of(&spreads[i])) > 0; at--) {
            out->spreads[at] = out->spreads[at - 1];
        }
        out->spreads[at] = &spreads[i];
        if (at > 0 && out->spreads[at - 1]->input == spreads[i].input) {
            return bad_spread(error, bite_input_at(spreads[i].input), "an input scatters twice");
        }
        out->group_at[spreads[i].group] = spreads[i].group > 0;
    }
    for (unsigned g = 1; g < BITE_SOBOL_GROUPS; g++) {
        out->group_at[g] = out->group_at[g] ? ++out->dimensions : 0;
    }
    out->count = count;
    for (size_t i = 0; i < count; i++) {
        const bite_spread *spread = out->spreads[i];
        double together = spread->group == 0 ? 0.0 : spread->together;
        out->inputs[i] = bite_input_at(spread->input);
        out->scatters[i] = bite_scatter_init(spread, *bite_input_number_of(full, out->inputs[i]));
        out->share_common[i] = sqrt(together);
        out->share_own[i] = sqrt(1.0 - together);
        out->least[i] = out->inputs[i]->least;
        out->most[i] = out->inputs[i]->most;
        out->offset[i] = out->inputs[i]->offset;
        if (spread->group > 0) {
            out->in_group[out->grouped].input = i;
            out->in_group[out->grouped++].dimension = out->group_at[spread->group] - 1;
        }
    }
    out->dimensions += (unsigned)count;
    return out->dimensions <= BITE_SOBOL_DIMENSIONS
               ? BITE_OK
               : bad_spread(error, NULL, "more spreads and groups than are drawn");
}

/* The deviates of the cells' middles, by symmetry from half of them. */
static void fill_deviates(size_t cells, double *deviates)
{
    for (size_t i = 0; 2 * i < cells; i++) {
        double below = cells == 1 ? 0.0 : bite_normal_deviate(((double)i + 0.5) / (double)cells);
        deviates[i] = below;
        deviates[cells - 1 - i] = -below;
    }
}

/* Standard normal deviates of all inputs at the next point. */
static void next_deviates(const sampling_plan *plan, bite_sobol *sobol, double *z)
{
    uint32_t digits[BITE_SOBOL_DIMENSIONS];
    const uint32_t *own =
        digits + (plan->dimensions - plan->count); /* behind those of the groups */
    bite_sobol_digits(sobol, digits);
    for (size_t i = 0; i < plan->count; i++) {
        z[i] = plan->share_own[i] * plan->deviates[own[i] >> plan->spare];
    }
    for (size_t k = 0; k < plan->grouped; k++) {
        size_t i = plan->in_group[k].input;
        z[i] += plan->share_common[i] *
                plan->deviates[digits[plan->in_group[k].dimension] >> plan->spare];
    }
}

/* Drawn numbers stay where the physics reaches: the ends of a spread's tail are cut off at the
 * input's range. */
static void apply(const sampling_plan *plan, const double *z, bite_cut *full)
{
    double values[BITE_SPREAD_MAX];
    bite_scatter_values(plan->scatters, z, plan->count, values);
    for (size_t i = 0; i < plan->count; i++) {
        double value = values[i] < plan->least[i] ? plan->least[i] : values[i];
        *(double *)(void *)((char *)full + plan->offset[i]) =
            value > plan->most[i] ? plan->most[i] : value;
    }
}

/* What the pass at its best estimates does not have, or does not judge, no draw is asked for. */
static void note_wanted(const bite_result *best, const bite_sampling *sampling,
                        draw_samples *sample)
{
    for (int i = 0; i < BITE_VALUE_COUNT; i++) {
        sample->has[i] = (uint8_t)(!sampling->limits_only && !isnan(best->values[i].value));
    }
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        sample->applies[i] = best->limits[i].applies != 0;
        int left_out = sampling->left_out != NULL && sampling->left_out[i];
        sample->binds[i] =
            (uint8_t)(best->limits[i].applies && !best->limits[i].advisory && !left_out);
    }
}

static void keep(const draw_samples *sample, size_t at, const bite_segment *straight,
                 const bite_limit *limits, draw_counts *counted)
{
    size_t any = 0;
    for (int i = 0; i < BITE_VALUE_COUNT; i++) {
        if (sample->has[i]) {
            sample->values[(size_t)i * sample->stride + at] = straight->value[i];
        }
    }
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        if (!sample->applies[i]) {
            continue;
        }
        size_t over = limits[i].applies && limits[i].utilization > 1.0;
        sample->utilizations[(size_t)i * sample->stride + at] =
            limits[i].applies ? limits[i].utilization : (double)NAN;
        counted->over[i] += over;
        any |= over && sample->binds[i];
    }
    counted->any += any;
    if (sample->over != NULL) {
        sample->over[at] = (unsigned char)any;
    }
}

/* The draws in as many runs as there are threads; each run counts for itself. */
typedef struct drawn {
    const sampling_plan *plan;
    const bite_checked_cut *checked;
    uint64_t seed;
    const draw_samples *out;
    bench *benches; /* one for each run */
    size_t runs;
    size_t enough; /* a run ends once so many of its draws go over */
    draw_counts tallies[BITE_THREADS_MAX];
} drawn;

static void begin(bench *of)
{
    for (int i = 0; i < STRETCHES; i++) {
        bite_segment_cache_init(&of->cache[i], &of->fin, of->meets[i], MEETS_A_STRETCH,
                                &of->scratch);
    }
}

static void draw_run(void *work, size_t run, size_t worker)
{
    (void)worker; /* each run has a bench of its own */
    drawn *all = work;
    size_t from = all->out->draws * run / all->runs;
    size_t to = all->out->draws * (run + 1) / all->runs;
    bite_sobol sobol;
    bite_checked_cut checked = *all->checked;
    double z[BITE_SPREAD_MAX];
    bench *at_hand = &all->benches[run];
    bite_evaluation_options options = {&at_hand->cache[0], &at_hand->cache[1], &at_hand->cache[2],
                                       all->out->applies};
    begin(at_hand);
    (void)bite_sobol_init(&sobol, all->plan->dimensions, all->seed);
    bite_sobol_skip(&sobol, (uint32_t)from);
    for (size_t at = from; at < to && all->tallies[run].any < all->enough; at++) {
        bite_segment straight;
        bite_limit limits[BITE_LIMIT_COUNT];
        next_deviates(all->plan, &sobol, z);
        apply(all->plan, z,
              &checked.full); /* the same inputs in every draw: nothing of the last one stays */
        bite_checked_cut_evaluate(&checked, &options, &straight, limits);
        keep(all->out, at, &straight, limits, &all->tallies[run]);
    }
}

static size_t runs_of(const bite_sampling *sampling, size_t draws)
{
    size_t worth = draws / DRAWS_A_THREAD;
    size_t runs = sampling->threads < worth ? sampling->threads : worth;
    return runs > BITE_THREADS_MAX ? BITE_THREADS_MAX : runs < 1 ? 1 : runs;
}

/* 0: enough of them go over. */
static int draw_all(const sampling_plan *plan, const bite_checked_cut *checked,
                    const bite_sampling *sampling, bench *benches, size_t runs,
                    const draw_samples *out, draw_counts *counted)
{
    drawn all = {plan,
                 checked,
                 sampling->seed,
                 out,
                 benches,
                 runs,
                 sampling->over_enough > 0 ? sampling->over_enough : SIZE_MAX,
                 {{{0}, 0}}};
    bite_thread_pool_run(all.runs, all.runs, draw_run, &all);
    for (size_t run = 0; run < all.runs; run++) {
        for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
            counted->over[i] += all.tallies[run].over[i];
        }
        counted->any += all.tallies[run].any;
    }
    return counted->any < all.enough;
}

/* The place of n by share. */
static size_t place_of(size_t count, double share)
{
    return (size_t)(share * (double)(count - 1) + 0.5);
}

static int all_alike(const double *numbers, size_t count)
{
    size_t i = 1;
    while (i < count && numbers[i] == numbers[0]) {
        i++;
    }
    return i >= count;
}

static double quantile(const double *numbers, size_t count, double share, double *capacity)
{
    return all_alike(numbers, count)
               ? numbers[0]
               : bite_quantile_select_copy(numbers, count, place_of(count, share), capacity);
}

/* The ends of bands, on as many threads as there were runs: each takes every so many-th number, in
 * a room of its own. */
typedef struct ends {
    const draw_samples *samples;
    bite_result *result;
    size_t runs;
} ends;

static void fill_row_end(const draw_samples *sample, size_t at, double *capacity, bite_limit *limit)
{
    const double *uses = sample->utilizations + at * sample->stride;
    if (limit->applies && !isnan(uses[0])) {
        limit->utilization_high =
            fmax(limit->utilization, quantile(uses, sample->draws, 0.95, capacity));
    }
}

static void fill_value_ends(const draw_samples *sample, size_t at, double *capacity,
                            bite_value *value)
{
    const double *numbers = sample->values + at * sample->stride;
    if (sample->has[at] && !isnan(numbers[0])) {
        value->low = fmin(value->value, quantile(numbers, sample->draws, 0.05, capacity));
        value->high = fmax(value->value, quantile(numbers, sample->draws, 0.95, capacity));
    }
}

static void fill_every(void *work, size_t run, size_t worker)
{
    (void)worker;
    const ends *all = work;
    double *capacity = all->samples->sizes + run * all->samples->draws;
    for (size_t i = run; i < BITE_LIMIT_COUNT; i += all->runs) {
        fill_row_end(all->samples, i, capacity, &all->result->limits[i]);
    }
    for (size_t i = run; i < BITE_VALUE_COUNT; i += all->runs) {
        fill_value_ends(all->samples, i, capacity, &all->result->values[i]);
    }
}

static void fill_ends(const draw_samples *sample, size_t runs, bite_result *result)
{
    ends all = {sample, result, runs};
    bite_thread_pool_run(runs, runs, fill_every, &all);
}

/* What the tool's frequency hangs on. */
static int rings_with(const bite_input *input)
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

/* To first order: each such input's ends one by one, their logarithms added as squares. */
static void fill_ring(const sampling_plan *plan, const bite_cut *full, bite_value *value)
{
    double down = 0.0;
    double up = 0.0;
    value->value = bite_tool_first_frequency(full);
    for (size_t i = 0; i < plan->count; i++) {
        if (!rings_with(plan->inputs[i])) {
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

static uint32_t verdict_by(double chance, double confidence)
{
    return chance > 0.5 ? BITE_OVER : chance >= 1.0 - confidence ? BITE_TIGHT : BITE_CLEAR;
}

/* By chance; a row that warns early (chips in a blind slot) and an advisory one keep what they say
 * of themselves. */
static void fill_rows(const draw_counts *counted, const draw_samples *sample, double confidence,
                      bite_result *result)
{
    double draws = (double)sample->draws;
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        bite_limit *limit = &result->limits[i];
        if (!limit->applies) {
            continue;
        }
        limit->chance = (double)counted->over[i] / draws;
        uint32_t verdict = verdict_by(limit->chance, confidence);
        uint32_t early = limit->verdict == BITE_TIGHT && limit->utilization < BITE_UTILIZATION_TIGHT
                             ? BITE_TIGHT
                             : BITE_CLEAR;
        verdict = limit->advisory && verdict == BITE_OVER ? BITE_TIGHT : verdict;
        limit->verdict = verdict > early ? verdict : early;
    }
    result->chance = (double)counted->any / draws;
    result->verdict = verdict_by(result->chance, confidence);
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        const bite_limit *limit = &result->limits[i];
        if (sample->binds[i] && limit->verdict == BITE_TIGHT && result->verdict == BITE_CLEAR) {
            result->verdict = BITE_TIGHT;
        }
    }
}

/* The binding row that is likeliest to go over; where none is, the one whose use reaches highest.
 */
static uint32_t governing_row(const draw_samples *sample, const bite_result *result)
{
    uint32_t best = result->worst;
    double best_chance = -1.0;
    double best_use = -1.0;
    for (uint32_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        const bite_limit *limit = &result->limits[i];
        if (!limit->applies || !sample->binds[i]) {
            continue;
        }
        if (limit->chance > best_chance ||
            (limit->chance == best_chance && limit->utilization > best_use)) {
            best = i;
            best_chance = limit->chance;
            best_use = limit->utilization;
        }
    }
    return best;
}

/* The two inputs whose deviates go along most with the logarithm of a row's use: what to measure to
 * narrow the answer. */
static void find_widest(const sampling_plan *plan, const draw_samples *sampled, uint64_t seed,
                        uint32_t limit, bite_result *result)
{
    bite_sobol sobol;
    double z[BITE_SPREAD_MAX];
    double with[BITE_SPREAD_MAX] = {0.0};
    double mean = 0.0;
    const double *uses = sampled->utilizations + (size_t)limit * sampled->stride;
    double *sizes = sampled->sizes;
    for (size_t at = 0; at < sampled->draws; at++) {
        sizes[at] = uses[at] > 0.0 ? log(uses[at]) : 0.0;
        mean += sizes[at];
    }
    mean /= (double)sampled->draws;
    double spread = 0.0;
    (void)bite_sobol_init(&sobol, plan->dimensions, seed);
    for (size_t at = 0; at < sampled->draws; at++) {
        double size = sizes[at] - mean;
        next_deviates(plan, &sobol, z);
        spread += size * size;
        for (size_t i = 0; i < plan->count; i++) {
            with[i] += size * z[i];
        }
    }
    for (int place = 0; place < 2; place++) {
        size_t best = plan->count;
        for (size_t i = 0; i < plan->count; i++) {
            best = best == plan->count || fabs(with[i]) > fabs(with[best]) ? i : best;
        }
        /* a correlation under a tenth tells nothing worth measuring */
        double strength =
            best == plan->count
                ? 0.0
                : fabs(with[best]) / sqrt(fmax(spread, 1e-300) * (double)sampled->draws);
        if (!(strength > 0.1)) {
            return;
        }
        result->widest[place] = plan->spreads[best]->input;
        with[best] = 0.0;
    }
}

/* Room for the draws, for the deviates of their cells behind them, and for sorting, of each run.
 * All of it is written before it is read. NULL: no memory. */
static double *make_sample(const bite_sampling *sampling, size_t runs, sampling_plan *plan,
                           draw_samples *to)
{
    for (plan->cells = 1, plan->spare = BITE_SOBOL_DIGITS; plan->cells < to->draws; plan->spare--) {
        plan->cells *= 2;
    }
    to->over = sampling->over;
    to->stride = to->draws + A_LINE;
    size_t kept = to->stride * (BITE_VALUE_COUNT + BITE_LIMIT_COUNT);
    to->values = bite_memory_grow(bite_memory_default(), NULL,
                                  kept + plan->cells + runs * to->draws, sizeof *to->values);
    if (to->values != NULL) {
        to->utilizations = to->values + to->stride * BITE_VALUE_COUNT;
        to->sizes = to->values + kept + plan->cells;
        fill_deviates(plan->cells, to->values + kept);
        plan->deviates = to->values + kept;
    }
    return to->values;
}

/* What all draws say together. */
static void tell(const sampling_plan *plan, const bite_checked_cut *checked,
                 const bite_sampling *sampling, size_t runs, const draw_counts *counted,
                 const draw_samples *sampled, bite_result *result)
{
    result->draws = (uint32_t)sampling->draws;
    fill_rows(counted, sampled, sampling->confidence, result);
    if (plan->count > 0) {
        result->worst = governing_row(sampled, result);
    }
    if (plan->count > 0 && !sampling->limits_only) {
        find_widest(plan, sampled, sampling->seed, result->worst, result);
    }
    fill_ends(sampled, sampling->limits_only ? 1 : runs, result);
    if (!sampling->limits_only) {
        fill_ring(plan, &checked->full, &result->values[BITE_TIP_FREQUENCY]);
    }
}

/* The pass at its best estimates, and the draws about it. benches: one for each run, not begun. */
static bite_status draw_band(const bite_cut *cut, const bite_checked_cut *checked,
                             const bite_sampling *sampling, bench *benches, size_t runs,
                             const sampling_plan *plan, draw_samples *sampled, bite_result *result,
                             bite_error *error)
{
    draw_counts counted = {{0}, 0};
    bite_evaluation_options plain = {&benches->cache[0], &benches->cache[1], &benches->cache[2],
                                     NULL};
    begin(benches);
    bite_status status = bite_checked_cut_pass(cut, &plain, result, error);
    if (status != BITE_OK) {
        return status;
    }
    note_wanted(result, sampling, sampled);
    if (!draw_all(plan, checked, sampling, benches, runs, sampled, &counted)) {
        return bite_error_set(error, BITE_NO_ANSWER, "enough draws went over");
    }
    tell(plan, checked, sampling, runs, &counted, sampled, result);
    return BITE_OK;
}

bite_status bite_monte_carlo_run(const bite_cut *cut, const bite_spread *spreads, size_t count,
                                 const bite_sampling *sampling, bite_result *result,
                                 bite_error *error)
{
    bite_checked_cut checked;
    sampling_plan plan;
    bite_error_clear(error);
    bite_status status = bite_check_result(result, error);
    status = status != BITE_OK ? status : bite_checked_cut_init(cut, &checked, error);
    status =
        status != BITE_OK ? status : bite_check_draws(sampling->draws, sampling->confidence, error);
    status = status != BITE_OK ? status : make_plan(spreads, count, &checked.full, &plan, error);
    if (status != BITE_OK) {
        return status;
    }
    if (count == 0) { /* nothing scatters: one draw says all */
        plan.dimensions = 1;
    }
    draw_samples sampled = {0};
    sampled.draws = count == 0 ? 1 : sampling->draws;
    size_t runs = runs_of(sampling, sampled.draws);
    bench *benches = bite_memory_grow(bite_memory_default(), NULL, runs, sizeof *benches);
    if (benches == NULL || make_sample(sampling, runs, &plan, &sampled) == NULL) {
        status = bite_error_set(error, BITE_NO_MEMORY, "no memory for the draws");
    } else {
        status = draw_band(cut, &checked, sampling, benches, runs, &plan, &sampled, result, error);
    }
    bite_memory_free(bite_memory_default(), sampled.values);
    bite_memory_free(bite_memory_default(), benches);
    return status;
}

bite_status bite_cut_band(const bite_cut *cut, const bite_spread *spreads, size_t count,
                          size_t draws, uint64_t seed, double confidence, bite_result *result,
                          bite_error *error)
{
    bite_sampling alone = {.draws = draws, .seed = seed, .confidence = confidence};
    return bite_monte_carlo_run(cut, spreads, count, &alone, result, error);
}
