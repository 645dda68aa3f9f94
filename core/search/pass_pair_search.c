/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The pair of pass counts, over the depth and side by side, for a feature whose width is free. */
#include "core/search/pass_pair_search.h"
#include "core/search/pass_counts.h"
#include <math.h>

#define PAIRS_IN_ORDER_MAX 80 /* evaluated in order of their product */
#define PAIRS_MAX 128         /* including those that the order left out */
/* times the passes of the best pair: more passes would need a feed higher by that factor */
#define PASSES_FACTOR_MAX 3
#define CLOSE_LOOKS_MAX 24      /* of these, evaluated more closely */
#define RIVALS_NEAR_SPEED_MAX 6 /* searched again near their best speed */
#define RIVALS_ALL_SPEEDS_MAX 2 /* of these, searched over all speeds */
#define COARSE_PAIRS_MAX 14     /* each step adds half as many passes */
#define INFEASIBLE_MAX 24

const double bite_pass_nearly_as_good = 1.15;

/* A coarse grid misses the lowest utilization by up to half a cell, a factor of about 1.3 in feed
 * and 1.2 in speed, and utilizations rise with up to the square of the feed. A pair that exceeds a
 * limit by more than this factor cannot be brought within it. The medium search is off by half a
 * cell of speed alone; repeated near its best speed, by half a finer cell. */
static const double out_of_reach = 2.5;
static const double out_of_reach_medium = 1.3;
static const double out_of_reach_close = 1.08;
static const double speed_cell = 1.5; /* a factor: one cell of the speed grid */

/* By how much the searches fall short of the highest removal rate, in its logarithm. Coarse: a cell
 * of feed and half a cell of speed; medium: half a cell of speed; close: half a finer one. */
static const double removal_error_coarse = 0.8;
static const double removal_error_medium = 0.25;
static const double removal_error_close = 0.06;

typedef struct evaluated_pair {
    uint32_t axial;
    uint32_t radial;
    bite_point point;
} evaluated_pair;

typedef struct pair_search {
    const bite_search *search;
    bite_pass_counts *counts;
    bite_pass_numbers axial;
    bite_pass_numbers radial;
    uint32_t count;
    uint32_t best;
    uint32_t close_looks;
    uint32_t infeasible_count;
    bite_pass_pair
        infeasible[INFEASIBLE_MAX]; /* with these numbers or fewer, limits are far exceeded */
    evaluated_pair pairs[PAIRS_MAX];
} pair_search;

/* ---- one pair ---- */

static void update_best(bite_point *best, bite_point point)
{
    if (bite_speed_feed_better(&point, best)) {
        *best = point;
    }
}

static int best_holds(const pair_search *state)
{
    return state->count > 0 && state->pairs[state->best].point.worst <= 1.0;
}

/* Whether a closer search could overturn the coarse result: that a limit is exceeded, or that less
 * is removed than by the best pair. */
static int is_uncertain(const pair_search *state, const bite_point *point)
{
    if (point->worst > 1.0) {
        return point->worst <= out_of_reach;
    }
    return state->search->goal == BITE_GOAL_FAST &&
           !(best_holds(state) &&
             point->goal > state->pairs[state->best].point.goal + removal_error_coarse);
}

static bite_point search_near_speed(const bite_search *search, double spindle)
{
    bite_search near = *search;
    near.spindle[0] = fmax(search->spindle[0], spindle / speed_cell);
    near.spindle[1] = fmin(search->spindle[1], spindle * speed_cell);
    return bite_speed_feed_find(&near, BITE_SEARCH_MEDIUM);
}

/* A coarse search, and closer ones if it is inconclusive. Settings that are only just within the
 * limits feed very slowly, so the full search is skipped when the goal is removal rate. */
