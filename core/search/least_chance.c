/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The settings with the least chance of exceeding a limit.
 *
 * Margins are found at one point and used at others. If they leave no settings, the chance itself
 * is minimized: a compass search in the logarithms of spindle speed and feed per tooth. Every point
 * uses the same draws, so two points differ by their settings only, not by sampling. The search
 * finds a local minimum.
 */
#include "core/search/least_chance.h"
#include "core/names/registry.h"
#include "core/search/search_space.h"
#include <math.h>
#include <string.h>

/* The weight of the worst utilization at its 95 % end beside the chance: it gives the search a
 * slope where all draws exceed a limit. */
static const double slope = 0.01;
static const double slope_utilization_most = 10.0;

static const double first_step = 0.7; /* a factor of two */
static const double last_step = 0.05;
#define EVALUATIONS_MAX 60

/* Steps of a polish: from a fifth down to a few percent, which is as fine as the rounding. */
static const double polish_first = 0.2;
static const double polish_last = 0.02;
#define POLISH_STEPS_MAX 40

/* A smaller gain is not worth the draws. */
static const double gain_worth_draws = 0.01;

/* relaxed: as in a search problem, or NULL. */
static double risk_of(const bite_result *result, const double *relaxed)
{
    double worst = 0.0;
    double excess = 0.0;
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        const bite_limit *limit = &result->limits[i];
        if (!limit->applies || limit->advisory) {
            continue;
        }
        if (relaxed != NULL && relaxed[i] > 0.0) {
            excess = fmax(excess, limit->utilization / relaxed[i] - 1.0);
        } else {
            worst = fmax(worst, isnan(limit->utilization_high) ? limit->utilization
                                                               : limit->utilization_high);
        }
    }
    return result->chance + slope * fmin(slope_utilization_most, worst) +
           (excess > 0.0 ? 1.0 + excess : 0.0);
}

double bite_least_chance_of(const bite_search_problem *problem, const bite_result *result)
{
    return risk_of(result, problem->relaxed);
}

double bite_least_chance_of_all(const bite_result *result)
{
    return risk_of(result, NULL);
}

/* A point of the search, as the logarithms of spindle speed and feed per tooth. */
typedef struct search_point {
    double spindle;
    double tooth;
} search_point;

static double clamp_logarithm(double value, const double *range)
{
    return fmin(fmax(value, log(range[0])), log(range[1]));
}

static void move_to(bite_search_problem *problem, const search_point *at)
{
    problem->point.spindle = exp(at->spindle);
    problem->point.feed = isnan(problem->search.feed)
                              ? exp(at->tooth) * problem->point.spindle * problem->full.flutes
                              : problem->search.feed;
}

static search_point search_point_of(const bite_search_problem *problem)
{
    search_point at = {
        clamp_logarithm(log(problem->point.spindle), problem->search.spindle),
        clamp_logarithm(log(problem->point.feed / (problem->point.spindle * problem->full.flutes)),
                        problem->search.tooth)};
    return at;
}

static int same_point(const search_point *a, const search_point *b)
{
    return !(fabs(a->spindle - b->spindle) > 0.0) && !(fabs(a->tooth - b->tooth) > 0.0);
}

/* The point after a step in a direction; with a fixed feed rate the feed per tooth is not free. */
static search_point stepped(const bite_search_problem *problem, const search_point *from,
                            const double *direction, double step)
{
    search_point to = {
        clamp_logarithm(from->spindle + direction[0] * step, problem->search.spindle),
        isnan(problem->search.feed)
            ? clamp_logarithm(from->tooth + direction[1] * step, problem->search.tooth)
            : from->tooth};
    return to;
}

static const double compass[][2] = {{1.0, 0.0}, {-1.0, 0.0}, {0.0, 1.0}, {0.0, -1.0}};

