/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The best settings and tool: tools compared, each with its own best settings. */
#include "core/search/tool_choice.h"
#include "core/base/error.h"
#include "core/cut/input_check.h"
#include "core/library/collection.h"
#include "core/library/listing.h"
#include "core/library/tool_symbols.h"
#include "core/names/registry.h"
#include "core/search/control_rounding.h"
#include "core/search/goal.h"
#include "core/search/single_tool.h"
#include <math.h>
#include <string.h>

/* Up to this many tools are all solved in full; of more, those that estimates rank best, and others
 * that seem as fast. */
enum { TOOLS_SOLVED = 3, TOOLS_SOLVED_MOST = 6 };

/* ---- which is better ---- */

/* A goal that is met at this many times the least level is met as well. */
static const double as_well = 1.1;

static double removal_of(const bite_choice *choice)
{
    return bite_answer_result(choice->answer)->values[BITE_REMOVAL_RATE].value;
}

/* The utilization of the binding limit that is used most, at the best estimates. */
static double most_used(const bite_result *result)
{
    double most = 0.0;
    for (size_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        const bite_limit *limit = &result->limits[i];
        most = limit->applies && !limit->advisory ? fmax(most, limit->utilization) : most;
    }
    return most;
}

/* By verdict; if clear by the level at which the goal is met, then by the removal rate; if tight by
 * the chance; if over, where chances are all near 1, by how far. */
static int choice_better(const bite_choice *a, const bite_choice *b)
{
    const bite_result *first = bite_answer_result(a->answer);
    const bite_result *second = bite_answer_result(b->answer);
    if (first->verdict != second->verdict) {
        return first->verdict < second->verdict;
    }
    if (a->clear) {
        int as_good = a->excess <= as_well * b->excess && b->excess <= as_well * a->excess;
        return as_good ? removal_of(a) > removal_of(b) : a->excess < b->excess;
    }
    return first->verdict == BITE_TIGHT && fabs(first->chance - second->chance) > 0.0
               ? first->chance < second->chance
               : most_used(first) < most_used(second);
}

static bite_choice *best_of(bite_choice *const *choice, size_t count)
{
    bite_choice *best = NULL;
    for (size_t i = 0; i < count; i++) {
        best = choice[i] != NULL && (best == NULL || choice_better(choice[i], best)) ? choice[i]
                                                                                     : best;
    }
    return best;
}

/* ---- checking the arguments ---- */

#define TOOLS_NAMED_MOST 1024
#define STEPS_MOST 1024

static bite_status refuse(bite_error *error, bite_status status, const char *key,
                          const char *message)
{
    bite_error_set(error, status, "%s", message);
    bite_error_key(error, "%s", key);
    return status;
}

static bite_status check_tools(const bite_choice_options *options, bite_error *error)
{
    if (options->tool_count > TOOLS_NAMED_MOST ||
        (options->tool_count > 0 && options->tools == NULL)) {
        return refuse(error, BITE_BAD_ARGUMENT, "tools",
                      "an array of at most 1024 tools was expected");
    }
    for (size_t i = 0; i < options->tool_count; i++) {
        if (options->tools[i] == NULL) {
            bite_error_set(
                error, BITE_BAD_ARGUMENT,
                "tool %zu of the array is NULL; a name, a diameter or \"any\" was expected", i);
            bite_error_key(error, "tools");
            return BITE_BAD_ARGUMENT;
        }
    }
    return BITE_OK;
}

static bite_status check_steps(const bite_choice_options *options, bite_error *error)
{
    const bite_input *speed = bite_input_find("spindle_speed");
    if (options->step_count > STEPS_MOST || (options->step_count > 0 && options->steps == NULL)) {
        return refuse(error, BITE_BAD_ARGUMENT, "steps",
                      "an array of at most 1024 spindle speeds was expected");
    }
    for (size_t i = 0; i < options->step_count; i++) {
        if (!(options->steps[i] >= speed->least && options->steps[i] <= speed->most)) {
            bite_error_set(
                error, BITE_OUT_OF_RANGE,
                "step %zu of the array is not a spindle speed that any shop runs; it is in "
                "revolutions per second",
                i);
            bite_error_key(error, "steps");
            return BITE_OUT_OF_RANGE;
        }
    }
    return BITE_OK;
}

