/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A trial settled: passes, speed and feed.
 *
 * What is clear is hastened. Where nothing is, the least chance is looked for (risk.c) and the margins are those of its point; what
 * is over even there is given up, told, and all else chosen as if it held. What comes out is rounded to what a person types, and
 * judged again with all draws.
 */
#include "core/search/search_internal.h"
#include <math.h>

#define DRAWS_QUICK 96
#define MORE_QUICK 3

/* *held: the draws of the point of least chance, where the trial is left. *clear: apart from what is given up it is. */
static bite_status settle_risk(bite_trial *of, uint32_t units, bite_result *held, int *clear, bite_error *error)
{
    bite_status status = bite_partings_least(of, units, held, error);
    if (status == BITE_OK && bite_margins_give_up(of, held) > 0) {
        status = bite_risk_least(of, held, error);
    }
    if (status != BITE_OK) {
        return status;
    }
    bite_margins_set(of, held, 1.0);
    (void)bite_margins_within_reach(of, &of->search, held);
    of->point = bite_optimum_at(&of->search, of->point.spindle, of->point.feed);
    *clear = bite_chance_is_clear(of, held, bite_chance_allowed(of));
    return BITE_OK;
}

static bite_status settle_clear(bite_trial *of, uint32_t units, bite_result *held, int *clear, bite_error *error)
{
    return bite_partings_are_free(of) ? bite_partings_settle(of, units, clear, error)
                                      : bite_chance_settle(of, 0, held, clear, error);
}

/* On from settings that are clear by another goal. *clear: they are so by their own, cap and all. */
static bite_status go_on(bite_trial *of, uint32_t units, int *clear, bite_error *error)
{
    int tried[BITE_SETTLED_MOST] = {0};
    bite_settled_list all;
    bite_result held;
    bite_status status = bite_trial_draw(of, &held, error);
    if (status != BITE_OK) {
        return status;
    }
    of->search = of->begun;
    bite_margins_set(of, &held, 1.0);
    (void)bite_margins_within_reach(of, &of->search, &held);
    of->point = bite_optimum_at(&of->search, of->point.spindle, of->point.feed);
    of->chance = held.chance;
    *clear = of->point.worst <= 1.0;
    if (!*clear || of->search.goal != BITE_GOAL_FAST || !bite_partings_are_free(of)) {
        return BITE_OK;
    }
    all.count = 1;
    all.of[0] = bite_settled_of(of, 1);
    status = bite_partings_climb(of, &of->begun, 1, &all, error);
    bite_settled_go_to(of, &all.of[bite_partings_next(&all, tried)]);
    bite_partings_type(of, units);
    return status == BITE_OK ? bite_chance_confirm(of, &held, clear, error) : status;
}

static void begin_by(bite_trial *of, uint32_t goal)
{
    of->search = of->begun;
    of->search.goal = goal;
    of->search.cap = 0.0;
}

/* A search by one goal may miss what is clear, or nearly stand still: the others lead elsewhere. Where none is clear, all stays as
 * it was. */
static bite_status settle_by_others(bite_trial *of, uint32_t units, int *clear, bite_error *error)
{
    static const uint32_t others[] = {BITE_GOAL_GENTLE, BITE_GOAL_COOL, BITE_GOAL_FAST};
    const bite_settled before = bite_settled_of(of, 0);
    uint32_t own = of->begun.cap > 0.0 ? of->begun.capped : of->begun.goal;
    bite_status status = BITE_OK;
    for (size_t i = 0; i < sizeof others / sizeof *others && status == BITE_OK && !*clear; i++) {
        bite_result held;
        if (others[i] == own || (others[i] == BITE_GOAL_FAST && of->begun.cap > 0.0)) {
            continue;
        }
        begin_by(of, others[i]);
        bite_trial_close_in(of);
        if ((uint64_t)of->parting.down * of->parting.side < of->fewest) {
            bite_settled_go_to(of, &before);
            begin_by(of, others[i]);
        }
        status = settle_clear(of, units, &held, clear, error);
        status = status == BITE_OK && *clear ? go_on(of, units, clear, error) : status;
    }
    if (!*clear) {
        bite_settled_go_to(of, &before);
    }
    return status;
}

/* A tooth that takes less than so much of the most that it may: another way may lead to much more. */
static int creeps(const bite_trial *of)
{
    const double hardly = 0.15;
    double tooth = of->point.feed / (of->point.spindle * of->full.flutes);
    return of->search.goal == BITE_GOAL_FAST && isnan(of->search.feed) && tooth < hardly * of->search.tooth[1];
}

static bite_status settle_creeping(bite_trial *of, uint32_t units, bite_error *error)
{
    const bite_settled start = bite_settled_of(of, 1);
    int clear = 0;
    bite_status status = settle_by_others(of, units, &clear, error);
    const bite_settled other = bite_settled_of(of, clear);
    if (!bite_settled_better(&other, &start)) {
        bite_settled_go_to(of, &start);
        bite_partings_type(of, units);
    }
    return status;
}

