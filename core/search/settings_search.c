/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The one search: spindle speed, feed and pass counts under one constraint. */
#include "core/search/settings_search.h"
#include "core/base/error.h"
#include "core/cut/limits_part.h"
#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

/* Grids over the whole box: of one pair of pass counts that may win, of many pairs, and of an axis
 * that is free alone. */
enum { COLUMNS = 17, ROWS = 13, COLUMNS_ROUGH = 9, ROWS_ROUGH = 9, ALONE = 49, LOBES = 97 };
enum { POINTS_MOST = COLUMNS * ROWS + 2 * LOBES, BATCH = 16 };

/* Draws on the grids, and on the smaller ones around a point. */
enum { DRAWS_GRID = 32, DRAWS_ROUGH = 64, DRAWS_NEAR = 128 };

/* Regions that are refined. */
enum { STARTS = 4, ROUNDS = 5, ROUNDS_ROUGH = 2, ROUNDS_ALL = 2, MOVES = 8 };

/* Pairs of pass counts: nobody waits for more (unless the tool's reach needs them). */
enum { NUMBERS = 24, NUMBER_MOST = 48, PRODUCT_MOST = 128, PAIRS = NUMBERS * NUMBERS };

/* Numbers of passes are tried in such steps, then all near the best. */
static const double number_step = 1.5;

/* Of the least bad, fewer passes are better if that costs less than this. */
static const double nearly_as_good = 0.95;

/* What a rough search has found this close to the best is refined too: by cost, and if nothing is
 * within the limits by burden. */
static const double close_cost = 0.12;
static const double close_burden = 1.2;

/* Pairs that are refined. */
enum { REFINED = 6 };

/* If nothing is within the limits, and this many times the passes of the least burdened pair do not
 * help, no more are tried. */
enum { PASSES_IN_VAIN = 4, PASSES_AT_LEAST = 12 };

/* Points farther from their limits than this are no start; those within the other may well be
 * within the limits by more draws. */
static const double start_most = 2.0;
static const double close_start = 1.12;

/* Time to leave the hole and return for one peck, s (estimate: twice some millimetres at the rapids
 * of a small machine, and the reversals). */
static const double time_of_peck = 0.5;

/* Ra of "a good finish" if none was requested: the unit of BITE_GOAL_FINE (common practice). */
static const double default_finish = 1.6e-6; /* m */

/* ---- one point ---- */

double bite_goal_value(const bite_search_problem *problem, uint32_t goal,
                       const bite_setting_risk *risk)
{
    const bite_cut *requested = &problem->requested;
    double tolerance = isnan(requested->tolerance) ? bite_tolerance_default : requested->tolerance;
    double finish = isnan(requested->finish) ? default_finish : requested->finish;
    switch (goal) {
    case BITE_GOAL_COOL:
        return risk->rise;
    case BITE_GOAL_FINE:
        return risk->error / (0.5 * tolerance) + 0.25 * risk->marks / finish;
    case BITE_GOAL_FAST:
        return -log(risk->removal);
    default:
        return risk->quantile;
    }
}

/* Smaller by more than rounding: if many points are equally good, the rounding of a compiler must
 * not choose between them. */
static int below(double a, double b)
{
    const double rounding = 1e-9;
    return a < b - rounding * fmax(1.0, fabs(b)) || (isfinite(a) && isinf(b));
}

int bite_point_better(const bite_point *a, const bite_point *b)
{
    int within_a = a->burden <= 1.0;
    int within_b = b->burden <= 1.0;
    if (within_a != within_b) {
        return within_a;
    }
    if (!within_a || !(below(a->cost, b->cost) || below(b->cost, a->cost))) {
        return below(a->burden, b->burden);
    }
    return below(a->cost, b->cost);
}

static double between(double value, double least, double most)
{
    return value < least ? least : value > most ? most : value;
}

/* The logarithm of the time that a feature takes, apart from a constant. */
static double time_of(const bite_search_problem *problem, const bite_point *point)
{
    if (problem->full.operation == BITE_DRILL_HOLE && !isnan(problem->requested.feature_depth)) {
        return log(problem->requested.feature_depth * exp(-point->log_feed) +
                   time_of_peck * point->axial);
    }
    return log((double)point->axial * point->radial) - point->log_feed;
}

