/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What holds a choice back. */
#include "core/search/active_limits.h"
#include "core/base/thread_pool.h"
#include "core/search/search_space.h"
#include <math.h>

/* What a percent of room gives, looked for about the chosen speed: the search as it is, and what it
 * finds. */
typedef struct around {
    bite_search search;
    bite_point found;
} around;

static around look_around(const bite_search_problem *problem)
{
    around at = {problem->search, problem->point};
    at.found = bite_speed_feed_refine(&at.search, &problem->point);
    return at;
}

/* Percent of the goal. wider: a copy of the search, changed. */
static double gain_of(const around *at, bite_search *wider, size_t worker)
{
    wider->spaces += worker;
    bite_point found = bite_speed_feed_refine(wider, &at->found);
    double gain = at->found.goal - found.goal;
    return 100.0 * (wider->goal == BITE_GOAL_FAST ? gain : gain / fabs(at->found.goal));
}

static double gain_of_row(const around *at, uint32_t limit, size_t worker)
{
    bite_search wider = at->search;
    wider.margin[limit] *= 0.99;
    return gain_of(at, &wider, worker);
}

static double gain_of_slowest(const around *at, size_t worker)
{
    bite_search slower = at->search;
    slower.spindle[0] *= 0.99;
    return gain_of(at, &slower, worker);
}

static double gain_of_cap(const around *at, size_t worker)
{
    bite_search wider = at->search;
    wider.goal_cap *= 1.01;
    return gain_of(at, &wider, worker);
}

static double gain_of_tooth(const around *at, size_t worker)
{
    bite_search larger = at->search;
    larger.tooth[1] *= 1.01;
    return gain_of(at, &larger, worker);
}

/* What holds the choice back; where nothing is clear, what is in conflict. */
typedef struct active_limit_list {
    const around *at;
    size_t count;
    struct limit_gain {
        uint32_t limit; /* BITE_LIMIT_SPINDLE_SLOW: the slowest speed; else as bite_active_limit */
        uint32_t end;   /* it is an end of what is chosen from */
        double gain;
    } limit[BITE_ACTIVE_LIMITS_MAX];
} active_limit_list;

static void find_gain(void *work, size_t index, size_t worker)
{
    active_limit_list *all = work;
    struct limit_gain *held = &all->limit[index];
    held->gain = !held->end                              ? gain_of_row(all->at, held->limit, worker)
                 : held->limit < BITE_LIMIT_COUNT        ? gain_of_slowest(all->at, worker)
                 : held->limit == BITE_ACTIVE_TOOTH_FEED ? gain_of_tooth(all->at, worker)
                                                         : gain_of_cap(all->at, worker);
}

static void hold(active_limit_list *all, uint32_t limit, uint32_t end)
{
    if (all->count < BITE_ACTIVE_LIMITS_MAX) {
        struct limit_gain held = {limit, end, (double)NAN};
        all->limit[all->count++] = held;
    }
}

/* The ends of what is chosen from, where the choice lies at one. */
static void hold_ends(const bite_search_problem *problem, active_limit_list *all)
{
    const bite_search *search = &problem->search;
    double tooth = problem->point.feed / (problem->point.spindle * problem->full.flutes);
    if (search->spindle[0] < search->spindle[1] &&
        problem->point.spindle < 1.01 * search->spindle[0] && search->goal != BITE_GOAL_FAST) {
        hold(all, BITE_LIMIT_SPINDLE_SLOW, 1);
    }
    if (isnan(search->feed) && search->tooth[0] < search->tooth[1] &&
        tooth > 0.96 * search->tooth[1]) {
        hold(all, BITE_ACTIVE_TOOTH_FEED, 1);
    }
}

/* What more room is asked for is 1 % of the cap: the goal itself then counts as met a little later.
 */
static void hold_cap(const bite_search_problem *problem, active_limit_list *all)
{
    const bite_search *search = &problem->search;
    if (search->goal_cap > 0.0 &&
        bite_speed_feed_capped_goal(search, problem->point.spindle, problem->point.feed) >
            0.96 * search->goal_cap) {
        hold(all, BITE_ACTIVE_GOAL, 1);
    }
}

/* Rows near the foremost use, by the margins that hold the choice; and the ends of what is chosen
 * from. */
static void hold_rows(const bite_search_problem *problem, active_limit_list *all)
{
    const double near = 0.93; /* rounding takes a few percent */
    bite_checked_cut checked = problem->checked;
    bite_evaluation_options options = bite_evaluation_options_in(problem->spaces);
    bite_segment straight;
    bite_limit limits[BITE_LIMIT_COUNT];
    checked.requested.spindle_speed = checked.full.spindle_speed = problem->point.spindle;
    checked.requested.feed_rate = checked.full.feed_rate = problem->point.feed;
    bite_workspace_init(problem->spaces);
    bite_checked_cut_evaluate(&checked, &options, &straight, limits);
    hold_ends(problem, all);
    hold_cap(problem, all);
    for (uint32_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        if (limits[i].applies && !limits[i].advisory &&
            limits[i].utilization * problem->search.margin[i] >= near) {
            hold(all, i, 0);
        }
    }
}

/* How likely a row goes over; without draws, whether it does. */
static double part_of(const bite_limit *limit)
{
    return !isnan(limit->chance) ? limit->chance : limit->utilization > 1.0 ? 1.0 : 0.0;
}

/* Where nothing is clear: the rows that have much of the chance, sizes and all, the likeliest
 * first. */
static void hold_conflict(const bite_result *result, active_limit_list *all)
{
    const double much = 0.25;
    double whole = result->draws > 0 ? result->chance : 1.0;
    int taken[BITE_LIMIT_COUNT] = {0};
    for (int k = 0; k < BITE_ACTIVE_LIMITS_MAX; k++) {
        uint32_t next = BITE_LIMIT_COUNT;
        for (uint32_t i = 0; i < BITE_LIMIT_COUNT; i++) {
            const bite_limit *limit = &result->limits[i];
            int has_part = limit->verdict >= BITE_TIGHT ||
                           (part_of(limit) > 0.0 && part_of(limit) >= much * whole);
            int leads = next == BITE_LIMIT_COUNT || part_of(limit) > part_of(&result->limits[next]);
            if (limit->applies && !limit->advisory && !taken[i] && has_part && leads) {
                next = i;
            }
        }
        if (next == BITE_LIMIT_COUNT) {
            return;
        }
        taken[next] = 1;
        hold(all, next, 0);
    }
}

void bite_active_limits_find(bite_search_problem *problem, bite_choice *choice)
{
    active_limit_list all = {NULL, 0, {{0, 0, 0.0}}};
    around at;
    if (!choice->clear) {
        hold_conflict(bite_answer_result(choice->answer), &all);
    } else {
        hold_rows(problem, &all);
    }
    if (choice->clear && all.count > 0) {
        at = look_around(problem);
        at.search.threads = 1; /* the rows go at once, each search alone */
        all.at = &at;
        bite_thread_pool_run(all.count, problem->request.threads, find_gain, &all);
    }
    for (size_t i = 0; i < all.count; i++) {
        bite_active_limit held = {all.limit[i].limit, 0, all.limit[i].gain};
        choice->active[choice->active_count++] = held;
    }
}
