/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Settings that were evaluated by all draws, and the risk of others, predicted from the nearest. */
#include "core/uncertainty/drawn_settings.h"
#include "core/base/error.h"
#include "core/base/lane_math.h"
#include "core/base/quantile.h"
#include "core/uncertainty/chances.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Settings that are kept; more replace the oldest. */
enum { KEPT = 64, PLACES = 4 };

/* Nearby settings are decided by the draws that are the worst at the drawn one: so many times those
 * that may exceed a limit, and some. */
enum { DECIDING = 3, DECIDING_LEAST = 32 };

/* As many of the nearest ones predict a setting. */
enum { NEIGHBOURS = 3 };

/* Where a utilization at the best estimates is smaller than this share of its mean over the draws,
 * two effects cancel, as in the error of a wall that bends away from a rubbing edge and towards a
 * cutting one, and ratios would be those of numbers near zero. Both are forces: such a limit varies
 * as the load of the tool does. */
static const double cancelled = 0.5;

/* A setting at the end of a range is within it, however its logarithm was rounded. */
static const double rounding = 1e-9;

typedef struct drawn_setting {
    double place[PLACES]; /* logarithms of spindle speed, feed per turn, depth and width */
    size_t draws;
    double best[BITE_LIMIT_COUNT];    /* utilizations at the best estimates */
    uint8_t scaled[BITE_LIMIT_COUNT]; /* 1: change holds ratios, 0: utilizations */
    uint8_t wanted[BITE_LIMIT_COUNT]; /* 1: was drawn */
    uint8_t binds[BITE_LIMIT_COUNT];
    uint8_t scatters[BITE_LIMIT_COUNT];
    int ranked; /* 1: the draws are in the order of their worst utilization, the worst first */
    uint8_t unranked[BITE_LIMIT_COUNT]; /* 1: without this limit, which was relaxed */
    double allowed;                     /* for which the next ones were computed; NaN: not yet */
    double quantile[BITE_LIMIT_COUNT];  /* of change */
    double most[BITE_LIMIT_COUNT];      /* of change */
    double gross;                       /* change of chatter that all but a few draws exceed */
    float *change;                      /* limit x draw: utilization of a draw against the best */
} drawn_setting;

typedef struct ranked_draw {
    double worst;
    size_t draw;
} ranked_draw;

struct bite_drawn_settings {
    bite_allocator allocator;
    bite_draw_set *set;
    size_t size; /* draws of the set */
    size_t count;
    size_t next;     /* to be replaced */
    double *scratch; /* limit x draw, and two numbers of each draw */
    double *worst;
    double *sorting;
    ranked_draw *ranked;
    drawn_setting settings[KEPT];
};

bite_status bite_drawn_settings_new(const bite_allocator *allocator, bite_draw_set *set,
                                    bite_drawn_settings **drawn, bite_error *error)
{
    bite_drawn_settings *fresh = bite_memory_new(allocator, 1, sizeof *fresh);
    size_t size = bite_draw_set_size(set);
    double *scratch =
        bite_memory_grow(allocator, NULL, (BITE_LIMIT_COUNT + 2) * size, sizeof *scratch);
    ranked_draw *ranked = bite_memory_grow(allocator, NULL, size, sizeof *ranked);
    if (fresh == NULL || scratch == NULL || ranked == NULL) {
        bite_memory_free(allocator, fresh);
        bite_memory_free(allocator, ranked);
        bite_memory_free(allocator, scratch);
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for the draws");
    }
    fresh->allocator = *allocator;
    fresh->set = set;
    fresh->size = size;
    fresh->scratch = scratch;
    fresh->worst = scratch + BITE_LIMIT_COUNT * size;
    fresh->sorting = fresh->worst + size;
    fresh->ranked = ranked;
    *drawn = fresh;
    return BITE_OK;
}

