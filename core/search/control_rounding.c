/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Settings rounded to what an operator enters at a control. */
#include "core/search/control_rounding.h"
#include "core/units/format_quantity.h"
#include <math.h>

/* A round number is worth at most this share of the feed. */
static const double coarsest = 0.02;

static double step_of(double number)
{
    static const double steps[] = {1.0, 2.0, 5.0};
    double decade = pow(10.0, floor(log10(coarsest * number)));
    for (int i = 2; i >= 0; i--) {
        if (steps[i] * decade <= coarsest * number) {
            return steps[i] * decade;
        }
    }
    return decade;
}

/* Speeds and feeds around the point that can be entered. */
enum { SPEEDS = 3, FEEDS = 4 };

/* Those within the range of speeds and the largest feed per tooth times excess. */
static size_t list_rounded(const bite_wish *wish, const bite_point *at, double excess,
                           bite_point *points)
{
    const bite_search_problem *problem = wish->problem;
    double most = excess * problem->tooth[1] * problem->full.flutes;
    double rpm = 1.0 / 60.0;
    double unit = (problem->units == BITE_INCH ? 25.4e-3 : 1e-3) / 60.0;
    double n_step = (at->at.spindle >= 2000.0 * rpm ? 100.0 : 10.0) * rpm;
    double f_step = step_of(at->at.feed / unit) * unit;
    int n_fixed = !(problem->spindle[1] > problem->spindle[0]);
    int f_fixed = !isnan(problem->feed);
    size_t count = 0;
    for (int i = 0; i < (n_fixed ? 1 : SPEEDS); i++) {
        double n = n_fixed ? at->at.spindle
                           : n_step * (floor(at->at.spindle / n_step * (1.0 + 1e-9)) + i - 1);
        for (int k = 0; k < (f_fixed ? 1 : FEEDS); k++) {
            double f = f_fixed ? at->at.feed
                               : f_step * (floor(at->at.feed / f_step * (1.0 + 1e-9)) + k - 2);
            if (n > 0.0 && f > 0.0 && n <= problem->spindle[1] * (1.0 + 1e-9) &&
                (f_fixed || f <= most * n)) {
                points[count] = bite_point_at(wish, at->axial, at->radial, log(n), log(f));
                points[count].at.spindle = n; /* without the rounding of the logarithms */
                points[count++].at.feed = f;
            }
        }
    }
    return count;
}

/* A slower turn of the tap that can be entered; its feed follows from its pitch. */
static bite_point round_tap(const bite_wish *wish, const bite_point *at)
{
    const bite_search_problem *problem = wish->problem;
    double step = (at->at.spindle >= 2000.0 / 60.0 ? 100.0 : 10.0) / 60.0;
    double turns = step * floor(at->at.spindle / step * (1.0 + 1e-9));
    turns = turns >= problem->spindle[0] ? turns : turns + step;
    if (!(turns <= problem->spindle[1]) || !(problem->spindle[1] > problem->spindle[0])) {
        return *at; /* given, or nothing round is left */
    }
    double feed = problem->full.pitch * turns;
    bite_point rounded = bite_point_at(wish, at->axial, at->radial, log(turns), log(feed));
    rounded.at.spindle = turns;
    rounded.at.feed = feed;
    bite_points_evaluate(wish, &rounded, 1);
    return rounded;
}

bite_point bite_round_point(const bite_wish *wish, const bite_point *point)
{
    static const double excesses[] = {1.0 + 1e-9, 1.05, INFINITY};
    const bite_search_problem *problem = wish->problem;
    bite_point points[SPEEDS * FEEDS];
    bite_point best = *point;
    size_t count = 0;
    if (problem->full.operation == BITE_TAP) {
        return round_tap(wish, point);
    }
    if (isnan(problem->feed) && !(problem->tooth[1] > problem->tooth[0])) {
        return best; /* the feed per tooth was given, and is kept */
    }
    for (int i = 0; i < 3 && count == 0; i++) {
        count = list_rounded(wish, point, excesses[i], points);
    }
    if (count > 0) {
        bite_points_evaluate(wish, points, count);
        best = points[0];
        for (size_t i = 1; i < count; i++) {
            best = bite_point_better(&points[i], &best) ? points[i] : best;
        }
    }
    return best;
}

/* Significant digits to which an input is rounded: more than any control displays, so that binary
 * noise such as 0.30000000000000004 never reaches the answer. */
#define DIGITS_SET 10

bite_status bite_request_set_rounded(bite_request *request, const char *input, double si,
                                     const char *unit, bite_error *error)
{
    bite_kind kind = (bite_kind)bite_input_find(input)->kind;
    return bite_request_set_number(request, input, bite_unit_round(si, kind, unit, DIGITS_SET),
                                   error);
}

bite_status bite_round_into_request(bite_search_problem *problem, const bite_point *point,
                                    bite_error *error)
{
    bite_request *request = &problem->request;
    bite_status status =
        bite_request_set_rounded(request, "spindle_speed", point->at.spindle, "rpm", error);
    status = status != BITE_OK
                 ? status
                 : bite_request_set_rounded(request, "feed_rate", point->at.feed, "mm/min", error);
    if (status == BITE_OK && !isnan(problem->down.whole)) {
        status = bite_request_set_rounded(request, "depth", point->at.depth, "mm", error);
    }
    if (status == BITE_OK && !isnan(problem->across.whole)) {
        status = bite_request_set_rounded(request, "width", point->at.width, "mm", error);
    }
    return status;
}
