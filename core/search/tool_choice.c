/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The best settings and tool: tools compared, each with its own best settings. */
#include "core/base/error.h"
#include "core/cut/input_check.h"
#include "core/library/collection.h"
#include "core/library/listing.h"
#include "core/names/registry.h"
#include "core/search/chance_constrained.h"
#include "core/search/control_rounding.h"
#include "core/search/least_chance.h"
#include "core/search/search_space.h"
#include "core/search/single_tool.h"
#include <math.h>
#include <string.h>

/* Up to this many tools are all solved in full; of more, those that a coarse search ranks best. */
#define TOOLS_SOLVED 6

/* ---- which is better ---- */

/* By verdict; then by the goal if clear, by the chance of exceeding a limit if not. */
static int choice_better(const bite_choice *a, const bite_choice *b)
{
    const bite_result *first = bite_answer_result(a->answer);
    const bite_result *second = bite_answer_result(b->answer);
    if (first->verdict != second->verdict) {
        return first->verdict < second->verdict;
    }
    return a->clear ? a->best.goal < b->best.goal
                    : bite_least_chance_of_all(first) < bite_least_chance_of_all(second);
}

/* Whether a choice meets the goal as well as the best. For the gentle goal the utilizations include
 * margins that differ from tool to tool and cannot be compared; a choice whose goal has changed to
 * the removal rate is gentle enough. */
static int as_good(const bite_choice *choice, const bite_choice *best)
{
    int gentle = choice->goal == BITE_GOAL_GENTLE && choice->gain == BITE_GOAL_FAST;
    return choice == best ||
           (choice->clear && best->clear && (gentle || choice->best.goal <= best->best.enough));
}

static double removal_of(const bite_choice *choice)
{
    return bite_answer_result(choice->answer)->values[BITE_REMOVAL_RATE].value;
}

