/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The smallest change of one input with which a request that has no clear settings has some.
 *
 * A search takes long, so it only verifies. First each change is applied to the cut at the least
 * bad settings, and judged with few draws: a change that eases none of the limits in conflict is
 * left out, and the size at which these settings become clear is where the search begins, for new
 * settings need no larger change. The changes are then searched in the order of these sizes, each
 * only below the smallest that has been verified.
 */
#include "core/base/caller_struct.h"
#include "core/base/error.h"
#include "core/cut/input_check.h"
#include "core/library/collection.h"
#include "core/library/listing.h"
#include "core/search/choice.h"
#include "core/search/tool_choice.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

/* Sizes at which the least bad settings are judged, |ln(to/from)|: none, for a default that is only
 * stated, and from a twentieth to a factor of eight. Larger changes make another part, or another
 * tool. */
static const double sizes[] = {0.0, 0.05, 0.1, 0.2, 0.4, 0.8, 1.4, 2.08};
enum { SIZES = sizeof sizes / sizeof *sizes, SIZE_SCREENED = 4, HALVINGS_JUDGED = 6 };

/* Draws of the least bad settings; the verifying search has those of the request. */
enum { DRAWS_JUDGED = 128 };

/* The limits in conflict are eased if one of them falls by this much. */
static const double eases_least = 0.01;

/* The search for the size: to a sixteenth of it, and where the judged settings promised too much,
 * beyond their size by this factor. */
static const double beyond = 1.15;
static const double first_share = 0.75;
static const double close_enough = 1.0 / 16.0;
enum { SEARCHES_MOST = 6, FAILURES_MOST = 3 };

/* Another input is searched only below the best by this factor; what is entered is rounded up. */
static const double worth_less = 0.95;

/* New settings rarely need less than this share of what the least bad ones need. Where these become
 * clear at no size, since other limits are at their ends, nothing is known of it. */
static const double least_of_judged = 0.4;

/* Searches of other tools of the table, and of chances that are accepted. */
enum { TOOLS_MOST = 4, CHANCES_MOST = 3 };
static const double accepted_most = 0.5;
static const double same_diameter = 0.01;

typedef struct freeing_search {
    const bite_request *request;
    const bite_choice_options *options;
    bite_choice *choice;
    bite_request *base; /* the request with the tool of the choice */
    bite_request *trial;
    bite_error *error;
} freeing_search;

/* An input, and the size at which the least bad settings become clear. */
typedef struct freeing_input {
    size_t at;
    double judged; /* INFINITY: at none */
} freeing_input;

/* ---- the least bad settings ---- */

/* Begins a changed request: at the least bad settings, or free as it was asked. */
static void begin_settings(const freeing_search *search)
{
    *search->trial = search->choice->answer->request;
    search->trial->skip_change = 1;
}

static void begin_request(const freeing_search *search)
{
    *search->trial = *search->base;
    search->trial->scope = BITE_SCOPE_CLEAR;
}

static double draws_of(const bite_limit *limit)
{
    return isnan(limit->chance) ? 0.0 : limit->chance;
}

/* Nonzero: one of the limits in conflict has more to spare than before. */
static int eases(const bite_choice *choice, const bite_result *after)
{
    const bite_result *before = bite_answer_result(choice->answer);
    for (uint32_t i = 0; i < choice->active_count; i++) {
        uint32_t id = choice->active[i].limit;
        if (id < BITE_LIMIT_COUNT) {
            const bite_limit *was = &before->limits[id];
            const bite_limit *is = &after->limits[id];
            if (!is->applies || is->utilization < (1.0 - eases_least) * was->utilization ||
                draws_of(is) < draws_of(was) - eases_least) {
                return 1;
            }
        }
    }
    return choice->active_count == 0 && after->chance < before->chance;
}

/* Judges the trial at its settings. A request that cannot be judged is not clear. */
static bite_status judge(const freeing_search *search, int *eased, int *clear)
{
    bite_answer *answer = NULL;
    bite_error error = BITE_ERROR_INIT;
    size_t draws = search->options->draws == BITE_DRAWS_NONE ? BITE_DRAWS_NONE : DRAWS_JUDGED;
    bite_status status =
        bite_answer_new(search->trial, draws, search->options->confidence, &answer, &error);
    const bite_result *result = bite_answer_result(answer);
    *eased = status == BITE_OK && eases(search->choice, result);
    *clear = status == BITE_OK && result->verdict == BITE_CLEAR;
    bite_answer_free(answer);
    return status == BITE_NO_MEMORY ? bite_error_set(search->error, status, "%s", error.message)
                                    : BITE_OK;
}