bite_point bite_point_at(const bite_wish *wish, uint32_t axial, uint32_t radial, double log_spindle,
                         double log_feed)
{
    bite_point point;
    memset(&point, 0, sizeof point);
    point.axial = axial;
    point.radial = radial;
    point.log_spindle = log_spindle;
    point.log_feed = log_feed;
    point.at = bite_problem_setting(
        wish->problem, axial, radial,
        between(exp(log_spindle), wish->problem->spindle[0], wish->problem->spindle[1]),
        isnan(wish->problem->feed) ? exp(log_feed) : wish->problem->feed);
    point.burden = INFINITY;
    point.cost = time_of(wish->problem, &point);
    return point;
}

/* The goal has no value in a material without forces: then the quantile decides alone. */
static void weigh(const bite_wish *wish, bite_point *point)
{
    double value = bite_goal_value(wish->problem, wish->problem->goal, &point->risk);
    double quantile = point->risk.quantile;
    const double rounding = 1.0 - 1e-9; /* of the logarithms */
    double share = isfinite(wish->level) ? value / wish->level : 0.0;
    point->burden = rounding * quantile / wish->quantile;
    point->burden = share > point->burden ? share : point->burden;
}

void bite_points_evaluate(const bite_wish *wish, size_t draws, bite_point *points, size_t count)
{
    bite_setting settings[BATCH];
    bite_setting_risk risks[BATCH];
    for (size_t from = 0; from < count; from += BATCH) {
        size_t some = count - from < BATCH ? count - from : BATCH;
        for (size_t i = 0; i < some; i++) {
            settings[i] = points[from + i].at;
        }
        bite_draw_set_evaluate(wish->problem->draws, wish->rule, draws, draws <= DRAWS_NEAR,
                               settings, some, risks);
        for (size_t i = 0; i < some; i++) {
            points[from + i].risk = risks[i];
            weigh(wish, &points[from + i]);
        }
    }
}

/* ---- the box ---- */

static double log_least_feed(const bite_search_problem *problem, double log_spindle)
{
    return isnan(problem->feed) ? log(problem->tooth[0] * problem->full.flutes) + log_spindle
                                : log(problem->feed);
}

static double log_most_feed(const bite_search_problem *problem, double log_spindle)
{
    return isnan(problem->feed) ? log(problem->tooth[1] * problem->full.flutes) + log_spindle
                                : log(problem->feed);
}

/* The grid of one pair of pass counts, and what was found on it. */
typedef struct grid {
    const bite_wish *wish;
    uint32_t axial;
    uint32_t radial;
    double step[2]; /* of the logarithms of spindle speed and feed */
    size_t count;
    size_t evaluated;
    size_t confirming;  /* draws by which a point must be within its limits to end the walk */
    bite_point *points; /* POINTS_MOST */
    bite_point best;
} grid;

static void lay_out(grid *to, int rough)
{
    const bite_search_problem *problem = to->wish->problem;
    double slow = log(problem->spindle[0]);
    double fast = log(problem->spindle[1]);
    double wide = log_most_feed(problem, slow) - log_least_feed(problem, slow);
    int columns = !(fast > slow) ? 1 : !(wide > 0.0) ? ALONE : rough ? COLUMNS_ROUGH : COLUMNS;
    int rows = !(wide > 0.0) ? 1 : !(fast > slow) ? ALONE : rough ? ROWS_ROUGH : ROWS;
    to->step[0] = columns > 1 ? (fast - slow) / (columns - 1) : 0.0;
    to->step[1] = rows > 1 ? wide / (rows - 1) : 0.0;
    to->count = 0;
    for (int i = 0; i < columns; i++) {
        double log_spindle = i + 1 < columns ? slow + i * to->step[0] : fast;
        for (int k = 0; k < rows; k++) {
            double log_feed = k + 1 < rows ? log_least_feed(problem, log_spindle) + k * to->step[1]
                                           : log_most_feed(problem, log_spindle);
            to->points[to->count++] =
                bite_point_at(to->wish, to->axial, to->radial, log_spindle, log_feed);
        }
    }
}

