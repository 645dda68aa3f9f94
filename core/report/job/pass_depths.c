/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The depths of a pass as they are entered. */
#include "core/report/job/pass_depths.h"
#include "core/units/format_quantity.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

/* Whole steps in a length; one that is within rounding of the next step is that step. */
static double steps_in(double length, double step)
{
    return floor(length / step + 1e-6);
}

bite_pass_depths bite_pass_depths_of(double feature, double each, bite_units units)
{
    const double step = bite_control_step(units);
    double whole = steps_in(feature, step);
    double one = fmin(steps_in(each, step), whole);
    if (!isfinite(whole) || !isfinite(one) || one < 1.0) {
        return (bite_pass_depths){1.0, each, each, feature};
    }
    double full = floor(whole / one);
    double rest = whole - full * one;
    int joined = rest <= full; /* what rounding left */
    return (bite_pass_depths){joined ? full : full + 1.0, one * step,
                              (joined ? one + rest : rest) * step, whole * step};
}

bite_pass_depths bite_pass_depths_of_pass(const bite_planned_pass *pass, bite_units units)
{
    double whole = pass->step_down * ((double)pass->passes - 1.0) + pass->last_step;
    return bite_pass_depths_of(whole, pass->step_down, units);
}

void bite_pass_depths_write(const bite_pass_depths *depths, bite_units units, const char *times,
                            char *to, size_t size)
{
    char each[40];
    char last[40];
    bite_control_length_write(depths->each, units, each, sizeof each);
    bite_control_length_write(depths->last, units, last, sizeof last);
    int equal = strcmp(each, last) == 0;
    if (depths->count < 2.0) {
        (void)snprintf(to, size, "%s", last);
    } else if (equal) {
        (void)snprintf(to, size, "%.0f %s %s", depths->count, times, each);
    } else {
        each[strcspn(each, " ")] = 0;
        char counted[40] = "";
        if (depths->count > 2.0) {
            (void)snprintf(counted, sizeof counted, "%.0f %s ", depths->count - 1.0, times);
        }
        (void)snprintf(to, size, "%s%s + %s", counted, each, last);
    }
}
