/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A pocket in stages: with a large tool, then its corners with a small one, then its wall.
 *
 * A tool of radius R leaves (1 - pi/4)(R^2 - r^2) in each corner of radius r at a right angle, up
 * to (sqrt 2 - 1)(R - r) thick. Whether two tools are worth it is the difference of the times of
 * both ways, with the tool changes that the whole job needs more; both are chosen as they would be
 * cut.
 */
#include "core/job/stage_plan.h"
#include "core/base/error.h"
#include "core/base/text.h"
#include "core/job/allowance_plan.h"
#include "core/job/cycle_time.h"
#include "core/job/entry_plan.h"
#include "core/job/handling_time.h"
#include "core/job/job_file.h"
#include "core/job/job_file_schema.h"
#include "core/job/pass_sequence.h"
#include "core/job/path_plan.h"
#include "core/job/plan_faults.h"
#include "core/job/plan_text.h"
#include "core/search/choice.h"
#include "core/units/format_quantity.h"
#include <math.h>
#include <string.h>

static const double corner_step = 0.25; /* width of a lap in the corners over the diameter, most */
static const double wall_share = 0.05;  /* stock for the last lap over the diameter: usual, until
                                           the passes before it are known */
static const double wall_most = 0.1;    /* the same, most that is taken to form a chip */
static const size_t passes_counted =
    64; /* up to so many, tool changes are counted in their order */

/* A pass of the job file while its stages are planned. */
typedef struct feature_stages {
    bite_job *job;
    bite_tool_lists *lists;
    const bite_section *section;
    size_t first;     /* index of its pass */
    double length;    /* m, of the pocket */
    double across;    /* m; the diameter of a bore */
    double radius;    /* m, of its corners */
    double allowance; /* m, for the wall; 0: there is no last lap */
    size_t wall;      /* index of that lap; 0: none */
    size_t middle;    /* of the pass that first opens the corners; 0: none */
    size_t corners;   /* of the pass that cuts them; 0: none */
} feature_stages;

static bite_planned_pass *first_of(const feature_stages *stages)
{
    return &stages->job->passes[stages->first];
}

static double tool_radius(const bite_job *job, const bite_planned_pass *pass)
{
    return 0.5 * job->tools[pass->tool].diameter;
}

/* ---- areas ---- */

/* Of a rectangle inside the pocket, by the allowance smaller, with rounded corners. */
static double area_of(const feature_stages *stages, double allowance, double corner)
{
    return (stages->length - 2.0 * allowance) * (stages->across - 2.0 * allowance) -
           (4.0 - M_PI) * corner * corner;
}

/* What a pass takes out of the corners that those before it left; *cut: the area that all have
 * removed. Returns the radius that it leaves. */
static double take_corners(const feature_stages *stages, size_t index, double from, double *cut)
{
    bite_planned_pass *pass = &stages->job->passes[index];
    double corner = fmax(0.0, stages->radius - stages->allowance);
    if (index == 0) {
        return from;
    }
    pass->corner_from = from;
    pass->corner_to = fmax(tool_radius(stages->job, pass), corner);
    pass->area = area_of(stages, stages->allowance, pass->corner_to) - *cut;
    *cut += pass->area;
    return pass->corner_to;
}

/* What each stage removes, seen from above: all together the pocket. */
static void set_areas(const feature_stages *stages)
{
    const bite_job *job = stages->job;
    bite_planned_pass *rough = first_of(stages);
    double corner = fmax(0.0, stages->radius - stages->allowance);
    double from = fmax(tool_radius(job, rough), corner);
    rough->area = area_of(stages, stages->allowance, from);
    double cut = rough->area;
    rough->corner_to = from;
    double to = take_corners(stages, stages->middle, from, &cut);
    to = take_corners(stages, stages->corners, to, &cut);
    if (stages->wall != 0) {
        bite_planned_pass *wall = &stages->job->passes[stages->wall];
        wall->corner_from = to;
        wall->corner_to = stages->radius;
        wall->area = area_of(stages, 0.0, stages->radius) - cut;
    }
}

/* ---- stages ---- */

static bite_planned_pass *append(feature_stages *stages, uint32_t stage, const char *what)
{
    bite_job *job = stages->job;
    bite_planned_pass *pass = &job->passes[job->pass_count];
    *pass = *first_of(stages);
    pass->stage = stage;
    const char *title = bite_job_file_text(stages->section, "title");
    pass->title =
        bite_plan_text(job, "%s: %s", title == NULL ? bite_work_title(pass->work) : title, what);
    pass->ways.alone = NULL;
    job->file_data.passes[job->pass_count++] = stages->section;
    return pass;
}

