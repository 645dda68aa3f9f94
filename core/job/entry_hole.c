/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The holes by which tools are lowered into features.
 *
 * A hole must let the tool through, and its drill may go no deeper than the floor: the tip ends on
 * it, so that the cone is deepest where the tool does not cut, at its centre.
 */
#include "core/job/entry_hole.h"
#include "core/base/error.h"
#include "core/base/text.h"
#include "core/job/entry_plan.h"
#include "core/job/hole_plan.h"
#include "core/job/job_file.h"
#include "core/job/job_file_schema.h"
#include "core/job/plan_faults.h"
#include "core/job/plan_text.h"
#include "core/job/setup_plan.h"
#include "core/job/tool_plan.h"
#include "core/request/tap_drill.h"
#include <math.h>
#include <string.h>

static const double rounding = 1e-6; /* m */

static int is_hole(const bite_planned_pass *pass)
{
    return pass->work == BITE_WORK_DRILL || pass->work == BITE_WORK_BORE;
}

/* The depth of its tip, before the point is added to that of a drill. */
static double tip_of(const bite_job *job, const bite_planned_pass *hole)
{
    double radius = 0.5 * job->tools[hole->tool].diameter;
    return hole->depth + (hole->work == BITE_WORK_DRILL
                              ? radius / tan(0.5 * bite_plan_point_angle(job, hole))
                              : 0.0);
}

static int is_wide_enough(const bite_job *job, size_t hole, const bite_planned_pass *pass)
{
    return bite_plan_hole_width(job, hole) >= job->tools[pass->tool].diameter + rounding;
}

/* Whether another pass of the file makes a hole at the places of this one, which both state. */
static int is_there(const bite_job *job, size_t hole, size_t index)
{
    const bite_planned_pass *made = &job->passes[hole];
    const bite_planned_pass *pass = &job->passes[index];
    return is_hole(made) && made->setup == pass->setup &&
           bite_job_file_text(job->file_data.passes[hole], "at") != NULL &&
           bite_job_file_text(job->file_data.passes[index], "at") != NULL &&
           bite_plan_same_places(job, hole, index) && is_wide_enough(job, hole, pass) &&
           tip_of(job, made) >= pass->depth - rounding;
}

static void fault(bite_job *job, size_t index, const char *message, const char *hint)
{
    bite_error error = BITE_ERROR_INIT;
    bite_error_set(&error, BITE_BAD_FILE, "%s", message);
    bite_error_key(&error, "hole");
    bite_error_hint(&error, "%s", hint);
    bite_plan_fault(job, job->file_data.passes[index], &error);
}

static const char *length_text(bite_job *job, double metres)
{
    char text[40];
    return bite_plan_text(job, "%s",
                          bite_plan_quantity(job, metres, BITE_KIND_LENGTH, text, sizeof text));
}

/* The hole that the file names: wide and deep enough. */
static void check_named(bite_job *job, size_t hole, size_t index)
{
    const bite_planned_pass *made = &job->passes[hole];
    const bite_planned_pass *pass = &job->passes[index];
    double width = bite_plan_hole_width(job, hole);
    if (!is_hole(made) || made->setup > pass->setup) {
        fault(job, index, "the pass that hole names makes no hole before this one",
              "name a pass that drills or bores, in this setup or before");
    } else if (!is_wide_enough(job, hole, pass)) {
        fault(job, index,
              bite_plan_text(job, "the hole is %s wide, and the tool that is lowered into it %s",
                             length_text(job, width),
                             length_text(job, job->tools[pass->tool].diameter)),
              bite_plan_text(job, "drill one of at least %s, or leave hole out to have it added",
                             length_text(job, pass->entry.hole)));
    } else if (tip_of(job, made) < pass->depth - rounding) {
        fault(job, index,
              bite_plan_text(job, "the hole ends %s deep, and the tool is lowered to %s",
                             length_text(job, tip_of(job, made)), length_text(job, pass->depth)),
              "drill it deeper, or leave hole out to have it added");
    }
}

/* ---- the pass that is added ---- */

static void put_value(bite_field_value *values, uint32_t *count, const bite_field_value *value)
{
    if (value != NULL) {
        values[(*count)++] = *value;
    }
}

static int has_pass(const bite_job *job, const char *name)
{
    for (size_t i = 0; i < job->pass_count; i++) {
        if (bite_text_equals(job->passes[i].name, name)) {
            return 1;
        }
    }
    return 0;
}

