/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every pass of a job: requested, then chosen or judged, on as many threads as allowed. */
#include "core/job/pass_plan.h"
#include "core/base/error.h"
#include "core/base/thread_pool.h"
#include "core/job/bond_plan.h"
#include "core/job/cycle_time.h"
#include "core/job/entry_plan.h"
#include "core/job/hole_plan.h"
#include "core/job/job_file.h"
#include "core/job/job_verdict.h"
#include "core/job/path_plan.h"
#include "core/job/plan_faults.h"
#include "core/job/setup_plan.h"
#include "core/job/side_width.h"
#include "core/job/thin_plan.h"
#include "core/job/thread_plan.h"
#include "core/job/tool_plan.h"
#include "core/job/warp_plan.h"
#include "core/job/workholding_plan.h"
#include "core/library/collection.h"
#include "core/names/registry.h"
#include "core/search/choice.h"
#include "core/units/format_quantity.h"
#include <math.h>
#include <string.h>

/* A number (SI) rounded to nine digits of a unit, so that binary noise never reaches the plan. NaN:
 * the input stays open. */
static bite_status set_number(bite_request *request, const char *input, double si, const char *unit,
                              bite_error *error)
{
    if (isnan(si)) {
        return BITE_OK;
    }
    bite_kind kind = (bite_kind)bite_input_find(input)->kind;
    return bite_request_set_number(request, input, bite_unit_round(si, kind, unit, 9), error);
}

static bite_status set_length(bite_request *request, const char *input, double metres,
                              bite_error *error)
{
    return set_number(request, input, metres, "mm", error);
}

static bite_status set_text(bite_request *request, const char *input, const char *text,
                            bite_error *error)
{
    return text == NULL ? BITE_OK : bite_request_set(request, input, text, error);
}

static double first_of(double own, double whole)
{
    return isnan(own) ? whole : own;
}

static bite_status use(bite_request *request, bite_collection collection, const char *name,
                       bite_error *error)
{
    return name == NULL ? BITE_OK : bite_request_use(request, collection, name, error);
}

/* The records that the job names: material, machine, holder, workholding, tool. */
static bite_status use_records(const bite_job *job, const bite_planned_pass *pass,
                               bite_request *request, bite_error *error)
{
    bite_status status = use(request, BITE_GRADES, job->grade->record.name, error);
    status = status != BITE_OK ? status
                               : use(request, BITE_MACHINES,
                                     bite_job_file_text(job->file_data.machine, "name"), error);
    status = status != BITE_OK ? status
                               : use(request, BITE_HOLDERS,
                                     bite_job_file_text(job->file_data.machine, "holder"), error);
    status = status != BITE_OK
                 ? status
                 : use(request, BITE_HOLDS,
                       bite_plan_hold_method(bite_plan_setup(job, pass->setup)), error);
    return status != BITE_OK || pass->work == BITE_WORK_TAP /* its thread names the tap */
               ? status
               : use(request, BITE_TOOLS, job->tools[pass->tool].name, error);
}

/* Whether a pass cuts with a part of its diameter. To rough needs a hole to start from: after a
 * ramp its first lap is a full slot. */
static int has_side_width(const bite_planned_pass *pass)
{
    int ramp = pass->work == BITE_WORK_ROUGH && pass->entry.kind == BITE_ENTER_RAMP &&
               pass->entry.stated == 0;
    return !isnan(pass->width) || (!isnan(bite_side_width(pass->work, (double)NAN, 1.0)) && !ramp);
}

/* Thickness left under a pass: depths count from the finished face, and a facing pass leaves at
 * least the part. */
static double left_under(const bite_job *job, const bite_planned_pass *pass)
{
    const bite_planned_setup *setup = bite_plan_setup(job, pass->setup);
    double part = bite_plan_lies_flat(setup) ? fmin(job->thickness, job->stock.thin)
                                             : bite_plan_setup_height(job, setup);
    if (pass->work == BITE_WORK_FREE) {
        return 0.0;
    }
    return pass->work == BITE_WORK_FACE ? part : fmax(0.0, part - pass->depth);
}

