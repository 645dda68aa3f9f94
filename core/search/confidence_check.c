/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Settings whose limits are clear together, for one number of passes.
 *
 * Limits enter the search with margins, the 95 % end of a row's use over its best estimate. Rows
 * that are clear one by one may be too likely together, and margins that were found at one point
 * are used at others: from where the search ends, draws lead back to what is allowed (risk.c), and
 * from there on to what is better.
 */
#include "core/search/confidence_check.h"
#include "core/search/least_chance.h"
#include "core/search/limit_margins.h"
#include "core/search/search_space.h"
#include <math.h>

#define MARGINS_MOVED                                                                              \
    3 /* margins found elsewhere may leave nothing where those of the point itself would: looked   \
         for so often */
#define REPAIRED_FROM 0.4 /* of the chance: from more on no way leads back */

double bite_chance_allowed(const bite_search_problem *problem)
{
    return problem->chance_budget * (1.0 - problem->confidence);
}

double bite_chance_hardly_more(double least, double confidence)
{
    const double share =
        0.25; /* of the odds: at the least chance the feed may be any, a tenth of what is as good */
    const double still = 0.47; /* tight, whatever more draws make of it */
    const double nearly = 1.2; /* so near to clear more draws may call it that */
    double more = least + share * least * (1.0 - least);
    if (least < nearly * (1.0 - confidence)) {
        return least;
    }
    return least < still ? fmin(more, still) : more;
}

/* A row that warns early keeps a small chance from being a clear cut. */
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

/* A coarse look may call by a hair too likely what is not. */
static const double coarsely = 1.1;

/* The best within margins; where those that were found elsewhere leave nothing, within those of the
 * point itself. Together the limits may still be too likely, or a margin too narrow: then on to
 * where they are not. Coarse: for one number of passes after the other. *result: the draws of the
 * point. *clear: the limits are clear together. */
bite_status bite_chance_settle(bite_search_problem *problem, int coarse, bite_result *result,
                               int *clear, bite_error *error)
{
    double allowed = (coarse ? coarsely : 1.0) * bite_chance_allowed(problem);
    bite_search_effort look =
        !coarse ? BITE_SEARCH_FULL
        : problem->search.goal == BITE_GOAL_FAST && !problem->request.skip_change
            ? BITE_SEARCH_MEDIUM
            : BITE_SEARCH_COARSE;
    bite_status status = BITE_OK;
    for (int i = 0; status == BITE_OK && i <= MARGINS_MOVED; i++) {
        problem->point = bite_speed_feed_find(&problem->search, look);
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

/* Margins so wide that the point is at their end, for its chance is what holds it. */
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

/* The margins become those that the point can bear. */
static void stand(bite_search_problem *problem, const bite_result *at, double allowed)
{
    const double held_by_chance = 0.7;
    problem->chance = at->chance;
    bite_margins_set(problem, at, 1.0);
    if (at->chance > held_by_chance * allowed) {
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
        stand(problem, &at, 0.0);
    }
    return status;
}

/* Of few draws those settings are found that please them: all draws are less pleased. */
static const double unbiased = 0.75;

/* Draws tell what margins only come near to. */
bite_status bite_problem_polish(bite_search_problem *problem, bite_error *error)
{
    double allowed =
        problem->clear ? unbiased * bite_chance_allowed(problem) : problem->least_chance;
    bite_result at;
    bite_status status = bite_problem_sample(problem, &at, error);
    status = status == BITE_OK ? bite_least_chance_polish(problem, allowed, &at, error) : status;
    if (status == BITE_OK) {
        stand(problem, &at, allowed);
    }
    return status;
}

/* From where it stands back to what is allowed by now. */
bite_status bite_problem_tighten(bite_search_problem *problem, bite_error *error)
{
    bite_result at;
    bite_status status = bite_problem_sample(problem, &at, error);
    status = status == BITE_OK
                 ? bite_least_chance_repair(problem, bite_chance_allowed(problem), &at, error)
                 : status;
    if (status == BITE_OK) {
        stand(problem, &at, 0.0);
    }
    return status;
}