static int by_cost(const void *a, const void *b)
{
    const bite_point *one = a;
    const bite_point *other = b;
    if (one->cost < other->cost || one->cost > other->cost) {
        return one->cost < other->cost ? -1 : 1;
    }
    return (one->log_spindle > other->log_spindle) - (one->log_spindle < other->log_spindle);
}

static void keep_better(bite_point *best, const bite_point *point)
{
    if (bite_point_better(point, best)) {
        *best = *point;
    }
}

/* Evaluates the points from `from` on, the fastest first, until the next ones are of no use. slack:
 * how much slower than the best a point may be and still lead to a faster one between the points of
 * the grid. */
static void walk(grid *on, size_t from, double worth, double slack)
{
    const bite_wish *wish = on->wish;
    qsort(on->points + from, on->count - from, sizeof *on->points, by_cost);
    on->evaluated = from;
    while (on->evaluated < on->count) {
        bite_point *next = &on->points[on->evaluated];
        double enough = on->best.burden <= 1.0 ? fmin(worth, on->best.cost) : worth;
        size_t some = 0;
        while (some < BATCH && on->evaluated + some < on->count &&
               next[some].cost <= enough + slack) {
            some++;
        }
        bite_points_evaluate(wish, DRAWS_GRID, next, some);
        for (size_t i = 0; i < some; i++) {
            if (next[i].burden <= 1.0 && bite_point_better(&next[i], &on->best)) {
                bite_points_evaluate(wish, on->confirming, &next[i], 1);
            }
            keep_better(&on->best, &next[i]);
        }
        on->evaluated += some;
        if (some < BATCH) {
            break;
        }
    }
}

/* ---- smaller grids around a point ---- */

static int is_listed(const bite_point *points, size_t count, double log_spindle, double log_feed)
{
    for (size_t i = 0; i < count; i++) {
        if (!(fabs(points[i].log_spindle - log_spindle) > 1e-12) &&
            !(fabs(points[i].log_feed - log_feed) > 1e-12)) {
            return 1;
        }
    }
    return 0;
}

/* Five by five points around the best; those that could not be better are left out. The first is
 * the best itself. */
static size_t lay_out_near(const bite_wish *wish, const double *step, const bite_point *best,
                           bite_point *points)
{
    const bite_search_problem *problem = wish->problem;
    size_t count = 1;
    int stride = best->burden <= 1.0 ? 1 : 2; /* far from the limits, three by three are enough */
    points[0] = *best;
    for (int i = -2; i <= 2; i += stride) {
        double log_spindle = between(best->log_spindle + i * step[0], log(problem->spindle[0]),
                                     log(problem->spindle[1]));
        for (int k = -2; k <= 2; k += stride) {
            double log_feed =
                between(best->log_feed + k * step[1], log_least_feed(problem, log_spindle),
                        log_most_feed(problem, log_spindle));
            bite_point point =
                bite_point_at(wish, best->axial, best->radial, log_spindle, log_feed);
            int useless = best->burden <= 1.0 && below(best->cost, point.cost);
            if (!useless && !is_listed(points, count, log_spindle, log_feed)) {
                points[count++] = point;
            }
        }
    }
    return count;
}

/* Evaluates points around the best and moves to the best of them. If speed alone counts, the
 * fastest row comes first, and slower ones only if no point of it is within the limits. */
void bite_points_move(const bite_wish *wish, size_t draws, bite_point *points, size_t count,
                      bite_point *best)
{
    int rows = best->burden <= 1.0 || isinf(best->burden);
    if (rows) {
        qsort(points, count, sizeof *points, by_cost);
    }
    for (size_t from = 0; from < count;) {
        size_t some = 1;
        while (from + some < count &&
               (!rows || !below(points[from].cost, points[from + some].cost))) {
            some++;
        }
        bite_points_evaluate(wish, draws, points + from, some);
        int found = 0;
        for (size_t i = from; i < from + some; i++) {
            found |= points[i].burden <= 1.0;
            keep_better(best, &points[i]);
        }
        from += some;
        if (rows && found) {
            break;
        }
    }
}