static bite_point evaluate(pair_search *state)
{
    const bite_search *search = state->search;
    bite_point point = bite_speed_feed_find(search, BITE_SEARCH_COARSE);
    if (!is_uncertain(state, &point) || state->close_looks++ >= CLOSE_LOOKS_MAX) {
        return point;
    }
    update_best(&point, bite_speed_feed_find(search, BITE_SEARCH_MEDIUM));
    if (point.worst > 1.0 && point.worst <= out_of_reach_medium) {
        update_best(&point, search_near_speed(search, point.spindle));
    }
    if (point.worst > 1.0 && point.worst <= out_of_reach_close && search->goal != BITE_GOAL_FAST) {
        update_best(&point, bite_speed_feed_find(search, BITE_SEARCH_FULL));
    }
    return point;
}

static void evaluate_pair(pair_search *state, uint32_t axial, uint32_t radial)
{
    evaluated_pair *pair = &state->pairs[state->count];
    bite_pass_counts_set(state->counts, axial, radial);
    pair->axial = axial;
    pair->radial = radial;
    pair->point = evaluate(state);
    if (bite_speed_feed_better(&pair->point, &state->pairs[state->best].point)) {
        state->best = state->count;
    }
    state->count++;
}

static uint64_t best_total(const pair_search *state)
{
    return bite_pass_counts_total(state->pairs[state->best].axial,
                                  state->pairs[state->best].radial);
}

/* ---- when to stop ---- */

/* No pair with this many passes or more can be better than the best so far. */
static int cannot_improve(const pair_search *state, uint64_t passes)
{
    if (!best_holds(state)) {
        return 0;
    }
    if (state->search->goal != BITE_GOAL_FAST) {
        return passes > best_total(state);
    }
    return passes > PASSES_FACTOR_MAX * best_total(state) ||
           log(bite_pass_counts_most_removal(state->search, state->counts, passes)) <=
               -state->pairs[state->best].point.goal;
}

/* ---- pairs that are far over their limits ---- */

/* Limits that depend on sizes alone, and may not depend on any setting that is chosen. */
static int is_size_limit(uint32_t limit)
{
    return limit == BITE_LIMIT_CORNER || limit == BITE_LIMIT_REACH || limit == BITE_LIMIT_GAP;
}

/* The worst limit at the point is such a limit and does not change with depth and width: then no
 * other pair is any better. */
static int is_fixed_by_size(const pair_search *state, const bite_point *point)
{
    bite_checked_cut here = *state->counts->checked;
    double values[BITE_VALUE_COUNT];
    bite_limit limits[BITE_LIMIT_COUNT];
    if (point->worst <= 1.0 || !is_size_limit(point->limit)) {
        return 0;
    }
    here.full.spindle_speed = point->spindle;
    here.full.feed_rate = point->feed;
    bite_checked_cut_evaluate(&here, state->search->spaces, values, limits);
    double utilization = limits[point->limit].utilization;
    here.full.depth *= 0.9;
    here.full.width *= 0.9;
    bite_checked_cut_evaluate(&here, state->search->spaces, values, limits);
    return !(fabs(utilization - limits[point->limit].utilization) > 0.0);
}

static evaluated_pair evaluate_coarsely(const pair_search *state, uint32_t axial, uint32_t radial)
{
    bite_pass_counts_set(state->counts, axial, radial);
    evaluated_pair pair = {axial, radial, bite_speed_feed_find(state->search, BITE_SEARCH_COARSE)};
    return pair;
}

/* Replaces the pair by the better of two: half as many axial, or half as many radial passes more.
 * 0: neither is possible. */
static int next_pair(const pair_search *state, evaluated_pair *pair)
{
    const bite_pass_counts *counts = state->counts;
    uint32_t axial = pair->axial + 1 + pair->axial / 2;
    uint32_t radial = pair->radial + 1 + pair->radial / 2;
    int deeper = bite_pass_number_is_sensible(counts->depth, "depth", axial, state->axial.value[0]);
    int wider =
        bite_pass_number_is_sensible(counts->width, "width", radial, state->radial.value[0]);
    if (!deeper && !wider) {
        return 0;
    }
    evaluated_pair first = deeper ? evaluate_coarsely(state, axial, pair->radial) : *pair;
    evaluated_pair second = wider ? evaluate_coarsely(state, pair->axial, radial) : *pair;
    *pair =
        !deeper || (wider && bite_speed_feed_better(&second.point, &first.point)) ? second : first;
    return 1;
}

