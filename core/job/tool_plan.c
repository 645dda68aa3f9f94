/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Selection of a tool for each pass that names none. */
#include "core/job/tool_plan.h"
#include "core/base/error.h"
#include "core/base/text.h"
#include "core/job/entry_plan.h"
#include "core/job/hole_plan.h"
#include "core/job/job_file.h"
#include "core/job/outline_reach.h"
#include "core/job/plan_text.h"
#include "core/job/remarks.h"
#include "core/job/thread_plan.h"
#include "core/library/collection.h"
#include "core/library/item.h"
#include "core/library/listing.h"
#include "core/library/tool_symbols.h"
#include "core/names/registry.h"
#include "core/search/choice.h"
#include "core/search/tool_choice.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

/* Parts are cut free with the largest tool up to this diameter: a wider slot wastes sheet and heats
 * it (common practice). */
static const double cut_free_most = 3.2e-3; /* m */

static void add_tool(bite_job *job, const char *name, bite_tool_list *to)
{
    bite_tool_candidate tool;
    const bite_item_record *record = NULL;
    if (to->count == to->capacity) {
        return;
    }
    memset(&tool, 0, sizeof tool);
    (void)snprintf(tool.name, sizeof tool.name, "%s", name);
    bite_status status = bite_library_record(job->library, BITE_TOOLS, name, &record, NULL);
    job->out_of_memory |= status == BITE_NO_MEMORY;
    if (status == BITE_OK) {
        tool.diameter = bite_item_figure_or(record, "diameter", 0.0);
        tool.flutes = bite_item_figure_or(record, "flute_length", 3.0 * tool.diameter);
        tool.reach = tool.flutes + bite_item_figure_or(record, "neck_length", 0.0);
        tool.cone = bite_item_field(record, "taper") != NULL;
    } else if (bite_quantity_read(name, BITE_KIND_LENGTH, &tool.diameter, NULL) == BITE_OK) {
        tool.flutes = tool.reach = 3.0 * tool.diameter;
    }
    if (tool.diameter > 0.0) {
        to->tools[to->count++] = tool;
    }
}

static int make_space(bite_job *job, bite_tool_list *to, size_t capacity)
{
    to->tools = bite_arena_alloc(job->arena, capacity + 1, sizeof *to->tools);
    to->capacity = capacity;
    to->count = 0;
    return to->tools != NULL;
}

/* All tools of the table. */
static int fill_table(bite_job *job, bite_tool_list *to)
{
    size_t count = 0;
    bite_status status = bite_library_size(job->library, BITE_TOOLS, &count, NULL);
    if (status == BITE_NO_MEMORY || !make_space(job, to, count)) {
        return 0;
    }
    for (size_t i = 0; i < count; i++) {
        bite_item item;
        status = bite_library_item(job->library, BITE_TOOLS, i, &item, NULL);
        job->out_of_memory |= status == BITE_NO_MEMORY;
        const bite_item_record *record = NULL;
        int unfit =
            status == BITE_OK &&
            bite_library_record(job->library, BITE_TOOLS, item.name, &record, NULL) == BITE_OK &&
            (bite_item_is_yes(record, "engraves") || bite_tool_makes_holes(record));
        if (status == BITE_OK && !unfit) { /* no feature is engraved, and a pass names its drill */
            add_tool(job, item.name, to);
        }
    }
    return 1;
}

/* The tools that the job lists, or all of the table. */
static int fill_available(bite_job *job, bite_tool_list *to)
{
    const char *at_hand = bite_job_file_text(job->file_data.tools, "at_hand");
    char name[BITE_TYPED_MAX];
    to->listed = at_hand != NULL;
    if (at_hand == NULL) {
        return fill_table(job, to);
    }
    if (!make_space(job, to, BITE_TOOLS_AT_HAND_MAX)) {
        return 0;
    }
    for (size_t i = 0; bite_job_file_name(at_hand, i, name, sizeof name); i++) {
        const bite_item_record *record = NULL;
        bite_status status = bite_library_record(job->library, BITE_TOOLS, name, &record, NULL);
        if (status != BITE_OK || !bite_tool_makes_holes(record)) { /* a pass names its drill */
            add_tool(job, name, to);
        }
    }
    return 1;
}

