/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The search for spindle speed and feed with given pass counts. */
#include "core/search/settings_search.h"
#include "core/cut/limits_part.h"
#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

/* Grids over the whole box: fine, rough, and of an axis that is free alone. */
enum { COLUMNS = 17, ROWS = 13, COLUMNS_ROUGH = 9, ROWS_ROUGH = 9, ALONE = 129 };
/* Speeds at which chatter is looked at, a few percent apart, and lobes of it that are searched:
 * from the fastest on they are ever narrower and lower. */
enum { SPEEDS = 97, LOBES_MOST = 8 };
enum { BATCH = 16 };

/* Regions that are refined, how often their steps are halved, and how often a region may move. */
enum { STARTS = 4, ROUNDS_ROUGH = 2, ROUNDS = 5, MOVES = 8 };

/* Draws are made in stages. What is exceeded in more of them than by the luck of so many standard
 * deviations is not drawn further. */
static const size_t stages[] = {128, 512, 2048, SIZE_MAX};
enum { STAGES = sizeof stages / sizeof *stages };
static const double by_luck = 2.0;

/* Predictions are doubted in proportion to their distance in logarithms, up to 2, but hardly below
 * this one, where the error grows with its square. */
static const double nearby = 0.3;

/* Points that are more burdened than this are no start, and those within the other are nearly
 * within the limits. */
static const double start_most = 2.0;
static const double close_start = 1.12;

/* Time to leave the hole and return for one peck, s (estimate: twice some millimetres at the rapids
 * of a small machine, and the reversals). */
static const double time_of_peck = 0.5;

/* Ra of "a good finish" if none was requested: the unit of BITE_GOAL_FINE (common practice). */
static const double default_finish = 1.6e-6; /* m */

/* ---- one point ---- */

