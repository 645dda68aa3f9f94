/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What do I type in: tools tried, the best settled, rounded and judged with all draws. */
#include "core/job/choice.h"
#include "core/base/error.h"
#include "core/base/vocabulary.h"
#include "core/job/trial.h"
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
    to->worst = of->point.worst;
    to->enough = to->rate = (double)NAN;
    if (of->search.cap > 0.0) { /* what was met, and how fast */
        bite_search met = of->search;
        met.goal = met.capped;
        met.cap = 0.0;
        to->rate = of->point.goal;
        to->goal = bite_optimum_at(&met, of->point.spindle, of->point.feed).goal;
        to->enough = of->search.cap;
    }
}

/* For the most removal, a deeper pass counts; the goal of a trial holds it already. */
static int better(const bite_candidate *a, const bite_candidate *b)
{
    bite_point first = {a->spindle, a->feed, a->goal, a->worst, 0, 0};
    bite_point second = {b->spindle, b->feed, b->goal, b->worst, 0, 0};
    return bite_optimum_better(&first, &second);
}

static bite_status finish(bite_trial *of, const bite_choice_options *options, bite_choice *choice, bite_error *error)
{
    bite_type_point(of, options->units);
    bite_type_candidate(&choice->second, options->units);
    bite_status status = bite_type_in(of, options->units, error);
    status = status != BITE_OK ? status : bite_answer_new(&of->ask, options->draws, options->confidence, &choice->answer, error);
    if (status == BITE_OK) {
        choice->clear = bite_answer_result(choice->answer)->verdict == BITE_CLEAR;
        choice->gain = of->search.goal;
        choice->goal = of->search.cap > 0.0 ? of->search.capped : of->search.goal;
        if (options->effort == BITE_EFFORT_WHOLE) {
            bite_binding_find(of, choice);
        }
        note(of, &choice->best);
        choice->best.holds = choice->clear; /* all draws judge, not the margins */
    }
    return status;
}

/* ---- tools ---- */

/* One tool, which does not compete. */
static int tool_is_settled(const bite_choice_options *options)
{
    return options->tool_count == 0 || (options->tool_count == 1 && strcmp(options->tools[0], "any") != 0);
}

static bite_status try_tool(const bite_ask *ask, const char *tool, const bite_choice_options *options, bite_trial *room,
                            bite_choice *choice, bite_error *error)
{
    bite_candidate seen;
    bite_status status = bite_trial_begin(ask, tool, options->goal, options->confidence, room, error);
    if (status != BITE_OK) {
        return status;
    }
    if (options->effort == BITE_EFFORT_QUICK) {
        bite_trial_close_in(room);
    } else if (tool_is_settled(options)) {
        bite_trial_find_passes(room);
    } else {
        bite_trial_glance(room);
    }
    memset(&seen, 0, sizeof seen);
    (void)snprintf(seen.tool, sizeof seen.tool, "%.*s", BITE_TYPED_MOST - 1, tool == NULL ? room->ask.tool_name : tool);
    note(room, &seen);
    choice->tools++;
    if (choice->tools == 1 || better(&seen, &choice->best)) {
        choice->second = choice->best;
        choice->best = seen;
    } else if (choice->second.tool[0] == 0 || better(&seen, &choice->second)) {
        choice->second = seen;
    }
    return BITE_OK;
}

/* Cones cut chamfers, and of the table nothing else does. */
static int is_of_the_kind(const bite_ask *ask, const char *tool)
{
    const bite_thing *thing = NULL;
    const bite_typed *operation = bite_trial_typed(ask, "operation");
    int chamfers = operation->given && operation->word == BITE_CHAMFER;
    int cone =
        bite_library_thing(ask->library, BITE_TOOLS, tool, &thing, NULL) == BITE_OK && bite_thing_cell(thing, "taper") != NULL;
    return cone == chamfers;
}

