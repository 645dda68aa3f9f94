/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The best spindle speed and feed of a pass within its limits. */
#include "core/search/speed_feed.h"
#include "core/base/thread_pool.h"
#include "core/cut/limits.h"
#include "core/cut/limits_part.h"
#include <math.h>

#define SPINDLES 17 /* of the grid, over the whole range */
#define FEEDS 13
#define FEEDS_NEAR                                                                                 \
    13 /* near a hint: near the feed at which a tooth begins to form a chip, the feeds within the  \
          limits may be two \ short intervals */
#define FEEDS_NEAR_FAST 5 /* only the upper end of the upper interval matters */
#define FEEDS_DENSE 37    /* the feeds within a cap may be two short intervals */
#define FEEDS_FINE 24     /* within two cells of the grid, if nothing is within the limits */
#define SPINDLES_ROUGH 9
#define FEEDS_ROUGH 9
#define SPINDLES_NEAR 5
#define SPINDLES_LOBES 161 /* steps of 2 % over a range of 1 to 24 */
#define LOBES 3            /* the best of these speeds */
#define GOLDEN_SPINDLE 12  /* steps: 0.618^15 of two grid cells is under 4e-4 */
#define REFINED 2          /* grid points that are refined */
#define REFINED_BAD 4      /* if nothing is within the limits: they cross in sharp valleys */

/* Ra of "a good finish" if none was requested: the unit of BITE_GOAL_FINE (common practice). */
static const double default_finish = 1.6e-6; /* m */

/* Steps of the golden section and of the bisection: on the grid of speeds, and when refining. */
typedef struct step_counts {
    int golden_section;
    int halvings;
} step_counts;
static const step_counts on_grid = {5, 7};
static const step_counts refined = {10, 11};

/* Another grid point is refined too if it is this close to the best. */
static const double near_goal = 0.1;
static const double near_bad = 0.4; /* if nothing is within the limits */

static double goal_of(const bite_search *search, uint32_t goal, const double *at,
                      double worst)
{
    const bite_cut *requested = &search->checked->requested;
    double tolerance = isnan(requested->tolerance) ? bite_tolerance_default : requested->tolerance;
    double finish = isnan(requested->finish) ? default_finish : requested->finish;
    double error = fabs(at[BITE_WALL_ERROR]);
    double marks = fmax(at[BITE_ROUGHNESS_FLOOR], at[BITE_ROUGHNESS_WALL]);
    switch (goal) {
    case BITE_GOAL_COOL:
        return at[BITE_SURFACE_TEMPERATURE] - search->checked->full.room_temperature;
    case BITE_GOAL_FINE:
        return error / (0.5 * tolerance) + 0.25 * marks / finish;
    case BITE_GOAL_FAST:
        return -log(at[BITE_REMOVAL_RATE]);
    default:
        return worst;
    }
}

/* Evaluates successive points, reusing intermediate results of the last one. */
typedef struct evaluator {
    const bite_search *search;
    bite_checked_cut ready;
    bite_block_space *space;
} evaluator;

static void evaluator_init(evaluator *state, const bite_search *search, size_t worker)
{
    state->search = search;
    state->ready = *search->checked;
    state->space = &search->spaces[worker];
}

static bite_point evaluate(evaluator *state, double spindle, double feed)
{
    const bite_search *search = state->search;
    double values[BITE_VALUE_COUNT];
    bite_limit limits[BITE_LIMIT_COUNT];
    bite_point point = {spindle, feed, INFINITY, 0.0, 0, 0};
    state->ready.requested.spindle_speed = state->ready.full.spindle_speed = spindle;
    state->ready.requested.feed_rate = state->ready.full.feed_rate = feed;
    bite_checked_cut_evaluate(&state->ready, state->space, values, limits);
    for (uint32_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        double utilization = limits[i].applies && !limits[i].advisory
                                 ? limits[i].utilization * search->margin[i]
                                 : 0.0;
        if (utilization > point.worst) {
            point.worst = utilization;
            point.limit = i;
        }
    }
    double goal = goal_of(search, search->goal, values, point.worst);
    double capped =
        search->goal_cap > 0.0
            ? goal_of(search, search->capped_goal, values, point.worst) / search->goal_cap
            : 0.0;
    point.worst = capped > point.worst ? capped : point.worst;
    point.goal = isnan(goal) ? point.worst
                             : goal; /* a material without forces: the worst utilization decides */
    return point;
}

