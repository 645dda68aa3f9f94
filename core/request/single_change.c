/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The single change to make first. */
#include "core/request/single_change.h"
#include "core/base/memory.h"
#include "core/base/thread_pool.h"
#include "core/cut/defaults.h"
#include "core/cut/entry_move.h"
#include "core/cut/pass.h"
#include "core/names/registry.h"
#include "core/request/input_spread.h"
#include "core/uncertainty/monte_carlo.h"
#include <math.h>
#include <string.h>

/* Draws while changes are compared; the result that is shown has more. */
#define DRAWS_COMPARING 64
#define DRAWS_SHOWN 512
#define SEED_COMPARING 20261125

/* A change is worth reporting if it leaves less than this share of the figure of merit. */
#define WORTH_REPORTING 0.9

/* A change to a fixed number applies only if the number falls below this share of its old value. */
static const double worth_setting = 0.9;

/* Changes that can be made at the machine. A factor scales the number; factor 0 sets the number to
 * `to`, or the word of an input that takes words. */
static const struct {
    const char *input;
    double factor;
    double to; /* SI; where factor is 0 and the input takes no words */
    uint32_t word;
} changes[] = {
    {"feed_rate", 0.5, 0.0, 0},
    {"feed_rate", 0.7, 0.0, 0},
    {"feed_rate", 1.5, 0.0, 0},
    {"feed_rate", 2.0, 0.0, 0},
    {"entry_feed", 0.5, 0.0, 0},
    {"entry_feed", 0.25, 0.0, 0},
    {"spindle_speed", 0.5, 0.0, 0},
    {"spindle_speed", 0.7, 0.0, 0},
    {"spindle_speed", 1.4, 0.0, 0},
    {"depth", 0.7, 0.0, 0},
    {"depth", 0.5, 0.0, 0},
    {"stickout", 0.7, 0.0, 0},
    {"coolant", 0.0, 0.0, BITE_COOLANT_AIR},
    {"runout", 0.0, 3e-6, 0},
    {"edge_radius", 0.0, 0.0, 0}, /* a new tool has the sharpest edge there is */
    {"flutes", 0.5, 0.0, 0},
    /* only after a trouble */
    {"side", 0.0, 0.0, BITE_CONVENTIONAL},
    {"width", 0.7, 0.0, 0},
    {"width", 0.5, 0.0, 0},
    {"spindle_speed", 2.0, 0.0, 0},
    {"depth", 0.3, 0.0, 0},
    {"entry_feed", 2.0, 0.0, 0},
    {"helix", 0.0, 0.0, 0}, /* straight flutes do not lift */
    {"bond_area", 2.0, 0.0, 0},
    {"load_time", 0.5, 0.0, 0},
};

enum { USUAL_CHANGES = 16 };

size_t bite_change_count(void)
{
    return sizeof changes / sizeof *changes;
}

/* The figure of merit of a change: the chance of exceeding a limit, and a little of the worst
 * utilization, which decides between changes of equal chance. */
static double merit(const bite_result *result)
{
    double chance = isnan(result->chance) ? 0.0 : result->chance;
    return chance + 1e-3 * fmin(10.0, result->limits[result->worst].utilization);
}

/* A number as an operator would enter it: two significant digits. */
static double round_to_two_digits(double value)
{
    if (value == 0.0) {
        return 0.0;
    }
    double step = pow(10.0, floor(log10(value)) - 1.0);
    return round(value / step) * step;
}

void bite_change_settle(bite_cut *cut, const bite_input *input)
{
    if (strcmp(input->name, "coolant") == 0) {
        cut->cooling = cut->surface_cooling = (double)NAN;
    }
}

