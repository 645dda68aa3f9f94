/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How many passes: over a feature's depth, and side by side over its width. */
#include "core/search/pass_counts.h"
#include "core/names/registry.h"
#include <math.h>

#define NUMBERS_MOST 48    /* of one direction */
#define PAIRS_IN_ORDER 80  /* looked at in order of their product */
#define PAIRS_MOST 128     /* with those that were left out of the order */
#define PASSES_SENSIBLE 24 /* over a depth alone: nobody wants to wait for more */
#define PASSES_FARTHER 3   /* times the best's passes: so many would have to be fed so much faster */
#define CLOSER_MOST 24     /* of which so many are looked at closer */
#define RIVALS_MOST 6      /* looked at about their best speed */
#define RIVALS_CLOSE 2     /* of which looked at whole */
#define GLANCES_MOST 14    /* steps of half as much again */
#define WALLS_MOST 24
#define DIVISORS_MOST 128

/* Where none holds: what comes this near to the least bad is as good. */
static const double not_much_worse = 1.15;

/* A coarse grid misses the best use by up to a half of its cells, a factor of about 1.3 in the feed and 1.2 in the speed; uses go
 * with up to the square of the feed. What is farther off cannot hold. A fair look is at half a cell of speed alone; the same about
 * its best speed at half of a finer one. */
static const double far_off = 2.5;
static const double far_off_fair = 1.3;
static const double far_off_near = 1.08;
static const double about = 1.5; /* a cell of speed, a factor */

/* How far a coarse and a fair look fall short of the most removal, in its logarithm: a cell of the feed and half a one of speed;
 * the half alone; half a finer one. */
static const double far_off_removal = 0.8;
static const double near_removal = 0.25;
static const double close_removal = 0.06;

typedef struct numbers {
    uint32_t count;
    uint32_t of[NUMBERS_MOST];
} numbers;

typedef struct seen {
    uint32_t down;
    uint32_t side;
    bite_point point;
} seen;

typedef struct parts {
    uint32_t down;
    uint32_t side;
} parts;

typedef struct looking {
    const bite_search *search;
    bite_parting *parting;
    numbers down;
    numbers side;
    uint32_t count;
    uint32_t best;
    uint32_t closer;
    uint32_t wall_count;
    parts walls[WALLS_MOST]; /* under whose numbers nothing holds by far */
    seen pairs[PAIRS_MOST];
} looking;

void bite_passes_set(bite_parting *of, uint32_t down, uint32_t side)
{
    of->down = down;
    of->side = side;
    if (!isnan(of->depth)) {
        of->checked->requested.depth = of->checked->full.depth = of->depth / down;
    }
    if (!isnan(of->width)) {
        of->checked->requested.width = of->checked->full.width = of->width / side;
    }
}

/* ---- which numbers there are ---- */

static uint32_t fewest_of(double whole, double most)
{
    return (uint32_t)fmax(1.0, ceil(whole / most - 1e-9));
}

/* Reach takes the first, the tool's diameter the second. */
static uint32_t fewest_down(const bite_parting *of)
{
    return isnan(of->depth) ? of->down : fewest_of(of->depth, fmin(of->checked->full.flute_length, of->checked->full.stickout));
}

static uint32_t fewest_side(const bite_parting *of)
{
    return isnan(of->width) ? of->side : fewest_of(of->width, of->checked->full.diameter);
}

/* Passes thinner than what may be typed are none; the fewest are looked at whatever they come to. */
static int sensible(double whole, const char *input, uint32_t number, uint32_t fewest)
{
    return number == fewest || (!isnan(whole) && number > fewest && whole / number > bite_input_find(input)->least);
}

int bite_passes_sensible(const bite_parting *of, uint32_t down, uint32_t side)
{
    int down_is = isnan(of->depth) ? down == of->down : sensible(of->depth, "depth", down, fewest_down(of));
    int side_is = isnan(of->width) ? side == of->side : sensible(of->width, "width", side, fewest_side(of));
    return down_is && side_is;
}