bite_point bite_speed_feed_at(const bite_search *search, double spindle, double feed)
{
    evaluator state;
    evaluator_init(&state, search, 0);
    return evaluate(&state, spindle, feed);
}

double bite_speed_feed_capped_goal(const bite_search *search, double spindle, double feed)
{
    bite_search bare = *search;
    bare.goal = search->capped_goal;
    bare.goal_cap = 0.0;
    return bite_speed_feed_at(&bare, spindle, feed).goal;
}

/* Smaller by more than rounding: if many speeds are equally good, the rounding of a compiler must
 * not choose between them. */
static int below(double a, double b)
{
    const double rounding = 1e-9;
    return a <
           (b > 0.0 ? b * (1.0 - rounding) : b * (1.0 + rounding)); /* works for infinities too */
}

int bite_speed_feed_better(const bite_point *a, const bite_point *b)
{
    int holds_a = a->worst <= 1.0;
    int holds_b = b->worst <= 1.0;
    if (holds_a != holds_b) {
        return holds_a;
    }
    return holds_a ? below(a->goal, b->goal) : below(a->worst, b->worst);
}

static void keep_better(bite_point *best, const bite_point *point)
{
    if (bite_speed_feed_better(point, best)) {
        *best = *point;
    }
}

static double tooth_of(const bite_search *search, const bite_point *point)
{
    return point->feed / (point->spindle * search->checked->full.flutes);
}

static bite_point at_tooth(evaluator *state, double spindle, double tooth)
{
    return evaluate(state, spindle, tooth * spindle * state->search->checked->full.flutes);
}

/* Bisects between a point within the limits and a feed that exceeds them. Returns the last point
 * within. */
static bite_point bisect_feed(evaluator *state, double spindle, const bite_point *inside,
                              double fails, int halvings)
{
    bite_point best = *inside;
    double holds = tooth_of(state->search, inside);
    for (int i = 0; i < halvings; i++) {
        double middle = sqrt(holds * fails);
        bite_point point = at_tooth(state, spindle, middle);
        if (point.worst <= 1.0) {
            holds = middle;
            best = point;
        } else {
            fails = middle;
        }
    }
    return best;
}

typedef bite_point (*point_function)(evaluator *state, double at, double hint);

/* Golden section in the logarithm; points are compared by bite_speed_feed_better. */
static bite_point golden_section(evaluator *state, point_function point_at, double hint, double low,
                                 double high, int steps)
{
    const double share = 0.6180339887498949;
    double a = log(low);
    double b = log(high);
    double c = b - share * (b - a);
    double d = a + share * (b - a);
    bite_point at_c = point_at(state, exp(c), hint);
    bite_point at_d = point_at(state, exp(d), hint);
    for (int i = 0; i < steps; i++) {
        if (bite_speed_feed_better(&at_c, &at_d)) {
            b = d;
            d = c;
            at_d = at_c;
            c = b - share * (b - a);
            at_c = point_at(state, exp(c), hint);
        } else {
            a = c;
            c = d;
            at_c = at_d;
            d = a + share * (b - a);
            at_d = point_at(state, exp(d), hint);
        }
    }
    return bite_speed_feed_better(&at_c, &at_d) ? at_c : at_d;
}

/* hint: the spindle speed. */
static bite_point evaluate_tooth(evaluator *state, double tooth, double hint)
{
    return at_tooth(state, hint, tooth);
}

