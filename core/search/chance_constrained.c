/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The search problem of one tool solved: passes, speed and feed under the chance constraint.
 *
 * Clear settings are made faster (goal.c). If nothing is clear, the least chance is found
 * (least_chance.c) and the margins are taken at its point. Limits that are exceeded even there are
 * relaxed and reported, and everything else is chosen as if they were not exceeded. single_tool.c
 * then rounds the result and judges it with all draws.
 */
#include "core/search/chance_constrained.h"
#include "core/search/confidence_check.h"
#include "core/search/goal.h"
#include "core/search/least_chance.h"
#include "core/search/limit_margins.h"
#include "core/search/pass_count_find.h"
#include "core/search/pass_count_search.h"
#include "core/search/search_space.h"
#include <math.h>

#define DRAWS_QUICK 96
#define MORE_QUICK 3

/* Moves to the point of least chance. *result: its draws. *clear: 1 if it is clear apart from
 * relaxed limits. */
static bite_status solve_least_chance(bite_search_problem *problem, uint32_t units,
                                      bite_result *result, int *clear, bite_error *error)
{
    bite_status status = bite_pass_counts_least(problem, units, result, error);
    if (status == BITE_OK && bite_margins_relax(problem, result) > 0) {
        status = bite_least_chance_least(problem, result, error);
    }
    if (status != BITE_OK) {
        return status;
    }
    bite_margins_set(problem, result, 1.0);
    (void)bite_margins_within_reach(problem, &problem->search, result);
    problem->point =
        bite_speed_feed_at(&problem->search, problem->point.spindle, problem->point.feed);
    *clear = bite_chance_is_clear(problem, result, bite_chance_allowed(problem));
    return BITE_OK;
}

static bite_status solve_clear(bite_search_problem *problem, uint32_t units, bite_result *result,
                               int *clear, bite_error *error)
{
    return bite_pass_counts_are_free(problem) ? bite_pass_counts_solve(problem, units, clear, error)
                                              : bite_chance_solve(problem, 0, result, clear, error);
}

/* Other pass counts by the problem's own goal: the best of them, confirmed. *result: its draws. */
static bite_status climb_by_own_goal(bite_search_problem *problem, uint32_t units,
                                     bite_result *result, int *clear, bite_error *error)
{
    int tried[BITE_SOLUTIONS_MAX] = {0};
    bite_solution_list *all = bite_solution_list_new(problem, error);
    if (all == NULL) {
        return BITE_NO_MEMORY;
    }
    all->count = 1;
    all->solution[0] = bite_solution_of(problem, 1);
    bite_status status = bite_pass_counts_climb(problem, &problem->initial, 1, all, error);
    bite_solution_restore(problem, &all->solution[bite_pass_counts_next(all, tried)]);
    bite_solution_list_free(problem, all);
    bite_pass_counts_round(problem, units);
    return status == BITE_OK ? bite_chance_confirm(problem, result, clear, error) : status;
}

/* Continues by the problem's own goal from settings found by another. *result: the last draws.
 * *clear: the settings also keep the problem's own margins and cap. */
static bite_status continue_by_own_goal(bite_search_problem *problem, uint32_t units,
                                        bite_result *result, int *clear, bite_error *error)
{
    bite_status status = bite_problem_sample(problem, result, error);
    if (status != BITE_OK) {
        return status;
    }
    problem->search = problem->initial;
    bite_margins_set(problem, result, 1.0);
    (void)bite_margins_within_reach(problem, &problem->search, result);
    problem->point =
        bite_speed_feed_at(&problem->search, problem->point.spindle, problem->point.feed);
    problem->chance = result->chance;
    *clear = problem->point.worst <= 1.0;
    if (!*clear || problem->search.goal != BITE_GOAL_FAST || !bite_pass_counts_are_free(problem)) {
        return BITE_OK;
    }
    return climb_by_own_goal(problem, units, result, clear, error);
}

static void restart_by(bite_search_problem *problem, uint32_t goal)
{
    problem->search = problem->initial;
    problem->search.goal = goal;
    problem->search.goal_cap = 0.0;
}

/* A search by one goal may miss clear settings, or end at a very slow feed; the other goals may
 * lead to other settings. If none is clear, the problem stays as it was. */
