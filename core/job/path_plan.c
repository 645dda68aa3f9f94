/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What of the path of a pass has to be entered besides its feed, depth and width: the steps over
 * the depth, which never exceed the feature, direction, step-over, the stock left for a finishing
 * pass, the arc on and off a wall, and where the cone of a chamfer mill runs.
 */
#include "core/job/path_plan.h"
#include "core/base/text.h"
#include "core/job/entry_plan.h"
#include "core/job/job_file.h"
#include "core/job/remarks.h"
#include "core/job/side_width.h"
#include "core/job/thread_plan.h"
#include "core/library/collection.h"
#include <math.h>

static const double lead_over_room = 0.25; /* of what a pocket leaves beside the tool */

int bite_plan_is_conventional(const bite_job *job)
{
    const bite_item_record *record = NULL;
    const char *name = bite_job_file_text(job->file_data.machine, "name");
    return name != NULL &&
           bite_library_record(job->library, BITE_MACHINES, name, &record, NULL) == BITE_OK &&
           bite_item_is_yes(record, "backlash");
}

double bite_plan_step_over(const bite_planned_pass *pass)
{
    const bite_cut *cut = &pass->answer->full;
    int rows = pass->work == BITE_WORK_FACE || pass->work == BITE_WORK_POCKET ||
               pass->work == BITE_WORK_ROUGH;
    if (!rows) {
        return (double)NAN;
    }
    return isnan(cut->width) || cut->width >= cut->diameter ? BITE_POCKET_STEP * cut->diameter
                                                            : cut->width;
}

/* The settings are those of the deepest step: the depth of one is rounded to what a control takes,
 * so that the last step is the rest. */
static void set_steps(bite_planned_pass *pass)
{
    double whole = pass->work == BITE_WORK_CHAMFER ? pass->answer->full.depth : pass->depth;
    double before = (pass->passes - 1.0) * pass->answer->full.depth;
    if (pass->passes > 1 && before < whole) {
        pass->step_down = pass->answer->full.depth;
        pass->last_step = whole - before;
    } else {
        pass->step_down = pass->last_step = whole / pass->passes;
    }
}

static int opens_wall(uint32_t work)
{
    return work == BITE_WORK_ROUGH || work == BITE_WORK_POCKET || work == BITE_WORK_SLOT ||
           work == BITE_WORK_CONTOUR || work == BITE_WORK_BORE;
}

static int is_named(const bite_section *section, const char *wanted)
{
    const char *after = bite_job_file_text(section, "after");
    char name[64];
    for (size_t n = 0; bite_job_file_name(after, n, name, sizeof name); n++) {
        if (bite_text_equals(name, wanted)) {
            return 1;
        }
    }
    return 0;
}

/* The pass whose wall a finishing pass cuts: the one that it names as coming before it, else the
 * last above it in the job file. Its own index: none. */
static size_t opener_of(const bite_job *job, size_t finish)
{
    const bite_section *section = job->file_data.passes[finish];
    int names = bite_job_file_text(section, "after") != NULL;
    size_t found = finish;
    for (size_t i = 0; i < finish; i++) {
        const bite_planned_pass *pass = &job->passes[i];
        const bite_section *other = job->file_data.passes[i];
        int leaves_wall = pass->setup == job->passes[finish].setup && opens_wall(pass->work);
        int before = names ? is_named(section, pass->name) : other->line <= section->line;
        int last = found == finish || other->line > job->file_data.passes[found]->line;
        found = leaves_wall && before && last ? i : found;
    }
    return found;
}

static void set_allowance(bite_job *job, size_t finish)
{
    size_t open = opener_of(job, finish);
    double width = job->passes[finish].answer->full.width;
    const bite_section *section = job->file_data.passes[open];
    for (size_t i = 0; i < finish && open != finish; i++) { /* all stages of that section */
        bite_planned_pass *pass = &job->passes[i];
        double error = pass->answer->result.values[BITE_WALL_ERROR].value;
        if (job->file_data.passes[i] != section || !opens_wall(pass->work)) {
            continue;
        }
        pass->path.allowance = width;
        pass->path.allowance_for = finish;
        if (error + pass->answer->full.runout > width) { /* it cuts into the finished wall */
            const bite_remark_value values[] = {
                bite_remark_text(pass->title), bite_remark_number(width), bite_remark_number(error),
                bite_remark_text(job->passes[finish].title)};
            bite_plan_remark(job, BITE_REMARK_FINISH_ALLOWANCE, values, 4);
        }
    }
}