static int has_place(const bite_job *job)
{
    return job->pass_count + 1 < BITE_PASSES_MAX;
}

static void enter(const feature_stages *stages, bite_planned_pass *pass)
{
    const bite_planned_tool *tool = &stages->job->tools[pass->tool];
    bite_plan_entry(stages->job, stages->section, tool->name, tool->diameter, pass);
}

/* ---- the last lap ---- */

/* Whether a pass of the job file finishes the wall: it names this one, or is the next after it that
 * cuts a wall. */
static int is_finished_by_file(const feature_stages *stages)
{
    const bite_job *job = stages->job;
    for (size_t i = 0; i < job->file_data.pass_count; i++) {
        const bite_planned_pass *pass = &job->passes[i];
        const char *after = bite_job_file_text(job->file_data.passes[i], "after");
        char name[64];
        if (pass->work != BITE_WORK_FINISH || pass->setup != first_of(stages)->setup) {
            continue;
        }
        if (after == NULL && i > stages->first) {
            return 1;
        }
        for (size_t n = 0; bite_job_file_name(after, n, name, sizeof name); n++) {
            if (bite_text_equals(name, first_of(stages)->name)) {
                return 1;
            }
        }
    }
    return 0;
}

static int asks_for_wall(const feature_stages *stages)
{
    const bite_section *section = stages->section;
    uint32_t word = bite_job_file_word(section, "finish_lap", 2);
    int fine = !isnan(bite_job_file_number(section, "tolerance")) ||
               !isnan(bite_job_file_number(section, "finish"));
    return word != 2 ? (int)word : fine && !is_finished_by_file(stages);
}

static void add_wall(feature_stages *stages)
{
    bite_job *job = stages->job;
    double diameter = 2.0 * tool_radius(job, first_of(stages));
    if (!asks_for_wall(stages) || !has_place(job) ||
        !(stages->across > diameter * (1.0 + 2.0 * wall_share))) {
        return;
    }
    bite_planned_pass *wall = append(stages, BITE_STAGE_WALL, "the wall");
    stages->wall = job->pass_count - 1;
    stages->allowance = bite_unit_round(wall_share * diameter, BITE_KIND_LENGTH, "mm", 2);
    wall->work = BITE_WORK_FINISH;
    wall->width = stages->allowance;
    enter(stages, wall);
    bite_planned_pass *rough = first_of(stages);
    rough->stage = BITE_STAGE_ROUGH;
    rough->unfinished = 1;
    rough->leaves = stages->allowance;
    enter(stages, rough);
    rough->title = bite_plan_text(job, "%s: rough", rough->title);
}

/* ---- corners ---- */

/* The choice of a pass, which it takes when it is planned; NULL: it has a fault, reported there. */
static const bite_choice *choice_of(bite_job *job, size_t index)
{
    bite_request *request = NULL;
    bite_choice *choice = NULL;
    bite_status status = job->request_of(job, index, &request, NULL);
    for (size_t i = 0; status == BITE_OK && i < job->choice_count; i++) {
        if (memcmp(&job->choices[i]->request, request, sizeof *request) == 0) {
            choice = job->choices[i]->choice;
        }
    }
    bite_planned_choice *kept = NULL;
    if (choice == NULL && status == BITE_OK) {
        kept = bite_arena_alloc(job->arena, 1, sizeof *kept);
        status = kept == NULL ? BITE_NO_MEMORY : BITE_OK;
    }
    if (kept != NULL) {
        bite_choice_options options = bite_plan_choice_options(job);
        kept->request = *request;
        request->threads = job->threads;
        status = bite_choice_new(request, &options, &choice, NULL);
        if (status == BITE_OK) {
            choice->answer->request.threads = kept->request.threads;
            kept->choice = choice;
            job->choices[job->choice_count++] = kept;
        }
    }
    job->out_of_memory |= status == BITE_NO_MEMORY;
    bite_request_free(request);
    return status == BITE_OK ? choice : NULL;
}

/* The time of a pass on all parts; NaN: it cannot be chosen. */
static double seconds_of(bite_job *job, size_t index)
{
    const bite_choice *choice = choice_of(job, index);
    bite_planned_pass *pass = &job->passes[index];
    if (choice == NULL) {
        return (double)NAN;
    }
    bite_planned_pass before = *pass;
    pass->answer = choice->answer;
    pass->passes = (uint32_t)bite_choice_passes(choice);
    bite_plan_path(job, index);
    double seconds = bite_plan_pass_seconds(job, index);
    *pass = before;
    return seconds;
}

