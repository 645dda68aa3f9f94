/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Threads of a job that are milled: by a single-point mill, one ring of teeth that runs on a helix
 * of one pitch each turn, or by a full-form one, which has a ring for each pitch of its length and
 * makes one turn, in radial passes of equal section. It enters on the axis of the hole, half a
 * pitch below the thread, and runs onto the wall on a half circle whose end is tangent to the
 * thread, a quarter of a turn about the axis. Upwards it climbs in a right-hand thread, downwards
 * in a left-hand one; on a machine with backlash it runs the other way, against the feed.
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
#include <string.h>

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

static bite_thread_mill mill_of(bite_job *job, const char *name, double pitch)
{
    bite_thread_mill mill;
    job->out_of_memory |=
        bite_thread_mill_find(job->library, name, pitch, &mill, NULL) == BITE_NO_MEMORY;
    return mill;
}

/* ---- the mill of a pass that names none ---- */

typedef struct mill_search {
    double pitch;
    double most;              /* diameter */
    double reach;             /* needed */
    bite_thread_mill single;  /* the largest that fits; the same below */
    bite_thread_mill full;    /* full-form */
    bite_thread_mill longest; /* that fits but for its reach */
} mill_search;

static void consider(bite_job *job, const char *name, mill_search *search)
{
    bite_thread_mill mill = mill_of(job, name, search->pitch);
    if (mill.record == NULL || !mill.suits || mill.diameter > search->most * (1.0 + hair)) {
        return;
    }
    if (mill.reach >= search->reach * (1.0 - hair)) {
        bite_thread_mill *best = mill.rows > 1.0 ? &search->full : &search->single;
        *best = mill.diameter > best->diameter ? mill : *best;
    } else if (mill.reach > search->longest.reach) {
        search->longest = mill;
    }
}

/* The mill of a search that found one; a single-point mill needs less of the machine. */
static const bite_item_record *found_by(const mill_search *search)
{
    return search->single.record != NULL ? search->single.record : search->full.record;
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
    mill_search all = *search;
    if (at_hand != NULL) {
        consider_table(job, &all);
    }
    const bite_item_record *other = found_by(&all);
    const char *hint =
        other == NULL
            ? bite_plan_text(job, "add one of at most %s to tools.ini, or tap the thread", most)
            : bite_plan_text(job, "add %s to at_hand, or name it: tool = %s", other->name,
                             other->name);
    fault(job, section, "tool", hint,
          bite_plan_text(job, "%s has no thread mill for this thread", where));
}

static mill_search search_for(double depth, double major, double pitch)
{
    mill_search search;
    memset(&search, 0, sizeof search);
    search.pitch = pitch;
    search.most = bite_thread_mill_largest(major, bite_thread_hole(major, pitch, usual_share));
    search.reach = bite_thread_mill_reach_needed(depth, pitch);
    return search;
}

/* Whether the full-form mill is the better one at hand: as sound, and faster. */
static int full_is_better(bite_job *job, const bite_planned_pass *pass, const mill_search *search,
                          double major)
{
    const bite_thread_case thread = {
        job->library, job->grade,    bite_job_file_text(job->file_data.machine, "name"),
        major,        search->pitch, bite_thread_hole(major, search->pitch, usual_share),
        pass->depth};
    bite_thread_milling single;
    bite_thread_milling full;
    bite_status one = bite_thread_milling_choose(&thread, &search->single, &single, NULL);
    bite_status two = bite_thread_milling_choose(&thread, &search->full, &full, NULL);
    job->out_of_memory |= one == BITE_NO_MEMORY || two == BITE_NO_MEMORY;
    return one == BITE_OK && two == BITE_OK && full.passes > 0 &&
           (single.passes == 0 || full.verdict < single.verdict ||
            (full.verdict == single.verdict && full.seconds < single.seconds));
}

static void consider_available(bite_job *job, mill_search *search)
{
    const char *at_hand = bite_job_file_text(job->file_data.tools, "at_hand");
    char name[BITE_TYPED_MAX];
    if (at_hand == NULL) {
        consider_table(job, search);
    }
    for (size_t i = 0; bite_job_file_name(at_hand, i, name, sizeof name); i++) {
        consider(job, name, search);
    }
}

bite_thread_mill bite_plan_find_thread_mill(bite_job *job, double depth, double major, double pitch)
{
    mill_search search = search_for(depth, major, pitch);
    consider_available(job, &search);
    return search.single.record != NULL ? search.single : search.full;
}