int bite_plan_tool_lists(bite_job *job, bite_tool_lists *lists)
{
    memset(lists, 0, sizeof *lists);
    size_t most = BITE_CHOICES_FOR_PASS * job->pass_count + 1;
    lists->picked = bite_arena_alloc(job->arena, most, sizeof *lists->picked);
    job->choices = bite_arena_alloc(job->arena, most, sizeof(bite_planned_choice *));
    return lists->picked != NULL && job->choices != NULL &&
           fill_available(job, &lists->available) &&
           (!lists->available.listed || fill_table(job, &lists->table));
}

/* What a pass requires of its tool. */
typedef struct tool_requirement {
    double most;    /* m, the largest diameter that fits */
    double least;   /* m; only larger ones fit */
    double reach;   /* m, at least */
    const char *by; /* what limits the diameter; "": nothing */
    int cone;       /* a chamfer mill */
} tool_requirement;

static void at_most(tool_requirement *required, double most, const char *by)
{
    if (most < required->most) {
        required->most = most;
        required->by = by;
    }
}

double bite_plan_inside_radius(const bite_job *job, const bite_section *pass, uint32_t work)
{
    double own = bite_job_file_number(pass, "inside_radius");
    int inside = work == BITE_WORK_POCKET || work == BITE_WORK_ROUGH ||
                 (work == BITE_WORK_FINISH && !bite_pass_rounds_boss(pass));
    return !isnan(own) || !inside ? own
                                  : bite_job_file_number(job->file_data.part, "inside_radius");
}

/* A slot around the part may have any width; a narrow one is better. */
static int prefers_narrow(uint32_t work)
{
    return work == BITE_WORK_FREE || work == BITE_WORK_CONTOUR;
}

static tool_requirement requirement_of(const bite_section *section, const bite_planned_pass *pass)
{
    tool_requirement required = {INFINITY, 0.0, pass->depth, "", pass->work == BITE_WORK_CHAMFER};
    double radius = pass->inside_radius;
    double gap = bite_job_file_number(section, "gap");
    double across = bite_job_file_number(section, "across");
    if (required.cone) { /* the thin end of a cone reaches where its shank does not; the limits of
                            the pass decide */
        return required;
    }
    if (!isnan(radius)) {
        at_most(&required, 2.0 * radius, "the inside corner");
    }
    if (!isnan(gap)) {
        at_most(&required, gap, "the gap");
    }
    if (!isnan(across) && (pass->work == BITE_WORK_SLOT || pass->work == BITE_WORK_BORE)) {
        at_most(&required, pass->work == BITE_WORK_SLOT ? across : 0.9 * across,
                "the width of the slot or bore");
    } else if (!isnan(across) && !bite_pass_rounds_boss(section)) {
        at_most(&required, 0.5 * across, "the width of the pocket");
    }
    if (prefers_narrow(pass->work)) {
        at_most(&required, cut_free_most,
                "the preference for a narrow slot, which wastes less sheet and stays cooler");
    }
    return required;
}

static int fits(const bite_tool_candidate *tool, const tool_requirement *required)
{
    return tool->diameter <= required->most * (1.0 + 1e-9) &&
           tool->diameter > required->least * (1.0 + 1e-9) &&
           tool->reach >= required->reach * (1.0 - 1e-9);
}

static int has_cone(const bite_tool_list *from)
{
    for (size_t i = 0; i < from->count; i++) {
        if (from->tools[i].cone) {
            return 1;
        }
    }
    return 0;
}

/* The largest tool that fits; if none does, the smallest that reaches, and if none reaches, the
 * longest. */
