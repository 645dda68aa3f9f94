/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * How the tool gets into each feature: from outside where the feature is open, otherwise down a
 * ramp, a helix, straight, or through a hole that was drilled before.
 *
 * A ramp runs along the feature, there and back if it is short; it needs a leg of a diameter, or
 * each leg gains next to nothing. A helix opens a hole narrower than two diameters, so that no core
 * is left, and wide enough that the tool does not turn on the spot. The shares are common practice.
 */
#include "core/job/entry_plan.h"
#include "core/job/hole_plan.h"
#include "core/job/job_file.h"
#include "core/job/remarks.h"
#include "core/library/collection.h"
#include "core/names/registry.h"
#include <math.h>
#include <string.h>

static const double ramp_leg_least = 1.0;     /* level length over the diameter */
static const double helix_path_least = 0.3;   /* diameter of the centre's path over the tool's */
static const double helix_path_spiral = 0.5;  /* at least, to work outwards from it */
static const double helix_path_most = 0.9;    /* above 1 a core is left */
static const double hole_over_diameter = 1.1; /* of the hole that the tool is lowered into */

static const char *const why_open = "the feature runs out at the part's edge";
static const char *const why_stage = "its feature is open by now";
static const char *const why_hole = "neither a ramp nor a helix fits, and this tool cannot plunge";

int bite_plan_is_closed(uint32_t work)
{
    return work == BITE_WORK_SLOT || work == BITE_WORK_POCKET || work == BITE_WORK_ROUGH ||
           work == BITE_WORK_BORE || work == BITE_WORK_CONTOUR || work == BITE_WORK_FREE;
}

static int is_area(uint32_t work)
{
    return work == BITE_WORK_POCKET || work == BITE_WORK_ROUGH;
}

/* A pocket as long as the part, or as wide, has no wall at its ends. */
int bite_plan_runs_out(const bite_job *job, const bite_section *section, uint32_t work)
{
    double length = bite_job_file_number(section, "length");
    double across = bite_job_file_number(section, "across");
    return is_area(work) && (length >= fmax(job->length, job->width) * (1.0 - 1e-9) ||
                             across >= fmin(job->length, job->width) * (1.0 - 1e-9));
}

static int can_plunge(const bite_job *job, const char *tool)
{
    const bite_item_record *record = NULL;
    return bite_library_record(job->library, BITE_TOOLS, tool, &record, NULL) != BITE_OK ||
           bite_item_word(record, "centre_cutting", 1) != 0;
}

/* The level length of one leg of a ramp along the feature; INFINITY: along a path around it. */
static double leg_of(const bite_section *section, uint32_t work, double diameter)
{
    double length = bite_job_file_number(section, "length");
    if (isnan(length) || !(is_area(work) || work == BITE_WORK_SLOT)) {
        return INFINITY;
    }
    return fmax(0.0, length - diameter);
}

/* The widest path of the tool's centre on a helix. */
static double helix_of(const bite_section *section, const bite_planned_pass *pass, double diameter)
{
    uint32_t work = pass->work;
    double across = bite_job_file_number(section, "across") - 2.0 * pass->leaves;
    double room = isnan(across) ? (is_area(work) ? INFINITY : 0.0) : fmax(0.0, across - diameter);
    return work == BITE_WORK_BORE ? (isnan(across) ? helix_path_most * diameter : room)
                                  : fmin(room, helix_path_most * diameter);
}

static void choose_entry(const bite_job *job, const bite_section *section, const char *tool,
                         double diameter, bite_planned_pass *pass)
{
    bite_planned_entry *entry = &pass->entry;
    int side = pass->work == BITE_WORK_ROUGH || !isnan(pass->width);
    int opens = side && pass->work == BITE_WORK_CONTOUR; /* along an edge that is open */
    entry->kind = BITE_ENTER_OUTSIDE;
    if (pass->work == BITE_WORK_THREAD_MILL) {
        entry->kind = BITE_ENTER_ARC;
    } else if (bite_work_is_hole(pass->work)) {
        entry->kind = BITE_ENTER_DRILL;
    } else if (pass->stage > BITE_STAGE_ROUGH) {
        entry->why = why_stage;
    } else if (pass->work == BITE_WORK_BORE) {
        entry->kind = BITE_ENTER_HELIX;
    } else if (bite_plan_runs_out(job, section, pass->work)) {
        entry->why = why_open;
    } else if (bite_plan_is_closed(pass->work) && !opens) {
        int spiral = side && entry->helix >= helix_path_spiral * diameter;
        entry->kind = spiral                                        ? BITE_ENTER_HELIX
                      : entry->leg >= ramp_leg_least * diameter     ? BITE_ENTER_RAMP
                      : entry->helix >= helix_path_least * diameter ? BITE_ENTER_HELIX
                      : can_plunge(job, tool)                       ? BITE_ENTER_PLUNGE
                                                                    : BITE_ENTER_HOLE;
        entry->why = entry->kind == BITE_ENTER_HOLE ? why_hole : "";
    }
}