/* A tool of the table that cannot make this cut at all is passed over; one that was named is not. */
static bite_status try_table(const bite_ask *ask, const bite_choice_options *options, bite_trial *room, bite_choice *choice,
                             bite_error *error)
{
    size_t count = bite_library_count(ask->library, BITE_TOOLS);
    for (size_t i = 0; i < count; i++) {
        bite_item item;
        bite_status status = bite_library_item(ask->library, BITE_TOOLS, i, &item, error);
        if (status == BITE_OK && !is_of_the_kind(ask, item.name)) {
            continue;
        }
        status = status != BITE_OK ? status : try_tool(ask, item.name, options, room, choice, error);
        if (status == BITE_NO_MEMORY) {
            return status;
        }
    }
    return choice->tools > 0 ? BITE_OK : BITE_NO_ANSWER;
}

static bite_status try_all(const bite_ask *ask, const bite_choice_options *options, bite_trial *room, bite_choice *choice,
                           bite_error *error)
{
    if (options->tool_count == 0) {
        return try_tool(ask, NULL, options, room, choice, error);
    }
    for (size_t i = 0; i < options->tool_count; i++) {
        bite_status status = strcmp(options->tools[i], "any") == 0 ? try_table(ask, options, room, choice, error)
                                                                   : try_tool(ask, options->tools[i], options, room, choice, error);
        if (status != BITE_OK) {
            return status;
        }
    }
    return BITE_OK;
}

static bite_status check_options(const bite_ask *ask, const bite_choice_options *options, bite_choice **choice, bite_error *error)
{
    if (ask == NULL || choice == NULL || options == NULL || options->struct_size != sizeof *options ||
        options->goal > BITE_GOAL_USUAL || options->units > BITE_INCH || options->effort > BITE_EFFORT_QUICK ||
        (options->tool_count > 0 && options->tools == NULL) || (options->step_count > 0 && options->steps == NULL) ||
        !(options->confidence >= 0.5 && options->confidence <= 0.999)) {
        bite_error_set(error, BITE_BAD_ARGUMENT,
                       "an ask, options of this library's size, and a place for the choice were expected");
        bite_error_key(error, "options");
        return BITE_BAD_ARGUMENT;
    }
    return BITE_OK;
}

/* Fewer draws than are shown may call clear what is not, by a hair: then once more, with less of the chance used up. */
static bite_status settle(bite_trial *room, const bite_choice_options *options, bite_choice *choice, bite_error *error)
{
    const double careful = 0.6;
    bite_trial *again = NULL;
    if (options->effort == BITE_EFFORT_QUICK) {
        bite_status quick = bite_trial_settle_quick(room, error);
        return quick != BITE_OK ? quick : finish(room, options, choice, error);
    }
    again = bite_memory_new(&choice->allocator, 1, sizeof *again);
    if (again == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a choice");
    }
    bite_trial_copy(room, again);
    bite_status status = bite_trial_settle(room, options->units, error);
    status = status != BITE_OK ? status : finish(room, options, choice, error);
    if (status == BITE_OK && !choice->clear) {
        bite_choice careful_choice = *choice;
        again->strictness = careful;
        careful_choice.answer = NULL;
        careful_choice.binding_count = 0;
        status = bite_trial_settle(again, options->units, error);
        status = status != BITE_OK ? status : finish(again, options, &careful_choice, error);
        int better = status == BITE_OK && careful_choice.clear;
        bite_answer_free(better ? choice->answer : careful_choice.answer);
        *choice = better ? careful_choice : *choice;
    }
    bite_memory_free(&choice->allocator, again);
    return status;
}

static bite_status choose(const bite_ask *ask, const bite_choice_options *options, bite_choice **choice, bite_error *error)
{
    bite_status status = BITE_OK;
    bite_choice *fresh = bite_memory_new(&ask->allocator, 1, sizeof *fresh);
    bite_trial *room = bite_memory_new(&ask->allocator, 1, sizeof *room);
    if (fresh == NULL || room == NULL) {
        bite_memory_free(&ask->allocator, fresh);
        bite_memory_free(&ask->allocator, room);
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a choice");
    }
    memset(fresh, 0, sizeof *fresh);
    fresh->allocator = ask->allocator;
    status = try_all(ask, options, room, fresh, error);
    char name[BITE_TYPED_MOST];
    memcpy(name, fresh->best.tool, sizeof name);
    const char *tool = options->tool_count == 0 ? NULL : name;
    if (status == BITE_OK && !tool_is_settled(options)) { /* else its trial still stands */
        status = bite_trial_begin(ask, tool, options->goal, options->confidence, room, error);
        if (status == BITE_OK) {
            bite_trial_find_passes(room);
        }
    }
    status = status != BITE_OK ? status : settle(room, options, fresh, error);
    bite_memory_free(&ask->allocator, room);
    if (status != BITE_OK) {
        bite_choice_free(fresh);
        return status;
    }
    *choice = fresh;
    return BITE_OK;
}