static bite_status set_shape(const bite_job *job, const bite_section *section,
                             const bite_planned_pass *pass, bite_request *request,
                             bite_error *error)
{
    if (pass->work == BITE_WORK_THREAD_MILL) {
        return BITE_OK; /* the thread gives its shape */
    }
    bite_status status = set_length(request, "feature_depth", pass->depth, error);
    double one =
        bite_job_file_number(section, "pass_depth"); /* for a face with less to remove, all of it */
    status = status != BITE_OK
                 ? status
                 : set_length(request, "depth", isnan(one) ? one : fmin(one, pass->depth), error);
    if (status == BITE_OK && isnan(pass->width) && has_side_width(pass)) {
        const bite_field_value *field_value =
            request->tool == NULL ? NULL : bite_item_field(request->tool, "diameter");
        double diameter = field_value == NULL
                              ? request->typed[bite_input_index(bite_input_find("diameter"))].value
                              : field_value->value;
        status =
            set_length(request, "width", bite_side_width(pass->work, pass->width, diameter), error);
    } else if (status == BITE_OK) {
        status = set_length(request, "width", pass->width, error);
    }
    status = status != BITE_OK ? status
                               : set_length(request, "inside_radius", pass->inside_radius, error);
    status = status != BITE_OK
                 ? status
                 : set_length(request, "gap", bite_job_file_number(section, "gap"), error);
    double under = left_under(job, pass);
    status = status != BITE_OK
                 ? status
                 : set_length(request, "floor_thickness",
                              first_of(bite_job_file_number(section, "floor"), under), error);
    return status;
}

/* The time under load is not known while settings are chosen: ten minutes on one bond are assumed
 * (estimate). */
static const double expected_load_time = 600.0;

/* Sets the bond under the pass. The area of many parts on one blank may exceed the range of the
 * inputs. */
static bite_status set_bond(const bite_job *job, const bite_planned_pass *pass,
                            bite_request *request, bite_error *error)
{
    if (bite_plan_hold_method(bite_plan_setup(job, pass->setup)) == NULL) {
        return BITE_OK;
    }
    double along = 0.0;
    double across = 0.0;
    bite_plan_bonded_area(job, pass, &along, &across);
    bite_status status =
        set_number(request, "bond_area", fmin(bite_input_find("bond_area")->most, along * across),
                   "mm2", error);
    status =
        status != BITE_OK
            ? status
            : set_length(request, "bond_width",
                         fmin(bite_input_find("bond_width")->most, fmin(along, across)), error);
    return status != BITE_OK ? status
                             : set_number(request, "load_time", expected_load_time, "s", error);
}

static uint32_t support_of(const bite_job *job, const bite_planned_pass *pass)
{
    return bite_plan_hold_word(bite_plan_setup(job, pass->setup), "support", BITE_SUPPORT_NONE);
}

static bite_status set_demands(const bite_job *job, size_t index, bite_request *request,
                               bite_error *error)
{
    const bite_section *section = job->file_data.passes[index];
    const bite_planned_pass *pass = &job->passes[index];
    static const char *const coolants[] = {"none", "air", "mist", "flood"};
    const bite_section *part = job->file_data.part;
    uint32_t coolant = bite_job_file_word(
        section, "coolant",
        bite_job_file_word(bite_plan_setup(job, pass->setup)->section, "coolant",
                           bite_job_file_word(job->file_data.fluids, "coolant", 4)));
    double tolerance = first_of(bite_job_file_number(section, "tolerance"),
                                bite_job_file_number(part, "tolerance"));
    double finish =
        first_of(bite_job_file_number(section, "finish"), bite_job_file_number(part, "finish"));
    const double none = (double)NAN; /* what another stage finishes */
    bite_status status =
        set_length(request, "tolerance", pass->unfinished ? none : tolerance, error);
    status = status != BITE_OK
                 ? status
                 : set_length(request, "finish", pass->unfinished ? none : finish, error);
    status = status != BITE_OK
                 ? status
                 : set_text(request, "coolant", coolant < 4 ? coolants[coolant] : NULL, error);
    status = status != BITE_OK ? status : bite_plan_entry_request(section, pass, request, error);
    status = status != BITE_OK
                 ? status
                 : set_length(request, "runout",
                              bite_job_file_number(job->file_data.machine, "runout"), error);
    status = status != BITE_OK
                 ? status
                 : set_number(request, "room_temperature",
                              bite_job_file_number(job->file_data.machine, "room"), "K", error);
    if (status == BITE_OK && bite_plan_is_closed(pass->work) && !has_side_width(pass)) {
        status = bite_request_set(request, "blind", "yes", error);
    }
    status = status != BITE_OK
                 ? status
                 : bite_plan_set_thin(job, index, support_of(job, pass), request, error);
    return status != BITE_OK ? status : set_bond(job, pass, request, error);
}

