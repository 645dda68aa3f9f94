/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether what was typed can be true together. What is passed over in silence would be taken for
 * heard. */
#include "core/request/consistency.h"
#include "core/base/error.h"
#include "core/names/registry.h"
#include <math.h>
#include <string.h>

#define MILL (1u << BITE_MILL)
#define DRILL (1u << BITE_DRILL_HOLE)
#define CHAMFER (1u << BITE_CHAMFER)

/* Inputs that say something in some operations alone. */
static const struct {
    const char *input;
    unsigned operations;
    const char *instead;
} speaks[] = {
    {"width", MILL, "leave it out; operation mill cuts sideways"},
    {"feature_width", MILL, "leave it out; operation mill cuts sideways"},
    {"corner_radius", MILL, "leave it out; operation mill has tools with corners"},
    {"side", MILL | CHAMFER, "leave it out: a hole has no side"},
    {"entry", MILL | CHAMFER, "leave it out: a drill goes straight down"},
    {"entry_feed", MILL | CHAMFER, "leave it out: a drill goes in at its feed"},
    {"ramp_angle", MILL | CHAMFER, "leave it out: a drill goes straight down"},
    {"blind", MILL | CHAMFER, "leave the chips out: a hole is always closed"},
    {"wall_thickness", MILL | CHAMFER, "leave it out: no thin wall beside a hole is judged"},
    {"inside_radius", MILL | CHAMFER, "leave it out: a hole has no inside corners"},
    {"point_angle", DRILL, "leave it out, or say operation drill"},
    {"taper", CHAMFER, "leave it out, or say operation chamfer"},
    {"tip_diameter", CHAMFER, "leave it out, or say operation chamfer"},
    {"tip_below", CHAMFER, "leave it out, or say operation chamfer"},
};

/* Inputs that say nothing without another. */
static const struct {
    const char *input;
    const char *needs;
    const char *hint;
} leaning[] = {
    {"wall_length", "wall_thickness", "say how thick the wall is too (--wall), or leave it out"},
    {"wall_height", "wall_thickness", "say how thick the wall is too (--wall), or leave it out"},
    {"floor_span", "floor_thickness", "say how thick the floor is too (--floor), or leave it out"},
    {"floor_length", "floor_span", "say the floor's shorter span too, or leave it out"},
    {"bridge_span", "bridge_thickness", "say how thick the bridge is too, or leave it out"},
    {"bridge_thickness", "bridge_span", "say how far the bridge spans too, or leave it out"},
    {"bridge_width", "bridge_span", "say how far the bridge spans too, or leave it out"},
};

/* The first is a part of the second, or its lower end. */
static const struct {
    const char *part;
    const char *whole;
    const char *hint;
} within[] = {
    {"depth", "feature_depth",
     "depth is that of one pass, feature_depth that of the whole feature: were they mixed up?"},
    {"width", "feature_width",
     "width is that of one pass, feature_width that of the whole feature: were they mixed up?"},
    {"spindle_slowest", "spindle_fastest", "were they mixed up?"},
    {"tip_diameter", "diameter", "the flat at a cone's tip is smaller than the tool"},
};

/* A choice types the depth of a pass rounded up, by no more than this (m). */
static const double typed_step = 6e-6;

static const bite_typed_input *typed_of(const bite_request *request, const char *name)
{
    return &request->typed[bite_input_index(bite_input_find(name))];
}

/* A word that is the one taken where nothing is said says nothing, unless it is of a pair that both
 * are wishes. */
static int says(const bite_request *request, const char *name)
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
    for (size_t i = 0; i < sizeof speaks / sizeof *speaks; i++) {
        if (bite_input_find(speaks[i].input) == input) {
            return (speaks[i].operations & 1u << operation) != 0;
        }
    }
    return 1;
}

/* A chamfer's own checks have better words for what it has no use for (core/cut/pass.c). */
static bite_status check_operation(const bite_request *request, uint32_t operation,
                                   bite_error *error)
{
    for (size_t i = 0; i < sizeof speaks / sizeof *speaks && operation < 32; i++) {
        const char *name = speaks[i].input;
        int known = operation == BITE_CHAMFER && strcmp(name, "feature_width") != 0 &&
                    (speaks[i].operations & MILL) != 0;
        if (says(request, name) && !known && (speaks[i].operations & 1u << operation) == 0) {
            bite_error_set(error, BITE_OUT_OF_RANGE, "%s says nothing in operation %s", name,
                           bite_input_word(bite_input_find("operation"), operation));
            return refuse(error, name, speaks[i].instead);
        }
    }
    return BITE_OK;
}

