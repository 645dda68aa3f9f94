/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One pass at its best estimates: checks, defaults, the straight, the corner, the rows. */
#include "core/base/error.h"
#include "core/base/vocabulary.h"
#include "core/cut/bend.h"
#include "core/cut/chamfer.h"
#include "core/cut/chip.h"
#include "core/cut/defaults.h"
#include "core/cut/entry.h"
#include "core/cut/judged.h"
#include "core/cut/rows.h"
#include "core/cut/vibrate.h"
#include <math.h>
#include <string.h>

void bite_cut_init(bite_cut *cut)
{
    memset(cut, 0, sizeof *cut);
    cut->struct_size = (uint32_t)sizeof *cut;
    size_t count = bite_input_count();
    for (size_t i = 0; i < count; i++) {
        const bite_input *input = bite_input_at(i);
        if (input->words == 0) {
            *bite_input_number(cut, input) = (double)NAN;
        }
    }
}

static bite_status refuse(bite_error *error, bite_status status, const char *input, const char *message, const char *hint)
{
    bite_error_set(error, status, "%s", message);
    bite_error_key(error, "%s", input);
    bite_error_hint(error, "%s", hint);
    return status;
}

static void write_quantity(double value, uint32_t kind, char *buffer, size_t size)
{
    size_t length = 0;
    if (bite_quantity_write(value, (bite_kind)kind, BITE_METRIC, buffer, size, &length, NULL) != BITE_OK || length >= size) {
        buffer[0] = '?';
        buffer[1] = 0;
    }
}

static bite_status out_of_range(const bite_input *input, double value, bite_error *error)
{
    char given[40];
    char least[40];
    char most[40];
    write_quantity(value, input->kind, given, sizeof given);
    write_quantity(input->least, input->kind, least, sizeof least);
    write_quantity(input->most, input->kind, most, sizeof most);
    bite_error_set(error, BITE_OUT_OF_RANGE, "%s is %s; between %s and %s was expected", input->name, given, least, most);
    bite_error_key(error, "%s", input->name);
    bite_error_hint(error, "%s", "look for a slip in the unit or a lost zero");
    return BITE_OUT_OF_RANGE;
}

static bite_status check_one(const bite_cut *cut, const bite_input *input, bite_error *error)
{
    if (input->words > 0) {
        if (*bite_input_choice((bite_cut *)(uintptr_t)cut, input) < input->words) {
            return BITE_OK;
        }
        return refuse(error, BITE_BAD_ARGUMENT, input->name, "a choice is none of its words", "see bite_input_word");
    }
    double value = *bite_input_number_of(cut, input);
    if (isnan(value)) {
        if (input->needed == 0) {
            return BITE_OK;
        }
        bite_error_set(error, BITE_MISSING, "%s is missing: %s", input->name, input->summary);
        bite_error_key(error, "%s", input->name);
        bite_error_hint(error, "%s", "without it there is no answer");
        return BITE_MISSING;
    }
    return value >= input->least && value <= input->most ? BITE_OK : out_of_range(input, value, error);
}

static bite_status check_each(const bite_cut *cut, bite_error *error)
{
    size_t count = bite_input_count();
    for (size_t i = 0; i < count; i++) {
        bite_status status = check_one(cut, bite_input_at(i), error);
        if (status != BITE_OK) {
            return status;
        }
    }
    return BITE_OK;
}

static bite_status check_reach(const bite_cut *cut, bite_error *error)
{
    char large[40];
    char room[40];
    double radius = bite_chamfer_cone(cut).large;
    if (radius <= 0.5 * cut->diameter * (1.0 + 1e-9)) {
        return BITE_OK;
    }
    write_quantity(radius, BITE_KIND_LENGTH, large, sizeof large);
    write_quantity(0.5 * cut->diameter, BITE_KIND_LENGTH, room, sizeof room);
    bite_error_set(error, BITE_OUT_OF_RANGE,
                   "the upper end of the chamfer wants a radius of %s of the cone; at most the tool's own, %s, was expected", large,
                   room);
    bite_error_key(error, "%s", "depth");
    bite_error_hint(error, "%s", "lessen depth or tip_below, or take a thicker tool or one with a smaller tip_diameter");
    return BITE_OUT_OF_RANGE;
}