static bite_status set_work(const bite_job *job, const bite_section *section,
                            const bite_planned_pass *pass, bite_request *request, bite_error *error)
{
    bite_status status = BITE_OK;
    if (bite_work_is_hole(pass->work)) {
        status = bite_plan_hole_request(job, section, pass, request, error);
    }
    if (status != BITE_OK ||
        (bite_work_is_hole(pass->work) && pass->work != BITE_WORK_THREAD_MILL)) {
        return status;
    }
    if (pass->work == BITE_WORK_CHAMFER) {
        return bite_request_set(request, "operation", "chamfer", error);
    }
    int wall = pass->work != BITE_WORK_FACE && bite_plan_is_conventional(job);
    return wall ? bite_request_set(request, "side", "conventional", error) : BITE_OK;
}

/* The pockets as a layer of the same volume at the top, m. */
static double pocket_layer(const bite_job *job)
{
    double volume = 0.0;
    for (size_t i = 0; i < job->pass_count; i++) {
        const bite_planned_pass *pass = &job->passes[i];
        double length = bite_job_file_number(job->file_data.passes[i], "length");
        double across = bite_job_file_number(job->file_data.passes[i], "across");
        if ((pass->work == BITE_WORK_POCKET || pass->work == BITE_WORK_ROUGH) &&
            pass->stage <= BITE_STAGE_ROUGH) { /* once for each feature */
            volume += pass->depth * pass->count * (isnan(length) ? job->length : length) *
                      (isnan(across) ? job->width : across);
        }
    }
    return fmin(volume / (job->length * job->width), 0.9 * job->thickness);
}

/* Sets the inputs of the limits of flatness and stock thickness, for the pass that frees the part.
 */
static bite_status set_part(const bite_job *job, bite_request *request, bite_error *error)
{
    const bite_planned_stock *stock = &job->stock;
    bite_status status = set_length(request, "flatness",
                                    bite_job_file_number(job->file_data.part, "flatness"), error);
    status = status != BITE_OK
                 ? status
                 : set_length(request, "part_span", fmax(job->length, job->width), error);
    double part_thickness =
        stock->as_sold
            ? (double)NAN
            : stock->needed - stock->skim; /* off_size covers a sheet that is left as supplied */
    status =
        status != BITE_OK ? status : set_length(request, "part_thickness", part_thickness, error);
    status = status != BITE_OK ? status
                               : set_length(request, "stock_thickness",
                                            0.5 * (stock->thin + stock->thick), error);
    status = status != BITE_OK ? status
                               : set_length(request, "stock_tolerance", stock->tolerance, error);
    status = status != BITE_OK ? status : set_length(request, "skim", stock->skim, error);
    status = status != BITE_OK ? status
                               : set_length(request, "removed_top",
                                            stock->removal.thick_top + pocket_layer(job), error);
    status = status != BITE_OK
                 ? status
                 : set_length(request, "removed_below", stock->removal.thick_below, error);
    double stress = bite_plan_skin_stress(job);
    status = status != BITE_OK ? status : set_number(request, "skin_stress", stress, "MPa", error);
    return status != BITE_OK
               ? status
               : set_number(request, "face_strain", bite_plan_face_strain(job), "%", error);
}

/* The share of the allowed chance that each pass may use. Passes share what is uncertain about the
 * material and the machine, so their chances neither add up nor coincide (estimate: between both).
 * A pass may use at least a quarter. Stages of one feature count as one pass. */
static double share_of(const bite_job *job)
{
    return job->care * fmax(0.25, 1.0 / sqrt((double)job->file_data.pass_count));
}

