/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Settings whose limits are clear together, for one number of passes.
 *
 * Limits enter the search with margins, the 95 % end of a row's use over its best estimate. Rows that are clear one by one may be
 * too likely together, and margins that were found at one point are used at others: from where the search ends, draws lead back to
 * what is allowed (risk.c), and from there on to what is better.
 */
#include "core/search/search_internal.h"
#include <math.h>

#define MARGINS_MOVED 3   /* margins found elsewhere may leave nothing where those of the point itself would: looked for so often */
#define REPAIRED_FROM 0.4 /* of the chance: from more on no way leads back */

double bite_chance_allowed(const bite_trial *of)
{
    return of->strictness * (1.0 - of->confidence);
}

double bite_chance_hardly_more(double least, double confidence)
{
    const double share = 0.25; /* of the odds: at the least chance the feed may be any, a tenth of what is as good */
    const double still = 0.47; /* tight, whatever more draws make of it */
    const double nearly = 1.2; /* so near to clear more draws may call it that */
    double more = least + share * least * (1.0 - least);
    if (least < nearly * (1.0 - confidence)) {
        return least;
    }
    return least < still ? fmin(more, still) : more;
}

/* A row that warns early keeps a small chance from being a clear cut. */
int bite_chance_is_clear(const bite_trial *of, const bite_result *result, double allowed)
{
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        const bite_limit *limit = &result->limits[i];
        int early = limit->verdict == BITE_TIGHT && limit->chance < 1.0 - of->confidence;
        if (limit->applies && !limit->advisory && early && !(of->given_up[i] > 0.0)) {
            return 0;
        }
    }
    return result->chance < allowed;
}

/* A coarse look may call by a hair too likely what is not. */
static const double coarsely = 1.1;

/* The best within margins; where those that were found elsewhere leave nothing, within those of the point itself. Together the
 * limits may still be too likely, or a margin too narrow: then on to where they are not. Coarse: for one number of passes after the
 * other. *result: the draws of the point. *clear: the limits are clear together. */
bite_status bite_chance_settle(bite_trial *of, int coarse, bite_result *result, int *clear, bite_error *error)
{
    double allowed = (coarse ? coarsely : 1.0) * bite_chance_allowed(of);
    bite_effort look = !coarse                                               ? BITE_LOOK_WHOLE
                       : of->search.goal == BITE_GOAL_FAST && !of->request.skip_change ? BITE_LOOK_FAIR
                                                                             : BITE_LOOK_ROUGH;
    bite_status status = BITE_OK;
    for (int i = 0; status == BITE_OK && i <= MARGINS_MOVED; i++) {
        of->point = bite_optimum_find(&of->search, look);
        status = bite_trial_draw(of, result, error);
        if (status != BITE_OK || of->point.worst <= 1.0 || bite_chance_is_clear(of, result, allowed)) {
            break;
        }
        bite_margins_set(of, result, 1.0);
    }
    if (status == BITE_OK && !bite_chance_is_clear(of, result, allowed) && result->chance < REPAIRED_FROM) {
        status = bite_risk_repair(of, allowed, result, error);
    }
    *clear = status == BITE_OK && bite_chance_is_clear(of, result, allowed);
    if (*clear && of->point.worst > 1.0) {
        (void)bite_margins_within_reach(of, &of->search, result);
        of->point = bite_optimum_at(&of->search, of->point.spindle, of->point.feed);
    }
    of->chance = status == BITE_OK ? result->chance : 1.0;
    return status;
}

bite_status bite_chance_confirm(bite_trial *of, bite_result *result, int *clear, bite_error *error)
{
    double allowed = bite_chance_allowed(of);
    bite_status status = bite_trial_draw(of, result, error);
    if (status == BITE_OK && !bite_chance_is_clear(of, result, allowed)) {
        status = bite_risk_repair(of, allowed, result, error);
    }
    *clear = status == BITE_OK && bite_chance_is_clear(of, result, allowed);
    of->chance = status == BITE_OK ? result->chance : 1.0;
    return status;
}

/* Margins so wide that the point is at their end, for its chance is what holds it. */
static void widen_to_point(bite_trial *of, const bite_result *at)
{
    const double scatters = 1.001;
    double times = INFINITY;
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        const bite_limit *limit = &at->limits[i];
        if (limit->applies && !limit->advisory && !(of->given_up[i] > 0.0) && limit->utilization > 0.0 && limit->utilization_high > scatters * limit->utilization) {
            times = fmin(times, (1.0 / limit->utilization - 1.0) / (limit->utilization_high / limit->utilization - 1.0));
        }
    }
    bite_margins_set(of, at, isfinite(times) && times > 1.0 ? times : 1.0);
}

/* The margins become those that the point can bear. */
static void stand(bite_trial *of, const bite_result *at, double allowed)
{
    const double held_by_chance = 0.7;
    of->chance = at->chance;
    bite_margins_set(of, at, 1.0);
    if (at->chance > held_by_chance * allowed) {
        widen_to_point(of, at);
    }
    (void)bite_margins_within_reach(of, &of->search, at);
    of->point = bite_optimum_at(&of->search, of->point.spindle, of->point.feed);
}

bite_status bite_trial_stand_at(bite_trial *of, const bite_point *point, bite_error *error)
{
    bite_result at;
    of->point = *point;
    bite_status status = bite_trial_draw(of, &at, error);
    if (status == BITE_OK) {
        stand(of, &at, 0.0);
    }
    return status;
}

/* Of few draws those settings are found that please them: all draws are less pleased. */
static const double unbiased = 0.75;

/* Draws tell what margins only come near to. */
bite_status bite_trial_polish(bite_trial *of, bite_error *error)
{
    double allowed = of->clear ? unbiased * bite_chance_allowed(of) : of->least_chance;
    bite_result at;
    bite_status status = bite_trial_draw(of, &at, error);
    status = status == BITE_OK ? bite_risk_polish(of, allowed, &at, error) : status;
    if (status == BITE_OK) {
        stand(of, &at, allowed);
    }
    return status;
}

/* From where it stands back to what is allowed by now. */
bite_status bite_trial_be_careful(bite_trial *of, bite_error *error)
{
    bite_result at;
    bite_status status = bite_trial_draw(of, &at, error);
    status = status == BITE_OK ? bite_risk_repair(of, bite_chance_allowed(of), &at, error) : status;
    if (status == BITE_OK) {
        stand(of, &at, 0.0);
    }
    return status;
}