/* What a chamfer takes from its own inputs must not be said another way too. */
static bite_status check_chamfer(const bite_cut *cut, bite_error *error)
{
    if (!isnan(cut->width)) {
        return refuse(error, BITE_OUT_OF_RANGE, "width", "a chamfer's width follows from its depth and its taper",
                      "leave the width out, and say depth and taper");
    }
    if (cut->corner_radius > 0.0) {
        return refuse(error, BITE_OUT_OF_RANGE, "corner_radius", "a chamfer is cut with a cone, which has no corner radius",
                      "leave the corner radius out, and say tip_diameter");
    }
    if (cut->entry != BITE_ENTRY_OUTSIDE) {
        return refuse(error, BITE_OUT_OF_RANGE, "entry", "the way into a chamfer is from beside; outside was expected",
                      "leave the entry out");
    }
    return check_reach(cut, error);
}

/* What no range of one input can tell. cut has its defaults. */
static bite_status check_together(const bite_cut *cut, bite_error *error)
{
    double most = BITE_TEETH_MOST;
    if (cut->flutes != floor(cut->flutes) || cut->flutes > most) {
        return refuse(error, BITE_OUT_OF_RANGE, "flutes", "flutes are counted: a whole number from 1 to 16 was expected", "");
    }
    if (cut->width > cut->diameter * (1.0 + 1e-9)) {
        return refuse(error, BITE_OUT_OF_RANGE, "width", "the width of the cut is larger than the tool's diameter",
                      "leave the width out for a full slot");
    }
    if (cut->corner_radius > 0.5 * cut->diameter * (1.0 + 1e-9)) {
        return refuse(error, BITE_OUT_OF_RANGE, "corner_radius", "the corner radius is larger than the tool's radius",
                      "half the diameter makes a ball");
    }
    if (cut->neck_diameter > cut->diameter * (1.0 + 1e-9)) {
        return refuse(error, BITE_OUT_OF_RANGE, "neck_diameter",
                      "the neck is thicker than the tool, and would not follow it into the cut",
                      "the neck's diameter comes before its length: 0.75mmx4mm");
    }
    if (isnan(cut->neck_diameter) != isnan(cut->neck_length)) {
        return refuse(error, BITE_MISSING, isnan(cut->neck_diameter) ? "neck_diameter" : "neck_length",
                      "a neck has a diameter and a length; one of them is missing", "");
    }
    return cut->operation == BITE_CHAMFER ? check_chamfer(cut, error) : BITE_OK;
}

bite_status bite_ready_make(const bite_cut *cut, bite_ready *ready, bite_error *error)
{
    if (cut == NULL || cut->struct_size != sizeof *cut) {
        return refuse(error, BITE_BAD_ARGUMENT, "struct_size", "a cut is missing or of another size than this library's",
                      "bite_cut_init");
    }
    bite_status status = check_each(cut, error);
    if (status != BITE_OK) {
        return status;
    }
    ready->asked = *cut;
    ready->full = *cut;
    bite_defaults_fill(&ready->full);
    return check_together(&ready->full, error);
}

/* The row of the corner stands where it uses more of its room than the straight's, by more than rounding: a wall that both finish
 * at the same instant is the straight's. */
static void judge_corner(const bite_ready *ready, const bite_stretch *turn, bite_row rows[BITE_ROW_COUNT])
{
    for (int i = 0; i < BITE_ROW_COUNT; i++) {
        if (rows[i].applies) {
            bite_row corner;
            bite_row_judge((bite_row_id)i, &ready->asked, &ready->full, turn, &corner);
            if (corner.use > rows[i].use * (1.0 + 1e-9)) {
                corner.in_corner = 1;
                rows[i] = corner;
            }
        }
    }
}

/* What the way in strains more than the cut does. */
static void judge_entry(const bite_ready *ready, bite_kept *kept, bite_row rows[BITE_ROW_COUNT])
{
    static const bite_row_id strained[] = {BITE_ROW_TOOL_BREAK, BITE_ROW_CHIP_PACKING, BITE_ROW_TORQUE, BITE_ROW_POWER,
                                           BITE_ROW_FEED_FAST};
    bite_cut way;
    bite_cut along = ready->full; /* the axes run at the feed along the way, whatever of it is level */
    bite_stretch stretch;
    bite_entry_form(&ready->full, &way, kept, &stretch);
    along.feed_rate = bite_entry_feed(&ready->full);
    for (size_t i = 0; i < sizeof strained / sizeof *strained; i++) {
        bite_row *row = &rows[strained[i]];
        bite_row entry;
        if (row->applies) {
            bite_row_judge(strained[i], &ready->asked, strained[i] == BITE_ROW_FEED_FAST ? &along : &way, &stretch, &entry);
            if (entry.applies && entry.use > row->use) {
                entry.in_corner = 2;
                *row = entry;
            }
        }
    }
}

