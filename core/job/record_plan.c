/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A new measurement record from the inspection plan of a job. */
#include "core/base/error.h"
#include "core/inspection/instrument.h"
#include "core/inspection/record.h"
#include "core/inspection/record_create.h"
#include "core/inspection/record_head.h"
#include "core/job/plan.h"
#include <math.h>
#include <string.h>

/* A band is that of 90 % (coolbite-tables(5)): its half over the quantile of 95 %. */
static const double band_quantile = 1.6449;

static const char *or_empty(const char *text)
{
    return text == NULL ? "" : text;
}

/* Whether it has no number: judged by a gauge or by eye. */
static uint32_t is_judged(const bite_planned_check *check)
{
    bool words = check->measures == BITE_MEASURED_THREAD ||
                 check->measures == BITE_MEASURED_APPEARANCE ||
                 check->measures == BITE_MEASURED_STRESS;
    bool limited = !isnan(check->lower) || !isnan(check->upper) || !isnan(check->nominal);
    bite_instrument instrument = {0};
    if (check->instrument != NULL) {
        bite_instrument_read(check->instrument, &instrument);
    }
    return instrument.judges || (words && !limited);
}

static void set_instrument(const bite_planned_check *check, bite_characteristic *to)
{
    to->instrument_title = or_empty(check->with);
    if (check->instrument == NULL) {
        return;
    }
    bite_instrument instrument;
    bite_instrument_read(check->instrument, &instrument);
    to->instrument = check->instrument->name;
    to->uncertainty = check->uncertainty;
    to->resolution = instrument.resolution;
    to->instrument_expansion = instrument.expansion;
    to->pressed = isnan(check->pressed) ? 0.0 : check->pressed;
}

static void set_pass(const bite_job *job, const bite_planned_check *check, bite_characteristic *to)
{
    if (check->pass >= job->pass_count) {
        return;
    }
    const bite_planned_pass *pass = &job->passes[check->pass];
    const bite_value *error = &pass->answer->result.values[BITE_WALL_ERROR];
    to->pass = check->pass + 1;
    to->pass_title = or_empty(pass->title);
    to->tool = pass->tool < job->tool_count ? or_empty(job->tools[pass->tool].name) : "";
    to->wall_error = error->value;
    to->wall_error_low = error->low;
    to->wall_error_high = error->high;
}

static void set_expansion(const bite_job *job, bite_characteristic *to)
{
    const bite_field_value *expansion = bite_item_field(&job->grade->record, "expansion");
    if (expansion != NULL) {
        to->expansion = expansion->value;
        to->expansion_spread = expansion->banded
                                   ? (expansion->high - expansion->low) / (2.0 * band_quantile)
                                   : (double)NAN;
    }
}

static void set_characteristic(const bite_job *job, const bite_planned_check *check,
                               bite_characteristic *to)
{
    bite_characteristic_init(to);
    to->number = check->number;
    to->what = check->what;
    to->zone = check->zone;
    to->designator = check->designator;
    to->note = check->note;
    to->measures = check->measures;
    to->judged = is_judged(check);
    to->nominal = check->nominal;
    to->lower = check->lower;
    to->upper = check->upper;
    to->limits_from = check->limits_from;
    to->every = check->every > 0 ? check->every : 1;
    set_instrument(check, to);
    set_pass(job, check, to);
    set_expansion(job, to);
}

static void set_head(const bite_job *job, struct bite_record *record)
{
    const bite_section *section = job->file_data.job;
    const bite_section *part = job->file_data.part;
    record->job = or_empty(job->title);
    record->part_name = or_empty(bite_job_file_text(part, "name"));
    record->material = job->grade->record.name;
    record->drawing = or_empty(bite_job_file_text(section, "drawing"));
    record->customer = or_empty(bite_job_file_text(section, "customer"));
    record->organization = or_empty(bite_job_file_text(section, "shop"));
    record->machine = job->envelope.machine != NULL
                          ? job->envelope.machine->title
                          : or_empty(bite_job_file_text(job->file_data.machine, "name"));
    record->count = job->count;
    record->units = job->units;
}

static bite_status fill(const bite_job *job, const char *const (*fields)[2], size_t count,
                        struct bite_record *record, bite_error *error)
{
    bite_status status = BITE_OK;
    set_head(job, record);
    for (size_t i = 0; i < count && status == BITE_OK; i++) {
        status = bite_record_head_set(record, fields[i][0], fields[i][1], error);
    }
    record->characteristics =
        bite_arena_alloc(record->arena, job->check_count + 1, sizeof *record->characteristics);
    if (record->characteristics == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a record");
    }
    for (size_t i = 0; i < job->check_count; i++) {
        set_characteristic(job, &job->checks[i],
                           &record->characteristics[record->characteristic_count++]);
    }
    if (status == BITE_OK && job->check_count == 0) {
        bite_error_set(error, BITE_MISSING, "the job has nothing to measure");
        bite_error_hint(error, "add [check.NAME] to the job file; see coolbite-job(5)");
        return BITE_MISSING;
    }
    return status;
}

bite_status bite_record_new(const bite_job *job, const char *path, const char *const (*fields)[2],
                            size_t count, bite_error *error)
{
    struct bite_record *record = NULL;
    bite_error_clear(error);
    if (job == NULL || path == NULL || (fields == NULL && count > 0)) {
        return bite_error_set(error, BITE_BAD_ARGUMENT, "a job and a path were expected");
    }
    for (size_t i = 0; i < count; i++) {
        if (fields[i][0] == NULL || fields[i][1] == NULL) {
            return bite_error_set(error, BITE_BAD_ARGUMENT, "a field is NULL");
        }
    }
    bite_status status = bite_record_begin(&job->allocator, path, &record, error);
    if (status != BITE_OK) {
        return status;
    }
    status = fill(job, fields, count, record, error);
    status = status == BITE_OK ? bite_record_create(record, error) : status;
    bite_record_free(record);
    return status;
}