static const bite_tool_candidate *pick(const bite_tool_list *from, const tool_requirement *required,
                                       size_t *fitting)
{
    const bite_tool_candidate *best = NULL;
    const bite_tool_candidate *least = NULL;
    *fitting = 0;
    int cones =
        required->cone &&
        has_cone(from); /* without a chamfer mill, any tool of that diameter may be its cone */
    for (size_t i = 0; i < from->count; i++) {
        const bite_tool_candidate *tool = &from->tools[i];
        if (tool->cone != cones) {
            continue;
        }
        if (fits(tool, required)) {
            (*fitting)++;
            best = best == NULL || tool->diameter > best->diameter ? tool : best;
        }
        int reaches = tool->reach >= required->reach;
        int before = least != NULL && least->reach >= required->reach;
        if (least == NULL || (reaches && !before) ||
            (reaches == before &&
             (reaches ? tool->diameter < least->diameter : tool->reach > least->reach))) {
            least = tool;
        }
    }
    return best != NULL ? best : least;
}

/* ---- the tool that a choice takes ---- */

bite_choice_options bite_plan_choice_options(const bite_job *job)
{
    bite_choice_options options;
    memset(&options, 0, sizeof options);
    options.struct_size = (uint32_t)sizeof options;
    options.goal = bite_job_file_word(job->file_data.job, "goal", BITE_GOAL_USUAL);
    options.units = (uint32_t)job->units;
    options.draws = job->draws;
    options.confidence = job->confidence;
    return options;
}

/* Cuts whose request does not depend on the tool: a width that the job does not state is a share of
 * the diameter, so that there the largest tool is the fastest. */
static int is_picked_by_choice(uint32_t work)
{
    return work == BITE_WORK_SLOT || work == BITE_WORK_POCKET || work == BITE_WORK_BORE ||
           work == BITE_WORK_CONTOUR || work == BITE_WORK_FREE;
}

/* The request of a pass with some tool, or NULL if it has a fault, which is reported later. */
static bite_request *request_with(bite_job *job, const bite_section *section,
                                  bite_planned_pass *pass, const bite_tool_candidate *tool)
{
    bite_request *request = NULL;
    bite_plan_entry(job, section, tool->name, tool->diameter, pass);
    pass->tool = (uint32_t)job->tool_count; /* not yet in the list */
    job->tools[job->tool_count].name = tool->name;
    bite_status status = job->request_of(job, (size_t)(pass - job->passes), &request, NULL);
    job->out_of_memory |= status == BITE_NO_MEMORY;
    if (status != BITE_OK) {
        bite_request_free(request);
        return NULL;
    }
    return request;
}

/* A request names one tool; what it says of that one must not be read of another. */
static void forget_tool(bite_request *request)
{
    request->tool = NULL;
    request->typed[bite_input_index(bite_input_find("diameter"))].given = 0;
    memset(request->tool_name, 0, sizeof request->tool_name);
}

/* Keeps the choice for the pass that asks for the same with this tool. request: without a tool. */
static void keep_choice(bite_job *job, const bite_request *request, const char *tool,
                        bite_choice *choice)
{
    bite_planned_choice *kept = bite_arena_alloc(job->arena, 1, sizeof *kept);
    if (kept == NULL) {
        job->out_of_memory = 1;
        bite_choice_free(choice);
        return;
    }
    kept->request = *request;
    kept->choice = choice;
    choice->answer->request.threads = request->threads;
    job->choices[job->choice_count++] = kept;
    bite_status status = bite_request_use(&kept->request, BITE_TOOLS, tool, NULL);
    job->out_of_memory |= status == BITE_NO_MEMORY;
}

static const double much_slower = 2.0; /* than over a held floor, as in support_plan.c */

static double removal_of(const bite_choice *choice)
{
    return choice->answer->result.values[BITE_REMOVAL_RATE].value;
}

/* No settings of any tool cut an open floor that is too thin, or the one that bends it least is so
 * small or so slow that the feature takes hours. The plan is over and asks for support under the
 * floor; so the tool is the one that cuts it when the floor is held. request: without a tool; bare:
 * its choice. *at: its index. Returns 0 if the floor is not what prevents the cut. */
