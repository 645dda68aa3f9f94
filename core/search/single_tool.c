/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The best settings of one tool: solved, rounded, and judged with all draws. */
#include "core/search/single_tool.h"
#include "core/base/error.h"
#include "core/search/active_limits.h"
#include "core/search/chance_constrained.h"
#include "core/search/confidence_check.h"
#include "core/search/control_rounding.h"
#include "core/search/search_space.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

static void fill_candidate(const bite_search_problem *problem, bite_candidate *to)
{
    to->clear_of_limits = problem->point.worst <= 1.0;
    to->passes = problem->counts.axial;
    to->side_passes = problem->counts.radial;
    to->spindle = problem->point.spindle;
    to->feed = problem->point.feed;
    to->depth = problem->full.depth;
    to->width = problem->full.operation == BITE_MILL && !isnan(problem->full.feature_width)
                    ? problem->full.width
                    : (double)NAN;
    to->goal = problem->point.goal;
    to->enough = (double)NAN;
    if (problem->search.goal_cap > 0.0) { /* the goal that was met */
        to->goal = bite_speed_feed_capped_goal(&problem->search, problem->point.spindle,
                                               problem->point.feed);
        to->enough = problem->search.goal_cap;
    }
}

/* Rounds the settings and judges them with all draws. The single change is searched for later. */
static bite_status judge_rounded(bite_search_problem *problem, const bite_choice_options *options,
                                 bite_answer **to, int *clear, bite_error *error)
{
    bite_round_point(problem, options->units);
    bite_status status = bite_round_into_request(problem, options->units, error);
    problem->request.skip_change = 1;
    status = status == BITE_OK ? bite_answer_new(&problem->request, options->draws,
                                                 options->confidence, to, error)
                               : status;
    *clear = status == BITE_OK && bite_answer_result(*to)->verdict == BITE_CLEAR;
    return status;
}

static void fill(bite_search_problem *problem, const bite_choice_options *options,
                 bite_choice *choice)
{
    choice->clear = bite_answer_result(choice->answer)->verdict == BITE_CLEAR;
    choice->gain = problem->search.goal;
    choice->goal =
        problem->search.goal_cap > 0.0 ? problem->search.capped_goal : problem->search.goal;
    if (options->effort == BITE_EFFORT_WHOLE) {
        bite_active_limits_find(problem, choice);
    }
    fill_candidate(problem, &choice->best);
    choice->best.clear_of_limits = choice->clear; /* by all draws, not by the margins */
}

/* Working copies of the search problem beside the one that is solved. */
enum { MORE_TRIED, MORE_NEXT, MORE_BEST, MORE_PROBLEMS };

#define SOLVES_MAX 3
#define STEPS_BACK_MAX 2
static const double stricter = 0.8;

/* Replaces the best settings and their answer by those that were tried. */
static void replace_best(const bite_search_problem *tried, bite_answer *fresh,
                         bite_search_problem *best, bite_answer **judged)
{
    bite_answer_free(*judged);
    *judged = fresh;
    bite_problem_copy(tried, best);
}

/* Settings and their chance by all draws. */
typedef struct judged_point {
    bite_point point;
    double chance;
} judged_point;

/* A point with about the wanted chance, interpolated between one that exceeds it and one that is
 * clear. */
static bite_point interpolate_point(const judged_point *over, const judged_point *clear,
                                    double wanted)
{
    double share = fmin(0.9, fmax(0.1, (wanted - clear->chance) / (over->chance - clear->chance)));
    bite_point point = {clear->point.spindle *
                            pow(over->point.spindle / clear->point.spindle, share),
                        clear->point.feed * pow(over->point.feed / clear->point.feed, share),
                        0.0,
                        0.0,
                        0,
                        0};
    return point;
}

/* Moves towards the settings that were not clear, if clear settings leave much of the chance budget
 * unused. */
static bite_status close_in(bite_search_problem *tried, const judged_point *over,
                            bite_search_problem *best, const bite_choice_options *options,
                            bite_answer **judged, bite_error *error)
{
    const double used = 0.75; /* share of the chance budget that counts as fully used */
    const double aim = 0.9;
    double budget = 1.0 - options->confidence;
    bite_answer *fresh = NULL;
    int clear = 0;
    judged_point safe = {best->point, bite_answer_result(*judged)->chance};
    if (safe.chance >= used * budget) {
        return BITE_OK;
    }
    bite_problem_copy(best, tried);
    bite_point point = interpolate_point(over, &safe, aim * budget);
    bite_status status = bite_problem_evaluate_at(tried, &point, error);
    status = status == BITE_OK ? judge_rounded(tried, options, &fresh, &clear, error) : status;
    if (clear) {
        replace_best(tried, fresh, best, judged);
    } else {
        bite_answer_free(fresh);
    }
    return status;
}