void bite_drawn_settings_free(bite_drawn_settings *drawn)
{
    if (drawn != NULL) {
        bite_allocator allocator = drawn->allocator;
        for (size_t i = 0; i < drawn->count; i++) {
            bite_memory_free(&allocator, drawn->settings[i].change);
        }
        bite_memory_free(&allocator, drawn->scratch);
        bite_memory_free(&allocator, drawn->ranked);
        bite_memory_free(&allocator, drawn);
    }
}

/* ---- the nearest ---- */

static void set_place(const bite_setting *setting, double *place)
{
    place[0] = log(setting->spindle);
    place[1] = log(setting->feed / setting->spindle);
    place[2] = isnan(setting->depth) ? 0.0 : log(setting->depth);
    place[3] = isnan(setting->width) ? 0.0 : log(setting->width);
}

/* The drawn settings that are nearest to another one. */
typedef struct neighbours {
    double place[PLACES]; /* of the other one */
    size_t count;
    drawn_setting *at[NEIGHBOURS]; /* the nearest first */
    double distance[NEIGHBOURS];
} neighbours;

static void insert(neighbours *to, drawn_setting *at, double distance)
{
    size_t place = to->count < NEIGHBOURS ? to->count++ : NEIGHBOURS - 1;
    for (; place > 0 && to->distance[place - 1] > distance; place--) {
        to->at[place] = to->at[place - 1];
        to->distance[place] = to->distance[place - 1];
    }
    to->at[place] = at;
    to->distance[place] = distance;
}

static void find_neighbours(bite_drawn_settings *drawn, const bite_setting *setting, neighbours *to)
{
    to->count = 0;
    set_place(setting, to->place);
    for (size_t i = 0; i < drawn->count; i++) {
        double square = 0.0;
        for (int k = 0; k < PLACES; k++) {
            double apart = to->place[k] - drawn->settings[i].place[k];
            square += apart * apart;
        }
        if (to->count < NEIGHBOURS || square < to->distance[NEIGHBOURS - 1]) {
            insert(to, &drawn->settings[i], square);
        }
    }
    for (size_t i = 0; i < to->count; i++) {
        to->distance[i] = sqrt(to->distance[i]);
    }
}

/* What the changes of a limit are multiplied by, at other best estimates. */
static double factor_of(const drawn_setting *at, size_t limit, const double *best)
{
    double load = at->best[BITE_LIMIT_TOOL_BREAK];
    double other = best[BITE_LIMIT_TOOL_BREAK];
    return at->scaled[limit] ? best[limit] : load > 0.0 && other > 0.0 ? other / load : 1.0;
}

/* Raises the worst utilizations to those of a limit. */
BITE_IN_LANES
static void take(const float *restrict change, size_t draws, double factor, double *restrict worst)
{
    for (size_t k = 0; k < draws; k++) {
        double utilization = factor * (double)change[k];
        worst[k] = utilization > worst[k] ? utilization : worst[k];
    }
}

static void take_limit(const bite_drawn_settings *drawn, const drawn_setting *at, size_t draws,
                       size_t limit, double factor, double *worst)
{
    take(at->change + limit * drawn->size, draws, factor, worst);
}

static void clear(double *numbers, size_t count)
{
    memset(numbers, 0, count * sizeof *numbers);
}

/* ---- drawing one ---- */

/* Chatter counts if it is gross, although it may be advisory. */
static int counts(const bite_estimate *estimate, size_t limit)
{
    return estimate->binds[limit] ||
           (limit == BITE_LIMIT_CHATTER && estimate->utilization[limit] > 0.0);
}

static bite_status make_room(bite_drawn_settings *drawn, drawn_setting **to, bite_error *error)
{
    int full = drawn->count == KEPT;
    drawn_setting *place = &drawn->settings[full ? drawn->next : drawn->count];
    if (!full) {
        place->change = bite_memory_grow(&drawn->allocator, NULL, BITE_LIMIT_COUNT * drawn->size,
                                         sizeof *place->change);
        if (place->change == NULL) {
            return bite_error_set(error, BITE_NO_MEMORY, "no memory for the draws");
        }
        drawn->count++;
    }
    drawn->next = full ? (drawn->next + 1) % KEPT : 0;
    place->draws = 0;
    *to = place;
    return BITE_OK;
}

