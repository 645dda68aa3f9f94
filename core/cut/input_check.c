/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Checks of a cut before anything is computed from it, and of a result before it is returned. */
#include "core/cut/input_check.h"
#include "core/base/error.h"
#include "core/cut/physics_inputs.h"
#include "core/names/inputs.h"
#include "core/names/registry.h"
#include "core/physics/geometry/chip_thickness.h"
#include "core/physics/geometry/thread.h"
#include "core/units/curve_range.h"
#include <float.h>
#include <math.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

static bite_status refuse(bite_error *error, bite_status status, const char *key,
                          const char *message, const char *hint)
{
    bite_error_set(error, status, "%s", message);
    bite_error_key(error, "%s", key);
    bite_error_hint(error, "%s", hint);
    return status;
}

static void write_quantity(double value, uint32_t kind, char *buffer, size_t size)
{
    size_t length = 0;
    if (isinf(value)) {
        (void)snprintf(buffer, size, "%s", value > 0.0 ? "infinite" : "minus infinity");
    } else if (bite_quantity_write(value, (bite_kind)kind, BITE_METRIC, buffer, size, &length,
                                   NULL) != BITE_OK ||
               length >= size) {
        (void)snprintf(buffer, size, "%s", "?");
    }
}

/* name: of the member; for a point of a curve, of the curve. */
static bite_status out_of_range(const char *name, double value, double least, double most,
                                uint32_t kind, bite_error *error)
{
    char given[40];
    char from[40];
    char to[40];
    write_quantity(value, kind, given, sizeof given);
    write_quantity(least, kind, from, sizeof from);
    write_quantity(most, kind, to, sizeof to);
    bite_error_set(error, BITE_OUT_OF_RANGE, "%s is %s; between %s and %s was expected", name,
                   given, from, to);
    bite_error_key(error, "%s", name);
    bite_error_hint(error, "%s", "check the unit and the number of zeros");
    return BITE_OUT_OF_RANGE;
}

/* ---- one member ---- */

static bite_status check_word(uint32_t word, const bite_input *input, bite_error *error)
{
    if (word < input->words) {
        return BITE_OK;
    }
    return refuse(error, BITE_BAD_ARGUMENT, input->name, "the value is not one of the choices",
                  "bite_input_word lists the choices");
}

static bite_status vanishes(const bite_input *input, double value, bite_error *error)
{
    char given[40];
    char least[40];
    write_quantity(value, input->kind, given, sizeof given);
    write_quantity(bite_input_grain(input), input->kind, least, sizeof least);
    bite_error_set(error, BITE_OUT_OF_RANGE, "%s is %s; 0, or at least %s, was expected",
                   input->name, given, least);
    bite_error_key(error, "%s", input->name);
    bite_error_hint(error, "%s", "check the unit and the number of zeros");
    return BITE_OUT_OF_RANGE;
}

static bite_status check_number(double value, const bite_input *input, bite_error *error)
{
    if (!isnan(value) && value >= input->least && value <= input->most) {
        return vanishes(input, value, error);
    }
    if (!isnan(value)) {
        return out_of_range(input->name, value, input->least, input->most, input->kind, error);
    }
    if (input->needed == 0) {
        return BITE_OK;
    }
    bite_error_set(error, BITE_MISSING, "%s is missing: %s", input->name, input->summary);
    bite_error_key(error, "%s", input->name);
    bite_error_hint(error, "%s", "this input has no default");
    return BITE_MISSING;
}

static bite_status check_inputs(const bite_cut *cut, bite_error *error)
{
    bite_status status = BITE_OK;
    const bite_input *end = bite_input_table + bite_input_table_count;
    for (const bite_input *input = bite_input_table; input < end && status == BITE_OK; input++) {
        const char *member = (const char *)cut + input->offset;
        if (input->words > 0) {
            status = check_word(*(const uint32_t *)(const void *)member, input, error);
            continue;
        }
        double value = *(const double *)(const void *)member;
        if (!bite_input_accepts(input, value)) { /* or it is not given */
            status = check_number(value, input, error);
        }
    }
    return status;
}

/* ---- curves ---- */

static bite_status check_point(const bite_curve *curve, const bite_curve_input *input, uint32_t at,
                               bite_error *error)
{
    double temperature = curve->temperature[at];
    double value = curve->value[at];
    if (isnan(temperature) || isnan(value)) {
        return refuse(error, BITE_BAD_ARGUMENT, input->name, "a point of the curve is not a number",
                      "fill both arrays up to count");
    }
    if (!(temperature >= BITE_CURVE_COLDEST && temperature <= BITE_CURVE_HOTTEST)) {
        return out_of_range(input->name, temperature, BITE_CURVE_COLDEST, BITE_CURVE_HOTTEST,
                            BITE_KIND_TEMPERATURE, error);
    }
    if (at > 0 && !(temperature > curve->temperature[at - 1])) {
        return refuse(error, BITE_BAD_ARGUMENT, input->name,
                      "the temperatures of the curve do not rise",
                      "sort the points from cold to hot, without repeats");
    }
    return value >= input->least && value <= input->most
               ? BITE_OK
               : out_of_range(input->name, value, input->least, input->most, input->kind, error);
}