static bite_status check_options(const bite_choice_options *options, bite_error *error)
{
    if (options->goal >= BITE_GOAL_COUNT || options->units > BITE_INCH ||
        options->effort > BITE_EFFORT_QUICK || options->beyond_charts > 1 ||
        options->reserved != 0) {
        return refuse(error, BITE_BAD_ARGUMENT, "options",
                      "the goal, the units, the effort or beyond_charts is not one that exists");
    }
    bite_status status = bite_check_draws_wished(options->draws, options->confidence, error);
    status = status != BITE_OK ? status : check_tools(options, error);
    return status != BITE_OK ? status : check_steps(options, error);
}

/* ---- solving ---- */

/* Logarithms of times: a tool whose every point is so much slower than the best is not searched,
 * and one that is hardly slower by a rough search is searched in full. */
static const double slower_most = 0.5;
static const double hardly_slower = 0.05;

/* A tool that competes. */
typedef struct tool_candidate {
    const char *name;
    int named; /* by the caller: an error if it cannot make the cut; tools of the table are skipped
                */
    int able;  /* it can make the cut */
    int with_margins; /* the estimates are with the margins of another tool */
    double burden;    /* estimated, or of the choice; at most 1: clear, and the goal met */
    double time;      /* its logarithm, for the same feature, or for the same area if it has none */
    double swath;     /* the logarithm of what a pass removes beside others */
    bite_choice *choice;
} tool_candidate;

typedef struct tool_list {
    size_t count;
    int ranked; /* 1: too many to solve each in full */
    double margins[BITE_LIMIT_COUNT];
    tool_candidate *tool;
} tool_list;

/* Of the tools in the table, drills, taps and reamers are named by their hole; chamfer mills cut
 * chamfers and nothing else does; a cone that engraves
 * is named by the user, for it gives the groove its form. */
static int suits_operation(const bite_request *request, const char *tool)
{
    const bite_item_record *record = NULL;
    const bite_typed_input *operation = bite_problem_typed(request, "operation");
    int chamfers = operation->given && operation->word == BITE_CHAMFER;
    if (bite_library_record(request->library, BITE_TOOLS, tool, &record, NULL) != BITE_OK) {
        return !chamfers;
    }
    int cone = bite_item_field(record, "taper") != NULL;
    return cone == chamfers && !bite_tool_makes_holes(record) &&
           !bite_item_is_yes(record, "engraves");
}

static void add_tool(tool_list *to, const char *name, int named)
{
    const tool_candidate fresh = {name, named, 1, 0, INFINITY, INFINITY, 0.0, NULL};
    to->tool[to->count++] = fresh;
}

/* A hole is as wide as its drill, so it cannot be chosen from the table. */
static bite_status check_drill(const bite_request *request, bite_error *error)
{
    const bite_typed_input *operation = bite_problem_typed(request, "operation");
    uint32_t word = operation->given ? operation->word : BITE_MILL;
    if (request->thread != NULL || word == BITE_TAP) {
        bite_error_set(error, BITE_OUT_OF_RANGE,
                       "a tap is that of its thread, so it cannot be \"any\" of the table");
        bite_error_key(error, "tool");
        bite_error_hint(error, "leave the tool out, and name the thread, for example M3");
        return BITE_OUT_OF_RANGE;
    }
    if (word == BITE_DRILL_HOLE || word == BITE_REAM) {
        bite_error_set(error, BITE_OUT_OF_RANGE,
                       "a hole is as wide as its %s, so it cannot be \"any\" of the table",
                       word == BITE_REAM ? "reamer" : "drill");
        bite_error_key(error, "tool");
        bite_error_hint(
            error, "name it by the diameter of the hole, for example 3mm; several may be named");
        return BITE_OUT_OF_RANGE;
    }
    return BITE_OK;
}

static bite_status list_tools(const bite_request *request, const bite_choice_options *options,
                              tool_list *to, bite_error *error)
{
    bite_status status = BITE_OK;
    for (size_t i = 0; i < options->tool_count && status == BITE_OK; i++) {
        if (strcmp(options->tools[i], "any") != 0) {
            add_tool(to, options->tools[i], 1);
            continue;
        }
        status = check_drill(request, error);
        for (size_t k = 0;
             status == BITE_OK && k < bite_library_count(request->library, BITE_TOOLS); k++) {
            bite_item item;
            status = bite_library_item(request->library, BITE_TOOLS, k, &item, error);
            if (status == BITE_OK && suits_operation(request, item.name)) {
                add_tool(to, item.name, 0);
            }
        }
    }
    return status;
}