/* By the first draws. */
static void set_scaled(const bite_drawn_settings *drawn, size_t draws, drawn_setting *place)
{
    for (size_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        const double *own = drawn->scratch + i * drawn->size;
        double sum = 0.0;
        for (size_t k = 0; k < draws; k++) {
            sum += own[k];
        }
        place->scaled[i] =
            place->best[i] > 0.0 && place->best[i] * (double)draws >= cancelled * sum;
    }
}

static void set_changes(const bite_drawn_settings *drawn, size_t from, size_t to,
                        drawn_setting *place)
{
    for (size_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        double best = place->best[i];
        const double *own = drawn->scratch + i * drawn->size;
        float *change = place->change + i * drawn->size;
        for (size_t k = from; place->wanted[i] && k < to; k++) {
            change[k] = (float)(place->scaled[i] ? own[k] / best : own[k]);
            place->scatters[i] |= own[k] < best || own[k] > best;
        }
    }
}

static int by_worst(const void *a, const void *b)
{
    const ranked_draw *one = a;
    const ranked_draw *other = b;
    if (one->worst < other->worst || one->worst > other->worst) {
        return one->worst > other->worst ? -1 : 1;
    }
    return (one->draw > other->draw) - (one->draw < other->draw);
}

/* Puts the draws into the order of their worst utilization, the worst first: those decide about
 * settings nearby. */
static void sort_draws(const bite_drawn_settings *drawn, drawn_setting *at)
{
    double *worst = drawn->worst;
    clear(worst, at->draws);
    for (size_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        if (at->binds[i] && !at->unranked[i]) { /* then it was drawn */
            take_limit(drawn, at, at->draws, i, at->scaled[i] ? at->best[i] : 1.0, worst);
        }
    }
    for (size_t k = 0; k < at->draws; k++) {
        drawn->ranked[k].worst = worst[k];
        drawn->ranked[k].draw = k;
    }
    qsort(drawn->ranked, at->draws, sizeof *drawn->ranked, by_worst);
    for (size_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        float *change = at->change + i * drawn->size;
        for (size_t k = 0; at->wanted[i] && k < at->draws; k++) {
            worst[k] = change[drawn->ranked[k].draw];
        }
        for (size_t k = 0; at->wanted[i] && k < at->draws; k++) {
            change[k] = (float)worst[k];
        }
    }
}

/* The same unless they are in it; a relaxed limit decides about none of them. */
static void rank_draws(const bite_drawn_settings *drawn, const bite_limit_rule *rule,
                       drawn_setting *at)
{
    for (size_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        uint8_t relaxed = rule->relaxed[i] > 0.0;
        at->ranked = at->ranked && at->unranked[i] == relaxed;
        at->unranked[i] = relaxed;
    }
    if (!at->ranked) {
        sort_draws(drawn, at);
        at->ranked = 1;
    }
}

static void start_setting(const bite_setting *setting, const bite_estimate *estimate,
                          drawn_setting *at)
{
    set_place(setting, at->place);
    for (size_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        at->best[i] = estimate->utilization[i];
        at->wanted[i] = counts(estimate, i) ? 1 : 0;
        at->binds[i] = estimate->binds[i];
        at->scatters[i] = 0;
    }
}

bite_status bite_drawn_settings_add(bite_drawn_settings *drawn, const bite_setting *setting,
                                    const bite_estimate *estimate, size_t draws, bite_error *error)
{
    neighbours near;
    drawn_setting *at = NULL;
    find_neighbours(drawn, setting, &near);
    if (near.count > 0 && !(near.distance[0] > 0.0)) {
        at = near.at[0];
    } else {
        bite_status status = make_room(drawn, &at, error);
        if (status != BITE_OK) {
            return status;
        }
        start_setting(setting, estimate, at);
    }
    draws = draws < drawn->size ? draws : drawn->size;
    if (draws > at->draws) {
        bite_status status = bite_draw_set_draw(drawn->set, setting, at->wanted, at->draws, draws,
                                                drawn->scratch, error);
        if (status != BITE_OK) {
            return status;
        }
        if (at->draws == 0) {
            set_scaled(drawn, draws, at);
        }
        set_changes(drawn, at->draws, draws, at);
        at->draws = draws;
        at->allowed = (double)NAN;
        at->ranked = 0;
    }
    return BITE_OK;
}

