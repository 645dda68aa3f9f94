/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Holes of a job. A pass that taps, reams or mills a thread needs a hole: the pass that it names,
 * or the drilled or bored one of the same count whose size suits best. A thread in a blind hole
 * needs room below it for the chamfer of the tap.
 */
#include "core/job/hole_plan.h"
#include "core/base/error.h"
#include "core/base/text.h"
#include "core/job/job_file.h"
#include "core/job/plan_faults.h"
#include "core/job/plan_text.h"
#include "core/job/positions.h"
#include "core/job/thread_plan.h"
#include "core/library/collection.h"
#include "core/library/item.h"
#include "core/library/material.h"
#include "core/names/registry.h"
#include "core/physics/geometry/thread.h"
#include "core/request/tap_drill.h"
#include <math.h>
#include <string.h>

static const double lead_blind = 2.5;  /* threads, of taps for blind holes (common practice) */
static const double share_least = 0.4; /* of thread: less strips */
static const double pilot_share = 0.3; /* of the diameter: wider than the chisel edge (memory) */

int bite_work_is_hole(uint32_t work)
{
    return work == BITE_WORK_DRILL || bite_work_needs_hole(work);
}

int bite_work_needs_hole(uint32_t work)
{
    return work == BITE_WORK_TAP || work == BITE_WORK_REAM || work == BITE_WORK_THREAD_MILL;
}

static int makes_thread(uint32_t work)
{
    return work == BITE_WORK_TAP || work == BITE_WORK_THREAD_MILL;
}

const bite_item_record *bite_plan_thread_of(const bite_job *job, const bite_section *section)
{
    const char *name = bite_job_file_text(section, "thread");
    const bite_item_record *thread = NULL;
    return name != NULL &&
                   bite_library_record(job->library, BITE_THREADS, name, &thread, NULL) == BITE_OK
               ? thread
               : NULL;
}

const char *bite_plan_tap_name(bite_job *job, const bite_section *section)
{
    const bite_item_record *thread = bite_plan_thread_of(job, section);
    const char *hand = bite_job_file_word(section, "hand", 0) == 1 ? " left-hand" : "";
    return thread == NULL ? NULL : bite_plan_text(job, "tap %s%s", thread->name, hand);
}

double bite_plan_thread_diameter(const bite_job *job, const bite_section *section)
{
    return bite_item_figure(bite_plan_thread_of(job, section), "thread_diameter");
}

double bite_plan_thread_pitch(const bite_job *job, const bite_section *section)
{
    return bite_item_figure(bite_plan_thread_of(job, section), "pitch");
}

double bite_plan_point_angle(const bite_job *job, const bite_planned_pass *pass)
{
    const bite_item_record *record = NULL;
    double usual = bite_input_find("point_angle")->fallback;
    return bite_library_record(job->library, BITE_TOOLS, job->tools[pass->tool].name, &record,
                               NULL) == BITE_OK
               ? bite_item_figure_or(record, "point_angle", usual)
               : usual;
}

/* ---- the hole before ---- */

double bite_plan_hole_width(const bite_job *job, size_t index)
{
    const bite_planned_pass *pass = &job->passes[index];
    return pass->work == BITE_WORK_BORE
               ? bite_job_file_number(job->file_data.passes[index], "across")
               : job->tools[pass->tool].diameter;
}

static const double same_place = 0.05e-3; /* m, of positions that are written with rounding */

static int has_position(const bite_positions *of, double x, double y)
{
    for (size_t i = 0; i < of->count; i++) {
        if (hypot(of->x[i] - x, of->y[i] - y) <= same_place) {
            return 1;
        }
    }
    return 0;
}