/* A choice that is clear before one that is not, then by goal or by how far it is over. */
static int choice_better(const bite_choice *a, const bite_choice *b)
{
    if (a->clear != b->clear) {
        return a->clear > b->clear;
    }
    return a->clear ? a->best.goal < b->best.goal : a->best.worst < b->best.worst; /* all draws have judged, not the margins */
}

/* The best of them, and of those that meet the goal as well the fastest. */
static bite_choice *best_of(bite_choice *const *of, size_t count)
{
    bite_choice *best = NULL;
    bite_choice *fastest = NULL;
    for (size_t i = 0; i < count; i++) {
        best = best == NULL || choice_better(of[i], best) ? of[i] : best;
    }
    for (size_t i = 0; best != NULL && i < count; i++) {
        int met = of[i]->clear == best->clear && of[i]->best.goal <= best->best.enough && of[i]->best.worst <= 1.0;
        fastest = met && (fastest == NULL || of[i]->best.rate < fastest->best.rate) ? of[i] : fastest;
    }
    return fastest == NULL ? best : fastest;
}

/* A spindle with steps: the best of each. A step that the spindle cannot turn is passed over. */
static bite_status choose_step(const bite_ask *ask, const bite_choice_options *options, bite_choice **choice, bite_error *error)
{
    bite_ask *stepped = bite_memory_new(&ask->allocator, 1, sizeof *stepped);
    bite_choice **all = bite_memory_new(&ask->allocator, options->step_count, sizeof *all);
    size_t count = 0;
    bite_status status = stepped == NULL || all == NULL ? bite_error_set(error, BITE_NO_MEMORY, "no memory for a choice") : BITE_OK;
    for (size_t i = 0; status == BITE_OK && i < options->step_count; i++) {
        *stepped = *ask;
        status = bite_type_number(stepped, "spindle_speed", 60.0 * options->steps[i], "rpm", error);
        status = status != BITE_OK ? status : choose(stepped, options, &all[count], error);
        count += status == BITE_OK;
    }
    bite_choice *best = status == BITE_OK ? best_of(all, count) : NULL;
    for (size_t i = 0; i < count; i++) {
        if (all[i] != best) {
            bite_choice_free(all[i]);
        }
    }
    bite_memory_free(&ask->allocator, all);
    bite_memory_free(&ask->allocator, stepped);
    if (status == BITE_OK) {
        *choice = best;
    }
    return status;
}

bite_status bite_choice_new(const bite_ask *ask, const bite_choice_options *options, bite_choice **choice, bite_error *error)
{
    bite_error_clear(error);
    bite_status status = check_options(ask, options, choice, error);
    if (status != BITE_OK) {
        return status;
    }
    int fixed = bite_trial_typed(ask, "spindle_speed")->given != 0;
    return options->step_count > 0 && !fixed ? choose_step(ask, options, choice, error) : choose(ask, options, choice, error);
}

void bite_choice_free(bite_choice *choice)
{
    if (choice != NULL) {
        bite_allocator allocator = choice->allocator;
        bite_answer_free(choice->answer);
        bite_memory_free(&allocator, choice);
    }
}

const bite_answer *bite_choice_answer(const bite_choice *choice)
{
    return choice == NULL ? NULL : choice->answer;
}

size_t bite_choice_passes(const bite_choice *choice)
{
    return choice == NULL ? 0 : choice->best.passes;
}

size_t bite_choice_side_passes(const bite_choice *choice)
{
    return choice == NULL ? 0 : choice->best.side_passes;
}

int bite_choice_binding(const bite_choice *choice, size_t index, bite_row_id *row, double *gain)
{
    if (choice == NULL || row == NULL || gain == NULL || index >= choice->binding_count) {
        return 0;
    }
    *row = (bite_row_id)choice->binding[index].row;
    *gain = choice->binding[index].gain;
    return 1;
}