static void find_infeasible(pair_search *state)
{
    evaluated_pair pair = evaluate_coarsely(state, state->axial.value[0], state->radial.value[0]);
    state->infeasible_count = 0;
    while (pair.point.worst > out_of_reach && state->infeasible_count < INFEASIBLE_MAX &&
           !is_fixed_by_size(state, &pair.point)) {
        bite_pass_pair met = {pair.axial, pair.radial};
        state->infeasible[state->infeasible_count++] = met;
        if (!next_pair(state, &pair)) {
            return;
        }
    }
}

/* Whether a pair has deeper and wider passes than one that is far over its limits. */
static int is_infeasible(const pair_search *state, uint32_t axial, uint32_t radial)
{
    for (uint32_t i = 0; i < state->infeasible_count; i++) {
        if (axial <= state->infeasible[i].axial && radial <= state->infeasible[i].radial) {
            return 1;
        }
    }
    return 0;
}

/* ---- in order of the product ---- */

/* If every pair is far over its limits, evaluates the infeasible pairs that were found: one of them
 * is the least bad. */
static void evaluate_infeasible(pair_search *state)
{
    for (uint32_t i = 0; i < state->infeasible_count; i++) {
        evaluate_pair(state, state->infeasible[i].axial, state->infeasible[i].radial);
    }
}

/* next[i]: for the i-th radial number, the next axial number to evaluate. The smallest product of
 * all comes first. */
static void evaluate_in_order(pair_search *state)
{
    uint32_t next[BITE_PASS_NUMBERS_MAX] = {0};
    while (state->count < PAIRS_IN_ORDER_MAX) {
        uint64_t least = UINT64_MAX;
        uint32_t at = 0;
        for (uint32_t i = 0; i < state->radial.count; i++) {
            uint64_t product =
                next[i] < state->axial.count
                    ? bite_pass_counts_total(state->axial.value[next[i]], state->radial.value[i])
                    : UINT64_MAX;
            at = product < least ? i : at;
            least = product < least ? product : least;
        }
        if (least == UINT64_MAX || cannot_improve(state, least)) {
            return;
        }
        uint32_t axial = state->axial.value[next[at]++];
        if (!is_infeasible(state, axial, state->radial.value[at])) {
            evaluate_pair(state, axial, state->radial.value[at]);
            if (is_fixed_by_size(state, &state->pairs[state->count - 1].point)) {
                return;
            }
        }
    }
}

/* ---- pairs that the order left out ---- */

static int was_left_out(const pair_search *state, const bite_pass_pair *pair)
{
    return !(bite_pass_numbers_contain(&state->axial, pair->axial) &&
             bite_pass_numbers_contain(&state->radial, pair->radial)) &&
           !is_infeasible(state, pair->axial, pair->radial);
}

/* All pairs with that product that the order left out. 0: the list of pairs is full. */
static int evaluate_product(pair_search *state, uint64_t product)
{
    bite_pass_pair pairs[BITE_PASS_PAIRS_MAX];
    uint32_t count = bite_pass_counts_pairs(state->counts, product, pairs);
    for (uint32_t i = 0; i < count; i++) {
        if (was_left_out(state, &pairs[i])) {
            if (state->count == PAIRS_MAX) {
                return 0;
            }
            evaluate_pair(state, pairs[i].axial, pairs[i].radial);
        }
    }
    return 1;
}

/* ---- choosing the pair ---- */

/* Whether a pair is within the limits and has as many passes in total as the best pair; for the
 * goal of removal rate, whether it removes nearly as much. */
