/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The features of a part as passes: the work, depth and width of each. */
#include "core/job/feature_plan.h"
#include "core/base/error.h"
#include "core/job/blank_plan.h"
#include "core/job/entry_hole.h"
#include "core/job/floor_depth.h"
#include "core/job/hole_plan.h"
#include "core/job/job_file.h"
#include "core/job/job_file_schema.h"
#include "core/job/outline_reach.h"
#include "core/job/plan_faults.h"
#include "core/job/plan_text.h"
#include "core/job/positions.h"
#include "core/job/remarks.h"
#include "core/job/setup_plan.h"
#include "core/job/stage_plan.h"
#include "core/job/thread_way.h"
#include "core/job/tool_plan.h"
#include "core/names/registry.h"
#include <math.h>

/* A depth in place of none, m, until the job is refused. */
static const double least_depth = 1e-6;

/* Material removed from the face of a setup at the thick end of the sheet, m; an edge that is up
 * states its depth. */
static double facing_depth(const bite_job *job, uint32_t setup)
{
    uint32_t side = bite_plan_setup(job, setup)->side;
    return side == BITE_SIDE_BOTTOM ? job->stock.removal.thick_below
           : side == BITE_SIDE_TOP  ? job->stock.removal.thick_top
                                    : 0.0;
}

/* The depth of a face or thin section that the stock and the part leave to it, m; NaN: they say
 * nothing of it. */
static double removed_by(const bite_job *job, uint32_t work, uint32_t setup)
{
    return work == BITE_WORK_FACE                                ? facing_depth(job, setup)
           : work == BITE_WORK_POCKET || work == BITE_WORK_ROUGH ? job->thickness - job->thinnest
                                                                 : (double)NAN;
}

static double depth_of(const bite_job *job, const bite_section *section, uint32_t work,
                       uint32_t setup)
{
    double depth = bite_job_file_number(section, "depth");
    if (!isnan(depth)) {
        return depth;
    }
    double removed = removed_by(job, work, setup);
    if (!isnan(removed)) {
        return fmax(removed, least_depth);
    }
    if (bite_work_needs_hole(work)) {
        return job->thickness;
    }
    const bite_planned_setup *in = bite_plan_setup(job, setup);
    if (!bite_plan_lies_flat(in)) {
        return bite_plan_setup_height(job, in) + in->hold.break_through;
    }
    /* a through cut: down into the tape, from the thick end of a sheet that is not faced */
    double through =
        (job->stock.skim > 0.0 ? job->thickness : fmax(job->thickness, job->stock.thick)) +
        in->hold.break_through;
    return fmin(through, bite_job_file_deepest(work, job->stock.thick));
}

static void set_pass(bite_job *job, const bite_section *section, bite_planned_pass *pass)
{
    double setup = bite_job_file_number(section, "setup");
    double count = bite_job_file_number(section, "count");
    const char *title = bite_job_file_text(section, "title");
    pass->name = section->tail;
    pass->work = bite_job_file_word(section, "work", BITE_WORK_SLOT);
    pass->work = pass->work == BITE_WORK_THREAD ? bite_plan_thread_way(job, section) : pass->work;
    pass->title = title == NULL ? bite_work_title(pass->work) : title;
    pass->setup = isnan(setup) ? 1 : (uint32_t)setup;
    bite_positions positions;
    (void)bite_positions_read(bite_job_file_text(section, "at"), &positions, NULL); /* checked */
    pass->count = !isnan(count)         ? (uint32_t)count
                  : positions.count > 0 ? (uint32_t)positions.count
                                        : 1;
    pass->passes = 1;
    pass->tool = UINT32_MAX; /* not selected yet */
    pass->depth = depth_of(job, section, pass->work, pass->setup);
    pass->width = bite_job_file_number(section, "width");
    pass->inside_radius = bite_plan_inside_radius(job, section, pass->work);
    pass->corner_from = pass->corner_to = pass->area = (double)NAN;
    pass->hold_utilization = (double)NAN;
    pass->first_leaves = pass->spring_leaves = (double)NAN;
    pass->slowed = 1.0;
    pass->hole.pitch = pass->hole.share = pass->hole.diameter = (double)NAN;
    pass->hole.depth = pass->hole.point = pass->hole.pilot = (double)NAN;
    int inside = pass->work == BITE_WORK_POCKET || pass->work == BITE_WORK_ROUGH ||
                 pass->work == BITE_WORK_BORE;
    if (inside && section->value_count > 0 && isnan(bite_job_file_number(section, "across"))) {
        const bite_remark_value value = bite_remark_text(pass->title);
        bite_plan_remark(job, BITE_REMARK_FEATURE_SIZE, &value, 1);
    }
}

/* The passes of a job that names none: its faces, its thin section, and cutting free. They have
 * empty sections of their own. */