const char *bite_plan_thread_mill(bite_job *job, const bite_section *section,
                                  const bite_planned_pass *pass, double major, double pitch,
                                  const char **why)
{
    const char *at_hand = bite_job_file_text(job->file_data.tools, "at_hand");
    mill_search search = search_for(pass->depth, major, pitch);
    consider_available(job, &search);
    const bite_item_record *best = found_by(&search);
    *why = "largest that fits the thread and reaches its depth";
    if (best == NULL) {
        report_none(job, section, &search, at_hand);
        return NULL;
    }
    int both = search.single.record != NULL && search.full.record != NULL;
    if (both && at_hand != NULL && full_is_better(job, pass, &search, major)) {
        *why = bite_plan_text(job, "fits the thread, reaches its depth, and is faster than %s",
                              best->name);
        return search.full.record->name;
    }
    if (both && at_hand == NULL) {
        *why = bite_plan_text(job,
                              "largest that fits the thread and reaches its depth; the full-form "
                              "mill %s needs one turn for it",
                              search.full.record->name);
    }
    return best->name;
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
    bite_thread_mill mill = mill_of(job, name, pass->hole.pitch);
    double need = bite_thread_mill_reach_needed(pass->depth, pass->hole.pitch);
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

/* The mill of a pass: of the table, or known by its diameter. */
static bite_status planned_mill(const bite_job *job, const bite_planned_pass *pass,
                                bite_thread_mill *mill, bite_error *error)
{
    const bite_planned_tool *tool = &job->tools[pass->tool];
    bite_status status =
        bite_thread_mill_find(job->library, tool->name, pass->hole.pitch, mill, error);
    if (status == BITE_OK && mill->record == NULL) {
        *mill = bite_thread_mill_plain(tool->diameter, pass->depth, pass->hole.pitch);
    }
    return status;
}

static bite_thread_mill_cut cut_of(const bite_planned_pass *pass, const bite_thread_mill *mill,
                                   uint32_t passes)
{
    const bite_thread_mill_cut cut = {bite_item_figure(pass->hole.thread, "thread_diameter"),
                                      pass->hole.pitch,
                                      pass->hole.diameter,
                                      mill->diameter,
                                      bite_thread_mill_rows(mill, pass->depth, pass->hole.pitch),
                                      passes};
    return cut;
}

bite_status bite_plan_thread_request(const bite_job *job, const bite_section *section,
                                     const bite_planned_pass *pass, bite_request *request,
                                     bite_error *error)
{
    bite_thread_mill mill;
    bite_status status = planned_mill(job, pass, &mill, error);
    if (status != BITE_OK) {
        return status;
    }
    bite_thread_mill_cut cut = cut_of(pass, &mill, 1);
    status = bite_thread_mill_set_cut(request, &cut, error);
    status = status != BITE_OK
                 ? status
                 : bite_thread_mill_set_tool(request, &mill, &cut, pass->depth, error);
    return status != BITE_OK
               ? status
               : bite_thread_mill_set_usual(request, mill.diameter,
                                            bite_job_file_text(section, "feed") == NULL, error);
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
    bite_thread_mill mill;
    bite_status status = planned_mill(job, pass, &mill, error);
    for (uint32_t n = 1; n <= BITE_THREAD_MILL_PASSES && status == BITE_OK; n++) {
        bite_request tried = *request;
        bite_answer *one = NULL;
        bite_thread_mill_cut cut = cut_of(pass, &mill, n);
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
    pass->hole.mill.tool = mill;
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
    const bite_thread_mill_cut whole = cut_of(pass, &mill->tool, mill->passes);
    double seconds = 0.0;
    mill->edge_feed = pass->answer->full.feed_rate;
    mill->path = bite_thread_path_of(&whole, &mill->tool, pass->depth, mill->edge_feed);
    mill->upward = pass->path.conventional == pass->hole.left_hand;
    mill->length = 0.0;
    for (uint32_t i = 0; i < mill->passes; i++) {
        mill->path.feeds[i] = entered_feed(mill->path.feeds[i], job->units);
        mill->length += mill->path.lengths[i];
        seconds += mill->path.lengths[i] / mill->path.feeds[i];
    }
    mill->feed = mill->length / seconds;
    pass->entry.feed = mill->feed;
    pass->entry.length = mill->path.arcs;
}

double bite_plan_lap_feed(const bite_planned_pass *pass)
{
    return pass->hole.mill.passes > 0 ? pass->hole.mill.feed : pass->answer->full.feed_rate;
}

double bite_plan_enter_feed(const bite_planned_pass *pass)
{
    return pass->hole.mill.passes > 0 ? pass->hole.mill.path.feeds[0]
                                      : pass->answer->full.feed_rate;
}