/* The logarithm of what a pass of this tool removes along the way beside others: as wide as the
 * tool unless a width was given; a hole by its area. */
static double swath_of(const bite_search_problem *problem)
{
    const bite_cut *cut = &problem->requested;
    int wide = cut->operation == BITE_MILL && isnan(cut->width) && isnan(cut->feature_width);
    return cut->operation == BITE_DRILL_HOLE ? 2.0 * log(problem->full.diameter)
           : wide                            ? log(problem->full.diameter)
                                             : 0.0;
}

/* Estimates one tool. least: the logarithm of the time of the best so far; points that are much
 * slower are not evaluated. A tool without others takes at least so long: it is estimated again if
 * the best turns out to be slow, as estimates without margins are too fast. */
static bite_status estimate_tool(const bite_request *request, const bite_choice_options *options,
                                 bite_search_problem *problem, const double *margins, double least,
                                 tool_candidate *at, bite_error *error)
{
    bite_point point;
    bite_status status = bite_watch_step(request->watch, 0)
                             ? BITE_NO_MEMORY
                             : bite_problem_init(request, at->name, options, problem, error);
    at->swath = status == BITE_OK ? swath_of(problem) : 0.0;
    status = status == BITE_OK
                 ? bite_problem_estimate(problem, margins, least + slower_most + at->swath, &point,
                                         error)
                 : status;
    bite_problem_end(problem);
    at->able = status == BITE_OK;
    if (at->able) {
        int too_slow = point.axial == 0 && isfinite(least); /* no point was evaluated */
        at->burden = too_slow ? 1.0 : point.burden;
        at->time = too_slow ? least + slower_most : point.cost - at->swath;
    }
    return at->named || status == BITE_NO_MEMORY ? status : BITE_OK;
}

static bite_status estimate_tools(const bite_request *request, const bite_choice_options *options,
                                  bite_search_problem *problem, tool_list *tools, bite_error *error)
{
    double least = INFINITY;
    bite_status status = BITE_OK;
    for (size_t i = 0; i < tools->count && status == BITE_OK; i++) {
        tool_candidate *at = &tools->tool[i];
        status = estimate_tool(request, options, problem, tools->margins, least, at, error);
        least = at->able && at->burden <= 1.0 ? fmin(least, at->time) : least;
    }
    return status;
}

static int ranks_higher(const tool_candidate *a, const tool_candidate *b)
{
    int within_a = a->burden <= 1.0;
    int within_b = b->burden <= 1.0;
    return within_a != within_b ? within_a : within_a ? a->time < b->time : a->burden < b->burden;
}

/* The next tool to solve, by rank. NULL: none is left. */
static tool_candidate *next_tool(tool_list *tools)
{
    tool_candidate *best = NULL;
    for (size_t i = 0; i < tools->count; i++) {
        tool_candidate *at = &tools->tool[i];
        if (at->able && at->choice == NULL && (best == NULL || ranks_higher(at, best))) {
            best = at;
        }
    }
    return best;
}

/* Solves one tool. Its margins serve to estimate the others. */
static bite_status solve_tool(const bite_request *request, const bite_choice_options *options,
                              bite_search_problem *problem, tool_list *tools, tool_candidate *at,
                              bite_error *error)
{
    bite_status status =
        bite_choice_for_tool(request, at->name, options, problem, &at->choice, error);
    if (bite_watch_step(request->watch, 1)) {
        return BITE_NO_MEMORY;
    }
    at->able = status == BITE_OK;
    if (at->able) {
        at->burden = at->choice->clear ? 1.0 : 2.0;
        at->time = at->choice->cost - at->swath;
        memcpy(tools->margins, at->choice->margins, sizeof tools->margins);
    }
    return at->named || status == BITE_NO_MEMORY ? status : BITE_OK;
}

static bite_status solve_all(const bite_request *request, const bite_choice_options *options,
                             bite_search_problem *problem, tool_list *tools, bite_error *error)
{
    bite_status status = BITE_OK;
    for (size_t i = 0; i < tools->count && status == BITE_OK; i++) {
        status = solve_tool(request, options, problem, tools, &tools->tool[i], error);
    }
    return status;
}

/* Solves the tools that rank highest, until `wanted` of them are clear and no other one is
 * estimated to be as fast. Once one is solved, the others are estimated again with its margins. */
