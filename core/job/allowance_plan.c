/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The stock that is left on a wall for its last lap: no more than the lap needs, for the less it
 * takes the less it bends.
 *
 * The lap must reach below everything that the pass before may have done to the wall: its error to
 * the high end of its band, which bends into the wall or away from it, its runout and its feed
 * marks. The two tools do not meet on one path either: the half of the tolerance that a cut leaves
 * to machine, datum and gauge (limits_part.c) is that of both. And the lap must form a chip.
 *
 * More makes the last lap bend more, less leaves marks and overcuts of roughing (paper: on the
 * finish allowance in end milling, KoreaScience JAKO200411922346771, its abstract). The sum is
 * derived here, of amounts that may all add up.
 */
#include "core/job/allowance_plan.h"
#include "core/cut/limits_part.h"
#include <math.h>

static const double rounded_to = 10e-6; /* m, as a stock to leave is entered */
static const double more = 1.5;         /* times as much, where the edge would rub */

static double round_up(double metres)
{
    return ceil(metres / rounded_to - 1e-6) * rounded_to;
}

static double known(double number)
{
    return isnan(number) ? 0.0 : number;
}

double bite_plan_allowance_after(const bite_answer *before, double tolerance)
{
    const bite_value *error = &before->result.values[BITE_WALL_ERROR];
    double worst = fmax(known(error->value), known(error->high)); /* without draws: no band */
    double marks = known(before->result.values[BITE_ROUGHNESS_WALL].value);
    double machine = 0.5 * (isnan(tolerance) ? bite_tolerance_default : tolerance);
    return round_up(worst + before->full.runout + marks + machine);
}

int bite_plan_lap_cuts(const bite_answer *lap)
{
    const bite_limit *rubbing = &lap->result.limits[BITE_LIMIT_RUBBING];
    return !rubbing->applies || rubbing->verdict <= BITE_CLEAR;
}

double bite_plan_allowance_more(double allowance)
{
    return round_up(more * allowance);
}