static bite_status check_curve(const bite_curve *curve, const bite_curve_input *input,
                               bite_error *error)
{
    bite_status status = BITE_OK;
    if (curve->count > BITE_CURVE_POINTS) {
        bite_error_set(error, BITE_BAD_ARGUMENT, "%s has %lu points; at most %d were expected",
                       input->name, (unsigned long)curve->count, BITE_CURVE_POINTS);
        bite_error_key(error, "%s", input->name);
        bite_error_hint(error, "%s", "with 0 points the plain member is used");
        return BITE_BAD_ARGUMENT;
    }
    if (curve->reserved != 0) {
        return refuse(error, BITE_BAD_ARGUMENT, input->name,
                      "the reserved member of the curve is not 0", "bite_cut_init sets it");
    }
    for (uint32_t i = 0; i < curve->count && status == BITE_OK; i++) {
        status = check_point(curve, input, i, error);
    }
    return status;
}

static bite_status check_curves(const bite_cut *cut, bite_error *error)
{
    bite_status status = BITE_OK;
    for (size_t i = 0; i < bite_curve_input_count && status == BITE_OK; i++) {
        const bite_curve_input *input = &bite_curve_inputs[i];
        status = check_curve((const bite_curve *)((const char *)cut + input->offset), input, error);
    }
    return status;
}

bite_status bite_check_cut(const bite_cut *cut, bite_error *error)
{
    if (cut == NULL || cut->struct_size != sizeof *cut) {
        return refuse(error, BITE_BAD_ARGUMENT, "struct_size",
                      "the cut is NULL, or its struct_size is not this library's",
                      "initialize it with bite_cut_init");
    }
    if (cut->reserved != 0) {
        return refuse(error, BITE_BAD_ARGUMENT, "reserved", "the reserved member is not 0",
                      "bite_cut_init sets it");
    }
    bite_status status = check_inputs(cut, error);
    return status != BITE_OK ? status : check_curves(cut, error);
}

/* ---- several members together ---- */

static bite_status check_reach(const bite_cut *cut, bite_error *error)
{
    char large[40];
    char most[40];
    double radius = bite_cut_cone(cut).large;
    if (radius <= 0.5 * cut->diameter * (1.0 + 1e-9)) {
        return BITE_OK;
    }
    write_quantity(radius, BITE_KIND_LENGTH, large, sizeof large);
    write_quantity(0.5 * cut->diameter, BITE_KIND_LENGTH, most, sizeof most);
    bite_error_set(error, BITE_OUT_OF_RANGE,
                   "the upper end of the chamfer needs a cone radius of %s; "
                   "at most the radius of the tool, %s, was expected",
                   large, most);
    bite_error_key(error, "%s", "depth");
    bite_error_hint(
        error, "%s",
        "reduce depth or tip_below, or use a thicker tool or one with a smaller tip_diameter");
    return BITE_OUT_OF_RANGE;
}

/* Inputs that follow from others of a chamfer must not be given as well. */
static bite_status check_chamfer(const bite_cut *cut, bite_error *error)
{
    if (!isnan(cut->width)) {
        return refuse(error, BITE_OUT_OF_RANGE, "width",
                      "a chamfer's width follows from its depth and its taper",
                      "leave the width out, and give depth and taper");
    }
    if (cut->corner_radius > 0.0) {
        return refuse(error, BITE_OUT_OF_RANGE, "corner_radius",
                      "a chamfer is cut with a cone, which has no corner radius",
                      "leave the corner radius out, and give tip_diameter");
    }
    if (cut->entry != BITE_ENTRY_OUTSIDE) {
        return refuse(error, BITE_OUT_OF_RANGE, "entry",
                      "a chamfer is entered from the side; outside was expected",
                      "leave the entry out");
    }
    return check_reach(cut, error);
}