bite_status bite_plan_request(const bite_job *job, size_t index, bite_request **request,
                              bite_error *error)
{
    const bite_planned_pass *pass = &job->passes[index];
    const bite_section *section = job->file_data.passes[index];
    bite_status status = bite_request_new(job->library, request, error);
    if (status == BITE_OK) {
        (*request)->chance_share = share_of(job);
        (*request)->scope = BITE_SCOPE_SETTINGS; /* a job does not report what restricts a pass */
    }
    status = status != BITE_OK ? status : use_records(job, pass, *request, error);
    status = status != BITE_OK ? status : set_work(job, section, pass, *request, error);
    status = status != BITE_OK ? status : set_shape(job, section, pass, *request, error);
    status = status != BITE_OK ? status : set_demands(job, index, *request, error);
    status = status != BITE_OK ? status
                               : set_text(*request, "spindle_speed",
                                          bite_job_file_text(section, "spindle"), error);
    status = status != BITE_OK
                 ? status
                 : set_text(*request, "tip_below", bite_job_file_text(section, "tip_below"), error);
    return status != BITE_OK
               ? status
               : set_text(*request, "feed_rate", bite_job_file_text(section, "feed"), error);
}

/* A pass while it is planned. */
typedef struct pass_work {
    bite_status status;
    bite_error error;
    double load_time; /* s, under load up to its end */
    bite_request *request;
    uint64_t digest; /* of the request: those of equal requests are equal */
    size_t first;    /* the first pass with the same request: planned once */
} pass_work;

typedef struct pass_planning {
    bite_job *job;
    pass_work *passes; /* one for each pass of the job */
} pass_planning;

/* The pass keeps an answer that it made. */
static void keep(bite_planned_pass *pass, bite_answer *answer)
{
    pass->answer = answer;
    pass->made[pass->made_count++] = answer;
}

/* The choice with which the tool of the pass was picked, if it is the same; NULL otherwise. Equal
 * requests are planned once, so that no two passes take one choice. */
static bite_choice *take_choice(const bite_job *job, const bite_request *request)
{
    for (size_t i = 0; i < job->choice_count; i++) {
        bite_planned_choice *kept = job->choices[i];
        if (memcmp(&kept->request, request, sizeof *request) == 0 && kept->choice != NULL) {
            bite_choice *choice = kept->choice;
            kept->choice = NULL;
            return choice;
        }
    }
    return NULL;
}

static bite_status choose(const bite_job *job, const bite_request *request, bite_planned_pass *pass,
                          bite_error *error)
{
    bite_choice_options options = bite_plan_choice_options(job);
    bite_choice *choice = take_choice(job, request);
    bite_status status =
        choice != NULL ? BITE_OK : bite_choice_new(request, &options, &choice, error);
    if (status == BITE_OK) {
        pass->chosen = 1;
        pass->passes = (uint32_t)bite_choice_passes(choice);
        keep(pass, choice->answer); /* ownership moves to the pass */
        choice->answer = NULL;
        bite_choice_free(choice);
    }
    return status;
}

static bite_status judge(const bite_job *job, const bite_request *request, bite_planned_pass *pass,
                         bite_error *error)
{
    bite_answer *answer = NULL;
    bite_status status = bite_answer_new(request, job->draws, job->confidence, &answer, error);
    if (status == BITE_OK) {
        keep(pass, answer);
        pass->passes = (uint32_t)fmax(1.0, ceil(pass->depth / pass->answer->full.depth - 1e-9));
    }
    return status;
}

/* Speeds and feeds do not change the sheet or its bow, so those limits are evaluated once the
 * settings are final. */
static bite_status judge_part(const bite_job *job, bite_planned_pass *pass, bite_error *error)
{
    bite_request request = pass->answer->request; /* with the chosen settings */
    bite_answer *whole = NULL;
    bite_status status = set_part(job, &request, error);
    status = status != BITE_OK
                 ? status
                 : bite_answer_new(&request, job->draws, job->confidence, &whole, error);
    if (status == BITE_OK) {
        keep(pass, whole);
    }
    return status;
}

/* Whether the job file states both speed and feed. */
static int is_given(const bite_job *job, size_t index)
{
    const bite_section *section = job->file_data.passes[index];
    return bite_job_file_text(section, "spindle") != NULL &&
           bite_job_file_text(section, "feed") != NULL;
}