void bite_plan_entry(const bite_job *job, const bite_section *section, const char *tool,
                     double diameter, bite_planned_pass *pass)
{
    bite_planned_entry *entry = &pass->entry;
    memset(entry, 0, sizeof *entry);
    entry->why = "";
    entry->feed = entry->angle = entry->length = (double)NAN;
    entry->leg = leg_of(section, pass->work, diameter);
    entry->helix = helix_of(section, pass, diameter);
    entry->hole = hole_over_diameter * diameter;
    entry->stated = bite_job_file_text(section, "entry") != NULL && pass->stage <= BITE_STAGE_ROUGH;
    entry->plunges = (uint32_t)can_plunge(job, tool);
    if (entry->stated) {
        entry->kind = bite_job_file_word(section, "entry", BITE_ENTER_OUTSIDE);
    } else {
        choose_entry(job, section, tool, diameter, pass);
    }
}

bite_status bite_plan_entry_request(const bite_section *section, const bite_planned_pass *pass,
                                    bite_request *request, bite_error *error)
{
    static const char *const words[] = {"outside", "plunge", "ramp", "helix", "outside"};
    const bite_planned_entry *entry = &pass->entry;
    int enters = pass->stage <= BITE_STAGE_ROUGH;
    const char *angle = enters ? bite_job_file_text(section, "ramp_angle") : NULL;
    const char *feed = enters ? bite_job_file_text(section, "entry_feed") : NULL;
    bite_status status = BITE_OK;
    /* what a closed feature usually has stays a default of the cut */
    int is_default = entry->kind == BITE_ENTER_RAMP && isnan(pass->width) &&
                     pass->work != BITE_WORK_ROUGH && angle == NULL && feed == NULL;
    int is_closed = bite_plan_is_closed(pass->work);
    if (entry->stated || (is_closed && !is_default)) { /* neither a drill nor an arc */
        status = bite_request_set(request, "entry", words[entry->kind], error);
    }
    status = status != BITE_OK || angle == NULL
                 ? status
                 : bite_request_set(request, "ramp_angle", angle, error);
    return status != BITE_OK || feed == NULL ? status
                                             : bite_request_set(request, "entry_feed", feed, error);
}

/* The hole, and the pass that makes it. */
static void remark_hole(bite_job *job, const bite_planned_pass *pass)
{
    const bite_planned_entry *entry = &pass->entry;
    for (size_t i = 0; i < job->pass_count; i++) {
        const bite_planned_pass *made = &job->passes[i];
        if (pass->hole.made_by != NULL && strcmp(made->name, pass->hole.made_by) == 0) {
            const bite_remark_value values[] = {
                bite_remark_text(pass->title), bite_remark_text(made->title),
                bite_remark_number(bite_plan_hole_width(job, i)), bite_remark_text(entry->why)};
            bite_plan_remark(job, BITE_REMARK_ENTRY_BY_PASS, values, 4);
            return;
        }
    }
    const bite_remark_value values[] = {bite_remark_text(pass->title),
                                        bite_remark_number(entry->hole),
                                        bite_remark_text(entry->why)};
    bite_plan_remark(job, BITE_REMARK_ENTRY_HOLE, values, 3);
}

/* A stated entry is judged like any other; here only whether it fits. */
void bite_plan_entry_check(bite_job *job, const bite_planned_pass *pass)
{
    const bite_planned_entry *entry = &pass->entry;
    double diameter = job->tools[pass->tool].diameter;
    const bite_remark_value title = bite_remark_text(pass->title);
    if (entry->kind == BITE_ENTER_HOLE) {
        remark_hole(job, pass);
    } else if (entry->kind == BITE_ENTER_PLUNGE && !entry->plunges) {
        bite_plan_remark(job, BITE_REMARK_ENTRY_PLUNGE, &title, 1);
    } else if ((entry->kind == BITE_ENTER_RAMP && entry->leg < ramp_leg_least * diameter) ||
               (entry->kind == BITE_ENTER_HELIX && bite_plan_is_closed(pass->work) &&
                entry->helix < helix_path_least * diameter && pass->work != BITE_WORK_BORE)) {
        const bite_remark_value values[] = {
            title, bite_remark_text(entry->kind == BITE_ENTER_RAMP ? "ramp" : "helix"),
            bite_remark_number(entry->kind == BITE_ENTER_RAMP ? entry->leg : entry->helix)};
        bite_plan_remark(job, BITE_REMARK_ENTRY_SHORT, values, 3);
    }
}

void bite_plan_entry_path(bite_planned_pass *pass)
{
    bite_planned_entry *entry = &pass->entry;
    const bite_cut *cut = &pass->answer->full;
    double slope = tan(cut->ramp_angle);
    double descent = pass->step_down;
    switch (entry->kind) {
    case BITE_ENTER_PLUNGE:
        entry->feed = bite_answer_entry_feed(pass->answer);
        entry->length = descent;
        break;
    case BITE_ENTER_RAMP:
        entry->feed = bite_answer_entry_feed(pass->answer);
        entry->angle = cut->ramp_angle;
        entry->length = descent / sin(cut->ramp_angle);
        entry->legs = entry->leg > 0.0 && isfinite(entry->leg)
                          ? fmax(1.0, ceil(descent / slope / entry->leg - 1e-9))
                          : 1.0;
        break;
    case BITE_ENTER_HELIX:
        entry->feed = bite_answer_entry_feed(pass->answer);
        entry->angle = cut->ramp_angle;
        entry->length = descent / sin(cut->ramp_angle);
        entry->pitch = M_PI * entry->helix * slope;
        break;
    default:
        break;
    }
}
