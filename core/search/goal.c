/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The best point of one tool: within the limits, the goal met, then fast.
 *
 * A goal counts as met at a stated level: half of the capacity, or for gentle four fifths of it at
 * the confidence; if no point reaches it, at a tenth of the capacity above the best value there is.
 * Limits that no point keeps are relaxed one after the other and reported, and everything else is
 * chosen as if they were not exceeded.
 */
#include "core/search/goal.h"
#include "core/search/pass_counts.h"
#include <math.h>
#include <string.h>

/* Shares of a capacity at which goals count as met. */
static const double half = 0.5;
static const double spared = 0.8;

/* If they cannot: the lowest level that can be met, within this factor. */
static const double nearly = 1.1;
static const double nearly_as_bad = 0.95;
enum { HALVINGS = 3 };

/* Surface temperature rises, K, at which a material that does not soften counts as cool: warm to
 * the touch; for soft metals below the temperature that ages tempered aluminium within hours; for
 * hard metals below the one that colours steel yellow (estimates with some margin). */
static const double warm_to_hand = 20.0;
static const double warm_soft_metal = 100.0;
static const double warm_hard_metal = 200.0;

/* A relaxed limit may exceed its lowest utilization by this factor. */
static const double accepted_excess = 1.15;

/* Limits relaxed at once: those whose utilization is this close to the worst. */
static const double governs = 0.95;

/* If nothing is within the limits: the chances, of exceeding one, at which the search is repeated;
 * the highest is still tight. Between two of them the least chance is hardly less risk, and may be
 * much slower. */
static const double chances[] = {0.15, 0.22, 0.32, 0.47};
enum { CHANCES = sizeof chances / sizeof *chances };

/* Logarithms of times: the slowness that a share of the allowed chance may cost, a factor of two
 * and a half, and what more of the chance must save, a factor of one and a half (estimates: less is
 * no reason to run a job at a higher chance). */
static const double much_slower = 0.9;
static const double worth_more_chance = 0.4;

/* Of points that are over anyway, one that is burdened so many times as much is as good if it is
 * faster: predictions are hardly more exact. */
static const double hardly_worse = 1.03;
static const double still_tight = 0.5; /* the chance from which on a verdict is "over" */

/* As often limits are relaxed. */
enum { RELAXED_MOST = 5 };

void bite_solution_copy(const bite_solution *from, bite_solution *to)
{
    *to = *from;
    to->wish.rule = &to->rule;
}

static double cool_enough(const bite_cut *cut)
{
    return cut->substance != BITE_METAL ? warm_to_hand
           : bite_problem_is_hard(cut)  ? warm_hard_metal
                                        : warm_soft_metal;
}

/* The value at which the goal counts as met; INFINITY: there is none. */
static double stated_level(const bite_search_problem *problem, double soft)
{
    switch (problem->goal) {
    case BITE_GOAL_COOL:
        return soft > 0.0 ? half * soft : cool_enough(&problem->full);
    case BITE_GOAL_FINE:
        return half;
    case BITE_GOAL_GENTLE:
        return spared;
    default:
        return INFINITY;
    }
}

/* The capacity up to softening, at the least feed and the fastest speed: other points have a few
 * percent more. */
static double capacity_of(const bite_wish *wish)
{
    const bite_search_problem *problem = wish->problem;
    const bite_point passes = {.axial = bite_pass_count_least(&problem->down),
                               .radial = bite_pass_count_least(&problem->across)};
    bite_point point = bite_point_within(wish, &passes, INFINITY, -INFINITY);
    bite_points_evaluate(wish, &point, 1);
    return point.soft;
}

/* The level of a gentle goal is one of the quantile. */
static void set_level(bite_solution *solution, double excess)
{
    const bite_search_problem *problem = solution->wish.problem;
    int gentle = problem->goal == BITE_GOAL_GENTLE;
    double level = excess * stated_level(problem, capacity_of(&solution->wish));
    solution->excess = excess;
    solution->wish.quantile = gentle ? fmin(1.0, level) : 1.0;
    solution->wish.level = gentle ? INFINITY : level;
}

/* The fastest point within the limits whose goal is at most so many times its stated level
 * (INFINITY: any). */
static bite_status meet_level(bite_solution *solution, double excess, bite_error *error)
{
    set_level(solution, excess);
    return bite_search_everywhere(&solution->wish, &solution->point, error);
}

static double excess_of(const bite_solution *solution)
{
    const bite_search_problem *problem = solution->wish.problem;
    const bite_point *point = &solution->point;
    return problem->goal == BITE_GOAL_GENTLE ? point->goal / spared
                                             : point->goal / stated_level(problem, point->soft);
}

