/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How many passes: over a feature's depth, and side by side over its width. */
#include "core/search/pass_counts.h"
#include "core/names/registry.h"
#include <math.h>

#define NUMBERS_MOST 48    /* of one direction */
#define PAIRS_IN_ORDER 80  /* looked at in order of their product */
#define PAIRS_MOST 128     /* with those that were left out of the order */
#define PASSES_SENSIBLE 24 /* over a depth alone: nobody wants to wait for more */
#define PASSES_FARTHER 3   /* times the best's passes: so many would have to be fed so much faster \
                            */
#define CLOSER_MOST 24     /* of which so many are looked at closer */
#define RIVALS_MOST 6      /* looked at about their best speed */
#define RIVALS_CLOSE 2     /* of which looked at whole */
#define GLANCES_MOST 14    /* steps of half as much again */
#define WALLS_MOST 24
#define DIVISORS_MOST 128

/* Where none holds: what comes this near to the least bad is as good. */
static const double not_much_worse = 1.15;

/* A coarse grid misses the best use by up to a half of its cells, a factor of about 1.3 in the feed
 * and 1.2 in the speed; uses go with up to the square of the feed. What is farther off cannot hold.
 * A fair look is at half a cell of speed alone; the same about its best speed at half of a finer
 * one. */
static const double far_off = 2.5;
static const double far_off_fair = 1.3;
static const double far_off_near = 1.08;
static const double about = 1.5; /* a cell of speed, a factor */

/* How far a coarse and a fair look fall short of the most removal, in its logarithm: a cell of the
 * feed and half a one of speed; the half alone; half a finer one. */
static const double far_off_removal = 0.8;
static const double near_removal = 0.25;
static const double close_removal = 0.06;

typedef struct number_list {
    uint32_t count;
    uint32_t value[NUMBERS_MOST];
} number_list;

typedef struct seen {
    uint32_t axial;
    uint32_t radial;
    bite_point point;
} seen;

typedef struct parts {
    uint32_t axial;
    uint32_t radial;
} parts;

typedef struct pass_count_search {
    const bite_search *search;
    bite_pass_counts *counts;
    number_list axial;
    number_list radial;
    uint32_t count;
    uint32_t best;
    uint32_t closer;
    uint32_t wall_count;
    parts walls[WALLS_MOST]; /* under whose numbers nothing holds by far */
    seen pairs[PAIRS_MOST];
} pass_count_search;

void bite_pass_counts_set(bite_pass_counts *counts, uint32_t axial, uint32_t radial)
{
    counts->axial = axial;
    counts->radial = radial;
    if (!isnan(counts->depth)) {
        counts->checked->requested.depth = counts->checked->full.depth = counts->depth / axial;
    }
    if (!isnan(counts->width)) {
        counts->checked->requested.width = counts->checked->full.width = counts->width / radial;
    }
}

/* ---- which numbers there are ---- */

static uint32_t fewest_of(double whole, double most)
{
    return (uint32_t)fmax(1.0, ceil(whole / most - 1e-9));
}

/* Reach takes the first, the tool's diameter the second. */
static uint32_t fewest_down(const bite_pass_counts *counts)
{
    return isnan(counts->depth) ? counts->axial
                                : fewest_of(counts->depth, fmin(counts->checked->full.flute_length,
                                                                counts->checked->full.stickout));
}

static uint32_t fewest_side(const bite_pass_counts *counts)
{
    return isnan(counts->width) ? counts->radial
                                : fewest_of(counts->width, counts->checked->full.diameter);
}

/* Passes thinner than what may be typed are none; the fewest are looked at whatever they come to.
 */
static int sensible(double whole, const char *input, uint32_t number, uint32_t fewest)
{
    return number == fewest ||
           (!isnan(whole) && number > fewest && whole / number > bite_input_find(input)->least);
}

int bite_pass_counts_sensible(const bite_pass_counts *counts, uint32_t axial, uint32_t radial)
{
    int down_is = isnan(counts->depth)
                      ? axial == counts->axial
                      : sensible(counts->depth, "depth", axial, fewest_down(counts));
    int side_is = isnan(counts->width)
                      ? radial == counts->radial
                      : sensible(counts->width, "width", radial, fewest_side(counts));
    return down_is && side_is;
}

