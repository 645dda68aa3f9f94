/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which speeds and feeds a choice may enter. The figures are those of the search, whose sources
 * they have; they are repeated here so that a search that oversteps them is found out. */
#include "tests/search/allowed_settings.h"
#include "tests/support/support.h"
#include <math.h>

/* The largest feed per tooth, in cutting diameters; for a drill per turn. */
static double largest_share(const bite_cut *cut)
{
    int metal = cut->substance == BITE_METAL;
    int hard = metal && cut->pressure_t > 1.5e9;
    switch (cut->operation) {
    case BITE_DRILL_HOLE:
        return 0.03 / cut->flutes;
    case BITE_CHAMFER:
        return metal ? hard ? 0.015 : 0.03 : 0.05;
    default:
        return (metal && cut->diameter >= 1e-3 ? 0.03 : 0.05) * (hard ? 0.5 : 1.0);
    }
}

/* A light side cut may run up to twice the feed. */
static double thinned(const bite_cut *cut)
{
    double q = cut->operation == BITE_MILL && !isnan(cut->width)
                   ? fmin(0.5, cut->width / cut->diameter)
                   : 0.5;
    return fmin(2.0, 0.5 / sqrt(q * (1.0 - q)));
}

/* Brittle edges chip at thicker chips, of the tooth that runout loads most. */
static double unchipped(const bite_cut *cut)
{
    double step = cut->flutes < 2.0 ? 0.0 : cut->runout * sin(M_PI / cut->flutes);
    return fmax(cut->chip_edge - step, 0.2 * cut->chip_edge);
}

static double charted_feed(const bite_cut *cut, const bite_result *result)
{
    const bite_limit *limit = &result->limits[BITE_LIMIT_UNPROVEN];
    return cut->operation != BITE_DRILL_HOLE && limit->applies ? limit->capacity / 1.5 : INFINITY;
}

static void limit_speeds(const bite_cut *cut, const bite_result *result, double widest,
                         allowed_settings *to)
{
    const bite_limit *edge = &result->limits[BITE_LIMIT_EDGE_SPEED];
    double most = fmin(cut->spindle_fastest, cut->tool_turn_limit); /* fmin ignores NaN */
    double least = fmin(fmax(cut->spindle_slowest, bite_input_find("spindle_speed")->least), most);
    if (cut->substance != BITE_METAL) {
        double turn = M_PI * cut->diameter;
        least = fmin(fmax(least, 4.5 / 60.0 / turn), most);
        most =
            cut->operation == BITE_DRILL_HOLE ? fmax(least, fmin(most, 61.0 / 60.0 / turn)) : most;
    }
    if (edge->applies) {
        most = fmax(least, fmin(most, edge->capacity / (M_PI * widest)));
    }
    to->spindle[0] = least;
    to->spindle[1] = most;
}

allowed_settings allowed_settings_of(const search_request *made, const bite_cut *cut)
{
    allowed_settings allowed;
    bite_error error = BITE_ERROR_INIT;
    bite_result result = {.struct_size = (uint32_t)sizeof result};
    bite_cut moving = *cut;
    double spindle = isnan(cut->spindle_speed) ? cut->spindle_fastest : cut->spindle_speed;
    moving.spindle_speed = spindle;
    moving.feed_rate =
        fmax(bite_input_find("feed_rate")->least, 5e-3 * cut->diameter * cut->flutes * spindle);
    ck_assert_msg(bite_cut_pass(&moving, &result, &error) == BITE_OK, "%s: %s %s", made->line,
                  error.key, error.message);
    double upper = result.values[BITE_SURFACE_SPEED].value / (M_PI * spindle);
    int cone = cut->operation == BITE_CHAMFER || !isnan(cut->taper);
    double widest = cone ? fmin(upper, cut->diameter) : cut->diameter;
    double share = cut->operation == BITE_DRILL_HOLE ? 3e-3 / cut->flutes : 5e-4;
    double most = largest_share(cut) * widest;
    most = cut->chip_edge > 0.0 ? fmin(most, unchipped(cut)) : most;
    allowed.tooth[0] = share * cut->diameter;
    allowed.tooth[1] = fmin(most * thinned(cut), charted_feed(cut, &result));
    limit_speeds(cut, &result, widest, &allowed);
    if (made->fixed_spindle) {
        allowed.spindle[0] = allowed.spindle[1] = spindle;
    }
    if (!isnan(made->tooth)) {
        allowed.tooth[0] = allowed.tooth[1] = made->tooth;
    }
    return allowed;
}

/* ---- what an operator enters ---- */

double entered_speed(double spindle)
{
    double rpm = 60.0 * spindle;
    double step = rpm >= 2000.0 ? 100.0 : 10.0;
    return step * floor(rpm / step * (1.0 + 1e-9)) / 60.0;
}

/* 1, 2 or 5 units of a digit: at most a twentieth of the feed. */
static double feed_step(double mm_min)
{
    double decade = pow(10.0, floor(log10(0.05 * mm_min)));
    double times = 0.05 * mm_min / decade;
    return (times >= 5.0 ? 5.0 : times >= 2.0 ? 2.0 : 1.0) * decade;
}

double entered_feed_above(double feed)
{
    double mm_min = 6e4 * feed;
    double step = feed_step(mm_min);
    return step * ceil(mm_min / step * (1.0 - 1e-9)) / 6e4;
}

double entered_feed_below(double feed)
{
    double mm_min = 6e4 * feed;
    double step = feed_step(mm_min);
    return step * floor(mm_min / step * (1.0 + 1e-9)) / 6e4;
}

double entered_depth(double depth)
{
    double step = depth > 50e-6 ? 5e-6 : 0.5e-6;
    return step * ceil(depth / step - 1e-6);
}