int bite_change_apply(size_t at, bite_cut *cut, bite_change *change)
{
    const bite_input *input = bite_input_find(changes[at].input);
    change->input = (uint32_t)bite_input_index(input);
    if (cut->operation == BITE_CHAMFER && strcmp(input->name, "depth") == 0) {
        return 0; /* another depth would be another chamfer */
    }
    int hole = cut->operation == BITE_TAP || cut->operation == BITE_REAM;
    if ((hole && strcmp(input->name, "depth") == 0) ||
        (cut->operation == BITE_TAP && strcmp(input->name, "feed_rate") == 0)) {
        return 0; /* another thread or hole; the feed of a tap follows from its pitch */
    }
    if (input->words > 0) {
        uint32_t *word = bite_input_choice(cut, input);
        if (*word >= changes[at].word) {
            return 0;
        }
        *word = change->word = changes[at].word;
        bite_change_settle(cut, input);
        return 1;
    }
    double *number = bite_input_number(cut, input);
    int entry_feed = strcmp(input->name, "entry_feed") == 0;
    if (entry_feed && (cut->entry == BITE_ENTRY_OUTSIDE || cut->operation != BITE_MILL)) {
        return 0;
    }
    double from = change->from = entry_feed ? bite_entry_feed(cut) : *number;
    double to = changes[at].factor > 0.0                  ? from * changes[at].factor
                : strcmp(input->name, "edge_radius") == 0 ? bite_edge_radius_default(cut)
                                                          : changes[at].to;
    if (strcmp(input->name, "feed_rate") == 0 || entry_feed) { /* two digits of mm/min */
        to = round_to_two_digits(to * 6e4) / 6e4;
    } else if (strcmp(input->name, "spindle_speed") == 0) {
        to = round_to_two_digits(to * 60.0) / 60.0;
    } else {
        to = input->whole ? ceil(to) : round_to_two_digits(to);
    }
    if (strcmp(input->name, "stickout") == 0 && to < cut->flute_length) {
        return 0; /* the collet must not clamp on the flutes */
    }
    if (!(to >= input->least && to <= input->most && to != from) ||
        (changes[at].factor == 0.0 && to > worth_setting * from)) {
        return 0;
    }
    *number = change->to = to;
    if (cut->operation == BITE_TAP) {
        cut->feed_rate = cut->pitch * cut->spindle_speed;
    }
    return 1;
}

/* The changes, each tried on its own. */
typedef struct change_trials {
    const bite_cut *full;
    const bite_spread *spreads;
    size_t count;
    double confidence;
    size_t first; /* tried with all draws before the others */
    struct change_trial {
        bite_change change;
        bite_status status;  /* BITE_NO_ANSWER: the change does not apply */
        double merit;        /* smaller is better */
    } at[USUAL_CHANGES + 1]; /* the last: no change */
} change_trials;

enum { NO_CHANGE = USUAL_CHANGES };

/* The cut with the change applied, and the spreads that then remain. 0: it does not apply. */
static int apply(const change_trials *trials, size_t index, bite_change *change, bite_cut *cut,
                 bite_spread *remaining, size_t *left)
{
    *cut = *trials->full;
    *left = trials->count;
    if (index == NO_CHANGE) {
        memcpy(remaining, trials->spreads, trials->count * sizeof *remaining);
        return 1;
    }
    if (!bite_change_apply(index, cut, change)) {
        return 0;
    }
    *left = bite_spreads_except(trials->spreads, trials->count, bite_input_at(change->input),
                                remaining);
    return 1;
}

/* The limits with the change applied. BITE_NO_ANSWER: it does not apply, or over_enough draws
 * exceeded a limit. */
static bite_status draw_change(const change_trials *trials, size_t index,
                               const bite_sampling *sampling, bite_change *change,
                               bite_result *result)
{
    bite_cut cut;
    bite_spread remaining[BITE_SPREAD_MAX];
    size_t left = 0;
    memset(result, 0, sizeof *result);
    result->struct_size = (uint32_t)sizeof *result;
    return apply(trials, index, change, &cut, remaining, &left)
               ? bite_monte_carlo_run(&cut, remaining, left, sampling, result, NULL)
               : BITE_NO_ANSWER;
}

/* Tries a change. The draws end once over_enough of them exceed a limit, which shows that the
 * change is worse than another (0: all are drawn). */
static void try_until(change_trials *trials, size_t index, size_t over_enough)
{
    struct change_trial *trial = &trials->at[index];
    bite_result result;
    bite_sampling sampling = {.draws = DRAWS_COMPARING,
                              .seed = SEED_COMPARING,
                              .confidence = trials->confidence,
                              .limits_only = 1,
                              .over_enough = over_enough};
    trial->status = draw_change(trials, index, &sampling, &trial->change, &result);
    trial->merit = trial->status == BITE_OK ? merit(&result) : INFINITY;
}

/* How many draws over a limit show that a change has a worse merit than this. */
static size_t enough_for(double to_beat)
{
    return to_beat < 1.0 ? (size_t)floor(DRAWS_COMPARING * to_beat) + 1 : 0;
}