/* Each takes its share of the cross-section, at the fastest feed there is. */
double bite_pass_counts_most_removal(const bite_search *search, const bite_pass_counts *counts,
                                     uint64_t passes)
{
    const bite_cut *full = &counts->checked->full;
    double depth = isnan(counts->depth) ? full->depth * counts->axial : counts->depth;
    double width =
        isnan(counts->width) ? fmin(full->width, full->diameter) * counts->radial : counts->width;
    double feed = fmin(search->tooth[1] * search->spindle[1] * full->flutes,
                       full->feed_fastest); /* fmin passes over NaN */
    return depth * width * (isnan(search->feed) ? feed : search->feed) / (double)passes;
}

static void list_numbers(double whole, const char *input, uint32_t fewest, number_list *to)
{
    to->count = 0;
    for (uint32_t next = fewest; to->count < NUMBERS_MOST && sensible(whole, input, next, fewest);
         next += 1 + next / 8) {
        to->value[to->count++] = next;
    }
}

static int listed(const number_list *in, uint32_t number)
{
    for (uint32_t i = 0; i < in->count; i++) {
        if (in->value[i] == number) {
            return 1;
        }
    }
    return 0;
}

static uint64_t in_all(uint32_t axial, uint32_t radial)
{
    return (uint64_t)axial * radial;
}

/* All pairs of so many passes, by whichever number has fewer to try. Returns how many. */
static uint32_t pairs_of(const bite_pass_counts *counts, uint64_t product, parts *to)
{
    uint32_t first[2] = {fewest_down(counts), fewest_side(counts)};
    int by = product / first[1] < product / first[0]
                 ? 0
                 : 1; /* down from its first to product/first[1], or across */
    uint32_t count = 0;
    for (uint64_t one = first[by]; one <= product / first[1 - by] && count < DIVISORS_MOST; one++) {
        if (product % one == 0) {
            uint32_t other = (uint32_t)(product / one);
            parts pair = {by == 0 ? (uint32_t)one : other, by == 0 ? other : (uint32_t)one};
            if (sensible(counts->depth, "depth", pair.axial, first[0]) &&
                sensible(counts->width, "width", pair.radial, first[1])) {
                to[count++] = pair;
            }
        }
    }
    return count;
}

/* ---- looking at one pair ---- */

static void keep_better(bite_point *best, bite_point point)
{
    if (bite_speed_feed_better(&point, best)) {
        *best = point;
    }
}

static int best_holds(const pass_count_search *state)
{
    return state->count > 0 && state->pairs[state->best].point.worst <= 1.0;
}

/* Whether a closer look can change what a coarse one says: that nothing holds, or that less is
 * removed than by the best. */
static int unsure(const pass_count_search *state, const bite_point *point)
{
    if (point->worst > 1.0) {
        return point->worst <= far_off;
    }
    return state->search->goal == BITE_GOAL_FAST &&
           !(best_holds(state) &&
             point->goal > state->pairs[state->best].point.goal + far_off_removal);
}

static bite_point look_about(const bite_search *search, double spindle)
{
    bite_search near = *search;
    near.spindle[0] = fmax(search->spindle[0], spindle / about);
    near.spindle[1] = fmin(search->spindle[1], spindle * about);
    return bite_speed_feed_find(&near, BITE_SEARCH_MEDIUM);
}

/* Coarsely; closer where that cannot tell. What only just holds hardly feeds: for the most removal
 * it is not looked for with all care. */
static bite_point look_at(pass_count_search *state)
{
    const bite_search *search = state->search;
    bite_point point = bite_speed_feed_find(search, BITE_SEARCH_COARSE);
    if (!unsure(state, &point) || state->closer++ >= CLOSER_MOST) {
        return point;
    }
    keep_better(&point, bite_speed_feed_find(search, BITE_SEARCH_MEDIUM));
    if (point.worst > 1.0 && point.worst <= far_off_fair) {
        keep_better(&point, look_about(search, point.spindle));
    }
    if (point.worst > 1.0 && point.worst <= far_off_near && search->goal != BITE_GOAL_FAST) {
        keep_better(&point, bite_speed_feed_find(search, BITE_SEARCH_FULL));
    }
    return point;
}

static void look_at_pair(pass_count_search *state, uint32_t axial, uint32_t radial)
{
    seen *pair = &state->pairs[state->count];
    bite_pass_counts_set(state->counts, axial, radial);
    pair->axial = axial;
    pair->radial = radial;
    pair->point = look_at(state);
    if (bite_speed_feed_better(&pair->point, &state->pairs[state->best].point)) {
        state->best = state->count;
    }
    state->count++;
}