static double goal_value(const bite_search_problem *problem, const bite_estimate *estimate,
                         double quantile)
{
    const bite_cut *requested = &problem->requested;
    double tolerance = isnan(requested->tolerance) ? bite_tolerance_default : requested->tolerance;
    double finish = isnan(requested->finish) ? default_finish : requested->finish;
    switch (problem->goal) {
    case BITE_GOAL_COOL:
        return estimate->rise;
    case BITE_GOAL_FINE:
        return estimate->error / (0.5 * tolerance) + 0.25 * estimate->marks / finish;
    case BITE_GOAL_GENTLE:
        return quantile;
    default:
        return (double)NAN;
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
    const bite_search_problem *problem = wish->problem;
    bite_point point;
    memset(&point, 0, sizeof point);
    point.axial = axial;
    point.radial = radial;
    point.log_spindle = log_spindle;
    point.log_feed = log_feed;
    point.at = bite_problem_setting(
        problem, axial, radial, between(exp(log_spindle), problem->spindle[0], problem->spindle[1]),
        isnan(problem->feed) ? exp(log_feed) : problem->feed);
    point.burden = INFINITY;
    point.cost = time_of(problem, &point);
    return point;
}

static uint32_t governing(const bite_estimate *estimate)
{
    uint32_t most = 0;
    for (uint32_t i = 1; i < BITE_LIMIT_COUNT; i++) {
        double worst = estimate->binds[most] ? estimate->utilization[most] : 0.0;
        most = estimate->binds[i] && estimate->utilization[i] > worst ? i : most;
    }
    return most;
}

/* The goal has no value in a material without forces: then the quantile decides alone. */
static void weigh(const bite_wish *wish, const bite_estimate *estimate, bite_point *point)
{
    const double rounding = 1.0 - 1e-9; /* of the logarithms */
    bite_setting_risk risk = bite_drawn_settings_risk(wish->problem->drawn, &point->at, estimate,
                                                      wish->rule, wish->beyond * wish->quantile);
    double far = fmin(2.0, risk.distance);
    double trusted = 1.0 + wish->doubt * far * far / (far + nearby);
    double cautious = risk.distance > 0.0 ? 1.0 + wish->caution : 1.0;
    double quantile = fmax(risk.exact, cautious * risk.quantile / trusted);
    point->quantile = risk.quantile;
    point->distance = risk.distance;
    point->goal = goal_value(wish->problem, estimate, risk.quantile);
    point->soft = estimate->soft;
    point->limit = governing(estimate);
    double share = isfinite(wish->level) ? point->goal / wish->level : 0.0;
    point->burden = rounding * quantile / wish->quantile;
    point->burden = share > point->burden ? share : point->burden;
    point->burden = point->cost > wish->worth ? INFINITY : point->burden;
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

/* Evaluates at most BATCH points, the fastest first. *fastest: the cost of the best point within
 * the limits; slower ones are of no use. */
static void evaluate_batch(const bite_wish *wish, bite_point *points, size_t count, double *fastest)
{
    bite_setting settings[BATCH] = {{0.0, 0.0, 0.0, 0.0}};
    bite_estimate estimates[BATCH];
    for (size_t i = 0; i < count; i++) {
        settings[i] = points[i].at;
    }
    bite_estimate_cache_get(wish->problem->estimates, settings, count, estimates);
    for (size_t i = 0; i < count && !below(*fastest, points[i].cost); i++) {
        weigh(wish, &estimates[i], &points[i]);
        *fastest = points[i].burden <= 1.0 ? fmin(*fastest, points[i].cost) : *fastest;
    }
}

static void evaluate_ordered(const bite_wish *wish, bite_point *points, size_t count)
{
    double fastest = INFINITY;
    for (size_t from = 0; from < count && !below(fastest, points[from].cost); from += BATCH) {
        size_t some = count - from < BATCH ? count - from : BATCH;
        evaluate_batch(wish, points + from, some, &fastest);
    }
}

void bite_points_evaluate(const bite_wish *wish, bite_point *points, size_t count)
{
    qsort(points, count, sizeof *points, by_cost);
    evaluate_ordered(wish, points, count);
}

/* The burden if only so many draws were made, and they were bad luck. */
static double least_burden(const bite_wish *wish, const bite_estimate *estimate, size_t draws,
                           const bite_point *point)
{
    bite_limit_rule rule = *wish->rule;
    bite_wish lucky = *wish;
    bite_point at = *point;
    double allowed = rule.allowed;
    rule.allowed += by_luck * sqrt(allowed * (1.0 - allowed) / (double)draws);
    lucky.rule = &rule;
    if (!(rule.allowed < 1.0)) {
        return 0.0;
    }
    weigh(&lucky, estimate, &at);
    return at.burden;
}

bite_status bite_point_draw(const bite_wish *wish, double enough, bite_point *point,
                            bite_error *error)
{
    bite_status status = BITE_OK;
    bite_estimate estimate;
    if (bite_watch_step(wish->problem->request.watch, 0)) {
        return BITE_NO_MEMORY;
    }
    bite_estimate_cache_get(wish->problem->estimates, &point->at, 1, &estimate);
    for (size_t i = isinf(enough) ? STAGES - 1 : 0; i < STAGES; i++) {
        status =
            bite_drawn_settings_add(wish->problem->drawn, &point->at, &estimate, stages[i], error);
        if (status != BITE_OK) {
            return status; /* what has no draws predicts nothing */
        }
        if (i + 1 < STAGES && least_burden(wish, &estimate, stages[i], point) > enough) {
            break;
        }
    }
    weigh(wish, &estimate, point);
    return status;
}

void bite_point_limits(const bite_wish *wish, const bite_point *point,
                       bite_limit_risk limits[BITE_LIMIT_COUNT])
{
    bite_estimate estimate;
    bite_estimate_cache_get(wish->problem->estimates, &point->at, 1, &estimate);
    bite_drawn_settings_limits(wish->problem->drawn, &point->at, &estimate, wish->rule, limits);
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

bite_point bite_point_within(const bite_wish *wish, const bite_point *passes, double log_spindle,
                             double log_feed)
{
    const bite_search_problem *problem = wish->problem;
    log_spindle = between(log_spindle, log(problem->spindle[0]), log(problem->spindle[1]));
    log_feed = between(log_feed, log_least_feed(problem, log_spindle),
                       log_most_feed(problem, log_spindle));
    return bite_point_at(wish, passes->axial, passes->radial, log_spindle, log_feed);
}

/* The grid of one pair of pass counts, and what was found on it. */
typedef struct grid {
    const bite_wish *wish;
    uint32_t axial;
    uint32_t radial;
    double step[2]; /* of the logarithms of spindle speed and feed */
    int rows;
    size_t count;
    size_t evaluated;
    bite_point *points; /* BITE_PAIR_POINTS */
    bite_point best;
} grid;

/* The points with one spindle speed. */
static void add_column(grid *to, double log_spindle)
{
    const bite_search_problem *problem = to->wish->problem;
    for (int k = 0; k < to->rows && to->count < BITE_PAIR_POINTS; k++) {
        double log_feed = k + 1 < to->rows ? log_least_feed(problem, log_spindle) + k * to->step[1]
                                           : log_most_feed(problem, log_spindle);
        to->points[to->count++] =
            bite_point_at(to->wish, to->axial, to->radial, log_spindle, log_feed);
    }
}

static void lay_out(grid *to, int fine)
{
    const bite_search_problem *problem = to->wish->problem;
    double slow = log(problem->spindle[0]);
    double fast = log(problem->spindle[1]);
    double wide = log_most_feed(problem, slow) - log_least_feed(problem, slow);
    int columns = !(fast > slow) ? 1 : !(wide > 0.0) ? ALONE : fine ? COLUMNS : COLUMNS_ROUGH;
    to->rows = !(wide > 0.0) ? 1 : !(fast > slow) ? ALONE : fine ? ROWS : ROWS_ROUGH;
    to->step[0] = columns > 1 ? (fast - slow) / (columns - 1) : 0.0;
    to->step[1] = to->rows > 1 ? wide / (to->rows - 1) : 0.0;
    to->count = 0;
    for (int i = 0; i < columns; i++) {
        add_column(to, i + 1 < columns ? slow + i * to->step[0] : fast);
    }
}

static void keep_better(bite_point *best, const bite_point *points, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        if (bite_point_better(&points[i], best)) {
            *best = points[i];
        }
    }
}

/* Evaluates the points from `from` on, the fastest first, until the next ones are of no use. slack:
 * how much slower than the best a point may be and still lead to a faster one between the points of
 * the grid. */
static void walk(grid *on, size_t from, double worth, double slack)
{
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
        evaluate_ordered(on->wish, next, some);
        keep_better(&on->best, next, some);
        on->evaluated += some;
        if (some < BATCH) {
            break;
        }
    }
}

/* How much of the limit of chatter each of SPEEDS speeds uses, the slowest first, at the fastest
 * feed that each may have: the feed hardly shifts the lobes. Returns how many of them there are. */
static int list_chatter(const grid *on, double *log_spindle, double *used)
{
    const bite_search_problem *problem = on->wish->problem;
    const bite_point passes = {.axial = on->axial, .radial = on->radial};
    double slow = log(problem->spindle[0]);
    double fast = log(problem->spindle[1]);
    bite_setting settings[BATCH];
    bite_estimate estimates[BATCH];
    for (int from = 0; from < SPEEDS; from += BATCH) {
        int some = SPEEDS - from < BATCH ? SPEEDS - from : BATCH;
        for (int i = 0; i < some; i++) {
            bite_point point = bite_point_within(
                on->wish, &passes, slow + (fast - slow) * (from + i) / (SPEEDS - 1), INFINITY);
            log_spindle[from + i] = point.log_spindle;
            settings[i] = point.at;
        }
        bite_estimate_cache_get(problem->estimates, settings, (size_t)some, estimates);
        for (int i = 0; i < some; i++) {
            used[from + i] = fmax(estimates[i].utilization[BITE_LIMIT_CHATTER],
                                  estimates[i].utilization[BITE_LIMIT_CHATTER_TOOL]);
        }
    }
    return SPEEDS;
}

/* Lobes of chatter are narrower than the cells of the grid: where chatter forbids faster points,
 * the speeds at which it is least are added to the grid, the fastest of them first. */
static void add_lobes(grid *on, double worth, double slack)
{
    const bite_search_problem *problem = on->wish->problem;
    double log_spindle[SPEEDS];
    double used[SPEEDS];
    int chatters = 0;
    for (size_t i = 0; i < on->evaluated; i++) {
        uint32_t limit = on->points[i].limit;
        chatters |= on->points[i].burden > 1.0 &&
                    (limit == BITE_LIMIT_CHATTER || limit == BITE_LIMIT_CHATTER_TOOL);
    }
    if (!chatters || !(problem->spindle[1] > problem->spindle[0])) {
        return;
    }
    size_t from = on->evaluated;
    on->count = from;
    for (int i = list_chatter(on, log_spindle, used) - 2, lobes = 0; i > 0 && lobes < LOBES_MOST;
         i--) {
        if (used[i] < used[i + 1] && used[i] <= used[i - 1]) {
            add_column(on, log_spindle[i]);
            lobes++;
        }
    }
    walk(on, from, worth, slack);
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

/* Five by five points around the best; those that could not be better are left out. known: 1: also
 * every other one, which was among the last ones when the steps were twice as large. */
static size_t lay_out_near(const bite_wish *wish, const double *step, const bite_point *best,
                           int known, bite_point *points)
{
    size_t count = 1;
    int stride = best->burden <= 1.0 ? 1 : 2; /* beyond the limits, three by three are enough */
    points[0] = *best;
    for (int i = -2; i <= 2; i += stride) {
        for (int k = -2; k <= 2; k += stride) {
            bite_point point = bite_point_within(wish, best, best->log_spindle + i * step[0],
                                                 best->log_feed + k * step[1]);
            int useless = (best->burden <= 1.0 && below(best->cost, point.cost)) ||
                          (known && i % 2 == 0 && k % 2 == 0);
            if (!useless && !is_listed(points, count, point.log_spindle, point.log_feed)) {
                points[count++] = point;
            }
        }
    }
    return count;
}

/* Moves to better points until the steps are small. A step is halved unless the best point moved to
 * the edge of its grid. */
static void zoom(const bite_wish *wish, double *step, int rounds, bite_point *best)
{
    bite_point points[26];
    int known = 0;
    bite_points_evaluate(wish, best, 1);
    for (int round = 0, moves = 0; round < rounds;) {
        const bite_point from = *best;
        size_t count = lay_out_near(wish, step, best, known, points);
        bite_points_evaluate(wish, points + 1, count - 1);
        keep_better(best, points + 1, count - 1);
        int far = fabs(best->log_spindle - from.log_spindle) > 1.5 * step[0] ||
                  fabs(best->log_feed - from.log_feed) > 1.5 * step[1];
        known = !far && from.burden <= 1.0;
        if (far && moves < MOVES) {
            moves++;
        } else {
            step[0] *= 0.5;
            step[1] *= 0.5;
            round++;
        }
    }
}

void bite_search_nearby(const bite_wish *wish, double reach, int rounds, bite_point *best)
{
    double step[2] = {0.5 * log(reach), 0.5 * log(reach)};
    zoom(wish, step, rounds, best);
}

/* ---- one pair of pass counts ---- */

static int is_near(const grid *on, const bite_point *a, const bite_point *b)
{
    return fabs(a->log_spindle - b->log_spindle) < 1.5 * on->step[0] + 1e-9 &&
           fabs(a->log_feed - b->log_feed) < 1.5 * on->step[1] + 1e-9;
}

/* The best point of the grid, and of those that would be better in turn the fastest that is nearly
 * within the limits and the least burdened one. */
static int pick_starts(const grid *on, int most, bite_point *starts)
{
    int count = 1;
    starts[0] = on->best;
    while (count < most) {
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

/* Refines the starts and returns the best of them. */
static bite_point refine(const grid *on, int fine, bite_point *starts, int count)
{
    bite_point best = on->best;
    for (int i = 0; i < count; i++) {
        double step[2] = {0.5 * on->step[0], 0.5 * on->step[1]};
        zoom(on->wish, step, ROUNDS_ROUGH, &starts[i]);
        if (fine) {
            zoom(on->wish, step, ROUNDS, &starts[i]);
        }
        keep_better(&best, &starts[i], 1);
    }
    return best;
}

bite_point bite_search_pair(const bite_wish *wish, uint32_t axial, uint32_t radial, int fine,
                            const bite_point *last, double worth, bite_point *points)
{
    bite_point starts[STARTS + 1];
    int count = 1;
    grid on;
    memset(&on, 0, sizeof on);
    on.wish = wish;
    on.axial = axial;
    on.radial = radial;
    on.points = points;
    on.best.burden = on.best.cost = INFINITY;
    lay_out(&on, fine);
    walk(&on, 0, worth, on.step[1]);
    add_lobes(&on, worth, on.step[1]);
    if (!isfinite(on.best.burden) ||
        (on.best.burden > wish->beyond && (!fine || isfinite(worth)))) {
        return on.best;
    }
    if (last == NULL) {
        count = pick_starts(&on, fine ? STARTS : 1, starts);
    } else {
        starts[0] = on.best;
        starts[count++] = *last;
    }
    return refine(&on, fine, starts, count);
}

const char *bite_goal_word(uint32_t goal)
{
    static const char *const names[BITE_GOAL_COUNT] = {"usual", "gentle", "fine", "fast", "cool"};
    return goal < BITE_GOAL_COUNT ? names[goal] : NULL;
}
