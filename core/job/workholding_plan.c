/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The workholding of a job: the method that the job file names, and whether it withstands the
 * forces of the passes. */
#include "core/job/workholding_plan.h"
#include "core/job/bond_plan.h"
#include "core/job/clamp_plan.h"
#include "core/job/job_file.h"
#include "core/job/plan_text.h"
#include "core/job/remarks.h"
#include "core/job/setup_plan.h"
#include "core/library/collection.h"
#include "core/library/item.h"
#include "core/library/listing.h"
#include <math.h>
#include <string.h>

/* The words of the table key `sort`. */
enum { SORT_BOND, SORT_VACUUM, SORT_CLAMP };

/* Share of the tape under the part; common practice: a through cut stops inside the tape. */
static const double default_break_share = 0.5;

/* The text "one. | two." becomes two steps. */
static size_t split_steps(bite_job *job, const char *text, const char **steps)
{
    size_t count = 0;
    while (*text != 0 && count < BITE_STEPS_MAX) {
        const char *end = strchr(text, '|');
        size_t length = end == NULL ? strlen(text) : (size_t)(end - text);
        while (length > 0 && text[length - 1] == ' ') {
            length--;
        }
        steps[count++] = bite_plan_table_text(job, bite_plan_text(job, "%.*s", (int)length, text));
        text = end == NULL ? text + strlen(text) : end + 1 + strspn(end + 1, " ");
    }
    return count;
}

static bite_status find_layers(bite_job *job, bite_planned_hold *hold, bite_error *error)
{
    char name[64];
    double least = INFINITY;
    for (size_t i = 0;
         i < BITE_LAYERS_MAX &&
         bite_job_file_name(bite_item_text(hold->hold, "layers"), i, name, sizeof name);
         i++) {
        bite_status status = bite_library_layer(job->library, name, &hold->layers[i], error);
        if (status != BITE_OK) {
            return status;
        }
        hold->layer_count++;
        double shear = bite_item_figure_or(hold->layers[i], "bond_shear", INFINITY);
        if (shear < least) {
            least = shear;
            hold->weakest = (int)i;
        }
    }
    return BITE_OK;
}

/* A through cut ends inside the tape under the part: deeper it cuts into the fixture, shallower it
 * leaves a skin. */
static void plan_break_through(bite_planned_setup *setup)
{
    bite_planned_hold *hold = &setup->hold;
    const bite_item_record *under =
        hold->layer_count > 0 ? hold->layers[hold->layer_count - 1] : NULL;
    int tape = under != NULL && strstr(under->name, "tape") != NULL;
    hold->tape = tape ? bite_item_figure(under, "thickness") : (double)NAN;
    hold->break_through = bite_plan_hold_number(setup, "break_through");
    if (isnan(hold->break_through)) {
        hold->break_through = tape ? default_break_share * hold->tape : 0.0;
    }
}

static bite_status find_hold(bite_job *job, bite_planned_setup *setup, bite_error *error)
{
    bite_planned_hold *hold = &setup->hold;
    const char *method = bite_plan_hold_method(setup);
    hold->weakest = -1;
    hold->worst_pass = -1;
    hold->utilization = hold->chance = hold->cure = hold->tape = hold->force = hold->needs =
        (double)NAN;
    hold->failure_mode = "";
    if (method == NULL) {
        return BITE_OK;
    }
    bite_status status = bite_library_record(job->library, BITE_HOLDS, method, &hold->hold, error);
    status = status != BITE_OK ? status : find_layers(job, hold, error);
    if (status == BITE_OK && bite_item_word(hold->hold, "sort", 0) != SORT_CLAMP) {
        plan_break_through(setup);
    }
    return status;
}

bite_status bite_plan_workholding(bite_job *job, bite_error *error)
{
    bite_status status = BITE_OK;
    for (uint32_t i = 0; i < BITE_SETUPS_MAX && status == BITE_OK; i++) {
        status = find_hold(job, &job->setup_plan[i], error);
    }
    bite_plan_hold_areas(job);
    job->hold = job->setup_plan[0].hold;
    return status;
}

int bite_plan_is_clamped(const bite_planned_setup *setup)
{
    const bite_item_record *hold = setup->hold.hold;
    return hold != NULL && bite_item_word(hold, "sort", 0) == SORT_CLAMP;
}