static uint64_t best_in_all(const pass_count_search *state)
{
    return in_all(state->pairs[state->best].axial, state->pairs[state->best].radial);
}

/* ---- when to stop ---- */

/* So many passes and more cannot be better than the best so far. */
static int none_better(const pass_count_search *state, uint64_t passes)
{
    if (!best_holds(state)) {
        return 0;
    }
    if (state->search->goal != BITE_GOAL_FAST) {
        return passes > best_in_all(state);
    }
    return passes > PASSES_FARTHER * best_in_all(state) ||
           log(bite_pass_counts_most_removal(state->search, state->counts, passes)) <=
               -state->pairs[state->best].point.goal;
}

/* ---- a walk to where it begins to hold ---- */

/* Limits by sizes, which may hang on nothing that is chosen. */
static int by_size(uint32_t limit)
{
    return limit == BITE_LIMIT_CORNER || limit == BITE_LIMIT_REACH || limit == BITE_LIMIT_GAP;
}

/* The limit that stands in the way of the pair just seen is of that kind: it is the same at another
 * depth and width. Then no other pair is less bad. */
static int nothing_helps(const pass_count_search *state, const bite_point *point)
{
    bite_checked_cut here = *state->counts->checked;
    bite_evaluation_options options = bite_evaluation_options_in(state->search->spaces);
    bite_segment straight;
    bite_limit limits[BITE_LIMIT_COUNT];
    if (point->worst <= 1.0 || !by_size(point->limit)) {
        return 0;
    }
    here.full.spindle_speed = point->spindle;
    here.full.feed_rate = point->feed;
    bite_workspace_init(state->search->spaces);
    bite_checked_cut_evaluate(&here, &options, &straight, limits);
    double utilization = limits[point->limit].utilization;
    here.full.depth *= 0.9;
    here.full.width *= 0.9;
    bite_checked_cut_evaluate(&here, &options, &straight, limits);
    return !(fabs(utilization - limits[point->limit].utilization) > 0.0);
}

static seen glance(const pass_count_search *state, uint32_t axial, uint32_t radial)
{
    bite_pass_counts_set(state->counts, axial, radial);
    seen pair = {axial, radial, bite_speed_feed_find(state->search, BITE_SEARCH_COARSE)};
    return pair;
}

/* The better of half as many again down and across; 0: there is neither. */
static int step(const pass_count_search *state, seen *pair)
{
    const bite_pass_counts *counts = state->counts;
    uint32_t axial = pair->axial + 1 + pair->axial / 2;
    uint32_t radial = pair->radial + 1 + pair->radial / 2;
    int deeper = sensible(counts->depth, "depth", axial, state->axial.value[0]);
    int wider = sensible(counts->width, "width", radial, state->radial.value[0]);
    if (!deeper && !wider) {
        return 0;
    }
    seen first = deeper ? glance(state, axial, pair->radial) : *pair;
    seen second = wider ? glance(state, pair->axial, radial) : *pair;
    *pair =
        !deeper || (wider && bite_speed_feed_better(&second.point, &first.point)) ? second : first;
    return 1;
}

static void find_walls(pass_count_search *state)
{
    seen pair = glance(state, state->axial.value[0], state->radial.value[0]);
    state->wall_count = 0;
    while (pair.point.worst > far_off && state->wall_count < WALLS_MOST &&
           !nothing_helps(state, &pair.point)) {
        parts met = {pair.axial, pair.radial};
        state->walls[state->wall_count++] = met;
        if (!step(state, &pair)) {
            return;
        }
    }
}

/* Heavier both ways than what does not hold by far. */
static int behind_wall(const pass_count_search *state, uint32_t axial, uint32_t radial)
{
    for (uint32_t i = 0; i < state->wall_count; i++) {
        if (axial <= state->walls[i].axial && radial <= state->walls[i].radial) {
            return 1;
        }
    }
    return 0;
}

/* ---- in order ---- */

/* Where all there is lies behind walls, the walls themselves: one of them is the least bad. */
static void look_at_walls(pass_count_search *state)
{
    for (uint32_t i = 0; i < state->wall_count; i++) {
        look_at_pair(state, state->walls[i].axial, state->walls[i].radial);
    }
}

/* For each number side by side stands the next one down that was not looked at: the least product
 * of all is next. */