/* Each takes its share of the cross-section, at the fastest feed there is. */
double bite_passes_most_removal(const bite_search *search, const bite_parting *of, uint64_t passes)
{
    const bite_cut *full = &of->checked->full;
    double depth = isnan(of->depth) ? full->depth * of->down : of->depth;
    double width = isnan(of->width) ? fmin(full->width, full->diameter) * of->side : of->width;
    double feed = fmin(search->tooth[1] * search->spindle[1] * full->flutes, full->feed_fastest); /* fmin passes over NaN */
    return depth * width * (isnan(search->feed) ? feed : search->feed) / (double)passes;
}

static void list_numbers(double whole, const char *input, uint32_t fewest, numbers *to)
{
    to->count = 0;
    for (uint32_t next = fewest; to->count < NUMBERS_MOST && sensible(whole, input, next, fewest); next += 1 + next / 8) {
        to->of[to->count++] = next;
    }
}

static int listed(const numbers *in, uint32_t number)
{
    for (uint32_t i = 0; i < in->count; i++) {
        if (in->of[i] == number) {
            return 1;
        }
    }
    return 0;
}

static uint64_t in_all(uint32_t down, uint32_t side)
{
    return (uint64_t)down * side;
}

/* All pairs of so many passes, by whichever number has fewer to try. Returns how many. */
static uint32_t pairs_of(const bite_parting *of, uint64_t product, parts *to)
{
    uint32_t first[2] = {fewest_down(of), fewest_side(of)};
    int by = product / first[1] < product / first[0] ? 0 : 1; /* down from its first to product/first[1], or across */
    uint32_t count = 0;
    for (uint64_t one = first[by]; one <= product / first[1 - by] && count < DIVISORS_MOST; one++) {
        if (product % one == 0) {
            uint32_t other = (uint32_t)(product / one);
            parts pair = {by == 0 ? (uint32_t)one : other, by == 0 ? other : (uint32_t)one};
            if (sensible(of->depth, "depth", pair.down, first[0]) && sensible(of->width, "width", pair.side, first[1])) {
                to[count++] = pair;
            }
        }
    }
    return count;
}

/* ---- looking at one pair ---- */

static void keep_better(bite_point *best, bite_point point)
{
    if (bite_optimum_better(&point, best)) {
        *best = point;
    }
}

static int best_holds(const looking *of)
{
    return of->count > 0 && of->pairs[of->best].point.worst <= 1.0;
}

/* Whether a closer look can change what a coarse one says: that nothing holds, or that less is removed than by the best. */
static int unsure(const looking *of, const bite_point *point)
{
    if (point->worst > 1.0) {
        return point->worst <= far_off;
    }
    return of->search->goal == BITE_GOAL_FAST &&
           !(best_holds(of) && point->goal > of->pairs[of->best].point.goal + far_off_removal);
}

static bite_point look_about(const bite_search *search, double spindle)
{
    bite_search near = *search;
    near.spindle[0] = fmax(search->spindle[0], spindle / about);
    near.spindle[1] = fmin(search->spindle[1], spindle * about);
    return bite_optimum_find(&near, BITE_LOOK_FAIR);
}

/* Coarsely; closer where that cannot tell. What only just holds hardly feeds: for the most removal it is not looked for with all
 * care. */
static bite_point look_at(looking *of)
{
    const bite_search *search = of->search;
    bite_point point = bite_optimum_find(search, BITE_LOOK_ROUGH);
    if (!unsure(of, &point) || of->closer++ >= CLOSER_MOST) {
        return point;
    }
    keep_better(&point, bite_optimum_find(search, BITE_LOOK_FAIR));
    if (point.worst > 1.0 && point.worst <= far_off_fair) {
        keep_better(&point, look_about(search, point.spindle));
    }
    if (point.worst > 1.0 && point.worst <= far_off_near && search->goal != BITE_GOAL_FAST) {
        keep_better(&point, bite_optimum_find(search, BITE_LOOK_WHOLE));
    }
    return point;
}

static void look_at_pair(looking *of, uint32_t down, uint32_t side)
{
    seen *pair = &of->pairs[of->count];
    bite_passes_set(of->parting, down, side);
    pair->down = down;
    pair->side = side;
    pair->point = look_at(of);
    if (bite_optimum_better(&pair->point, &of->pairs[of->best].point)) {
        of->best = of->count;
    }
    of->count++;
}

