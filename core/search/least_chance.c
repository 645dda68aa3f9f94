/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The least chance that something goes over.
 *
 * Margins are found at one point and used at others; where they leave nothing, the chance itself is looked for: a compass search in
 * the logarithms of spindle speed and feed per tooth, each place judged by the same draws, so that two places differ by what was
 * changed and not by luck. It finds the bottom of one valley.
 */
#include "core/names/registry.h"
#include "core/search/search_internal.h"
#include <math.h>
#include <string.h>

/* So much do the likeliest row's 95 % end count beside the chance, that there is a way down where all of the draws go over. */
static const double lean = 0.01;
static const double lean_most = 10.0;

static const double first_step = 0.7; /* a factor of two */
static const double last_step = 0.05;
#define LOOKS_MOST 60

/* Steps of a polish: a fifth at first, a few percent at last, as fine as what is typed. */
static const double polish_first = 0.2;
static const double polish_last = 0.02;
#define POLISHES_MOST 40

/* Better by less is not worth a draw. */
static const double worth_a_draw = 0.01;

/* given_up: as of a trial, or NULL. */
static double risk_of(const bite_result *result, const double *given_up)
{
    double worst = 0.0;
    double broken = 0.0;
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        const bite_limit *limit = &result->limits[i];
        if (!limit->applies || limit->advisory) {
            continue;
        }
        if (given_up != NULL && given_up[i] > 0.0) {
            broken = fmax(broken, limit->utilization / given_up[i] - 1.0);
        } else {
            worst = fmax(worst, isnan(limit->utilization_high) ? limit->utilization : limit->utilization_high);
        }
    }
    return result->chance + lean * fmin(lean_most, worst) + (broken > 0.0 ? 1.0 + broken : 0.0);
}

double bite_risk_of(const bite_trial *of, const bite_result *result)
{
    return risk_of(result, of->given_up);
}

double bite_risk_of_all(const bite_result *result)
{
    return risk_of(result, NULL);
}

/* A place of the search: the spindle speed and the feed per tooth, in logarithms. */
typedef struct place {
    double spindle;
    double tooth;
} place;

static double within(double value, const double *range)
{
    return fmin(fmax(value, log(range[0])), log(range[1]));
}

static void go_to(bite_trial *of, const place *at)
{
    of->point.spindle = exp(at->spindle);
    of->point.feed = isnan(of->search.feed) ? exp(at->tooth) * of->point.spindle * of->full.flutes : of->search.feed;
}

static place place_of(const bite_trial *of)
{
    place at = {within(log(of->point.spindle), of->search.spindle),
                within(log(of->point.feed / (of->point.spindle * of->full.flutes)), of->search.tooth)};
    return at;
}

static int same(const place *a, const place *b)
{
    return !(fabs(a->spindle - b->spindle) > 0.0) && !(fabs(a->tooth - b->tooth) > 0.0);
}

/* So many steps of spindle and tooth on; a feed that is fixed leaves the tooth as it is. */
static place ahead(const bite_trial *of, const place *from, const double *way, double step)
{
    place to = {within(from->spindle + way[0] * step, of->search.spindle),
                isnan(of->search.feed) ? within(from->tooth + way[1] * step, of->search.tooth) : from->tooth};
    return to;
}

static const double compass[][2] = {{1.0, 0.0}, {-1.0, 0.0}, {0.0, 1.0}, {0.0, -1.0}};

bite_status bite_risk_least(bite_trial *of, bite_result *result, bite_error *error)
{
    place best = place_of(of);
    go_to(of, &best);
    bite_status status = bite_trial_draw(of, result, error);
    double least = status == BITE_OK ? bite_risk_of(of, result) : 0.0;
    int looks = 0;
    for (double step = first_step; status == BITE_OK && step > last_step && looks < LOOKS_MOST;) {
        const place from = best;
        for (size_t way = 0; status == BITE_OK && way < sizeof compass / sizeof *compass; way++) {
            place to = ahead(of, &from, compass[way], step);
            bite_result seen;
            if (same(&to, &from)) {
                continue;
            }
            go_to(of, &to);
            status = bite_trial_draw(of, &seen, error);
            looks++;
            double risk = status == BITE_OK ? bite_risk_of(of, &seen) : INFINITY;
            if (risk < least) {
                least = risk;
                best = to;
                *result = seen;
            }
        }
        step = same(&best, &from) ? 0.5 * step : step;
    }
    go_to(of, &best);
    of->point = bite_optimum_at(&of->search, of->point.spindle, of->point.feed);
    return status;
}

/* ---- the best by the goal ---- */

/* Spindle and tooth in steps: along one of them, both, and along a limit that gives way to one where it meets the other. */
static const double ways_of_polish[][2] = {{1.0, 0.0}, {0.0, 1.0}, {1.0, -0.5}, {-0.5, 1.0}, {-1.0, 0.0}, {0.0, -1.0}};

static int gains(const bite_trial *of, const bite_point *to, const bite_point *from)
{
    double scale = of->search.goal == BITE_GOAL_FAST ? 1.0 : fabs(from->goal);
    return to->goal < from->goal - worth_a_draw * scale;
}

/* The cap of the search, which is no row and no draw judges. */
static int within_cap(const bite_trial *of, const bite_point *at)
{
    return !(of->search.cap > 0.0) || bite_optimum_capped(&of->search, at->spindle, at->feed) <= of->search.cap;
}

