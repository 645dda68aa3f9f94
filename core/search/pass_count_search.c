/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How many passes: the fewest that are clear, or those that remove most. */
#include "core/search/search_internal.h"
#include <math.h>

#define PASSES_SENSIBLE 24 /* over a depth; with passes side by side in all as many at each of four */
#define MORE_PASSES 6
#define NEIGHBOURS 10
#define CLOSELY_MOST 3

/* More than anyone wants to wait for. */
int bite_partings_too_many(const bite_trial *of)
{
    return isnan(of->parting.width) ? of->parting.down >= PASSES_SENSIBLE
                                    : (uint64_t)of->parting.down * of->parting.side >= 4 * PASSES_SENSIBLE;
}

/* Out of the hole and back in, s (estimate: twice some millimetres at a small machine's rapids, and its turns). */
static const double time_of_peck = 0.5;

/* What is left of the chance lets a coarse look's settings go on: so much of the removal, in logarithms, by as much of the chance
 * (estimate: uses go with the feed to a half or more, and the chance with a high power of them). A quarter of it is as good as
 * none. */
static const double gain_of_chance = 0.12;
static const double least_part = 0.25;

/* A hole is drilled as fast as its pecks let it. */
static double value_of(const bite_trial *of, int clear)
{
    const bite_parting *parting = &of->parting;
    int fast = of->search.goal == BITE_GOAL_FAST;
    if (fast && of->full.operation == BITE_DRILL_HOLE && !isnan(parting->depth)) {
        return log(parting->depth / of->point.feed + time_of_peck * parting->down);
    }
    double used = fmin(1.0, fmax(least_part, of->chance / bite_chance_allowed(of)));
    return of->point.goal + (fast && clear ? gain_of_chance * log(used) : 0.0);
}

bite_settled bite_settled_of(const bite_trial *of, int clear)
{
    bite_settled found = {clear, of->chance, value_of(of, clear), of->parting, of->search, of->point};
    return found;
}

void bite_settled_go_to(bite_trial *of, const bite_settled *to)
{
    of->search = to->search;
    of->point = to->point;
    of->chance = to->chance;
    bite_trial_part(of, to->parting.down, to->parting.side);
}

/* More passes must be worth what is lost between them: of the removal so much, where none is clear so much less chance. */
static const double worth = 0.05;
static const double much_less = 0.8;

int bite_settled_better(const bite_settled *a, const bite_settled *b)
{
    if (a->clear != b->clear) {
        return a->clear > b->clear;
    }
    uint64_t passes_a = (uint64_t)a->parting.down * a->parting.side;
    uint64_t passes_b = (uint64_t)b->parting.down * b->parting.side;
    double more = a->search.goal != BITE_GOAL_FAST || passes_a == passes_b ? 0.0 : passes_a > passes_b ? worth : -worth;
    return a->clear ? a->value < b->value - more : a->chance < much_less * b->chance;
}

/* The best of those that were not tried yet; their number: all were. */
size_t bite_partings_next(const bite_settled_list *all, const int *tried)
{
    size_t best = all->count;
    for (size_t i = 0; i < all->count; i++) {
        if (!tried[i] && (best == all->count || bite_settled_better(&all->of[i], &all->of[best]))) {
            best = i;
        }
    }
    return best;
}

/* The goal that other numbers of passes must be better than. Of pecks it is not the goal alone. */
static double to_beat(const bite_trial *of, const bite_settled *best)
{
    int is_goal = best->clear && of->full.operation != BITE_DRILL_HOLE;
    return is_goal ? best->value + worth - gain_of_chance * log(least_part) : INFINITY;
}

/* For the most removal the first that is clear may be so by hardly feeding at all: side by side all that are tried count, over a
 * depth they go on while they gain. */
static bite_status settle_most(bite_trial *of, bite_settled_list *all, bite_error *error)
{
    const bite_search before = of->search;
    bite_result result;
    size_t best = 0;
    for (int i = 0; i < MORE_PASSES; i++) {
        int clear = 0;
        of->beat = i == 0 ? INFINITY : to_beat(of, &all->of[best]);
        bite_status status = bite_chance_settle(of, 1, &result, &clear, error);
        of->beat = INFINITY;
        if (status != BITE_OK) {
            return status;
        }
        all->of[all->count++] = bite_settled_of(of, clear);
        int gains = i == 0 || bite_settled_better(&all->of[i], &all->of[best]);
        int loses = !gains && clear && all->of[best].clear;
        best = gains ? all->count - 1 : best;
        if ((loses && isnan(of->parting.width)) || bite_partings_too_many(of)) {
            return BITE_OK;
        }
        of->search = before;
        if (!bite_passes_more(&of->search, &of->parting)) {
            return BITE_OK;
        }
        bite_trial_follow(of);
    }
    return BITE_OK;
}