static uint64_t best_in_all(const looking *of)
{
    return in_all(of->pairs[of->best].down, of->pairs[of->best].side);
}

/* ---- when to stop ---- */

/* So many passes and more cannot be better than the best so far. */
static int none_better(const looking *of, uint64_t passes)
{
    if (!best_holds(of)) {
        return 0;
    }
    if (of->search->goal != BITE_GOAL_FAST) {
        return passes > best_in_all(of);
    }
    return passes > PASSES_FARTHER * best_in_all(of) ||
           log(bite_passes_most_removal(of->search, of->parting, passes)) <= -of->pairs[of->best].point.goal;
}

/* ---- a walk to where it begins to hold ---- */

/* Limits by sizes, which may hang on nothing that is chosen. */
static int by_size(uint32_t limit)
{
    return limit == BITE_LIMIT_CORNER || limit == BITE_LIMIT_REACH || limit == BITE_LIMIT_GAP;
}

/* The limit that stands in the way of the pair just seen is of that kind: it is the same at another depth and width. Then no other
 * pair is less bad. */
static int nothing_helps(const looking *of, const bite_point *point)
{
    bite_checked_cut here = *of->parting->checked;
    bite_evaluation_options options = bite_evaluation_options_in(of->search->spaces);
    bite_segment straight;
    bite_limit limits[BITE_LIMIT_COUNT];
    if (point->worst <= 1.0 || !by_size(point->limit)) {
        return 0;
    }
    here.full.spindle_speed = point->spindle;
    here.full.feed_rate = point->feed;
    bite_workspace_init(of->search->spaces);
    bite_checked_cut_evaluate(&here, &options, &straight, limits);
    double utilization = limits[point->limit].utilization;
    here.full.depth *= 0.9;
    here.full.width *= 0.9;
    bite_checked_cut_evaluate(&here, &options, &straight, limits);
    return !(fabs(utilization - limits[point->limit].utilization) > 0.0);
}

static seen glance(const looking *of, uint32_t down, uint32_t side)
{
    bite_passes_set(of->parting, down, side);
    seen pair = {down, side, bite_optimum_find(of->search, BITE_LOOK_ROUGH)};
    return pair;
}

/* The better of half as many again down and across; 0: there is neither. */
static int step(const looking *of, seen *pair)
{
    const bite_parting *parting = of->parting;
    uint32_t down = pair->down + 1 + pair->down / 2;
    uint32_t side = pair->side + 1 + pair->side / 2;
    int deeper = sensible(parting->depth, "depth", down, of->down.of[0]);
    int wider = sensible(parting->width, "width", side, of->side.of[0]);
    if (!deeper && !wider) {
        return 0;
    }
    seen first = deeper ? glance(of, down, pair->side) : *pair;
    seen second = wider ? glance(of, pair->down, side) : *pair;
    *pair = !deeper || (wider && bite_optimum_better(&second.point, &first.point)) ? second : first;
    return 1;
}

static void find_walls(looking *of)
{
    seen pair = glance(of, of->down.of[0], of->side.of[0]);
    of->wall_count = 0;
    while (pair.point.worst > far_off && of->wall_count < WALLS_MOST && !nothing_helps(of, &pair.point)) {
        parts met = {pair.down, pair.side};
        of->walls[of->wall_count++] = met;
        if (!step(of, &pair)) {
            return;
        }
    }
}

/* Heavier both ways than what does not hold by far. */
static int behind_wall(const looking *of, uint32_t down, uint32_t side)
{
    for (uint32_t i = 0; i < of->wall_count; i++) {
        if (down <= of->walls[i].down && side <= of->walls[i].side) {
            return 1;
        }
    }
    return 0;
}

/* ---- in order ---- */

/* Where all there is lies behind walls, the walls themselves: one of them is the least bad. */
static void look_at_walls(looking *of)
{
    for (uint32_t i = 0; i < of->wall_count; i++) {
        look_at_pair(of, of->walls[i].down, of->walls[i].side);
    }
}