/* The fastest of the choices that are as good as the best. */
static bite_choice *best_of(bite_choice *const *choice, size_t count)
{
    bite_choice *best = NULL;
    bite_choice *fastest = NULL;
    for (size_t i = 0; i < count; i++) {
        best = choice[i] != NULL && (best == NULL || choice_better(choice[i], best)) ? choice[i]
                                                                                     : best;
    }
    for (size_t i = 0; best != NULL && i < count; i++) {
        int met = choice[i] != NULL && as_good(choice[i], best);
        fastest = met && (fastest == NULL || removal_of(choice[i]) > removal_of(fastest))
                      ? choice[i]
                      : fastest;
    }
    return fastest == NULL ? best : fastest;
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

static bite_status check_options(const bite_request *request, const bite_choice_options *options,
                                 bite_choice **choice, bite_error *error)
{
    if (request == NULL || choice == NULL || options == NULL ||
        options->struct_size != sizeof *options) {
        return refuse(
            error, BITE_BAD_ARGUMENT, "options",
            "a request, options of this library's size, and a place for the choice were expected");
    }
    if (options->goal > BITE_GOAL_USUAL || options->units > BITE_INCH ||
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

/* A tool that competes. */
typedef struct tool_candidate {
    const char *name;
    int named; /* by the caller: an error if it cannot make the cut; tools of the table are skipped
                */
    int able;  /* it can make the cut */
    int impossible; /* number of limits that no settings can keep with it */
    int clear;      /* by a coarse search, apart from those limits */
    double chance;  /* if it is not clear */
    double removal;
    bite_choice *choice;
} tool_candidate;

typedef struct tool_list {
    size_t count;
    tool_candidate *tool;
} tool_list;

/* Of the tools in the table, chamfer mills cut chamfers and nothing else does; a cone that engraves
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
    return cone == chamfers && !bite_item_is_yes(record, "engraves");
}

static void add_tool(tool_list *to, const char *name, int named)
{
    const tool_candidate fresh = {name, named, 1, 0, 0, 0.0, 0.0, NULL};
    to->tool[to->count++] = fresh;
}

/* A hole is as wide as its drill, so it cannot be chosen from the table. */
static bite_status check_drill(const bite_request *request, bite_error *error)
{
    const bite_typed_input *operation = bite_problem_typed(request, "operation");
    if (operation->given && operation->word == BITE_DRILL_HOLE) {
        bite_error_set(
            error, BITE_OUT_OF_RANGE,
            "a hole is as wide as its drill, so the drill cannot be \"any\" of the table");
        bite_error_key(error, "tool");
        bite_error_hint(
            error,
            "name the drill by the diameter of the hole, for example 3mm; several may be named");
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

static int count_relaxed(const bite_search_problem *problem)
{
    int count = 0;
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        count += problem->relaxed[i] > 0.0;
    }
    return count;
}

/* A coarse search for each tool, which ranks them. */
static bite_status rank_tools(const bite_request *request, const bite_choice_options *options,
                              bite_search_problem *problem, tool_list *tools, bite_error *error)
{
    for (size_t i = 0; i < tools->count; i++) {
        tool_candidate *at = &tools->tool[i];
        bite_status status = bite_problem_init(request, at->name, options, problem, error);
        status = status == BITE_OK ? bite_problem_solve_quick(problem, error) : status;
        if (status != BITE_OK && (at->named || status == BITE_NO_MEMORY)) {
            return status;
        }
        at->able = status == BITE_OK;
        at->impossible = count_relaxed(problem);
        at->clear = (int)problem->clear;
        at->chance = problem->chance;
        double width = problem->full.operation == BITE_MILL
                           ? fmin(problem->full.width, problem->full.diameter)
                           : problem->full.diameter;
        at->removal = problem->point.feed * problem->full.depth * width;
    }
    return BITE_OK;
}

static int ranks_higher(const tool_candidate *a, const tool_candidate *b)
{
    if (a->impossible != b->impossible) {
        return a->impossible < b->impossible;
    }
    return a->clear != b->clear ? a->clear > b->clear
           : a->clear           ? a->removal > b->removal
                                : a->chance < b->chance;
}

/* The next tool to solve: in the order of the list if all are solved, otherwise by rank. NULL: none
 * is left. */
static tool_candidate *next_tool(tool_list *tools, int ranked)
{
    tool_candidate *best = NULL;
    for (size_t i = 0; i < tools->count; i++) {
        tool_candidate *at = &tools->tool[i];
        if (at->able && at->choice == NULL &&
            (best == NULL || (ranked && ranks_higher(at, best)))) {
            best = at;
        }
    }
    return best;
}

/* Solves all tools, or, if there are many, those that rank highest. */
static bite_status solve_tools(const bite_request *request, const bite_choice_options *options,
                               bite_search_problem *problem, tool_list *tools, bite_error *error)
{
    int ranked = tools->count > TOOLS_SOLVED && options->effort != BITE_EFFORT_QUICK;
    bite_status status = ranked ? rank_tools(request, options, problem, tools, error) : BITE_OK;
    for (size_t i = 0; status == BITE_OK && i < (ranked ? TOOLS_SOLVED : tools->count); i++) {
        tool_candidate *at = next_tool(tools, ranked);
        if (at == NULL) {
            return BITE_OK;
        }
        status = bite_choice_for_tool(request, at->name, options, problem, &at->choice, error);
        at->able = status == BITE_OK;
        status = at->named || status == BITE_NO_MEMORY ? status : BITE_OK;
    }
    return status;
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
    bite_choice *best = best_of(all, count);
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
    tool_list among = {0, bite_memory_new(&request->allocator, most, sizeof *among.tool)};
    bite_choice **all = bite_memory_new(&request->allocator, most, sizeof *all);
    status = among.tool == NULL || all == NULL
                 ? bite_error_set(error, BITE_NO_MEMORY, "no memory for the tools")
                 : list_tools(request, options, &among, error);
    status = status == BITE_OK ? solve_tools(request, options, problem, &among, error) : status;
    status = status == BITE_OK ? pick_best(&among, all, choice, error) : status;
    for (size_t i = 0; i < among.count; i++) {
        bite_choice_free(among.tool[i].choice);
    }
    bite_memory_free(&request->allocator, all);
    bite_memory_free(&request->allocator, among.tool);
    return status;
}

static bite_status choose(const bite_request *request, const bite_choice_options *options,
                          bite_choice **choice, bite_error *error)
{
    size_t threads = request->threads < 1 ? 1 : request->threads;
    bite_search_problem *problem = bite_memory_new(&request->allocator, 1, sizeof *problem);
    bite_block_space *spaces = bite_block_spaces_new(&request->allocator, threads);
    bite_status status = BITE_NO_MEMORY;
    if (problem == NULL || spaces == NULL) {
        bite_error_set(error, BITE_NO_MEMORY, "no memory for a choice");
    } else {
        problem->spaces = spaces;
        status = options->tool_count == 0
                     ? bite_choice_for_tool(request, NULL, options, problem, choice, error)
                     : choose_among(request, options, problem, choice, error);
    }
    bite_block_spaces_free(&request->allocator, spaces);
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

bite_status bite_choice_new(const bite_request *request, const bite_choice_options *options,
                            bite_choice **choice, bite_error *error)
{
    bite_error_clear(error);
    bite_status status = check_options(request, options, choice, error);
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
