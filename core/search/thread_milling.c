/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * An internal thread milled. A single-point mill has one ring of teeth and cuts one turn of the
 * groove at a time; a full-form mill has a ring for each pitch of its length and cuts as many turns
 * at once, all of the thread in one turn about its axis if it is as long.
 *
 * The engine judges it as a side cut along a straight wall that has the same arc of contact and
 * removes the same section: as deep as the grooves that are cut at once are wide on average, as
 * wide as the arc asks for, in as many passes as the tool needs. The grooves are taken to lie side
 * by side at the tip, though a pitch apart: a full-form mill bends less. The neck behind the teeth
 * bends with the tool.
 */
#include "core/search/thread_milling.h"
#include "core/base/error.h"
#include "core/library/collection.h"
#include "core/library/material.h"
#include "core/names/registry.h"
#include "core/physics/geometry/thread.h"
#include "core/physics/geometry/thread_mill.h"
#include "core/request/request.h"
#include "core/search/choice.h"
#include <math.h>
#include <string.h>

/* A wider mill distorts the flanks, for it cuts beyond the helix before and after its deepest point
 * (common practice: at most 0.7 of the thread). */
static const double tool_share = 0.7;
static const double clearance = 0.2e-3; /* m, between the mill and its hole */
static const double neck_share = 1.4;   /* of the pitch, that the neck is thinner than the teeth */

/* A pitch in inches is rounded: 0.03937 in is 1 mm. The next one differs by more than a percent. */
static const double pitch_hair = 1e-4;

/* The flutes of a full-form mill are ground a little below the roots of its teeth, for its chips
 * are small: the core, and the round bar as stiff, as shares of the diameter at the roots
 * (estimate: an end mill has a core of 0.65 and is as stiff as a bar of 0.8 of its diameter). */
static const double core_of_root = 0.85;
static const double bar_of_root = 0.95;

#define FLUTES 3.0
#define DRAWS 1024
#define CONFIDENCE 0.9
#define HAIR 1e-9

typedef struct named_number {
    const char *input;
    double number;
} named_number;

static bite_status set_numbers(bite_request *request, const named_number *numbers, size_t count,
                               bite_error *error)
{
    bite_status status = BITE_OK;
    for (size_t i = 0; status == BITE_OK && i < count; i++) {
        status = bite_request_set_number(request, numbers[i].input, numbers[i].number, error);
    }
    return status;
}

/* ---- the mill ---- */

double bite_thread_mill_largest(double major, double hole)
{
    return fmin(tool_share * major, hole - clearance);
}

double bite_thread_mill_reach_needed(double length, double pitch)
{
    return length + 0.5 * pitch; /* it enters half a pitch below the thread */
}

double bite_thread_mill_rows(const bite_thread_mill *mill, double length, double pitch)
{
    return fmin(mill->rows, length / pitch + 1.0);
}

bite_thread_mill bite_thread_mill_plain(double diameter, double length, double pitch)
{
    const bite_thread_mill mill = {NULL, diameter, bite_thread_mill_reach_needed(length, pitch),
                                   1.0,  1,        0};
    return mill;
}

bite_status bite_thread_mill_find(const bite_library *library, const char *name, double pitch,
                                  bite_thread_mill *mill, bite_error *error)
{
    const bite_item_record *record = NULL;
    memset(mill, 0, sizeof *mill);
    bite_status status = bite_library_record(library, BITE_TOOLS, name, &record, error);
    if (status != BITE_OK || !bite_item_is_yes(record, "thread_mill")) {
        return status == BITE_NO_MEMORY ? status : BITE_OK;
    }
    int full = bite_item_is_yes(record, "full_form");
    double flutes = bite_item_figure_or(record, "flute_length", 0.0);
    double most = bite_item_figure_or(record, "pitch_most", full ? 0.0 : INFINITY);
    mill->record = record;
    mill->diameter = bite_item_figure_or(record, "diameter", 0.0);
    mill->reach = flutes + bite_item_figure_or(record, "neck_length", full ? 0.0 : INFINITY);
    mill->suits = pitch >= bite_item_figure_or(record, "pitch_least", 0.0) * (1.0 - pitch_hair) &&
                  pitch <= most * (1.0 + pitch_hair);
    mill->rows = full ? fmax(1.0, floor(flutes / most + pitch_hair)) : 1.0;
    return BITE_OK;
}