/* Of a chamfer at its upper end. */
static double width_of(const bite_cut *full)
{
    if (full->operation == BITE_CHAMFER) {
        return full->depth * tan(full->taper);
    }
    return isnan(full->width) || full->operation == BITE_DRILL_HOLE ? full->diameter : fmin(full->width, full->diameter);
}

/* The finished corner where the most is cut: of a chamfer at its upper end. */
static double corner_of(const bite_cut *full, double width)
{
    return full->inside_radius + (full->operation == BITE_CHAMFER ? width : 0.0);
}

void bite_ready_judge_again(const bite_ready *ready, const bite_judging *how, bite_stretch *straight, bite_row rows[BITE_ROW_COUNT])
{
    const bite_cut *full = &ready->full;
    bite_side side = (bite_side)full->side;
    int mills = full->operation == BITE_MILL;
    double diameter = bite_cutting_diameter(full);
    double width = width_of(full);
    bite_stretch_again(full, bite_engage_straight(diameter, width, side), how->straight, straight);
    for (int i = 0; i < BITE_ROW_COUNT; i++) {
        rows[i].applies = 0;
        if (how->wanted == NULL || how->wanted[i]) {
            bite_row_judge((bite_row_id)i, &ready->asked, full, straight, &rows[i]);
        }
    }
    if (!isnan(full->inside_radius) && width < diameter && full->operation != BITE_DRILL_HOLE) {
        bite_stretch turn;
        bite_stretch_again(full, bite_engage_corner(diameter, width, side, corner_of(full, width)), how->corner, &turn);
        judge_corner(ready, &turn, rows);
    }
    if (full->entry != BITE_ENTRY_OUTSIDE && mills) {
        judge_entry(ready, how->entry, rows);
    }
}

void bite_ready_judge(const bite_ready *ready, bite_stretch *straight, bite_row rows[BITE_ROW_COUNT])
{
    bite_kept fresh;
    bite_kept_fin fin;
    bite_kept_meet met;
    bite_judging alone = {&fresh, &fresh, &fresh, NULL};
    bite_kept_begin(&fresh, &fin, &met, 1);
    bite_ready_judge_again(ready, &alone, straight, rows);
}

void bite_result_blank(bite_result *result)
{
    static const bite_value none = {(double)NAN, (double)NAN, (double)NAN};
    static const bite_row no_row = {(double)NAN, (double)NAN, (double)NAN, (double)NAN, (double)NAN, 0, 0, 0, 0, 0, 0};
    result->value_count = BITE_VALUE_COUNT;
    result->row_count = BITE_ROW_COUNT;
    result->draws = 0;
    result->chance = (double)NAN;
    result->widest[0] = result->widest[1] = BITE_NO_INPUT;
    for (int i = 0; i < BITE_VALUE_ROOM; i++) {
        result->values[i] = none;
    }
    for (int i = 0; i < BITE_ROW_ROOM; i++) {
        result->rows[i] = no_row;
    }
}

double bite_ready_ring(const bite_cut *full)
{
    bite_shaft shaft;
    bite_bend_shaft(full, full->stiff_share, &shaft);
    return bite_vibrate_frequency(&shaft, full->tool_modulus, full->tool_density, 1);
}

bite_status bite_cut_pass(const bite_cut *cut, bite_result *result, bite_error *error)
{
    bite_ready ready;
    bite_stretch straight;
    bite_error_clear(error);
    if (result == NULL || result->struct_size != sizeof *result) {
        return refuse(error, BITE_BAD_ARGUMENT, "struct_size", "a result is missing or of another size than this library's",
                      "struct_size = sizeof of the result");
    }
    bite_status status = bite_ready_make(cut, &ready, error);
    if (status != BITE_OK) {
        return status;
    }
    bite_result_blank(result);
    bite_ready_judge(&ready, &straight, result->rows);
    for (int i = 0; i < BITE_VALUE_COUNT; i++) {
        result->values[i].value = straight.value[i];
    }
    memcpy(result->heat_share, straight.heat_share, sizeof result->heat_share);
    result->verdict = bite_rows_verdict(result->rows, BITE_ROW_COUNT, &result->worst);
    return BITE_OK;
}