static bite_status solve_ranked(const bite_request *request, const bite_choice_options *options,
                                size_t wanted, bite_search_problem *problem, tool_list *tools,
                                bite_error *error)
{
    bite_status status = estimate_tools(request, options, problem, tools, error);
    double least = INFINITY;
    size_t clear = 0;
    for (size_t solved = 0; status == BITE_OK && solved < TOOLS_SOLVED_MOST;) {
        tool_candidate *at = next_tool(tools);
        int slow = at != NULL && (at->burden > 1.0 || at->time > least + hardly_slower);
        if (at == NULL || (slow && clear >= wanted) || (slow && solved >= TOOLS_SOLVED)) {
            break;
        }
        if (solved > 0 && !at->with_margins) {
            at->with_margins = 1;
            status = estimate_tool(request, options, problem, tools->margins, least, at, error);
            continue;
        }
        bite_watch_expect(request->watch, solved < TOOLS_SOLVED ? 0 : 1);
        status = solve_tool(request, options, problem, tools, at, error);
        solved++;
        if (at->able && at->choice->clear) {
            clear++;
            least = fmin(least, at->time);
        }
    }
    return status;
}

static bite_status solve_tools(const bite_request *request, const bite_choice_options *options,
                               size_t wanted, bite_search_problem *problem, tool_list *tools,
                               bite_error *error)
{
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        tools->margins[i] = 1.0;
    }
    tools->ranked = tools->count > TOOLS_SOLVED;
    bite_watch_expect(request->watch, tools->count < TOOLS_SOLVED ? tools->count : TOOLS_SOLVED);
    return tools->ranked ? solve_ranked(request, options, wanted, problem, tools, error)
                         : solve_all(request, options, problem, tools, error);
}

/* Of ranked tools the first that is clear. */
static bite_choice *best_ranked(const tool_list *tools)
{
    const tool_candidate *best = NULL;
    for (size_t i = 0; i < tools->count; i++) {
        const tool_candidate *at = &tools->tool[i];
        if (tools->ranked && at->choice != NULL && at->choice->clear &&
            (best == NULL || ranks_higher(at, best))) {
            best = at;
        }
    }
    return best == NULL ? NULL : best->choice;
}

static uint32_t count_able(const tool_list *tools)
{
    uint32_t count = 0;
    for (size_t i = 0; i < tools->count; i++) {
        count += tools->tool[i].able != 0;
    }
    return count;
}

/* The best of all, with the second best for comparison. */
static bite_status pick_best(tool_list *tools, bite_choice **all, bite_choice **choice,
                             bite_error *error)
{
    size_t count = 0;
    for (size_t i = 0; i < tools->count; i++) {
        if (tools->tool[i].choice != NULL) {
            all[count++] = tools->tool[i].choice;
        }
    }
    bite_choice *best = best_ranked(tools);
    best = best == NULL ? best_of(all, count) : best;
    if (best == NULL) {
        return bite_error_set(error, BITE_NO_ANSWER, "no tool in the table can make this cut");
    }
    for (size_t i = 0; i < tools->count; i++) {
        tools->tool[i].choice = tools->tool[i].choice == best ? NULL : tools->tool[i].choice;
    }
    for (size_t i = 0; i < count; i++) {
        all[i] = all[i] == best ? NULL : all[i];
    }
    const bite_choice *second = best_of(all, count);
    if (second != NULL) {
        best->second = second->best;
    }
    best->tools = count_able(tools);
    *choice = best;
    return BITE_OK;
}

static void free_tools(const bite_allocator *allocator, tool_list *tools, bite_choice **all)
{
    for (size_t i = 0; i < tools->count; i++) {
        bite_choice_free(tools->tool[i].choice);
    }
    bite_memory_free(allocator, all);
    bite_memory_free(allocator, tools->tool);
}

static bite_status choose_among(const bite_request *request, const bite_choice_options *options,
                                bite_search_problem *problem, bite_choice **choice,
                                bite_error *error)
{
    size_t table = 0;
    bite_status status = bite_library_size(request->library, BITE_TOOLS, &table, error);
    if (status != BITE_OK) {
        return status;
    }
    size_t most = options->tool_count * (1 + table);
    tool_list among = {0, 0, {0}, bite_memory_new(&request->allocator, most, sizeof *among.tool)};
    bite_choice **all = bite_memory_new(&request->allocator, most, sizeof *all);
    status = among.tool == NULL || all == NULL
                 ? bite_error_set(error, BITE_NO_MEMORY, "no memory for the tools")
                 : list_tools(request, options, &among, error);
    /* the second is for comparison */
    status = status == BITE_OK ? solve_tools(request, options, 2, problem, &among, error) : status;
    status = status == BITE_OK ? pick_best(&among, all, choice, error) : status;
    free_tools(&request->allocator, &among, all);
    return status;
}