bite_status bite_problem_meet_goal(bite_solution *solution, bite_error *error)
{
    bite_status status = meet_level(solution, 1.0, error);
    double fails = solution->point.burden;
    if (status != BITE_OK || fails <= 1.0 || !(excess_of(solution) > nearly_as_bad * fails)) {
        return status; /* met, or not for its goal's sake */
    }
    status = meet_level(solution, INFINITY, error);
    if (status != BITE_OK || solution->point.burden > 1.0) {
        return status;
    }
    solution->excess = fmax(1.0, excess_of(solution));
    for (int i = 0; i < HALVINGS && status == BITE_OK && solution->excess > nearly * fails; i++) {
        bite_solution lower;
        bite_solution_copy(solution, &lower);
        status = meet_level(&lower, sqrt(fails * solution->excess), error);
        if (status == BITE_OK && lower.point.burden <= 1.0) {
            bite_solution_copy(&lower, solution);
        } else {
            fails = lower.excess;
        }
    }
    return status;
}

/* Whether some point keeps this limit if it need not keep any other. */
static bite_status is_kept_alone(const bite_solution *solution, size_t limit, int *kept,
                                 bite_error *error)
{
    bite_solution alone;
    bite_solution_copy(solution, &alone);
    for (size_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        alone.rule.relaxed[i] = i == limit ? 0.0 : INFINITY;
    }
    alone.wish.quantile = 1.0;
    alone.wish.level = INFINITY;
    bite_status status = bite_search_everywhere(&alone.wish, &alone.point, error);
    *kept = status == BITE_OK && alone.point.burden <= 1.0;
    return status;
}

/* Of limits that are in conflict at the least burdened point, those that no point keeps even alone
 * lead; the others may be kept once these are relaxed. */
static bite_status drop_kept_alone(const bite_solution *solution, size_t *conflict, uint32_t *count,
                                   bite_error *error)
{
    size_t hopeless[BITE_LIMIT_COUNT];
    uint32_t found = 0;
    uint32_t all = *count > 1 ? *count : 0; /* one alone is not in conflict */
    bite_status status = BITE_OK;
    for (uint32_t i = 0; i < all && status == BITE_OK; i++) {
        int kept = 0;
        status = is_kept_alone(solution, conflict[i], &kept, error);
        if (!kept) {
            hopeless[found++] = conflict[i];
        }
    }
    if (found > 0) {
        memcpy(conflict, hopeless, found * sizeof *hopeless);
        *count = found;
    }
    return status;
}

/* Relaxes the limits that are probably exceeded even at the least burdened point, and keeps them
 * near their lowest utilization. *relaxed: how many. */
static bite_status relax(bite_solution *solution, uint32_t *relaxed, bite_error *error)
{
    bite_limit_risk limits[BITE_LIMIT_COUNT];
    size_t conflict[BITE_LIMIT_COUNT];
    double worst = 0.0;
    uint32_t count = 0;
    bite_point_limits(&solution->wish, &solution->point, limits);
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        worst = limits[i].chance > 0.5 ? fmax(worst, limits[i].best) : worst;
    }
    for (size_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        if (limits[i].chance > 0.5 && limits[i].best >= governs * worst) {
            conflict[count++] = i;
        }
    }
    bite_status status = drop_kept_alone(solution, conflict, &count, error);
    for (uint32_t i = 0; i < count; i++) {
        solution->rule.relaxed[conflict[i]] = accepted_excess * limits[conflict[i]].best;
    }
    *relaxed = count;
    return status;
}

/* Nothing is within the limits: the fastest point of the least of the higher chances that some
 * point has. *found: 0 if there is none; then the point is the least burdened at the highest of
 * them, for what is over in most draws is judged by how far it usually is. */
static bite_status accept_chance(bite_solution *solution, int *found, bite_error *error)
{
    bite_status status = BITE_OK;
    int fails = -1;
    int holds = CHANCES;
    while (status == BITE_OK && holds - fails > 1) {
        int at = holds == CHANCES ? CHANCES - 1 : fails + (holds - fails) / 2;
        bite_solution tried;
        bite_solution_copy(solution, &tried);
        tried.rule.allowed = fmax(chances[at], solution->wish.problem->rule.allowed);
        status = bite_problem_meet_goal(&tried, error);
        if (status == BITE_OK && tried.point.burden <= 1.0) {
            holds = at;
            bite_solution_copy(&tried, solution);
        } else if (holds == CHANCES) {
            solution->point = tried.point;
            break;
        } else {
            fails = at;
        }
    }
    *found = holds < CHANCES;
    return status;
}

static void begin(const bite_search_problem *problem, double chance_share, bite_solution *solution)
{
    const bite_wish wish = {.problem = problem,
                            .rule = &solution->rule,
                            .quantile = 1.0,
                            .level = INFINITY,
                            .beyond = bite_far_beyond,
                            .worth = INFINITY};
    solution->rule = problem->rule;
    solution->rule.allowed *= chance_share > 0.0 ? fmin(chance_share, 1.0) : 1.0;
    solution->wish = wish;
    solution->relaxed = solution->clear = 0;
}