/* FNV-1a over the request's words. */
static uint64_t digest_of(const bite_request *request)
{
    uint64_t digest = 14695981039346656037u;
    for (size_t i = 0; i + sizeof(uint64_t) <= sizeof *request; i += sizeof(uint64_t)) {
        uint64_t word;
        memcpy(&word, (const char *)request + i, sizeof word);
        digest = (digest ^ word) * 1099511628211u;
    }
    return digest;
}

/* The request of each pass, and the first pass whose request is the same. */
static void make_one_request(void *work, size_t index, size_t worker)
{
    (void)worker;
    pass_planning *planning = work;
    const bite_error clean = BITE_ERROR_INIT;
    pass_work *at = &planning->passes[index];
    at->error = clean;
    at->status = bite_plan_request(planning->job, index, &at->request, &at->error);
    at->digest = at->status == BITE_OK ? digest_of(at->request) : 0;
}

static int requests_equal(const pass_work *a, const pass_work *b)
{
    return a->digest == b->digest && a->status == BITE_OK && b->status == BITE_OK &&
           memcmp(a->request, b->request, sizeof *a->request) == 0;
}

static void find_equal_requests(pass_planning *planning)
{
    for (size_t i = 0; i < planning->job->pass_count; i++) {
        size_t first = 0;
        while (first < i && !requests_equal(&planning->passes[first], &planning->passes[i])) {
            first++;
        }
        planning->passes[i].first = first;
    }
}

static void plan_one_pass(void *work, size_t index, size_t worker)
{
    (void)worker;
    pass_planning *planning = work;
    const bite_job *job = planning->job;
    bite_planned_pass *pass = &planning->job->passes[index];
    pass_work *at = &planning->passes[index];
    if (at->status == BITE_OK && at->first == index && pass->work == BITE_WORK_THREAD_MILL) {
        bite_answer *answer = NULL;
        int given = is_given(job, index);
        bite_choice_options options = bite_plan_choice_options(job);
        at->status = bite_plan_thread_choose(job, at->request, given ? NULL : &options, pass,
                                             &answer, &at->error);
        if (at->status == BITE_OK) {
            pass->chosen = !given;
            keep(pass, answer);
        }
    } else if (at->status == BITE_OK && at->first == index) {
        at->status = is_given(job, index) ? judge(job, at->request, pass, &at->error)
                                          : choose(job, at->request, pass, &at->error);
    }
}

/* Equal passes share the answer of the first. */
static void share_answers(pass_planning *planning)
{
    for (size_t i = 0; i < planning->job->pass_count; i++) {
        bite_planned_pass *pass = &planning->job->passes[i];
        pass_work *at = &planning->passes[i];
        if (at->status == BITE_OK && at->first < i) {
            const bite_planned_pass *same = &planning->job->passes[at->first];
            at->status = planning->passes[at->first].status;
            at->error = planning->passes[at->first].error;
            pass->chosen = same->chosen;
            pass->passes = same->passes;
            pass->answer = same->answer;
            pass->hole.mill = same->hole.mill; /* its path is its own, and made later */
        }
        if (at->status == BITE_OK) {
            pass->width = pass->answer->full.width;
        }
        bite_request_free(at->request);
    }
}

/* Judges a pass again, with the time for which the bond has been under load at its end. */
static void judge_bond(void *work, size_t index, size_t worker)
{
    (void)worker;
    pass_planning *planning = work;
    const bite_job *job = planning->job;
    bite_planned_pass *pass = &planning->job->passes[index];
    if (!(pass->answer->full.bond_exponent > 0.0)) {
        return; /* no creep */
    }
    bite_request request = pass->answer->request; /* with the chosen settings */
    bite_answer *judged = NULL;
    bite_error *error = &planning->passes[index].error;
    bite_status status =
        set_number(&request, "load_time", planning->passes[index].load_time, "s", error);
    status = status != BITE_OK
                 ? status
                 : bite_answer_new(&request, job->draws, job->confidence, &judged, error);
    if (status == BITE_OK) {
        keep(pass, judged);
    }
    planning->passes[index].status = status;
}

static void judge_bonds(pass_planning *planning)
{
    bite_job *job = planning->job;
    const bite_input *range = bite_input_find("load_time");
    int creeps = 0;
    for (size_t i = 0; i < job->pass_count; i++) {
        creeps |= job->passes[i].answer->full.bond_exponent > 0.0;
        planning->passes[i].load_time =
            fmin(range->most, fmax(range->least, bite_plan_load_time(job, i)));
    }
    if (!creeps) {
        return;
    }
    bite_thread_pool_run(job->pass_count, job->threads, judge_bond, planning);
}