/* ---- predicting ---- */

BITE_IN_LANES
static size_t count_above(const double *numbers, size_t count, double least)
{
    size_t above = 0;
    for (size_t i = 0; i < count; i++) {
        above += numbers[i] > least ? 1 : 0;
    }
    return above;
}

static size_t count_over(const double *utilizations, size_t draws)
{
    return count_above(utilizations, draws, 1.0 + rounding);
}

/* The most draws that are fewer than the allowed share. */
static size_t allowed_draws(size_t draws, double allowed)
{
    double above = ceil(allowed * (double)draws * (1.0 - 1e-12)) - 1.0;
    return above > 0.0 ? (size_t)above : 0;
}

/* The number that fewer than the allowed share exceed. */
static double quantile_of(const double *numbers, size_t draws, double allowed, double *sorting)
{
    return bite_quantile_select_copy(numbers, draws, draws - 1 - allowed_draws(draws, allowed),
                                     sorting);
}

/* The number that `above` others exceed, of numbers of which none is smaller than `least`. */
static double quantile_above(const double *numbers, size_t draws, size_t above, double least,
                             double *sorting)
{
    size_t larger = 0;
    if (count_above(numbers, draws, least) <= above) {
        return least;
    }
    for (size_t i = 0; i < draws; i++) {
        sorting[larger] = numbers[i];
        larger += numbers[i] > least;
    }
    return bite_quantile_select(sorting, larger, larger - 1 - above);
}

static void copy_changes(const bite_drawn_settings *drawn, const drawn_setting *at, size_t limit,
                         double *to)
{
    const float *change = at->change + limit * drawn->size;
    for (size_t k = 0; k < at->draws; k++) {
        to[k] = change[k];
    }
}

/* The quantiles of each limit's change alone. */
static void set_quantiles(bite_drawn_settings *drawn, double allowed, drawn_setting *at)
{
    if (fabs(at->allowed - allowed) <= 0.0) {
        return;
    }
    at->allowed = allowed;
    at->gross = 0.0;
    for (size_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        at->quantile[i] = at->most[i] = 0.0;
        if (!at->wanted[i]) {
            continue;
        }
        copy_changes(drawn, at, i, drawn->worst);
        at->quantile[i] = quantile_of(drawn->worst, at->draws, allowed, drawn->sorting);
        for (size_t k = 0; k < at->draws; k++) {
            at->most[i] = fmax(at->most[i], drawn->worst[k]);
        }
        if (i == BITE_LIMIT_CHATTER) {
            size_t all_but_few = (size_t)ceil(bite_gross_chatter * (double)at->draws);
            at->gross = bite_quantile_select_copy(drawn->worst, at->draws, at->draws - all_but_few,
                                                  drawn->sorting);
        }
    }
}

/* Chatter of a machine whose modes were not measured counts only where it is gross. */
static void take_gross_chatter(const bite_drawn_settings *drawn, const drawn_setting *at,
                               size_t draws, const bite_estimate *estimate,
                               const bite_limit_rule *rule, const double *factors)
{
    const size_t chatter = BITE_LIMIT_CHATTER;
    double factor = factors[chatter] / rule->capacity[chatter];
    if (!estimate->binds[chatter] && at->wanted[chatter] && estimate->utilization[chatter] > 0.0 &&
        !(rule->relaxed[chatter] > 0.0) && factor * at->gross > 1.0 + rounding) {
        take_limit(drawn, at, draws, chatter, factor, drawn->worst);
    }
}