static bite_status check_leaning(const bite_request *request, const bite_cut *cut,
                                 bite_error *error)
{
    for (size_t i = 0; i < sizeof leaning / sizeof *leaning; i++) {
        if (says(request, leaning[i].input) &&
            isnan(*bite_input_number_of(cut, bite_input_find(leaning[i].needs)))) {
            bite_error_set(error, BITE_OUT_OF_RANGE, "%s says nothing without %s", leaning[i].input,
                           leaning[i].needs);
            return refuse(error, leaning[i].input, leaning[i].hint);
        }
    }
    if (cut->entry == BITE_ENTRY_OUTSIDE &&
        (says(request, "entry_feed") || says(request, "ramp_angle"))) {
        const char *name = says(request, "entry_feed") ? "entry_feed" : "ramp_angle";
        bite_error_set(error, BITE_OUT_OF_RANGE,
                       "%s says nothing where the tool comes in from outside", name);
        return refuse(error, name, "say the entry too: plunge, ramp or helix; or leave it out");
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
        double slack = part->kind == BITE_KIND_LENGTH ? typed_step : 0.0;
        if ((says(request, within[i].part) || says(request, within[i].whole)) &&
            of_part > of_whole + slack) {
            char text[2][40] = {"", ""};
            size_t length = 0;
            if (bite_quantity_write(of_part, (bite_kind)part->kind, BITE_METRIC, text[0],
                                    sizeof text[0], &length, NULL) != BITE_OK ||
                bite_quantity_write(of_whole, (bite_kind)whole->kind, BITE_METRIC, text[1],
                                    sizeof text[1], &length, NULL) != BITE_OK) {
                return bite_error_set(error, BITE_FAULT, "a quantity cannot be written");
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

/* A chamfer is cut in one pass: what it is deep may be said either way, but not in two. */
static bite_status check_chamfer(const bite_request *request, const bite_cut *cut,
                                 bite_error *error)
{
    char text[2][40] = {"", ""};
    int two = says(request, "depth") && says(request, "feature_depth") &&
              cut->feature_depth > cut->depth + typed_step;
    if (cut->operation != BITE_CHAMFER || !two) {
        return BITE_OK;
    }
    if (!write_lengths(cut->feature_depth, cut->depth, text)) {
        return bite_error_set(error, BITE_FAULT, "a quantity cannot be written");
    }
    bite_error_set(error, BITE_OUT_OF_RANGE,
                   "feature_depth of %s is not the depth of %s, and a chamfer is cut in one pass",
                   text[0], text[1]);
    return refuse(error, "feature_depth", "say the chamfer's depth alone");
}

/* How far a cut that leaves no floor may go beyond the part into what lies under it, apart from a
 * drill's point (estimate). */
static const double beyond_most = 1e-3; /* m */

/* What is cut away and what is left under it lie in the stock, or in the part where nothing was
 * said of the stock. */
static bite_status check_thickness(const bite_request *request, const bite_cut *cut,
                                   bite_error *error)
{
    char text[2][40] = {"", ""};
    const char *of = isnan(cut->stock_thickness) ? "part_thickness" : "stock_thickness";
    double thickness = isnan(cut->stock_thickness)
                           ? cut->part_thickness
                           : fmax(cut->stock_thickness, cut->part_thickness);
    const char *deep = says(request, "feature_depth") ? "feature_depth" : "depth";
    double depth = says(request, "feature_depth") ? cut->feature_depth : cut->depth;
    int floored = cut->floor_thickness > 0.0;
    double point = cut->operation == BITE_DRILL_HOLE ? 0.5 * cut->diameter : 0.0;
    double thicker =
        isnan(cut->stock_tolerance) ? 0.0 : cut->stock_tolerance; /* as it may be delivered */
    double slack = thicker + (floored ? typed_step : beyond_most + point);
    if (!says(request, deep) || !says(request, of) ||
        !(depth + (floored ? cut->floor_thickness : 0.0) > thickness + slack)) {
        return BITE_OK;
    }
    if (!write_lengths(depth, thickness, text)) {
        return bite_error_set(error, BITE_FAULT, "a quantity cannot be written");
    }
    bite_error_set(error, BITE_OUT_OF_RANGE, "%s of %s%s is more than %s of %s", deep, text[0],
                   floored ? ", with the floor_thickness under it," : "", of, text[1]);
    return refuse(
        error, deep,
        "one of them is wrong, or a cut through the part goes far into what lies under it");
}

bite_status bite_request_check_consistency(const bite_request *request, const bite_cut *cut,
                                           bite_error *error)
{
    bite_status status = check_operation(request, cut->operation, error);
    status = status != BITE_OK ? status : check_leaning(request, cut, error);
    status = status != BITE_OK ? status : check_chamfer(request, cut, error);
    status = status != BITE_OK ? status : check_thickness(request, cut, error);
    return status != BITE_OK ? status : check_within(request, cut, error);
}