/* Moves to better points until the steps are small. A step is halved unless the best point moved to
 * the edge of its grid. */
static void zoom(const bite_wish *wish, double *step, int rounds, size_t draws, bite_point *best)
{
    bite_point points[25];
    bite_points_evaluate(wish, draws, best, 1);
    for (int round = 0, moves = 0; round < rounds;) {
        const bite_point from = *best;
        size_t count = lay_out_near(wish, step, best, points);
        bite_points_move(wish, draws, points + 1, count - 1, best);
        int far = fabs(best->log_spindle - from.log_spindle) > 1.5 * step[0] ||
                  fabs(best->log_feed - from.log_feed) > 1.5 * step[1];
        if (far && moves < MOVES && (best->burden <= 1.0 || draws > DRAWS_ROUGH)) {
            moves++;
        } else {
            step[0] *= 0.5;
            step[1] *= 0.5;
            round++;
        }
    }
}

/* ---- one pair of pass counts ---- */

static int is_near(const grid *on, const bite_point *a, const bite_point *b)
{
    return fabs(a->log_spindle - b->log_spindle) < 1.5 * on->step[0] + 1e-9 &&
           fabs(a->log_feed - b->log_feed) < 1.5 * on->step[1] + 1e-9;
}

/* The best point of the grid, and of those that would be better in turn the fastest that is nearly
 * within the limits and the least burdened one. */
static int pick_starts(const grid *on, bite_point *starts)
{
    int count = 1;
    starts[0] = on->best;
    while (count < STARTS) {
        const bite_point *next = NULL;
        for (size_t i = 0; i < on->evaluated; i++) {
            const bite_point *point = &on->points[i];
            int may_win = on->best.burden > 1.0 || point->cost < on->best.cost;
            int taken = !may_win || point->burden > start_most;
            for (int k = 0; k < count && !taken; k++) {
                taken = is_near(on, point, &starts[k]);
            }
            if (!taken && count % 2 == 1 && point->burden <= close_start) {
                next = point; /* the fastest, for they are ordered */
                break;
            }
            if (!taken && (next == NULL || point->burden < next->burden)) {
                next = point;
            }
        }
        if (next == NULL) {
            break;
        }
        starts[count++] = *next;
    }
    return count;
}

/* Lobes of chatter are narrower than the cells of the grid: where chatter forbids faster points,
 * many more speeds are tried at two feeds above the best. */
static void add_lobes(grid *on, double worth)
{
    const bite_search_problem *problem = on->wish->problem;
    const double above[] = {0.05, 0.4};
    int chatters = 0;
    for (size_t i = 0; i < on->evaluated; i++) {
        uint32_t limit = on->points[i].risk.limit;
        chatters |= on->points[i].burden > 1.0 &&
                    (limit == BITE_LIMIT_CHATTER || limit == BITE_LIMIT_CHATTER_TOOL);
    }
    double slow = log(problem->spindle[0]);
    double fast = log(problem->spindle[1]);
    if (!chatters || !(fast > slow)) {
        return;
    }
    size_t from = on->evaluated;
    on->count = from;
    for (size_t row = 0; row < 2 && on->count + LOBES <= POINTS_MOST; row++) {
        for (int i = 0; i < LOBES; i++) {
            double log_spindle = slow + (fast - slow) * i / (LOBES - 1);
            double log_feed =
                between(on->best.log_feed + above[row], log_least_feed(problem, log_spindle),
                        log_most_feed(problem, log_spindle));
            on->points[on->count++] =
                bite_point_at(on->wish, on->axial, on->radial, log_spindle, log_feed);
        }
    }
    walk(on, from, worth, 0.0);
}

/* Whether a start that was roughly refined is worth more. */
static int may_beat(const bite_point *start, const bite_point *best)
{
    if (best->burden > 1.0) {
        return start->burden < close_burden * best->burden;
    }
    return start->burden <= close_burden && start->cost < best->cost + close_cost;
}

