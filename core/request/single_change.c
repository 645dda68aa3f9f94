/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One change to make first, and one thing to measure first. */
#include "core/request/single_change.h"
#include "core/base/thread_pool.h"
#include "core/cut/defaults.h"
#include "core/cut/entry_move.h"
#include "core/names/registry.h"
#include "core/request/input_spread.h"
#include "core/uncertainty/monte_carlo.h"
#include <math.h>
#include <string.h>

/* Draws while looking about; what is shown has more. */
#define DRAWS_LOOKING 64
#define DRAWS_SHOWN 512
#define SEED_LOOKING 20261125

/* A change is worth saying where it leaves less than this share of what the cut is judged by. */
#define WORTH_SAYING 0.9

/* And what sets a number itself, where that is less than this share of what it was. */
static const double worth_setting = 0.9;

/* Changes that can be made at the machine. factor 0: a word. A factor of exactly what is marked
 * `to` sets the number itself. */
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
    {"edge_radius", 0.0, 0.0, 0}, /* a new tool: none to be had is keener */
    {"flutes", 0.5, 0.0, 0},
};

size_t bite_change_count(void)
{
    return sizeof changes / sizeof *changes;
}

static const struct {
    const char *input;
    const char *way;
} ways[] = {
    {"runout", "runout at the tip, with an indicator, turning the spindle by hand"},
    {"edge_radius",
     "the edge, under a loupe or a cheap microscope: is it keen, how wide is the bright line?"},
    {"machine_stiffness",
     "stiffness: push the spindle nose with a spring scale against an indicator"},
    {"stickout", "the stick-out, with a rule"},
    {"tip_diameter", "the flat at the cone's tip, under a loupe"},
    {"shear_strength", "cutting pressure: lock the spindle and draw a keen edge of known width "
                       "along a sheet's edge on a scale, at four depths"},
    {"yield", "edge force: lock the spindle and draw a keen edge of known width along a sheet's "
              "edge on a scale; what is left at no depth"},
    {"pressure_t", "cutting pressure: spindle power at two feeds"},
    {"edge_t", "edge force: spindle power at two feeds; what is left at no feed"},
    {"fracture_energy", "edge force: lock the spindle and draw a keen edge of known width along a "
                        "sheet's edge on a scale; what is left at no depth"},
    {"sublayer_share", "the tool's temperature, two or three seconds after a pass"},
    {"edge_share", "the tool's temperature, two or three seconds after a pass"},
    {"walk_share", "the slot's floor temperature right behind the tool"},
    {"skin_depth", "the slot's floor temperature right behind the tool"},
    {"cooling", "the tool's temperature with and without air, two or three seconds after a pass"},
    {"room_temperature", "the room's temperature"},
    {"packing_limit", "look into the slot after a pass: do chips lie in it?"},
    {"tool_strength", "nothing cheap: note feeds and depths at which this tool broke"},
    {"core_share", "the tool's core, with a micrometer across the flutes' ground"},
    {"torque_limit", "the spindle's load at a known cut, as its drive shows it"},
    {"power_limit", "the spindle's load at a known cut, as its drive shows it"},
    {"feed_fastest", "the feed that the machine reaches: a small square at rising feeds; where do "
                     "its corners round?"},
};

const char *bite_measurement_advice(const char *input)
{
    for (size_t i = 0; i < sizeof ways / sizeof *ways; i++) {
        if (strcmp(ways[i].input, input) == 0) {
            return ways[i].way;
        }
    }
    return "";
}

/* What a change is judged by: the chance, and where none is, how near the worst limit is. */
static double judge(const bite_result *result)
{
    double chance = isnan(result->chance) ? 0.0 : result->chance;
    return chance + 1e-3 * fmin(10.0, result->limits[result->worst].utilization);
}

/* A number as a control takes it: two significant digits. */
static double rounded(double value)
{
    double step = pow(10.0, floor(log10(value)) - 1.0);
    return round(value / step) * step;
}

int bite_change_apply(size_t at, bite_cut *cut, bite_change *change)
{
    const bite_input *input = bite_input_find(changes[at].input);
    change->input = (uint32_t)bite_input_index(input);
    if (cut->operation == BITE_CHAMFER && strcmp(input->name, "depth") == 0) {
        return 0; /* another depth is another chamfer */
    }
    if (input->words > 0) {
        uint32_t *word = bite_input_choice(cut, input);
        if (*word >= changes[at].word) {
            return 0;
        }
        *word = change->word = changes[at].word;
        cut->cooling = (double)NAN; /* follows the coolant */
        return 1;
    }
    double *number = bite_input_number(cut, input);
    int entry_feed = strcmp(input->name, "entry_feed") == 0;
    if (entry_feed && (cut->entry == BITE_ENTRY_OUTSIDE || cut->operation != BITE_MILL)) {
        return 0;
    }
    double from = change->from = entry_feed ? bite_entry_feed(cut) : *number;
    double to = changes[at].factor > 0.0                  ? from * changes[at].factor
                : strcmp(input->name, "edge_radius") == 0 ? bite_edge_radius_default(cut->diameter)
                                                          : changes[at].to;
    if (strcmp(input->name, "feed_rate") == 0 || entry_feed) { /* in whole figures of mm/min */
        to = rounded(to * 6e4) / 6e4;
    } else if (strcmp(input->name, "spindle_speed") == 0) {
        to = rounded(to * 60.0) / 60.0;
    } else {
        to = input->whole ? ceil(to) : rounded(to);
    }
    if (strcmp(input->name, "stickout") == 0 && to < cut->flute_length) {
        return 0; /* flutes do not go into a collet */
    }
    if (!(to >= input->least && to <= input->most && to != from) ||
        (changes[at].factor == 0.0 && to > worth_setting * from)) {
        return 0;
    }
    *number = change->to = to;
    return 1;
}

