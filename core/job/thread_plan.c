/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Threads of a job that are milled by a single-point mill: one ring of teeth that runs on a helix
 * of one pitch each turn, in radial passes of equal section. It enters on the axis of the hole,
 * half a pitch below the thread, and runs onto the wall on a half circle whose end is tangent to
 * the thread, a quarter of a turn about the axis. Upwards it climbs in a right-hand thread; on a
 * machine with backlash it runs downwards, against the feed.
 */
#include "core/job/thread_plan.h"
#include "core/base/error.h"
#include "core/base/text.h"
#include "core/job/job_file.h"
#include "core/job/plan_faults.h"
#include "core/job/plan_text.h"
#include "core/library/collection.h"
#include "core/library/item.h"
#include "core/library/listing.h"
#include "core/names/registry.h"
#include "core/physics/geometry/thread.h"
#include "core/physics/geometry/thread_mill.h"
#include "core/search/choice.h"
#include "core/search/thread_milling.h"
#include <math.h>

static const double usual_share = 0.75; /* of thread, before the hole is known */
static const double hair = 1e-9;

static void fault(bite_job *job, const bite_section *section, const char *key, const char *hint,
                  const char *message)
{
    bite_error error = BITE_ERROR_INIT;
    bite_error_set(&error, BITE_BAD_FILE, "%s", message);
    bite_error_key(&error, "%s", key);
    bite_error_hint(&error, "%s", hint);
    bite_plan_fault(job, section, &error);
}

/* A mill of the table. */
typedef struct thread_mill {
    const bite_item_record *record; /* NULL: none */
    double diameter;
    double reach;
    int suits; /* the pitch */
} thread_mill;

static thread_mill mill_of(const bite_job *job, const char *name, double pitch)
{
    thread_mill mill = {NULL, 0.0, 0.0, 0};
    const bite_item_record *record = NULL;
    if (bite_library_record(job->library, BITE_TOOLS, name, &record, NULL) == BITE_OK &&
        bite_item_is_yes(record, "thread_mill")) {
        mill.record = record;
        mill.diameter = bite_item_figure_or(record, "diameter", 0.0);
        mill.reach = bite_item_figure_or(record, "flute_length", 0.0) +
                     bite_item_figure_or(record, "neck_length", INFINITY);
        mill.suits = pitch >= bite_item_figure_or(record, "pitch_least", 0.0) * (1.0 - hair) &&
                     pitch <= bite_item_figure_or(record, "pitch_most", INFINITY) * (1.0 + hair);
    }
    return mill;
}

/* Its teeth run half a pitch below the thread. */
static double reach_needed(const bite_planned_pass *pass, double pitch)
{
    return pass->depth + 0.5 * pitch;
}

/* ---- the mill of a pass that names none ---- */

typedef struct mill_search {
    double pitch;
    double most;         /* diameter */
    double reach;        /* needed */
    thread_mill best;    /* that fits */
    thread_mill longest; /* that fits but for its reach */
} mill_search;

static void consider(const bite_job *job, const char *name, mill_search *search)
{
    thread_mill mill = mill_of(job, name, search->pitch);
    if (mill.record == NULL || !mill.suits || mill.diameter > search->most * (1.0 + hair)) {
        return;
    }
    if (mill.reach >= search->reach * (1.0 - hair)) {
        search->best = mill.diameter > search->best.diameter ? mill : search->best;
    } else if (mill.reach > search->longest.reach) {
        search->longest = mill;
    }
}

static void consider_table(bite_job *job, mill_search *search)
{
    size_t count = 0;
    job->out_of_memory |=
        bite_library_size(job->library, BITE_TOOLS, &count, NULL) == BITE_NO_MEMORY;
    for (size_t i = 0; i < count; i++) {
        bite_item item;
        bite_status status = bite_library_item(job->library, BITE_TOOLS, i, &item, NULL);
        job->out_of_memory |= status == BITE_NO_MEMORY;
        if (status == BITE_OK) {
            consider(job, item.name, search);
        }
    }
}

