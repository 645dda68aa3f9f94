/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Planning a whole job: each step in its order, then what to mind, the worst first. */
#include "core/job/plan.h"
#include "core/base/display_text.h"
#include "core/base/error.h"
#include "core/base/number.h"
#include "core/base/text.h"
#include "core/base/thread_pool.h"
#include "core/cut/input_check.h"
#include "core/job/bond_plan.h"
#include "core/job/cycle_time.h"
#include "core/job/feature_plan.h"
#include "core/job/fluid_plan.h"
#include "core/job/pass_plan.h"
#include "core/job/plan_steps.h"
#include "core/job/stock_plan.h"
#include "core/library/collection.h"
#include "core/library/library.h"
#include "core/library/material.h"
#include "core/names/registry.h"
#include "core/units/inch_text.h"
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#define TEXT_MOST                                                                                  \
    4000 /* a line of a file has at most 1000 bytes, and some of ours hold two of them */

const char *bite_plan_text(bite_job *job, const char *format, ...)
{
    char text[TEXT_MOST];
    va_list list;
    va_start(list, format);
    int length = vsnprintf(text, sizeof text, format, list);
    va_end(list);
    size_t used = length < 0 ? 0 : strlen(text);
    used = (size_t)length == used ? used : bite_text_complete_length(text, used);
    char *kept = length < 0 ? NULL : bite_arena_text(job->arena, text, used);
    job->out_of_memory |= kept == NULL;
    return kept == NULL ? "" : kept;
}

const char *bite_plan_quantity(const bite_job *job, double si, bite_kind kind, char *buffer,
                               size_t size)
{
    size_t length = 0;
    if (isnan(si) ||
        bite_quantity_write(si, kind, job->units, buffer, size, &length, NULL) != BITE_OK) {
        (void)snprintf(buffer, size, "-");
    }
    return buffer;
}

const char *bite_plan_duration(double seconds, char *buffer, size_t size)
{
    char digits[40];
    double in = seconds < 99.5 ? 1.0 : seconds < 5970.0 ? 60.0 : 3600.0;
    double number = seconds / in;
    number = in > 1.0 && number < 9.95 ? round(10.0 * number) / 10.0 : round(number);
    if (isnan(seconds)) {
        (void)snprintf(buffer, size, "-");
    } else {
        (void)bite_number_write(number, 12, digits, sizeof digits);
        (void)snprintf(buffer, size, "%s %s", digits, in < 2.0 ? "s" : in < 100.0 ? "min" : "h");
    }
    return buffer;
}

double bite_plan_figure(const bite_item_record *record, const char *key, double otherwise)
{
    const bite_field_value *field_value = record == NULL ? NULL : bite_item_field(record, key);
    return field_value == NULL || isnan(field_value->value) ? otherwise : field_value->value;
}

void bite_plan_remark(bite_job *job, uint32_t severity, const char *about, const char *text,
                      const char *source)
{
    for (size_t i = 0; i < job->remark_count; i++) {
        if (strcmp(job->remarks[i].text, text) == 0) {
            return; /* said already: several passes have the same caution */
        }
    }
    if (job->remark_count == job->remark_capacity) {
        size_t capacity = job->remark_capacity == 0 ? 64 : 2 * job->remark_capacity;
        bite_remark *more = bite_arena_alloc(job->arena, capacity, sizeof *more);
        if (more == NULL) {
            job->out_of_memory = 1;
            return;
        }
        if (job->remark_count > 0) {
            memcpy(more, job->remarks, job->remark_count * sizeof *more);
        }
        job->remarks = more;
        job->remark_capacity = capacity;
    }
    bite_remark remark = {severity, about, text, source};
    job->remarks[job->remark_count++] = remark;
}

void bite_plan_fault(bite_job *job, const bite_section *section, const bite_error *why)
{
    bite_error fault = *why;
    char key[sizeof why->key];
    memcpy(key, why->key, sizeof key);
    const bite_field_value *field_value = section == NULL ? NULL : bite_section_value(section, key);
    fault.status = BITE_BAD_FILE;
    fault.faults = 0;
    bite_error_place(&fault, job->file,
                     field_value != NULL ? field_value->line
                     : section != NULL   ? section->line
                                         : 0,
                     0);
    if (section != NULL) {
        bite_error_key(&fault, "%.60s%s%.60s", section->name, key[0] == 0 ? "" : ":", key);
    }
    if (job->faults++ == 0) {
        job->first_fault = fault;
    }
    if (job->fault != NULL) {
        job->fault(job->fault_user, &fault);
    }
}

