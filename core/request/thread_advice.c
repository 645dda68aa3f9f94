/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What to do for a thread in a material. */
#include "core/request/thread_advice.h"
#include "core/base/error.h"
#include "core/library/collection.h"
#include "core/library/listing.h"
#include "core/library/material.h"
#include "core/names/registry.h"
#include "core/physics/geometry/thread.h"
#include "core/request/answer.h"
#include "core/request/request.h"
#include "core/request/tap_drill.h"
#include <math.h>
#include <string.h>

#define DRAWS 2048
#define CONFIDENCE 0.9

/* A forming tap presses the thread out of a hole of about D - P/2 (memory: tap makers). */
static const double forming_share = 0.5;

/* A drill more or less that a chart shows beside the usual one, as shares of thread. */
static const double neighbours[] = {0.1, -0.1};

static bite_status add_drill(const bite_library *library, double share, bite_thread_advice *advice,
                             bite_error *error)
{
    const bite_item_record *drill = NULL;
    double hole = bite_thread_hole(advice->diameter, advice->pitch, share);
    bite_status status =
        bite_tap_drill(library, hole, bite_thread_is_metric(advice->pitch), &drill, error);
    if (status != BITE_OK || drill == NULL) {
        return status;
    }
    bite_thread_drill own = {drill->name, bite_item_figure(drill, "diameter"), 0.0};
    own.share = bite_thread_share(advice->diameter, advice->pitch, own.diameter);
    for (size_t i = 0; i < advice->drill_count; i++) {
        if (strcmp(advice->drills[i].name, own.name) == 0) {
            return BITE_OK;
        }
    }
    if (own.share > 0.3 && own.share <= 1.0) {
        advice->drills[advice->drill_count++] = own;
    }
    return BITE_OK;
}

static bite_status find_drills(const bite_library *library, bite_thread_advice *advice,
                               bite_error *error)
{
    bite_status status = add_drill(library, advice->share, advice, error);
    for (size_t i = 0; i < sizeof neighbours / sizeof *neighbours && status == BITE_OK; i++) {
        status = add_drill(library, advice->share + neighbours[i], advice, error);
    }
    return status;
}

/* Torque and strength: those of the engine for a tap at the usual speed. */
static bite_status find_torque(const bite_library *library, bite_thread_advice *advice,
                               bite_error *error)
{
    bite_request *request = NULL;
    bite_answer *answer = NULL;
    bite_status status = bite_request_new(library, &request, error);
    status = status != BITE_OK
                 ? status
                 : bite_request_use(request, BITE_GRADES, advice->material->record.name, error);
    status = status != BITE_OK
                 ? status
                 : bite_request_use(request, BITE_THREADS, advice->thread->name, error);
    status = status != BITE_OK
                 ? status
                 : bite_request_set_number(request, "spindle_speed", advice->turns, error);
    status = status != BITE_OK ? status
                               : bite_request_set_number(request, "depth", advice->length, error);
    if (status == BITE_OK) {
        request->skip_change = 1;
        status = bite_answer_new(request, DRAWS, CONFIDENCE, &answer, error);
    }
    if (status == BITE_OK) {
        const bite_value *torque = &answer->result.values[BITE_TORQUE_PEAK];
        const bite_limit *limit = &answer->result.limits[BITE_LIMIT_TOOL_BREAK];
        advice->torque = torque->value;
        advice->torque_low = torque->low;
        advice->torque_high = torque->high;
        advice->strength = limit->applies ? torque->value / limit->utilization : (double)NAN;
    }
    bite_answer_free(answer);
    bite_request_free(request);
    return status == BITE_MISSING || status == BITE_NO_ANSWER ? BITE_OK : status;
}

/* A rough size, to tenths of a millimetre. */
static double tenths(double length)
{
    return round(length * 1e4) / 1e4;
}