static void look_in_order(pass_count_search *state)
{
    uint32_t next[NUMBERS_MOST] = {0};
    while (state->count < PAIRS_IN_ORDER) {
        uint64_t least = UINT64_MAX;
        uint32_t at = 0;
        for (uint32_t i = 0; i < state->radial.count; i++) {
            uint64_t product = next[i] < state->axial.count
                                   ? in_all(state->axial.value[next[i]], state->radial.value[i])
                                   : UINT64_MAX;
            at = product < least ? i : at;
            least = product < least ? product : least;
        }
        if (least == UINT64_MAX || none_better(state, least)) {
            return;
        }
        uint32_t axial = state->axial.value[next[at]++];
        if (!behind_wall(state, axial, state->radial.value[at])) {
            look_at_pair(state, axial, state->radial.value[at]);
            if (nothing_helps(state, &state->pairs[state->count - 1].point)) {
                return;
            }
        }
    }
}

/* ---- what the order left out ---- */

static int left_out(const pass_count_search *state, const parts *pair)
{
    return !(listed(&state->axial, pair->axial) && listed(&state->radial, pair->radial)) &&
           !behind_wall(state, pair->axial, pair->radial);
}

/* All pairs of so many passes that the order left out. 0: there was no room to look at all. */
static int look_at_product(pass_count_search *state, uint64_t product)
{
    parts pairs[DIVISORS_MOST];
    uint32_t count = pairs_of(state->counts, product, pairs);
    for (uint32_t i = 0; i < count; i++) {
        if (left_out(state, &pairs[i])) {
            if (state->count == PAIRS_MOST) {
                return 0;
            }
            look_at_pair(state, pairs[i].axial, pairs[i].radial);
        }
    }
    return 1;
}

/* ---- the pair that is taken ---- */

/* As many passes in all as the best has; for the most removal, nearly as much removed. */
static int rivals(const pass_count_search *state, const seen *pair, double within)
{
    const bite_point *best = &state->pairs[state->best].point;
    if (pair->point.worst > 1.0) {
        return 0;
    }
    return state->search->goal == BITE_GOAL_FAST
               ? pair->point.goal - best->goal < within
               : in_all(pair->axial, pair->radial) == best_in_all(state);
}

/* The nearest rival that was not looked at so closely; the number of pairs: there is none. */
static uint32_t next_rival(const pass_count_search *state, const int *close, double within)
{
    uint32_t at = state->count;
    for (uint32_t i = 0; i < state->count; i++) {
        if (!close[i] && rivals(state, &state->pairs[i], within) &&
            (at == state->count ||
             bite_speed_feed_better(&state->pairs[i].point, &state->pairs[at].point))) {
            at = i;
        }
    }
    return at;
}

/* The best alone has no rival: there is nothing to compare. */
static void compare(pass_count_search *state, double within, int most,
                    bite_point (*look)(const bite_search *search, double spindle))
{
    int close[PAIRS_MOST] = {0};
    uint32_t count = 0;
    for (uint32_t i = 0; i < state->count; i++) {
        count += (uint32_t)rivals(state, &state->pairs[i], within);
    }
    for (int i = 0; i < most && count > 1; i++) {
        uint32_t at = next_rival(state, close, within);
        if (at == state->count) {
            return;
        }
        close[at] = 1;
        bite_pass_counts_set(state->counts, state->pairs[at].axial, state->pairs[at].radial);
        keep_better(&state->pairs[at].point, look(state->search, state->pairs[at].point.spindle));
        state->best =
            bite_speed_feed_better(&state->pairs[at].point, &state->pairs[state->best].point)
                ? at
                : state->best;
    }
}

static bite_point look_whole(const bite_search *search, double spindle)
{
    (void)spindle;
    return bite_speed_feed_find(search, BITE_SEARCH_FULL);
}

static void compare_closely(pass_count_search *state)
{
    compare(state, near_removal, RIVALS_MOST, look_about);
    compare(state, close_removal, RIVALS_CLOSE, look_whole);
}

/* Where a pair stands among those that were looked at; their number: nowhere. */
static uint32_t place_of(const pass_count_search *state, uint32_t axial, uint32_t radial)
{
    uint32_t at = 0;
    while (at < state->count &&
           !(state->pairs[at].axial == axial && state->pairs[at].radial == radial)) {
        at++;
    }
    return at;
}