/* Checks that the solvent that releases the bond does not attack the part. */
static bite_status check_solvent(bite_job *job, bite_planned_hold *hold, bite_error *error)
{
    const char *name = bite_item_text(hold->hold, "solvent");
    const bite_item_record *fluid = NULL;
    bite_fluid_rating result;
    if (name[0] == 0) {
        return BITE_OK;
    }
    bite_status status = bite_fluid_find(job->library, name, &fluid, error);
    hold->solvent = fluid;
    status = status != BITE_OK ? status
                               : bite_fluid_rate(job->library, fluid, job->grade,
                                                 (int)job->annealed, &result, error);
    if (status == BITE_OK && result.rating == BITE_RATED_NO) {
        hold->refused = 1;
        const bite_remark_value values[] = {bite_remark_text(hold->hold->title),
                                            bite_remark_text(fluid->title),
                                            bite_remark_text(job->grade->record.name)};
        bite_plan_remark_from(job, BITE_REMARK_RELEASE_SOLVENT, BITE_CARE, result.source, values,
                              3);
    }
    return status;
}

/* A step that names a refused fluid is marked, wherever it is shown. */
static bite_status refuse_step(bite_job *job, const char **step, bite_error *error)
{
    size_t count = 0;
    bite_status status = bite_library_size(job->library, BITE_FLUIDS, &count, error);
    for (size_t i = 0; status == BITE_OK && i < count; i++) {
        bite_item item;
        bite_fluid_rating result;
        const bite_item_record *fluid = NULL;
        status = bite_library_item(job->library, BITE_FLUIDS, i, &item, error);
        if (status != BITE_OK || strstr(*step, item.title) == NULL) {
            continue;
        }
        status = bite_fluid_find(job->library, item.name, &fluid, error);
        status = status != BITE_OK ? status
                                   : bite_fluid_rate(job->library, fluid, job->grade,
                                                     (int)job->annealed, &result, error);
        if (status == BITE_OK && result.rating == BITE_RATED_NO) {
            *step = bite_plan_text(job, "NO, not on %s: %s", job->grade->record.name, *step);
            return BITE_OK;
        }
    }
    return status;
}

/* The steps for putting the part on and for taking it off. */
static bite_status plan_steps(bite_job *job, bite_planned_hold *hold, bite_error *error)
{
    bite_status status = BITE_OK;
    hold->mounting_count = split_steps(job, bite_item_text(hold->hold, "put_on"), hold->mounting);
    hold->release_count = split_steps(job, bite_item_text(hold->hold, "release"), hold->release);
    for (size_t i = 0; status == BITE_OK && i < hold->mounting_count; i++) {
        status = refuse_step(job, &hold->mounting[i], error);
    }
    for (size_t i = 0; status == BITE_OK && i < hold->release_count; i++) {
        status = refuse_step(job, &hold->release[i], error);
    }
    return status;
}

static bite_status plan_setup(bite_job *job, bite_planned_setup *setup, bite_error *error)
{
    bite_planned_hold *hold = &setup->hold;
    if (hold->hold == NULL) {
        bite_plan_remark(job, BITE_REMARK_NO_WORKHOLDING, NULL, 0);
        return BITE_OK;
    }
    bite_status status = check_solvent(job, hold, error);
    if (status != BITE_OK) {
        return status;
    }
    status = plan_steps(job, hold, error);
    if (status != BITE_OK) {
        return status;
    }
    uint32_t sort = bite_item_word(hold->hold, "sort", 0);
    if (sort == SORT_CLAMP) {
        bite_plan_clamp(job, setup);
    } else {
        bite_plan_bond(job, setup);
    }
    if (sort == SORT_VACUUM) {
        bite_plan_vacuum(job, setup);
    }
    bite_plan_glue(job, setup);
    if (sort == SORT_BOND) {
        bite_plan_adhesion(job, setup);
    }
    return BITE_OK;
}

/* Whether a hold is weaker than another: refused or struck by a cut, then by chance, then by
 * utilization. */
static int is_weaker(const bite_planned_hold *a, const bite_planned_hold *b)
{
    uint32_t bad_a = a->refused + a->strikes;
    uint32_t bad_b = b->refused + b->strikes;
    if (bad_a != bad_b) {
        return bad_a > bad_b;
    }
    if (a->chance > b->chance || a->chance < b->chance) {
        return a->chance > b->chance;
    }
    return a->utilization > b->utilization || (isnan(b->utilization) && !isnan(a->utilization));
}

bite_status bite_plan_holding(bite_job *job, bite_error *error)
{
    bite_status status = BITE_OK;
    uint32_t weakest = 0;
    for (uint32_t i = 0; i < job->setups && status == BITE_OK; i++) {
        status = plan_setup(job, &job->setup_plan[i], error);
        if (is_weaker(&job->setup_plan[i].hold, &job->setup_plan[weakest].hold)) {
            weakest = i;
        }
    }
    job->hold = job->setup_plan[weakest].hold;
    job->hold_setup = weakest + 1;
    return status;
}