static bite_status solve_by_other_goals(bite_search_problem *problem, uint32_t units, int *clear,
                                        bite_error *error)
{
    static const uint32_t others[] = {BITE_GOAL_GENTLE, BITE_GOAL_COOL, BITE_GOAL_FAST};
    const bite_solution before = bite_solution_of(problem, 0);
    uint32_t own =
        problem->initial.goal_cap > 0.0 ? problem->initial.capped_goal : problem->initial.goal;
    bite_status status = BITE_OK;
    for (size_t i = 0; i < sizeof others / sizeof *others && status == BITE_OK && !*clear; i++) {
        bite_result result;
        if (others[i] == own || (others[i] == BITE_GOAL_FAST && problem->initial.goal_cap > 0.0)) {
            continue;
        }
        restart_by(problem, others[i]);
        bite_problem_close_in(problem);
        if ((uint64_t)problem->counts.axial * problem->counts.radial < problem->min_passes) {
            bite_solution_restore(problem, &before);
            restart_by(problem, others[i]);
        }
        status = solve_clear(problem, units, &result, clear, error);
        status = status == BITE_OK && *clear
                     ? continue_by_own_goal(problem, units, &result, clear, error)
                     : status;
    }
    if (!*clear) {
        bite_solution_restore(problem, &before);
    }
    return status;
}

/* A feed per tooth far below the largest allowed: another goal may lead to a much higher one. */
static int feeds_slowly(const bite_search_problem *problem)
{
    const double slow_share = 0.15;
    double tooth = problem->point.feed / (problem->point.spindle * problem->full.flutes);
    return problem->search.goal == BITE_GOAL_FAST && isnan(problem->search.feed) &&
           tooth < slow_share * problem->search.tooth[1];
}

static bite_status solve_slow_feed(bite_search_problem *problem, uint32_t units, bite_error *error)
{
    const bite_solution start = bite_solution_of(problem, 1);
    int clear = 0;
    bite_status status = solve_by_other_goals(problem, units, &clear, error);
    const bite_solution other = bite_solution_of(problem, clear);
    if (!bite_solution_better(&other, &start)) {
        bite_solution_restore(problem, &start);
        bite_pass_counts_round(problem, units);
    }
    return status;
}

/* Solves from the present pass counts and margins. */
static bite_status solve_from_here(bite_search_problem *problem, uint32_t units, bite_error *error)
{
    const bite_solution before = bite_solution_of(problem, 0);
    bite_result result;
    int clear = 0;
    bite_status status = solve_clear(problem, units, &result, &clear, error);
    if (status == BITE_OK && !clear &&
        problem->chance_budget < bite_chance_budget_default) { /* if a share of the budget is not
                                                                  enough, all of it may be used */
        problem->chance_budget = bite_chance_budget_default;
        bite_solution_restore(problem, &before);
        status = solve_clear(problem, units, &result, &clear, error);
    }
    if (status == BITE_OK && !clear &&
        problem->min_passes >
            1) { /* an earlier solution exists; more passes are tried only to become clear */
        return BITE_NO_ANSWER;
    }
    status =
        status == BITE_OK && !clear ? solve_by_other_goals(problem, units, &clear, error) : status;
    if (status == BITE_OK && !clear) {
        status = solve_least_chance(problem, units, &result, &clear, error);
    }
    if (status == BITE_OK) {
        status = clear ? bite_goal_fastest(problem, units, error)
                       : bite_goal_fastest_unclear(problem, &result, error);
    }
    status = status == BITE_OK && clear && feeds_slowly(problem)
                 ? solve_slow_feed(problem, units, error)
                 : status;
    problem->clear = (uint32_t)clear;
    problem->least_chance = clear || status != BITE_OK
                                ? bite_chance_allowed(problem)
                                : bite_chance_hardly_more(problem, result.chance);
    return status;
}

/* The fastest settings that meet the goal, without finding its best value first. If there are none,
 * the problem stays as it was. */