static void report_none(bite_job *job, const bite_section *section, const mill_search *search,
                        const char *at_hand)
{
    char need[40];
    char most[40];
    (void)bite_plan_quantity(job, search->reach, BITE_KIND_LENGTH, need, sizeof need);
    (void)bite_plan_quantity(job, search->most, BITE_KIND_LENGTH, most, sizeof most);
    const char *where = at_hand == NULL ? "the table" : "at_hand";
    if (search->longest.record != NULL) {
        char reach[40];
        (void)bite_plan_quantity(job, search->longest.reach, BITE_KIND_LENGTH, reach, sizeof reach);
        fault(job, section, "tool", "make the thread shorter, or add a longer thread mill",
              bite_plan_text(job,
                             "the longest thread mill of %s for this thread, %.60s, reaches %s, "
                             "and this pass needs %s",
                             where, search->longest.record->name, reach, need));
        return;
    }
    mill_search all = {
        search->pitch, search->most, search->reach, {NULL, 0.0, 0.0, 0}, {NULL, 0.0, 0.0, 0}};
    if (at_hand != NULL) {
        consider_table(job, &all);
    }
    const char *hint =
        all.best.record == NULL
            ? bite_plan_text(job, "add one of at most %s to tools.ini, or tap the thread", most)
            : bite_plan_text(job, "add %s to at_hand, or name it: tool = %s", all.best.record->name,
                             all.best.record->name);
    fault(job, section, "tool", hint,
          bite_plan_text(job, "%s has no thread mill for this thread", where));
}

const char *bite_plan_thread_mill(bite_job *job, const bite_section *section,
                                  const bite_planned_pass *pass, double major, double pitch)
{
    const char *at_hand = bite_job_file_text(job->file_data.tools, "at_hand");
    mill_search search = {
        pitch,
        bite_thread_mill_largest(major, bite_thread_hole(major, pitch, usual_share)),
        reach_needed(pass, pitch),
        {NULL, 0.0, 0.0, 0},
        {NULL, 0.0, 0.0, 0}};
    char name[BITE_TYPED_MAX];
    if (at_hand == NULL) {
        consider_table(job, &search);
    }
    for (size_t i = 0; bite_job_file_name(at_hand, i, name, sizeof name); i++) {
        consider(job, name, &search);
    }
    if (search.best.record == NULL) {
        report_none(job, section, &search, at_hand);
        return NULL;
    }
    return search.best.record->name;
}

/* ---- checks ---- */

static void check_diameter(bite_job *job, size_t index, double major)
{
    const bite_planned_pass *pass = &job->passes[index];
    const bite_planned_tool *tool = &job->tools[pass->tool];
    double most = bite_thread_mill_largest(major, pass->hole.diameter);
    char have[40];
    char limit[40];
    if (!(tool->diameter > most * (1.0 + hair))) {
        return;
    }
    (void)bite_plan_quantity(job, tool->diameter, BITE_KIND_LENGTH, have, sizeof have);
    (void)bite_plan_quantity(job, most, BITE_KIND_LENGTH, limit, sizeof limit);
    fault(
        job, job->file_data.passes[index], "tool",
        bite_plan_text(job, "use a thread mill of at most %s, or leave tool out", limit),
        bite_plan_text(job,
                       "%.60s, of %s, is too large for this thread: it would cut its flanks away, "
                       "or touch the hole; at most %s fits",
                       tool->name, have, limit));
}