/* For each number side by side stands the next one down that was not looked at: the least product of all is next. */
static void look_in_order(looking *of)
{
    uint32_t next[NUMBERS_MOST] = {0};
    while (of->count < PAIRS_IN_ORDER) {
        uint64_t least = UINT64_MAX;
        uint32_t at = 0;
        for (uint32_t i = 0; i < of->side.count; i++) {
            uint64_t product = next[i] < of->down.count ? in_all(of->down.of[next[i]], of->side.of[i]) : UINT64_MAX;
            at = product < least ? i : at;
            least = product < least ? product : least;
        }
        if (least == UINT64_MAX || none_better(of, least)) {
            return;
        }
        uint32_t down = of->down.of[next[at]++];
        if (!behind_wall(of, down, of->side.of[at])) {
            look_at_pair(of, down, of->side.of[at]);
            if (nothing_helps(of, &of->pairs[of->count - 1].point)) {
                return;
            }
        }
    }
}

/* ---- what the order left out ---- */

static int left_out(const looking *of, const parts *pair)
{
    return !(listed(&of->down, pair->down) && listed(&of->side, pair->side)) && !behind_wall(of, pair->down, pair->side);
}

/* All pairs of so many passes that the order left out. 0: there was no room to look at all. */
static int look_at_product(looking *of, uint64_t product)
{
    parts pairs[DIVISORS_MOST];
    uint32_t count = pairs_of(of->parting, product, pairs);
    for (uint32_t i = 0; i < count; i++) {
        if (left_out(of, &pairs[i])) {
            if (of->count == PAIRS_MOST) {
                return 0;
            }
            look_at_pair(of, pairs[i].down, pairs[i].side);
        }
    }
    return 1;
}

/* ---- the pair that is taken ---- */

/* As many passes in all as the best has; for the most removal, nearly as much removed. */
static int rivals(const looking *of, const seen *pair, double within)
{
    const bite_point *best = &of->pairs[of->best].point;
    if (pair->point.worst > 1.0) {
        return 0;
    }
    return of->search->goal == BITE_GOAL_FAST ? pair->point.goal - best->goal < within
                                              : in_all(pair->down, pair->side) == best_in_all(of);
}

/* The nearest rival that was not looked at so closely; the number of pairs: there is none. */
static uint32_t next_rival(const looking *of, const int *close, double within)
{
    uint32_t at = of->count;
    for (uint32_t i = 0; i < of->count; i++) {
        if (!close[i] && rivals(of, &of->pairs[i], within) &&
            (at == of->count || bite_optimum_better(&of->pairs[i].point, &of->pairs[at].point))) {
            at = i;
        }
    }
    return at;
}

/* The best alone has no rival: there is nothing to compare. */
static void compare(looking *of, double within, int most, bite_point (*look)(const bite_search *search, double spindle))
{
    int close[PAIRS_MOST] = {0};
    uint32_t count = 0;
    for (uint32_t i = 0; i < of->count; i++) {
        count += (uint32_t)rivals(of, &of->pairs[i], within);
    }
    for (int i = 0; i < most && count > 1; i++) {
        uint32_t at = next_rival(of, close, within);
        if (at == of->count) {
            return;
        }
        close[at] = 1;
        bite_passes_set(of->parting, of->pairs[at].down, of->pairs[at].side);
        keep_better(&of->pairs[at].point, look(of->search, of->pairs[at].point.spindle));
        of->best = bite_optimum_better(&of->pairs[at].point, &of->pairs[of->best].point) ? at : of->best;
    }
}

static bite_point look_whole(const bite_search *search, double spindle)
{
    (void)spindle;
    return bite_optimum_find(search, BITE_LOOK_WHOLE);
}

static void compare_closely(looking *of)
{
    compare(of, near_removal, RIVALS_MOST, look_about);
    compare(of, close_removal, RIVALS_CLOSE, look_whole);
}

/* Where a pair stands among those that were looked at; their number: nowhere. */
static uint32_t place_of(const looking *of, uint32_t down, uint32_t side)
{
    uint32_t at = 0;
    while (at < of->count && !(of->pairs[at].down == down && of->pairs[at].side == side)) {
        at++;
    }
    return at;
}

/* A pair looked at about its best speed, whatever a coarse look said of it. */
static void look_closely(looking *of, uint32_t at)
{
    seen *pair = &of->pairs[at];
    bite_passes_set(of->parting, pair->down, pair->side);
    keep_better(&pair->point, look_about(of->search, pair->point.spindle));
    of->best = bite_optimum_better(&pair->point, &of->pairs[of->best].point) ? at : of->best;
}