int bite_plan_same_places(const bite_job *job, size_t first, size_t second)
{
    bite_positions made = {0};
    bite_positions wanted = {0};
    (void)bite_positions_read(bite_job_file_text(job->file_data.passes[first], "at"), &made, NULL);
    (void)bite_positions_read(bite_job_file_text(job->file_data.passes[second], "at"), &wanted,
                              NULL);
    int same = made.count == wanted.count;
    for (size_t i = 0; same && i < wanted.count; i++) {
        same = has_position(&made, wanted.x[i], wanted.y[i]);
    }
    return same || made.count == 0 || wanted.count == 0 ||
           job->passes[first].setup != job->passes[second].setup;
}

/* The diameter that the hole will have: that of the reamer or the thread. */
static double nominal_of(const bite_job *job, const bite_planned_pass *pass)
{
    return pass->hole.thread == NULL ? job->tools[pass->tool].diameter
                                     : bite_item_figure(pass->hole.thread, "thread_diameter");
}

/* How well a hole suits: the lower, the better; INFINITY: it does not. */
static double misfit(const bite_job *job, size_t index, const bite_planned_pass *pass)
{
    const bite_planned_pass *first = &job->passes[index];
    double width = bite_plan_hole_width(job, index);
    double diameter = nominal_of(job, pass);
    if ((first->work != BITE_WORK_DRILL && first->work != BITE_WORK_BORE) ||
        first->setup > pass->setup || first->count != pass->count ||
        !bite_plan_same_places(job, index, (size_t)(pass - job->passes))) {
        return INFINITY;
    }
    if (pass->work == BITE_WORK_REAM) {
        return width < diameter && width > 0.5 * diameter ? diameter - width : INFINITY;
    }
    double share = bite_thread_share(diameter, pass->hole.pitch, width);
    return share >= share_least && share <= 1.0 ? fabs(share - pass->hole.share) : INFINITY;
}

static void fault(bite_job *job, size_t index, const char *key, const char *hint,
                  const char *message)
{
    bite_error error = BITE_ERROR_INIT;
    bite_error_set(&error, BITE_BAD_FILE, "%s", message);
    bite_error_key(&error, "%s", key);
    bite_error_hint(&error, "%s", hint);
    bite_plan_fault(job, job->file_data.passes[index], &error);
}

/* What to drill for the pass, for a hint. */
static const char *drill_for(bite_job *job, const bite_planned_pass *pass)
{
    double diameter = nominal_of(job, pass);
    double hole = pass->work == BITE_WORK_REAM
                      ? diameter - 1e-4 - 0.025 * diameter
                      : bite_thread_hole(diameter, pass->hole.pitch, pass->hole.share);
    int metric = pass->work == BITE_WORK_REAM || bite_thread_is_metric(pass->hole.pitch);
    const bite_item_record *drill = NULL;
    char size[40];
    job->out_of_memory |=
        bite_tap_drill(job->library, hole, metric, &drill, NULL) == BITE_NO_MEMORY;
    (void)bite_plan_quantity(job, hole, BITE_KIND_LENGTH, size, sizeof size);
    return drill == NULL
               ? bite_plan_text(job, "add a pass that drills it, of %s, with the same count", size)
               : bite_plan_text(job,
                                "add a pass with work = drill, tool = %s, and the same count (%u)",
                                drill->name, pass->count);
}

/* The depth of the full diameter of a hole; INFINITY: it goes through. */
static double depth_made(const bite_job *job, size_t first)
{
    double depth = job->passes[first].depth; /* the point of a drill is not in it yet */
    return depth < job->thickness ? depth : INFINITY;
}

/* A tap needs room for its chamfer below the thread, and a mill half a pitch to start, and as much
 * for its tooth, unless the hole goes through. */
static double room_below(const bite_planned_pass *pass, double lead)
{
    return pass->work == BITE_WORK_TAP ? (isnan(lead) ? lead_blind : lead) * pass->hole.pitch
           : pass->work == BITE_WORK_THREAD_MILL ? pass->hole.pitch
                                                 : 0.0;
}

/* Of the hole that a pass is made in: a tap needs room for its chamfer below the thread, a thread
 * mill that of a pitch, unless the hole goes through. */
