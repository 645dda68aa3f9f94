/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The fluids of a job, rated for its material and for how its stock was cut. */
#include "core/job/fluid_plan.h"
#include "core/base/error.h"
#include "core/base/text.h"
#include "core/job/fluid_compatibility.h"
#include "core/job/job_file.h"
#include "core/job/plan_text.h"
#include "core/job/remarks.h"
#include "core/library/collection.h"
#include "core/library/listing.h"
#include <stdio.h>
#include <string.h>

static const struct {
    const char *key;
    const char *use;
    const char *word; /* of a fluid's `use` */
} uses[] = {{"coolant_fluid", "coolant", "coolant"},
            {"cleaner", "cleaner", "cleaner"},
            {"remover", "remover", "remover"},
            {"marking", "marking", "marking"},
            {"tapping", "tapping fluid", "tapping"}};

#define TITLES_MAX 600 /* bytes of a list of titles */

static void add_remarks(bite_job *job, const char *use, const bite_fluid_rating *result,
                        const char *instead)
{
    const double mill_off = 3e-3; /* m, of a laser-cut edge */
    const bite_remark_value fluid = bite_remark_text(result->fluid->title);
    const bite_remark_value grade = bite_remark_text(job->grade->record.name);
    int harms = result->rating == BITE_RATED_RISK || result->rating == BITE_RATED_NO;
    if (harms) {
        const bite_remark_value values[] = {fluid,
                                            bite_remark_text(use),
                                            grade,
                                            bite_remark_text(result->says),
                                            bite_remark_number(result->watch),
                                            bite_remark_text(instead)};
        bite_plan_remark_from(
            job, result->rating == BITE_RATED_NO ? BITE_REMARK_FLUID_NO : BITE_REMARK_FLUID_RISK,
            BITE_CARE, result->source, values, 6);
    } else if (result->rating == BITE_RATED_UNKNOWN) {
        const bite_remark_value values[] = {fluid, grade};
        bite_plan_remark(job, BITE_REMARK_FLUID_UNKNOWN, values, 2);
    }
    if (job->stock.parting == BITE_PARTED_LASER && harms) { /* the edge is under stress */
        const bite_remark_value values[] = {fluid, bite_remark_number(mill_off)};
        bite_plan_remark(job, BITE_REMARK_LASER_EDGE, values, 2);
    }
}

/* Titles of the coolants that are refused on the material: "full-synthetic coolant, ...". */
static bite_status refused_coolants(const bite_job *job, char *titles, size_t size,
                                    bite_error *error)
{
    size_t count = 0;
    size_t used = 0;
    titles[0] = 0;
    bite_status status = bite_library_size(job->library, BITE_FLUIDS, &count, error);
    for (size_t i = 0; status == BITE_OK && i < count; i++) {
        bite_item item;
        bite_fluid_rating result = {.rating = BITE_RATED_UNKNOWN};
        const bite_item_record *fluid = NULL;
        status = bite_library_item(job->library, BITE_FLUIDS, i, &item, error);
        status =
            status != BITE_OK ? status : bite_fluid_find(job->library, item.name, &fluid, error);
        if (status != BITE_OK || !bite_fluid_has_use(fluid, "coolant")) {
            continue;
        }
        status =
            bite_fluid_rate(job->library, fluid, job->grade, (int)job->annealed, &result, error);
        if (status == BITE_OK && result.rating == BITE_RATED_NO &&
            used + strlen(fluid->title) + 3 < size) {
            used += (size_t)snprintf(titles + used, size - used, "%s%s", used > 0 ? ", " : "",
                                     fluid->title);
        }
    }
    return status;
}

