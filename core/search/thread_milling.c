/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * An internal thread milled with a single-point thread mill, which cuts one turn of the groove at a
 * time. The engine judges it as a side cut along a straight wall that has the same arc of contact
 * and removes the same section: as deep as the groove is wide on average, as wide as the arc asks
 * for, in as many passes as the tool needs. The neck behind the teeth bends with the tool.
 */
#include "core/search/thread_milling.h"
#include "core/base/error.h"
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

/* Feed per tooth over the diameter of the mill: its teeth are slender points, for which a maker's
 * table has 0.0024 to 0.0056 in steels and aluminium from 3 to 13 mm. */
static const double tooth_feed = 0.004;

#define FLUTES 3.0
#define DRAWS 1024
#define CONFIDENCE 0.9

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

double bite_thread_mill_largest(double major, double hole)
{
    return fmin(tool_share * major, hole - clearance);
}

bite_status bite_thread_mill_set_cut(bite_request *request, const bite_thread_mill_cut *cut,
                                     bite_error *error)
{
    bite_thread_groove groove = bite_thread_groove_of(cut->major, cut->pitch, cut->hole);
    double wide = bite_thread_mill_width(cut->major, cut->hole, cut->tool);
    const named_number numbers[] = {
        {"depth", groove.width},
        {"width", fmin(cut->tool, wide) / cut->passes},
    };
    request->mills_thread = 1;
    return set_numbers(request, numbers, sizeof numbers / sizeof *numbers, error);
}

bite_status bite_thread_mill_set_tool(bite_request *request, const bite_thread_mill_cut *cut,
                                      double length, bite_error *error)
{
    bite_thread_groove groove = bite_thread_groove_of(cut->major, cut->pitch, cut->hole);
    const named_number numbers[] = {
        {"flutes", FLUTES},
        {"flute_length", fmax(cut->pitch, groove.width)},
        {"neck_diameter", fmax(0.4 * cut->tool, cut->tool - neck_share * cut->pitch)},
        {"neck_length", length},
    };
    return set_numbers(request, numbers, sizeof numbers / sizeof *numbers, error);
}

void bite_thread_mill_set_feed(bite_request *request, double tool)
{
    const bite_typed_input feed = {1, BITE_KIND_TOOTH_FEED, tooth_feed * tool, 0};
    request->typed[bite_input_index(bite_input_find("feed_rate"))] = feed;
}

static bite_status make_request(const bite_library *library, const bite_thread_advice *advice,
                                const char *machine, const bite_thread_milling *milling,
                                bite_request **request, bite_error *error)
{
    const bite_thread_mill_cut cut = {advice->diameter, advice->pitch, advice->hole, milling->tool,
                                      milling->passes};
    bite_status status = bite_request_new(library, request, error);
    status = status != BITE_OK
                 ? status
                 : bite_request_use(*request, BITE_GRADES, advice->material->record.name, error);
    if (status == BITE_OK && machine != NULL) {
        status = bite_request_use(*request, BITE_MACHINES, machine, error);
    }
    status = status != BITE_OK
                 ? status
                 : bite_request_set_number(*request, "diameter", milling->tool, error);
    status = status != BITE_OK ? status : bite_thread_mill_set_cut(*request, &cut, error);
    status = status != BITE_OK ? status
                               : bite_thread_mill_set_tool(*request, &cut, advice->length, error);
    if (status == BITE_OK) {
        bite_thread_mill_set_feed(*request, milling->tool);
        (*request)->skip_change = 1;
        (*request)->scope = BITE_SCOPE_SETTINGS;
    }
    return status;
}

double bite_thread_mill_turns(double chosen)
{
    double step = chosen >= 2000.0 / 60.0 ? 100.0 / 60.0 : 10.0 / 60.0;
    double turns = step * floor(chosen / step * (1.0 + 1e-9));
    return turns > 0.0 ? turns : chosen;
}

static void take(const bite_thread_advice *advice, const bite_choice *choice,
                 bite_thread_milling *milling)
{
    const bite_cut *cut = &choice->answer->full;
    const bite_result *result = &choice->answer->result;
    milling->verdict = result->verdict;
    milling->chance = result->chance;
    milling->turns = bite_thread_mill_turns(cut->spindle_speed);
    milling->edge_feed = cut->feed_rate * milling->turns / cut->spindle_speed;
    milling->centre_feed =
        bite_thread_mill_centre_feed(milling->edge_feed, advice->diameter, milling->tool);
    milling->chip = result->values[BITE_CHIP_THICKNESS_MAX].value;
    milling->closest = result->worst;
}

bite_status bite_thread_mill(const bite_library *library, const bite_thread_advice *advice,
                             const char *machine, bite_thread_milling *milling, bite_error *error)
{
    bite_choice_options options;
    bite_status status = BITE_OK;
    memset(&options, 0, sizeof options);
    options.struct_size = (uint32_t)sizeof options;
    options.draws = DRAWS;
    options.confidence = CONFIDENCE;
    memset(milling, 0, sizeof *milling);
    milling->most = bite_thread_mill_largest(advice->diameter, advice->hole);
    milling->tool = floor(milling->most * 1e4 + 1e-6) / 1e4;
    for (uint32_t passes = 1; passes <= BITE_THREAD_MILL_PASSES && status == BITE_OK; passes++) {
        bite_request *request = NULL;
        bite_choice *choice = NULL;
        bite_thread_milling tried = *milling;
        tried.passes = passes;
        status = make_request(library, advice, machine, &tried, &request, error);
        status = status != BITE_OK ? status : bite_choice_new(request, &options, &choice, error);
        if (status == BITE_OK) {
            take(advice, choice, &tried);
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