void bite_plan_thread_check(bite_job *job, size_t index)
{
    const bite_planned_pass *pass = &job->passes[index];
    const bite_section *section = job->file_data.passes[index];
    const char *named = bite_job_file_text(section, "tool");
    const char *name = job->tools[pass->tool].name;
    const bite_item_record *record = NULL;
    thread_mill mill = mill_of(job, name, pass->hole.pitch);
    double need = reach_needed(pass, pass->hole.pitch);
    if (named == NULL && mill.record == NULL) {
        return; /* there is none, which is reported */
    }
    check_diameter(job, index, bite_item_figure(pass->hole.thread, "thread_diameter"));
    if (mill.record == NULL) {
        if (bite_library_record(job->library, BITE_TOOLS, name, &record, NULL) == BITE_OK) {
            fault(job, section, "tool", "name a thread mill, such as tm-4.2, or leave tool out",
                  bite_plan_text(job, "%.60s is not a thread mill", name));
        }
        return; /* known by its diameter alone */
    }
    if (!mill.suits) {
        char pitch[40];
        (void)bite_plan_quantity(job, pass->hole.pitch, BITE_KIND_LENGTH, pitch, sizeof pitch);
        fault(job, section, "tool", "name another thread mill, or leave tool out",
              bite_plan_text(job, "%.60s does not cut a pitch of %s", name, pitch));
    }
    if (mill.reach < need * (1.0 - hair)) {
        char reach[40];
        char wanted[40];
        (void)bite_plan_quantity(job, mill.reach, BITE_KIND_LENGTH, reach, sizeof reach);
        (void)bite_plan_quantity(job, need, BITE_KIND_LENGTH, wanted, sizeof wanted);
        fault(
            job, section, "tool", "use a longer thread mill, or make the thread shorter",
            bite_plan_text(job,
                           "%.60s is too short: teeth and neck reach %s, and the thread with half "
                           "a pitch below it needs %s",
                           name, reach, wanted));
    }
}

/* ---- the cut ---- */

static bite_thread_mill_cut cut_of(const bite_planned_pass *pass, double tool, uint32_t passes)
{
    const bite_thread_mill_cut cut = {bite_item_figure(pass->hole.thread, "thread_diameter"),
                                      pass->hole.pitch, pass->hole.diameter, tool, passes};
    return cut;
}

bite_status bite_plan_thread_request(const bite_job *job, const bite_section *section,
                                     const bite_planned_pass *pass, bite_request *request,
                                     bite_error *error)
{
    const bite_planned_tool *tool = &job->tools[pass->tool];
    bite_thread_mill_cut cut = cut_of(pass, tool->diameter, 1);
    bite_status status = bite_thread_mill_set_cut(request, &cut, error);
    if (status == BITE_OK && mill_of(job, tool->name, pass->hole.pitch).record == NULL) {
        status = bite_thread_mill_set_tool(request, &cut, pass->depth, error);
    }
    if (bite_job_file_text(section, "feed") == NULL) {
        bite_thread_mill_set_feed(request, tool->diameter);
    }
    return status;
}

/* The feed per tooth is fixed, so that the choice is one of speed, which is then rounded. */
static bite_status answer_of(const bite_job *job, const bite_request *request,
                             const bite_choice_options *options, bite_answer **answer,
                             bite_error *error)
{
    bite_choice *choice = NULL;
    if (options == NULL) {
        return bite_answer_new(request, job->draws, job->confidence, answer, error);
    }
    bite_status status = bite_choice_new(request, options, &choice, error);
    if (status != BITE_OK) {
        return status;
    }
    double chosen = choice->answer->full.spindle_speed;
    double entered = bite_thread_mill_turns(chosen);
    if (request->typed[bite_input_index(bite_input_find("spindle_speed"))].given ||
        fabs(entered - chosen) <= hair * chosen) {
        *answer = choice->answer; /* ownership moves */
        choice->answer = NULL;
    } else {
        bite_request rounded = *request;
        status = bite_request_set_number(&rounded, "spindle_speed", entered, error);
        status = status != BITE_OK
                     ? status
                     : bite_answer_new(&rounded, job->draws, job->confidence, answer, error);
    }
    bite_choice_free(choice);
    return status;
}

