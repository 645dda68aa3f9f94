/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether the inputs of a request can be true together. An input without an effect is refused: if
 * it were ignored in silence, the user would believe that it was taken into account. */
#include "core/request/consistency.h"
#include "core/base/error.h"
#include "core/names/registry.h"
#include <math.h>
#include <string.h>

#define MILL (1u << BITE_MILL)
#define DRILL (1u << BITE_DRILL_HOLE)
#define CHAMFER (1u << BITE_CHAMFER)
#define TAP (1u << BITE_TAP)
#define REAM (1u << BITE_REAM)

/* Inputs that have an effect in some operations only. */
static const struct {
    const char *input;
    unsigned operations;
    const char *instead;
} operation_inputs[] = {
    {"width", MILL, "leave it out, or use operation mill, which cuts sideways"},
    {"feature_width", MILL, "leave it out, or use operation mill, which cuts sideways"},
    {"corner_radius", MILL, "leave it out, or use operation mill, whose tools have corners"},
    {"spring_passes", MILL, "leave it out, or use operation mill, which cuts sideways"},
    {"side", MILL | CHAMFER, "leave it out: a hole has no side"},
    {"entry", MILL | CHAMFER, "leave it out: a drill enters straight down"},
    {"entry_feed", MILL | CHAMFER, "leave it out: a drill enters at its feed rate"},
    {"ramp_angle", MILL | CHAMFER, "leave it out: a drill enters straight down"},
    {"blind", MILL | CHAMFER | TAP, "leave it out: a hole is always closed to its chips"},
    {"wall_thickness", MILL | CHAMFER, "leave it out: a thin wall beside a hole is not judged"},
    {"inside_radius", MILL | CHAMFER, "leave it out: a hole has no inside corners"},
    {"point_angle", DRILL, "leave it out, or use operation drill"},
    {"taper", MILL | CHAMFER, "leave it out, or use operation mill or chamfer"},
    {"tip_diameter", MILL | CHAMFER, "leave it out, or use operation mill or chamfer"},
    {"tip_below", CHAMFER, "leave it out, or use operation chamfer"},
    {"pitch", TAP, "leave it out, or use operation tap"},
    {"thread_share", TAP, "leave it out, or use operation tap"},
    {"tap_lead", TAP, "leave it out, or use operation tap"},
    {"ream_stock", REAM, "leave it out, or use operation ream"},
    {"hole_diameter", TAP | REAM, "leave it out, or use operation tap or ream"},
};

/* Inputs that have no effect without another. */
static const struct {
    const char *input;
    const char *needs;
    const char *hint;
} dependent_inputs[] = {
    {"spring_passes", "width", "give the width of the side cut, or leave spring_passes out"},
    {"wall_length", "wall_thickness",
     "give the thickness of the wall too (--wall), or leave it out"},
    {"wall_height", "wall_thickness",
     "give the thickness of the wall too (--wall), or leave it out"},
    {"floor_span", "floor_thickness",
     "give the thickness of the floor too (--floor), or leave it out"},
    {"floor_length", "floor_span", "give the shorter span of the floor too, or leave it out"},
    {"bridge_span", "bridge_thickness", "give the thickness of the bridge too, or leave it out"},
    {"bridge_thickness", "bridge_span", "give the span of the bridge too, or leave it out"},
    {"bridge_width", "bridge_span", "give the span of the bridge too, or leave it out"},
};

/* The first is a part of the second, or the lower end of the same range. */
static const struct {
    const char *part;
    const char *whole;
    const char *hint;
} within[] = {
    {"depth", "feature_depth",
     "depth is for one pass, feature_depth for the whole feature: were they swapped?"},
    {"width", "feature_width",
     "width is for one pass, feature_width for the whole feature: were they swapped?"},
    {"spindle_slowest", "spindle_fastest", "were they swapped?"},
    {"tip_diameter", "diameter", "the flat at the tip of a cone is smaller than the tool"},
    {"hole_diameter", "diameter",
     "hole_diameter is that of the hole before it is tapped or reamed"},
};

/* A choice rounds the depth of a pass up by no more than this (m). */
static const double rounding_step = 6e-6;

static const bite_typed_input *typed_of(const bite_request *request, const char *name)
{
    return &request->typed[bite_input_index(bite_input_find(name))];
}

/* Whether an input was given. A word that is the default anyway does not count, except for the
 * side: both of its words are a deliberate choice. */
static int is_given(const bite_request *request, const char *name)
{
    const bite_typed_input *typed = typed_of(request, name);
    return typed->given &&
           (bite_input_find(name)->words == 0 || typed->word > 0 || strcmp(name, "side") == 0);
}

static bite_status refuse(bite_error *error, const char *input, const char *hint)
{
    bite_error_key(error, "%s", input);
    bite_error_hint(error, "%s", hint);
    return BITE_OUT_OF_RANGE;
}

