/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Planning a whole job: runs the steps in their order. */
#include "core/job/planner.h"
#include "core/base/caller_struct.h"
#include "core/base/display_text.h"
#include "core/base/error.h"
#include "core/base/text.h"
#include "core/base/thread_pool.h"
#include "core/cut/input_check.h"
#include "core/job/clearance_plan.h"
#include "core/job/cycle_time.h"
#include "core/job/datum_plan.h"
#include "core/job/envelope_plan.h"
#include "core/job/feature_plan.h"
#include "core/job/fluid_plan.h"
#include "core/job/holder_plan.h"
#include "core/job/inspection_plan.h"
#include "core/job/job_file.h"
#include "core/job/job_file_reader.h"
#include "core/job/job_verdict.h"
#include "core/job/machine_lengths.h"
#include "core/job/pass_plan.h"
#include "core/job/pass_request.h"
#include "core/job/pass_sequence.h"
#include "core/job/path_plan.h"
#include "core/job/plan_cautions.h"
#include "core/job/plan_defaults.h"
#include "core/job/remarks.h"
#include "core/job/setup_plan.h"
#include "core/job/shop_defaults.h"
#include "core/job/soak_plan.h"
#include "core/job/spring_plan.h"
#include "core/job/stock_plan.h"
#include "core/job/thin_plan.h"
#include "core/job/thread_way.h"
#include "core/job/warp_plan.h"
#include "core/job/window_plan.h"
#include "core/job/workholding_plan.h"
#include "core/library/collection.h"
#include "core/library/library.h"
#include "core/library/material.h"
#include <math.h>
#include <string.h>

static void take_part(bite_job *job, const bite_job_options *options)
{
    const bite_section *part = job->file_data.part;
    const char *title = bite_job_file_text(job->file_data.job, "title");
    const char *name = bite_job_file_text(part, "name");
    double count = bite_job_file_number(part, "count");
    const char *slash = strrchr(job->file, '/');
    job->title = title != NULL   ? title
                 : name != NULL  ? name
                 : slash != NULL ? slash + 1
                                 : job->file;
    job->length = bite_job_file_number(part, "length");
    job->width = bite_job_file_number(part, "width");
    job->thickness = bite_job_file_number(part, "thickness");
    job->thinnest = bite_job_file_number(part, "thinnest");
    job->count = isnan(count) ? 1.0 : count;
    job->clear = bite_job_file_word(part, "clear", 0);
    job->annealed = bite_job_file_word(job->file_data.stock, "annealed", 0);
    job->units = options->units_given
                     ? (bite_units)options->units
                     : (bite_units)bite_job_file_word(job->file_data.job, "units", options->units);
    job->confidence = bite_confidence_or_usual(options->confidence);
    job->care = 1.0;
    job->draws = options->draws;
    job->threads = options->threads < 1 ? 1 : options->threads;
}

static bite_status plan(bite_job *job, int windows, bite_error *error)
{
    static bite_status (*const steps[])(bite_job *, bite_error *) = {
        bite_plan_setups,     bite_plan_machine,    bite_plan_stock,     bite_plan_workholding,
        bite_plan_features,   bite_plan_pass_order, bite_plan_datums,    bite_plan_passes,
        bite_plan_paths,      bite_plan_envelope,   bite_plan_clearance, bite_plan_holders,
        bite_plan_warp,       bite_plan_holding,    bite_plan_thin,      bite_plan_springs,
        bite_plan_fluids,     bite_plan_pass_times, bite_plan_soak,      bite_plan_time,
        bite_plan_thread_ways};
    bite_status status =
        bite_library_grade_match(job->library, bite_job_file_text(job->file_data.part, "material"),
                                 &job->grade, &job->grade_match, error);
    job->checks = bite_arena_alloc(job->arena, BITE_CHECKS_MAX + 4, sizeof *job->checks);
    if (status == BITE_OK && job->checks == NULL) {
        status = bite_error_set(error, BITE_NO_MEMORY, "no memory for a plan");
    }
    for (size_t i = 0; i < sizeof steps / sizeof *steps && status == BITE_OK; i++) {
        status = steps[i](job, error);
    }
    if (status != BITE_OK) {
        return status;
    }
    bite_plan_pass_cautions(job);
    bite_plan_safety(job);
    bite_plan_inspection(job);
    bite_plan_list_defaults(job); /* last: it lists what was taken from the shop's set-up */
    bite_plan_sort_remarks(job);
    bite_plan_verdict(job);
    return windows ? bite_plan_windows(job, error) : BITE_OK;
}

/* Whether memory ran out on the way: a piece or a record that was not there may have been taken for
 * a thing that is not needed. lacked: of the library, before. */
static int lacks(const bite_job *job, size_t lacked)
{
    return job->out_of_memory || bite_arena_failed(job->arena) ||
           bite_library_lacked_memory(job->library) != lacked;
}

/* Units and confidence are the caller's: the set-up's only if they are the same. */
static void note_options(bite_job *job, const bite_job_options *options)
{
    const bite_field_value *confidence = bite_shop_value(job->shop, BITE_SHOP_CONFIDENCE);
    if (options->units_given) {
        job->shop_keys &= ~(1u << BITE_SHOP_UNITS);
    }
    if (confidence != NULL && confidence->value == options->confidence) {
        job->shop_keys |= 1u << BITE_SHOP_CONFIDENCE;
    }
}