static size_t index_of(const tool_list *tools, const char *name)
{
    size_t at = 0;
    while (at + 1 < tools->count && strcmp(tools->tool[at].name, name) != 0) {
        at++;
    }
    return at;
}

bite_status bite_tool_pick(const bite_request *request, const bite_choice_options *options,
                           size_t *index, bite_choice **choice, bite_error *error)
{
    *choice = NULL;
    bite_search_problem *problem = bite_memory_new(&request->allocator, 1, sizeof *problem);
    bite_choice **all = bite_memory_new(&request->allocator, options->tool_count, sizeof *all);
    tool_list among = {
        0, 0, {0}, bite_memory_new(&request->allocator, options->tool_count, sizeof *among.tool)};
    bite_status status = problem == NULL || all == NULL || among.tool == NULL
                             ? bite_error_set(error, BITE_NO_MEMORY, "no memory for the tools")
                             : BITE_OK;
    for (size_t i = 0; i < options->tool_count && status == BITE_OK; i++) {
        add_tool(&among, options->tools[i], 0);
    }
    status = status == BITE_OK ? solve_tools(request, options, 1, problem, &among, error) : status;
    status = status == BITE_OK ? pick_best(&among, all, choice, error) : status;
    *index = *choice == NULL ? 0 : index_of(&among, (*choice)->best.tool);
    free_tools(&request->allocator, &among, all);
    bite_memory_free(&request->allocator, problem);
    return status;
}

static bite_status choose(const bite_request *request, const bite_choice_options *options,
                          bite_choice **choice, bite_error *error)
{
    bite_search_problem *problem = bite_memory_new(&request->allocator, 1, sizeof *problem);
    if (problem == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a choice");
    }
    bite_status status = BITE_OK;
    if (options->tool_count > 0) {
        status = choose_among(request, options, problem, choice, error);
    } else {
        bite_watch_expect(request->watch, 1);
        status = bite_choice_for_tool(request, NULL, options, problem, choice, error);
        (void)bite_watch_step(request->watch, 1);
    }
    bite_memory_free(&request->allocator, problem);
    return status;
}

/* A spindle with fixed steps: the best choice over all of them. */
static bite_status choose_step(const bite_request *request, const bite_choice_options *options,
                               bite_choice **choice, bite_error *error)
{
    bite_request *stepped = bite_memory_new(&request->allocator, 1, sizeof *stepped);
    bite_choice **all = bite_memory_new(&request->allocator, options->step_count, sizeof *all);
    size_t count = 0;
    bite_status status = stepped == NULL || all == NULL
                             ? bite_error_set(error, BITE_NO_MEMORY, "no memory for a choice")
                             : BITE_OK;
    for (size_t i = 0; status == BITE_OK && i < options->step_count; i++) {
        *stepped = *request;
        status =
            bite_request_set_rounded(stepped, "spindle_speed", options->steps[i], "rpm", error);
        status = status != BITE_OK ? status : choose(stepped, options, &all[count], error);
        count += status == BITE_OK;
    }
    bite_choice *best = status == BITE_OK ? best_of(all, count) : NULL;
    for (size_t i = 0; i < count; i++) {
        if (all[i] != best) {
            bite_choice_free(all[i]);
        }
    }
    bite_memory_free(&request->allocator, all);
    bite_memory_free(&request->allocator, stepped);
    if (status == BITE_OK) {
        *choice = best;
    }
    return status;
}

bite_status bite_choice_search(const bite_request *request, const bite_choice_options *options,
                               bite_choice **choice, bite_error *error)
{
    bite_error_clear(error);
    bite_status status = check_options(options, error);
    if (status != BITE_OK) {
        return status;
    }
    if (options->step_count > 0 && bite_problem_typed(request, "spindle_speed")->given) {
        bite_error_set(error, BITE_BAD_ARGUMENT,
                       "both a spindle speed and steps to choose it from were given");
        bite_error_key(error, "spindle_speed");
        bite_error_hint(error, "leave one of them out");
        return BITE_BAD_ARGUMENT;
    }
    return options->step_count > 0 ? choose_step(request, options, choice, error)
                                   : choose(request, options, choice, error);
}