/* If nothing is within the limits: narrows the interval by a finer grid. Where a tooth begins to
 * form a chip the peaks jump, and several minima may lie between two grid points. */
static void narrow(evaluator *state, double spindle, double *from, double *to)
{
    double step = pow(*to / *from, 1.0 / FEEDS_FINE);
    double best_tooth = *from;
    bite_point best = at_tooth(state, spindle, *from);
    for (int i = 1; i <= FEEDS_FINE; i++) {
        double tooth = *from * pow(step, i);
        bite_point point = at_tooth(state, spindle, tooth);
        if (bite_speed_feed_better(&point, &best)) {
            best = point;
            best_tooth = tooth;
        }
    }
    *from = fmax(*from, best_tooth / step);
    *to = fmin(*to, best_tooth * step);
}

/* A grid point that is nearly within the limits, between two that are farther off: the minimum near
 * it may be within the limits, and better. Where a second tooth begins to cut the goal has a kink:
 * a point within the limits that is better than both of its neighbours is refined too. */
static int is_minimum(const bite_point *points, int fast)
{
    const double nearly = 1.3;
    double worst = points[0].worst;
    if (worst <= 1.0) {
        return !fast && bite_speed_feed_better(&points[0], &points[-1]) &&
               bite_speed_feed_better(&points[0], &points[1]);
    }
    return worst <= nearly && worst < points[-1].worst && worst < points[1].worst;
}

static void try_minima(evaluator *state, double spindle, const double *tooth,
                       const bite_point *points, int count, int steps, bite_point *best)
{
    int fast = state->search->goal == BITE_GOAL_FAST;
    for (int i = 1; i + 1 < count; i++) {
        if (is_minimum(&points[i], fast)) {
            bite_point valley =
                golden_section(state, evaluate_tooth, spindle, tooth[i - 1], tooth[i + 1], steps);
            keep_better(best, &valley);
        }
    }
}

/* The best feed at a spindle speed: a grid, the ends of the interval within the limits, and the
 * minimum near the best grid point. */
static bite_point best_of_feeds(evaluator *state, double spindle, double low, double high,
                                int count, const step_counts *with)
{
    double tooth[FEEDS_DENSE];
    bite_point points[FEEDS_DENSE];
    int at = 0;
    for (int i = 0; i < count; i++) {
        tooth[i] = low * pow(high / low, (double)i / (count - 1));
        points[i] = at_tooth(state, spindle, tooth[i]);
        at = bite_speed_feed_better(&points[i], &points[at]) ? i : at;
    }
    bite_point best = points[at];
    if (with == NULL) {
        return best;
    }
    double from = tooth[at > 0 ? at - 1 : 0];
    double to = tooth[at + 1 < count ? at + 1 : count - 1];
    if (best.worst > 1.0 && with == &refined) {
        narrow(state, spindle, &from, &to);
    }
    bite_point valley =
        state->search->goal == BITE_GOAL_FAST && best.worst <= 1.0
            ? best /* the removal rate rises with the feed: the best is at the end of the interval
                    */
            : golden_section(state, evaluate_tooth, spindle, from, to, with->golden_section);
    keep_better(&best, &valley);
    try_minima(state, spindle, tooth, points, count, with->golden_section, &best);
    bite_point middle = best;
    double inside = tooth_of(state->search, &middle);
    for (int side = -1; best.worst <= 1.0 && side <= 1; side += 2) {
        for (int i = side < 0 ? count - 1 : 0; i >= 0 && i < count; i += side) {
            int beyond = side < 0 ? tooth[i] < inside : tooth[i] > inside;
            if (beyond && points[i].worst > 1.0) {
                bite_point end = bisect_feed(state, spindle, &middle, tooth[i], with->halvings);
                keep_better(&best, &end);
                break;
            }
        }
    }
    return best;
}