/* The last pass is judged with the sheet and its bow. */
static void judge_last(pass_planning *planning)
{
    bite_job *job = planning->job;
    size_t last = bite_plan_last_flat_pass(job);
    pass_work *at = &planning->passes[last];
    if (at->status == BITE_OK &&
        bite_plan_lies_flat(bite_plan_setup(job, job->passes[last].setup))) {
        at->status = judge_part(job, &job->passes[last], &at->error);
    }
}

/* A fault of the pass as the file states it: all such passes are reported at once. */
static int is_fault_of_file(bite_status status)
{
    return status == BITE_BAD_QUANTITY || status == BITE_OUT_OF_RANGE || status == BITE_MISSING ||
           status == BITE_UNKNOWN_NAME || status == BITE_NO_ANSWER;
}

/* Some inputs have other names in a cut than in a job file. */
static void name_key_as_in_file(bite_error *error)
{
    static const char *const names[][2] = {
        {"spindle_speed", "spindle"}, {"feed_rate", "feed"},        {"depth", "pass_depth"},
        {"feature_depth", "depth"},   {"floor_thickness", "floor"}, {"wall_thickness", "wall"}};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        if (strcmp(error->key, names[i][0]) == 0) {
            bite_error_key(error, "%s", names[i][1]);
            return;
        }
    }
}

/* Faults of the file are reported; the first other failure is returned. */
static bite_status status_of_all(pass_planning *planning, bite_error *error)
{
    bite_job *job = planning->job;
    for (size_t i = 0; i < job->pass_count; i++) {
        pass_work *at = &planning->passes[i];
        if (is_fault_of_file(at->status)) {
            name_key_as_in_file(&at->error);
            bite_plan_fault(job, job->file_data.passes[i], &at->error);
        } else if (at->status != BITE_OK) {
            if (error != NULL) {
                *error = at->error;
            }
            return at->status;
        }
    }
    return bite_plan_status(job, error);
}

static bite_status plan_all(pass_planning *planning, bite_error *error)
{
    bite_job *job = planning->job;
    bite_thread_pool_run(job->pass_count, job->threads, make_one_request, planning);
    find_equal_requests(planning);
    bite_thread_pool_run(job->pass_count, job->threads, plan_one_pass, planning);
    share_answers(planning);
    judge_last(planning);
    bite_status status = status_of_all(planning, error);
    if (status == BITE_OK) {
        judge_bonds(planning);
        status = status_of_all(planning, error);
    }
    return status;
}

/* Whether the passes are clear one by one but not together, with the care that would make them so:
 * chances that neither add nor coincide shrink at least in proportion. */
static int needs_care(bite_job *job)
{
    const size_t most = 24; /* passes that are planned twice: time */
    const double allowed = 1.0 - job->confidence;
    double joint = bite_plan_joint_chance(job);
    int chosen = 0;
    for (size_t i = 0; i < job->pass_count; i++) {
        chosen |= (int)job->passes[i].chosen;
        if (job->passes[i].answer->result.verdict != BITE_CLEAR) {
            return 0;
        }
    }
    job->care = joint >= allowed ? 0.8 * allowed / joint : 1.0;
    return chosen && job->care < 1.0 && job->pass_count <= most;
}

bite_status bite_plan_passes(bite_job *job, bite_error *error)
{
    pass_planning planning = {
        job, bite_memory_new(&job->allocator, job->pass_count, sizeof *planning.passes)};
    if (planning.passes == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a plan");
    }
    bite_status status = plan_all(&planning, error);
    if (status == BITE_OK && needs_care(job)) {
        status = plan_all(&planning, error);
    }
    bite_memory_free(&job->allocator, planning.passes);
    for (size_t i = 0; i < job->pass_count && status == BITE_OK; i++) {
        bite_planned_tool *tool = &job->tools[job->passes[i].tool];
        const bite_cut *cut = &job->passes[i].answer->full;
        tool->diameter = cut->diameter;
        tool->flutes = cut->flutes;
        tool->stickout = cut->stickout;
        tool->flute_length = cut->flute_length;
    }
    return status;
}
