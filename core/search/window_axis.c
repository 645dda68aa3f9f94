/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An axis of an operating window: its input, its range and its points. */
#include "core/search/window_axis.h"
#include "core/base/error.h"
#include "core/cut/physics_inputs.h"
#include "core/names/registry.h"
#include "core/request/consistency.h"
#include <math.h>

/* An axis that spans more than this has equal steps in its logarithm. */
static const double logarithmic_from = 3.0;
/* One that spans more than this begins at 0 for all purposes of a shop. Its decades would fill the
 * picture, and the quotient of its ends need not be a number. */
static const double logarithmic_to = 1e12;

double bite_axis_at(const bite_axis *axis, double share)
{
    if (axis->input->whole) {
        return round(axis->least +
                     share * (axis->most - axis->least)); /* a number of flutes is whole */
    }
    if (axis->logarithmic) {
        return axis->least * pow(axis->most / axis->least, share);
    }
    return axis->least + share * (axis->most - axis->least);
}

double bite_axis_share(const bite_axis *axis, double value)
{
    if (axis->logarithmic) {
        return log(value / axis->least) / log(axis->most / axis->least);
    }
    return (value - axis->least) / (axis->most - axis->least);
}

size_t bite_axis_nearest(const bite_axis *axis)
{
    double share = fmin(1.0, fmax(0.0, bite_axis_share(axis, axis->here)));
    return (size_t)lround(share * (double)(axis->count - 1));
}

static void set_default_range(const bite_answer *answer, const bite_input *input, bite_axis *axis)
{
    const bite_cut *full = &answer->full;
    double here = axis->here;
    axis->least = here / 4.0;
    axis->most = here * 4.0;
    if (input->kind == BITE_KIND_TEMPERATURE) {
        axis->least = here - 30.0;
        axis->most = here + 30.0;
    } else if (input == bite_input_find("spindle_speed")) {
        double fastest = fmin(full->spindle_fastest, full->tool_turn_limit); /* fmin ignores NaN */
        axis->least = isnan(full->spindle_slowest) || !(full->spindle_slowest > 0.0)
                          ? here / 4.0
                          : full->spindle_slowest;
        axis->most = isnan(fastest)
                         ? here * 2.5
                         : 1.05 * fastest; /* a little beyond, so that the limit is visible */
        axis->least = fmax(axis->least, 0.01 * axis->most);
    } else if (input == bite_input_find("feed_rate")) {
        axis->least = here / 10.0;
        axis->most =
            isnan(full->feed_fastest) ? here * 10.0 : fmin(here * 10.0, 1.3 * full->feed_fastest);
    }
    if (input->kind != BITE_KIND_TEMPERATURE) { /* a share of an absolute one says nothing */
        axis->least = fmin(axis->least, 0.8 * here);
        axis->most = fmax(axis->most, 1.2 * here);
    }
    /* no cut is possible beyond these */
    if (input == bite_input_find("width")) {
        axis->most = fmin(axis->most, full->diameter);
    } else if (full->operation == BITE_CHAMFER && input == bite_input_find("depth")) {
        axis->most =
            fmin(axis->most,
                 0.5 * (full->diameter - full->tip_diameter) / tan(full->taper) - full->tip_below);
    } else if (bite_cut_is_groove(full) && input == bite_input_find("depth")) {
        axis->most =
            fmin(axis->most, 0.5 * (full->diameter - full->tip_diameter) / tan(full->taper));
    }
    axis->least = fmax(axis->least, input->least);
    axis->most = fmin(axis->most, input->most);
}

bite_status bite_axis_refuse(bite_error *error, const char *name, bite_status status,
                             const char *what, const char *hint)
{
    bite_error_set(error, status, "%.40s %s", name, what);
    bite_error_key(error, "%s", "axis");
    bite_error_hint(error, "%s", hint);
    return status;
}

bite_status bite_axis_make(const bite_answer *answer, const char *name, double least, double most,
                           bite_axis *axis, bite_error *error)
{
    const bite_input *input = bite_input_find(name);
    if (input == NULL) {
        return bite_axis_refuse(error, name, BITE_UNKNOWN_NAME,
                                "is not an input, so it cannot be an axis",
                                "list inputs shows all inputs");
    }
    if (input->words > 0) {
        return bite_axis_refuse(error, name, BITE_BAD_ARGUMENT,
                                "takes words; an axis needs numbers",
                                "list inputs shows all inputs");
    }
    if (!bite_input_affects(input, answer->full.operation)) {
        return bite_axis_refuse(error, name, BITE_BAD_ARGUMENT, "has no effect in this operation",
                                "use another input or another operation");
    }
    if (answer->full.operation == BITE_TAP && input == bite_input_find("feed_rate")) {
        return bite_axis_refuse(error, name, BITE_BAD_ARGUMENT,
                                "follows from the pitch when tapping, so it cannot be an axis",
                                "use another, such as --up depth or --up thread_share");
    }
    axis->input = input;
    axis->here = *bite_input_number_of(&answer->full, input);
    if (isnan(axis->here) && input == bite_input_find("width")) {
        axis->here = answer->full.diameter; /* a full slot */
    }
    if (isnan(axis->here)) {
        return bite_axis_refuse(error, name, BITE_MISSING,
                                "was not given, so the axis has no point in use", "give it too");
    }
    set_default_range(answer, input, axis);
    axis->least = isnan(least) ? axis->least : least;
    axis->most = isnan(most) ? axis->most : most;
    if (input->whole) {
        if (!(isnan(least) || least == floor(least)) || !(isnan(most) || most == floor(most))) {
            return bite_axis_refuse(
                error, name, BITE_OUT_OF_RANGE,
                "is a whole number: its axis must begin and end at whole numbers",
                "for example 1..4");
        }
        axis->least = ceil(axis->least);
        axis->most = floor(axis->most);
    }
    if (!(axis->least < axis->most && axis->least >= input->least && axis->most <= input->most)) {
        return bite_axis_refuse(error, name, BITE_OUT_OF_RANGE,
                                "has an axis that is empty or exceeds the range of the input",
                                "give it as LEAST..MOST");
    }
    double span = axis->most / axis->least;
    axis->logarithmic = !input->whole && input->kind != BITE_KIND_TEMPERATURE &&
                        axis->least > 0.0 && span > logarithmic_from && span <= logarithmic_to;
    return BITE_OK;
}

size_t bite_axis_points(const bite_axis *axis, size_t requested, size_t fallback)
{
    return axis->input->whole ? (size_t)lround(axis->most - axis->least) + 1
           : requested == 0   ? fallback
                              : requested;
}