/* hint: a feed per tooth near which to search first; NaN: none. */
static bite_point best_at_spindle(evaluator *state, double spindle, double hint)
{
    if (!isnan(state->search->feed)) {
        return evaluate(state, spindle, state->search->feed);
    }
    double low = state->search->tooth[0];
    double high = state->search->tooth[1];
    if (!(high > low)) {
        return at_tooth(state, spindle, low);
    }
    if (!isnan(hint)) {
        double near_low = fmax(low, hint / 1.5);
        double near_high = fmin(high, hint * 1.5);
        int count = state->search->goal == BITE_GOAL_FAST ? FEEDS_NEAR_FAST : FEEDS_NEAR;
        bite_point near = best_of_feeds(state, spindle, near_low, near_high, count, &refined);
        double tooth = tooth_of(state->search, &near);
        int at_edge = (tooth < near_low * 1.01 && near_low > low) ||
                      (tooth > near_high / 1.01 && near_high < high);
        if (!at_edge && near.worst <= 1.0) {
            return near;
        }
    }
    return best_of_feeds(state, spindle, low, high,
                         state->search->goal_cap > 0.0 ? FEEDS_DENSE : FEEDS,
                         isnan(hint) ? &on_grid : &refined);
}

static bite_point rough_at_spindle(evaluator *state, double spindle)
{
    double low = state->search->tooth[0];
    double high = state->search->tooth[1];
    if (!isnan(state->search->feed)) {
        return evaluate(state, spindle, state->search->feed);
    }
    return high > low ? best_of_feeds(state, spindle, low, high, FEEDS_ROUGH, NULL)
                      : at_tooth(state, spindle, low);
}

/* The best grid point among those not picked yet; -1: none. */
static int next_point(const bite_point *points, const int *picked, int count)
{
    int best = -1;
    for (int i = 0; i < count; i++) {
        if (!picked[i] && (best < 0 || bite_speed_feed_better(&points[i], &points[best]))) {
            best = i;
        }
    }
    return best;
}

static int near_best(const bite_search *search, const bite_point *point, const bite_point *best)
{
    double scale = search->goal == BITE_GOAL_FAST ? 1.0 : fabs(best->goal);
    return best->worst > 1.0 ? point->worst < (1.0 + near_bad) * best->worst
                             : point->worst <= 1.0 && point->goal - best->goal < near_goal * scale;
}

/* A speed that is evaluated, and the interval in which it is refined. */
typedef struct sampled_speed {
    double spindle;
    double from;
    double to;
} sampled_speed;

/* The speeds of the grid, those of the lobes of chatter, and the points that are refined. */
typedef struct speed_grid {
    const bite_search *search;
    bite_search_effort effort;
    int evaluated; /* so many of the speeds */
    int count;
    int refined;
    sampled_speed speeds[SPINDLES + LOBES];
    bite_point points[SPINDLES + LOBES];
    int picked[REFINED_BAD];
    bite_point found[REFINED_BAD];
} speed_grid;

static void speed_grid_init(speed_grid *grid, const bite_search *search, bite_search_effort effort)
{
    static const int counts[] = {SPINDLES, SPINDLES_NEAR, SPINDLES_ROUGH, SPINDLES_ROUGH};
    double low = search->spindle[0];
    double high = search->spindle[1];
    grid->search = search;
    grid->effort = effort;
    grid->evaluated = 0;
    grid->refined = 0;
    grid->count = high > low ? counts[effort] : 1;
    double step = grid->count > 1 ? pow(high / low, 1.0 / (grid->count - 1)) : 1.0;
    for (int i = 0; i < grid->count; i++) {
        double spindle = low * pow(step, i);
        grid->speeds[i] = (sampled_speed){i + 1 < grid->count || i == 0 ? spindle : high,
                                          fmax(low, spindle / step), fmin(high, spindle * step)};
    }
}

