/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One tool: settled, rounded to what a person types, and judged with all draws. */
#include "core/base/error.h"
#include "core/search/choice.h"
#include "core/search/search_internal.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

static void note(const bite_trial *of, bite_candidate *to)
{
    to->holds = of->point.worst <= 1.0;
    to->passes = of->parting.down;
    to->side_passes = of->parting.side;
    to->spindle = of->point.spindle;
    to->feed = of->point.feed;
    to->depth = of->full.depth;
    to->width = of->full.operation == BITE_MILL && !isnan(of->full.feature_width) ? of->full.width : (double)NAN;
    to->goal = of->point.goal;
    to->enough = (double)NAN;
    if (of->search.cap > 0.0) { /* what was met */
        to->goal = bite_optimum_capped(&of->search, of->point.spindle, of->point.feed);
        to->enough = of->search.cap;
    }
}

/* The settings typed and judged by all draws; what to change first is looked for later. */
static bite_status answer(bite_trial *of, const bite_choice_options *options, bite_answer **to, int *clear, bite_error *error)
{
    bite_type_point(of, options->units);
    bite_status status = bite_type_in(of, options->units, error);
    of->request.skip_change = 1;
    status = status == BITE_OK ? bite_answer_new(&of->request, options->draws, options->confidence, to, error) : status;
    *clear = status == BITE_OK && bite_answer_result(*to)->verdict == BITE_CLEAR;
    return status;
}

static void fill(bite_trial *of, const bite_choice_options *options, bite_choice *choice)
{
    choice->clear = bite_answer_result(choice->answer)->verdict == BITE_CLEAR;
    choice->gain = of->search.goal;
    choice->goal = of->search.cap > 0.0 ? of->search.capped : of->search.goal;
    if (options->effort == BITE_EFFORT_WHOLE) {
        bite_binding_find(of, choice);
    }
    note(of, &choice->best);
    choice->best.holds = choice->clear; /* all draws judge, not the margins */
}

/* Trials beside the one that is settled. */
enum { MORE_TRIED, MORE_NEXT, MORE_BEST, MORE_TRIALS };

#define TIMES_SETTLED 3
#define STEPS_BACK 2
static const double stricter = 0.8;

/* Tried settings and their answer become the best. */
static void take(const bite_trial *tried, bite_answer *fresh, bite_trial *best, bite_answer **answered)
{
    bite_answer_free(*answered);
    *answered = fresh;
    bite_trial_copy(tried, best);
}

/* Settings, and what all draws make of their chance. */
typedef struct seen_all {
    bite_point point;
    double chance;
} seen_all;

/* Where the chance comes near to all that is left, between settings that are too likely to go over and some that are not. */
static bite_point between(const seen_all *over, const seen_all *clear, double wanted)
{
    double share = fmin(0.9, fmax(0.1, (wanted - clear->chance) / (over->chance - clear->chance)));
    bite_point point = {clear->point.spindle * pow(over->point.spindle / clear->point.spindle, share),
                        clear->point.feed * pow(over->point.feed / clear->point.feed, share),
                        0.0,
                        0.0,
                        0,
                        0};
    return point;
}

/* From settings that are clear on again, where they leave much of the chance unused. */
static bite_status close_in(bite_trial *tried, const seen_all *over, bite_trial *best, const bite_choice_options *options,
                            bite_answer **answered, bite_error *error)
{
    const double used = 0.75; /* of the chance: enough of it */
    const double aim = 0.9;
    double left = 1.0 - options->confidence;
    bite_answer *fresh = NULL;
    int clear = 0;
    seen_all safe = {best->point, bite_answer_result(*answered)->chance};
    if (safe.chance >= used * left) {
        return BITE_OK;
    }
    bite_trial_copy(best, tried);
    bite_point point = between(over, &safe, aim * left);
    bite_status status = bite_trial_stand_at(tried, &point, error);
    status = status == BITE_OK ? answer(tried, options, &fresh, &clear, error) : status;
    if (clear) {
        take(tried, fresh, best, answered);
    } else {
        bite_answer_free(fresh);
    }
    return status;
}

/* Fewer draws than are shown called clear what is not, by a hair: back to where so much less of the chance is used up as all draws
 * ask for, and from there on again. Where nothing is clear `best` stays as it was. */
static bite_status step_back(bite_trial *room, bite_trial *tried, bite_trial *best, const bite_choice_options *options,
                             bite_answer **answered, bite_error *error)
{
    const double aim = 0.93;
    seen_all over = {best->point, bite_answer_result(*answered)->chance};
    double few = best->chance;
    for (int i = 0; i < STEPS_BACK; i++) {
        bite_answer *fresh = NULL;
        int clear = 0;
        room->strictness = fmin(0.9 * room->strictness, aim * few / over.chance);
        bite_status status = bite_trial_be_careful(room, error);
        bite_trial_copy(room, tried);
        status = status == BITE_OK ? answer(tried, options, &fresh, &clear, error) : status;
        if (clear) {
            take(tried, fresh, best, answered);
            return close_in(tried, &over, best, options, answered, error);
        }
        if (status == BITE_OK) {
            over.point = tried->point;
            over.chance = bite_answer_result(fresh)->chance;
            few = tried->chance;
        }
        bite_answer_free(fresh);
        if (status != BITE_OK) {
            return status;
        }
    }
    return BITE_OK;
}