/* A pair looked at about its best speed, whatever a coarse look said of it. */
static void look_closely(pass_count_search *state, uint32_t at)
{
    seen *pair = &state->pairs[at];
    bite_pass_counts_set(state->counts, pair->axial, pair->radial);
    keep_better(&pair->point, look_about(state->search, pair->point.spindle));
    state->best =
        bite_speed_feed_better(&pair->point, &state->pairs[state->best].point) ? at : state->best;
}

/* For the most removal on to the better neighbour as long as there is one: what the order left out
 * beside the best, and what a coarse look made less of than it is. */
static void climb(pass_count_search *state)
{
    static const int beside[][2] = {{1, 0}, {-1, 0}, {0, 1}, {0, -1}, {1, -1}, {-1, 1}};
    const size_t count = sizeof beside / sizeof *beside;
    int close[PAIRS_MOST] = {0};
    for (size_t i = 0; i < count && state->count < PAIRS_MOST; i++) {
        const seen at = state->pairs[state->best];
        uint32_t best = state->best;
        uint32_t axial = at.axial + (uint32_t)beside[i][0];
        uint32_t radial = at.radial + (uint32_t)beside[i][1];
        uint32_t place = place_of(state, axial, radial);
        if (!sensible(state->counts->depth, "depth", axial, state->axial.value[0]) ||
            !sensible(state->counts->width, "width", radial, state->radial.value[0]) ||
            (place < state->count && close[place])) {
            continue;
        }
        if (place == state->count) {
            look_at_pair(state, axial, radial);
        }
        close[place] = 1;
        look_closely(state, place);
        i = state->best == best ? i : (size_t)-1; /* about the new one */
    }
}

/* One that was left out may hold with fewer passes and be no better by the goal. */
static void take_fewest(pass_count_search *state)
{
    for (uint32_t i = 0; i < state->count; i++) {
        if (state->pairs[i].point.worst <= 1.0 &&
            in_all(state->pairs[i].axial, state->pairs[i].radial) < best_in_all(state)) {
            state->best = i;
        }
    }
}

/* Fewer passes than the best has, and as many. 1: every pair with fewer was looked at. */
static int look_below(pass_count_search *state)
{
    uint64_t product = in_all(state->axial.value[0], state->radial.value[0]);
    for (; product <= best_in_all(state); product++) {
        if (!look_at_product(state, product)) {
            return 0;
        }
        take_fewest(state);
    }
    return 1;
}

static void take_not_much_worse(pass_count_search *state)
{
    for (uint32_t i = 0; i < state->best; i++) {
        state->best =
            state->pairs[i].point.worst < not_much_worse * state->pairs[state->best].point.worst
                ? i
                : state->best;
    }
}

static void begin(const bite_search *search, bite_pass_counts *counts, pass_count_search *state)
{
    state->search = search;
    state->counts = counts;
    state->count = state->best = state->closer = 0;
    state->pairs[0].point.worst = state->pairs[0].point.goal = INFINITY;
    list_numbers(counts->depth, "depth", fewest_down(counts), &state->axial);
    list_numbers(counts->width, "width", fewest_side(counts), &state->radial);
}

static bite_pass_counts_found find_pairs(const bite_search *search, bite_pass_counts *counts)
{
    pass_count_search state;
    bite_pass_counts_found found = {{0.0, 0.0, 0.0, 0.0, 0, 0}, 0, 0};
    begin(search, counts, &state);
    find_walls(&state);
    look_in_order(&state);
    if (state.count == 0) {
        look_at_walls(&state);
    }
    if (!best_holds(&state)) {
        take_not_much_worse(&state);
    } else if (search->goal == BITE_GOAL_FAST) {
        compare_closely(&state);
        state.closer = 0;
        climb(&state);
    } else {
        found.fewest = look_below(&state) && state.closer <= CLOSER_MOST;
        compare_closely(&state);
    }
    bite_pass_counts_set(counts, state.pairs[state.best].axial, state.pairs[state.best].radial);
    found.point = state.pairs[state.best].point;
    found.examined = state.count;
    return found;
}