bite_status bite_plan_status(const bite_job *job, bite_error *error)
{
    if (job->faults == 0) {
        return BITE_OK;
    }
    if (error != NULL) {
        *error = job->first_fault;
        error->faults = job->faults;
    }
    return BITE_BAD_FILE;
}

/* Danger first, told things last; else in the order in which they came. */
static void sort_remarks(bite_job *job)
{
    for (size_t i = 1; i < job->remark_count; i++) {
        bite_remark moved = job->remarks[i];
        size_t at = i;
        for (; at > 0 && job->remarks[at - 1].severity < moved.severity; at--) {
            job->remarks[at] = job->remarks[at - 1];
        }
        job->remarks[at] = moved;
    }
}

#define NAMES_MOST 64

/* The caution of a name that the worst pass gives: what one pass says, others say with other
 * numbers. */
typedef struct heard {
    const char *name;
    const bite_worded_caution *said;
    const bite_planned_pass *pass;
    uint32_t passes;
} heard;

/* The job speaks of the film itself, or says that there is none. */
static int is_spoken_of(const char *name)
{
    return strcmp(name, "film") == 0;
}

static double chance_of(const bite_planned_pass *pass)
{
    double chance = pass->answer->result.chance;
    return isnan(chance) ? pass->answer->result.limits[pass->answer->result.worst].utilization
                         : chance;
}

static void hear(heard *names, size_t *count, const bite_worded_caution *said,
                 const bite_planned_pass *pass)
{
    size_t at = 0;
    while (at < *count && strcmp(names[at].name, said->caution.name) != 0) {
        at++;
    }
    if (at == *count && *count < NAMES_MOST) {
        heard fresh = {said->caution.name, said, pass, 1};
        names[(*count)++] = fresh;
    } else if (at < *count) {
        names[at].passes++;
        if (chance_of(pass) > chance_of(names[at].pass)) {
            names[at].said = said;
            names[at].pass = pass;
        }
    }
}

/* What the passes' own answers warn of, once each, with the numbers of the pass that is worst off.
 */
static void take_cautions(bite_job *job)
{
    heard names[NAMES_MOST];
    size_t count = 0;
    for (size_t i = 0; i < job->pass_count; i++) {
        const bite_answer *answer = job->passes[i].answer;
        for (size_t k = 0; k < answer->caution_count; k++) {
            if (!is_spoken_of(answer->cautions[k].caution.name)) {
                hear(names, &count, &answer->cautions[k], &job->passes[i]);
            }
        }
    }
    for (size_t i = 0; i < count; i++) {
        const bite_worded_caution *said = names[i].said;
        const char *text = job->units == BITE_INCH ? said->inch : said->caution.text;
        int whose = names[i].passes < job->pass_count && said->caution.severity != BITE_DANGER;
        bite_plan_remark(job, said->caution.severity,
                         said->caution.severity == BITE_DANGER ? "safety" : "material",
                         bite_plan_text(job, "%s%s%s%s", whose ? "In " : "",
                                        whose ? names[i].pass->title : "", whose ? ": " : "", text),
                         bite_plan_text(job, "%s", said->caution.source));
    }
}

static void say_burning(bite_job *job, const bite_item_record *fluid)
{
    if (fluid != NULL && strstr(fluid->summary, "flammable") != NULL) {
        bite_plan_remark(job, BITE_DANGER, "safety",
                         bite_plan_text(job,
                                        "%s burns: no sparks, no hot chips, ventilate, little at a "
                                        "time, rags in a closed metal bin; the safety "
                                        "data sheet goes before this.",
                                        fluid->title),
                         "common-practice");
    }
}