static int pick_for_held_floor(bite_job *job, const bite_request *request,
                               const bite_choice_options *options, const bite_choice *bare,
                               size_t *at)
{
    size_t found = 0;
    const size_t span = bite_input_index(bite_input_find("floor_span"));
    bite_request held = *request;
    bite_choice *choice = NULL;
    if (!held.typed[span].given) {
        return 0;
    }
    held.threads = job->threads;
    held.typed[span].given = 0;
    held.typed[bite_input_index(bite_input_find("floor_length"))].given = 0;
    bite_status status = bite_tool_pick(&held, options, &found, &choice, NULL);
    job->out_of_memory |= status == BITE_NO_MEMORY;
    int serves = status == BITE_OK && choice != NULL && choice->relaxed == 0 &&
                 (bare->relaxed > 0 || removal_of(choice) > much_slower * removal_of(bare));
    bite_choice_free(choice);
    *at = serves ? found : *at;
    return serves;
}

/* Of the tools that fit, the one that a choice takes. largest: of them, if there is no choice.
 * *how: why, for the plan. */
static const bite_tool_candidate *pick_by_choice(bite_job *job, bite_tool_lists *lists,
                                                 const tool_requirement *required,
                                                 const bite_tool_candidate *largest,
                                                 const bite_section *section,
                                                 bite_planned_pass *pass, const char **how)
{
    const bite_tool_list *from = &lists->available;
    const char **names = bite_arena_alloc(job->arena, from->count, sizeof *names);
    const bite_tool_candidate **tools = bite_arena_alloc(job->arena, from->count, sizeof *tools);
    bite_choice_options options = bite_plan_choice_options(job);
    bite_request *request = request_with(job, section, pass, largest);
    *how = "fastest";
    if (names == NULL || tools == NULL || request == NULL) {
        job->out_of_memory |= names == NULL || tools == NULL;
        bite_request_free(request);
        return largest;
    }
    for (size_t i = 0; i < lists->picked_count; i++) {
        if (memcmp(&lists->picked[i].request, request, sizeof *request) == 0) {
            bite_request_free(request);
            *how = lists->picked[i].how;
            return lists->picked[i].tool;
        }
    }
    for (size_t i = 0; i < from->count; i++) {
        if (!from->tools[i].cone && fits(&from->tools[i], required)) {
            names[options.tool_count] = from->tools[i].name;
            tools[options.tool_count++] = &from->tools[i];
        }
    }
    size_t at = 0;
    options.tools = names;
    bite_tool_picked *picked = &lists->picked[lists->picked_count++];
    picked->request = *request;
    forget_tool(request);
    bite_request threaded = *request;
    threaded.threads = job->threads;
    bite_choice *choice = NULL;
    bite_status status = bite_tool_pick(&threaded, &options, &at, &choice, NULL);
    job->out_of_memory |= status == BITE_NO_MEMORY;
    if (choice != NULL && pick_for_held_floor(job, request, &options, choice, &at)) {
        *how = choice->relaxed > 0 ? "with its floor held, which no tool cuts as it is: fastest"
                                   : "with its floor held: fastest";
        bite_choice_free(choice);
        choice = NULL;
    }
    picked->how = *how;
    picked->tool = status == BITE_OK ? tools[at] : largest;
    if (choice != NULL) {
        keep_choice(job, request, picked->tool->name, choice);
    }
    bite_request_free(request);
    return picked->tool;
}

static double diameter_of(bite_job *job, const char *name)
{
    bite_tool_candidate tool = {{0}, 0.0, 0.0, 0.0, 0};
    bite_tool_list one = {&tool, 0, 1, 0};
    add_tool(job, name, &one);
    return tool.diameter;
}

static const char *kind_for(uint32_t work)
{
    return work == BITE_WORK_DRILL         ? "drill"
           : work == BITE_WORK_CHAMFER     ? "chamfer mill"
           : work == BITE_WORK_TAP         ? "tap"
           : work == BITE_WORK_REAM        ? "reamer"
           : work == BITE_WORK_THREAD_MILL ? "thread mill"
                                           : "end mill";
}