/* Chances near one say little: the limit that is exceeded most does. */
static int is_better(const bite_result *one, const bite_result *than)
{
    if (one->verdict != than->verdict) {
        return one->verdict < than->verdict;
    }
    return one->chance > 0.5 && than->chance > 0.5
               ? one->limits[one->worst].utilization < than->limits[than->worst].utilization
               : one->chance < than->chance;
}

bite_status bite_plan_thread_choose(const bite_job *job, const bite_request *request,
                                    const bite_choice_options *options, bite_planned_pass *pass,
                                    bite_answer **answer, bite_error *error)
{
    bite_answer *best = NULL;
    bite_status status = BITE_OK;
    for (uint32_t n = 1; n <= BITE_THREAD_MILL_PASSES && status == BITE_OK; n++) {
        bite_request tried = *request;
        bite_answer *one = NULL;
        bite_thread_mill_cut cut = cut_of(pass, job->tools[pass->tool].diameter, n);
        status = bite_thread_mill_set_cut(&tried, &cut, error);
        status = status != BITE_OK ? status : answer_of(job, &tried, options, &one, error);
        if (status == BITE_OK && (best == NULL || is_better(&one->result, &best->result))) {
            bite_answer *worse = best;
            best = one;
            one = worse;
            pass->hole.mill.passes = n;
        }
        bite_answer_free(one);
        if (best != NULL && best->result.verdict == BITE_CLEAR) {
            break;
        }
    }
    if (best == NULL) {
        return status;
    }
    if (status != BITE_OK && status != BITE_NO_MEMORY) {
        bite_error_clear(error); /* more passes would be too thin */
        status = BITE_OK;
    }
    *answer = best;
    return status;
}

/* ---- the path ---- */

/* Rounded down to what a control takes: 1 mm/min or 0.1 in/min, a tenth of it for slow ones. */
static double entered_feed(double feed, bite_units units)
{
    double step = units == BITE_INCH ? 0.1 * 25.4e-3 / 60.0 : 1e-3 / 60.0;
    step = feed < 10.0 * step ? 0.1 * step : step;
    double entered = step * floor(feed / step * (1.0 + hair));
    return entered > 0.0 ? entered : feed;
}

void bite_plan_thread_path(const bite_job *job, bite_planned_pass *pass)
{
    bite_planned_thread_mill *mill = &pass->hole.mill;
    const bite_cut *cut = &pass->answer->full;
    const bite_thread_mill_cut whole = cut_of(pass, cut->diameter, mill->passes);
    double height = 0.5 * (whole.major - whole.hole);
    double seconds = 0.0;
    double arcs = 0.0;
    mill->edge_feed = cut->feed_rate;
    mill->turns = pass->depth / whole.pitch + 1.0;
    mill->length = 0.0;
    for (uint32_t i = 0; i < mill->passes; i++) {
        double share = (i + 1.0) / mill->passes;
        double diameter = whole.hole + 2.0 * bite_thread_height_of(whole.pitch, height, share);
        double around = M_PI * (diameter - whole.tool);
        double length = mill->turns * hypot(around, whole.pitch);
        mill->diameters[i] = diameter;
        mill->feeds[i] = entered_feed(
            bite_thread_mill_centre_feed(cut->feed_rate, diameter, whole.tool), job->units);
        mill->length += length;
        seconds += length / mill->feeds[i];
        arcs += 0.5 * around; /* on and off, each a half circle from the axis to the path */
    }
    mill->feed = mill->length / seconds;
    pass->entry.feed = mill->feed;
    pass->entry.length = arcs;
}

double bite_plan_lap_feed(const bite_planned_pass *pass)
{
    return pass->hole.mill.passes > 0 ? pass->hole.mill.feed : pass->answer->full.feed_rate;
}

double bite_plan_enter_feed(const bite_planned_pass *pass)
{
    return pass->hole.mill.passes > 0 ? pass->hole.mill.feeds[0] : pass->answer->full.feed_rate;
}