/* What follows from the inputs of a groove must not be given in another way too. */
static bite_status check_groove(const bite_cut *cut, bite_error *error)
{
    if (!isnan(cut->width) || !isnan(cut->feature_width)) {
        return refuse(error, BITE_OUT_OF_RANGE, isnan(cut->width) ? "feature_width" : "width",
                      "the width of a groove milled with a cone follows from its depth and taper",
                      "leave the width out, and give depth, taper and tip_diameter");
    }
    if (cut->corner_radius > 0.0) {
        return refuse(error, BITE_OUT_OF_RANGE, "corner_radius",
                      "a groove is milled with a cone, which has no corner radius",
                      "leave the corner radius out, and give tip_diameter");
    }
    if (0.5 * bite_cutting_diameter(cut) > 0.5 * cut->diameter * (1.0 + 1e-9)) {
        return refuse(error, BITE_OUT_OF_RANGE, "depth",
                      "the groove would be wider than the tool, whose cone ends below the surface",
                      "reduce depth, or use a thicker tool or one with a smaller taper");
    }
    return BITE_OK;
}

/* A tap and a reamer need a hole to begin with, and the tap a thread. */
static bite_status check_hole_work(const bite_cut *cut, bite_error *error)
{
    int taps = cut->operation == BITE_TAP;
    if (taps && isnan(cut->pitch)) {
        return refuse(error, BITE_MISSING, "pitch", "a tap cuts a thread, and its pitch is missing",
                      "name the thread, such as M3 or 1/4-20, or give pitch; a thread of N threads "
                      "an inch has a pitch of 1/N inch");
    }
    if (taps && !(bite_thread_root(cut->diameter, cut->pitch) > 0.0)) {
        return refuse(error, BITE_OUT_OF_RANGE, "pitch", "the pitch is too coarse for the thread",
                      "a thread of 6 mm has a pitch of 1 mm; of N threads an inch 1/N inch");
    }
    if (!(cut->hole_diameter < cut->diameter)) {
        return refuse(error, BITE_OUT_OF_RANGE, "hole_diameter",
                      taps
                          ? "the hole is not smaller than the thread"
                          : "the hole is not smaller than the reamer, and leaves it nothing to cut",
                      "hole_diameter is that of the hole before it is tapped or reamed");
    }
    if (taps && bite_thread_share(cut->diameter, cut->pitch, cut->hole_diameter) > 1.0 + 1e-9) {
        return refuse(error, BITE_OUT_OF_RANGE, "hole_diameter",
                      "the hole leaves more than a full thread: the tap would jam in it",
                      "drill larger: D - 1.083 P is a thread of 83 %, D - 1.299 P one of 100 %");
    }
    if (!taps && cut->hole_diameter < 0.5 * cut->diameter) {
        return refuse(
            error, BITE_OUT_OF_RANGE, "hole_diameter",
            "the hole is less than half as wide as the reamer, which cannot cut that much",
            "drill or bore it to a few tenths of a millimetre below the size first");
    }
    return BITE_OK;
}

bite_status bite_check_together(const bite_cut *full, bite_error *error)
{
    double most = BITE_TEETH_MAX;
    if (full->flutes != floor(full->flutes) || full->flutes > most) {
        return refuse(error, BITE_OUT_OF_RANGE, "flutes",
                      "a whole number of flutes from 1 to 16 was expected", "");
    }
    if (full->spring_passes != floor(full->spring_passes)) {
        return refuse(error, BITE_OUT_OF_RANGE, "spring_passes",
                      "a whole number of spring passes from 0 to 3 was expected", "");
    }
    if (bite_is_wider(full->width, full->diameter)) {
        return refuse(error, BITE_OUT_OF_RANGE, "width",
                      "the width of the cut is larger than the tool's diameter",
                      "leave the width out for a full slot");
    }
    if (full->corner_radius > 0.5 * full->diameter * (1.0 + 1e-9)) {
        return refuse(error, BITE_OUT_OF_RANGE, "corner_radius",
                      "the corner radius is larger than the tool's radius",
                      "half the diameter makes a ball");
    }
    if (bite_is_wider(full->neck_diameter, full->diameter)) {
        return refuse(error, BITE_OUT_OF_RANGE, "neck_diameter",
                      "the neck is thicker than the tool, and would not fit into the cut",
                      "the neck's diameter comes before its length: 0.75mmx4mm");
    }
    if (isnan(full->neck_diameter) != isnan(full->neck_length)) {
        return refuse(error, BITE_MISSING,
                      isnan(full->neck_diameter) ? "neck_diameter" : "neck_length",
                      "a neck has a diameter and a length; one of them is missing", "");
    }
    if (bite_cut_is_groove(full)) {
        return check_groove(full, error);
    }
    if (full->operation == BITE_TAP || full->operation == BITE_REAM) {
        return check_hole_work(full, error);
    }
    return full->operation == BITE_CHAMFER ? check_chamfer(full, error) : BITE_OK;
}

/* ---- results ---- */