/* ---- the cut ---- */

bite_status bite_thread_mill_set_cut(bite_request *request, const bite_thread_mill_cut *cut,
                                     bite_error *error)
{
    bite_thread_groove groove = bite_thread_groove_of(cut->major, cut->pitch, cut->hole);
    double wide = bite_thread_mill_width(cut->major, cut->hole, cut->tool);
    const named_number numbers[] = {
        {"depth", cut->rows * groove.width},
        {"width", fmin(cut->tool, wide) / cut->passes},
    };
    request->mills_thread = 1;
    return set_numbers(request, numbers, sizeof numbers / sizeof *numbers, error);
}

bite_status bite_thread_mill_set_tool(bite_request *request, const bite_thread_mill *mill,
                                      const bite_thread_mill_cut *cut, double length,
                                      bite_error *error)
{
    double root = fmax(0.4, 1.0 - 2.0 * BITE_THREAD_FULL_HEIGHT * cut->pitch / cut->tool);
    bite_thread_groove groove = bite_thread_groove_of(cut->major, cut->pitch, cut->hole);
    const named_number plain[] = {
        {"flutes", FLUTES},
        {"flute_length", fmax(cut->pitch, groove.width)},
        {"neck_diameter", fmax(0.4 * cut->tool, cut->tool - neck_share * cut->pitch)},
        {"neck_length", length},
    };
    const named_number full[] = {
        {"stiff_share", bar_of_root * root},
        {"core_share", core_of_root * root},
    };
    if (mill->record == NULL) {
        return set_numbers(request, plain, sizeof plain / sizeof *plain, error);
    }
    return mill->rows > 1.0 ? set_numbers(request, full, sizeof full / sizeof *full, error)
                            : BITE_OK;
}

/* The teeth are slender points: the feed per tooth is a share of the diameter, by material, and so
 * is the speed of their edges. */
bite_status bite_thread_mill_set_usual(bite_request *request, double tool, int sets_feed,
                                       bite_error *error)
{
    const bite_item_record *usual = NULL;
    const bite_material *material = request->grade;
    bite_status status =
        bite_library_hole_work(request->library, BITE_HOLE_THREAD_MILLING, material,
                               bite_material_substance(material), &usual, error);
    if (status == BITE_UNKNOWN_NAME) {
        bite_error_clear(error);
        return BITE_OK;
    }
    if (status != BITE_OK) {
        return status;
    }
    double speed = bite_item_figure(usual, "speed");
    const bite_typed_input feed = {1, BITE_KIND_TOOTH_FEED,
                                   bite_item_figure(usual, "tooth_feed") * tool, 0};
    if (sets_feed && feed.value > 0.0) {
        request->typed[bite_input_index(bite_input_find("feed_rate"))] = feed;
    }
    return isnan(speed) ? BITE_OK
                        : bite_request_set_number(request, "tool_speed_limit", speed, error);
}

double bite_thread_mill_turns(double chosen)
{
    double step = chosen >= 2000.0 / 60.0 ? 100.0 / 60.0 : 10.0 / 60.0;
    double turns = step * floor(chosen / step * (1.0 + HAIR));
    return turns > 0.0 ? turns : chosen;
}

bite_thread_path bite_thread_path_of(const bite_thread_mill_cut *cut, const bite_thread_mill *mill,
                                     double length, double edge_feed)
{
    bite_thread_path path;
    double height = 0.5 * (cut->major - cut->hole);
    double turns = length / cut->pitch + 1.0; /* half a pitch more at either end */
    memset(&path, 0, sizeof path);
    path.levels = mill->rows > 1.0 ? ceil(turns / mill->rows - HAIR) : 1.0;
    path.turns = mill->rows > 1.0 ? path.levels : turns;
    for (uint32_t i = 0; i < cut->passes; i++) {
        double share = (i + 1.0) / cut->passes;
        double diameter = cut->hole + 2.0 * bite_thread_height_of(cut->pitch, height, share);
        double around = M_PI * (diameter - cut->tool);
        path.diameters[i] = diameter;
        path.lengths[i] = path.turns * hypot(around, cut->pitch);
        path.feeds[i] = bite_thread_mill_centre_feed(edge_feed, diameter, cut->tool);
        path.arcs += path.levels * 0.5 * around; /* each a half circle from the axis to the path */
    }
    return path;
}