int bite_input_affects(const bite_input *input, uint32_t operation)
{
    for (size_t i = 0; i < sizeof operation_inputs / sizeof *operation_inputs; i++) {
        if (bite_input_find(operation_inputs[i].input) == input) {
            return (operation_inputs[i].operations & 1u << operation) != 0;
        }
    }
    return 1;
}

/* A chamfer's own checks name its unused inputs more precisely (core/cut/pass.c). */
static bite_status check_operation(const bite_request *request, uint32_t operation,
                                   bite_error *error)
{
    for (size_t i = 0; i < sizeof operation_inputs / sizeof *operation_inputs; i++) {
        const char *name = operation_inputs[i].input;
        int known = operation == BITE_CHAMFER && strcmp(name, "feature_width") != 0 &&
                    (operation_inputs[i].operations & MILL) != 0;
        if (is_given(request, name) && !known &&
            (operation_inputs[i].operations & 1u << operation) == 0) {
            bite_error_set(error, BITE_OUT_OF_RANGE, "%s has no effect in operation %s", name,
                           bite_input_word(bite_input_find("operation"), operation));
            return refuse(error, name, operation_inputs[i].instead);
        }
    }
    return BITE_OK;
}

static bite_status check_dependent_inputs(const bite_request *request, const bite_cut *cut,
                                          bite_error *error)
{
    for (size_t i = 0; i < sizeof dependent_inputs / sizeof *dependent_inputs; i++) {
        if (is_given(request, dependent_inputs[i].input) &&
            isnan(*bite_input_number_of(cut, bite_input_find(dependent_inputs[i].needs)))) {
            bite_error_set(error, BITE_OUT_OF_RANGE, "%s has no effect without %s",
                           dependent_inputs[i].input, dependent_inputs[i].needs);
            return refuse(error, dependent_inputs[i].input, dependent_inputs[i].hint);
        }
    }
    if (cut->entry == BITE_ENTRY_OUTSIDE &&
        (is_given(request, "entry_feed") || is_given(request, "ramp_angle"))) {
        const char *name = is_given(request, "entry_feed") ? "entry_feed" : "ramp_angle";
        bite_error_set(error, BITE_OUT_OF_RANGE,
                       "%s has no effect when the tool enters from outside the part", name);
        return refuse(error, name, "give the entry too (plunge, ramp or helix), or leave it out");
    }
    return BITE_OK;
}

static bite_status check_within(const bite_request *request, const bite_cut *cut, bite_error *error)
{
    for (size_t i = 0; i < sizeof within / sizeof *within; i++) {
        const bite_input *part = bite_input_find(within[i].part);
        const bite_input *whole = bite_input_find(within[i].whole);
        double of_part = *bite_input_number_of(cut, part);
        double of_whole = *bite_input_number_of(cut, whole);
        double slack = part->kind == BITE_KIND_LENGTH ? rounding_step : 0.0;
        if ((is_given(request, within[i].part) || is_given(request, within[i].whole)) &&
            of_part > of_whole + slack) {
            char text[2][40] = {"", ""};
            size_t length = 0;
            if (bite_quantity_write(of_part, (bite_kind)part->kind, BITE_METRIC, text[0],
                                    sizeof text[0], &length, NULL) != BITE_OK ||
                bite_quantity_write(of_whole, (bite_kind)whole->kind, BITE_METRIC, text[1],
                                    sizeof text[1], &length, NULL) != BITE_OK) {
                return bite_error_set(error, BITE_FAULT,
                                      "the quantities of a message cannot be written");
            }
            bite_error_set(error, BITE_OUT_OF_RANGE, "%s of %s is more than %s of %s",
                           within[i].part, text[0], within[i].whole, text[1]);
            return refuse(error, within[i].part, within[i].hint);
        }
    }
    return BITE_OK;
}

static int write_lengths(double first, double second, char text[2][40])
{
    size_t length = 0;
    return bite_quantity_write(first, BITE_KIND_LENGTH, BITE_METRIC, text[0], 40, &length, NULL) ==
               BITE_OK &&
           bite_quantity_write(second, BITE_KIND_LENGTH, BITE_METRIC, text[1], 40, &length, NULL) ==
               BITE_OK;
}

/* The flat at the tip belongs to a cone. */
static bite_status check_tip(const bite_request *request, const bite_cut *cut, bite_error *error)
{
    if (cut->operation != BITE_MILL || !isnan(cut->taper) || !is_given(request, "tip_diameter")) {
        return BITE_OK;
    }
    bite_error_set(error, BITE_OUT_OF_RANGE, "tip_diameter has no effect without taper");
    return refuse(error, "tip_diameter", "give the taper of the cone too, or leave it out");
}

/* A chamfer or a groove that a cone cuts is cut in one pass: its depth may be given under either
 * name, but not as two depths. */