/* Limits that do not scatter, and relaxed ones, which count at the best estimates. */
static double exact_part(const drawn_setting *at, const bite_estimate *estimate,
                         const bite_limit_rule *rule)
{
    double most = 0.0;
    for (size_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        int relaxed = rule->relaxed[i] > 0.0;
        if (estimate->binds[i] && (relaxed || (at != NULL && at->wanted[i] && !at->scatters[i]))) {
            double accepted = relaxed ? rule->relaxed[i] : rule->capacity[i];
            most = fmax(most, estimate->utilization[i] / accepted);
        }
    }
    return most;
}

/* The quantile of the worst limit alone: that of all together is not smaller. A limit that was not
 * drawn is taken as it is at the best estimates. */
static double bound_of(const drawn_setting *at, const bite_estimate *estimate,
                       const bite_limit_rule *rule, const double *factors)
{
    double most = 0.0;
    for (size_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        double utilization = estimate->utilization[i];
        if (!estimate->binds[i] || rule->relaxed[i] > 0.0) {
            continue;
        }
        if (at != NULL && at->wanted[i]) {
            utilization = factors[i] * at->quantile[i];
        }
        most = fmax(most, utilization / rule->capacity[i]);
    }
    return most;
}

/* The worst utilization of each draw, or the bound if it is smaller: such draws do not matter, nor
 * do limits that are below the bound in all of them. */
static void fill_worst(const bite_drawn_settings *drawn, const drawn_setting *at, size_t draws,
                       const bite_estimate *estimate, const bite_limit_rule *rule,
                       const double *factors, double bound)
{
    for (size_t k = 0; k < draws; k++) {
        drawn->worst[k] = bound;
    }
    for (size_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        double factor = factors[i] / rule->capacity[i];
        if (estimate->binds[i] && at->wanted[i] && !(rule->relaxed[i] > 0.0) &&
            factor * at->most[i] > bound) {
            take_limit(drawn, at, draws, i, factor, drawn->worst);
        }
    }
    take_gross_chatter(drawn, at, draws, estimate, rule, factors);
}

/* The quantile by one drawn setting, or a bound of it that is higher than `enough`. whole: 1: by
 * all draws, 0: by those that are the worst there, of which some were the allowed ones. */
static double predict(bite_drawn_settings *drawn, drawn_setting *at, const bite_estimate *estimate,
                      const bite_limit_rule *rule, const double *factors, double enough, int whole)
{
    double bound = bound_of(at, estimate, rule, factors);
    if (bound > enough) {
        return bound;
    }
    rank_draws(drawn, rule, at);
    size_t above = allowed_draws(at->draws, rule->allowed);
    size_t draws = DECIDING * above + DECIDING_LEAST;
    draws = whole || draws > at->draws ? at->draws : draws;
    fill_worst(drawn, at, draws, estimate, rule, factors, bound);
    return quantile_above(drawn->worst, draws, above, bound, drawn->sorting);
}

/* How far a place is from one setting towards another, as a share of their distance; *apart: how
 * far that is. */
static double share_towards(const double *place, const drawn_setting *from,
                            const drawn_setting *toward, double *way, double *apart)
{
    double product = 0.0;
    double square = 0.0;
    for (int k = 0; k < PLACES; k++) {
        double one = toward->place[k] - from->place[k];
        product += one * (place[k] - from->place[k]);
        square += one * one;
    }
    *way = sqrt(square);
    *apart = fabs(product) / *way;
    return product / square;
}

/* The neighbour that lies in the direction of the place from the nearest one, or in the opposite
 * one, and was drawn as often. NULL: none. *share: of the way to it. */
static drawn_setting *find_toward(const neighbours *near, double *share, double *way)
{
    drawn_setting *from = near->at[0];
    drawn_setting *toward = NULL;
    double farthest = 0.0;
    for (size_t i = 1; i < near->count; i++) {
        double apart;
        double long_way;
        double one = share_towards(near->place, from, near->at[i], &long_way, &apart);
        if (near->at[i]->draws == from->draws && apart > farthest) {
            farthest = apart;
            *share = one;
            *way = long_way;
            toward = near->at[i];
        }
    }
    return toward;
}

