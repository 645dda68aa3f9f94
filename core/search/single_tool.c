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

/* The search near a point. */
enum { ROUNDS_NEAR = 4 };
static const double reach_near = 1.1;

/* Points that are drawn until one is within the limits: steps back, and rounded ones. */
enum { STEPS_BACK = 4, ROUNDINGS = 4 };

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

/* A step back from the limits where it costs little. A prediction that was wrong is made again. */
static bite_status step_back(bite_solution *solution, bite_error *error)
{
    bite_status status = BITE_OK;
    int left = STEPS_BACK;
    for (size_t i = 0; i < sizeof careful_shares / sizeof *careful_shares; i++) {
        bite_solution careful;
        for (; left > 0 && find_careful(solution, careful_shares[i], &careful); left--) {
            status = bite_point_draw(&careful.wish, INFINITY, &careful.point, error);
            if (status == BITE_OK && careful.point.burden <= careful_enough) {
                bite_solution_copy(&careful, solution);
            }
            if (status != BITE_OK || careful.point.burden <= careful_enough) {
                return status;
            }
        }
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

/* Rounds to what is entered; after a step back a little of it may be given up for that. By all
 * draws, what is rounded is drawn too, which corrects the predictions around it. */
static bite_status round_solution(const bite_solution *solution, bite_point *rounded,
                                  bite_error *error)
{
    bite_wish wish = solution->wish;
    bite_limit_rule rule = wish.problem->rule;
    bite_status status = BITE_OK;
    int left = ROUNDINGS;
    rule.allowed = solution->rule.allowed;
    memcpy(rule.relaxed, solution->rule.relaxed, sizeof rule.relaxed);
    wish.rule = &rule;
    if (rule.allowed < wish.problem->rule.allowed) {
        wish.quantile *= careful_enough;
    }
    *rounded = bite_round_point(&wish, &solution->point);
    for (; status == BITE_OK && rounded->burden <= 1.0 && left > 0; left--) {
        status = bite_point_draw(&wish, INFINITY, rounded, error);
        left = rounded->burden <= 1.0 ? 0 : left;
        *rounded = left > 0 ? bite_round_point(&wish, &solution->point) : *rounded;
    }
    return status;
}

/* What is clear may lie so close between two limits that nothing that is entered does, and many
 * draws may be worse than the first ones: then it is searched within a little less of each limit.
 */
static const double attempts[] = {1.0, 0.98};
enum { ATTEMPTS = sizeof attempts / sizeof *attempts };

/* Solves, rounds and judges. */
static bite_status solve(bite_search_problem *problem, const bite_choice_options *options,
                         bite_solution *solution, bite_choice *choice, bite_error *error)
{
    bite_point rounded;
    bite_status status = BITE_OK;
    int verifies = problem->request.scope == BITE_SCOPE_CLEAR; /* where a little less is no loss */
    int most = options->draws == BITE_DRAWS_NONE || verifies ? 1 : ATTEMPTS;
    int missed = 1;
    for (int i = 0; i < most && missed && status == BITE_OK; i++) {
        status = bite_problem_solve(problem, attempts[i], solution, error);
        if (status == BITE_OK && solution->point.burden <= 1.0 &&
            options->effort != BITE_EFFORT_QUICK) {
            status = step_back(solution, error);
        }
        status = status == BITE_OK ? round_solution(solution, &rounded, error) : status;
        bite_answer_free(choice->answer);
        choice->answer = NULL;
        status =
            status == BITE_OK ? judge(problem, options, &rounded, &choice->answer, error) : status;
        missed = status == BITE_OK && solution->clear && !is_clear(choice->answer);
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