static double depth_needed(const bite_job *job, size_t index)
{
    const bite_planned_pass *pass = &job->passes[index];
    return pass->depth +
           room_below(pass, bite_job_file_number(job->file_data.passes[index], "lead"));
}

static int is_deep_enough(double needed, double made)
{
    return !(needed > made * (1.0 + 1e-9));
}

/* The pass that is named, or of those whose hole is deep enough the one that suits best, or the
 * one that suits best if none is; pass_count: none. */
static size_t find_hole(bite_job *job, size_t index)
{
    const bite_planned_pass *pass = &job->passes[index];
    const char *name = bite_job_file_text(job->file_data.passes[index], "hole");
    double needed = depth_needed(job, index);
    size_t best = job->pass_count;
    double least = INFINITY;
    int deep = 0;
    for (size_t i = 0; i < job->pass_count; i++) {
        if (name != NULL && bite_text_equals(job->passes[i].name, name)) {
            return i;
        }
        double own = name == NULL && i != index ? misfit(job, i, pass) : INFINITY;
        int own_deep = is_deep_enough(needed, depth_made(job, i));
        if (isfinite(own) && (own_deep > deep || (own_deep == deep && own < least))) {
            best = i;
            least = own;
            deep = own_deep;
        }
    }
    return best;
}

static void check_size(bite_job *job, size_t index, size_t first)
{
    const bite_planned_pass *pass = &job->passes[index];
    if (isfinite(misfit(job, first, pass))) {
        return;
    }
    if (job->passes[first].count != pass->count) {
        fault(job, index, "count", "give both passes the same count",
              bite_plan_text(job, "%.60s makes %u holes, and this pass needs %u",
                             job->passes[first].name, job->passes[first].count, pass->count));
        return;
    }
    if (!bite_plan_same_places(job, first, index)) {
        fault(job, index, "at", "state the same positions in both passes",
              bite_plan_text(job, "%.60s makes its holes elsewhere than this pass needs them",
                             job->passes[first].name));
        return;
    }
    char width[40];
    (void)bite_plan_quantity(job, bite_plan_hole_width(job, first), BITE_KIND_LENGTH, width,
                             sizeof width);
    fault(job, index, "hole", drill_for(job, pass),
          bite_plan_text(job, "the hole of %.60s, %s wide, does not suit this %s",
                         job->passes[first].name, width,
                         makes_thread(pass->work) ? "thread" : "reamer"));
}

static void check_depth(bite_job *job, size_t index)
{
    const bite_planned_pass *pass = &job->passes[index];
    double needed = depth_needed(job, index);
    if (is_deep_enough(needed, pass->hole.depth)) {
        return;
    }
    char need[40];
    char have[40];
    (void)bite_plan_quantity(job, needed, BITE_KIND_LENGTH, need, sizeof need);
    (void)bite_plan_quantity(job, pass->hole.depth, BITE_KIND_LENGTH, have, sizeof have);
    fault(job, index, "depth",
          bite_plan_text(job, "drill it at least %s deep, or make the %s shorter%s", need,
                         makes_thread(pass->work) ? "thread" : "reamed length",
                         pass->work == BITE_WORK_TAP ? "; a bottoming tap has lead = 1.5" : ""),
          bite_plan_text(job, "the hole is %s deep at its full diameter, and the %s needs %s", have,
                         pass->work == BITE_WORK_TAP           ? "tap with its chamfer"
                         : pass->work == BITE_WORK_THREAD_MILL ? "thread mill with a pitch below"
                                                               : "reamer",
                         need));
}