static int change_number(const freeing_search *search, size_t at, double size,
                         bite_request_change *change)
{
    return bite_request_change_number(at, size, search->request, (bite_units)search->options->units,
                                      search->choice->answer, search->trial, change);
}

/* Judges the least bad settings with a change of this size. *clear is 0 if it does not apply. */
static bite_status judge_size(const freeing_search *search, size_t at, double size, int *eased,
                              int *clear)
{
    bite_request_change change;
    begin_settings(search);
    *eased = *clear = 0;
    return change_number(search, at, size, &change) ? judge(search, eased, clear) : BITE_OK;
}

/* The size at which the least bad settings become clear. *eased: 0 if the change is of no use. */
static bite_status judge_input(const freeing_search *search, freeing_input *input, int *eased)
{
    int clear = 0;
    int unused = 0;
    double fails = 0.0;
    input->judged = INFINITY;
    bite_status status = BITE_OK;
    for (int i = SIZE_SCREENED; i >= 0 && !*eased && status == BITE_OK; i--) {
        status = judge_size(search, input->at, sizes[i], eased, &clear);
    }
    for (int i = 0; *eased && i < SIZES && isinf(input->judged) && status == BITE_OK; i++) {
        status = judge_size(search, input->at, sizes[i], &unused, &clear);
        input->judged = clear ? sizes[i] : INFINITY;
        fails = clear ? fails : sizes[i];
    }
    for (int i = 0; isfinite(input->judged) && i < HALVINGS_JUDGED && status == BITE_OK; i++) {
        double between = 0.5 * (fails + input->judged);
        status = judge_size(search, input->at, between, &unused, &clear);
        input->judged = clear ? between : input->judged;
        fails = clear ? fails : between;
    }
    return status;
}

/* ---- searches ---- */

/* Searches for settings of the trial. *clear: there are some. A request that cannot be searched has
 * none. tools: 1 for all tools of the options, 0 for the tool of the trial. */
static bite_status find_settings(const freeing_search *search, int tools, double confidence,
                                 bite_freeing_change *change, int *clear)
{
    bite_choice_options options = *search->options;
    bite_choice *choice = NULL;
    bite_error error = BITE_ERROR_INIT;
    options.tools = tools ? options.tools : NULL;
    options.tool_count = tools ? options.tool_count : 0;
    options.confidence = confidence;
    bite_status status = bite_choice_search(search->trial, &options, &choice, &error);
    *clear = status == BITE_OK && choice->clear;
    change->chance = status == BITE_OK ? bite_answer_result(choice->answer)->chance : (double)NAN;
    bite_choice_free(choice);
    return status == BITE_NO_MEMORY ? bite_error_set(search->error, status, "%s", error.message)
                                    : BITE_OK;
}

/* least: of what is entered; as large a change is not searched again, for numbers are rounded. */
static bite_status search_size(const freeing_search *search, size_t at, double size, double least,
                               bite_freeing_change *change, int *clear)
{
    begin_request(search);
    *clear = 0;
    return change_number(search, at, size, &change->change) && change->change.size < least
               ? find_settings(search, 0, search->options->confidence, change, clear)
               : BITE_OK;
}

/* The next size to search: larger until one frees, then smaller by more and more until one fails,
 * then between. */
static double next_size(double fails, double frees, int successes, double size)
{
    return isinf(frees)     ? beyond * size
           : fails > 0.0    ? 0.5 * (fails + frees)
           : successes == 1 ? first_share * frees
                            : 0.5 * frees;
}

/* The least size of a change of this input that frees the request, if it is smaller than `least`
 * so far. Where no size of the least bad settings was clear, one is searched. */
static bite_status search_input(const freeing_search *search, const freeing_input *input,
                                double least, bite_freeing_change *best)
{
    const double most = worth_less * least;
    bite_freeing_change tried;
    double fails = 0.0;
    double frees = INFINITY;
    double size = fmin(isfinite(input->judged) ? input->judged : sizes[SIZES - 2], most);
    int failures = isfinite(input->judged) ? FAILURES_MOST : 1;
    int successes = 0;
    bite_status status = BITE_OK;
    memset(&tried, 0, sizeof tried);
    for (int i = 0; i < SEARCHES_MOST && status == BITE_OK && size <= most; i++) {
        int clear = 0;
        status = search_size(search, input->at, size, fmin(least, frees), &tried, &clear);
        if (clear) {
            frees = tried.change.size;
            successes++;
            *best = tried;
        } else {
            fails = size;
        }
        if (isinf(frees) ? i + 1 >= failures : frees - fails <= close_enough * frees) {
            break;
        }
        size = next_size(fails, frees, successes, size);
    }
    return status;
}