static void make_default_passes(bite_job *job)
{
    static const bite_section face_top = {"pass.face", "face", 0, 0, NULL};
    static const bite_section face_below = {"pass.face-below", "face-below", 0, 0, NULL};
    static const bite_section pocket = {"pass.pocket", "pocket", 0, 0, NULL};
    static const bite_section cut_free = {"pass.cut-free", "cut-free", 0, 0, NULL};
    const struct {
        const bite_section *section;
        uint32_t work;
        uint32_t setup;
        int wanted;
    } defaults[] = {
        {&face_below, BITE_WORK_FACE, 1, job->stock.removal.thick_below > 0.0},
        {&face_top, BITE_WORK_FACE, 2, job->stock.removal.thick_top > 0.0},
        {&pocket, BITE_WORK_POCKET, 2, !isnan(job->thinnest) && job->thinnest < job->thickness},
        {&cut_free, BITE_WORK_FREE, 2, 1},
    };
    int two = job->stock.removal.thick_below > 0.0;
    for (uint32_t i = 0; i < 2 && two; i++) {
        bite_planned_setup *setup = &job->setup_plan[i];
        setup->side = setup->side_given ? setup->side : i == 0 ? BITE_SIDE_BOTTOM : BITE_SIDE_TOP;
    }
    for (size_t i = 0; i < sizeof defaults / sizeof *defaults; i++) {
        if (defaults[i].wanted) {
            bite_planned_pass *pass = &job->passes[job->pass_count];
            job->file_data.passes[job->pass_count++] = defaults[i].section;
            set_pass(job, defaults[i].section, pass);
            pass->work = defaults[i].work;
            pass->inside_radius = bite_plan_inside_radius(job, defaults[i].section, pass->work);
            pass->title = bite_work_title(pass->work);
            pass->setup = two ? defaults[i].setup : 1; /* the bottom is up in the first of two */
            pass->depth = depth_of(job, NULL, pass->work, pass->setup);
        }
    }
    job->file_data.pass_count = job->pass_count;
    bite_plan_remark(job, BITE_REMARK_DEFAULT_PASSES, NULL, 0);
}

/* If the job file leaves the sheet open, a pass may be deeper than the sheet that was chosen. */
static void check_depths(bite_job *job)
{
    for (size_t i = 0; i < job->pass_count; i++) {
        const bite_planned_pass *pass = &job->passes[i];
        const bite_planned_setup *setup = bite_plan_setup(job, pass->setup);
        if (bite_plan_lies_flat(setup) &&
            pass->depth > bite_job_file_deepest(pass->work, job->stock.thick) * (1.0 + 1e-9)) {
            char thick[40];
            bite_error error = BITE_ERROR_INIT;
            bite_error_set(
                &error, BITE_BAD_FILE, "the pass is deeper than the sheet, which is up to %s thick",
                bite_plan_quantity(job, job->stock.thick, BITE_KIND_LENGTH, thick, sizeof thick));
            bite_error_key(&error, "depth");
            bite_error_hint(&error, "depth is that of the whole feature, from its own face");
            bite_plan_fault(job, job->file_data.passes[i], &error);
        }
    }
}

/* A face of which nothing is removed, and a thin section as thick as the part, would be a pass
 * through air. */
static void check_removal(bite_job *job)
{
    for (size_t i = 0; i < job->pass_count; i++) {
        const bite_planned_pass *pass = &job->passes[i];
        const bite_section *section = job->file_data.passes[i];
        int face = pass->work == BITE_WORK_FACE;
        if (isnan(bite_job_file_number(section, "depth")) &&
            removed_by(job, pass->work, pass->setup) <= 0.0) {
            bite_error error = BITE_ERROR_INIT;
            bite_error_set(&error, BITE_BAD_FILE,
                           face ? "nothing is left to face on this side"
                                : "the part is not thinner anywhere");
            bite_error_key(&error, "work");
            bite_error_hint(&error, face ? "state the depth, or in [stock] which faces are cut and "
                                           "how thick the stock is; or omit the pass"
                                         : "state the depth, or thinnest of [part]");
            bite_plan_fault(job, section, &error);
        }
    }
}

/* A slot, pocket or bore cannot be narrower than its tool. */
static void check_width(bite_job *job, const bite_section *section, const bite_planned_pass *pass)
{
    double across = bite_job_file_number(section, "across");
    double diameter = job->tools[pass->tool].diameter;
    int inside = pass->work == BITE_WORK_SLOT || pass->work == BITE_WORK_POCKET ||
                 pass->work == BITE_WORK_ROUGH || pass->work == BITE_WORK_BORE;
    char wide[40];
    if (inside && diameter > across * (1.0 + 1e-9)) {
        bite_error error = BITE_ERROR_INIT;
        bite_error_set(&error, BITE_BAD_FILE,
                       "the tool, %.60s, is wider than the feature, which is %s across",
                       job->tools[pass->tool].name,
                       bite_plan_quantity(job, across, BITE_KIND_LENGTH, wide, sizeof wide));
        bite_error_key(&error, "across");
        bite_error_hint(&error, "name a smaller tool, or add one to at_hand");
        bite_plan_fault(job, section, &error);
    }
}

