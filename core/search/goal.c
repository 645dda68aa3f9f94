/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The fastest of what is as good by the goal. */
#include "core/search/search_internal.h"
#include <math.h>

#define ROUNDS_WITHIN 8

/* What follows lies near the point that was found. */
static void look_nearby(bite_trial *of, const bite_search *whole)
{
    if (whole->spindle[0] < whole->spindle[1]) {
        of->search.spindle[0] = fmax(whole->spindle[0], of->point.spindle / 1.6);
        of->search.spindle[1] = fmin(whole->spindle[1], of->point.spindle * 1.6);
    }
}

static void look_everywhere(bite_search *search, const bite_search *whole)
{
    search->spindle[0] = whole->spindle[0];
    search->spindle[1] = whole->spindle[1];
}

/* K, where nothing softens: warm to the hand; of soft metals what lets tempered aluminium age within hours, of hard ones what turns
 * steel yellow (estimate, some of both left). */
static const double warm_to_hand = 20.0;
static const double warm_soft_metal = 100.0;
static const double warm_hard_metal = 200.0;

static double warm(const bite_cut *cut)
{
    return cut->substance != BITE_METAL ? warm_to_hand : bite_trial_is_hard(cut) ? warm_hard_metal : warm_soft_metal;
}

/* A goal is as good as met at half of a limit's room, or a tenth of it above the best that can be: of the surface the room up to
 * softening, of uses, marks and errors what is asked for. Cooler than that is not worth a spindle that hardly turns. */
static double as_good(const bite_trial *of, const bite_result *held, uint32_t wanted, double goal)
{
    const double share = 0.1;
    const double half = 0.5;
    const double spared = 0.8; /* of uses with their margins: a fifth of the room is left where 95 % of the draws lie */
    const bite_limit *soft = &held->limits[BITE_LIMIT_SOFTENING];
    if (wanted == BITE_GOAL_COOL) {
        return soft->applies && soft->capacity > 0.0 ? fmax(goal + share * soft->capacity, half * soft->capacity)
                                                 : fmax((1.0 + share) * goal, warm(&of->full));
    }
    return fmin(1.0, fmax(goal + share, wanted == BITE_GOAL_GENTLE ? spared : half));
}

double bite_hasten_cap(const bite_trial *of, const bite_result *held)
{
    return as_good(of, held, of->search.goal, 0.0);
}

void bite_hasten_under(bite_search *search, double cap)
{
    search->cap = cap;
    search->capped = search->goal;
    search->goal = BITE_GOAL_FAST;
}

/* The next try: margins a little wider about the point that was found, where that left too much chance; the whole range where near
 * by nothing was left. */
static bite_effort try_again(bite_trial *of, const bite_search *before, const bite_result *held, const bite_result *found,
                             double times)
{
    if (of->point.worst > 1.0) {
        look_everywhere(&of->search, before);
        return BITE_LOOK_WHOLE;
    }
    bite_margins_set(of, found, times);
    double uses = bite_margins_within_reach(of, &of->search, held);
    if (of->search.cap > 0.0 && of->search.capped == BITE_GOAL_GENTLE) { /* which goes by the margins */
        of->search.cap = as_good(of, held, BITE_GOAL_GENTLE, uses);
    }
    look_nearby(of, before);
    return BITE_LOOK_NEAR;
}

/* The best by the search's goal that is no likelier to go over than is allowed; where none is found, all stays as it was. *found:
 * its draws. Returns whether there is one. */
static int find_within(bite_trial *of, const bite_result *held, double allowed, bite_result *found, bite_status *status,
                       bite_error *error)
{
    const bite_point best = of->point;
    const bite_search before = of->search;
    bite_effort look = BITE_LOOK_FAIR; /* what follows steps on by draws */
    for (int i = 0; i < ROUNDS_WITHIN && *status == BITE_OK; i++) {
        of->point = bite_optimum_find(&of->search, look);
        if (of->point.worst > 1.0 && look == BITE_LOOK_WHOLE) {
            break;
        }
        *status = of->point.worst > 1.0 ? BITE_OK : bite_trial_draw(of, found, error);
        if (*status == BITE_OK && of->point.worst <= 1.0 && found->chance <= allowed) {
            look_everywhere(&of->search, &before);
            return 1;
        }
        look = try_again(of, &before, held, found, 1.1 + 0.25 * i);
    }
    of->search = before;
    of->point = best;
    return 0;
}