/* Nonzero: with all tools of the options, of which the change was searched for one, it is clear. */
static bite_status verify_tools(const freeing_search *search, size_t at,
                                bite_freeing_change *change, int *clear)
{
    *clear = change->change.what != NULL;
    if (search->options->tool_count < 2 || !*clear) {
        return BITE_OK;
    }
    bite_request_change again;
    begin_request(search);
    *clear = change_number(search, at, change->change.size * (1.0 - 1e-9), &again);
    return *clear ? find_settings(search, 1, search->options->confidence, change, clear) : BITE_OK;
}

/* The inputs that ease a limit in conflict, in the order of their judged sizes. */
static bite_status list_inputs(const freeing_search *search, freeing_input *inputs, size_t *count)
{
    bite_status status = BITE_OK;
    *count = 0;
    for (size_t at = 0; at < bite_request_change_count() && status == BITE_OK; at++) {
        freeing_input input = {at, INFINITY};
        int eased = 0;
        status = judge_input(search, &input, &eased);
        if (eased && status == BITE_OK) {
            size_t place = (*count)++;
            for (; place > 0 && inputs[place - 1].judged > input.judged; place--) {
                inputs[place] = inputs[place - 1];
            }
            inputs[place] = input;
        }
    }
    return status;
}

static bite_status search_inputs(const freeing_search *search, freeing_input *inputs)
{
    size_t count = 0;
    bite_freeing_change *best = &search->choice->freeing[0];
    bite_status status = list_inputs(search, inputs, &count);
    for (size_t i = 0; i < count && status == BITE_OK; i++) {
        bite_freeing_change found;
        double least = best->change.what == NULL ? INFINITY : best->change.size;
        double hoped = isinf(inputs[i].judged) ? 0.0 : least_of_judged * inputs[i].judged;
        int clear = 0;
        memset(&found, 0, sizeof found);
        if (hoped < worth_less * least) {
            status = search_input(search, &inputs[i], least, &found);
        }
        status = status == BITE_OK ? verify_tools(search, inputs[i].at, &found, &clear) : status;
        if (clear && status == BITE_OK) {
            *best = found;
        }
    }
    return status;
}

/* ---- tools, workholding, coolants, chances ---- */

/* Nonzero: the diameter of the tool is not the width of the feature, or a corner or a gap asks for
 * another one. */
static int diameter_is_free(const freeing_search *search)
{
    const bite_cut *full = &search->choice->answer->full;
    for (uint32_t i = 0; i < search->choice->active_count; i++) {
        uint32_t id = search->choice->active[i].limit;
        if (id == BITE_LIMIT_CORNER || id == BITE_LIMIT_GAP) {
            return 1;
        }
    }
    return !isnan(full->width) || !isnan(full->feature_width);
}

/* The record of one item of a collection. */
static bite_status record_at(const freeing_search *search, bite_collection collection, size_t index,
                             const bite_item_record **record)
{
    const bite_library *library = search->request->library;
    bite_item item;
    bite_status status = bite_library_item(library, collection, index, &item, search->error);
    return status == BITE_OK
               ? bite_library_record(library, collection, item.name, record, search->error)
               : status;
}

/* The tool of the table whose change is the smallest above `from` and below `most`. NULL: none. */
static bite_status next_tool(const freeing_search *search, double from, double most,
                             const bite_item_record **next, double *size)
{
    const bite_answer *answer = search->choice->answer;
    int any_diameter = diameter_is_free(search);
    size_t count = 0;
    bite_status status =
        bite_library_size(search->request->library, BITE_TOOLS, &count, search->error);
    *next = NULL;
    *size = most;
    for (size_t i = 0; i < count && status == BITE_OK; i++) {
        bite_request_change change;
        const bite_item_record *tool = NULL;
        status = record_at(search, BITE_TOOLS, i, &tool);
        if (status != BITE_OK) {
            return status;
        }
        const bite_field_value *diameter = bite_item_field(tool, "diameter");
        int same =
            diameter != NULL && fabs(diameter->value / answer->full.diameter - 1.0) < same_diameter;
        begin_settings(search);
        if ((same || any_diameter) &&
            bite_request_change_tool(tool, answer, search->trial, &change) && change.size > from &&
            change.size < *size) {
            *next = tool;
            *size = change.size;
        }
    }
    return status;
}

