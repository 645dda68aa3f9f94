/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Settings that keep all limits together at the confidence, for one number of passes.
 *
 * The search applies each limit with a margin, the 95 % end of its utilization over the best
 * estimate. Limits that are kept individually may have too high a chance together, and margins
 * found at one point are applied at others. So the result of the search is repaired by draws until
 * its chance is allowed (least_chance.c), and then improved.
 */
#include "core/search/confidence_check.h"
#include "core/search/least_chance.h"
#include "core/search/limit_margins.h"
#include "core/search/search_space.h"
#include <math.h>

#define MARGINS_MOVED                                                                              \
    3 /* tries: margins found elsewhere may leave no settings, while those of the point itself     \
         leave some */
#define REPAIRED_FROM 0.4 /* a chance above this cannot be repaired */

double bite_chance_allowed(const bite_search_problem *problem)
{
    return problem->chance_budget * (1.0 - problem->confidence);
}

double bite_chance_hardly_more(const bite_search_problem *problem, double least)
{
    const double share = 0.25; /* share of the odds: at the least chance the feed is arbitrary,
                                  perhaps a tenth of an equally good one */
    const double still = 0.47; /* still tight when sampled with more draws */
    const double nearly = 1.2; /* may be clear with more draws */
    double more = least + share * least * (1.0 - least);
    if (!problem->unclear_by_all && least < nearly * (1.0 - problem->confidence)) {
        return least;
    }
    return least < still ? fmin(more, still) : more;
}

int bite_chance_is_clear(const bite_search_problem *problem, const bite_result *result,
                         double allowed)
{
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        const bite_limit *limit = &result->limits[i];
        int early = limit->verdict == BITE_TIGHT && limit->chance < 1.0 - problem->confidence;
        if (limit->applies && !limit->advisory && early && !(problem->relaxed[i] > 0.0)) {
            return 0;
        }
    }
    return result->chance < allowed;
}

/* The chance of a coarse search may be slightly too high. */
static const double coarse_allowance = 1.1;

/* If the margins found elsewhere leave no settings, those of the point itself are used. The limits
 * may still have too high a chance together, or a margin may be too narrow: then the settings are
 * repaired by draws. */
bite_status bite_chance_solve(bite_search_problem *problem, int coarse, bite_result *result,
                              int *clear, bite_error *error)
{
    double allowed = (coarse ? coarse_allowance : 1.0) * bite_chance_allowed(problem);
    bite_search_effort effort =
        !coarse ? BITE_SEARCH_FULL
        : problem->search.goal == BITE_GOAL_FAST && !problem->request.skip_change
            ? BITE_SEARCH_MEDIUM
            : BITE_SEARCH_COARSE;
    bite_status status = BITE_OK;
    for (int i = 0; status == BITE_OK && i <= MARGINS_MOVED; i++) {
        problem->point = bite_speed_feed_find(&problem->search, effort);
        status = bite_problem_sample(problem, result, error);
        if (status != BITE_OK || problem->point.worst <= 1.0 ||
            bite_chance_is_clear(problem, result, allowed)) {
            break;
        }
        bite_margins_set(problem, result, 1.0);
    }
    if (status == BITE_OK && !bite_chance_is_clear(problem, result, allowed) &&
        result->chance < REPAIRED_FROM) {
        status = bite_least_chance_repair(problem, allowed, result, error);
    }
    *clear = status == BITE_OK && bite_chance_is_clear(problem, result, allowed);
    if (*clear && problem->point.worst > 1.0) {
        (void)bite_margins_within_reach(problem, &problem->search, result);
        problem->point =
            bite_speed_feed_at(&problem->search, problem->point.spindle, problem->point.feed);
    }
    problem->chance = status == BITE_OK ? result->chance : 1.0;
    return status;
}

bite_status bite_chance_confirm(bite_search_problem *problem, bite_result *result, int *clear,
                                bite_error *error)
{
    double allowed = bite_chance_allowed(problem);
    bite_status status = bite_problem_sample(problem, result, error);
    if (status == BITE_OK && !bite_chance_is_clear(problem, result, allowed)) {
        status = bite_least_chance_repair(problem, allowed, result, error);
    }
    *clear = status == BITE_OK && bite_chance_is_clear(problem, result, allowed);
    problem->chance = status == BITE_OK ? result->chance : 1.0;
    return status;
}

/* Margins so wide that the point just keeps them, since its chance is what restricts it. */
static void widen_to_point(bite_search_problem *problem, const bite_result *at)
{
    const double scatters = 1.001;
    double times = INFINITY;
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        const bite_limit *limit = &at->limits[i];
        if (limit->applies && !limit->advisory && !(problem->relaxed[i] > 0.0) &&
            limit->utilization > 0.0 && limit->utilization_high > scatters * limit->utilization) {
            times = fmin(times, (1.0 / limit->utilization - 1.0) /
                                    (limit->utilization_high / limit->utilization - 1.0));
        }
    }
    bite_margins_set(problem, at, isfinite(times) && times > 1.0 ? times : 1.0);
}

/* Sets margins that the point keeps. */
static void fit_margins(bite_search_problem *problem, const bite_result *at, double allowed)
{
    const double restricted_by_chance = 0.7;
    problem->chance = at->chance;
    bite_margins_set(problem, at, 1.0);
    if (at->chance > restricted_by_chance * allowed) {
        widen_to_point(problem, at);
    }
    (void)bite_margins_within_reach(problem, &problem->search, at);
    problem->point =
        bite_speed_feed_at(&problem->search, problem->point.spindle, problem->point.feed);
}

bite_status bite_problem_evaluate_at(bite_search_problem *problem, const bite_point *point,
                                     bite_error *error)
{
    bite_result at;
    problem->point = *point;
    bite_status status = bite_problem_sample(problem, &at, error);
    if (status == BITE_OK) {
        fit_margins(problem, &at, 0.0);
    }
    return status;
}

/* Optimizing on few samples overfits them: with all draws the chance is higher. */
static const double overfit_allowance = 0.9;

bite_status bite_problem_polish(bite_search_problem *problem, bite_error *error)
{
    double allowed =
        problem->clear ? overfit_allowance * bite_chance_allowed(problem) : problem->least_chance;
    bite_result at;
    bite_status status = bite_problem_sample(problem, &at, error);
    status = status == BITE_OK ? bite_least_chance_polish(problem, allowed, &at, error) : status;
    if (status == BITE_OK) {
        fit_margins(problem, &at, allowed);
    }
    return status;
}

bite_status bite_problem_tighten(bite_search_problem *problem, bite_error *error)
{
    bite_result at;
    bite_status status = bite_problem_sample(problem, &at, error);
    status = status == BITE_OK
                 ? bite_least_chance_repair(problem, bite_chance_allowed(problem), &at, error)
                 : status;
    if (status == BITE_OK) {
        fit_margins(problem, &at, 0.0);
    }
    return status;
}