/* Where all draws leave much of the chance that few draws saw used up, on again by as much. */
static bite_status step_on(bite_trial *tried, bite_trial *best, const bite_choice_options *options, bite_answer **judged,
                           bite_error *error)
{
    const double unused = 0.75; /* of the chance: below it something is left */
    const double held = 0.6;    /* of what few draws were allowed: below it the chance does not hold the settings back */
    double left = 1.0 - options->confidence;
    double all = bite_answer_result(*judged)->chance;
    bite_answer *fresh = NULL;
    int clear = 0;
    if (all >= unused * left || best->chance < held * best->strictness * left || !(all > 0.0)) {
        return BITE_OK;
    }
    bite_trial_copy(best, tried);
    tried->strictness = fmin(2.0, best->chance / all);
    bite_status status = bite_trial_polish(tried, error);
    status = status == BITE_OK ? answer(tried, options, &fresh, &clear, error) : status;
    if (clear && tried->point.goal < best->point.goal) {
        take(tried, fresh, best, judged);
    } else {
        bite_answer_free(fresh);
    }
    return status;
}

/* Polished and judged, and what all draws call too likely stepped back from: left in `best` with its answer. */
static bite_status settle_finely(bite_trial *room, bite_trial *tried, bite_trial *best, const bite_choice_options *options,
                                 bite_answer **judged, int *clear, bite_error *error)
{
    bite_trial_copy(room, best);
    bite_status status = bite_trial_polish(best, error);
    status = status == BITE_OK ? answer(best, options, judged, clear, error) : status;
    if (status != BITE_OK || !room->clear || options->draws == BITE_DRAWS_NONE) {
        return status;
    }
    if (*clear) {
        return step_on(tried, best, options, judged, error);
    }
    status = step_back(room, tried, best, options, judged, error);
    *clear = status == BITE_OK && bite_answer_result(*judged)->verdict == BITE_CLEAR;
    return status;
}

/* Settled; where few draws called clear what all draws do not, with more passes once more. What is clear, or else the first, is
 * left in more[MORE_BEST] with its answer. */
static bite_status settle_with(bite_trial *room, bite_trial *more, const bite_choice_options *options, bite_answer **judged,
                               bite_error *error)
{
    int clear = 0;
    uint32_t called_clear = 1;
    bite_status status = bite_trial_settle(room, options->units, error);
    for (int i = 0; i < TIMES_SETTLED && status == BITE_OK && !clear && called_clear; i++) {
        bite_answer *fresh = NULL;
        bite_trial *best = &more[i == 0 ? MORE_BEST : MORE_NEXT];
        if (i > 0) {
            room->strictness = stricter;
            status = bite_trial_settle_more(room, options->units, error);
        }
        called_clear = room->clear && options->draws != BITE_DRAWS_NONE;
        status = status == BITE_OK ? settle_finely(room, &more[MORE_TRIED], best, options, &fresh, &clear, error) : status;
        if (status == BITE_OK && (i == 0 || clear)) {
            bite_answer_free(*judged);
            *judged = fresh;
            fresh = NULL;
            if (i > 0) {
                bite_trial_copy(best, &more[MORE_BEST]);
            }
        }
        bite_answer_free(fresh);
    }
    return status == BITE_NO_ANSWER ? BITE_OK : status;
}

/* An answer that is clear has nothing to change first; another is made again, with that. */
static bite_status settle_whole(bite_trial *room, bite_trial *more, const bite_choice_options *options, bite_choice *choice,
                                bite_error *error)
{
    bite_trial *best = &more[MORE_BEST];
    bite_status status = settle_with(room, more, options, &choice->answer, error);
    if (status != BITE_OK) {
        return status;
    }
    best->request.skip_change = 0;
    if (bite_answer_result(choice->answer)->verdict == BITE_CLEAR) {
        choice->answer->request.skip_change = 0;
    } else {
        bite_answer_free(choice->answer);
        choice->answer = NULL;
        status = bite_answer_new(&best->request, options->draws, options->confidence, &choice->answer, error);
    }
    if (status == BITE_OK) {
        fill(best, options, choice);
    }
    return status;
}

static bite_status settle_quick(bite_trial *room, const bite_choice_options *options, bite_choice *choice, bite_error *error)
{
    int clear = 0;
    bite_status status = bite_trial_settle_quick(room, error);
    status = status == BITE_OK ? answer(room, options, &choice->answer, &clear, error) : status;
    if (status == BITE_OK) {
        fill(room, options, choice);
    }
    return status;
}

static bite_status settle(bite_trial *room, const bite_choice_options *options, bite_choice *choice, bite_error *error)
{
    if (options->effort == BITE_EFFORT_QUICK) {
        return settle_quick(room, options, choice, error);
    }
    bite_trial *more = bite_memory_new(&choice->allocator, MORE_TRIALS, sizeof *more);
    if (more == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a choice");
    }
    bite_status status = settle_whole(room, more, options, choice, error);
    bite_memory_free(&choice->allocator, more);
    return status;
}

/* One tool settled: *choice, with its own answer. */
bite_status bite_choice_of_tool(const bite_request *request, const char *tool, const bite_choice_options *options, bite_trial *room,
                                bite_choice **choice, bite_error *error)
{
    bite_choice *fresh = bite_memory_new(&request->allocator, 1, sizeof *fresh);
    if (fresh == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a choice");
    }
    memset(fresh, 0, sizeof *fresh);
    fresh->allocator = request->allocator;
    fresh->tools = 1;
    bite_status status = bite_trial_begin(request, tool, options->goal, options->confidence, room, error);
    status = status == BITE_OK ? settle(room, options, fresh, error) : status;
    if (status != BITE_OK) {
        bite_choice_free(fresh);
        return status;
    }
    (void)snprintf(fresh->best.tool, sizeof fresh->best.tool, "%.*s", BITE_TYPED_MOST - 1,
                   tool == NULL ? room->request.tool_name : tool);
    *choice = fresh;
    return BITE_OK;
}
