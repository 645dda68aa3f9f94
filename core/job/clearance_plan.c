/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What every pass sweeps, against neighbouring parts, screws, clamps and tabs. */
#include "core/job/clearance_plan.h"
#include "core/job/job_file.h"
#include "core/job/obstacles.h"
#include "core/job/outline_reach.h"
#include "core/job/pass_sweep.h"
#include "core/job/plan_text.h"
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

static void report_meeting(bite_job *job, const char *title, double by, const char *thing)
{
    const bite_remark_value values[] = {bite_remark_text(title), bite_remark_number(by),
                                        bite_remark_text(thing)};
    job->stock.strikes_parts = 1;
    bite_plan_remark_from(job, BITE_REMARK_SWEEPS_INTO, BITE_CARE, "common-practice", values, 3);
}

/* What a pass sweeps into. part: nonzero: it is the neighbouring part. */
static void report(bite_job *job, size_t index, int part, double gap, const char *thing)
{
    const bite_planned_pass *pass = &job->passes[index];
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

/* All that a pass sweeps against one thing: an obstacle, or beyond them the neighbouring parts.
 * Returns 0 if what it sweeps is not known. */
static int check_thing(bite_job *job, size_t index, size_t obstacle)
{
    bite_planned_pass *pass = &job->passes[index];
    bite_swept_area swept;
    double least = (double)NAN;
    size_t position = 0;
    size_t k = 0;
    int part = obstacle >= job->file_data.obstacle_count;
    for (; bite_pass_sweep(job, index, k, &swept); k++) {
        size_t nearest = 0;
        double gap = !part ? bite_obstacle_gap(job, index, &swept, obstacle, &nearest)
                     : pass->work == BITE_WORK_FACE ? (double)NAN /* it is that of all parts */
                                                    : bite_neighbour_gap(job, &swept);
        if (gap < least || (isnan(least) && !isnan(gap))) {
            least = gap;
            position = nearest;
        }
    }
    if (!isnan(least)) {
        const char *thing = part ? neighbour : bite_obstacle_name(job, obstacle, position);
        report(job, index, part, least, thing);
        if (!(pass->clearance <= least)) {
            pass->clearance = least;
            pass->nearest = thing;
        }
    }
    return k > 0;
}

/* A boss, which the passes round it leave standing: another pass from the same side must not cut
 * into it, except within it, as a hole in its top, and its tool, or that of the path round
 * it, must pass between boss and wall. */
static void check_boss(bite_job *job, size_t index, size_t position, const bite_round_area *boss)
{
    const bite_planned_pass *round = &job->passes[index];
    uint32_t side = bite_plan_setup(job, round->setup)->side;
    for (size_t i = 0; i < job->pass_count; i++) {
        const bite_planned_pass *pass = &job->passes[i];
        bite_swept_area swept;
        if (pass->work == BITE_WORK_FACE || bite_pass_rounds_boss(job->file_data.passes[i]) ||
            bite_plan_setup(job, pass->setup)->side != side) {
            continue;
        }
        for (size_t k = 0; bite_pass_sweep(job, i, k, &swept); k++) {
            bite_swept_area path;
            int around = swept.hollow && bite_round_area_inside(&swept.outer, boss) > 0.0;
            double lane = bite_round_area_inside(&swept.outer, boss);
            double gap = around ? fmin(0.0, lane - job->tools[pass->tool].diameter)
                                : bite_swept_area_gap(&swept, boss);
            if (gap < -hair && bite_round_area_inside(boss, &swept.outer) < -hair) {
                report_meeting(job, pass->title, -gap,
                               bite_plan_text(job, "the boss of \"%.60s\"", round->title));
            }
            double room = around && bite_pass_sweep(job, index, position, &path)
                              ? bite_round_area_inside(&swept.outer, &path.outer)
                              : 0.0;
            if (room < -hair) {
                report_meeting(job, round->title, -room,
                               bite_plan_text(job, "the wall of \"%.60s\"", pass->title));
            }
        }
    }
}

static void check_bosses(bite_job *job)
{
    for (size_t i = 0; i < job->pass_count; i++) {
        bite_round_area boss;
        for (size_t k = 0; bite_pass_boss(job, i, k, &boss); k++) {
            check_boss(job, i, k, &boss);
        }
    }
}

static void check_pass(bite_job *job, size_t index, char *unknown, size_t size)
{
    size_t used = strlen(unknown);
    int any = check_thing(job, index, job->file_data.obstacle_count);
    for (size_t i = 0; i < job->file_data.obstacle_count; i++) {
        double below = bite_job_file_number(job->file_data.obstacles[i], "below");
        if (bite_obstacle_is_there(job, index, i) && !(job->passes[index].depth <= below)) {
            (void)check_thing(job, index, i);
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
    bite_status status = bite_plan_places(job, error);
    status = status != BITE_OK ? status : bite_plan_obstacles(job, error);
    if (status != BITE_OK) {
        return status;
    }
    for (size_t i = 0; i < job->pass_count; i++) {
        job->passes[i].clearance = (double)NAN;
        job->passes[i].nearest = "";
        check_pass(job, i, unknown, sizeof unknown);
    }
    check_bosses(job);
    check_tabs(job);
    if (any_clamped(job, BITE_CLAMP_SCREWS) && job->file_data.obstacle_count == 0) {
        bite_plan_remark(job, BITE_REMARK_SCREWS_NOT_PLACED, NULL, 0);
    } else if (job->file_data.obstacle_count > 0 && unknown[0] != 0) {
        const bite_remark_value value = bite_remark_text(bite_plan_text(job, "%s", unknown));
        bite_plan_remark(job, BITE_REMARK_PASSES_NOT_PLACED, &value, 1);
    }
    return BITE_OK;
}