/* The search with few draws found settings clear that with all draws are just not clear. Steps back
 * until the chance is reduced as much as all draws require, and then forward again. If nothing is
 * clear, `best` stays as it was. */
static bite_status step_back(bite_search_problem *problem, bite_search_problem *tried,
                             bite_search_problem *best, const bite_choice_options *options,
                             bite_answer **judged, bite_error *error)
{
    const double aim = 0.93;
    judged_point over = {best->point, bite_answer_result(*judged)->chance};
    double few = best->chance;
    for (int i = 0; i < STEPS_BACK_MAX; i++) {
        bite_answer *fresh = NULL;
        int clear = 0;
        problem->chance_budget = fmin(0.9 * problem->chance_budget, aim * few / over.chance);
        bite_status status = bite_problem_tighten(problem, error);
        bite_problem_copy(problem, tried);
        status = status == BITE_OK ? judge_rounded(tried, options, &fresh, &clear, error) : status;
        if (clear) {
            replace_best(tried, fresh, best, judged);
            return close_in(tried, &over, best, options, judged, error);
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

/* Steps forward if by all draws much of the chance budget is unused that seemed used by the few
 * draws of the search. */
static bite_status step_forward(bite_search_problem *tried, bite_search_problem *best,
                                const bite_choice_options *options, bite_answer **judged,
                                bite_error *error)
{
    const double unused = 0.75; /* share of the chance budget: below this, it can be used further */
    const double restricts = 0.6; /* share of the budget by few draws: below this, the chance does
                                     not restrict the settings */
    double budget = 1.0 - options->confidence;
    double all = bite_answer_result(*judged)->chance;
    bite_answer *fresh = NULL;
    int clear = 0;
    if (all >= unused * budget || best->chance < restricts * best->chance_budget * budget ||
        !(all > 0.0)) {
        return BITE_OK;
    }
    bite_problem_copy(best, tried);
    tried->chance_budget = fmin(2.0, best->chance / all);
    bite_status status = bite_problem_polish(tried, error);
    status = status == BITE_OK ? judge_rounded(tried, options, &fresh, &clear, error) : status;
    if (clear && tried->point.goal < best->point.goal) {
        replace_best(tried, fresh, best, judged);
    } else {
        bite_answer_free(fresh);
    }
    return status;
}

/* Polishes and judges the settings, and steps back if by all draws their chance is too high. *best,
 * *judged: the result. */
static bite_status refine(bite_search_problem *problem, bite_search_problem *tried,
                          bite_search_problem *best, const bite_choice_options *options,
                          bite_answer **judged, int *clear, bite_error *error)
{
    bite_problem_copy(problem, best);
    bite_status status = bite_problem_polish(best, error);
    status = status == BITE_OK ? judge_rounded(best, options, judged, clear, error) : status;
    if (status != BITE_OK || !problem->clear || options->draws == BITE_DRAWS_NONE) {
        return status;
    }
    if (*clear) {
        return step_forward(tried, best, options, judged, error);
    }
    status = step_back(problem, tried, best, options, judged, error);
    *clear = status == BITE_OK && bite_answer_result(*judged)->verdict == BITE_CLEAR;
    return status;
}

/* The least chance nearly was clear by few draws, and all draws say that it is not: the settings
 * may then be faster, at hardly more than the least chance. */
static bite_status hasten_unclear(bite_search_problem *problem, bite_search_problem *more,
                                  const bite_choice_options *options, bite_answer **judged,
                                  bite_error *error)
{
    bite_answer *fresh = NULL;
    int clear = 0;
    bite_status status = bite_problem_hasten_unclear(problem, error);
    status = status == BITE_OK ? refine(problem, &more[MORE_TRIED], &more[MORE_NEXT], options,
                                        &fresh, &clear, error)
                               : status;
    if (status == BITE_OK) {
        replace_best(&more[MORE_NEXT], fresh, &more[MORE_BEST], judged);
    } else {
        bite_answer_free(fresh);
    }
    return status == BITE_NO_ANSWER ? BITE_OK : status;
}

/* Solves the problem; if the result is clear by few draws but not by all, solves it once more with
 * more passes. more[MORE_BEST], *judged: the first clear result, or the first of all. */
static bite_status solve_with(bite_search_problem *problem, bite_search_problem *more,
                              const bite_choice_options *options, bite_answer **judged,
                              bite_error *error)
{
    int clear = 0;
    uint32_t called_clear = 1;
    bite_status status = bite_problem_solve(problem, options->units, error);
    for (int i = 0; i < SOLVES_MAX && status == BITE_OK && !clear && called_clear; i++) {
        bite_answer *fresh = NULL;
        bite_search_problem *best = &more[i == 0 ? MORE_BEST : MORE_NEXT];
        if (i > 0) {
            problem->chance_budget = stricter;
            status = bite_problem_solve_with_more_passes(problem, options->units, error);
        }
        called_clear = problem->clear && options->draws != BITE_DRAWS_NONE;
        status = status == BITE_OK
                     ? refine(problem, &more[MORE_TRIED], best, options, &fresh, &clear, error)
                     : status;
        if (status == BITE_OK && (i == 0 || clear)) {
            bite_answer_free(*judged);
            *judged = fresh;
            fresh = NULL;
            if (i > 0) {
                bite_problem_copy(best, &more[MORE_BEST]);
            }
        }
        bite_answer_free(fresh);
    }
    return status == BITE_OK && !clear && !called_clear && options->draws != BITE_DRAWS_NONE
               ? hasten_unclear(problem, more, options, judged, error)
           : status == BITE_NO_ANSWER ? BITE_OK
                                      : status;
}

/* A clear answer needs no single change; any other is judged again with it. */
static bite_status solve_whole(bite_search_problem *problem, bite_search_problem *more,
                               const bite_choice_options *options, bite_choice *choice,
                               bite_error *error)
{
    bite_search_problem *best = &more[MORE_BEST];
    bite_status status = solve_with(problem, more, options, &choice->answer, error);
    if (status != BITE_OK) {
        return status;
    }
    best->request.skip_change = 0;
    if (bite_answer_result(choice->answer)->verdict == BITE_CLEAR) {
        choice->answer->request.skip_change = 0;
    } else {
        bite_answer_free(choice->answer);
        choice->answer = NULL;
        status = bite_answer_new(&best->request, options->draws, options->confidence,
                                 &choice->answer, error);
    }
    if (status == BITE_OK) {
        fill(best, options, choice);
    }
    return status;
}

static bite_status solve_quick(bite_search_problem *problem, const bite_choice_options *options,
                               bite_choice *choice, bite_error *error)
{
    int clear = 0;
    bite_status status = bite_problem_solve_quick(problem, error);
    status = status == BITE_OK ? judge_rounded(problem, options, &choice->answer, &clear, error)
                               : status;
    if (status == BITE_OK) {
        fill(problem, options, choice);
    }
    return status;
}

static bite_status solve(bite_search_problem *problem, const bite_choice_options *options,
                         bite_choice *choice, bite_error *error)
{
    if (options->effort == BITE_EFFORT_QUICK) {
        return solve_quick(problem, options, choice, error);
    }
    bite_search_problem *more = bite_memory_new(&choice->allocator, MORE_PROBLEMS, sizeof *more);
    if (more == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a choice");
    }
    bite_status status = solve_whole(problem, more, options, choice, error);
    bite_memory_free(&choice->allocator, more);
    return status;
}

bite_status bite_choice_for_tool(const bite_request *request, const char *tool,
                                 const bite_choice_options *options, bite_search_problem *problem,
                                 bite_choice **choice, bite_error *error)
{
    bite_choice *fresh = bite_memory_new(&request->allocator, 1, sizeof *fresh);
    if (fresh == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a choice");
    }
    memset(fresh, 0, sizeof *fresh);
    fresh->allocator = request->allocator;
    fresh->tools = 1;
    bite_status status = bite_problem_init(request, tool, options, problem, error);
    status = status == BITE_OK ? solve(problem, options, fresh, error) : status;
    if (status != BITE_OK) {
        bite_choice_free(fresh);
        return status;
    }
    (void)snprintf(fresh->best.tool, sizeof fresh->best.tool, "%.*s", BITE_TYPED_MAX - 1,
                   tool == NULL ? problem->request.tool_name : tool);
    *choice = fresh;
    return BITE_OK;
}
