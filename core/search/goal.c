/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The fastest settings among those that meet the goal. */
#include "core/search/goal.h"
#include "core/search/confidence_check.h"
#include "core/search/limit_margins.h"
#include "core/search/pass_count_search.h"
#include "core/search/search_space.h"
#include <math.h>

#define ROUNDS_WITHIN 8

/* Narrows the speeds to those near the point that was found. */
static void search_nearby(bite_search_problem *problem, const bite_search *whole)
{
    if (whole->spindle[0] < whole->spindle[1]) {
        problem->search.spindle[0] = fmax(whole->spindle[0], problem->point.spindle / 1.6);
        problem->search.spindle[1] = fmin(whole->spindle[1], problem->point.spindle * 1.6);
    }
}

static void search_everywhere(bite_search *search, const bite_search *whole)
{
    search->spindle[0] = whole->spindle[0];
    search->spindle[1] = whole->spindle[1];
}

/* Surface temperature rises, K, at which a material that does not soften counts as cool: warm to
 * the touch; for soft metals below the temperature that ages tempered aluminium within hours; for
 * hard metals below the one that colours steel yellow (estimates with some margin). */
static const double warm_to_hand = 20.0;
static const double warm_soft_metal = 100.0;
static const double warm_hard_metal = 200.0;

static double cool_enough(const bite_cut *cut)
{
    return cut->substance != BITE_METAL ? warm_to_hand
           : bite_problem_is_hard(cut)  ? warm_hard_metal
                                        : warm_soft_metal;
}

/* The value at which a goal counts as met: half the capacity, or a tenth of the capacity above the
 * best value. The capacity is the softening limit for the surface temperature, and 1 for
 * utilizations, marks and errors. A still cooler cut does not justify a very slow spindle. */
static double as_good(const bite_search_problem *problem, const bite_result *draws, uint32_t wanted,
                      double goal)
{
    const double share = 0.1;
    const double half = 0.5;
    const double spared = 0.8; /* of utilizations with margins: 95 % of the draws leave a fifth of
                                  the capacity */
    const bite_limit *soft = &draws->limits[BITE_LIMIT_SOFTENING];
    if (wanted == BITE_GOAL_COOL) {
        return soft->applies && soft->capacity > 0.0
                   ? fmax(goal + share * soft->capacity, half * soft->capacity)
                   : fmax((1.0 + share) * goal, cool_enough(&problem->full));
    }
    return fmin(1.0, fmax(goal + share, wanted == BITE_GOAL_GENTLE ? spared : half));
}

double bite_goal_cap(const bite_search_problem *problem, const bite_result *draws)
{
    return as_good(problem, draws, problem->search.goal, 0.0);
}

void bite_goal_set_cap(bite_search *search, double cap)
{
    search->goal_cap = cap;
    search->capped_goal = search->goal;
    search->goal = BITE_GOAL_FAST;
}

/* The next try: wider margins near the point found if its chance was too high; the whole range if
 * nothing near it keeps the limits. */
static bite_search_effort try_again(bite_search_problem *problem, const bite_search *before,
                                    const bite_result *draws, const bite_result *found,
                                    double times)
{
    if (problem->point.worst > 1.0) {
        search_everywhere(&problem->search, before);
        return BITE_SEARCH_FULL;
    }
    bite_margins_set(problem, found, times);
    double uses = bite_margins_within_reach(problem, &problem->search, draws);
    if (problem->search.goal_cap > 0.0 &&
        problem->search.capped_goal == BITE_GOAL_GENTLE) { /* which depends on the margins */
        problem->search.goal_cap = as_good(problem, draws, BITE_GOAL_GENTLE, uses);
    }
    search_nearby(problem, before);
    return BITE_SEARCH_LOCAL;
}

/* The best settings by the goal of the search whose chance is at most `allowed`. *found: their
 * draws. Returns 0, and leaves the problem as it was, if none is found. */
static int find_within(bite_search_problem *problem, const bite_result *draws, double allowed,
                       bite_result *found, bite_status *status, bite_error *error)
{
    const bite_point best = problem->point;
    const bite_search before = problem->search;
    bite_search_effort effort = BITE_SEARCH_MEDIUM; /* the polish by draws follows */
    for (int i = 0; i < ROUNDS_WITHIN && *status == BITE_OK; i++) {
        problem->point = bite_speed_feed_find(&problem->search, effort);
        if (problem->point.worst > 1.0 && effort == BITE_SEARCH_FULL) {
            break;
        }
        *status = problem->point.worst > 1.0 ? BITE_OK : bite_problem_sample(problem, found, error);
        if (*status == BITE_OK && problem->point.worst <= 1.0 && found->chance <= allowed) {
            search_everywhere(&problem->search, &before);
            return 1;
        }
        effort = try_again(problem, &before, draws, found, 1.1 + 0.25 * i);
    }
    problem->search = before;
    problem->point = best;
    return 0;
}