/* For the most removal on to the better neighbour as long as there is one: what the order left out beside the best, and what a
 * coarse look made less of than it is. */
static void climb(looking *of)
{
    static const int beside[][2] = {{1, 0}, {-1, 0}, {0, 1}, {0, -1}, {1, -1}, {-1, 1}};
    const size_t count = sizeof beside / sizeof *beside;
    int close[PAIRS_MOST] = {0};
    for (size_t i = 0; i < count && of->count < PAIRS_MOST; i++) {
        const seen at = of->pairs[of->best];
        uint32_t best = of->best;
        uint32_t down = at.down + (uint32_t)beside[i][0];
        uint32_t side = at.side + (uint32_t)beside[i][1];
        uint32_t place = place_of(of, down, side);
        if (!sensible(of->parting->depth, "depth", down, of->down.of[0]) ||
            !sensible(of->parting->width, "width", side, of->side.of[0]) || (place < of->count && close[place])) {
            continue;
        }
        if (place == of->count) {
            look_at_pair(of, down, side);
        }
        close[place] = 1;
        look_closely(of, place);
        i = of->best == best ? i : (size_t)-1; /* about the new one */
    }
}

/* One that was left out may hold with fewer passes and be no better by the goal. */
static void take_fewest(looking *of)
{
    for (uint32_t i = 0; i < of->count; i++) {
        if (of->pairs[i].point.worst <= 1.0 && in_all(of->pairs[i].down, of->pairs[i].side) < best_in_all(of)) {
            of->best = i;
        }
    }
}

/* Fewer passes than the best has, and as many. 1: every pair with fewer was looked at. */
static int look_below(looking *of)
{
    uint64_t product = in_all(of->down.of[0], of->side.of[0]);
    for (; product <= best_in_all(of); product++) {
        if (!look_at_product(of, product)) {
            return 0;
        }
        take_fewest(of);
    }
    return 1;
}

static void take_not_much_worse(looking *of)
{
    for (uint32_t i = 0; i < of->best; i++) {
        of->best = of->pairs[i].point.worst < not_much_worse * of->pairs[of->best].point.worst ? i : of->best;
    }
}

static void begin(const bite_search *search, bite_parting *parting, looking *of)
{
    of->search = search;
    of->parting = parting;
    of->count = of->best = of->closer = 0;
    of->pairs[0].point.worst = of->pairs[0].point.goal = INFINITY;
    list_numbers(parting->depth, "depth", fewest_down(parting), &of->down);
    list_numbers(parting->width, "width", fewest_side(parting), &of->side);
}

static bite_passes find_pairs(const bite_search *search, bite_parting *parting)
{
    looking of;
    bite_passes found = {{0.0, 0.0, 0.0, 0.0, 0, 0}, 0, 0};
    begin(search, parting, &of);
    find_walls(&of);
    look_in_order(&of);
    if (of.count == 0) {
        look_at_walls(&of);
    }
    if (!best_holds(&of)) {
        take_not_much_worse(&of);
    } else if (search->goal == BITE_GOAL_FAST) {
        compare_closely(&of);
        of.closer = 0;
        climb(&of);
    } else {
        found.fewest = look_below(&of) && of.closer <= CLOSER_MOST;
        compare_closely(&of);
    }
    bite_passes_set(parting, of.pairs[of.best].down, of.pairs[of.best].side);
    found.point = of.pairs[of.best].point;
    found.looked = of.count;
    return found;
}

/* Over the depth alone. */
static bite_passes find_down(const bite_search *search, bite_parting *parting)
{
    numbers down;
    bite_point points[NUMBERS_MOST];
    uint32_t count = 0;
    uint32_t best = 0;
    list_numbers(parting->depth, "depth", fewest_down(parting), &down);
    while (count < down.count) {
        bite_passes_set(parting, down.of[count], parting->side);
        points[count] = bite_optimum_find(search, BITE_LOOK_ROUGH);
        best = bite_optimum_better(&points[count], &points[best]) ? count : best;
        count++;
        if (points[best].worst <= 1.0 ? search->goal != BITE_GOAL_FAST || count > best + 6 : down.of[count - 1] > PASSES_SENSIBLE) {
            break;
        }
    }
    for (uint32_t i = 0; i < best && points[best].worst > 1.0; i++) {
        best = points[i].worst < not_much_worse * points[best].worst ? i : best;
    }
    bite_passes_set(parting, down.of[best], parting->side);
    bite_passes found = {points[best], count, 0};
    return found;
}