/* The best point of one pair. A rough search compares pairs. */
static bite_point solve_pair(const bite_wish *wish, uint32_t axial, uint32_t radial, int rough,
                             double worth, bite_point *points)
{
    bite_point starts[STARTS];
    grid on;
    memset(&on, 0, sizeof on);
    on.wish = wish;
    on.axial = axial;
    on.radial = radial;
    on.points = points;
    on.confirming = rough ? DRAWS_ROUGH : 2 * DRAWS_NEAR;
    on.best.burden = on.best.cost = INFINITY;
    lay_out(&on, rough);
    walk(&on, 0, worth, on.step[1]);
    if (!rough) {
        add_lobes(&on, worth);
    }
    if (!isfinite(on.best.burden)) { /* nothing was worth an evaluation */
        return on.best;
    }
    if (rough && on.best.burden > close_burden) {
        return on.best;
    }
    int count = pick_starts(&on, starts);
    bite_point best = starts[0];
    for (int i = 0; i < (rough ? 1 : count); i++) {
        double step[2] = {0.5 * on.step[0], 0.5 * on.step[1]};
        zoom(wish, step, ROUNDS_ROUGH, DRAWS_ROUGH, &starts[i]);
        if (!rough && (i == 0 || may_beat(&starts[i], &best))) {
            zoom(wish, step, ROUNDS, DRAWS_NEAR, &starts[i]);
        }
        best = i == 0 || bite_point_better(&starts[i], &best) ? starts[i] : best;
    }
    return best;
}

/* ---- pass counts ---- */

typedef struct pair {
    uint32_t axial;
    uint32_t radial;
    double bound; /* no point of this pair has a lower cost */
    int rough;    /* 1: only the rough search was made */
    bite_point best;
} pair;

typedef struct pair_list {
    const bite_wish *wish;
    bite_point *points;
    double worth;
    size_t count;
    size_t best; /* count: none yet */
    pair *pairs; /* PAIRS */
} pair_list;

static size_t list_numbers(const bite_pass_count *of, uint32_t *numbers)
{
    size_t count = 0;
    uint32_t next = isnan(of->whole) ? of->given : of->fewest;
    uint32_t most = 2 * next > NUMBER_MOST ? 2 * next : NUMBER_MOST;
    while (count < NUMBERS && next <= most && bite_pass_count_allows(of, next)) {
        numbers[count++] = next;
        uint32_t step = (uint32_t)(number_step * next);
        next = step > next ? step : next + 1;
    }
    return count;
}

static void add_pair(pair_list *to, uint32_t axial, uint32_t radial)
{
    const bite_search_problem *problem = to->wish->problem;
    double log_spindle = log(problem->spindle[1]);
    bite_point fastest =
        bite_point_at(to->wish, axial, radial, log_spindle, log_most_feed(problem, log_spindle));
    pair fresh;
    memset(&fresh, 0, sizeof fresh);
    fresh.axial = axial;
    fresh.radial = radial;
    fresh.bound = fastest.cost;
    fresh.rough = 1;
    fresh.best.burden = fresh.best.cost = INFINITY;
    if (to->count < PAIRS) {
        to->pairs[to->count++] = fresh;
    }
}

static int by_bound(const void *a, const void *b)
{
    const pair *one = a;
    const pair *other = b;
    if (one->bound < other->bound || one->bound > other->bound) {
        return one->bound < other->bound ? -1 : 1;
    }
    uint64_t passes = (uint64_t)one->axial * one->radial;
    uint64_t others = (uint64_t)other->axial * other->radial;
    return passes != others ? (passes > others) - (passes < others)
                            : (one->axial > other->axial) - (one->axial < other->axial);
}

static void list_pairs(pair_list *to)
{
    uint32_t down[NUMBERS];
    uint32_t across[NUMBERS];
    if (to->wish->axial > 0) {
        add_pair(to, to->wish->axial, to->wish->radial);
        return;
    }
    size_t depths = list_numbers(&to->wish->problem->down, down);
    size_t widths = list_numbers(&to->wish->problem->across, across);
    uint64_t most = 2 * (uint64_t)down[0] * across[0];
    most = most > PRODUCT_MOST ? most : PRODUCT_MOST;
    for (size_t i = 0; i < depths; i++) {
        for (size_t k = 0; k < widths; k++) {
            if ((uint64_t)down[i] * across[k] <= most) {
                add_pair(to, down[i], across[k]);
            }
        }
    }
    qsort(to->pairs, to->count, sizeof *to->pairs, by_bound);
}