static int breaks_given_up(const bite_trial *of, const bite_result *result)
{
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        if (of->given_up[i] > 0.0 && result->limits[i].utilization > of->given_up[i]) {
            return 1;
        }
    }
    return 0;
}

/* One step that gains and is allowed. *status: of its draws. */
static int step_gains(bite_trial *of, const place *from, const double *way, double step, double allowed, bite_result *seen,
                      bite_status *status, bite_error *error)
{
    const bite_point before = of->point;
    place to = ahead(of, from, way, step);
    if (same(&to, from)) {
        return 0;
    }
    go_to(of, &to);
    of->point = bite_optimum_at(&of->search, of->point.spindle, of->point.feed);
    if (gains(of, &of->point, &before) && within_cap(of, &of->point)) {
        *status = bite_trial_draw(of, seen, error);
        if (*status == BITE_OK && seen->chance <= allowed && !breaks_given_up(of, seen)) {
            return 1;
        }
    }
    of->point = before;
    return 0;
}

/* ---- back to what is allowed ---- */

/* Spindle and tooth in steps. */
static const double ways_of_repair[][2] = {{0.0, -1.0}, {-1.0, 0.0}, {1.0, -0.5}, {-0.5, 1.0}, {1.0, 0.0}, {0.0, 1.0}};
#define MOVES_MOST 5

/* How good a step is: what is allowed before what is not; of the first the least loss, of the others the most of the chance for it.
 */
typedef struct step_seen {
    int allowed;
    size_t way;
    double loss;
    double worth;
    bite_point point;
    bite_result result;
} step_seen;

static double loss_of(const bite_trial *of, const bite_point *to, const bite_point *from)
{
    double scale = of->search.goal == BITE_GOAL_FAST ? 1.0 : fabs(from->goal);
    return fmax(0.0, to->goal - from->goal) / scale;
}

static int is_worth_more(const step_seen *a, const step_seen *b)
{
    return a->allowed != b->allowed ? a->allowed > b->allowed : a->allowed ? a->loss < b->loss : a->worth > b->worth;
}

/* A way from the point, as far as it can be told without draws. Returns whether it is one. */
static int look_along(bite_trial *of, size_t way, double step, step_seen *seen)
{
    const bite_point from = of->point;
    const place at = place_of(of);
    place to = ahead(of, &at, ways_of_repair[way], step);
    if (same(&to, &at)) {
        return 0;
    }
    go_to(of, &to);
    seen->way = way;
    seen->point = bite_optimum_at(&of->search, of->point.spindle, of->point.feed);
    seen->loss = loss_of(of, &seen->point, &from);
    of->point = from;
    return within_cap(of, &seen->point);
}

/* The best of the ways from the point, of those that lower the chance; the last one's first. Returns whether there is one. */
static int best_step(bite_trial *of, double step, double allowed, double risk, step_seen *best, bite_status *status,
                     bite_error *error)
{
    const double at_least = 0.02; /* of a loss: a way that costs nothing is not endlessly good */
    const bite_point from = of->point;
    const size_t count = sizeof ways_of_repair / sizeof *ways_of_repair;
    const size_t first = best->way;
    int any = 0;
    for (size_t i = 0; *status == BITE_OK && i < count; i++) {
        step_seen seen;
        if (!look_along(of, (first + i) % count, step, &seen) || (any && best->allowed && seen.loss >= best->loss)) {
            continue;
        }
        of->point = seen.point;
        *status = bite_trial_draw(of, &seen.result, error);
        of->point = from;
        double now = *status == BITE_OK ? bite_risk_of(of, &seen.result) : INFINITY;
        seen.allowed = seen.result.chance <= allowed;
        seen.worth = log(risk / now) / (at_least + seen.loss);
        if (now < risk && (!any || is_worth_more(&seen, best))) {
            *best = seen;
            any = 1;
        }
    }
    return any;
}

bite_status bite_risk_repair(bite_trial *of, double allowed, bite_result *result, bite_error *error)
{
    double step = polish_first;
    step_seen best;
    memset(&best, 0, sizeof best);
    bite_status status = BITE_OK;
    of->point = bite_optimum_at(&of->search, of->point.spindle, of->point.feed);
    for (int i = 0; status == BITE_OK && i < MOVES_MOST && result->chance > allowed && of->point.goal < of->beat; i++) {
        if (!best_step(of, step, allowed, bite_risk_of(of, result), &best, &status, error)) {
            return status;
        }
        of->point = best.point;
        *result = best.result;
        step *= 1.3;
    }
    return status;
}

/* ---- on to what is better ---- */

bite_status bite_risk_polish(bite_trial *of, double allowed, bite_result *result, bite_error *error)
{
    const size_t ways = sizeof ways_of_polish / sizeof *ways_of_polish;
    bite_status status = BITE_OK;
    for (double step = polish_first; step > polish_last; step *= 0.5) {
        for (size_t way = 0, taken = 0; status == BITE_OK && way < ways && taken < POLISHES_MOST; way++) {
            place from = place_of(of);
            bite_result seen;
            while (status == BITE_OK && taken++ < POLISHES_MOST &&
                   step_gains(of, &from, ways_of_polish[way], step, allowed, &seen, &status, error)) {
                *result = seen;
                from = place_of(of);
            }
        }
    }
    return status;
}