/* Over the depth alone. */
static bite_pass_counts_found find_down(const bite_search *search, bite_pass_counts *counts)
{
    number_list down;
    bite_point points[NUMBERS_MOST];
    uint32_t count = 0;
    uint32_t best = 0;
    list_numbers(counts->depth, "depth", fewest_down(counts), &down);
    while (count < down.count) {
        bite_pass_counts_set(counts, down.value[count], counts->radial);
        points[count] = bite_speed_feed_find(search, BITE_SEARCH_COARSE);
        best = bite_speed_feed_better(&points[count], &points[best]) ? count : best;
        count++;
        if (points[best].worst <= 1.0 ? search->goal != BITE_GOAL_FAST || count > best + 6
                                      : down.value[count - 1] > PASSES_SENSIBLE) {
            break;
        }
    }
    for (uint32_t i = 0; i < best && points[best].worst > 1.0; i++) {
        best = points[i].worst < not_much_worse * points[best].worst ? i : best;
    }
    bite_pass_counts_set(counts, down.value[best], counts->radial);
    bite_pass_counts_found found = {points[best], count, 0};
    return found;
}

bite_pass_counts_found bite_pass_counts_find(const bite_search *search, bite_pass_counts *counts)
{
    if (!isnan(counts->width)) {
        return find_pairs(search, counts);
    }
    if (!isnan(counts->depth)) {
        return find_down(search, counts);
    }
    bite_pass_counts_found found = {bite_speed_feed_find(search, BITE_SEARCH_COARSE), 1, 0};
    return found;
}

/* Walks on while the pair is better than the best: until it holds, for the most removal until more
 * passes remove less. */
static bite_pass_counts_found glance_pairs(const bite_search *search, bite_pass_counts *counts)
{
    pass_count_search state;
    begin(search, counts, &state);
    seen pair = glance(&state, state.axial.value[0], state.radial.value[0]);
    seen best = pair;
    uint32_t count = 1;
    while (count < GLANCES_MOST && !nothing_helps(&state, &pair.point) &&
           (search->goal == BITE_GOAL_FAST || best.point.worst > 1.0) && step(&state, &pair)) {
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

bite_pass_counts_found bite_pass_counts_quick(const bite_search *search, bite_pass_counts *counts)
{
    return isnan(counts->width) ? bite_pass_counts_find(search, counts)
                                : glance_pairs(search, counts);
}

bite_pass_counts_found bite_pass_counts_close_in(const bite_search *search,
                                                 bite_pass_counts *counts)
{
    if (!isnan(counts->width) || isnan(counts->depth)) {
        return bite_pass_counts_quick(search, counts);
    }
    uint32_t fails = fewest_down(counts) - 1;
    bite_pass_counts_found found = glance_pairs(search, counts);
    uint32_t holds = counts->axial;
    while (search->goal != BITE_GOAL_FAST && found.point.worst <= 1.0 && holds - fails > 1) {
        uint32_t middle = fails + (holds - fails) / 2;
        bite_pass_counts_set(counts, middle, counts->radial);
        bite_point point = bite_speed_feed_find(search, BITE_SEARCH_COARSE);
        found.examined++;
        if (point.worst <= 1.0) {
            holds = middle;
            found.point = point;
        } else {
            fails = middle;
        }
    }
    bite_pass_counts_set(counts, holds, counts->radial);
    return found;
}

/* ---- more of them ---- */

/* Of the pairs with so many passes the one that uses least, by a coarse look. */
static void gentlest(const bite_search *search, bite_pass_counts *counts, uint64_t product,
                     bite_pass_counts *to, double *least)
{
    parts pairs[DIVISORS_MOST];
    uint32_t count = pairs_of(counts, product, pairs);
    for (uint32_t i = 0; i < count; i++) {
        bite_pass_counts_set(counts, pairs[i].axial, pairs[i].radial);
        double worst = bite_speed_feed_find(search, BITE_SEARCH_COARSE).worst;
        if (worst < *least) {
            *least = worst;
            to->axial = pairs[i].axial;
            to->radial = pairs[i].radial;
        }
    }
}

int bite_pass_counts_more(const bite_search *search, bite_pass_counts *counts)
{
    if (isnan(counts->width)) {
        uint32_t more = counts->axial + 1 + counts->axial / 4;
        if (!sensible(counts->depth, "depth", more, 1)) {
            return 0;
        }
        bite_pass_counts_set(counts, more, counts->radial);
        return 1;
    }
    bite_search gentle = *search;
    bite_pass_counts to = *counts;
    uint64_t now = in_all(counts->axial, counts->radial);
    double least = INFINITY;
    gentle.goal = BITE_GOAL_GENTLE;
    for (uint64_t product = now + 1; product <= now + 1 + now / 4; product++) {
        gentlest(&gentle, counts, product, &to, &least);
    }
    bite_pass_counts_set(counts, to.axial, to.radial);
    return least < INFINITY;
}
