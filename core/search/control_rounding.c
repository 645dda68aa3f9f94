/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Settings as a person types them. */
#include "core/base/number.h"
#include "core/search/search_space.h"
#include <math.h>
#include <stdio.h>

/* The depth or width of a pass as it is typed: up, so that the last pass is the thinner one. */
double bite_type_depth(double depth, uint32_t units)
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

/* The better of the rounded neighbours, by the search's own judge. */
void bite_type_point(bite_trial *of, uint32_t units)
{
    double rpm = 1.0 / 60.0;
    double speed = (units == BITE_INCH ? 25.4e-3 : 1e-3) / 60.0;
    double n_step = (of->point.spindle >= 2000.0 * rpm ? 100.0 : 10.0) * rpm;
    double f_step = step_of(of->point.feed / speed) * speed;
    bite_point best = {0.0, 0.0, INFINITY, INFINITY, 0, 0};
    int n_fixed = of->search.spindle[0] == of->search.spindle[1];
    int f_fixed = !isnan(of->search.feed);
    for (int i = 0; i < 4; i++) {
        double n = n_fixed ? of->point.spindle : n_step * (floor(of->point.spindle / n_step * (1.0 + 1e-9)) + i % 2);
        double f = f_fixed ? of->point.feed : f_step * (floor(of->point.feed / f_step * (1.0 + 1e-9)) + i / 2);
        if (n > 0.0 && f > 0.0 && n <= of->search.spindle[1] * (1.0 + 1e-9)) {
            bite_point point = bite_optimum_at(&of->search, n, f);
            if (bite_optimum_better(&point, &best)) {
                best = point;
            }
        }
    }
    if (best.spindle > 0.0 && of->search.tooth[0] < of->search.tooth[1]) {
        of->point = best;
    }
}

/* A point stands in it whatever the locale of the host. */
bite_status bite_type_number(bite_request *request, const char *input, double number, const char *unit, bite_error *error)
{
    char digits[40];
    char text[BITE_TYPED_MOST];
    (void)bite_number_write(number, 10, digits, sizeof digits);
    (void)snprintf(text, sizeof text, "%s%s", digits, unit);
    return bite_request_set(request, input, text, error);
}

bite_status bite_type_in(bite_trial *of, uint32_t units, bite_error *error)
{
    bite_status status = bite_type_number(&of->request, "spindle_speed", 60.0 * of->point.spindle, "rpm", error);
    if (status == BITE_OK) {
        status = bite_type_number(&of->request, "feed_rate", 60e3 * of->point.feed, "mm/min", error);
    }
    if (status == BITE_OK && !isnan(of->parting.depth)) {
        of->full.depth = of->checked.requested.depth = of->checked.full.depth = bite_type_depth(of->full.depth, units);
        status = bite_type_number(&of->request, "depth", 1e3 * of->full.depth, "mm", error);
    }
    if (status == BITE_OK && !isnan(of->parting.width)) {
        status = bite_type_number(&of->request, "width", 1e3 * of->full.width, "mm", error);
    }
    return status;
}