/* From the numbers of passes and the margins as they stand. */
static bite_status settle_from_here(bite_trial *of, uint32_t units, bite_error *error)
{
    const bite_settled before = bite_settled_of(of, 0);
    bite_result held;
    int clear = 0;
    bite_status status = settle_clear(of, units, &held, &clear, error);
    if (status == BITE_OK && !clear && of->strictness < bite_strictness_usual) { /* what cannot keep to a share may use all */
        of->strictness = bite_strictness_usual;
        bite_settled_go_to(of, &before);
        status = settle_clear(of, units, &held, &clear, error);
    }
    if (status == BITE_OK && !clear && of->fewest > 1) { /* there is something already: more passes are looked at for being clear */
        return BITE_NO_ANSWER;
    }
    status = status == BITE_OK && !clear ? settle_by_others(of, units, &clear, error) : status;
    if (status == BITE_OK && !clear) {
        status = settle_risk(of, units, &held, &clear, error);
    }
    if (status == BITE_OK) {
        status = clear ? bite_hasten(of, units, error) : bite_hasten_unclear(of, &held, error);
    }
    status = status == BITE_OK && clear && creeps(of) ? settle_creeping(of, units, error) : status;
    of->clear = (uint32_t)clear;
    of->least_chance = clear || status != BITE_OK ? bite_chance_allowed(of) : bite_chance_hardly_more(held.chance, of->confidence);
    return status;
}

/* The fastest of what is good enough by another goal, whatever its best is. Where nothing is, all stays as it was. */
static bite_status settle_good_enough(bite_trial *of, uint32_t units, const bite_result *held, int *clear, bite_error *error)
{
    const bite_settled before = bite_settled_of(of, 0);
    bite_result found;
    if (of->search.goal == BITE_GOAL_FAST || isnan(held->values[BITE_REMOVAL_RATE].value)) {
        return BITE_OK;
    }
    double cap = bite_hasten_cap(of, held);
    if (of->point.goal > 0.85 * cap) { /* the best of a coarse look is hardly as good */
        return BITE_OK;
    }
    bite_hasten_under(&of->search, cap);
    of->begun = of->search;
    bite_trial_close_in(of);
    bite_status status = settle_clear(of, units, &found, clear, error);
    status = status == BITE_OK && *clear && creeps(of) ? settle_creeping(of, units, error) : status;
    of->clear = (uint32_t)*clear;
    if (!*clear) {
        bite_settled_go_to(of, &before);
    }
    return status;
}

/* Margins at the best point so far, and the number of passes that is clear under them: more where it is not, and the first again
 * where more do not help. */
bite_status bite_trial_settle(bite_trial *of, uint32_t units, bite_error *error)
{
    bite_result held;
    int clear = 0;
    bite_trial_close_in(of);
    bite_status status = bite_trial_draw(of, &held, error);
    if (status != BITE_OK) {
        return status;
    }
    bite_margins_give_up_sizes(of, &held);
    bite_margins_set(of, &held, 1.0);
    status = settle_good_enough(of, units, &held, &clear, error);
    if (status != BITE_OK || clear) {
        return status;
    }
    bite_trial_find_passes(of);
    of->begun = of->search;
    return settle_from_here(of, units, error);
}

bite_status bite_trial_settle_more(bite_trial *of, uint32_t units, bite_error *error)
{
    of->search = of->begun;
    if (!bite_partings_are_free(of) || bite_partings_too_many(of) || !bite_passes_more(&of->search, &of->parting)) {
        return BITE_NO_ANSWER;
    }
    bite_trial_follow(of);
    of->fewest = (uint64_t)of->parting.down * of->parting.side;
    return settle_from_here(of, units, error);
}

/* A coarse look with margins, a few numbers of passes, and the least chance where none is clear. */
bite_status bite_trial_settle_quick(bite_trial *of, bite_error *error)
{
    bite_result result;
    int clear = 0;
    of->draws = DRAWS_QUICK;
    of->request.skip_change = 1;
    bite_trial_close_in(of);
    bite_status status = bite_trial_draw(of, &result, error);
    if (status != BITE_OK) {
        return status;
    }
    bite_margins_give_up_sizes(of, &result);
    bite_margins_set(of, &result, 1.0);
    bite_trial_close_in(of);
    of->begun = of->search;
    status = bite_chance_settle(of, 1, &result, &clear, error);
    if (status == BITE_OK && !clear && of->strictness < bite_strictness_usual) {
        of->strictness = bite_strictness_usual;
        of->search = of->begun;
        status = bite_chance_settle(of, 1, &result, &clear, error);
    }
    for (int i = 0; i < MORE_QUICK && status == BITE_OK && !clear && bite_partings_are_free(of) && !bite_partings_too_many(of);
         i++) {
        const bite_settled last = bite_settled_of(of, 0);
        of->search = of->begun;
        if (!bite_passes_more(&of->search, &of->parting)) {
            bite_settled_go_to(of, &last);
            break;
        }
        bite_trial_follow(of);
        status = bite_chance_settle(of, 1, &result, &clear, error);
        const bite_settled now = bite_settled_of(of, clear);
        if (!bite_settled_better(&now, &last)) {
            bite_settled_go_to(of, &last);
            break;
        }
    }
    of->clear = (uint32_t)clear;
    if (status == BITE_OK) {
        status = clear ? bite_hasten_quick(of, &result, error) : bite_risk_least(of, &result, error);
        of->chance = clear ? of->chance : bite_risk_of(of, &result);
    }
    return status;
}