static int is_listed(const bite_settled_list *all, uint32_t down, uint32_t side)
{
    for (size_t i = 0; i < all->count; i++) {
        if (all->of[i].parting.down == down && all->of[i].parting.side == side) {
            return 1;
        }
    }
    return 0;
}

/* Numbers of passes. */
typedef struct parts {
    uint32_t down;
    uint32_t side;
} parts;

/* Other numbers of passes that are looked at beside some: by a half and by one, more and fewer, both ways. */
static parts beside(const parts *at, size_t way)
{
    static const struct {
        int by_half;
        int down;
        int side;
    } ways[NEIGHBOURS] = {{1, 1, 0},  {1, 0, 1}, {1, -1, 0}, {1, 0, -1}, {0, 1, 0},
                          {0, -1, 0}, {0, 0, 1}, {0, 0, -1}, {0, 1, -1}, {0, -1, 1}};
    uint32_t half_down = ways[way].by_half ? 1 + at->down / 2 : 1;
    uint32_t half_side = ways[way].by_half ? 1 + at->side / 2 : 1;
    if (ways[way].by_half && ways[way].down + ways[way].side < 0) { /* back to where half as many again came from */
        half_down = (at->down + 1) / 3;
        half_side = (at->side + 1) / 3;
    }
    parts to = {at->down + (uint32_t)ways[way].down * half_down, at->side + (uint32_t)ways[way].side * half_side};
    return to;
}

/* More passes than would do at the fastest feed there is. A full width may be said by a NaN, a hole has none. */
static int cannot_beat(const bite_trial *of, const bite_search *search, const bite_settled *best, uint64_t passes)
{
    double most = bite_passes_most_removal(search, &of->parting, passes);
    return of->full.operation == BITE_MILL && -log(most) > best->point.goal; /* a NaN says nothing */
}

/* For the most removal on to the better neighbour, as long as there is one. Fewer passes than `fewest` in all are known not to do.
 */
bite_status bite_partings_climb(bite_trial *of, const bite_search *before, uint64_t fewest, bite_settled_list *all,
                                bite_error *error)
{
    int none[BITE_SETTLED_MOST] = {0};
    size_t best = bite_partings_next(all, none);
    for (size_t way = 0; all->of[best].clear && way < NEIGHBOURS && all->count < BITE_SETTLED_MOST; way++) {
        parts at = {all->of[best].parting.down, all->of[best].parting.side};
        parts to = beside(&at, way);
        bite_result result;
        int clear = 0;
        uint64_t passes = (uint64_t)to.down * to.side;
        int known = is_listed(all, to.down, to.side) || passes < fewest || passes < of->fewest;
        if (known || !bite_passes_sensible(&of->parting, to.down, to.side) || cannot_beat(of, before, &all->of[best], passes)) {
            continue;
        }
        of->search = *before;
        bite_trial_part(of, to.down, to.side);
        of->beat = to_beat(of, &all->of[best]);
        bite_status status = bite_chance_settle(of, 1, &result, &clear, error);
        of->beat = INFINITY;
        if (status != BITE_OK) {
            return status;
        }
        all->of[all->count++] = bite_settled_of(of, clear);
        if (bite_settled_better(&all->of[all->count - 1], &all->of[best])) {
            best = all->count - 1;
            way = (size_t)-1; /* about the new one */
        }
    }
    return BITE_OK;
}

/* A side cut is settled at the depth and width that are typed: their rounding alone may use up the room. The whole tool's width
 * stays what it is. */
void bite_partings_type(bite_trial *of, uint32_t units)
{
    bite_cut *full = &of->checked.full;
    bite_cut *requested = &of->checked.requested;
    if (isnan(of->parting.width)) {
        return;
    }
    full->width = requested->width = fmin(bite_type_depth(full->width, units), full->diameter);
    of->parting.side = (uint32_t)bite_trial_passes_of(of->parting.width, full->width); /* many a little wider may make fewer */
    if (!isnan(of->parting.depth)) {
        full->depth = requested->depth = bite_type_depth(full->depth, units);
        of->parting.down = (uint32_t)bite_trial_passes_of(of->parting.depth, full->depth);
    }
    bite_trial_follow(of);
}

