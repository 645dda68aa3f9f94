/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What holds a choice back. */
#include "core/base/thread_pool.h"
#include "core/search/search_space.h"
#include <math.h>

/* What a percent of room gives, looked for about the chosen speed: the search as it is, and what it finds. */
typedef struct around {
    bite_search search;
    bite_point found;
} around;

static around look_around(const bite_trial *of)
{
    around at = {of->search, of->point};
    at.found = bite_optimum_about(&at.search, &of->point);
    return at;
}

/* Percent of the goal. wider: a copy of the search, changed. */
static double gain_of(const around *at, bite_search *wider, size_t worker)
{
    wider->spaces += worker;
    bite_point found = bite_optimum_about(wider, &at->found);
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
    wider.cap *= 1.01;
    return gain_of(at, &wider, worker);
}

static double gain_of_tooth(const around *at, size_t worker)
{
    bite_search larger = at->search;
    larger.tooth[1] *= 1.01;
    return gain_of(at, &larger, worker);
}

/* What holds the choice back; where nothing is clear, what is in conflict. */
typedef struct holdings {
    const around *at;
    size_t count;
    struct holding {
        uint32_t limit; /* BITE_LIMIT_SPINDLE_SLOW: the slowest speed; else as bite_holding */
        uint32_t end; /* it is an end of what is chosen from */
        double gain;
    } of[BITE_BINDING_MOST];
} holdings;

static void find_gain(void *work, size_t place, size_t worker)
{
    holdings *all = work;
    struct holding *held = &all->of[place];
    held->gain = !held->end                        ? gain_of_row(all->at, held->limit, worker)
                 : held->limit < BITE_LIMIT_COUNT      ? gain_of_slowest(all->at, worker)
                 : held->limit == BITE_HELD_BY_TOOTH ? gain_of_tooth(all->at, worker)
                                                   : gain_of_cap(all->at, worker);
}

static void hold(holdings *all, uint32_t limit, uint32_t end)
{
    if (all->count < BITE_BINDING_MOST) {
        struct holding held = {limit, end, (double)NAN};
        all->of[all->count++] = held;
    }
}

/* The ends of what is chosen from, where the choice lies at one. */
static void hold_ends(const bite_trial *of, holdings *all)
{
    const bite_search *search = &of->search;
    double tooth = of->point.feed / (of->point.spindle * of->full.flutes);
    if (search->spindle[0] < search->spindle[1] && of->point.spindle < 1.01 * search->spindle[0] &&
        search->goal != BITE_GOAL_FAST) {
        hold(all, BITE_LIMIT_SPINDLE_SLOW, 1);
    }
    if (isnan(search->feed) && search->tooth[0] < search->tooth[1] && tooth > 0.96 * search->tooth[1]) {
        hold(all, BITE_HELD_BY_TOOTH, 1);
    }
}

/* What more room is asked for is 1 % of the cap: the goal itself then counts as met a little later. */
static void hold_cap(const bite_trial *of, holdings *all)
{
    const bite_search *search = &of->search;
    if (search->cap > 0.0 && bite_optimum_capped(search, of->point.spindle, of->point.feed) > 0.96 * search->cap) {
        hold(all, BITE_HELD_BY_GOAL, 1);
    }
}

/* Rows near the foremost use, by the margins that hold the choice; and the ends of what is chosen from. */
static void hold_rows(const bite_trial *of, holdings *all)
{
    const double near = 0.93; /* rounding takes a few percent */
    bite_checked_cut checked = of->checked;
    bite_evaluation_options options = bite_evaluation_options_in(of->spaces);
    bite_segment straight;
    bite_limit limits[BITE_LIMIT_COUNT];
    checked.requested.spindle_speed = checked.full.spindle_speed = of->point.spindle;
    checked.requested.feed_rate = checked.full.feed_rate = of->point.feed;
    bite_workspace_init(of->spaces);
    bite_checked_cut_evaluate(&checked, &options, &straight, limits);
    hold_ends(of, all);
    hold_cap(of, all);
    for (uint32_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        if (limits[i].applies && !limits[i].advisory && limits[i].utilization * of->search.margin[i] >= near) {
            hold(all, i, 0);
        }
    }
}

/* How likely a row goes over; without draws, whether it does. */
static double part_of(const bite_limit *limit)
{
    return !isnan(limit->chance) ? limit->chance : limit->utilization > 1.0 ? 1.0 : 0.0;
}

/* Where nothing is clear: the rows that have much of the chance, sizes and all, the likeliest first. */
static void hold_conflict(const bite_result *result, holdings *all)
{
    const double much = 0.25;
    double whole = result->draws > 0 ? result->chance : 1.0;
    int taken[BITE_LIMIT_COUNT] = {0};
    for (int k = 0; k < BITE_BINDING_MOST; k++) {
        uint32_t next = BITE_LIMIT_COUNT;
        for (uint32_t i = 0; i < BITE_LIMIT_COUNT; i++) {
            const bite_limit *limit = &result->limits[i];
            int has_part = limit->verdict >= BITE_TIGHT || (part_of(limit) > 0.0 && part_of(limit) >= much * whole);
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

void bite_binding_find(bite_trial *of, bite_choice *choice)
{
    holdings all = {NULL, 0, {{0, 0, 0.0}}};
    around at;
    if (!choice->clear) {
        hold_conflict(bite_answer_result(choice->answer), &all);
    } else {
        hold_rows(of, &all);
    }
    if (choice->clear && all.count > 0) {
        at = look_around(of);
        at.search.threads = 1; /* the rows go at once, each search alone */
        all.at = &at;
        bite_parallel(all.count, of->request.threads, find_gain, &all);
    }
    for (size_t i = 0; i < all.count; i++) {
        bite_holding held = {all.of[i].limit, 0, all.of[i].gain};
        choice->binding[choice->binding_count++] = held;
    }
}