/* The best of all pairs; of those that are not within their limits the one with the fewest passes
 * that is nearly as good. */
static int pair_better(const pair_list *list, size_t a, size_t b)
{
    const bite_point *one = &list->pairs[a].best;
    const bite_point *other = &list->pairs[b].best;
    if ((one->burden <= 1.0) != (other->burden <= 1.0)) {
        return one->burden <= 1.0;
    }
    return one->burden <= 1.0 ? bite_point_better(one, other)
                              : one->burden < nearly_as_good * other->burden;
}

static double worth_of(const pair_list *list)
{
    int found = list->best < list->count && list->pairs[list->best].best.burden <= 1.0;
    return found ? fmin(list->worth, list->pairs[list->best].best.cost) : list->worth;
}

/* Takes the best of the pairs. Those of a rough search do not compare with others. */
static void choose_pair(pair_list *list, int rough)
{
    for (size_t i = 0; i < list->count; i++) {
        if (list->pairs[i].rough == rough && pair_better(list, i, list->best)) {
            list->best = i;
        }
    }
}

static void try_pair(pair_list *list, size_t at, int rough)
{
    pair *one = &list->pairs[at];
    double worth = at == list->best ? list->worth : worth_of(list) + (rough ? close_cost : 0.0);
    if (one->bound > worth) {
        return;
    }
    bite_point found = solve_pair(list->wish, one->axial, one->radial, rough, worth, list->points);
    if (!rough || bite_point_better(&found, &one->best)) {
        one->best = found;
    }
    one->rough = rough;
    if (list->best == at) { /* by more draws it may have become worse than others */
        choose_pair(list, rough);
    } else if (isfinite(one->best.burden) &&
               (list->best == list->count || pair_better(list, at, list->best))) {
        list->best = at;
    }
}

static size_t find_pair(const pair_list *list, uint32_t axial, uint32_t radial)
{
    size_t at = 0;
    while (at < list->count &&
           (list->pairs[at].axial != axial || list->pairs[at].radial != radial)) {
        at++;
    }
    return at;
}

/* Steps of a part of the box, for a point that was found on a grid of so many points each way. */
static void set_steps(const bite_wish *wish, int points, double *step)
{
    const bite_search_problem *problem = wish->problem;
    step[0] = log(problem->spindle[1] / problem->spindle[0]) / points;
    step[1] = log(problem->tooth[1] / problem->tooth[0]) / points;
}

/* All neighbours of the best pair, and again from the better one, until none is better. */
static void try_neighbours(pair_list *list)
{
    static const int moves[][2] = {{-1, 0}, {1, 0},  {0, -1}, {0, 1}, {-1, 1},
                                   {1, -1}, {-2, 0}, {0, -2}, {2, 0}, {0, 2}};
    const bite_search_problem *problem = list->wish->problem;
    int moved = 1;
    while (moved && list->count + sizeof moves / sizeof *moves <= PAIRS) {
        const uint32_t axial = list->pairs[list->best].axial;
        const uint32_t radial = list->pairs[list->best].radial;
        for (size_t i = 0; i < sizeof moves / sizeof *moves; i++) {
            uint32_t down = axial + (uint32_t)moves[i][0]; /* wraps below 0, which is not allowed */
            uint32_t across = radial + (uint32_t)moves[i][1];
            if (bite_pass_count_allows(&problem->down, down) &&
                bite_pass_count_allows(&problem->across, across) &&
                find_pair(list, down, across) == list->count) {
                add_pair(list, down, across);
                try_pair(list, list->count - 1, 1);
            }
        }
        moved = list->pairs[list->best].axial != axial || list->pairs[list->best].radial != radial;
    }
}

/* The most promising pair of which only a rough search was made: the best within the limits, or the
 * least burdened of those that may be within them and faster. list->count: none. */