/* What chatter is falls no faster than this power of a setting: a lobe that is narrower at the best
 * estimates is filled by the draws, whose modes lie elsewhere. */
static const double steepest = 3.0;

/* What the changes of each limit at the nearest setting are multiplied by. The error of that grows
 * with the distance, and what the quantile of the limit is at another setting shows how fast: the
 * logarithm is taken to be linear on the way between the two, and as far beyond. */
static void set_factors(bite_drawn_settings *drawn, const neighbours *near,
                        const bite_estimate *estimate, const bite_limit_rule *rule,
                        double factors[BITE_LIMIT_COUNT])
{
    double share = 0.0;
    double way = 0.0;
    drawn_setting *from = near->at[0];
    drawn_setting *toward = near->distance[0] > 0.0 ? find_toward(near, &share, &way) : NULL;
    set_quantiles(drawn, rule->allowed, from);
    if (toward != NULL) {
        set_quantiles(drawn, rule->allowed, toward);
    }
    share = fmax(-1.0, fmin(share, 1.0));
    for (size_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        factors[i] = factor_of(from, i, estimate->utilization);
        double is = toward == NULL ? 0.0 : toward->quantile[i] * factor_of(toward, i, toward->best);
        double by = toward == NULL ? 0.0 : from->quantile[i] * factor_of(from, i, toward->best);
        double growth = from->scatters[i] && is > 0.0 && by > 0.0 ? log(is / by) : 0.0;
        if (fabs(growth) < way) {
            factors[i] *= exp(share * growth);
        }
        if (i == BITE_LIMIT_CHATTER || i == BITE_LIMIT_CHATTER_TOOL) {
            double least = factor_of(from, i, from->best) * exp(-steepest * near->distance[0]);
            factors[i] = from->scatters[i] ? fmax(factors[i], least) : factors[i];
        }
    }
}

bite_setting_risk bite_drawn_settings_risk(bite_drawn_settings *drawn, const bite_setting *setting,
                                           const bite_estimate *estimate,
                                           const bite_limit_rule *rule, double enough)
{
    neighbours near;
    bite_setting_risk risk = {0.0, 0.0, INFINITY};
    find_neighbours(drawn, setting, &near);
    drawn_setting *at = near.count > 0 ? near.at[0] : NULL;
    risk.exact = exact_part(at, estimate, rule);
    if (at == NULL) {
        risk.quantile = bound_of(NULL, estimate, rule, NULL);
        return risk;
    }
    double factors[BITE_LIMIT_COUNT];
    set_factors(drawn, &near, estimate, rule, factors);
    risk.distance = near.distance[0];
    risk.quantile = fmax(
        risk.exact, predict(drawn, at, estimate, rule, factors, enough, !(risk.distance > 0.0)));
    return risk;
}

void bite_drawn_settings_limits(bite_drawn_settings *drawn, const bite_setting *setting,
                                const bite_estimate *estimate, const bite_limit_rule *rule,
                                bite_limit_risk limits[BITE_LIMIT_COUNT])
{
    neighbours near;
    find_neighbours(drawn, setting, &near);
    const drawn_setting *at = near.count > 0 ? near.at[0] : NULL;
    for (size_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        double utilization = estimate->utilization[i];
        bite_limit_risk none = {0.0, 0.0, 0.0};
        limits[i] = none;
        if (!estimate->binds[i] || rule->relaxed[i] > 0.0 || at == NULL) {
            continue;
        }
        limits[i].best = utilization;
        limits[i].quantile = utilization / rule->capacity[i];
        if (at->wanted[i]) {
            clear(drawn->worst, at->draws);
            take_limit(drawn, at, at->draws, i,
                       factor_of(at, i, estimate->utilization) / rule->capacity[i], drawn->worst);
            limits[i].chance = (double)count_over(drawn->worst, at->draws) / (double)at->draws;
            limits[i].quantile =
                quantile_of(drawn->worst, at->draws, rule->allowed, drawn->sorting);
        }
    }
}