bite_status bite_problem_find_any(const bite_search_problem *problem, bite_solution *solution,
                                  bite_error *error)
{
    begin(problem, 1.0, solution);
    solution->wish.any = 1;
    bite_status status = meet_level(solution, INFINITY, error);
    solution->clear = solution->point.burden <= 1.0;
    return status;
}

/* The cost of the fastest point that all of the allowed chance seems to permit; INFINITY: none is
 * seen. */
static bite_status least_cost(const bite_solution *solution, double *cost, bite_error *error)
{
    bite_solution all;
    bite_solution_copy(solution, &all);
    all.rule.allowed = solution->wish.problem->rule.allowed;
    set_level(&all, 1.0);
    bite_status status = bite_search_estimates(&all.wish, INFINITY, &all.point, error);
    *cost = status == BITE_OK && all.point.burden <= 1.0 ? all.point.cost : INFINITY;
    return status;
}

/* Meets the goal within the share of the allowed chance, or, if that cannot be, within all of it.
 * Where the chance is nearly the same at any speed, only a very slow point may be within a share:
 * then within more of it, in two steps. */
static bite_status meet_goal_in_share(bite_solution *solution, bite_error *error)
{
    const double all = solution->wish.problem->rule.allowed;
    double tried = solution->rule.allowed;
    double fast = 0.0;
    bite_status status = bite_problem_meet_goal(solution, error);
    if (status == BITE_OK && tried < all) {
        status = least_cost(solution, &fast, error);
    }
    for (int i = 0; tried < all && status == BITE_OK; i++) {
        bite_solution more;
        int within = solution->point.burden <= 1.0;
        if (within && solution->point.cost <= fast + much_slower) {
            break;
        }
        bite_solution_copy(solution, &more);
        more.rule.allowed = tried = within && i == 0 ? sqrt(tried * all) : all;
        status = bite_problem_meet_goal(&more, error);
        if (!within || (status == BITE_OK && more.point.burden <= 1.0 &&
                        more.point.cost < solution->point.cost - worth_more_chance)) {
            bite_solution_copy(&more, solution);
        }
    }
    return status;
}

/* The fastest point that is hardly more burdened than the least burdened one: where the burden is
 * nearly the same at any speed, the least is anywhere. */
static bite_status take_faster(bite_solution *solution, bite_error *error)
{
    bite_solution fast;
    bite_solution_copy(solution, &fast);
    fast.rule.allowed = still_tight;
    bite_points_evaluate(&fast.wish, &fast.point, 1);
    if (fast.point.burden <= 1.0) {
        return BITE_OK;
    }
    fast.rule.allowed = fmax(chances[CHANCES - 1], solution->rule.allowed);
    fast.wish.quantile = hardly_worse * solution->point.quantile;
    fast.wish.level = INFINITY;
    bite_status status = bite_search_everywhere(&fast.wish, &fast.point, error);
    if (status == BITE_OK && fast.point.burden <= 1.0) {
        double burden = hardly_worse * solution->point.burden;
        solution->point = fast.point;
        solution->point.burden = burden;
    }
    return status;
}

bite_status bite_problem_solve(const bite_search_problem *problem, double capacity,
                               bite_solution *solution, bite_error *error)
{
    begin(problem, problem->request.chance_share, solution);
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        solution->rule.capacity[i] *= capacity;
    }
    bite_status status = meet_goal_in_share(solution, error);
    int whole = capacity >= 1.0 && problem->request.scope != BITE_SCOPE_CLEAR;
    int most = whole ? RELAXED_MOST : 0;
    bite_solution least_burdened;
    bite_solution_copy(solution, &least_burdened);
    for (int i = 0; i < most && status == BITE_OK && solution->point.burden > 1.0; i++) {
        int found = 0;
        uint32_t count = 0;
        status = accept_chance(solution, &found, error);
        if (status != BITE_OK || found) {
            return status;
        }
        if (i == 0) {
            bite_solution_copy(solution, &least_burdened);
        }
        status = relax(solution, &count, error);
        if (status != BITE_OK || count == 0) {
            break;
        }
        solution->relaxed += count;
        status = bite_problem_meet_goal(solution, error);
    }
    if (status == BITE_OK && solution->point.burden > 1.0) { /* nothing helped */
        bite_solution_copy(&least_burdened, solution);
        status = whole ? take_faster(solution, error) : BITE_OK;
    }
    solution->clear = solution->relaxed == 0 && solution->point.burden <= 1.0;
    return status;
}

bite_status bite_problem_estimate(const bite_search_problem *problem, const double *margins,
                                  double worth, bite_point *best, bite_error *error)
{
    bite_solution solution;
    begin(problem, 1.0, &solution);
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        solution.rule.capacity[i] /= margins[i];
    }
    set_level(&solution, 1.0);
    return bite_search_estimates(&solution.wish, worth, best, error);
}
