/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The best settings of one tool: solved, rounded, and judged with all draws. */
#include "core/search/single_tool.h"
#include "core/base/error.h"
#include "core/search/active_limits.h"
#include "core/search/control_rounding.h"
#include "core/search/goal.h"
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

/* The choice keeps a distance from what is just possible: the first of these shares of the allowed
 * chance that costs at most so much of the removal rate. */
static const double careful_shares[] = {0.5, 0.8};

/* A point that is burdened no more than this by the lower chance stays where it is. */
static const double careful_enough = 1.02;
static const double careful_cost = 0.05;

/* What is entered may miss the level of a goal by so much, which nobody notices. */
static const double as_good = 1.001;

/* Where what is entered near a point is beyond the limits: near one that uses so much of them. */
static const double eased_to = 0.99;

/* The search near a point. */
enum { ROUNDS_NEAR = 4 };
static const double reach_near = 1.1;

/* Points that are rounded and judged until one is clear: what was judged corrects the predictions
 * around it. */
enum { ROUNDINGS = 4 };

/* The fastest point near the best with a lower chance: that point itself, or one that is hardly
 * slower. Returns 0 if there is none. */
static int find_careful(const bite_solution *from, double share, bite_solution *careful)
{
    bite_solution_copy(from, careful);
    careful->rule.allowed *= share;
    bite_points_evaluate(&careful->wish, &careful->point, 1);
    if (careful->point.burden <= careful_enough) {
        return 1;
    }
    bite_search_nearby(&careful->wish, reach_near, ROUNDS_NEAR, &careful->point);
    return careful->point.burden <= 1.0 && careful->point.cost <= from->point.cost + careful_cost;
}

/* A step back from the limits where it costs little. */
static void step_back(bite_solution *solution)
{
    bite_solution careful;
    for (size_t i = 0; i < sizeof careful_shares / sizeof *careful_shares; i++) {
        if (find_careful(solution, careful_shares[i], &careful)) {
            bite_solution_copy(&careful, solution);
            return;
        }
    }
}

/* Judges the point with all draws. The single change is searched for later. */
static bite_status judge(bite_search_problem *problem, const bite_choice_options *options,
                         const bite_point *point, bite_answer **to, bite_error *error)
{
    bite_status status = bite_round_into_request(problem, point, error);
    problem->request.skip_change = 1;
    return status != BITE_OK
               ? status
               : bite_answer_new(&problem->request, options->draws, options->confidence, to, error);
}

static uint32_t is_clear(const bite_answer *answer)
{
    return bite_answer_result(answer)->verdict == BITE_CLEAR ? 1 : 0;
}

static void fill_candidate(const bite_search_problem *problem, const bite_point *point,
                           bite_candidate *to)
{
    const bite_cut *full = &problem->full;
    int has_width = full->operation == BITE_MILL && !isnan(full->feature_width);
    to->passes = point->axial;
    to->side_passes = point->radial;
    to->spindle = point->at.spindle;
    to->feed = point->at.feed;
    to->depth = point->at.depth;
    to->width = !has_width ? (double)NAN : isnan(point->at.width) ? full->width : point->at.width;
}

static void fill_margins(const bite_solution *solution, bite_choice *choice)
{
    bite_limit_risk limits[BITE_LIMIT_COUNT];
    bite_point_limits(&solution->wish, &solution->point, limits);
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        double margin = limits[i].quantile / limits[i].best;
        choice->margins[i] = margin > 1.0 && isfinite(margin) ? margin : 1.0;
    }
}

/* A clear answer needs no single change; any other is judged again with it. */
static bite_status finish(bite_search_problem *problem, const bite_choice_options *options,
                          bite_solution *solution, const bite_point *rounded, bite_choice *choice,
                          bite_error *error)
{
    bite_status status = bite_round_into_request(problem, rounded, error);
    problem->request.skip_change = 0;
    /* what only all draws find clear, a search for the least bad settings would leave again */
    int found = solution->clear || problem->request.scope != BITE_SCOPE_CLEAR;
    choice->clear = found && is_clear(choice->answer) ? 1 : 0;
    choice->goal = problem->goal;
    choice->gain = BITE_GOAL_FAST;
    choice->excess = solution->excess;
    choice->relaxed = solution->relaxed;
    choice->cost = rounded->cost;
    fill_margins(solution, choice);
    fill_candidate(problem, rounded, &choice->best);
    choice->best.clear_of_limits = choice->clear;
    if (status != BITE_OK || options->effort == BITE_EFFORT_QUICK ||
        problem->request.scope == BITE_SCOPE_CLEAR) {
        return status;
    }
    if (choice->clear) {
        choice->answer->request.skip_change = 0;
    } else {
        bite_answer_free(choice->answer);
        choice->answer = NULL;
        status = bite_answer_new(&problem->request, options->draws, options->confidence,
                                 &choice->answer, error);
    }
    if (status == BITE_OK && problem->request.scope == BITE_SCOPE_WHOLE) {
        bite_active_limits_find(problem, solution, choice);
    }
    return status;
}

/* Rounds to what is entered; after a step back a little of it may be given up for that. If nothing
 * near is within the limits then, near a point that is burdened less. */