static double changes_of(bite_job *job)
{
    uint32_t changes = 0;
    if (job->pass_count <= passes_counted) {
        bite_status status = bite_plan_count_changes(job, &changes);
        job->out_of_memory |= status == BITE_NO_MEMORY;
        return changes;
    }
    for (size_t i = 0; i < job->tool_count; i++) { /* each tool once */
        int used = 0;
        for (size_t k = 0; k < job->pass_count && !used; k++) {
            used = job->passes[k].tool == i;
        }
        changes += (uint32_t)used;
    }
    return changes - 1.0;
}

/* The two ways, with all that they share. */
static void compare(feature_stages *stages, const bite_planned_pass *alone, double change)
{
    bite_job *job = stages->job;
    bite_planned_ways *ways = &first_of(stages)->ways;
    ways->change_seconds = change;
    ways->staged_seconds = seconds_of(job, stages->first) + seconds_of(job, stages->corners);
    ways->staged = ways->stated || ways->staged_seconds + change < ways->alone_seconds;
    if (!ways->staged) {
        bite_planned_ways judged = *ways;
        *first_of(stages) = *alone;
        first_of(stages)->ways = judged;
        job->pass_count--;
        stages->corners = 0;
        set_areas(stages);
    }
}

/* The larger tool, as the job file names it or as it would be selected. 0: there is none. */
static int take_larger(feature_stages *stages, double than)
{
    bite_job *job = stages->job;
    bite_planned_pass *pass = first_of(stages);
    const char *named = bite_job_file_text(stages->section, "rough_tool");
    if (named == NULL) {
        return bite_plan_larger_tool(job, stages->lists, stages->section, than, pass);
    }
    (void)bite_plan_named_tool(job, named, pass);
    bite_planned_tool *tool = &job->tools[pass->tool];
    tool->why = tool->why[0] == 0 ? "named in the job file" : tool->why;
    if (tool->diameter <= than * (1.0 + 1e-9)) {
        bite_error error = BITE_ERROR_INIT;
        bite_error_set(&error, BITE_BAD_FILE,
                       "rough_tool is not larger than the tool that cuts the corners, or fits into "
                       "them itself");
        bite_error_key(&error, "rough_tool");
        bite_error_hint(&error, "leave it out, name a larger one, or name it as tool");
        bite_plan_fault(job, stages->section, &error);
        return 0;
    }
    enter(stages, pass);
    return 1;
}

/* The width of the laps in the corners, of equal ones that are not too wide for the tool. */
static void set_corner_width(const feature_stages *stages, bite_planned_pass *pass)
{
    double thickest = (M_SQRT2 - 1.0) * (pass->corner_from - pass->corner_to);
    double widest = corner_step * 2.0 * tool_radius(stages->job, pass);
    pass->width = thickest / bite_plan_cuts_of(thickest, widest);
    pass->inside_radius = pass->corner_to;
    enter(stages, pass);
}

/* Adds a pass in the corners with a tool; returns its index. */
static size_t append_corners(feature_stages *stages, uint32_t stage, uint32_t tool,
                             const char *what)
{
    bite_planned_pass *corners = append(stages, stage, what);
    corners->work = BITE_WORK_ROUGH;
    corners->tool = tool;
    corners->unfinished = stages->wall != 0;
    return stages->job->pass_count - 1;
}

/* Puts the pass of the corners behind a larger tool. */
static void set_corners(feature_stages *stages, const bite_planned_pass *alone)
{
    bite_job *job = stages->job;
    bite_planned_pass *rough = first_of(stages);
    stages->corners = append_corners(stages, BITE_STAGE_CORNERS, alone->tool, "the corners");
    rough->stage = BITE_STAGE_ROUGH;
    rough->title =
        stages->wall != 0 ? rough->title : bite_plan_text(job, "%s: rough", rough->title);
    set_areas(stages);
    set_corner_width(stages, &job->passes[stages->corners]);
}