static size_t most_promising(const pair_list *list)
{
    const bite_point *best = &list->pairs[list->best].best;
    size_t next = list->count;
    for (size_t i = 0; i < list->count; i++) {
        const pair *one = &list->pairs[i];
        int may_win = one->best.burden <= 1.0 ? may_beat(&one->best, best)
                                              : one->best.burden <= close_burden &&
                                                    (best->burden > 1.0 || one->bound < best->cost);
        if (one->rough && may_win &&
            (next == list->count || bite_point_better(&one->best, &list->pairs[next].best))) {
            next = i;
        }
    }
    return next;
}

/* Refines the point of a pair by all draws; by these it may be beyond its limits, and the search
 * for it begins with larger steps. Nonzero: the pair is still the best. */
static int confirm(pair_list *list, size_t at)
{
    bite_point *point = &list->pairs[at].best;
    int within = point->burden <= 1.0;
    double step[2];
    set_steps(list->wish, 8 * ROWS, step);
    zoom(list->wish, step, ROUNDS_ALL, SIZE_MAX, point);
    if (within && point->burden > 1.0) {
        set_steps(list->wish, 2 * ROWS, step);
        zoom(list->wish, step, ROUNDS, SIZE_MAX, point);
    }
    choose_pair(list, 0);
    return list->best == at;
}

/* Refines the best pair and the most promising others, and the best of them by all draws. */
static void refine_pairs(pair_list *list)
{
    size_t next = list->best;
    for (int i = 0; i < REFINED && next < list->count; i++) {
        try_pair(list, next, 0);
        next = most_promising(list);
    }
    for (int i = 0; i < REFINED && isfinite(list->pairs[list->best].best.burden); i++) {
        if (confirm(list, list->best)) {
            return;
        }
    }
}

/* Whether the pairs from this one on are not worth trying. */
static int in_vain(const pair_list *list, size_t at)
{
    if (list->best == list->count) {
        return 0;
    }
    const pair *best = &list->pairs[list->best];
    const pair *one = &list->pairs[at];
    uint64_t passes = (uint64_t)best->axial * best->radial;
    return best->best.burden > 1.0 &&
           (uint64_t)one->axial * one->radial > PASSES_IN_VAIN * passes + PASSES_AT_LEAST;
}

bite_status bite_search_everywhere(const bite_wish *wish, double worth, bite_point *best,
                                   bite_error *error)
{
    const bite_allocator *allocator = &wish->problem->request.allocator;
    pair_list list = {wish, NULL, worth, 0, 0, NULL};
    list.points = bite_memory_grow(allocator, NULL, POINTS_MOST, sizeof *list.points);
    list.pairs = bite_memory_grow(allocator, NULL, PAIRS, sizeof *list.pairs);
    if (list.points == NULL || list.pairs == NULL) {
        bite_memory_free(allocator, list.points);
        bite_memory_free(allocator, list.pairs);
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a search");
    }
    list_pairs(&list);
    list.best = list.count;
    for (size_t i = 0; i < list.count && (list.count > 1 || wish->quick) && !in_vain(&list, i);
         i++) {
        try_pair(&list, i, 1);
    }
    best->burden = best->cost = INFINITY;
    if (list.best == list.count) {
        list.best = 0;
    }
    if (!wish->quick) {
        if (wish->axial == 0 && list.pairs[list.best].best.burden <= close_burden) {
            try_neighbours(&list);
        }
        refine_pairs(&list);
    }
    *best = list.pairs[list.best].best;
    bite_memory_free(allocator, list.points);
    bite_memory_free(allocator, list.pairs);
    return BITE_OK;
}

void bite_search_nearby(const bite_wish *wish, double reach, int rounds, size_t draws,
                        bite_point *best)
{
    double step[2] = {0.5 * log(reach), 0.5 * log(reach)};
    zoom(wish, step, rounds, draws, best);
}

const char *bite_goal_name(uint32_t goal)
{
    static const char *const names[BITE_GOAL_COUNT] = {"cool", "gentle", "fine", "fast"};
    return goal < BITE_GOAL_COUNT ? names[goal] : NULL;
}