/* The fastest settings that meet the goal, with at most the allowed chance. If there are none,
 * other pass counts may still be faster. */
static bite_status find_faster(bite_search_problem *problem, const bite_result *draws,
                               double allowed, bite_error *error)
{
    bite_result found = *draws;
    bite_status status = BITE_OK;
    if (problem->search.goal == BITE_GOAL_FAST || isnan(draws->values[BITE_REMOVAL_RATE].value)) {
        return BITE_OK;
    }
    problem->chance = draws->chance;
    bite_goal_set_cap(&problem->search,
                      as_good(problem, draws, problem->search.goal, problem->point.goal));
    problem->point =
        bite_speed_feed_at(&problem->search, problem->point.spindle, problem->point.feed);
    if (find_within(problem, draws, allowed, &found, &status, error)) {
        problem->chance = found.chance;
    }
    return status;
}

/* The same with other pass counts, if the gain is worth another pass. */
static bite_status find_faster_passes(bite_search_problem *problem, uint32_t units,
                                      bite_error *error)
{
    const bite_solution start = bite_solution_of(problem, 1);
    int tried[BITE_SOLUTIONS_MAX] = {0};
    int clear = 0;
    bite_result result;
    if (!bite_pass_counts_are_free(problem) || !(problem->search.goal_cap > 0.0)) {
        return BITE_OK;
    }
    bite_solution_list *all = bite_solution_list_new(problem, error);
    if (all == NULL) {
        return BITE_NO_MEMORY;
    }
    all->count = 1;
    all->solution[0] = start;
    bite_status status = bite_pass_counts_climb(
        problem, &start.search, (uint64_t)problem->counts.axial * problem->counts.radial, all,
        error);
    size_t best = bite_pass_counts_next(all, tried);
    if (status == BITE_OK && best > 0) {
        bite_solution_restore(problem, &all->solution[best]);
        bite_pass_counts_round(problem, units);
        status = bite_chance_confirm(problem, &result, &clear, error);
    }
    bite_solution_list_free(problem, all);
    const bite_solution end = bite_solution_of(problem, clear);
    if (!bite_solution_better(&end, &start)) {
        bite_solution_restore(problem, &start);
        bite_pass_counts_round(problem, units);
    }
    return status;
}

bite_status bite_goal_fastest(bite_search_problem *problem, uint32_t units, bite_error *error)
{
    bite_result draws;
    bite_status status = problem->search.goal == BITE_GOAL_FAST
                             ? BITE_NO_ANSWER
                             : bite_problem_sample(problem, &draws, error);
    if (status == BITE_OK) {
        status =
            find_faster(problem, &draws, fmax(draws.chance, bite_chance_allowed(problem)), error);
        return status == BITE_OK ? find_faster_passes(problem, units, error) : status;
    }
    return status == BITE_NO_ANSWER ? BITE_OK : status;
}

/* The least chance alone would leave the feed arbitrary, since there the chance hardly depends on
 * the feed. */
bite_status bite_goal_fastest_unclear(bite_search_problem *problem, const bite_result *draws,
                                      bite_error *error)
{
    double allowed = bite_chance_hardly_more(problem, draws->chance);
    bite_result found = *draws;
    bite_status status = BITE_OK;
    int better = find_within(problem, draws, allowed, &found, &status, error);
    return status == BITE_OK ? find_faster(problem, better ? &found : draws, allowed, error)
                             : status;
}

bite_status bite_goal_fastest_quick(bite_search_problem *problem, const bite_result *draws,
                                    bite_error *error)
{
    const bite_solution start = bite_solution_of(problem, 1);
    bite_result found;
    int clear = 0;
    if (problem->search.goal == BITE_GOAL_FAST || isnan(draws->values[BITE_REMOVAL_RATE].value)) {
        return BITE_OK;
    }
    bite_goal_set_cap(&problem->search,
                      as_good(problem, draws, problem->search.goal, problem->point.goal));
    bite_status status = bite_chance_solve(problem, 1, &found, &clear, error);
    if (!clear) {
        bite_solution_restore(problem, &start);
    }
    return status;
}