/* An arc begins clear of the wall if its radius is more than the lap takes. */
static int is_arc(const bite_planned_pass *pass)
{
    double width = pass->answer->full.width;
    return !(pass->path.lead <= (isnan(width) ? 0.0 : width));
}

/* A side cut runs onto its wall and off it on an arc, so that no mark is left where it starts; in a
 * pocket the arc has to fit beside the tool. */
static void set_lead(bite_job *job, size_t index)
{
    bite_planned_pass *pass = &job->passes[index];
    double diameter = pass->answer->full.diameter;
    int side =
        pass->work == BITE_WORK_FINISH || (pass->work == BITE_WORK_CONTOUR && !isnan(pass->width));
    if (side) {
        const bite_section *inside =
            pass->work == BITE_WORK_FINISH ? job->file_data.passes[opener_of(job, index)] : NULL;
        double across = bite_job_file_number(inside, "across");
        double room = isnan(across) ? INFINITY : lead_over_room * fmax(0.0, across - diameter);
        pass->path.lead = fmin(bite_side_lead(diameter), room);
        pass->path.lead = is_arc(pass) ? pass->path.lead : (double)NAN;
    }
}

/* A finished wall that the tool cannot run onto by an arc, and what to do instead. */
static void check_lead(bite_job *job, size_t index)
{
    const bite_planned_pass *pass = &job->passes[index];
    double across = bite_job_file_number(job->file_data.passes[opener_of(job, index)], "across");
    double width = pass->answer->full.width;
    double diameter = pass->answer->full.diameter;
    if (pass->work == BITE_WORK_FINISH && isnan(pass->path.lead)) {
        const bite_remark_value values[] = {
            bite_remark_text(pass->title),
            bite_remark_number(lead_over_room * fmax(0.0, across - diameter)),
            bite_remark_number(width), bite_remark_number(across - width / lead_over_room),
            bite_remark_number(bite_side_lead(diameter))};
        bite_plan_remark(job, BITE_REMARK_NO_LEAD, values, 5);
    }
}

/* The lower end of the chamfer is on the wall, where the cone is tip/2 + below tan(angle) wide. */
static void set_cone(bite_planned_pass *pass)
{
    const bite_cut *cut = &pass->answer->full;
    if (pass->work == BITE_WORK_CHAMFER) {
        pass->path.tip_depth = cut->depth + cut->tip_below;
        pass->path.tip_offset = 0.5 * cut->tip_diameter + cut->tip_below * tan(cut->taper);
    }
}

void bite_plan_path(bite_job *job, size_t index)
{
    bite_planned_pass *pass = &job->passes[index];
    uint32_t conventional = (uint32_t)bite_plan_is_conventional(job);
    const double none = (double)NAN;
    pass->path = (bite_planned_path){conventional, none, none, 0, none, none, none};
    set_steps(pass);
    bite_plan_entry_path(pass);
    if (pass->work == BITE_WORK_THREAD_MILL) {
        bite_plan_thread_path(job, pass);
    }
    pass->path.step_over = bite_plan_step_over(pass);
    set_lead(job, index);
    set_cone(pass);
}

bite_status bite_plan_paths(bite_job *job, bite_error *error)
{
    (void)error;
    for (size_t i = 0; i < job->pass_count; i++) {
        bite_plan_path(job, i);
        bite_plan_entry_check(job, &job->passes[i]);
    }
    for (size_t i = 0; i < job->pass_count; i++) {
        if (job->passes[i].work == BITE_WORK_FINISH) {
            set_allowance(job, i);
            check_lead(job, i);
        }
    }
    return BITE_OK;
}