int bite_partings_are_free(const bite_trial *of)
{
    return !isnan(of->parting.depth) || !isnan(of->parting.width);
}

/* What a coarse look called clear, at the depth and width that are typed. Nothing is drawn again where they move nothing and the
 * chance leaves no doubt. */
static bite_status confirm_typed(bite_trial *of, uint32_t units, int *clear, bite_error *error)
{
    bite_result result;
    bite_partings_type(of, units);
    if (*clear && isnan(of->parting.width) && of->chance < bite_chance_allowed(of)) {
        return BITE_OK;
    }
    return bite_chance_confirm(of, &result, clear, error);
}

/* Coarsely settled ones, the best first, until one is clear by a close look too; the best, if none is. */
static bite_status settle_closely(bite_trial *of, uint32_t units, const bite_settled_list *all, int *clear, bite_error *error)
{
    int tried[BITE_SETTLED_MOST] = {0};
    size_t best = bite_partings_next(all, tried);
    bite_status status = BITE_OK;
    for (int i = 0; i < CLOSELY_MOST && status == BITE_OK && !*clear; i++) {
        size_t at = bite_partings_next(all, tried);
        if (at == all->count || (i > 0 && !all->of[at].clear)) {
            break;
        }
        tried[at] = 1;
        bite_settled_go_to(of, &all->of[at]);
        *clear = all->of[at].clear;
        status = confirm_typed(of, units, clear, error);
    }
    if (status == BITE_OK && !*clear) {
        bite_settled_go_to(of, &all->of[best]);
        bite_partings_type(of, units);
    }
    return status;
}

/* The most removal. */
static bite_status settle_fastest(bite_trial *of, uint32_t units, int *clear, bite_error *error)
{
    const bite_search before = of->search;
    bite_settled_list all;
    all.count = 0;
    bite_status status = settle_most(of, &all, error);
    status = status == BITE_OK ? bite_partings_climb(of, &before, 1, &all, error) : status;
    return status == BITE_OK ? settle_closely(of, units, &all, clear, error) : status;
}

/* More passes until the limits are clear together; of those that are not, the one with the least chance. */
static bite_status settle_fewest(bite_trial *of, uint32_t units, int *clear, bite_error *error)
{
    const bite_search before = of->search;
    bite_settled best = bite_settled_of(of, 0);
    bite_result result;
    best.chance = INFINITY;
    for (int i = 0; i < MORE_PASSES; i++) {
        bite_status status = bite_chance_settle(of, 1, &result, clear, error);
        if (status == BITE_OK && *clear) {
            status = confirm_typed(of, units, clear, error);
        }
        if (status != BITE_OK || *clear) {
            return status;
        }
        bite_settled seen = bite_settled_of(of, 0);
        best = i == 0 || bite_settled_better(&seen, &best) ? seen : best;
        of->search = before;
        if (bite_partings_too_many(of) || !bite_passes_more(&of->search, &of->parting)) {
            break;
        }
        bite_trial_follow(of);
    }
    bite_settled_go_to(of, &best);
    bite_partings_type(of, units);
    return BITE_OK;
}

bite_status bite_partings_settle(bite_trial *of, uint32_t units, int *clear, bite_error *error)
{
    return of->search.goal == BITE_GOAL_FAST ? settle_fastest(of, units, clear, error) : settle_fewest(of, units, clear, error);
}

/* The least chance over some numbers of passes: more, as long as they help. */
bite_status bite_partings_least(bite_trial *of, uint32_t units, bite_result *result, bite_error *error)
{
    const double less = 0.95;
    const bite_search before = of->search;
    bite_result seen;
    bite_settled best = bite_settled_of(of, 0);
    best.chance = INFINITY;
    for (int i = 0, in_vain = 0; i < MORE_PASSES && in_vain < 2; i++) {
        bite_status status = bite_risk_least(of, &seen, error);
        if (status != BITE_OK) {
            return status;
        }
        of->chance = bite_risk_of(of, &seen);
        in_vain = of->chance < less * best.chance ? 0 : in_vain + 1;
        if (in_vain == 0) {
            best = bite_settled_of(of, 0);
            *result = seen;
        }
        if (bite_chance_is_clear(of, &seen, bite_chance_allowed(of)) || !bite_partings_are_free(of) || bite_partings_too_many(of) ||
            !bite_passes_more(&of->search, &of->parting)) {
            break;
        }
        bite_trial_follow(of);
        bite_partings_type(of, units);
    }
    bite_settled_go_to(of, &best);
    of->search = before;
    bite_partings_type(of, units);
    return BITE_OK;
}