/* The nearest tools of the table that ease a limit in conflict, if one was asked for. */
static bite_status search_tools(const freeing_search *search)
{
    bite_freeing_change *best = &search->choice->freeing[0];
    double most = best->change.what == NULL ? sizes[SIZES - 1] : worth_less * best->change.size;
    double size = 0.0;
    int left = search->options->tool_count < 2 ? TOOLS_MOST : 0;
    bite_status status = BITE_OK;
    while (left > 0 && status == BITE_OK) {
        const bite_item_record *tool = NULL;
        bite_freeing_change tried;
        int eased = 0;
        int clear = 0;
        status = next_tool(search, size, most, &tool, &size);
        if (tool == NULL || status != BITE_OK) {
            return status;
        }
        memset(&tried, 0, sizeof tried);
        begin_settings(search);
        (void)bite_request_change_tool(tool, search->choice->answer, search->trial, &tried.change);
        status = judge(search, &eased, &clear);
        if (eased && status == BITE_OK) {
            left--;
            begin_request(search);
            (void)bite_request_change_tool(tool, search->choice->answer, search->trial,
                                           &tried.change);
            status = find_settings(search, 0, search->options->confidence, &tried, &clear);
            if (clear) {
                *best = tried;
                return status;
            }
        }
    }
    return status;
}

/* Puts a change of words into the trial. hold: NULL for a coolant. 0: it does not apply. */
static int change_words(const freeing_search *search, const bite_item_record *hold,
                        uint32_t coolant, bite_request_change *change)
{
    return hold != NULL ? bite_request_change_hold(hold, search->trial, change)
                        : bite_request_change_coolant(coolant, search->choice->answer,
                                                      search->trial, change);
}

/* Judges a change of words at the least bad settings, and searches if it eases a limit in conflict.
 */
static bite_status try_words(const freeing_search *search, const bite_item_record *hold,
                             uint32_t coolant, int *clear)
{
    bite_freeing_change tried;
    int eased = 0;
    memset(&tried, 0, sizeof tried);
    *clear = 0;
    begin_settings(search);
    if (!change_words(search, hold, coolant, &tried.change)) {
        return BITE_OK;
    }
    bite_status status = judge(search, &eased, clear);
    *clear = 0;
    begin_request(search);
    if (status != BITE_OK || !eased || !change_words(search, hold, coolant, &tried.change)) {
        return status;
    }
    status = find_settings(search, search->options->tool_count > 1, search->options->confidence,
                           &tried, clear);
    if (*clear && status == BITE_OK) {
        search->choice->freeing[1] = tried;
    }
    return status;
}

/* Bonds and vacuums only: how firmly clamps hold a part is not part of a cut. */
static bite_status search_holds(const freeing_search *search, int *clear)
{
    size_t count = 0;
    bite_status status =
        search->base->hold == NULL
            ? BITE_OK
            : bite_library_size(search->request->library, BITE_HOLDS, &count, search->error);
    for (size_t i = 0; i < count && !*clear && status == BITE_OK; i++) {
        const bite_item_record *hold = NULL;
        status = record_at(search, BITE_HOLDS, i, &hold);
        if (status == BITE_OK && (bite_item_field(hold, "layers") != NULL ||
                                  bite_item_field(hold, "bond_shear") != NULL)) {
            status = try_words(search, hold, 0, clear);
        }
    }
    return status;
}

static bite_status search_words(const freeing_search *search)
{
    int clear = 0;
    for (uint32_t word = BITE_COOLANT_AIR; word <= BITE_COOLANT_FLOOD && !clear; word++) {
        bite_status status = try_words(search, NULL, word, &clear);
        if (status != BITE_OK) {
            return status;
        }
    }
    return search_holds(search, &clear);
}

/* If no other change was found: the chance that would have to be accepted, in whole percent. */
static bite_status search_chance(const freeing_search *search)
{
    bite_freeing_change *best = &search->choice->freeing[0];
    double chance = bite_answer_result(search->choice->answer)->chance;
    double allowed = 1.0 - search->options->confidence;
    bite_status status = BITE_OK;
    int clear = best->change.what != NULL || search->choice->freeing[1].change.what != NULL;
    if (isnan(chance) || search->choice->relaxed > 0) {
        return BITE_OK;
    }
    for (int i = 0; i < CHANCES_MOST && !clear && status == BITE_OK; i++) {
        double accepted = ceil(100.0 * fmax(chance, allowed) + 1e-6 + i) / 100.0;
        bite_freeing_change tried;
        memset(&tried, 0, sizeof tried);
        if (accepted > accepted_most) {
            return BITE_OK;
        }
        tried.change.what = "confidence";
        tried.change.kind = BITE_KIND_FRACTION;
        tried.change.from = search->options->confidence;
        tried.change.to = 1.0 - accepted;
        tried.change.size = log(accepted / allowed);
        (void)snprintf(tried.change.to_word, sizeof tried.change.to_word, "%.0f%%",
                       100.0 * tried.change.to);
        begin_request(search);
        status =
            find_settings(search, search->options->tool_count > 1, tried.change.to, &tried, &clear);
        if (clear && status == BITE_OK) {
            *best = tried;
        }
    }
    return status;
}