static void add_corners(feature_stages *stages)
{
    bite_job *job = stages->job;
    bite_planned_pass *rough = first_of(stages);
    const bite_planned_pass alone = *rough;
    double than = 2.0 * fmax(tool_radius(job, rough), rough->inside_radius);
    uint32_t word = bite_job_file_word(stages->section, "rest", 2);
    int named = bite_job_file_text(stages->section, "rough_tool") != NULL;
    if (word == 0 || !has_place(job)) {
        return;
    }
    rough->stage = BITE_STAGE_ROUGH; /* its tool need not fit into the corners */
    rough->inside_radius = (double)NAN;
    double before = changes_of(job);
    size_t tools = job->tool_count;
    if (!take_larger(stages, than)) {
        *rough = alone;
        return;
    }
    set_corners(stages, &alone);
    double change = fmax(0.0, changes_of(job) - before) * fmax(1.0, (double)job->stock.blanks) *
                    bite_plan_change_time(job, NULL);
    bite_planned_pass staged = *rough;
    *rough = alone;
    double seconds = seconds_of(job, stages->first);
    *rough = staged;
    rough->ways = (bite_planned_ways){.alone = job->tools[alone.tool].name,
                                      .rough = job->tools[staged.tool].name,
                                      .stated = (uint32_t)(word == 1 || named),
                                      .alone_seconds = seconds,
                                      .staged_seconds = (double)NAN,
                                      .change_seconds = change};
    if (!rough->ways.stated && !(seconds > change)) { /* no tool is that much faster */
        bite_planned_ways ways = rough->ways;
        *rough = alone;
        rough->ways = ways;
        job->pass_count--;
        stages->corners = 0;
        set_areas(stages);
    } else {
        compare(stages, &alone, change);
    }
    if (!rough->ways.staged && job->tool_count > tools) {
        job->tool_count = tools; /* nothing else uses it */
    }
}

/* ---- a third tool ---- */

/* Puts a tool between the two; returns the time of both passes in the corners. */
static double set_middle(feature_stages *stages, const char *name)
{
    bite_job *job = stages->job;
    bite_planned_pass middle = job->passes[stages->corners];
    (void)bite_plan_named_tool(job, name, &middle);
    bite_planned_tool *tool = &job->tools[middle.tool];
    tool->why = tool->why[0] == 0 ? "opens the corners for a smaller one" : tool->why;
    stages->middle =
        append_corners(stages, BITE_STAGE_MIDDLE, middle.tool, "the corners, a first time");
    set_areas(stages);
    set_corner_width(stages, &job->passes[stages->middle]);
    set_corner_width(stages, &job->passes[stages->corners]);
    return seconds_of(job, stages->middle) + seconds_of(job, stages->corners);
}

static void leave_middle(feature_stages *stages, const bite_planned_pass *corners, size_t tools)
{
    bite_job *job = stages->job;
    job->passes[stages->corners] = *corners;
    job->pass_count--;
    job->tool_count = tools;
    stages->middle = 0;
    set_areas(stages);
}

/* Of the time of the pocket that a third tool has to save: its pass has a chance of its own to
 * exceed a limit, for which the others may have to be slower (estimate, from plans of both). */
static const double worth_a_tool = 0.1;

/* Where two tools are taken, a third between them opens the corners if that is faster still. */
static void add_middle(feature_stages *stages)
{
    bite_job *job = stages->job;
    bite_planned_ways *ways = &first_of(stages)->ways;
    const bite_planned_pass before = job->passes[stages->corners];
    if (stages->corners == 0 || ways->stated || !has_place(job)) {
        return;
    }
    double small = 2.0 * tool_radius(job, &before);
    const char *name = bite_plan_tool_between(
        stages->lists, small, 2.0 * tool_radius(job, first_of(stages)), before.depth);
    double two = seconds_of(job, stages->corners);
    double change = fmax(1.0, (double)job->stock.blanks) * bite_plan_change_time(job, NULL);
    if (name == NULL || !(two > change)) { /* no tool is that much faster */
        return;
    }
    double changes = changes_of(job);
    size_t tools = job->tool_count;
    double three = set_middle(stages, name);
    ways->middle = name;
    ways->middle_change = fmax(0.0, changes_of(job) - changes) * change;
    ways->middle_seconds = ways->staged_seconds - two + three;
    ways->three = two - three - ways->middle_change > worth_a_tool * ways->staged_seconds;
    if (!ways->three) {
        ways->middle = isnan(three) ? NULL : name; /* it cannot be chosen */
        leave_middle(stages, &before, tools);
    }
}

/* ---- the stock for the last lap ---- */

static void set_wall_stock(feature_stages *stages, double allowance)
{
    bite_job *job = stages->job;
    bite_planned_pass *wall = &job->passes[stages->wall];
    stages->allowance = allowance;
    wall->width = allowance;
    first_of(stages)->leaves = allowance;
    enter(stages, first_of(stages));
    if (stages->corners != 0) {
        job->passes[stages->corners].leaves = allowance;
    }
    if (stages->middle != 0) {
        job->passes[stages->middle].leaves = allowance;
    }
    if (first_of(stages)->work != BITE_WORK_BORE) {
        set_areas(stages);
    }
}