/* The section of the added pass: the places of the feature, and a depth unless it goes through. */
static const bite_section *section_of(bite_job *job, const bite_section *feature, double depth)
{
    bite_section *section = bite_arena_alloc(job->arena, 1, sizeof *section);
    bite_field_value *values = bite_arena_alloc(job->arena, 3, sizeof *values);
    if (section == NULL || values == NULL) {
        job->out_of_memory = 1;
        return NULL;
    }
    *section = *feature;
    for (section->tail = bite_plan_text(job, "%s-hole", feature->tail);
         !job->out_of_memory && has_pass(job, section->tail);
         section->tail = bite_plan_text(job, "%s-hole", section->tail)) {
    }
    section->name = bite_plan_text(job, "pass.%s", section->tail);
    section->values = values;
    section->value_count = 0;
    put_value(values, &section->value_count, bite_section_value(feature, "at"));
    put_value(values, &section->value_count, bite_section_value(feature, "along"));
    if (!isnan(depth)) {
        const bite_field_value stated = {.field = bite_job_file_field("pass.", "depth"),
                                         .value = depth,
                                         .low = depth,
                                         .high = depth,
                                         .text = "",
                                         .source = "",
                                         .line = feature->line};
        put_value(values, &section->value_count, &stated);
    }
    return section;
}

/* The drill: the smallest that lets the tool through and fits the feature. */
static const char *drill_for(bite_job *job, size_t index)
{
    const bite_planned_pass *pass = &job->passes[index];
    const bite_section *section = job->file_data.passes[index];
    double across = bite_job_file_number(section, "across") - 2.0 * pass->leaves;
    const bite_item_record *drill = NULL;
    bite_status status =
        bite_drill_at_least(job->library, pass->entry.hole, isnan(across) ? INFINITY : across,
                            job->units != BITE_INCH, &drill, NULL);
    job->out_of_memory |= status == BITE_NO_MEMORY;
    return drill == NULL ? NULL : drill->name;
}

/* Of the same setup and count, with nothing that only a milled feature has. */
static void make_drill(const bite_planned_pass *feature, bite_planned_pass *drill)
{
    *drill = *feature;
    drill->work = BITE_WORK_DRILL;
    drill->stage = BITE_STAGE_WHOLE;
    drill->unfinished = 0;
    drill->leaves = 0.0;
    drill->width = drill->inside_radius = drill->area = (double)NAN;
    drill->corner_from = drill->corner_to = (double)NAN;
    memset(&drill->ways, 0, sizeof drill->ways);
}

/* Adds the pass behind the others; the order of work puts it before the feature. */
static void add_drill(bite_job *job, size_t index)
{
    const char *name = drill_for(job, index);
    bite_planned_pass *pass = &job->passes[index];
    const bite_section *feature = job->file_data.passes[index];
    if (name == NULL || job->pass_count + 1 >= BITE_PASSES_MAX) {
        return; /* the plan then asks for a hole */
    }
    bite_planned_pass *drill = &job->passes[job->pass_count];
    make_drill(pass, drill);
    size_t tools = job->tool_count;
    const char *tool = bite_plan_named_tool(job, name, drill);
    double point = tip_of(job, drill) - drill->depth;
    const bite_planned_setup *setup = bite_plan_setup(job, pass->setup);
    int through = pass->depth >= bite_plan_setup_height(job, setup) * (1.0 - 1e-9);
    double depth = through ? (double)NAN : pass->depth - point;
    const bite_section *section = depth < 10.0 * rounding ? NULL : section_of(job, feature, depth);
    if (section == NULL) { /* shallower than the point */
        job->tool_count = tools;
        return;
    }
    drill->depth = through ? pass->depth : depth;
    drill->name = section->tail;
    drill->title = bite_plan_text(job, "%s: hole to enter by", pass->title);
    bite_planned_tool *planned = &job->tools[drill->tool];
    planned->why = planned->why[0] != 0
                       ? planned->why
                       : "smallest of the table whose hole the tool can be lowered into";
    bite_plan_entry(job, section, tool, planned->diameter, drill);
    job->file_data.passes[job->pass_count++] = section;
    pass->hole.made_by = drill->name;
}

static void find_hole(bite_job *job, size_t index, size_t count)
{
    const char *named = bite_job_file_text(job->file_data.passes[index], "hole");
    for (size_t i = 0; i < count; i++) {
        int here = named != NULL ? bite_text_equals(job->passes[i].name, named)
                                 : i != index && is_there(job, i, index);
        if (here) {
            job->passes[index].hole.made_by = job->passes[i].name;
            if (named != NULL) {
                check_named(job, i, index);
            }
            return;
        }
    }
    add_drill(job, index);
}

void bite_plan_entry_holes(bite_job *job)
{
    size_t count = job->pass_count;
    for (size_t i = 0; i < count && job->faults == 0; i++) {
        if (job->passes[i].entry.kind == BITE_ENTER_HOLE) {
            find_hole(job, i, count);
        }
    }
}