static void evaluate_grid_point(void *work, size_t index, size_t worker)
{
    speed_grid *grid = work;
    evaluator state;
    evaluator_init(&state, grid->search, worker);
    int at = grid->evaluated + (int)index;
    double spindle = grid->speeds[at].spindle;
    grid->points[at] = grid->effort == BITE_SEARCH_COARSE
                           ? rough_at_spindle(&state, spindle)
                           : best_at_spindle(&state, spindle, (double)NAN);
}

static void evaluate_grid(speed_grid *grid)
{
    bite_thread_pool_run((size_t)(grid->count - grid->evaluated), grid->search->threads,
                         evaluate_grid_point, grid);
    grid->evaluated = grid->count;
}

/* The better of two feeds a little below and above a feed per tooth: close to it, and off the ends
 * of the interval within the limits. */
static bite_point near_tooth(evaluator *state, double spindle, double tooth)
{
    const double share = 1.05;
    const double *range = state->search->tooth;
    if (!isnan(state->search->feed)) {
        return evaluate(state, spindle, state->search->feed);
    }
    bite_point less = at_tooth(state, spindle, fmax(range[0], tooth / share));
    bite_point more = at_tooth(state, spindle, fmin(range[1], tooth * share));
    return bite_speed_feed_better(&more, &less) ? more : less;
}

static int chatters_somewhere(const speed_grid *grid)
{
    for (int i = 0; i < grid->count; i++) {
        uint32_t limit = grid->points[i].limit;
        if (limit == BITE_LIMIT_CHATTER || limit == BITE_LIMIT_CHATTER_TOOL) {
            return 1;
        }
    }
    return 0;
}

/* Marks as picked the points that are not better than both neighbours. */
static void pick_all_but_minima(const bite_point *points, int *picked, int count)
{
    for (int i = 0; i < count; i++) {
        picked[i] = i == 0 || i + 1 == count ||
                    !bite_speed_feed_better(&points[i], &points[i - 1]) ||
                    bite_speed_feed_better(&points[i + 1], &points[i]);
    }
}

/* Lobes of chatter are narrower than the cells of the grid: if one of its points is held back by
 * chatter, the feed per tooth of the best one is tried at many more speeds, and the best of these
 * that are better than both neighbours join the grid. */
static void add_lobes(speed_grid *grid)
{
    evaluator state;
    bite_point points[SPINDLES_LOBES];
    int picked[SPINDLES_LOBES] = {0};
    const double *range = grid->search->spindle;
    double step = pow(range[1] / range[0], 1.0 / (SPINDLES_LOBES - 1));
    int first = next_point(grid->points, picked, grid->count);
    double tooth = tooth_of(grid->search, &grid->points[first]);
    evaluator_init(&state, grid->search, 0);
    for (int i = 0; i < SPINDLES_LOBES; i++) {
        points[i] = near_tooth(&state, range[0] * pow(step, i), tooth);
    }
    pick_all_but_minima(points, picked, SPINDLES_LOBES);
    int at = next_point(points, picked, SPINDLES_LOBES);
    for (int kept = 0; kept < LOBES && at >= 0; kept++) {
        double spindle = points[at].spindle;
        grid->speeds[grid->count++] = (sampled_speed){spindle, spindle / step, spindle * step};
        picked[at] = 1;
        at = next_point(points, picked, SPINDLES_LOBES);
    }
}

static void refine_point(void *work, size_t index, size_t worker)
{
    speed_grid *grid = work;
    evaluator state;
    evaluator_init(&state, grid->search, worker);
    int at = grid->picked[index];
    const sampled_speed *speed = &grid->speeds[at];
    double hint = tooth_of(grid->search, &grid->points[at]);
    grid->found[index] =
        speed->to > speed->from
            ? golden_section(&state, best_at_spindle, hint, speed->from, speed->to, GOLDEN_SPINDLE)
            : best_at_spindle(&state, speed->spindle, hint);
}

/* Picks the best points whose intervals do not hold one another, as long as they are close to the
 * best. Returns the best. */