bite_status bite_least_chance_least(bite_search_problem *problem, bite_result *result,
                                    bite_error *error)
{
    search_point best = search_point_of(problem);
    move_to(problem, &best);
    bite_status status = bite_problem_sample(problem, result, error);
    double least = status == BITE_OK ? bite_least_chance_of(problem, result) : 0.0;
    int evaluations = 0;
    for (double step = first_step;
         status == BITE_OK && step > last_step && evaluations < EVALUATIONS_MAX;) {
        const search_point from = best;
        for (size_t direction = 0;
             status == BITE_OK && direction < sizeof compass / sizeof *compass; direction++) {
            search_point to = stepped(problem, &from, compass[direction], step);
            bite_result sampled;
            if (same_point(&to, &from)) {
                continue;
            }
            move_to(problem, &to);
            status = bite_problem_sample(problem, &sampled, error);
            evaluations++;
            double risk = status == BITE_OK ? bite_least_chance_of(problem, &sampled) : INFINITY;
            if (risk < least) {
                least = risk;
                best = to;
                *result = sampled;
            }
        }
        step = same_point(&best, &from) ? 0.5 * step : step;
    }
    move_to(problem, &best);
    problem->point =
        bite_speed_feed_at(&problem->search, problem->point.spindle, problem->point.feed);
    return status;
}

/* ---- steps that improve the goal ---- */

/* Directions in steps of spindle speed and feed per tooth: along one, along both, and along a limit
 * along which one rises as the other falls. */
static const double polish_directions[][2] = {{1.0, 0.0},  {0.0, 1.0},  {1.0, -0.5},
                                              {-0.5, 1.0}, {-1.0, 0.0}, {0.0, -1.0}};

static int improves_goal(const bite_search_problem *problem, const bite_point *to,
                         const bite_point *from)
{
    double scale = problem->search.goal == BITE_GOAL_FAST ? 1.0 : fabs(from->goal);
    return to->goal < from->goal - gain_worth_draws * scale;
}

/* Whether the point keeps the cap of the goal, which is not a limit, so draws do not cover it. */
static int within_cap(const bite_search_problem *problem, const bite_point *at)
{
    return !(problem->search.goal_cap > 0.0) ||
           bite_speed_feed_capped_goal(&problem->search, at->spindle, at->feed) <=
               problem->search.goal_cap;
}

static int breaks_relaxed(const bite_search_problem *problem, const bite_result *result)
{
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        if (problem->relaxed[i] > 0.0 && result->limits[i].utilization > problem->relaxed[i]) {
            return 1;
        }
    }
    return 0;
}

/* Makes one step if it improves the goal and is allowed. *status: that of its draws. */
static int make_polish_step(bite_search_problem *problem, const search_point *from,
                            const double *direction, double step, double allowed,
                            bite_result *sampled, bite_status *status, bite_error *error)
{
    const bite_point before = problem->point;
    search_point to = stepped(problem, from, direction, step);
    if (same_point(&to, from)) {
        return 0;
    }
    move_to(problem, &to);
    problem->point =
        bite_speed_feed_at(&problem->search, problem->point.spindle, problem->point.feed);
    if (improves_goal(problem, &problem->point, &before) && within_cap(problem, &problem->point)) {
        *status = bite_problem_sample(problem, sampled, error);
        if (*status == BITE_OK && sampled->chance <= allowed && !breaks_relaxed(problem, sampled)) {
            return 1;
        }
    }
    problem->point = before;
    return 0;
}

/* ---- steps back to the allowed chance ---- */

/* Directions in steps of spindle speed and feed per tooth. */
static const double repair_directions[][2] = {{0.0, -1.0}, {-1.0, 0.0}, {1.0, -0.5},
                                              {-0.5, 1.0}, {1.0, 0.0},  {0.0, 1.0}};
#define REPAIR_STEPS_MAX 5

/* A step and its merit: allowed steps come first, by the least loss of the goal; then the others,
 * by the reduction of the chance for that loss. */
typedef struct candidate_step {
    int allowed;
    size_t direction;
    double loss;
    double merit;
    bite_point point;
    bite_result result;
} candidate_step;

static double loss_of(const bite_search_problem *problem, const bite_point *to,
                      const bite_point *from)
{
    double scale = problem->search.goal == BITE_GOAL_FAST ? 1.0 : fabs(from->goal);
    return fmax(0.0, to->goal - from->goal) / scale;
}

