/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What every pass sweeps, against neighbouring parts, screws, clamps and tabs. */
#include "core/job/clearance_plan.h"
#include "core/job/job_file.h"
#include "core/job/obstacles.h"
#include "core/job/outline_reach.h"
#include "core/job/pass_sweep.h"
#include "core/job/plan_text.h"
#include "core/job/positions.h"
#include "core/job/remarks.h"
#include "core/job/setup_plan.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

static const double hair = 1e-9;
static const char neighbour[] = "the neighbouring part";

static int any_clamped(const bite_job *job, uint32_t clamp)
{
    for (uint32_t i = 0; i < job->setups; i++) {
        if (bite_plan_clamp_of(&job->setup_plan[i]) == clamp) {
            return 1;
        }
    }
    return 0;
}

/* What a pass sweeps into. obstacle NULL: the neighbouring part. */
static void report(bite_job *job, size_t index, const bite_section *obstacle, double gap,
                   const char *thing)
{
    const bite_planned_pass *pass = &job->passes[index];
    int part = obstacle == NULL;
    if (!(gap < -hair) ||
        (part && bite_pass_rounds_part(job, job->file_data.passes[index], pass->work))) {
        return; /* the gap that the job states is reported with the blank */
    }
    job->stock.strikes_parts |= part ? 1u : 0u;
    job->stock.strikes_hold |= part ? 0u : 1u;
    const bite_remark_value values[] = {bite_remark_text(pass->title), bite_remark_number(-gap),
                                        bite_remark_text(thing)};
    bite_plan_remark_from(job, BITE_REMARK_SWEEPS_INTO, part ? BITE_CARE : BITE_DANGER,
                          "common-practice", values, 3);
}

/* All that a pass sweeps against one thing: an obstacle, or NULL for the neighbouring parts.
 * Returns 0 if what it sweeps is not known. */
static int check_thing(bite_job *job, size_t index, const bite_section *obstacle)
{
    bite_planned_pass *pass = &job->passes[index];
    bite_positions at;
    bite_swept_area swept;
    double least = (double)NAN;
    size_t position = 0;
    size_t k = 0;
    (void)bite_positions_read(bite_job_file_text(job->file_data.passes[index], "at"), &at, NULL);
    int blank = pass->work == BITE_WORK_FACE && at.count == 0; /* a face is that of all parts */
    for (; bite_pass_sweep(job, index, &at, k, &swept); k++) {
        size_t nearest = 0;
        double gap = obstacle != NULL ? bite_obstacle_gap(job, index, &swept, obstacle, &nearest)
                     : blank          ? (double)NAN
                                      : bite_neighbour_gap(job, &swept);
        if (gap < least || (isnan(least) && !isnan(gap))) {
            least = gap;
            position = nearest;
        }
    }
    if (!isnan(least)) {
        const char *thing =
            obstacle == NULL ? neighbour : bite_obstacle_name(job, obstacle, position);
        report(job, index, obstacle, least, thing);
        if (!(pass->clearance <= least)) {
            pass->clearance = least;
            pass->nearest = thing;
        }
    }
    return k > 0;
}

static void check_pass(bite_job *job, size_t index, char *unknown, size_t size)
{
    size_t used = strlen(unknown);
    int any = check_thing(job, index, NULL);
    for (size_t i = 0; i < job->file_data.obstacle_count; i++) {
        const bite_section *obstacle = job->file_data.obstacles[i];
        double below = bite_job_file_number(obstacle, "below");
        if (bite_obstacle_is_there(job, index, obstacle) && !(job->passes[index].depth <= below)) {
            (void)check_thing(job, index, obstacle);
        }
    }
    if (!any && used + 1 < size) {
        (void)snprintf(unknown + used, size - used, "%s\"%.60s\"", used > 0 ? ", " : "",
                       job->passes[index].title);
    }
}

/* Only cutting free leaves tabs: another pass round the part that goes below their upper edge cuts
 * them. */
static void check_tabs(bite_job *job)
{
    for (size_t i = 0; i < job->pass_count; i++) {
        const bite_planned_pass *pass = &job->passes[i];
        const bite_planned_setup *setup = bite_plan_setup(job, pass->setup);
        double part = bite_plan_setup_height(job, setup);
        double into = pass->depth - (part - bite_plan_tab_height(job, setup));
        if (bite_plan_clamp_of(setup) == BITE_CLAMP_TABS && pass->work != BITE_WORK_FREE &&
            pass->work != BITE_WORK_CHAMFER && into > hair &&
            bite_pass_rounds_part(job, job->file_data.passes[i], pass->work)) {
            job->stock.strikes_hold = 1;
            const bite_remark_value values[] = {bite_remark_text(pass->title),
                                                bite_remark_number(into)};
            bite_plan_remark(job, BITE_REMARK_CUTS_TABS, values, 2);
        }
    }
}

bite_status bite_plan_clearance(bite_job *job, bite_error *error)
{
    char unknown[600] = "";
    (void)error;
    for (size_t i = 0; i < job->pass_count; i++) {
        job->passes[i].clearance = (double)NAN;
        job->passes[i].nearest = "";
        check_pass(job, i, unknown, sizeof unknown);
    }
    check_tabs(job);
    if (any_clamped(job, BITE_CLAMP_SCREWS) && job->file_data.obstacle_count == 0) {
        bite_plan_remark(job, BITE_REMARK_SCREWS_NOT_PLACED, NULL, 0);
    } else if (job->file_data.obstacle_count > 0 && unknown[0] != 0) {
        const bite_remark_value value = bite_remark_text(bite_plan_text(job, "%s", unknown));
        bite_plan_remark(job, BITE_REMARK_PASSES_NOT_PLACED, &value, 1);
    }
    return BITE_OK;
}