/* ---- all of them ---- */

static bite_status search_all(const freeing_search *search, freeing_input *inputs)
{
    bite_status status = BITE_OK;
    *search->base = *search->request;
    if (search->options->tool_count > 0) {
        status =
            bite_request_use(search->base, BITE_TOOLS, search->choice->best.tool, search->error);
    }
    status = status == BITE_OK ? search_inputs(search, inputs) : status;
    status = status == BITE_OK ? search_tools(search) : status;
    status = status == BITE_OK ? search_words(search) : status;
    return status == BITE_OK ? search_chance(search) : status;
}

/* Fills choice->freeing. A cut that cannot be judged for lack of a figure has nothing to change. */
static bite_status find_change(const bite_request *request, const bite_choice_options *options,
                               bite_choice *choice, bite_error *error)
{
    const bite_allocator *allocator = &request->allocator;
    bite_request *requests = bite_memory_new(allocator, 2, sizeof *requests);
    freeing_input *inputs = bite_memory_new(allocator, bite_request_change_count(), sizeof *inputs);
    freeing_search search = {request, options, choice, requests, NULL, error};
    bite_status status = BITE_NO_MEMORY;
    if (requests == NULL || inputs == NULL) {
        bite_error_set(error, status, "no memory for the change that makes a cut possible");
    } else {
        search.trial = requests + 1;
        status = search_all(&search, inputs);
    }
    bite_memory_free(allocator, inputs);
    bite_memory_free(allocator, requests);
    return status;
}

static bite_status choose(const bite_request *request, const bite_choice_options *options,
                          bite_choice **choice, bite_error *error)
{
    bite_choice *fresh = NULL;
    bite_status status = bite_choice_search(request, options, &fresh, error);
    if (status != BITE_OK) {
        return status;
    }
    int judged = bite_answer_result(fresh->answer)->verdict != BITE_UNKNOWN;
    if (!fresh->clear && judged && options->effort == BITE_EFFORT_WHOLE && request->scope == 0) {
        status = find_change(request, options, fresh, error);
    }
    if (status != BITE_OK) {
        bite_choice_free(fresh);
        return status;
    }
    *choice = fresh;
    return BITE_OK;
}

/* Goals before the options had a progress: USUAL was 4, and COOL 0. */
static uint32_t goal_of(const bite_choice_options *given, uint32_t goal)
{
    int first = given != NULL && given->struct_size == bite_struct_choice_options.least;
    return !first || (goal != 0 && goal != 4) ? goal : goal == 0 ? BITE_GOAL_COOL : BITE_GOAL_USUAL;
}

bite_status bite_choice_new(const bite_request *request, const bite_choice_options *given,
                            bite_choice **choice, bite_error *error)
{
    bite_choice_options own;
    bite_watch watch;
    bite_error_clear(error);
    if (request == NULL || choice == NULL) {
        bite_error_set(error, BITE_BAD_ARGUMENT,
                       "a request, and a place for the choice were expected");
        bite_error_key(error, "options");
        return BITE_BAD_ARGUMENT;
    }
    bite_status status =
        bite_struct_read(&bite_struct_choice_options, given, &own, "options", error);
    bite_request *watched =
        status == BITE_OK ? bite_memory_new(&request->allocator, 1, sizeof *watched) : NULL;
    if (status != BITE_OK || watched == NULL) {
        return status != BITE_OK ? status
                                 : bite_error_set(error, BITE_NO_MEMORY, "no memory for a choice");
    }
    own.goal = goal_of(given, own.goal);
    own.confidence = bite_confidence_or_usual(own.confidence);
    *watched = *request;
    watched->watch = &watch;
    bite_watch_start(&watch, own.progress, own.progress_user);
    status = bite_watch_end(&watch, choose(watched, &own, choice, error), error);
    bite_memory_free(&request->allocator, watched);
    return status;
}