/* The best change by best estimates, NO_CHANGE if none applies. It is tried first, so that the
 * others can end as soon as they are worse. */
static bite_status find_most_promising(const change_trials *trials, size_t *best)
{
    double least = INFINITY;
    *best = NO_CHANGE;
    for (size_t index = 0; index < NO_CHANGE; index++) {
        bite_cut cut = *trials->full;
        bite_change change = trials->at[index].change;
        bite_result result = {0};
        result.struct_size = (uint32_t)sizeof result;
        if (!bite_change_apply(index, &cut, &change)) {
            continue;
        }
        bite_status status = bite_cut_pass_with(bite_memory_default(), &cut, &result, NULL);
        if (status == BITE_NO_MEMORY) {
            return status;
        }
        if (status == BITE_OK) {
            double utilization = result.limits[result.worst].utilization;
            *best = utilization < least ? index : *best;
            least = fmin(utilization, least);
        }
    }
    return BITE_OK;
}

/* Every change but the first, and the unchanged cut: each is drawn only until it is worse than the
 * first. */
static void try_change(void *work, size_t index, size_t worker)
{
    (void)worker;
    change_trials *trials = work;
    if (index != trials->first) {
        double to_beat = trials->at[trials->first].merit;
        try_until(trials, index,
                  enough_for(index == NO_CHANGE ? to_beat / WORTH_REPORTING : to_beat));
    }
}

/* The limit whose chance falls most; the worst limit if none falls. */
static uint32_t helped_most(const bite_result *before, const bite_result *after)
{
    uint32_t limit = before->worst;
    double most = 0.0;
    for (uint32_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        const bite_limit *was = &before->limits[i];
        double is = after->limits[i].applies ? after->limits[i].chance : 0.0;
        if (was->applies && !was->advisory && was->chance - is > most) {
            most = was->chance - is;
            limit = i;
        }
    }
    return limit;
}

/* The change with the draws that are shown, which are more than those of the comparison. */
static bite_status show_change(const change_trials *trials, size_t index, const bite_result *now,
                               size_t threads, bite_change *change)
{
    bite_result result;
    bite_sampling sampling = {.draws = DRAWS_SHOWN,
                              .seed = SEED_COMPARING,
                              .confidence = trials->confidence,
                              .threads = threads,
                              .limits_only = 1};
    *change = trials->at[index].change;
    bite_status status = draw_change(trials, index, &sampling, change, &result);
    change->limit = status == BITE_OK ? helped_most(now, &result) : now->worst;
    change->before = now->chance;
    change->after = result.chance;
    return status;
}

bite_status bite_change_find(const bite_cut *full, const bite_spread *spreads, size_t count,
                             double confidence, size_t threads, const bite_result *result,
                             bite_change *change)
{
    bite_change none = {BITE_NO_INPUT, 0,           result->worst, 0,
                        (double)NAN,   (double)NAN, (double)NAN,   (double)NAN};
    *change = none;
    if (result->verdict == BITE_CLEAR || result->verdict == BITE_UNKNOWN || result->draws == 0) {
        return BITE_OK;
    }
    change_trials trials = {full, spreads, count, confidence, NO_CHANGE, {{none, BITE_OK, 0.0}}};
    for (size_t i = 0; i <= NO_CHANGE; i++) {
        trials.at[i].change = none;
    }
    bite_status status = find_most_promising(&trials, &trials.first);
    if (status != BITE_OK) {
        return status;
    }
    try_until(&trials, trials.first, 0);
    bite_thread_pool_run(NO_CHANGE + 1, threads, try_change, &trials);
    size_t best = NO_CHANGE;
    for (size_t i = 0; i <= NO_CHANGE; i++) {
        if (trials.at[i].status == BITE_NO_MEMORY) {
            return BITE_NO_MEMORY;
        }
        best = trials.at[i].merit < trials.at[best].merit ? i : best;
    }
    if (!(trials.at[best].merit < WORTH_REPORTING * trials.at[NO_CHANGE].merit)) {
        return BITE_OK;
    }
    status = show_change(&trials, best, result, threads, change);
    if (status == BITE_OK &&
        change->after >
            change->before) { /* few draws misled: with more of them nothing is gained */
        *change = none;
    }
    return status;
}
