/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The limits that restrict a choice, and the gain if each were eased. */
#include "core/search/active_limits.h"
#include <math.h>

/* A limit restricts the choice if its own quantile is this close to the wanted one: rounding and
 * the distance that is kept cost a few percent. */
static const double near = 0.93;

/* The ends of a range and the level of the goal do not scatter. */
static const double at_end = 0.96;

/* Each restriction is eased by a twentieth; the gain is stated for a percent. */
static const double eased = 1.05;
static const double percents = 5.0;

/* The search for a gain: about the point, to a part in a thousand. */
enum { ROUNDS_GAIN = 6 };
static const double reach_gain = 1.12;

static void add(bite_choice *choice, uint32_t limit)
{
    if (choice->active_count < BITE_ACTIVE_LIMITS_MAX) {
        bite_active_limit entry = {limit, 0, (double)NAN};
        choice->active[choice->active_count++] = entry;
    }
}

static double goal_share(const bite_solution *solution)
{
    const bite_search_problem *problem = solution->wish.problem;
    const bite_point *point = &solution->point;
    return problem->goal == BITE_GOAL_FAST     ? 0.0
           : problem->goal == BITE_GOAL_GENTLE ? point->quantile / solution->wish.quantile
                                               : point->goal / solution->wish.level;
}

/* Adds the ends of the range that is searched and the level of the goal, if the choice is there,
 * and the limits whose capacity is nearly used. */
static void add_limits(const bite_solution *solution, bite_choice *choice)
{
    const bite_search_problem *problem = solution->wish.problem;
    const bite_setting *at = &solution->point.at;
    bite_limit_risk limits[BITE_LIMIT_COUNT];
    double tooth = at->feed / (at->spindle * problem->full.flutes);
    if (problem->spindle[0] < problem->spindle[1] && problem->charted_speed &&
        at->spindle > at_end * problem->spindle[1]) {
        add(choice, BITE_LIMIT_EDGE_SPEED);
    }
    if (isnan(problem->feed) && problem->tooth[0] < problem->tooth[1] &&
        tooth > at_end * problem->tooth[1]) {
        add(choice, BITE_LIMIT_LARGEST_TOOTH);
    }
    if (goal_share(solution) > at_end) {
        add(choice, BITE_LIMIT_GOAL);
    }
    bite_point_limits(&solution->wish, &solution->point, limits);
    for (uint32_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        if (limits[i].quantile >= near * solution->wish.quantile) {
            add(choice, i);
        }
    }
}

/* The chance of exceeding a limit; without draws 1 or 0. */
static double chance_of(const bite_limit *limit)
{
    return !isnan(limit->chance) ? limit->chance : limit->utilization > 1.0 ? 1.0 : 0.0;
}

/* If the choice is not clear: adds the limits that account for a large part of the chance, in
 * descending order. */
static void add_conflict(const bite_result *result, bite_choice *choice)
{
    const double large_part = 0.25;
    double whole = result->draws > 0 ? result->chance : 1.0;
    int added[BITE_LIMIT_COUNT] = {0};
    for (int k = 0; k < BITE_ACTIVE_LIMITS_MAX; k++) {
        uint32_t next = BITE_LIMIT_COUNT;
        for (uint32_t i = 0; i < BITE_LIMIT_COUNT; i++) {
            const bite_limit *limit = &result->limits[i];
            int contributes = limit->verdict >= BITE_TIGHT ||
                              (chance_of(limit) > 0.0 && chance_of(limit) >= large_part * whole);
            int leads =
                next == BITE_LIMIT_COUNT || chance_of(limit) > chance_of(&result->limits[next]);
            if (limit->applies && !limit->advisory && !added[i] && contributes && leads) {
                next = i;
            }
        }
        if (next == BITE_LIMIT_COUNT) {
            return;
        }
        added[next] = 1;
        add(choice, next);
    }
}

/* Eases one restriction of a solution and of its problem. */
static void ease(uint32_t limit, bite_search_problem *problem, bite_solution *solution)
{
    if (limit == BITE_LIMIT_LARGEST_TOOTH) {
        problem->tooth[1] *= eased;
    } else if (limit == BITE_LIMIT_EDGE_SPEED && problem->charted_speed) {
        problem->spindle[1] *= eased;
    } else if (limit == BITE_LIMIT_GOAL && problem->goal == BITE_GOAL_GENTLE) {
        solution->wish.quantile *= eased;
    } else if (limit == BITE_LIMIT_GOAL) {
        solution->wish.level *= eased;
    } else {
        solution->rule.capacity[limit] *= eased;
    }
}

static double cost_nearby(const bite_solution *solution)
{
    bite_point point = solution->point;
    bite_search_nearby(&solution->wish, reach_gain, ROUNDS_GAIN, &point);
    return point.burden <= 1.0 ? point.cost : (double)NAN;
}

static void find_gains(bite_search_problem *problem, const bite_solution *solution,
                       bite_choice *choice)
{
    const double tooth = problem->tooth[1];
    const double spindle = problem->spindle[1];
    double before = cost_nearby(solution);
    for (uint32_t i = 0; i < choice->active_count; i++) {
        bite_solution wider;
        bite_solution_copy(solution, &wider);
        ease(choice->active[i].limit, problem, &wider);
        choice->active[i].gain = 100.0 / percents * fmax(0.0, before - cost_nearby(&wider));
        problem->tooth[1] = tooth;
        problem->spindle[1] = spindle;
    }
}

void bite_active_limits_find(bite_search_problem *problem, const bite_solution *solution,
                             bite_choice *choice)
{
    if (choice->clear) {
        add_limits(solution, choice);
        find_gains(problem, solution, choice);
    } else {
        add_conflict(bite_answer_result(choice->answer), choice);
    }
}