static bite_status solve_met_goal(bite_search_problem *problem, uint32_t units,
                                  const bite_result *result, int *clear, bite_error *error)
{
    const bite_solution before = bite_solution_of(problem, 0);
    bite_result found;
    if (problem->search.goal == BITE_GOAL_FAST || isnan(result->values[BITE_REMOVAL_RATE].value)) {
        return BITE_OK;
    }
    double cap = bite_goal_cap(problem, result);
    if (problem->point.goal > 0.85 * cap) { /* the best of a coarse search hardly meets it */
        return BITE_OK;
    }
    bite_goal_set_cap(&problem->search, cap);
    problem->initial = problem->search;
    bite_problem_close_in(problem);
    bite_status status = solve_clear(problem, units, &found, clear, error);
    status = status == BITE_OK && *clear && feeds_slowly(problem)
                 ? solve_slow_feed(problem, units, error)
                 : status;
    problem->clear = (uint32_t)*clear;
    if (!*clear) {
        bite_solution_restore(problem, &before);
    }
    return status;
}

bite_status bite_problem_solve(bite_search_problem *problem, uint32_t units, bite_error *error)
{
    bite_result result;
    int clear = 0;
    bite_problem_close_in(problem);
    bite_status status = bite_problem_sample(problem, &result, error);
    if (status != BITE_OK) {
        return status;
    }
    bite_margins_relax_sizes(problem, &result);
    bite_margins_set(problem, &result, 1.0);
    status = solve_met_goal(problem, units, &result, &clear, error);
    if (status != BITE_OK || clear) {
        return status;
    }
    bite_problem_find_passes(problem);
    problem->initial = problem->search;
    return solve_from_here(problem, units, error);
}

bite_status bite_problem_hasten_unclear(bite_search_problem *problem, bite_error *error)
{
    bite_result result;
    double least = problem->least_chance;
    int hastened = bite_chance_hardly_more(problem, least) > least;
    problem->unclear_by_all = 1;
    if (problem->clear || hastened || !(bite_chance_hardly_more(problem, least) > least)) {
        return BITE_NO_ANSWER;
    }
    bite_status status = bite_problem_sample(problem, &result, error);
    problem->least_chance = bite_chance_hardly_more(problem, least);
    return status == BITE_OK ? bite_goal_fastest_unclear(problem, &result, error) : status;
}

bite_status bite_problem_solve_with_more_passes(bite_search_problem *problem, uint32_t units,
                                                bite_error *error)
{
    problem->search = problem->initial;
    if (!bite_pass_counts_are_free(problem) || bite_pass_counts_too_many(problem) ||
        !bite_pass_counts_more(&problem->search, &problem->counts)) {
        return BITE_NO_ANSWER;
    }
    bite_problem_update_cut(problem);
    problem->min_passes = (uint64_t)problem->counts.axial * problem->counts.radial;
    return solve_from_here(problem, units, error);
}

bite_status bite_problem_solve_quick(bite_search_problem *problem, bite_error *error)
{
    bite_result result;
    int clear = 0;
    problem->draws = DRAWS_QUICK;
    problem->request.skip_change = 1;
    bite_problem_close_in(problem);
    bite_status status = bite_problem_sample(problem, &result, error);
    if (status != BITE_OK) {
        return status;
    }
    bite_margins_relax_sizes(problem, &result);
    bite_margins_set(problem, &result, 1.0);
    bite_problem_close_in(problem);
    problem->initial = problem->search;
    status = bite_chance_solve(problem, 1, &result, &clear, error);
    if (status == BITE_OK && !clear && problem->chance_budget < bite_chance_budget_default) {
        problem->chance_budget = bite_chance_budget_default;
        problem->search = problem->initial;
        status = bite_chance_solve(problem, 1, &result, &clear, error);
    }
    for (int i = 0; i < MORE_QUICK && status == BITE_OK && !clear &&
                    bite_pass_counts_are_free(problem) && !bite_pass_counts_too_many(problem);
         i++) {
        const bite_solution last = bite_solution_of(problem, 0);
        problem->search = problem->initial;
        if (!bite_pass_counts_more(&problem->search, &problem->counts)) {
            bite_solution_restore(problem, &last);
            break;
        }
        bite_problem_update_cut(problem);
        status = bite_chance_solve(problem, 1, &result, &clear, error);
        const bite_solution now = bite_solution_of(problem, clear);
        if (!bite_solution_better(&now, &last)) {
            bite_solution_restore(problem, &last);
            break;
        }
    }
    problem->clear = (uint32_t)clear;
    if (status == BITE_OK) {
        status = clear ? bite_goal_fastest_quick(problem, &result, error)
                       : bite_least_chance_least(problem, &result, error);
        problem->chance = clear ? problem->chance : bite_least_chance_of(problem, &result);
    }
    return status;
}