/* The fastest of what meets the goal as well: no likelier to go over than the point that meets it best. Where it finds none, other
 * numbers of passes may still be fast. */
static bite_status hasten(bite_trial *of, const bite_result *held, double allowed, bite_error *error)
{
    bite_result found = *held;
    bite_status status = BITE_OK;
    if (of->search.goal == BITE_GOAL_FAST || isnan(held->values[BITE_REMOVAL_RATE].value)) {
        return BITE_OK;
    }
    of->chance = held->chance;
    bite_hasten_under(&of->search, as_good(of, held, of->search.goal, of->point.goal));
    of->point = bite_optimum_at(&of->search, of->point.spindle, of->point.feed);
    if (find_within(of, held, allowed, &found, &status, error)) {
        of->chance = found.chance;
    }
    return status;
}

/* The same with other numbers of passes, where that gains enough to be worth another pass. */
static bite_status hasten_passes(bite_trial *of, uint32_t units, bite_error *error)
{
    const bite_settled start = bite_settled_of(of, 1);
    bite_settled_list all;
    int tried[BITE_SETTLED_MOST] = {0};
    int clear = 0;
    bite_result result;
    if (!bite_partings_are_free(of) || !(of->search.cap > 0.0)) {
        return BITE_OK;
    }
    all.count = 1;
    all.of[0] = start;
    bite_status status = bite_partings_climb(of, &start.search, (uint64_t)of->parting.down * of->parting.side, &all, error);
    size_t best = bite_partings_next(&all, tried);
    if (status == BITE_OK && best > 0) {
        bite_settled_go_to(of, &all.of[best]);
        bite_partings_type(of, units);
        status = bite_chance_confirm(of, &result, &clear, error);
    }
    const bite_settled end = bite_settled_of(of, clear);
    if (!bite_settled_better(&end, &start)) {
        bite_settled_go_to(of, &start);
        bite_partings_type(of, units);
    }
    return status;
}

/* Settings that are clear, hastened. */
bite_status bite_hasten(bite_trial *of, uint32_t units, bite_error *error)
{
    bite_result held;
    bite_status status = of->search.goal == BITE_GOAL_FAST ? BITE_NO_ANSWER : bite_trial_draw(of, &held, error);
    if (status == BITE_OK) {
        status = hasten(of, &held, fmax(held.chance, bite_chance_allowed(of)), error);
        return status == BITE_OK ? hasten_passes(of, units, error) : status;
    }
    return status == BITE_NO_ANSWER ? BITE_OK : status;
}

/* Where nothing is clear, the best by the goal of what is hardly likelier to go over than what is least likely: else the feed that
 * is left would be any. */
bite_status bite_hasten_unclear(bite_trial *of, const bite_result *held, bite_error *error)
{
    double allowed = bite_chance_hardly_more(held->chance, of->confidence);
    bite_result found = *held;
    bite_status status = BITE_OK;
    int better = find_within(of, held, allowed, &found, &status, error);
    return status == BITE_OK ? hasten(of, better ? &found : held, allowed, error) : status;
}

/* The fastest of what meets the goal as well, by one coarse look. */
bite_status bite_hasten_quick(bite_trial *of, const bite_result *held, bite_error *error)
{
    const bite_settled start = bite_settled_of(of, 1);
    bite_result found;
    int clear = 0;
    if (of->search.goal == BITE_GOAL_FAST || isnan(held->values[BITE_REMOVAL_RATE].value)) {
        return BITE_OK;
    }
    bite_hasten_under(&of->search, as_good(of, held, of->search.goal, of->point.goal));
    bite_status status = bite_chance_settle(of, 1, &found, &clear, error);
    if (!clear) {
        bite_settled_go_to(of, &start);
    }
    return status;
}
