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

/* Corrections by all draws: the shares of the allowed chance within which it is tried again. */
static const double corrected_shares[] = {0.98, 0.95, 0.91, 0.86, 0.8};
enum { CORRECTIONS = sizeof corrected_shares / sizeof *corrected_shares };

/* The search near a point. */
enum { ROUNDS_NEAR = 3, ROUNDS_CORRECTING = 5 };
static const double reach_near = 1.06;
static const double reach_correcting = 1.2;

/* The fastest point with a lower chance: that point itself, or one near those that are hardly
 * slower. Returns 0 if there is none. */
static int find_careful(const bite_solution *from, double share, bite_solution *careful)
{
    enum { SPEEDS = 5 };
    const bite_point *best = &from->point;
    bite_point points[SPEEDS];
    bite_solution_copy(from, careful);
    careful->rule.allowed *= share;
    bite_points_evaluate(&careful->wish, &careful->point, 1);
    if (careful->point.burden <= careful_enough) {
        return 1;
    }
    for (int i = 0; i < SPEEDS; i++) {
        points[i] = bite_point_within(&careful->wish, best,
                                      best->log_spindle + careful_cost * (i - SPEEDS / 2),
                                      best->log_feed - careful_cost);
    }
    bite_points_evaluate(&careful->wish, points, SPEEDS);
    careful->point = points[0];
    for (int i = 1; i < SPEEDS; i++) {
        if (bite_point_better(&points[i], &careful->point)) {
            careful->point = points[i];
        }
    }
    if (careful->point.burden <= 1.0) {
        bite_search_nearby(&careful->wish, reach_near, ROUNDS_NEAR, &careful->point);
    }
    return careful->point.burden <= 1.0;
}

/* A step back from the limits where it costs little. */
static bite_status step_back(bite_solution *solution, bite_error *error)
{
    bite_status status = BITE_OK;
    for (size_t i = 0; i < sizeof careful_shares / sizeof *careful_shares; i++) {
        bite_solution careful;
        if (!find_careful(solution, careful_shares[i], &careful)) {
            continue;
        }
        status = bite_point_draw(&careful.wish, 1, &careful.point, error);
        if (status == BITE_OK && careful.point.burden <= careful_enough) {
            bite_solution_copy(&careful, solution);
        }
        return status;
    }
    return status;
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

/* What is clear by the draws of the search may not be by all draws: then the search is repeated
 * within a chance that is lower by what they differ. *judged: the first clear answer, or it stays
 * as it was. */
static bite_status correct(bite_search_problem *problem, const bite_choice_options *options,
                           bite_solution *solution, bite_point *rounded, bite_answer **judged,
                           bite_error *error)
{
    bite_solution tried;
    bite_status status = BITE_OK;
    double excess = bite_answer_result(*judged)->chance / (1.0 - options->confidence);
    bite_solution_copy(solution, &tried);
    for (size_t i = 0; i < CORRECTIONS && status == BITE_OK && !is_clear(*judged); i++) {
        bite_answer *fresh = NULL;
        if (corrected_shares[i] * excess > 1.05) {
            continue; /* too little */
        }
        tried.rule.allowed = corrected_shares[i] * solution->rule.allowed;
        bite_search_nearby(&tried.wish, reach_correcting, ROUNDS_CORRECTING, &tried.point);
        status = bite_point_draw(&tried.wish, 0, &tried.point, error);
        if (status == BITE_OK && tried.point.burden > 1.0) {
            status = bite_problem_meet_goal(&tried, error);
        }
        if (status != BITE_OK || tried.point.burden > 1.0) {
            return status;
        }
        bite_point point = bite_round_point(&tried.wish, &tried.point);
        status = judge(problem, options, &point, &fresh, error);
        if (status == BITE_OK && is_clear(fresh)) {
            bite_answer_free(*judged);
            *judged = fresh;
            *rounded = point;
            bite_solution_copy(&tried, solution);
            return BITE_OK;
        }
        bite_answer_free(fresh);
    }
    return status;
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

/* What is clear by the draws of the search but not by all is the fastest of the tight ones instead,
 * rather than a slow one that is hardly not clear. */
static bite_status settle_for_tight(bite_search_problem *problem,
                                    const bite_choice_options *options, bite_solution *solution,
                                    bite_point *rounded, bite_answer **judged, bite_error *error)
{
    bite_answer *fresh = NULL;
    int found = 0;
    bite_status status = bite_problem_solve_tight(solution, &found, error);
    if (status != BITE_OK || !found) {
        return status;
    }
    *rounded = bite_round_point(&solution->wish, &solution->point);
    status = judge(problem, options, rounded, &fresh, error);
    if (status == BITE_OK) {
        bite_answer_free(*judged);
        *judged = fresh;
    }
    return status;
}

/* Rounds to what is entered; after a step back a little of it may be given up for that. */
static bite_point round_solution(const bite_solution *solution)
{
    bite_wish wish = solution->wish;
    if (solution->rule.allowed < wish.problem->rule.allowed) {
        wish.quantile *= careful_enough;
    }
    return bite_round_point(&wish, &solution->point);
}

static bite_status solve(bite_search_problem *problem, const bite_choice_options *options,
                         bite_solution *solution, bite_choice *choice, bite_error *error)
{
    bite_status status =
        bite_problem_solve(problem, problem->request.chance_share, solution, error);
    if (status == BITE_OK && solution->point.burden <= 1.0 &&
        options->effort != BITE_EFFORT_QUICK) {
        status = step_back(solution, error);
    }
    if (status != BITE_OK) {
        return status;
    }
    bite_point rounded = round_solution(solution);
    status = judge(problem, options, &rounded, &choice->answer, error);
    int clear = solution->clear && options->draws != BITE_DRAWS_NONE;
    if (status == BITE_OK && clear && !is_clear(choice->answer)) {
        status = correct(problem, options, solution, &rounded, &choice->answer, error);
    }
    if (status == BITE_OK && clear && !is_clear(choice->answer)) {
        status = settle_for_tight(problem, options, solution, &rounded, &choice->answer, error);
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