/* The job's tool of that name and of the kind that the work needs: 3mm may be a drill, a chamfer
 * mill and an end mill. */
static uint32_t tool_index(bite_job *job, const char *name, uint32_t work)
{
    const char *kind = kind_for(work);
    for (size_t i = 0; i < job->tool_count; i++) {
        if (bite_text_equals(job->tools[i].name, name) && strcmp(job->tools[i].kind, kind) == 0) {
            return (uint32_t)i;
        }
    }
    bite_planned_tool *tool = &job->tools[job->tool_count];
    memset(tool, 0, sizeof *tool);
    tool->name = bite_plan_text(job, "%s", name);
    tool->kind = kind;
    tool->diameter = diameter_of(job, name);
    tool->why = tool->better = "";
    return (uint32_t)job->tool_count++;
}

/* A tool of the table that would be stiffer than the one that was selected; "" if there is none. */
static const char *better_than(bite_job *job, const bite_tool_list *table,
                               const tool_requirement *required,
                               const bite_tool_candidate *selected)
{
    size_t fitting = 0;
    const bite_tool_candidate *best = pick(table, required, &fitting);
    if (best == NULL || fitting == 0 || best->diameter <= 1.2 * selected->diameter) {
        return "";
    }
    char diameter[40];
    char digits[40];
    /* the stiffness of a cantilever is as d^4 / L^3 */
    double stiffer = pow(best->diameter / selected->diameter, 4.0) /
                     fmax(1.0, pow(best->reach / selected->reach, 3.0));
    (void)bite_plan_quantity(job, best->diameter, BITE_KIND_LENGTH, diameter, sizeof diameter);
    (void)snprintf(digits, sizeof digits, "%.0f", stiffer);
    return strcmp(digits, "1") == 0
               ? bite_plan_text(job, "a %s tool would also fit and is about as stiff", diameter)
               : bite_plan_text(job, "a %s tool would also fit and is %s times as stiff", diameter,
                                digits);
}

/* Why a tool was selected. */
static const char *reason_of(bite_job *job, const bite_tool_list *available,
                             const tool_requirement *required, size_t fitting, const char *how)
{
    char depth[40];
    (void)bite_plan_quantity(job, required->reach, BITE_KIND_LENGTH, depth, sizeof depth);
    if (fitting == 0) {
        return bite_plan_text(job, "closest of %zu: none fits and reaches %s", available->count,
                              depth);
    }
    if (fitting == 1) {
        return bite_plan_text(job, "the only one that fits and reaches %s%s%s", depth,
                              required->by[0] == 0 ? "" : "; diameter limited by ", required->by);
    }
    return bite_plan_text(job, "%s of %zu that fit and reach %s%s%s", how, fitting, depth,
                          required->by[0] == 0 ? "" : "; diameter limited by ", required->by);
}

static void select_tool(bite_job *job, bite_tool_lists *lists, const bite_section *section,
                        bite_planned_pass *pass)
{
    const bite_tool_list *available = &lists->available;
    tool_requirement required = requirement_of(section, pass);
    size_t fitting = 0;
    const bite_tool_candidate *tool = pick(available, &required, &fitting);
    if (tool == NULL) {
        pass->tool = tool_index(job, "3mm", pass->work);
        return;
    }
    if (fitting == 0 && prefers_narrow(pass->work) && tool->reach >= required.reach) {
        fitting = 1; /* a narrow slot is preferred, not required */
        required.by = "the tools available: a narrower one would waste less sheet";
    }
    int by_choice = fitting > 1 && is_picked_by_choice(pass->work);
    const bite_tool_candidate *largest = tool;
    const char *how = "largest";
    tool =
        by_choice ? pick_by_choice(job, lists, &required, largest, section, pass, &how) : largest;
    pass->tool = tool_index(job, tool->name, pass->work);
    bite_planned_tool *planned = &job->tools[pass->tool];
    if (fitting == 0) {
        const bite_remark_value values[] = {bite_remark_text(pass->title),
                                            bite_remark_number(required.reach),
                                            bite_remark_text(planned->name)};
        bite_plan_remark(
            job, available->listed ? BITE_REMARK_NO_TOOL_AT_HAND : BITE_REMARK_NO_TOOL_IN_TABLE,
            values, 3);
    }
    if (planned->why[0] == 0) {
        planned->why = reason_of(job, available, &required, fitting, how);
        planned->better = available->listed && tool == largest
                              ? better_than(job, &lists->table, &required, tool)
                              : "";
    }
}