static void take_hole(bite_job *job, size_t index, size_t first)
{
    bite_planned_hole *hole = &job->passes[index].hole;
    hole->made_by = job->passes[first].name;
    hole->diameter = bite_plan_hole_width(job, first);
    hole->depth = depth_made(job, first);
    check_size(job, index, first); /* its hint needs the usual share of thread */
    hole->share =
        makes_thread(job->passes[index].work)
            ? bite_thread_share(nominal_of(job, &job->passes[index]), hole->pitch, hole->diameter)
            : (double)NAN;
    check_depth(job, index);
    if (job->passes[index].work == BITE_WORK_THREAD_MILL) {
        bite_plan_thread_check(job, index);
    }
}

static void fill_one(bite_job *job, size_t index)
{
    bite_planned_pass *pass = &job->passes[index];
    const bite_section *section = job->file_data.passes[index];
    bite_planned_hole *hole = &pass->hole;
    const bite_item_record *usual = NULL;
    double stated = bite_job_file_number(section, "depth");
    hole->blind = stated < job->thickness * (1.0 - 1e-9);
    if (pass->work == BITE_WORK_DRILL) {
        hole->point =
            0.5 * job->tools[pass->tool].diameter / tan(0.5 * bite_plan_point_angle(job, pass));
        int known =
            bite_library_hole_work(job->library, BITE_HOLE_DRILLING, job->grade,
                                   bite_material_substance(job->grade), &usual, NULL) == BITE_OK;
        double from = known ? bite_item_figure_or(usual, "pilot", INFINITY) : INFINITY;
        double diameter = job->tools[pass->tool].diameter;
        hole->pilot = diameter >= from ? round(pilot_share * diameter * 1e4) / 1e4 : (double)NAN;
        return;
    }
    if (!bite_work_needs_hole(pass->work)) {
        return;
    }
    hole->thread = bite_plan_thread_of(job, section);
    hole->left_hand = bite_job_file_word(section, "hand", 0);
    hole->pitch = bite_item_figure(hole->thread, "pitch");
    int known =
        bite_library_hole_work(job->library, BITE_HOLE_TAPPING, job->grade,
                               bite_material_substance(job->grade), &usual, NULL) == BITE_OK;
    hole->share = known ? bite_item_figure_or(usual, "thread_share", 0.75) : 0.75;
    size_t first = find_hole(job, index);
    if (first < job->pass_count) {
        take_hole(job, index, first);
    } else {
        int placed = bite_job_file_text(section, "at") != NULL;
        fault(job, index, "hole", drill_for(job, pass),
              bite_plan_text(job, "no pass makes a hole that suits this %s%s",
                             makes_thread(pass->work) ? "thread" : "reamer",
                             placed ? " at the positions that it states" : ""));
    }
}

void bite_plan_holes(bite_job *job)
{
    for (size_t i = 0; i < job->pass_count; i++) {
        fill_one(job, i);
    }
}

/* ---- the request ---- */

bite_status bite_plan_hole_request(const bite_job *job, const bite_section *section,
                                   const bite_planned_pass *pass, bite_request *request,
                                   bite_error *error)
{
    double lead = bite_job_file_number(section, "lead");
    bite_status status = BITE_OK;
    if (pass->work == BITE_WORK_THREAD_MILL) {
        return bite_plan_thread_request(job, section, pass, request, error);
    }
    if (pass->work == BITE_WORK_DRILL) {
        return bite_request_set(request, "operation", "drill", error);
    }
    status =
        bite_request_set(request, "operation", pass->work == BITE_WORK_TAP ? "tap" : "ream", error);
    if (status == BITE_OK && pass->hole.thread != NULL) {
        status = bite_request_use(request, BITE_THREADS, pass->hole.thread->name, error);
    }
    if (status == BITE_OK && isfinite(pass->hole.diameter)) {
        status = bite_request_set_number(request, "hole_diameter", pass->hole.diameter, error);
    }
    if (status == BITE_OK && pass->work == BITE_WORK_TAP && isfinite(pass->hole.depth)) {
        status = bite_request_set(request, "blind", "yes", error);
    }
    return status == BITE_OK && !isnan(lead)
               ? bite_request_set_number(request, "tap_lead", lead, error)
               : status;
}