static int is_rival(const pair_search *state, const evaluated_pair *pair, double within)
{
    const bite_point *best = &state->pairs[state->best].point;
    if (pair->point.worst > 1.0) {
        return 0;
    }
    return state->search->goal == BITE_GOAL_FAST
               ? pair->point.goal - best->goal < within
               : bite_pass_counts_total(pair->axial, pair->radial) == best_total(state);
}

/* The best rival that was not compared yet; the number of pairs if there is none. */
static uint32_t next_rival(const pair_search *state, const int *done, double within)
{
    uint32_t at = state->count;
    for (uint32_t i = 0; i < state->count; i++) {
        if (!done[i] && is_rival(state, &state->pairs[i], within) &&
            (at == state->count ||
             bite_speed_feed_better(&state->pairs[i].point, &state->pairs[at].point))) {
            at = i;
        }
    }
    return at;
}

/* Searches the best rivals again, more closely. Nothing to do if the best pair is the only one. */
static void compare(pair_search *state, double within, int most,
                    bite_point (*search_speeds)(const bite_search *search, double spindle))
{
    int done[PAIRS_MAX] = {0};
    uint32_t count = 0;
    for (uint32_t i = 0; i < state->count; i++) {
        count += (uint32_t)is_rival(state, &state->pairs[i], within);
    }
    for (int i = 0; i < most && count > 1; i++) {
        uint32_t at = next_rival(state, done, within);
        if (at == state->count) {
            return;
        }
        done[at] = 1;
        bite_pass_counts_set(state->counts, state->pairs[at].axial, state->pairs[at].radial);
        update_best(&state->pairs[at].point,
                    search_speeds(state->search, state->pairs[at].point.spindle));
        state->best =
            bite_speed_feed_better(&state->pairs[at].point, &state->pairs[state->best].point)
                ? at
                : state->best;
    }
}

static bite_point search_all_speeds(const bite_search *search, double spindle)
{
    (void)spindle;
    return bite_speed_feed_find(search, BITE_SEARCH_FULL);
}

static void compare_closely(pair_search *state)
{
    compare(state, removal_error_medium, RIVALS_NEAR_SPEED_MAX, search_near_speed);
    compare(state, removal_error_close, RIVALS_ALL_SPEEDS_MAX, search_all_speeds);
}

/* The index of a pair among those evaluated; their number if it is not among them. */
static uint32_t index_of(const pair_search *state, uint32_t axial, uint32_t radial)
{
    uint32_t at = 0;
    while (at < state->count &&
           !(state->pairs[at].axial == axial && state->pairs[at].radial == radial)) {
        at++;
    }
    return at;
}

/* Searches a pair again near its best speed, whatever the coarse search found. */
static void evaluate_closely(pair_search *state, uint32_t at)
{
    evaluated_pair *pair = &state->pairs[at];
    bite_pass_counts_set(state->counts, pair->axial, pair->radial);
    update_best(&pair->point, search_near_speed(state->search, pair->point.spindle));
    state->best =
        bite_speed_feed_better(&pair->point, &state->pairs[state->best].point) ? at : state->best;
}

/* For the goal of removal rate: moves to a better neighbouring pair as long as there is one. This
 * finds pairs that the order left out, or that the coarse search underrated. */
static void climb(pair_search *state)
{
    static const int steps[][2] = {{1, 0}, {-1, 0}, {0, 1}, {0, -1}, {1, -1}, {-1, 1}};
    const size_t count = sizeof steps / sizeof *steps;
    int done[PAIRS_MAX] = {0};
    for (size_t i = 0; i < count && state->count < PAIRS_MAX; i++) {
        const evaluated_pair at = state->pairs[state->best];
        uint32_t best = state->best;
        uint32_t axial = at.axial + (uint32_t)steps[i][0];
        uint32_t radial = at.radial + (uint32_t)steps[i][1];
        uint32_t index = index_of(state, axial, radial);
        if (!bite_pass_number_is_sensible(state->counts->depth, "depth", axial,
                                          state->axial.value[0]) ||
            !bite_pass_number_is_sensible(state->counts->width, "width", radial,
                                          state->radial.value[0]) ||
            (index < state->count && done[index])) {
            continue;
        }
        if (index == state->count) {
            evaluate_pair(state, axial, radial);
        }
        done[index] = 1;
        evaluate_closely(state, index);
        i = state->best == best ? i : (size_t)-1; /* start again around the new best */
    }
}

