/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What holds a choice back. */
#include "core/base/parallel.h"
#include "core/job/trial.h"
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

/* Percent of the goal. */
static double gain_of(const around *at, const bite_search *wider)
{
    bite_point found = bite_optimum_about(wider, &at->found);
    double gain = at->found.goal - found.goal;
    return 100.0 * (wider->goal == BITE_GOAL_FAST ? gain : gain / fabs(at->found.goal));
}

static double gain_of_row(const around *at, uint32_t row)
{
    bite_search wider = at->search;
    wider.margin[row] *= 0.99;
    return gain_of(at, &wider);
}

static double gain_of_slowest(const around *at)
{
    bite_search slower = at->search;
    slower.spindle[0] *= 0.99;
    return gain_of(at, &slower);
}

static double gain_of_cap(const around *at)
{
    bite_search wider = at->search;
    wider.cap *= 1.01;
    return gain_of(at, &wider);
}

static double gain_of_tooth(const around *at)
{
    bite_search larger = at->search;
    larger.tooth[1] *= 1.01;
    return gain_of(at, &larger);
}

/* Rows near the foremost use; where all hold, those that hold the choice back. */
typedef struct holdings {
    const around *at;
    size_t count;
    struct holding {
        uint32_t row; /* BITE_ROW_SPINDLE_SLOW: the slowest speed; else as bite_holding */
        uint32_t end; /* it is an end of what is chosen from */
        double gain;
    } of[BITE_BINDING_MOST];
} holdings;

static void find_gain(void *work, size_t place)
{
    holdings *all = work;
    struct holding *held = &all->of[place];
    held->gain = !held->end                        ? gain_of_row(all->at, held->row)
                 : held->row < BITE_ROW_COUNT      ? gain_of_slowest(all->at)
                 : held->row == BITE_HELD_BY_TOOTH ? gain_of_tooth(all->at)
                                                   : gain_of_cap(all->at);
}

static void hold(holdings *all, uint32_t row, uint32_t end)
{
    if (all->count < BITE_BINDING_MOST) {
        struct holding held = {row, end, (double)NAN};
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
        hold(all, BITE_ROW_SPINDLE_SLOW, 1);
    }
    if (isnan(search->feed) && search->tooth[0] < search->tooth[1] && tooth > 0.96 * search->tooth[1]) {
        hold(all, BITE_HELD_BY_TOOTH, 1);
    }
}

/* What more room is asked for is 1 % of the cap: the goal itself then counts as met a little later. */
static void hold_cap(const bite_trial *of, holdings *all)
{
    bite_search bare = of->search;
    bare.goal = of->search.capped;
    bare.cap = 0.0;
    if (of->search.cap > 0.0 && bite_optimum_at(&bare, of->point.spindle, of->point.feed).goal > 0.96 * of->search.cap) {
        hold(all, BITE_HELD_BY_GOAL, 1);
    }
}

void bite_binding_find(bite_trial *of, bite_choice *choice)
{
    bite_ready ready = of->ready;
    bite_stretch straight;
    bite_row rows[BITE_ROW_COUNT];
    int holds = choice->clear || of->point.worst <= 1.0;            /* all draws may call clear what margins leave out by a hair */
    double least = holds ? 0.93 : fmax(1.0, 0.9 * of->point.worst); /* rounding takes a few percent */
    holdings all = {NULL, 0, {{0, 0, 0.0}}};
    ready.asked.spindle_speed = ready.full.spindle_speed = of->point.spindle;
    ready.asked.feed_rate = ready.full.feed_rate = of->point.feed;
    bite_ready_judge(&ready, &straight, rows);
    if (holds) {
        hold_ends(of, &all);
        hold_cap(of, &all);
    }
    for (uint32_t i = 0; i < BITE_ROW_COUNT; i++) {
        if (rows[i].applies && !rows[i].advisory && rows[i].use * of->search.margin[i] >= least) {
            hold(&all, i, 0);
        }
    }
    if (holds && all.count > 0) {
        around at = look_around(of);
        at.search.threads = 1; /* the rows go at once, each search alone */
        all.at = &at;
        bite_parallel(all.count, of->ask.threads, find_gain, &all);
    }
    for (size_t i = 0; i < all.count; i++) {
        bite_holding held = {all.of[i].row, 0, all.of[i].gain};
        choice->binding[choice->binding_count++] = held;
    }
}