/* The usual dangers of the machine and of what is put on the part. */
static void take_dangers(bite_job *job)
{
    int glued = job->hold.hold != NULL && !isnan(job->hold.cure);
    int wet = 0;
    int hot = 0;
    for (size_t i = 0; i < job->pass_count; i++) {
        const bite_cut *cut = &job->passes[i].answer->full;
        hot |= cut->spindle_speed > 15000.0 / 60.0;
        wet |= cut->coolant == BITE_COOLANT_MIST || cut->coolant == BITE_COOLANT_FLOOD;
    }
    if (hot) {
        bite_plan_remark(job, BITE_DANGER, "safety",
                         "High spindle speed: a tool that breaks or slips flies. Guard closed, "
                         "collet and nut clean and tight, "
                         "speed under the mark on "
                         "tool and nut. The machine's manual goes before this.",
                         "common-practice");
    }
    if (glued) {
        bite_plan_remark(
            job, BITE_DANGER, "safety",
            "Cyanoacrylate bonds skin and eyes at once and its vapour irritates: ventilate, gloves "
            "that do not wick, "
            "eye protection; "
            "the safety data sheet goes before this.",
            "standard: ethyl cyanoacrylate, ACGIH 0.2 ppm (8 h), as a safety data sheet states it");
    }
    if (wet) {
        bite_plan_remark(job, BITE_DANGER, "safety",
                         "Mist of cutting fluid is harmful to breathe: enclose and extract, keep "
                         "it off skin, no more of it than "
                         "is needed; the safety "
                         "data sheet and local rules go before this.",
                         "standard: NIOSH 98-102, 0.5 mg/m3 of metalworking fluid, 10 h");
    }
    for (size_t i = 0; i < job->fluid_count; i++) {
        say_burning(job, job->fluids[i].fluid);
    }
    say_burning(job, job->hold.solvent);
    bite_plan_remark(
        job, BITE_NOTE, "safety",
        "Blow-off air not over 2 bar at the nozzle, never at skin; hearing protection where you "
        "must raise your "
        "voice. The machine's "
        "manual, safety data sheets and local rules go before this plan.",
        "standard: 29 CFR 1910.242(b), 30 psi dead-ended; 29 CFR 1910.95, action level 85 dBA");
}

static void take_checks(bite_job *job)
{
    for (size_t i = 0; i < job->file_data.check_count; i++) {
        const bite_section *section = job->file_data.checks[i];
        const char *what = bite_job_file_text(section, "what");
        const char *with = bite_job_file_text(section, "with");
        const char *note = bite_job_file_text(section, "note");
        double nominal = bite_job_file_number(section, "nominal");
        double tolerance = bite_job_file_number(section, "tolerance");
        if (isnan(tolerance) &&
            !isnan(nominal)) { /* what has no size has no tolerance of the part's */
            tolerance = bite_job_file_number(job->file_data.part, "tolerance");
        }
        bite_planned_check check = {what == NULL ? section->tail : what, nominal, tolerance,
                                    with == NULL ? "" : with, note == NULL ? "" : note};
        job->checks[job->check_count++] = check;
    }
    if (job->check_count == 0) {
        double flatness = bite_job_file_number(job->file_data.part, "flatness");
        double tolerance = bite_job_file_number(job->file_data.part, "tolerance");
        bite_planned_check thick = {"thickness, five places", job->thickness, tolerance,
                                    "micrometer, flat faces", ""};
        job->checks[job->check_count++] = thick;
        if (!isnan(job->thinnest)) {
            bite_planned_check web = {"thinnest section", job->thinnest, tolerance,
                                      "micrometer, flat faces", ""};
            job->checks[job->check_count++] = web;
        }
        if (!isnan(flatness)) {
            bite_planned_check flat = {"flatness, part free", 0.0, flatness,
                                       "feeler on a flat plate, or a light touch",
                                       "a day after release"};
            job->checks[job->check_count++] = flat;
        }
    }
}