/* ---- settings ---- */

static bite_status make_request(const bite_thread_case *thread, const bite_thread_mill *tool,
                                const bite_thread_mill_cut *cut, bite_request **request,
                                bite_error *error)
{
    bite_status status = bite_request_new(thread->library, request, error);
    status = status != BITE_OK
                 ? status
                 : bite_request_use(*request, BITE_GRADES, thread->material->record.name, error);
    if (status == BITE_OK && thread->machine != NULL) {
        status = bite_request_use(*request, BITE_MACHINES, thread->machine, error);
    }
    if (status == BITE_OK && tool->record != NULL) {
        status = bite_request_use(*request, BITE_TOOLS, tool->record->name, error);
    } else if (status == BITE_OK) {
        status = bite_request_set_number(*request, "diameter", tool->diameter, error);
    }
    status = status != BITE_OK ? status : bite_thread_mill_set_cut(*request, cut, error);
    status = status != BITE_OK
                 ? status
                 : bite_thread_mill_set_tool(*request, tool, cut, thread->length, error);
    status = status != BITE_OK ? status : bite_thread_mill_set_usual(*request, cut->tool, 1, error);
    if (status == BITE_OK) {
        (*request)->skip_change = 1;
        (*request)->scope = BITE_SCOPE_SETTINGS;
    }
    return status;
}

static void take(const bite_thread_case *thread, const bite_thread_mill_cut *cut,
                 const bite_choice *choice, bite_thread_milling *milling)
{
    const bite_cut *full = &choice->answer->full;
    const bite_result *result = &choice->answer->result;
    milling->passes = cut->passes;
    milling->verdict = result->verdict;
    milling->chance = result->chance;
    milling->turns = bite_thread_mill_turns(full->spindle_speed);
    milling->edge_feed = full->feed_rate * milling->turns / full->spindle_speed;
    milling->path = bite_thread_path_of(cut, &milling->tool, thread->length, milling->edge_feed);
    milling->centre_feed = milling->path.feeds[cut->passes - 1];
    milling->chip = result->values[BITE_CHIP_THICKNESS_MAX].value;
    milling->closest = bite_cut_limit_name(full, (bite_limit_id)result->worst);
    milling->seconds = milling->path.arcs / milling->path.feeds[0];
    for (uint32_t i = 0; i < cut->passes; i++) {
        milling->seconds += milling->path.lengths[i] / milling->path.feeds[i];
    }
}

bite_status bite_thread_milling_choose(const bite_thread_case *thread, const bite_thread_mill *tool,
                                       bite_thread_milling *milling, bite_error *error)
{
    bite_choice_options options;
    bite_status status = BITE_OK;
    bite_thread_mill_cut cut = {thread->major,
                                thread->pitch,
                                thread->hole,
                                tool->diameter,
                                bite_thread_mill_rows(tool, thread->length, thread->pitch),
                                1};
    memset(&options, 0, sizeof options);
    options.struct_size = (uint32_t)sizeof options;
    options.goal = BITE_GOAL_USUAL;
    options.draws = DRAWS;
    options.confidence = CONFIDENCE;
    memset(milling, 0, sizeof *milling);
    milling->tool = *tool;
    milling->most = bite_thread_mill_largest(thread->major, thread->hole);
    for (; cut.passes <= BITE_THREAD_MILL_PASSES && status == BITE_OK; cut.passes++) {
        bite_request *request = NULL;
        bite_choice *choice = NULL;
        bite_thread_milling tried = *milling;
        status = make_request(thread, tool, &cut, &request, error);
        status = status != BITE_OK ? status : bite_choice_new(request, &options, &choice, error);
        if (status == BITE_OK) {
            take(thread, &cut, choice, &tried);
            *milling = milling->passes == 0 || tried.chance < milling->chance ? tried : *milling;
        }
        bite_choice_free(choice);
        bite_request_free(request);
        if (milling->verdict == BITE_CLEAR && milling->passes > 0) {
            break;
        }
    }
    int unable = status == BITE_NO_ANSWER || status == BITE_MISSING || status == BITE_OUT_OF_RANGE;
    if (unable) { /* such a thread is too small, or a figure of the material is missing */
        bite_error_clear(error);
    }
    return unable ? BITE_OK : status;
}
