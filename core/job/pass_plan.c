/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every pass of a job: requested, then chosen or judged, on as many threads as allowed. */
#include "core/job/pass_plan.h"
#include "core/base/error.h"
#include "core/base/thread_pool.h"
#include "core/job/cycle_time.h"
#include "core/job/job_file.h"
#include "core/job/job_verdict.h"
#include "core/job/pass_request.h"
#include "core/job/plan_faults.h"
#include "core/job/setup_plan.h"
#include "core/job/spring_plan.h"
#include "core/job/support_plan.h"
#include "core/job/thread_plan.h"
#include "core/job/tool_plan.h"
#include "core/names/registry.h"
#include "core/search/choice.h"
#include <math.h>
#include <string.h>

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
        pass->passes = (uint32_t)bite_plan_cuts_of(pass->depth, pass->answer->full.depth);
    }
    return status;
}

/* The answer with one more spring pass: at the settings that the pass has, or chosen again if these
 * are not clear. */
static bite_status try_spring(const bite_job *job, const bite_request *request,
                              bite_planned_pass *pass, bite_error *error)
{
    int again = pass->chosen && pass->answer->result.verdict != BITE_CLEAR;
    bite_request sprung = again ? *request : pass->answer->request;
    bite_status status =
        bite_request_set_number(&sprung, "spring_passes", pass->springs + 1.0, error);
    if (status != BITE_OK) {
        return status;
    }
    return again ? choose(job, &sprung, pass, error) : judge(job, &sprung, pass, error);
}

/* Repeats a finishing lap as often as it is worth it; the answer becomes that after all laps. */
static bite_status add_springs(const bite_job *job, size_t index, const bite_request *request,
                               bite_planned_pass *pass, bite_error *error)
{
    bite_status status = BITE_OK;
    pass->springs = 0;
    pass->first_leaves = pass->spring_leaves = bite_plan_lap_leaves(job, index, pass->answer);
    while (status == BITE_OK && bite_plan_wants_spring(pass)) {
        const bite_planned_pass before = *pass;
        status = try_spring(job, request, pass, error);
        if (status != BITE_OK) {
            break;
        }
        double leaves = bite_plan_lap_leaves(job, index, pass->answer);
        bite_answer *after = pass->answer;
        if (!bite_plan_spring_gains(&before, after, leaves)) {
            *pass = before;
            bite_answer_free(after);
            break;
        }
        bite_answer_free(before.answer);
        pass->made_count = before.made_count;
        pass->made[before.made_count - 1] = after;
        pass->spring_leaves = leaves;
        pass->springs++;
    }
    return status;
}

/* Over a floor that wants support the settings are those with it. */
static bite_status assume_support(bite_job *job, size_t index, bite_error *error)
{
    bite_planned_pass *pass = &job->passes[index];
    bite_answer *answer = NULL;
    size_t passes = 0;
    bite_status status = bite_plan_assume_support(job, index, &answer, &passes, error);
    if (answer != NULL) {
        keep(pass, answer);
        pass->passes = (uint32_t)passes;
    }
    return status;
}

/* Speeds and feeds do not change the sheet or its bow, so those limits are evaluated once the
 * settings are final. */
static bite_status judge_part(const bite_job *job, bite_planned_pass *pass, bite_error *error)
{
    bite_request request = pass->answer->request; /* with the chosen settings */
    bite_answer *whole = NULL;
    bite_status status = bite_plan_request_part(job, &request, error);
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

/* Settings as stated or chosen, with what follows from them. */
static bite_status plan_settings(bite_job *job, size_t index, const bite_request *request,
                                 bite_error *error)
{
    bite_planned_pass *pass = &job->passes[index];
    bite_status status =
        is_given(job, index) ? judge(job, request, pass, error) : choose(job, request, pass, error);
    status = status != BITE_OK ? status : assume_support(job, index, error);
    return status != BITE_OK ? status : add_springs(job, index, request, pass, error);
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
        at->status = plan_settings(planning->job, index, at->request, &at->error);
    }
    if (bite_watch_step(job->watch, 1)) {
        at->status = BITE_NO_MEMORY;
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
            pass->support = same->support;
            pass->springs = same->springs;
            pass->first_leaves = same->first_leaves;
            pass->spring_leaves = same->spring_leaves;
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
        bite_plan_set_number(&request, "load_time", planning->passes[index].load_time, "s", error);
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
            bite_error_copy(error, &at->error, 0);
            return at->status;
        }
    }
    return bite_plan_status(job, error);
}

static bite_status plan_all(pass_planning *planning, bite_error *error)
{
    bite_job *job = planning->job;
    bite_watch_expect(job->watch, job->pass_count);
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