bite_status bite_check_result(const bite_result *result, bite_error *error)
{
    if (result == NULL || result->struct_size != sizeof *result) {
        return refuse(error, BITE_BAD_ARGUMENT, "struct_size",
                      "the result is NULL, or its struct_size is not this library's",
                      "set struct_size to sizeof(bite_result)");
    }
    return BITE_OK;
}

/* Values that are numbers in every cut, and in every cut whose cutting pressure is known. */
static const bite_value_id always[] = {
    BITE_SURFACE_SPEED,      BITE_SPINDLE_SPEED,       BITE_FEED_RATE,
    BITE_CHIP_LOAD,          BITE_CHIP_LOAD_HEAVY,     BITE_CHIP_LOAD_LIGHT,
    BITE_CHIP_THICKNESS_MAX, BITE_CHIP_THICKNESS_MEAN, BITE_CHIP_THICKNESS_LEAST,
    BITE_ENGAGEMENT,         BITE_REMOVAL_RATE,
};
static const bite_value_id under_pressure[] = {
    BITE_FORCE_TANGENTIAL_PEAK, BITE_FORCE_SIDE_PEAK,
    BITE_FORCE_SIDE_MEAN,       BITE_FORCE_LIFT_PEAK,
    BITE_TORQUE_PEAK,           BITE_POWER_MEAN,
    BITE_SPECIFIC_ENERGY,       BITE_CHIP_TEMPERATURE,
    BITE_SURFACE_TEMPERATURE,   BITE_FILM_TEMPERATURE,
    BITE_TOOL_TEMPERATURE,      BITE_PREHEAT,
    BITE_HEAT_TO_PART,          BITE_DEFLECTION_TIP,
    BITE_TOOL_STRESS,           BITE_EDGE_LOAD,
    BITE_SURFACE_DWELL,         BITE_FLASH_TEMPERATURE,
};

static bite_status check_finite(const double *values, size_t stride, const bite_value_id *ids,
                                size_t count, bite_error *error)
{
    for (size_t i = 0; i < count; i++) {
        if (!isfinite(values[ids[i] * stride])) {
            const char *name = bite_value_name(ids[i]);
            bite_error_set(error, BITE_NO_ANSWER, "%s is not a number for these inputs", name);
            bite_error_key(error, "%s", name);
            bite_error_hint(error, "%s", "check for inputs at the very ends of their ranges");
            return BITE_NO_ANSWER;
        }
    }
    return BITE_OK;
}

bite_status bite_check_values(const double *values, size_t stride, bool pressure, bite_error *error)
{
    bite_status status =
        check_finite(values, stride, always, sizeof always / sizeof *always, error);
    if (status != BITE_OK || !pressure) {
        return status;
    }
    return check_finite(values, stride, under_pressure,
                        sizeof under_pressure / sizeof *under_pressure, error);
}

BITE_IN_LANES static void mark_infinite(const bite_block *restrict block,
                                        const bite_lanes *restrict values,
                                        const bite_value_id *restrict ids, size_t count,
                                        double *restrict missing)
{
    for (size_t i = 0; i < count; i++) {
        const double *row = values[ids[i]];
        BITE_EACH_LANE(k, block)
        {
            missing[k] = fabs(row[k]) <= DBL_MAX ? missing[k] : 1.0;
        }
    }
}

void bite_check_lanes(const bite_block *block, const bite_lanes *values, bool pressure,
                      double *missing)
{
    memset(missing, 0, sizeof(bite_lanes));
    mark_infinite(block, values, always, sizeof always / sizeof *always, missing);
    if (pressure) {
        mark_infinite(block, values, under_pressure, sizeof under_pressure / sizeof *under_pressure,
                      missing);
    }
}

/* ---- draws ---- */

bite_status bite_check_draws(size_t draws, double confidence, bite_error *error)
{
    const double rounding = 1e-12; /* 99.9 % is read as a little more than 0.999 */
    if (draws < 16 || draws > BITE_DRAWS_MAX) {
        return refuse(error, BITE_BAD_ARGUMENT, "draws", "16 to 65536 draws were expected",
                      "more draws resolve smaller chances");
    }
    if (confidence != 0.0 && !(confidence >= 0.5 - rounding && confidence <= 0.999 + rounding)) {
        return refuse(error, BITE_BAD_ARGUMENT, "confidence",
                      "a confidence of 0.5 to 0.999 was expected", "0.9 is the default");
    }
    return BITE_OK;
}

bite_status bite_check_draws_wished(size_t draws, double confidence, bite_error *error)
{
    return bite_check_draws(draws == 0 || draws == BITE_DRAWS_NONE ? 16 : draws, confidence, error);
}

double bite_confidence_or_usual(double confidence)
{
    return confidence == 0.0 ? 0.90 : confidence;
}