static int has_more_merit(const candidate_step *a, const candidate_step *b)
{
    return a->allowed != b->allowed ? a->allowed > b->allowed
           : a->allowed             ? a->loss < b->loss
                                    : a->merit > b->merit;
}

/* A step in one direction, without draws. Returns 0 if it leads to the same point or exceeds the
 * cap. */
static int make_step(bite_search_problem *problem, size_t direction, double step,
                     candidate_step *candidate)
{
    const bite_point from = problem->point;
    const search_point at = search_point_of(problem);
    search_point to = stepped(problem, &at, repair_directions[direction], step);
    if (same_point(&to, &at)) {
        return 0;
    }
    move_to(problem, &to);
    candidate->direction = direction;
    candidate->point =
        bite_speed_feed_at(&problem->search, problem->point.spindle, problem->point.feed);
    candidate->loss = loss_of(problem, &candidate->point, &from);
    problem->point = from;
    return within_cap(problem, &candidate->point);
}

/* The best of the steps that lower the chance, beginning with the last direction that was used.
 * Returns 0 if there is none. */
static int best_step(bite_search_problem *problem, double step, double allowed, double risk,
                     candidate_step *best, bite_status *status, bite_error *error)
{
    const double at_least =
        0.02; /* added to the loss: a step without loss must not have infinite merit */
    const bite_point from = problem->point;
    const size_t count = sizeof repair_directions / sizeof *repair_directions;
    const size_t first = best->direction;
    int any = 0;
    for (size_t i = 0; *status == BITE_OK && i < count; i++) {
        candidate_step candidate;
        if (!make_step(problem, (first + i) % count, step, &candidate) ||
            (any && best->allowed && candidate.loss >= best->loss)) {
            continue;
        }
        problem->point = candidate.point;
        *status = bite_problem_sample(problem, &candidate.result, error);
        problem->point = from;
        double new_risk =
            *status == BITE_OK ? bite_least_chance_of(problem, &candidate.result) : INFINITY;
        candidate.allowed = candidate.result.chance <= allowed;
        candidate.merit = log(risk / new_risk) / (at_least + candidate.loss);
        if (new_risk < risk && (!any || has_more_merit(&candidate, best))) {
            *best = candidate;
            any = 1;
        }
    }
    return any;
}

bite_status bite_least_chance_repair(bite_search_problem *problem, double allowed,
                                     bite_result *result, bite_error *error)
{
    double step = polish_first;
    candidate_step best;
    memset(&best, 0, sizeof best);
    bite_status status = BITE_OK;
    problem->point =
        bite_speed_feed_at(&problem->search, problem->point.spindle, problem->point.feed);
    for (int i = 0; status == BITE_OK && i < REPAIR_STEPS_MAX && result->chance > allowed &&
                    problem->point.goal < problem->incumbent_goal;
         i++) {
        if (!best_step(problem, step, allowed, bite_least_chance_of(problem, result), &best,
                       &status, error)) {
            return status;
        }
        problem->point = best.point;
        *result = best.result;
        step *= 1.3;
    }
    return status;
}

/* ---- polishing ---- */

bite_status bite_least_chance_polish(bite_search_problem *problem, double allowed,
                                     bite_result *result, bite_error *error)
{
    const size_t directions = sizeof polish_directions / sizeof *polish_directions;
    bite_status status = BITE_OK;
    for (double step = polish_first; step > polish_last; step *= 0.5) {
        for (size_t direction = 0, steps = 0;
             status == BITE_OK && direction < directions && steps < POLISH_STEPS_MAX; direction++) {
            search_point from = search_point_of(problem);
            bite_result sampled;
            while (status == BITE_OK && steps++ < POLISH_STEPS_MAX &&
                   make_polish_step(problem, &from, polish_directions[direction], step, allowed,
                                    &sampled, &status, error)) {
                *result = sampled;
                from = search_point_of(problem);
            }
        }
    }
    return status;
}