static int pick_points(speed_grid *grid)
{
    const double rounding = 1e-9;
    int picked[SPINDLES + LOBES] = {0};
    int first = next_point(grid->points, picked, grid->count);
    int most = grid->effort == BITE_SEARCH_COARSE || grid->effort == BITE_SEARCH_MEDIUM ? 0
               : grid->points[first].worst > 1.0 ? REFINED_BAD
                                                 : REFINED;
    int at = first;
    while (grid->refined < most && at >= 0 &&
           near_best(grid->search, &grid->points[at], &grid->points[first])) {
        grid->picked[grid->refined++] = at;
        for (int i = 0; i < grid->count; i++) {
            picked[i] |= grid->speeds[i].spindle >= grid->speeds[at].from * (1.0 - rounding) &&
                         grid->speeds[i].spindle <= grid->speeds[at].to * (1.0 + rounding);
        }
        at = next_point(grid->points, picked, grid->count);
    }
    return first;
}

/* The golden section never reaches the ends of the range of speeds. */
static void try_ends(evaluator *state, bite_point *best)
{
    const double *range = state->search->spindle;
    for (int i = 0; i < (range[1] > range[0] ? 2 : 1); i++) {
        bite_point end = best_at_spindle(state, range[i], tooth_of(state->search, best));
        keep_better(best, &end);
    }
}

/* Where another tooth begins to cut, the goal and the limits have kinks, and a valley between two
 * grid points of the feed may be better: at the best speed the feeds are searched by a grid three
 * times as fine. */
static void try_all_feeds(evaluator *state, bite_point *best)
{
    const bite_search *search = state->search;
    if (isnan(search->feed) && search->tooth[1] > search->tooth[0]) {
        bite_point point = best_of_feeds(state, best->spindle, search->tooth[0], search->tooth[1],
                                         FEEDS_DENSE, &refined);
        keep_better(best, &point);
    }
}

bite_point bite_speed_feed_find(const bite_search *search, bite_search_effort effort)
{
    speed_grid grid;
    speed_grid_init(&grid, search, effort);
    evaluate_grid(&grid);
    if (effort == BITE_SEARCH_FULL && grid.count > 1 && chatters_somewhere(&grid)) {
        add_lobes(&grid);
        evaluate_grid(&grid);
    }
    bite_point best = grid.points[pick_points(&grid)];
    bite_thread_pool_run((size_t)grid.refined, search->threads, refine_point, &grid);
    for (int i = 0; i < grid.refined; i++) {
        keep_better(&best, &grid.found[i]);
    }
    if (effort < BITE_SEARCH_COARSE) {
        evaluator state;
        evaluator_init(&state, search, 0);
        try_ends(&state, &best);
        if (effort == BITE_SEARCH_FULL) {
            try_all_feeds(&state, &best);
        }
    }
    return best;
}

bite_point bite_speed_feed_refine(const bite_search *search, const bite_point *start)
{
    const double speed_range = 1.04; /* 1 % more capacity of a limit changes the speed by at most 2
                                        %: heat is proportional to the square root of the speed */
    const int steps = 10;            /* 0.618^10 of 8 % is 6e-4 */
    evaluator state;
    evaluator_init(&state, search, 0);
    double hint = tooth_of(search, start);
    double ends[2] = {fmax(search->spindle[0], start->spindle / speed_range),
                      fmin(search->spindle[1], start->spindle * speed_range)};
    bite_point best = best_at_spindle(&state, ends[0], hint);
    if (ends[1] > ends[0]) {
        bite_point end = best_at_spindle(&state, ends[1], hint);
        bite_point between = golden_section(&state, best_at_spindle, hint, ends[0], ends[1], steps);
        keep_better(&best, &end);
        keep_better(&best, &between);
    }
    return best;
}

const char *bite_goal_name(uint32_t goal)
{
    static const char *const names[BITE_GOAL_COUNT] = {"cool", "gentle", "fine", "fast"};
    return goal < BITE_GOAL_COUNT ? names[goal] : NULL;
}