static bite_status check_one_pass(const bite_request *request, const bite_cut *cut,
                                  bite_error *error)
{
    char text[2][40] = {"", ""};
    int groove = cut->operation == BITE_MILL && !isnan(cut->taper);
    int hole = cut->operation == BITE_TAP || cut->operation == BITE_REAM;
    int two = is_given(request, "depth") && is_given(request, "feature_depth") &&
              cut->feature_depth > cut->depth + rounding_step;
    if ((cut->operation != BITE_CHAMFER && !groove && !hole) || !two) {
        return BITE_OK;
    }
    if (!write_lengths(cut->feature_depth, cut->depth, text)) {
        return bite_error_set(error, BITE_FAULT, "the quantities of a message cannot be written");
    }
    bite_error_set(error, BITE_OUT_OF_RANGE,
                   "feature_depth of %s differs from depth of %s, but a %s is cut in one pass",
                   text[0], text[1],
                   groove                        ? "groove milled with a cone"
                   : cut->operation == BITE_TAP  ? "tapped hole"
                   : cut->operation == BITE_REAM ? "reamed hole"
                                                 : "chamfer");
    return refuse(error, "feature_depth",
                  groove ? "give the depth of the groove only once"
                  : hole ? "give the depth of the hole only once"
                         : "give the depth of the chamfer only once");
}

/* How far the feed that was given may be from a pitch each turn: a control's rounding. */
static const double synchronous = 0.02;

/* A tap advances by its pitch each turn, whatever feed is given. */
static bite_status check_tap_feed(const bite_request *request, const bite_cut *cut,
                                  bite_error *error)
{
    const bite_typed_input *feed = typed_of(request, "feed_rate");
    double thread = cut->pitch * cut->spindle_speed;
    if (cut->operation != BITE_TAP || !feed->given) {
        return BITE_OK;
    }
    if (feed->kind == BITE_KIND_TOOTH_FEED) {
        bite_error_set(error, BITE_OUT_OF_RANGE,
                       "a tap advances by its pitch each turn; it has no feed per tooth");
        return refuse(error, "feed_rate", "leave the feed out: it follows from the thread");
    }
    if (fabs(cut->feed_rate - thread) > synchronous * thread) {
        bite_error_set(error, BITE_OUT_OF_RANGE,
                       "the feed is %.4g times the pitch each turn, and would strip the thread or "
                       "break the tap",
                       cut->feed_rate / thread);
        return refuse(error, "feed_rate", "leave the feed out: it follows from the thread");
    }
    return BITE_OK;
}

/* How far a cut without a floor may go through the part into what lies under it, not counting a
 * drill's point (estimate). */
static const double overtravel_most = 1e-3; /* m */

/* The cut and the floor under it must fit into the thickness of the stock, or of the part if the
 * stock was not given. */
static bite_status check_thickness(const bite_request *request, const bite_cut *cut,
                                   bite_error *error)
{
    char text[2][40] = {"", ""};
    const char *of = isnan(cut->stock_thickness) ? "part_thickness" : "stock_thickness";
    double thickness = isnan(cut->stock_thickness)
                           ? cut->part_thickness
                           : fmax(cut->stock_thickness, cut->part_thickness);
    const char *deep = is_given(request, "feature_depth") ? "feature_depth" : "depth";
    double depth = is_given(request, "feature_depth") ? cut->feature_depth : cut->depth;
    int floored = cut->floor_thickness > 0.0;
    double point = cut->operation == BITE_DRILL_HOLE ? 0.5 * cut->diameter : 0.0;
    double thicker = isnan(cut->stock_tolerance)
                         ? 0.0
                         : cut->stock_tolerance; /* stock may be delivered thicker */
    double slack = thicker + (floored ? rounding_step : overtravel_most + point);
    if (!is_given(request, deep) || !is_given(request, of) ||
        !(depth + (floored ? cut->floor_thickness : 0.0) > thickness + slack)) {
        return BITE_OK;
    }
    if (!write_lengths(depth, thickness, text)) {
        return bite_error_set(error, BITE_FAULT, "the quantities of a message cannot be written");
    }
    bite_error_set(error, BITE_OUT_OF_RANGE, "%s of %s%s is more than %s of %s", deep, text[0],
                   floored ? ", with the floor_thickness under it," : "", of, text[1]);
    return refuse(
        error, deep,
        "one of them is wrong, or the cut goes through the part and far into what lies under it");
}

bite_status bite_request_check_consistency(const bite_request *request, const bite_cut *cut,
                                           bite_error *error)
{
    bite_status status = check_operation(request, cut->operation, error);
    status = status != BITE_OK ? status : check_dependent_inputs(request, cut, error);
    status = status != BITE_OK ? status : check_tip(request, cut, error);
    status = status != BITE_OK ? status : check_one_pass(request, cut, error);
    status = status != BITE_OK ? status : check_tap_feed(request, cut, error);
    status = status != BITE_OK ? status : check_thickness(request, cut, error);
    return status != BITE_OK ? status : check_within(request, cut, error);
}