/* What the file leaves out and the plan took instead. */
static void say_taken(bite_job *job)
{
    const struct {
        int given;
        const char *taken;
    } all[] = {
        {bite_job_file_text(job->file_data.machine, "name") != NULL, "machine bench-24k"},
        {bite_job_file_text(job->file_data.tools, "at_hand") != NULL, "tools of the whole table"},
        {!isnan(bite_job_file_number(job->file_data.part, "count")), "one part"},
        {!isnan(bite_job_file_number(job->file_data.part, "tolerance")),
         "the usual tolerance, as advice only"},
        {!isnan(bite_job_file_number(job->file_data.part, "flatness")), "no flatness asked"},
        {!isnan(bite_job_file_number(job->file_data.part, "inside_radius")),
         "inside corners of any size"},
        {bite_job_file_word(job->file_data.stock, "faces", 3) != 3,
         job->stock.skim > 0.0 ? "both faces skimmed"
                               : "faces as they came, for no pass faces them"},
        {bite_job_file_word(job->file_data.fluids, "coolant", 4) != 4, "dry"},
        {bite_job_file_text(job->file_data.fluids, "cleaner") != NULL, "no cleaner judged"},
        {!isnan(bite_job_file_number(job->file_data.machine, "acceleration")),
         "acceleration by the machine's class"},
        {!isnan(bite_job_file_number(job->file_data.tools, "change")), "90 s for a change of tool"},
    };
    char list[600] = "";
    for (size_t i = 0; i < sizeof all / sizeof *all; i++) {
        size_t used = strlen(list);
        if (!all[i].given) {
            (void)snprintf(list + used, sizeof list - used, "%s%s", used > 0 ? ", " : "",
                           all[i].taken);
        }
    }
    if (list[0] != 0) {
        bite_plan_remark(job, 0, "passes", bite_plan_text(job, "Taken, not given: %s.", list), "");
    }
}

static void in_inches(bite_job *job, const char **text)
{
    const char *spoken = *text == NULL ? NULL : bite_text_inches(job->arena, *text);
    job->out_of_memory |= *text != NULL && spoken == NULL;
    *text = spoken == NULL ? "" : spoken;
}

/* What tables and rules say in millimetres and degrees Celsius, for a shop that measures otherwise.
 */
static void speak_inches(bite_job *job)
{
    bite_planned_hold *hold = &job->hold;
    for (size_t i = 0; i < job->remark_count; i++) {
        in_inches(job, &job->remarks[i].text);
    }
    for (size_t i = 0; i < hold->mounting_count; i++) {
        in_inches(job, &hold->mounting[i]);
    }
    for (size_t i = 0; i < hold->release_count; i++) {
        in_inches(job, &hold->release[i]);
    }
    for (size_t i = 0; i < job->fluid_count; i++) {
        in_inches(job, &job->fluids[i].says);
    }
    in_inches(job, &job->stock.parting_text);
    in_inches(job, &job->warp.anneal);
}

static int refused(const bite_job *job)
{
    for (size_t i = 0; i < job->fluid_count; i++) {
        if (job->fluids[i].rating == BITE_RATED_NO) {
            return 1;
        }
    }
    return (int)job->hold.refused;
}

/* The share of draws in which some pass goes over: passes share their uncertain inputs, and the
 * draws of one seed are the same wherever the same inputs scatter. NaN: not all were drawn alike.
 */
static double joint_chance(const bite_job *job)
{
    uint32_t draws = job->passes[0].answer->result.draws;
    size_t over = 0;
    for (size_t i = 0; i < job->pass_count; i++) {
        if (draws == 0 || job->passes[i].answer->result.draws != draws ||
            job->passes[i].answer->over == NULL || job->passes[i].answer->spread_count == 0) {
            return (double)NAN;
        }
    }
    for (uint32_t at = 0; at < draws; at++) {
        int any = 0;
        for (size_t i = 0; i < job->pass_count && !any; i++) {
            any = job->passes[i].answer->over[at];
        }
        over += (size_t)any;
    }
    return (double)over / draws;
}

/* By the joint chance as a cut is, and no better than its worst pass; what is refused is over; a
 * hold that bears the load without its factor of safety is tight. */