/* Where the caller receives the faults of the file. */
typedef struct fault_receiver {
    bite_fault_sink sink; /* may be NULL */
    void *user;
} fault_receiver;

static void pass_on(void *user, const bite_error *fault)
{
    fault_receiver *receiver = user;
    if (receiver->sink != NULL) {
        receiver->sink(receiver->user, fault);
    }
}

static bite_status check_call(const bite_library *library, const char *path,
                              const bite_job_options *options, bite_job **job, bite_error *error)
{
    if (library == NULL || path == NULL || job == NULL || options->units > BITE_INCH ||
        options->units_given > 1 || options->windows > 1) {
        bite_error_set(error, BITE_BAD_ARGUMENT,
                       "an open library, a path, options whose units and windows exist, and a "
                       "place for the job were expected");
        bite_error_key(error, "options");
        return BITE_BAD_ARGUMENT;
    }
    if (options->threads > BITE_THREADS_MAX) {
        bite_error_set(error, BITE_OUT_OF_RANGE, "1 to %d threads were expected, or 0 for one",
                       BITE_THREADS_MAX);
        bite_error_key(error, "threads");
        return BITE_OUT_OF_RANGE;
    }
    return bite_check_draws_wished(options->draws, options->confidence, error);
}

bite_status bite_job_open(const bite_library *library, const char *path,
                          const bite_job_options *options, bite_fault_sink fault, void *user,
                          bite_job **job, bite_error *error)
{
    return bite_job_parse(library, path, NULL, 0, options, fault, user, job, error);
}

bite_status bite_job_parse(const bite_library *library, const char *path, const char *bytes,
                           size_t size, const bite_job_options *given, bite_fault_sink fault,
                           void *user, bite_job **job, bite_error *error)
{
    fault_receiver faults = {fault, user};
    bite_job_options own;
    const bite_job_options *options = &own;
    bite_error_clear(error);
    bite_status status = bite_struct_read(&bite_struct_job_options, given, &own, "options", error);
    status = status != BITE_OK ? status : check_call(library, path, options, job, error);
    if (status != BITE_OK) {
        return status;
    }
    const bite_allocator *allocator = bite_library_allocator(library);
    bite_job *fresh = bite_memory_new(allocator, 1, sizeof *fresh);
    bite_arena *arena = fresh == NULL ? NULL : bite_arena_new(allocator);
    if (arena == NULL) {
        bite_memory_free(allocator, fresh);
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a job");
    }
    fresh->allocator = *allocator;
    fresh->arena = arena;
    fresh->library = library;
    fresh->verdict = BITE_CLEAR;
    fresh->request_of = bite_plan_request;
    fresh->watch = bite_arena_alloc(arena, 1, sizeof *fresh->watch);
    if (fresh->watch == NULL) {
        bite_job_free(fresh);
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a job");
    }
    bite_watch_start(fresh->watch, options->progress, options->progress_user);
    size_t lacked = bite_library_lacked_memory(library);
    status =
        bite_job_file_open(library, path, bytes, size, pass_on, &faults, &fresh->file_data, error);
    if (status == BITE_OK) {
        fresh->shop = options->shop;
        status = bite_job_use_shop(library, options->shop, arena, &fresh->file_data,
                                   &fresh->shop_keys, error);
        note_options(fresh, options);
    }
    if (status == BITE_OK) {
        fresh->file = bite_text_escaped(arena, path); /* writers show it, and it may name the job */
        status = fresh->file == NULL ? bite_error_set(error, BITE_NO_MEMORY, "no memory for a job")
                                     : BITE_OK;
    }
    if (status == BITE_OK) {
        fresh->fault = fault;
        fresh->fault_user = user;
        take_part(fresh, options);
        status = plan(fresh, options->windows == 1, error);
    }
    if (status == BITE_OK && lacks(fresh, lacked)) {
        status = bite_error_set(error, BITE_NO_MEMORY, "no memory for a plan");
    }
    status = bite_watch_end(fresh->watch, status, error);
    if (status != BITE_OK) {
        bite_job_free(fresh);
        return status;
    }
    *job = fresh;
    return BITE_OK;
}

void bite_job_free(bite_job *job)
{
    if (job != NULL) {
        bite_allocator allocator = job->allocator;
        bite_plan_windows_free(job); /* before the answers that they borrow */
        for (size_t i = 0; i < job->choice_count; i++) {
            bite_choice_free(job->choices[i]->choice);
        }
        for (size_t i = 0; i < job->pass_count; i++) {
            for (size_t k = 0; k < job->passes[i].made_count; k++) {
                bite_answer_free(job->passes[i].made[k]);
            }
        }
        bite_job_file_free(&job->file_data);
        bite_arena_free(job->arena);
        bite_memory_free(&allocator, job);
    }
}

bite_verdict bite_job_verdict(const bite_job *job)
{
    return job == NULL ? BITE_NOT_JUDGED : (bite_verdict)job->verdict;
}