/* Inserts are for materials in which a thread of its own is weak. */
static bite_status find_inserts(const bite_library *library, uint32_t substance,
                                bite_thread_advice *advice, bite_error *error)
{
    size_t count = 0;
    bite_status status =
        substance == BITE_METAL ? BITE_OK : bite_library_size(library, BITE_INSERTS, &count, error);
    for (size_t i = 0; status == BITE_OK && i < count && i < BITE_THREAD_INSERTS; i++) {
        bite_item item;
        bite_thread_insert *insert = &advice->inserts[advice->insert_count];
        status = bite_library_item(library, BITE_INSERTS, i, &item, error);
        status = status != BITE_OK ? status
                                   : bite_library_record(library, BITE_INSERTS, item.name,
                                                         &insert->record, error);
        if (status != BITE_OK) {
            break;
        }
        int melts = substance == BITE_AMORPHOUS || substance == BITE_CRYSTALLINE;
        int tough = bite_item_word(insert->record, "brittle", 1) == 0;
        insert->unfit = (bite_item_is_yes(insert->record, "melts") && !melts) ||
                        (tough && substance != BITE_CRYSTALLINE);
        double outer = bite_item_figure(insert->record, "outer") * advice->diameter;
        insert->outer = tenths(outer);
        insert->hole = tenths(bite_item_figure(insert->record, "hole") * outer);
        insert->boss = tenths(outer * (1.0 + 2.0 * bite_item_figure(insert->record, "wall")));
        advice->insert_count++;
    }
    return status;
}

static void fill_figures(bite_thread_advice *advice)
{
    double share = bite_item_figure(advice->usual, "thread_share");
    double length = bite_item_figure(advice->usual, "length");
    advice->share = isnan(share) ? bite_input_find("thread_share")->fallback : share;
    advice->hole = bite_thread_hole(advice->diameter, advice->pitch, advice->share);
    advice->speed = bite_item_figure(advice->usual, "speed");
    advice->turns = advice->speed / (M_PI * advice->diameter);
    double rpm = 60.0 * advice->turns;
    double step = rpm >= 2000.0 ? 100.0 : 10.0;
    advice->turns = rpm > step ? step * floor(rpm / step) / 60.0 : advice->turns;
    advice->feed = advice->pitch * advice->turns;
    advice->length = (isnan(length) ? 1.5 : length) * advice->diameter;
    /* the chamfer of a tap for blind holes, and a pitch for its tip and the chips */
    advice->blind = advice->length + (2.5 + 1.0) * advice->pitch;
    advice->wall = bite_item_figure(advice->usual, "wall") * advice->diameter;
    advice->forming_hole = advice->usual != NULL && bite_item_is_yes(advice->usual, "forms")
                               ? advice->diameter - forming_share * advice->pitch
                               : (double)NAN;
}

bite_status bite_thread_advise(const bite_library *library, const char *thread,
                               const char *material, bite_thread_advice *advice, bite_error *error)
{
    memset(advice, 0, sizeof *advice);
    advice->torque = advice->torque_low = advice->torque_high = advice->strength = (double)NAN;
    bite_status status = bite_library_record(library, BITE_THREADS, thread, &advice->thread, error);
    status = status != BITE_OK ? status
                               : bite_library_grade(library, material, &advice->material, error);
    if (status != BITE_OK) {
        return status;
    }
    const bite_field_value *substance = bite_item_field(&advice->material->record, "substance");
    const char *word = substance == NULL ? "any" : substance->field->words[substance->word];
    status = bite_library_hole_work(library, BITE_HOLE_TAPPING, advice->material, word,
                                    &advice->usual, error);
    if (status != BITE_OK && status != BITE_UNKNOWN_NAME) {
        return status;
    }
    advice->usual = status == BITE_OK ? advice->usual : NULL;
    status = bite_library_hole_work(library, BITE_HOLE_DRILLING, advice->material, word,
                                    &advice->drilling, error);
    if (status != BITE_OK && status != BITE_UNKNOWN_NAME) {
        return status;
    }
    advice->drilling = status == BITE_OK ? advice->drilling : NULL;
    advice->diameter = bite_item_figure(advice->thread, "thread_diameter");
    advice->pitch = bite_item_figure(advice->thread, "pitch");
    fill_figures(advice);
    status = find_drills(library, advice, error);
    status =
        status != BITE_OK || isnan(advice->turns) ? status : find_torque(library, advice, error);
    return status != BITE_OK
               ? status
               : find_inserts(library, substance == NULL ? BITE_METAL : substance->word, advice,
                              error);
}