static void sum_up(bite_job *job)
{
    for (size_t i = 0; i < job->pass_count; i++) {
        uint32_t verdict = job->passes[i].answer->result.verdict;
        job->verdict = verdict > job->verdict ? verdict : job->verdict;
    }
    job->chance = joint_chance(job);
    uint32_t by_chance = job->chance > 0.5                      ? BITE_OVER
                         : job->chance >= 1.0 - job->confidence ? BITE_TIGHT
                                                                : BITE_CLEAR;
    job->verdict = by_chance > job->verdict ? by_chance : job->verdict;
    if (refused(job) || job->hold.utilization > job->hold.safety || job->stock.layout.along == 0 ||
        job->stock.off_size == 2 || job->hold.strikes) {
        job->verdict = BITE_OVER;
    } else if ((job->hold.utilization > 1.0 || job->hold.loose || job->stock.off_size) &&
               job->verdict < BITE_TIGHT) {
        job->verdict = BITE_TIGHT;
    }
}

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
    job->confidence = options->confidence;
    job->draws = options->draws;
    job->threads = options->threads < 1 ? 1 : options->threads;
}

static bite_status plan(bite_job *job, bite_error *error)
{
    static bite_status (*const steps[])(bite_job *, bite_error *) = {
        bite_plan_stock,      bite_plan_workholding, bite_plan_features, bite_plan_layout,
        bite_plan_pass_order, bite_plan_passes,      bite_plan_warp,     bite_plan_bond,
        bite_plan_fluids,     bite_plan_time};
    double area = bite_job_file_number(job->file_data.hold, "area");
    bite_status status = bite_library_grade(
        job->library, bite_job_file_text(job->file_data.part, "material"), &job->grade, error);
    job->checks = bite_arena_alloc(job->arena, BITE_CHECKS_MAX + 4, sizeof *job->checks);
    if (status == BITE_OK && job->checks == NULL) {
        status = bite_error_set(error, BITE_NO_MEMORY, "no memory for a plan");
    }
    job->hold.area = isnan(area) ? job->length * job->width : area; /* the passes ask for it */
    for (size_t i = 0; i < sizeof steps / sizeof *steps && status == BITE_OK; i++) {
        status = steps[i](job, error);
    }
    if (status != BITE_OK) {
        return status;
    }
    take_cautions(job);
    take_dangers(job);
    say_taken(job);
    take_checks(job);
    sort_remarks(job);
    if (job->units == BITE_INCH) {
        speak_inches(job);
    }
    sum_up(job);
    return status == BITE_OK && job->out_of_memory
               ? bite_error_set(error, BITE_NO_MEMORY, "no memory for a plan")
               : status;
}

/* The faults of the file as the caller wants them. */
typedef struct remark_writer {
    bite_fault_sink sink;
    void *user;
} remark_writer;

static void tell(void *user, const bite_error *fault)
{
    remark_writer *telling = user;
    if (telling->sink != NULL) {
        telling->sink(telling->user, fault);
    }
}

static bite_status check_call(const bite_library *library, const char *path,
                              const bite_job_options *options, bite_job **job, bite_error *error)
{
    if (library == NULL || path == NULL || job == NULL || options == NULL ||
        options->struct_size != sizeof *options || options->units > BITE_INCH ||
        options->units_given > 1) {
        bite_error_set(error, BITE_BAD_ARGUMENT,
                       "an open library, a path, options of this library's size, and a place for "
                       "the job were expected");
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
                           size_t size, const bite_job_options *options, bite_fault_sink fault,
                           void *user, bite_job **job, bite_error *error)
{
    remark_writer faults = {fault, user};
    bite_error_clear(error);
    bite_status status = check_call(library, path, options, job, error);
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
    status =
        bite_job_file_open(library, path, bytes, size, tell, &faults, &fresh->file_data, error);
    if (status == BITE_OK) {
        fresh->file = bite_text_escaped(arena, path); /* it is shown, and may name the job */
        status = fresh->file == NULL ? bite_error_set(error, BITE_NO_MEMORY, "no memory for a job")
                                     : BITE_OK;
    }
    if (status == BITE_OK) {
        fresh->fault = fault;
        fresh->fault_user = user;
        take_part(fresh, options);
        status = plan(fresh, error);
    }
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
        for (size_t i = 0; i < job->pass_count; i++) {
            bite_answer_free(job->passes[i].answer);
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
