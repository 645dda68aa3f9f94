/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The limits that restrict a choice, and the gain if each were eased. */
#include "core/search/active_limits.h"
#include "core/base/thread_pool.h"
#include "core/search/search_space.h"
#include <math.h>

/* The search near the chosen speed and its result, with which each gain is compared. */
typedef struct reference_search {
    bite_search search;
    bite_point found;
} reference_search;

static reference_search find_reference(const bite_search_problem *problem)
{
    reference_search reference = {problem->search, problem->point};
    reference.found = bite_speed_feed_refine(&reference.search, &problem->point);
    return reference;
}

/* The gain in percent of the goal. wider: the search with one restriction eased by 1 %. */
static double gain_of(const reference_search *reference, bite_search *wider, size_t worker)
{
    wider->spaces += worker;
    bite_point found = bite_speed_feed_refine(wider, &reference->found);
    double gain = reference->found.goal - found.goal;
    return 100.0 * (wider->goal == BITE_GOAL_FAST ? gain : gain / fabs(reference->found.goal));
}

static double gain_of_limit(const reference_search *reference, uint32_t limit, size_t worker)
{
    bite_search wider = reference->search;
    wider.margin[limit] *= 0.99;
    return gain_of(reference, &wider, worker);
}

static double gain_of_slowest(const reference_search *reference, size_t worker)
{
    bite_search slower = reference->search;
    slower.spindle[0] *= 0.99;
    return gain_of(reference, &slower, worker);
}

static double gain_of_fastest(const reference_search *reference, size_t worker)
{
    bite_search faster = reference->search;
    faster.spindle[1] *= 1.01;
    return gain_of(reference, &faster, worker);
}

static double gain_of_cap(const reference_search *reference, size_t worker)
{
    bite_search wider = reference->search;
    wider.goal_cap *= 1.01;
    return gain_of(reference, &wider, worker);
}

static double gain_of_tooth(const reference_search *reference, size_t worker)
{
    bite_search larger = reference->search;
    larger.tooth[1] *= 1.01;
    return gain_of(reference, &larger, worker);
}

/* The limits found. */
typedef struct active_limit_list {
    const reference_search *reference;
    size_t count;
    struct limit_gain {
        uint32_t limit; /* BITE_LIMIT_SPINDLE_SLOW, BITE_LIMIT_EDGE_SPEED: the slowest and the
                           fastest speed; else as bite_active_limit */
        uint32_t end;   /* 1: an end of the range that is searched */
        double gain;
    } limit[BITE_ACTIVE_LIMITS_MAX];
} active_limit_list;

static void find_gain(void *work, size_t index, size_t worker)
{
    active_limit_list *all = work;
    struct limit_gain *entry = &all->limit[index];
    entry->gain = !entry->end ? gain_of_limit(all->reference, entry->limit, worker)
                  : entry->limit == BITE_LIMIT_SPINDLE_SLOW
                      ? gain_of_slowest(all->reference, worker)
                  : entry->limit == BITE_LIMIT_EDGE_SPEED  ? gain_of_fastest(all->reference, worker)
                  : entry->limit == BITE_ACTIVE_TOOTH_FEED ? gain_of_tooth(all->reference, worker)
                                                           : gain_of_cap(all->reference, worker);
}

static void add(active_limit_list *all, uint32_t limit, uint32_t end)
{
    if (all->count < BITE_ACTIVE_LIMITS_MAX) {
        struct limit_gain entry = {limit, end, (double)NAN};
        all->limit[all->count++] = entry;
    }
}

/* Adds the ends of the range that is searched, if the choice lies at one. */
static void add_ends(const bite_search_problem *problem, active_limit_list *all)
{
    const bite_search *search = &problem->search;
    double tooth = problem->point.feed / (problem->point.spindle * problem->full.flutes);
    if (search->spindle[0] < search->spindle[1] &&
        problem->point.spindle < 1.01 * search->spindle[0] && search->goal != BITE_GOAL_FAST) {
        add(all, BITE_LIMIT_SPINDLE_SLOW, 1);
    }
    if (search->spindle[0] < search->spindle[1] && search->charted_speed != 0 &&
        problem->point.spindle > 0.96 * search->spindle[1]) {
        add(all, BITE_LIMIT_EDGE_SPEED, 1);
    }
    if (isnan(search->feed) && search->tooth[0] < search->tooth[1] &&
        tooth > 0.96 * search->tooth[1]) {
        add(all, BITE_ACTIVE_TOOTH_FEED, 1);
    }
}

/* Adds the cap of the goal, if it restricts the choice. It is eased by 1 %: the goal then counts as
 * met a little earlier. */
static void add_cap(const bite_search_problem *problem, active_limit_list *all)
{
    const bite_search *search = &problem->search;
    if (search->goal_cap > 0.0 &&
        bite_speed_feed_capped_goal(search, problem->point.spindle, problem->point.feed) >
            0.96 * search->goal_cap) {
        add(all, BITE_ACTIVE_GOAL, 1);
    }
}

/* Adds the limits whose capacity with margins is nearly used, and the ends of the range. */
static void add_limits(const bite_search_problem *problem, active_limit_list *all)
{
    const double near = 0.93; /* rounding costs a few percent */
    bite_checked_cut checked = problem->checked;
    double values[BITE_VALUE_COUNT];
    bite_limit limits[BITE_LIMIT_COUNT];
    checked.requested.spindle_speed = checked.full.spindle_speed = problem->point.spindle;
    checked.requested.feed_rate = checked.full.feed_rate = problem->point.feed;
    bite_checked_cut_evaluate(&checked, problem->spaces, values, limits);
    add_ends(problem, all);
    add_cap(problem, all);
    for (uint32_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        if (limits[i].applies && !limits[i].advisory &&
            limits[i].utilization * problem->search.margin[i] >= near) {
            add(all, i, 0);
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
static void add_conflict(const bite_result *result, active_limit_list *all)
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
        add(all, next, 0);
    }
}

void bite_active_limits_find(bite_search_problem *problem, bite_choice *choice)
{
    active_limit_list all = {NULL, 0, {{0, 0, 0.0}}};
    reference_search reference;
    if (!choice->clear) {
        add_conflict(bite_answer_result(choice->answer), &all);
    } else {
        add_limits(problem, &all);
    }
    if (choice->clear && all.count > 0) {
        reference = find_reference(problem);
        reference.search.threads = 1; /* the gains run in parallel, one thread each */
        all.reference = &reference;
        bite_thread_pool_run(all.count, problem->request.threads, find_gain, &all);
    }
    for (size_t i = 0; i < all.count; i++) {
        bite_active_limit entry = {all.limit[i].limit, 0, all.limit[i].gain};
        choice->active[choice->active_count++] = entry;
    }
}