static bite_point round_solution(const bite_solution *solution)
{
    bite_wish wish = solution->wish;
    bite_limit_rule rule = wish.problem->rule;
    rule.allowed = solution->rule.allowed;
    memcpy(rule.relaxed, solution->rule.relaxed, sizeof rule.relaxed);
    wish.rule = &rule;
    wish.level *= as_good;
    wish.quantile = wish.quantile < 1.0 ? fmin(1.0, as_good * wish.quantile) : wish.quantile;
    if (rule.allowed < wish.problem->rule.allowed) {
        wish.quantile *= careful_enough;
    }
    bite_point rounded = bite_round_point(&wish, &solution->point);
    if (rounded.burden > 1.0 && solution->point.burden <= 1.0) {
        bite_point point = solution->point;
        bite_wish eased = wish;
        eased.quantile *= eased_to;
        bite_search_nearby(&eased, reach_near, ROUNDS_NEAR, &point);
        point = bite_round_point(&wish, &point);
        rounded = bite_point_better(&point, &rounded) ? point : rounded;
    }
    return rounded;
}

/* Rounds the solution to what is entered and judges it. */
static bite_status enter(bite_search_problem *problem, const bite_choice_options *options,
                         bite_solution *solution, bite_point *rounded, bite_answer **to,
                         bite_error *error)
{
    const bite_wish *wish = &solution->wish;
    bite_status status = BITE_OK;
    int missed = 1;
    for (int i = 0; i < ROUNDINGS && missed && status == BITE_OK; i++) {
        bite_solution entered;
        bite_answer_free(*to);
        *to = NULL;
        bite_solution_copy(solution, &entered);
        if (solution->point.burden <= 1.0 && options->effort != BITE_EFFORT_QUICK) {
            step_back(&entered);
        }
        *rounded = round_solution(&entered);
        status = judge(problem, options, rounded, to, error);
        missed = status == BITE_OK && solution->clear && !is_clear(*to);
        if (missed) {
            bite_point judged = *rounded;
            status = bite_point_draw(wish, INFINITY, &judged, error);
        } else if (status == BITE_OK) {
            bite_solution_copy(&entered, solution);
        }
    }
    return status;
}

/* What is clear may lie so close between two limits that nothing that is entered does, and many
 * draws may be worse than the first ones: then it is searched within so much of each limit. */
static const double less = 0.98;

/* Solves, rounds and judges. *to: as it was, or owned. */
static bite_status attempt(bite_search_problem *problem, const bite_choice_options *options,
                           double capacity, bite_solution *solution, bite_point *rounded,
                           bite_answer **to, bite_error *error)
{
    bite_status status = bite_problem_solve(problem, capacity, solution, error);
    return status == BITE_OK ? enter(problem, options, solution, rounded, to, error) : status;
}

/* Whether there are clear settings, whichever. */
static bite_status attempt_any(bite_search_problem *problem, const bite_choice_options *options,
                               bite_solution *solution, bite_point *rounded, bite_answer **to,
                               bite_error *error)
{
    bite_status status = bite_problem_find_any(problem, solution, error);
    status = status == BITE_OK ? enter(problem, options, solution, rounded, to, error) : status;
    return status == BITE_OK && solution->clear && !is_clear(*to)
               ? attempt(problem, options, 1.0, solution, rounded, to, error)
               : status;
}

/* The same within less of each limit. If nothing is clear there, what was almost clear stays. */
static bite_status attempt_again(bite_search_problem *problem, const bite_choice_options *options,
                                 bite_solution *solution, bite_point *rounded, bite_answer **to,
                                 bite_error *error)
{
    bite_solution again;
    bite_point point;
    bite_answer *answer = NULL;
    bite_status status = attempt(problem, options, less, &again, &point, &answer, error);
    if (status == BITE_OK && is_clear(answer)) {
        bite_answer *other = *to;
        *to = answer;
        answer = other;
        *rounded = point;
        bite_solution_copy(&again, solution);
    }
    bite_answer_free(answer);
    return status;
}

static bite_status solve(bite_search_problem *problem, const bite_choice_options *options,
                         bite_solution *solution, bite_choice *choice, bite_error *error)
{
    bite_point rounded;
    bite_answer **to = &choice->answer;
    if (problem->request.scope == BITE_SCOPE_CLEAR) {
        bite_status found = attempt_any(problem, options, solution, &rounded, to, error);
        return found == BITE_OK ? finish(problem, options, solution, &rounded, choice, error)
                                : found;
    }
    bite_status status = attempt(problem, options, 1.0, solution, &rounded, to, error);
    if (status == BITE_OK && solution->clear && !is_clear(*to) &&
        options->draws != BITE_DRAWS_NONE) {
        status = attempt_again(problem, options, solution, &rounded, to, error);
    }
    return status == BITE_OK ? finish(problem, options, solution, &rounded, choice, error) : status;
}

bite_status bite_choice_for_tool(const bite_request *request, const char *tool,
                                 const bite_choice_options *options, bite_search_problem *problem,
                                 bite_choice **choice, bite_error *error)
{
    bite_solution solution;
    bite_choice *fresh = bite_memory_new(&request->allocator, 1, sizeof *fresh);
    if (fresh == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a choice");
    }
    memset(fresh, 0, sizeof *fresh);
    fresh->allocator = request->allocator;
    fresh->tools = 1;
    bite_status status = bite_problem_init(request, tool, options, problem, error);
    status = status == BITE_OK ? solve(problem, options, &solution, fresh, error) : status;
    bite_problem_end(problem);
    if (status != BITE_OK) {
        bite_choice_free(fresh);
        return status;
    }
    (void)snprintf(fresh->best.tool, sizeof fresh->best.tool, "%.*s", BITE_TYPED_MAX - 1,
                   tool == NULL ? problem->request.tool_name : tool);
    *choice = fresh;
    return BITE_OK;
}