/* What a pass before the last lap needs; 0: there is no such pass, NaN: it cannot be chosen. */
static double needed_by(feature_stages *stages, size_t index, int is_there)
{
    bite_job *job = stages->job;
    double own = bite_job_file_number(stages->section, "tolerance");
    double tolerance = isnan(own) ? bite_job_file_number(job->file_data.part, "tolerance") : own;
    const bite_choice *choice = is_there ? choice_of(job, index) : NULL;
    return !is_there        ? 0.0
           : choice == NULL ? (double)NAN
                            : bite_plan_allowance_after(choice->answer, tolerance);
}

/* The times of the ways as they are with that stock. */
static void time_ways(feature_stages *stages)
{
    bite_job *job = stages->job;
    bite_planned_ways *ways = &first_of(stages)->ways;
    double corners = stages->corners == 0 ? 0.0 : seconds_of(job, stages->corners);
    if (ways->staged && ways->three) {
        ways->middle_seconds =
            seconds_of(job, stages->first) + seconds_of(job, stages->middle) + corners;
    } else if (ways->staged) {
        ways->staged_seconds = seconds_of(job, stages->first) + corners;
    }
}

/* Solves the stock for the last lap: what the passes before it need, and more where its edge would
 * only rub. */
static void solve_wall(feature_stages *stages)
{
    bite_job *job = stages->job;
    if (stages->wall == 0) {
        return;
    }
    double rough = needed_by(stages, stages->first, 1);
    double middle = needed_by(stages, stages->middle, stages->middle != 0);
    double corners = needed_by(stages, stages->corners, stages->corners != 0);
    double needed = fmax(rough, fmax(middle, corners));
    double diameter = 2.0 * tool_radius(job, &job->passes[stages->wall]);
    double room = 0.5 * (stages->across - 2.0 * tool_radius(job, first_of(stages)));
    if (isnan(rough + middle + corners) || !(needed < room)) {
        return;
    }
    set_wall_stock(stages, needed);
    const bite_choice *lap = choice_of(job, stages->wall);
    for (double next = bite_plan_allowance_more(needed);
         lap != NULL && !bite_plan_lap_cuts(lap->answer) &&
         next <= fmin(wall_most * diameter, room);
         next = bite_plan_allowance_more(next)) {
        set_wall_stock(stages, next);
        lap = choice_of(job, stages->wall);
    }
    time_ways(stages);
}

/* ---- every pass ---- */

static void plan_stages(bite_job *job, bite_tool_lists *lists, size_t index)
{
    bite_planned_pass *pass = &job->passes[index];
    const bite_section *section = job->file_data.passes[index];
    feature_stages stages = {job,
                             lists,
                             section,
                             index,
                             bite_job_file_number(section, "length"),
                             bite_job_file_number(section, "across"),
                             fmax(tool_radius(job, pass), 0.0),
                             0.0,
                             0,
                             0,
                             0};
    int given = bite_job_file_text(section, "spindle") != NULL &&
                bite_job_file_text(section, "feed") != NULL;
    int area = (pass->work == BITE_WORK_POCKET || pass->work == BITE_WORK_ROUGH) &&
               !isnan(stages.length) && !isnan(stages.across);
    if (pass->work == BITE_WORK_BORE && !isnan(stages.across) && !given) {
        add_wall(&stages);
        solve_wall(&stages);
    }
    if (!area) {
        return;
    }
    stages.radius = fmax(stages.radius, isnan(pass->inside_radius) ? 0.0 : pass->inside_radius);
    int open = bite_plan_runs_out(job, section, pass->work); /* it has no corners */
    int fits = tool_radius(job, pass) <= pass->inside_radius * (1.0 + 1e-9);
    int named = bite_job_file_text(section, "tool") != NULL &&
                bite_job_file_text(section, "rough_tool") == NULL;
    if (!given && !open) {
        add_wall(&stages);
    }
    set_areas(&stages);
    if (!given && !open && fits && !named) {
        add_corners(&stages);
        add_middle(&stages);
    }
    solve_wall(&stages);
}

bite_status bite_plan_stages(bite_job *job, bite_tool_lists *lists, bite_error *error)
{
    size_t count = job->pass_count;
    for (size_t i = 0; i < count && job->faults == 0; i++) {
        plan_stages(job, lists, i);
    }
    return job->out_of_memory ? bite_error_set(error, BITE_NO_MEMORY, "no memory for a plan")
                              : BITE_OK;
}