const char *bite_plan_named_tool(bite_job *job, const char *name, bite_planned_pass *pass)
{
    pass->tool = tool_index(job, name, pass->work);
    return job->tools[pass->tool].name;
}

int bite_plan_larger_tool(bite_job *job, bite_tool_lists *lists, const bite_section *section,
                          double than, bite_planned_pass *pass)
{
    const bite_tool_list *available = &lists->available;
    tool_requirement required = requirement_of(section, pass);
    size_t fitting = 0;
    required.least = than;
    const bite_tool_candidate *tool = pick(available, &required, &fitting);
    if (fitting == 0) {
        return 0;
    }
    int by_choice = fitting > 1 && is_picked_by_choice(pass->work);
    const char *how = "largest";
    tool = by_choice ? pick_by_choice(job, lists, &required, tool, section, pass, &how) : tool;
    pass->tool = tool_index(job, tool->name, pass->work);
    bite_planned_tool *planned = &job->tools[pass->tool];
    if (planned->why[0] == 0) {
        planned->why = bite_plan_text(job, "%s; a smaller tool cuts the corners",
                                      reason_of(job, available, &required, fitting, how));
    }
    bite_plan_entry(job, section, planned->name, planned->diameter, pass);
    return 1;
}

const char *bite_plan_tool_between(const bite_tool_lists *lists, double small, double large,
                                   double reach)
{
    const double least_step = 1.2; /* over its neighbours: less hardly helps (estimate) */
    const bite_tool_list *from = &lists->available;
    const char *best = NULL;
    double least = INFINITY;
    for (size_t i = 0; i < from->count; i++) {
        const bite_tool_candidate *tool = &from->tools[i];
        double away = fabs(log(tool->diameter / sqrt(small * large)));
        int between = !tool->cone && tool->reach >= reach * (1.0 - 1e-9) &&
                      tool->diameter >= least_step * small && least_step * tool->diameter <= large;
        if (between && away < least) {
            least = away;
            best = tool->name;
        }
    }
    return best;
}

void bite_plan_tool(bite_job *job, bite_tool_lists *lists, const bite_section *section,
                    bite_planned_pass *pass)
{
    const char *given = bite_job_file_text(section, "tool");
    if (pass->work == BITE_WORK_TAP) {
        given = bite_plan_tap_name(job, section); /* the file is checked: it has a thread */
        given = given == NULL ? "tap" : given;
    }
    if (pass->work == BITE_WORK_THREAD_MILL && given == NULL) {
        const char *why = "";
        const char *mill =
            bite_plan_thread_mill(job, section, pass, bite_plan_thread_diameter(job, section),
                                  bite_plan_thread_pitch(job, section), &why);
        pass->tool = tool_index(job, mill == NULL ? "1mm" : mill, pass->work);
        job->tools[pass->tool].why = why;
    } else if (given == NULL) {
        select_tool(job, lists, section, pass);
    } else {
        pass->tool = tool_index(job, given, pass->work);
    }
    bite_planned_tool *tool = &job->tools[pass->tool];
    if (pass->work == BITE_WORK_TAP) {
        tool->diameter = bite_plan_thread_diameter(job, section);
        tool->why = "that of the thread";
    }
    if (given != NULL && tool->why[0] == 0) {
        tool->why = "named in the job file";
    }
    bite_plan_entry(job, section, tool->name, tool->diameter, pass);
}
