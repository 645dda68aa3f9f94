/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Settings rounded to what an operator enters at a control. */
#include "core/search/control_rounding.h"
#include "core/search/search_space.h"
#include "core/units/format_quantity.h"
#include <math.h>

double bite_round_depth(double depth, uint32_t units)
{
    double step = units == BITE_INCH ? 25.4e-3 * 2e-4 : 5e-6;
    step = depth > 10.0 * step ? step : 0.1 * step;
    return step * ceil(depth / step - 1e-6);
}

static double step_of(double number)
{
    static const double steps[] = {1.0, 2.0, 5.0};
    double decade = pow(10.0, floor(log10(0.05 * number)));
    for (int i = 2; i >= 0; i--) {
        if (steps[i] * decade <= 0.05 * number) {
            return steps[i] * decade;
        }
    }
    return decade;
}

/* The best of the four rounded neighbours, by the goal and limits of the search, within the largest
 * feed per tooth times excess; spindle 0: none. */
static bite_point best_neighbour(const bite_search_problem *problem, uint32_t units, double excess)
{
    double most = excess * problem->search.tooth[1] * problem->full.flutes;
    double rpm = 1.0 / 60.0;
    double speed = (units == BITE_INCH ? 25.4e-3 : 1e-3) / 60.0;
    double n_step = (problem->point.spindle >= 2000.0 * rpm ? 100.0 : 10.0) * rpm;
    double f_step = step_of(problem->point.feed / speed) * speed;
    bite_point best = {0.0, 0.0, INFINITY, INFINITY, 0, 0};
    int n_fixed = problem->search.spindle[0] == problem->search.spindle[1];
    int f_fixed = !isnan(problem->search.feed);
    for (int i = 0; i < 4; i++) {
        double n = n_fixed
                       ? problem->point.spindle
                       : n_step * (floor(problem->point.spindle / n_step * (1.0 + 1e-9)) + i % 2);
        double f = f_fixed ? problem->point.feed
                           : f_step * (floor(problem->point.feed / f_step * (1.0 + 1e-9)) + i / 2);
        if (n > 0.0 && f > 0.0 && n <= problem->search.spindle[1] * (1.0 + 1e-9) &&
            (f_fixed || f <= most * n)) {
            bite_point point = bite_speed_feed_at(&problem->search, n, f);
            if (bite_speed_feed_better(&point, &best)) {
                best = point;
            }
        }
    }
    return best;
}

void bite_round_point(bite_search_problem *problem, uint32_t units)
{
    static const double excesses[] = {1.0 + 1e-9, 1.05, INFINITY};
    bite_point best = {0.0, 0.0, INFINITY, INFINITY, 0, 0};
    for (int i = 0; i < 3 && !(best.spindle > 0.0); i++) {
        best = best_neighbour(problem, units, excesses[i]);
    }
    if (best.spindle > 0.0 && problem->search.tooth[0] < problem->search.tooth[1]) {
        problem->point = best;
    }
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

bite_status bite_round_into_request(bite_search_problem *problem, uint32_t units, bite_error *error)
{
    bite_request *request = &problem->request;
    bite_status status =
        bite_request_set_rounded(request, "spindle_speed", problem->point.spindle, "rpm", error);
    if (status == BITE_OK) {
        status =
            bite_request_set_rounded(request, "feed_rate", problem->point.feed, "mm/min", error);
    }
    if (status == BITE_OK && !isnan(problem->counts.depth)) {
        problem->full.depth = problem->checked.requested.depth = problem->checked.full.depth =
            bite_round_depth(problem->full.depth, units);
        status = bite_request_set_rounded(request, "depth", problem->full.depth, "mm", error);
    }
    if (status == BITE_OK && !isnan(problem->counts.width)) {
        status = bite_request_set_rounded(request, "width", problem->full.width, "mm", error);
    }
    return status;
}