/* Mist or flood of a fluid that nobody named, on a material that some coolants attack. */
static bite_status check_unnamed_coolant(bite_job *job, bite_error *error)
{
    char refused[TITLES_MAX];
    char safe[TITLES_MAX];
    uint32_t wet = BITE_COOLANT_NONE;
    for (size_t i = 0; i < job->pass_count; i++) {
        uint32_t coolant = job->passes[i].answer->full.coolant;
        wet = coolant >= BITE_COOLANT_MIST && coolant > wet ? coolant : wet;
    }
    if (wet == BITE_COOLANT_NONE ||
        bite_job_file_text(job->file_data.fluids, "coolant_fluid") != NULL) {
        return BITE_OK;
    }
    bite_status status = refused_coolants(job, refused, sizeof refused, error);
    status = status != BITE_OK ? status
                               : bite_fluid_safe_titles(job->library, job->grade, NULL, "coolant",
                                                        safe, sizeof safe, error);
    if (status == BITE_OK && refused[0] != 0) {
        const bite_remark_value values[] = {
            bite_remark_text(wet == BITE_COOLANT_MIST ? "mist" : "flood"),
            bite_remark_text(job->grade->record.name),
            bite_remark_text(bite_plan_text(job, "%s", safe)),
            bite_remark_text(bite_plan_text(job, "%s", refused))};
        bite_plan_remark(job, BITE_REMARK_COOLANT_UNNAMED, values, 4);
    }
    return status;
}

/* Safe ones first, those that nothing is known about last; otherwise in the order of the tables. */
static void insert_rating(bite_job *job, const bite_fluid_rating *result)
{
    size_t at = job->bench_fluid_count++;
    for (; at > 0 && job->bench_fluids[at - 1].rating > result->rating; at--) {
        job->bench_fluids[at] = job->bench_fluids[at - 1];
    }
    job->bench_fluids[at] = *result;
}

/* Every cleaner and remover of the tables, rated: whoever cleans the part takes what is at hand. */
static bite_status rate_for_the_bench(bite_job *job, bite_error *error)
{
    size_t count = 0;
    bite_status status = bite_library_size(job->library, BITE_FLUIDS, &count, error);
    if (status != BITE_OK || count == 0) {
        return status;
    }
    job->bench_fluids = bite_arena_alloc(job->arena, count, sizeof *job->bench_fluids);
    if (job->bench_fluids == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for the fluids of a job");
    }
    for (size_t i = 0; i < count; i++) {
        bite_item item;
        bite_fluid_rating result;
        const bite_item_record *fluid = NULL;
        status = bite_library_item(job->library, BITE_FLUIDS, i, &item, error);
        status = status != BITE_OK
                     ? status
                     : bite_library_record(job->library, BITE_FLUIDS, item.name, &fluid, error);
        if (status == BITE_OK && !bite_fluid_has_use(fluid, "cleaner") &&
            !bite_fluid_has_use(fluid, "remover")) {
            continue;
        }
        status = status != BITE_OK ? status
                                   : bite_fluid_rate(job->library, fluid, job->grade,
                                                     (int)job->annealed, &result, error);
        if (status != BITE_OK) {
            return status;
        }
        result.says = bite_plan_table_text(job, result.says);
        insert_rating(job, &result);
    }
    return BITE_OK;
}

bite_status bite_plan_fluids(bite_job *job, bite_error *error)
{
    for (size_t i = 0; i < sizeof uses / sizeof *uses; i++) {
        const char *name = bite_job_file_text(job->file_data.fluids, uses[i].key);
        bite_fluid_rating result;
        const bite_item_record *fluid = NULL;
        char instead[TITLES_MAX] = "";
        if (name == NULL) {
            continue;
        }
        bite_status status = bite_fluid_find(job->library, name, &fluid, error);
        status = status != BITE_OK ? status
                                   : bite_fluid_rate(job->library, fluid, job->grade,
                                                     (int)job->annealed, &result, error);
        if (status == BITE_OK && result.rating != BITE_RATED_SAFE) {
            status = bite_fluid_safe_titles(job->library, job->grade, fluid, uses[i].word, instead,
                                            sizeof instead, error);
        }
        if (status != BITE_OK) {
            return status;
        }
        result.says = bite_plan_table_text(job, result.says);
        job->fluids[job->fluid_count] = result;
        job->fluid_instead[job->fluid_count] = bite_plan_text(job, "%s", instead);
        job->fluid_uses[job->fluid_count] = uses[i].use;
        add_remarks(job, uses[i].use, &result, job->fluid_instead[job->fluid_count]);
        job->fluid_count++;
    }
    bite_status status = check_unnamed_coolant(job, error);
    return status != BITE_OK ? status : rate_for_the_bench(job, error);
}