bite_passes bite_passes_find(const bite_search *search, bite_parting *of)
{
    if (!isnan(of->width)) {
        return find_pairs(search, of);
    }
    if (!isnan(of->depth)) {
        return find_down(search, of);
    }
    bite_passes found = {bite_optimum_find(search, BITE_LOOK_ROUGH), 1, 0};
    return found;
}

/* Walks on while the pair is better than the best: until it holds, for the most removal until more passes remove less. */
static bite_passes glance_pairs(const bite_search *search, bite_parting *parting)
{
    looking of;
    begin(search, parting, &of);
    seen pair = glance(&of, of.down.of[0], of.side.of[0]);
    seen best = pair;
    uint32_t count = 1;
    while (count < GLANCES_MOST && !nothing_helps(&of, &pair.point) && (search->goal == BITE_GOAL_FAST || best.point.worst > 1.0) &&
           step(&of, &pair)) {
        int better = bite_optimum_better(&pair.point, &best.point);
        if (!better && best.point.worst <= 1.0) {
            break;
        }
        best = better ? pair : best;
        count++;
    }
    bite_passes_set(parting, best.down, best.side);
    bite_passes found = {best.point, count, 0};
    return found;
}

bite_passes bite_passes_glance(const bite_search *search, bite_parting *of)
{
    return isnan(of->width) ? bite_passes_find(search, of) : glance_pairs(search, of);
}

bite_passes bite_passes_close_in(const bite_search *search, bite_parting *of)
{
    if (!isnan(of->width) || isnan(of->depth)) {
        return bite_passes_glance(search, of);
    }
    uint32_t fails = fewest_down(of) - 1;
    bite_passes found = glance_pairs(search, of);
    uint32_t holds = of->down;
    while (search->goal != BITE_GOAL_FAST && found.point.worst <= 1.0 && holds - fails > 1) {
        uint32_t middle = fails + (holds - fails) / 2;
        bite_passes_set(of, middle, of->side);
        bite_point point = bite_optimum_find(search, BITE_LOOK_ROUGH);
        found.looked++;
        if (point.worst <= 1.0) {
            holds = middle;
            found.point = point;
        } else {
            fails = middle;
        }
    }
    bite_passes_set(of, holds, of->side);
    return found;
}

/* ---- more of them ---- */

/* Of the pairs with so many passes the one that uses least, by a coarse look. */
static void gentlest(const bite_search *search, bite_parting *of, uint64_t product, bite_parting *to, double *least)
{
    parts pairs[DIVISORS_MOST];
    uint32_t count = pairs_of(of, product, pairs);
    for (uint32_t i = 0; i < count; i++) {
        bite_passes_set(of, pairs[i].down, pairs[i].side);
        double worst = bite_optimum_find(search, BITE_LOOK_ROUGH).worst;
        if (worst < *least) {
            *least = worst;
            to->down = pairs[i].down;
            to->side = pairs[i].side;
        }
    }
}

int bite_passes_more(const bite_search *search, bite_parting *of)
{
    if (isnan(of->width)) {
        uint32_t more = of->down + 1 + of->down / 4;
        if (!sensible(of->depth, "depth", more, 1)) {
            return 0;
        }
        bite_passes_set(of, more, of->side);
        return 1;
    }
    bite_search gentle = *search;
    bite_parting to = *of;
    uint64_t now = in_all(of->down, of->side);
    double least = INFINITY;
    gentle.goal = BITE_GOAL_GENTLE;
    for (uint64_t product = now + 1; product <= now + 1 + now / 4; product++) {
        gentlest(&gentle, of, product, &to, &least);
    }
    bite_passes_set(of, to.down, to.side);
    return least < INFINITY;
}