/* A pair that the order left out may be within the limits with fewer passes, though no better by
 * the goal. */
static void choose_fewest(pair_search *state)
{
    for (uint32_t i = 0; i < state->count; i++) {
        if (state->pairs[i].point.worst <= 1.0 &&
            bite_pass_counts_total(state->pairs[i].axial, state->pairs[i].radial) <
                best_total(state)) {
            state->best = i;
        }
    }
}

/* Evaluates all pairs with at most as many passes as the best. 1: every pair with fewer passes was
 * evaluated. */
static int evaluate_below(pair_search *state)
{
    uint64_t product = bite_pass_counts_total(state->axial.value[0], state->radial.value[0]);
    for (; product <= best_total(state); product++) {
        if (!evaluate_product(state, product)) {
            return 0;
        }
        choose_fewest(state);
    }
    return 1;
}

static void choose_not_much_worse(pair_search *state)
{
    for (uint32_t i = 0; i < state->best; i++) {
        state->best = state->pairs[i].point.worst <
                              bite_pass_nearly_as_good * state->pairs[state->best].point.worst
                          ? i
                          : state->best;
    }
}

static void state_init(const bite_search *search, bite_pass_counts *counts, pair_search *state)
{
    state->search = search;
    state->counts = counts;
    state->count = state->best = state->close_looks = 0;
    state->pairs[0].point.worst = state->pairs[0].point.goal = INFINITY;
    bite_pass_numbers_list(counts->depth, "depth", bite_pass_counts_fewest_axial(counts),
                           &state->axial);
    bite_pass_numbers_list(counts->width, "width", bite_pass_counts_fewest_radial(counts),
                           &state->radial);
}

bite_pass_counts_found bite_pass_pairs_find(const bite_search *search, bite_pass_counts *counts)
{
    pair_search state;
    bite_pass_counts_found found = {{0.0, 0.0, 0.0, 0.0, 0, 0}, 0, 0};
    state_init(search, counts, &state);
    find_infeasible(&state);
    evaluate_in_order(&state);
    if (state.count == 0) {
        evaluate_infeasible(&state);
    }
    if (!best_holds(&state)) {
        choose_not_much_worse(&state);
    } else if (search->goal == BITE_GOAL_FAST) {
        compare_closely(&state);
        state.close_looks = 0;
        climb(&state);
    } else {
        found.fewest = evaluate_below(&state) && state.close_looks <= CLOSE_LOOKS_MAX;
        compare_closely(&state);
    }
    bite_pass_counts_set(counts, state.pairs[state.best].axial, state.pairs[state.best].radial);
    found.point = state.pairs[state.best].point;
    found.examined = state.count;
    return found;
}

bite_pass_counts_found bite_pass_pairs_quick(const bite_search *search, bite_pass_counts *counts)
{
    pair_search state;
    state_init(search, counts, &state);
    evaluated_pair pair = evaluate_coarsely(&state, state.axial.value[0], state.radial.value[0]);
    evaluated_pair best = pair;
    uint32_t count = 1;
    while (count < COARSE_PAIRS_MAX && !is_fixed_by_size(&state, &pair.point) &&
           (search->goal == BITE_GOAL_FAST || best.point.worst > 1.0) && next_pair(&state, &pair)) {
        int better = bite_speed_feed_better(&pair.point, &best.point);
        if (!better && best.point.worst <= 1.0) {
            break;
        }
        best = better ? pair : best;
        count++;
    }
    bite_pass_counts_set(counts, best.axial, best.radial);
    bite_pass_counts_found found = {best.point, count, 0};
    return found;
}