/* The changes, each looked at on its own. */
typedef struct change_trials {
    const bite_cut *full;
    const bite_spread *spreads;
    size_t count;
    double confidence;
    size_t first; /* the one that is looked at before the others */
    struct change_trial {
        bite_change change;
        bite_status status; /* BITE_NO_ANSWER: the change is none here */
        double judged;
    } at[sizeof changes / sizeof *changes + 1]; /* the last: all as it is */
} change_trials;

enum { AS_IT_IS = sizeof changes / sizeof *changes };

/* The cut with a change made, and the spreads that are left then. */
static int changed(const change_trials *trials, size_t index, bite_change *change, bite_cut *cut,
                   bite_spread *kept, size_t *left)
{
    *cut = *trials->full;
    *left = trials->count;
    if (index == AS_IT_IS) {
        memcpy(kept, trials->spreads, trials->count * sizeof *kept);
        return 1;
    }
    if (!bite_change_apply(index, cut, change)) {
        return 0;
    }
    *left = bite_spreads_except(trials->spreads, trials->count, bite_input_at(change->input), kept);
    return 1;
}

/* The limits with a change made. BITE_NO_ANSWER: it is none here, or enough draws went over. */
static bite_status draw_change(const change_trials *trials, size_t index,
                               const bite_sampling *sampling, bite_change *change,
                               bite_result *result)
{
    bite_cut cut;
    bite_spread kept[BITE_SPREAD_MAX];
    size_t left = 0;
    memset(result, 0, sizeof *result);
    result->struct_size = (uint32_t)sizeof *result;
    return changed(trials, index, change, &cut, kept, &left)
               ? bite_monte_carlo_run(&cut, kept, left, sampling, result, NULL)
               : BITE_NO_ANSWER;
}

/* Looks at a change until as many draws went over as are enough to know that it is worse than
 * another. */
static void look_at(change_trials *trials, size_t index, size_t over_enough)
{
    struct change_trial *trial = &trials->at[index];
    bite_result result;
    bite_sampling sampling = {.draws = DRAWS_LOOKING,
                              .seed = SEED_LOOKING,
                              .confidence = trials->confidence,
                              .limits_only = 1,
                              .over_enough = over_enough};
    trial->status = draw_change(trials, index, &sampling, &trial->change, &result);
    trial->judged = trial->status == BITE_OK ? judge(&result) : INFINITY;
}

/* The draws over from which on a chance is greater than what a change is judged by. */
static size_t enough_for(double judged)
{
    return judged < 1.0 ? (size_t)floor(DRAWS_LOOKING * judged) + 1 : 0;
}

/* What would be gained at best estimates: worth being looked at first, so that the others need not
 * be drawn to their ends. */
static size_t likeliest(const change_trials *trials)
{
    size_t best = AS_IT_IS;
    double least = INFINITY;
    for (size_t index = 0; index < AS_IT_IS; index++) {
        bite_cut cut = *trials->full;
        bite_change change = trials->at[index].change;
        bite_result result = {0};
        result.struct_size = (uint32_t)sizeof result;
        if (!bite_change_apply(index, &cut, &change) ||
            bite_cut_pass(&cut, &result, NULL) != BITE_OK) {
            continue;
        }
        double utilization = result.limits[result.worst].utilization;
        best = utilization < least ? index : best;
        least = fmin(utilization, least);
    }
    return best;
}

/* All but the first: each change is only as much as it takes to see that it is worse, and so is the
 * cut as it is. */
static void try_change(void *work, size_t index, size_t worker)
{
    (void)worker;
    change_trials *trials = work;
    if (index != trials->first) {
        double to_beat = trials->at[trials->first].judged;
        look_at(trials, index, enough_for(index == AS_IT_IS ? to_beat / WORTH_SAYING : to_beat));
    }
}

/* The limit whose chance falls the most; where none falls, the worst. */
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

/* With more draws than it was looked at with. */
static bite_status show_change(const change_trials *trials, size_t index, const bite_result *now,
                               size_t threads, bite_change *change)
{
    bite_result result;
    bite_sampling sampling = {.draws = DRAWS_SHOWN,
                              .seed = SEED_LOOKING,
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
    if (result->verdict == BITE_CLEAR || result->draws == 0) {
        return BITE_OK;
    }
    change_trials trials = {full, spreads, count, confidence, AS_IT_IS, {{none, BITE_OK, 0.0}}};
    for (size_t i = 0; i <= AS_IT_IS; i++) {
        trials.at[i].change = none;
    }
    trials.first = likeliest(&trials);
    look_at(&trials, trials.first, 0);
    bite_thread_pool_run(AS_IT_IS + 1, threads, try_change, &trials);
    size_t best = AS_IT_IS;
    for (size_t i = 0; i <= AS_IT_IS; i++) {
        if (trials.at[i].status == BITE_NO_MEMORY) {
            return BITE_NO_MEMORY;
        }
        best = trials.at[i].judged < trials.at[best].judged ? i : best;
    }
    if (!(trials.at[best].judged < WORTH_SAYING * trials.at[AS_IT_IS].judged)) {
        return BITE_OK;
    }
    bite_status status = show_change(&trials, best, result, threads, change);
    if (status == BITE_OK &&
        change->after > change->before) { /* a look was too short: with more draws it is no gain */
        *change = none;
    }
    return status;
}