/* The depth of a hole is that of its full diameter; the drill point goes deeper, by R/tan(half of
 * the point angle). */
static void add_point(bite_job *job, const bite_section *section, bite_planned_pass *pass)
{
    double radius = 0.5 * job->tools[pass->tool].diameter;
    double point = radius / tan(0.5 * bite_plan_point_angle(job, pass));
    double stated = bite_job_file_number(section, "depth");
    const bite_planned_setup *setup = bite_plan_setup(job, pass->setup);
    double part = bite_plan_setup_height(job, setup);
    int blind = stated < part;
    double below = isnan(stated) ? setup->hold.break_through + point : stated + point - part;
    if (pass->work != BITE_WORK_DRILL) {
        return;
    }
    pass->depth += point;
    const bite_remark_value title = bite_remark_text(pass->title);
    if (blind && below > 0.0) {
        const bite_remark_value values[] = {title, bite_remark_number(point),
                                            bite_remark_number(below)};
        bite_plan_remark(job, BITE_REMARK_DRILL_THROUGH, values, 3);
    } else if (!blind && !(below <= setup->hold.tape)) {
        const bite_remark_value values[] = {title, bite_remark_number(below),
                                            bite_remark_number(point)};
        bite_plan_remark(job, BITE_REMARK_DRILL_BELOW, values, 3);
    }
}

/* The passes that go beyond the part's edge first, those that cut it free before others: they
 * decide how far apart the parts are, and so the blank and the area that holds the parts during all
 * other passes. */
static uint32_t stage_of(const bite_job *job, const bite_section *section, uint32_t work)
{
    return work == BITE_WORK_FREE                                                               ? 0
           : bite_pass_rounds_part(job, section, work) || bite_pass_is_open(job, section, work) ? 1
                                                                                                : 2;
}

static void plan_tools(bite_job *job, bite_tool_lists *lists)
{
    for (uint32_t stage = 0; stage < 3; stage++) {
        for (size_t i = 0; i < job->pass_count; i++) {
            const bite_section *section = job->file_data.passes[i];
            if (stage_of(job, section, job->passes[i].work) == stage) {
                bite_plan_tool(job, lists, section, &job->passes[i]);
            }
        }
        if (stage < 2) {
            bite_plan_blanks(job);
        }
    }
    bite_plan_blank_remarks(job);
}

/* Counts the setups. One alone is the first, whatever its number. */
static void number_setups(bite_job *job)
{
    uint32_t first = BITE_SETUPS_MAX;
    for (size_t i = 0; i < job->pass_count; i++) {
        uint32_t setup = job->passes[i].setup;
        job->setups = setup > job->setups ? setup : job->setups;
        first = setup < first ? setup : first;
    }
    if (first == job->setups && first > 1) {
        job->setup_plan[0] = job->setup_plan[first - 1];
        job->setup_plan[0].number = job->setups = 1;
    }
    for (size_t i = 0; i < job->pass_count && job->setups == 1; i++) {
        job->passes[i].setup = 1;
    }
}

bite_status bite_plan_features(bite_job *job, bite_error *error)
{
    bite_tool_lists lists;
    size_t most = job->file_data.pass_count > 8 ? job->file_data.pass_count : 8;
    most *= BITE_STAGES_MOST + 1; /* and a hole to enter by */
    job->passes = bite_arena_alloc(job->arena, most, sizeof *job->passes);
    job->tools = bite_arena_alloc(job->arena, most, sizeof *job->tools);
    if (job->passes == NULL || job->tools == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a plan");
    }
    for (size_t i = 0; i < job->file_data.pass_count; i++) {
        set_pass(job, job->file_data.passes[i], &job->passes[job->pass_count++]);
    }
    if (job->pass_count == 0) {
        make_default_passes(job);
    }
    if (!bite_plan_tool_lists(job, &lists)) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a plan");
    }
    number_setups(job);
    bite_plan_floor_depths(job);
    check_depths(job);
    check_removal(job);
    bite_plan_cut_away(job);
    plan_tools(job, &lists);
    bite_status status = bite_plan_stages(job, &lists, error);
    if (status != BITE_OK) {
        return status;
    }
    bite_plan_entry_holes(job);
    bite_plan_holes(job);
    for (size_t i = 0; i < job->pass_count; i++) {
        check_width(job, job->file_data.passes[i], &job->passes[i]);
        add_point(job, job->file_data.passes[i], &job->passes[i]);
    }
    return bite_plan_status(job, error);
}
