/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the passes of a job are, and a tool for each that names none. */
#include "core/job/feature_plan.h"
#include "core/base/error.h"
#include "core/base/text.h"
#include "core/job/pass_order.h"
#include "core/job/plan.h"
#include "core/job/plan_steps.h"
#include "core/library/collection.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

/* Cutting free goes with the largest tool up to this: a wider slot wastes sheet and heats it
 * (common practice). */
static const double free_most = 3.2e-3; /* m */

/* A tool that could be taken. */
typedef struct candidate {
    char name[BITE_TYPED_MAX];
    double diameter;
    double flutes;
    double reach; /* m, flutes and neck */
    int cone;     /* a chamfer mill */
} candidate;

typedef struct bench {
    candidate *tools;
    size_t count;
    size_t capacity;
    int at_hand; /* 0: all of the table */
} bench;

static void put_tool(const bite_library *library, const char *name, bench *to)
{
    candidate tool;
    const bite_item_record *record = NULL;
    if (to->count == to->capacity) {
        return;
    }
    memset(&tool, 0, sizeof tool);
    (void)snprintf(tool.name, sizeof tool.name, "%s", name);
    if (bite_library_record(library, BITE_TOOLS, name, &record, NULL) == BITE_OK) {
        tool.diameter = bite_plan_figure(record, "diameter", 0.0);
        tool.flutes = bite_plan_figure(record, "flute_length", 3.0 * tool.diameter);
        tool.reach = tool.flutes + bite_plan_figure(record, "neck_length", 0.0);
        tool.cone = bite_item_field(record, "taper") != NULL;
    } else if (bite_quantity_read(name, BITE_KIND_LENGTH, &tool.diameter, NULL) == BITE_OK) {
        tool.flutes = tool.reach = 3.0 * tool.diameter;
    }
    if (tool.diameter > 0.0) {
        to->tools[to->count++] = tool;
    }
}

static int make_room(bite_job *job, bench *to, size_t capacity)
{
    to->tools = bite_arena_alloc(job->arena, capacity + 1, sizeof *to->tools);
    to->capacity = capacity;
    to->count = 0;
    return to->tools != NULL;
}

/* All tools of the table. */
static int fill_table(bite_job *job, bench *to)
{
    size_t count = bite_library_count(job->library, BITE_TOOLS);
    if (!make_room(job, to, count)) {
        return 0;
    }
    for (size_t i = 0; i < count; i++) {
        bite_item item;
        if (bite_library_item(job->library, BITE_TOOLS, i, &item, NULL) == BITE_OK) {
            put_tool(job->library, item.name, to);
        }
    }
    return 1;
}

static int fill_bench(bite_job *job, bench *to)
{
    const char *at_hand = bite_job_file_text(job->file_data.tools, "at_hand");
    char name[BITE_TYPED_MAX];
    to->at_hand = at_hand != NULL;
    if (at_hand == NULL) {
        return fill_table(job, to);
    }
    if (!make_room(job, to, BITE_TOOLS_AT_HAND_MAX)) {
        return 0;
    }
    for (size_t i = 0; bite_job_file_name(at_hand, i, name, sizeof name); i++) {
        put_tool(job->library, name, to);
    }
    return 1;
}

/* What a pass asks of its tool. */
typedef struct tool_requirement {
    double most;    /* diameter that still fits */
    double reach;   /* at least */
    const char *by; /* what the diameter is held by */
    int cone;       /* a chamfer mill */
} tool_requirement;

static void at_most(tool_requirement *wanted, double most, const char *by)
{
    if (most < wanted->most) {
        wanted->most = most;
        wanted->by = by;
    }
}

double bite_plan_inside_radius(const bite_job *job, const bite_section *pass, uint32_t work)
{
    double own = bite_job_file_number(pass, "inside_radius");
    int inside = work == BITE_WORK_POCKET || work == BITE_WORK_ROUGH || work == BITE_WORK_FINISH;
    return !isnan(own) || !inside ? own
                                  : bite_job_file_number(job->file_data.part, "inside_radius");
}

/* A slot about the part may be of any width; a narrow one is better. */
static int prefers(uint32_t work)
{
    return work == BITE_WORK_FREE || work == BITE_WORK_CONTOUR;
}

static tool_requirement wish_of(const bite_job *job, const bite_section *section,
                                const bite_planned_pass *pass)
{
    tool_requirement wanted = {INFINITY, pass->depth, "nothing", pass->work == BITE_WORK_CHAMFER};
    double radius = bite_plan_inside_radius(job, section, pass->work);
    double gap = bite_job_file_number(section, "gap");
    double across = bite_job_file_number(section, "across");
    if (wanted.cone) { /* its thin end goes where the tool does not; whether it does the pass's
                          limits say */
        return wanted;
    }
    if (!isnan(radius)) {
        at_most(&wanted, 2.0 * radius, "the inside corner");
    }
    if (!isnan(gap)) {
        at_most(&wanted, gap, "the gap");
    }
    if (!isnan(across) && (pass->work == BITE_WORK_SLOT || pass->work == BITE_WORK_BORE)) {
        at_most(&wanted, pass->work == BITE_WORK_SLOT ? across : 0.9 * across,
                "the slot's or bore's width");
    } else if (!isnan(across)) {
        at_most(&wanted, 0.5 * across, "the pocket's width");
    }
    if (prefers(pass->work)) {
        at_most(&wanted, free_most, "a narrow slot: it wastes less sheet and stays cooler");
    }
    return wanted;
}

static int fits(const candidate *tool, const tool_requirement *wanted)
{
    return tool->diameter <= wanted->most * (1.0 + 1e-9) &&
           tool->reach >= wanted->reach * (1.0 - 1e-9);
}

static int has_cone(const bench *from)
{
    for (size_t i = 0; i < from->count; i++) {
        if (from->tools[i].cone) {
            return 1;
        }
    }
    return 0;
}

/* The largest that fits; where none does, the smallest that reaches, and where none reaches, the
 * longest. */
static const candidate *pick(const bench *from, const tool_requirement *wanted, size_t *fitting)
{
    const candidate *best = NULL;
    const candidate *least = NULL;
    *fitting = 0;
    int cones = wanted->cone &&
                has_cone(from); /* without one any tool of that diameter stands for its cone */
    for (size_t i = 0; i < from->count; i++) {
        const candidate *tool = &from->tools[i];
        if (tool->cone != cones) {
            continue;
        }
        if (fits(tool, wanted)) {
            (*fitting)++;
            best = best == NULL || tool->diameter > best->diameter ? tool : best;
        }
        int reaches = tool->reach >= wanted->reach;
        int before = least != NULL && least->reach >= wanted->reach;
        if (least == NULL || (reaches && !before) ||
            (reaches == before &&
             (reaches ? tool->diameter < least->diameter : tool->reach > least->reach))) {
            least = tool;
        }
    }
    return best != NULL ? best : least;
}

static double diameter_of(const bite_library *library, const char *name)
{
    candidate room = {{0}, 0.0, 0.0, 0.0, 0};
    bench one = {&room, 0, 1, 0};
    put_tool(library, name, &one);
    return room.diameter;
}

static const char *kind_for(uint32_t work)
{
    return work == BITE_WORK_DRILL     ? "drill"
           : work == BITE_WORK_CHAMFER ? "chamfer mill"
                                       : "end mill";
}

/* The job's tool of that name and of the kind that the work needs: 3mm may be a drill, a cone and
 * an end mill. */
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
    tool->diameter = diameter_of(job->library, name);
    tool->why = tool->better = "";
    return (uint32_t)job->tool_count++;
}

/* What the tables have that would be stiffer than the best at hand. */
static const char *better_than(bite_job *job, const bench *all, const tool_requirement *wanted,
                               const candidate *taken)
{
    size_t fitting = 0;
    const candidate *best = pick(all, wanted, &fitting);
    if (best == NULL || fitting == 0 || best->diameter <= 1.2 * taken->diameter) {
        return "";
    }
    char diameter[40];
    return bite_plan_text(
        job, "%s would fit too and is %.0f times as stiff",
        bite_plan_quantity(job, best->diameter, BITE_KIND_LENGTH, diameter, sizeof diameter),
        pow(best->diameter / taken->diameter, 4.0) /
            fmax(1.0, pow(best->reach / taken->reach, 3.0)));
}

static void choose_tool(bite_job *job, const bench *from, const bench *all,
                        const bite_section *section, bite_planned_pass *pass)
{
    const char *given = bite_job_file_text(section, "tool");
    if (given != NULL) {
        pass->tool = tool_index(job, given, pass->work);
        if (job->tools[pass->tool].why[0] == 0) {
            job->tools[pass->tool].why = "named by the job";
        }
        return;
    }
    tool_requirement wanted = wish_of(job, section, pass);
    size_t fitting = 0;
    const candidate *tool = pick(from, &wanted, &fitting);
    if (tool == NULL) {
        pass->tool = tool_index(job, "3mm", pass->work);
        return;
    }
    if (fitting == 0 && prefers(pass->work) &&
        tool->reach >= wanted.reach) { /* a wish, not a need */
        fitting = 1;
        wanted.by = "what is at hand: a narrower one wastes less sheet";
    }
    pass->tool = tool_index(job, tool->name, pass->work);
    bite_planned_tool *kept = &job->tools[pass->tool];
    char depth[40];
    (void)bite_plan_quantity(job, wanted.reach, BITE_KIND_LENGTH, depth, sizeof depth);
    if (fitting == 0) {
        bite_plan_remark(
            job, BITE_CARE, "tools",
            bite_plan_text(job, "No tool %s fits %s (%s deep): %s was taken as the nearest.",
                           from->at_hand ? "at hand" : "of the table", pass->title, depth,
                           tool->name),
            "");
    }
    if (kept->why[0] == 0) {
        kept->why = fitting == 0
                        ? bite_plan_text(job, "nearest of %zu: none fits and reaches %s",
                                         from->count, depth)
                        : bite_plan_text(job, "largest of %zu that fit and reach %s; held by %s",
                                         fitting, depth, wanted.by);
        kept->better = from->at_hand ? better_than(job, all, &wanted, tool) : "";
    }
}

/* ---- features ---- */

static double taken_by_face(const bite_job *job, uint32_t setup)
{
    return setup == 2 ? job->stock.removal.thick_below : job->stock.removal.thick_top;
}

static double depth_of(const bite_job *job, const bite_section *section, uint32_t work,
                       uint32_t setup)
{
    double depth = bite_job_file_number(section, "depth");
    if (!isnan(depth)) {
        return depth;
    }
    if (work == BITE_WORK_FACE) {
        return fmax(taken_by_face(job, setup), 1e-6);
    }
    if ((work == BITE_WORK_POCKET || work == BITE_WORK_ROUGH) && !isnan(job->thinnest)) {
        return fmax(job->thickness - job->thinnest, 1e-6);
    }
    /* through: down into the tape, from the sheet's thick end where its faces stay */
    return (job->stock.skim > 0.0 ? job->thickness : fmax(job->thickness, job->stock.thick)) +
           job->hold.break_through;
}

static void set_pass(bite_job *job, const bite_section *section, bite_planned_pass *pass)
{
    double setup = bite_job_file_number(section, "setup");
    double count = bite_job_file_number(section, "count");
    const char *title = bite_job_file_text(section, "title");
    pass->name = section->tail;
    pass->work = bite_job_file_word(section, "work", BITE_WORK_SLOT);
    pass->title = title == NULL ? bite_work_title(pass->work) : title;
    pass->setup = isnan(setup) ? 1 : (uint32_t)setup;
    pass->count = isnan(count) ? 1 : (uint32_t)count;
    pass->passes = 1;
    pass->depth = depth_of(job, section, pass->work, pass->setup);
    pass->width = bite_job_file_number(section, "width");
    pass->hold_utilization = (double)NAN;
    pass->slowed = 1.0;
    int inside = pass->work == BITE_WORK_POCKET || pass->work == BITE_WORK_ROUGH ||
                 pass->work == BITE_WORK_BORE;
    if (inside && section->value_count > 0 && isnan(bite_job_file_number(section, "across"))) {
        bite_plan_remark(job, BITE_NOTE, "passes",
                         bite_plan_text(job,
                                        "How large %s is was not said (length, across): it was "
                                        "timed, and bows the part, as if it "
                                        "were as large as the part.",
                                        pass->title),
                         "");
    }
}

/* A job that names no passes: its faces, its web, and cutting free. Sections of their own stand for
 * them. */
static void make_usual(bite_job *job)
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
    } usual[] = {
        {&face_below, BITE_WORK_FACE, 1, job->stock.removal.thick_below > 0.0},
        {&face_top, BITE_WORK_FACE, 2, job->stock.removal.thick_top > 0.0},
        {&pocket, BITE_WORK_POCKET, 2, !isnan(job->thinnest) && job->thinnest < job->thickness},
        {&cut_free, BITE_WORK_FREE, 2, 1},
    };
    int two = job->stock.removal.thick_below > 0.0;
    for (size_t i = 0; i < sizeof usual / sizeof *usual; i++) {
        if (usual[i].wanted) {
            bite_planned_pass *pass = &job->passes[job->pass_count];
            job->file_data.passes[job->pass_count++] = usual[i].section;
            set_pass(job, usual[i].section, pass);
            pass->work = usual[i].work;
            pass->title = bite_work_title(pass->work);
            pass->setup = two ? usual[i].setup : 1;
            pass->depth = pass->work == BITE_WORK_FACE && usual[i].section == &face_below
                              ? job->stock.removal.thick_below
                              : depth_of(job, NULL, pass->work, 1);
        }
    }
    job->file_data.pass_count = job->pass_count;
    bite_plan_remark(job, BITE_NOTE, "passes",
                     "The job names no passes: facing, the thin section as one pocket, and cutting "
                     "free were taken.",
                     "");
}

/* A file that leaves the sheet open is told of passes deeper than the one that was chosen. */
static void check_depths(bite_job *job)
{
    for (size_t i = 0; i < job->pass_count; i++) {
        const bite_planned_pass *pass = &job->passes[i];
        if (pass->depth > bite_job_file_deepest(pass->work, job->stock.thick) * (1.0 + 1e-9)) {
            char thick[40];
            bite_error error = BITE_ERROR_INIT;
            bite_error_set(
                &error, BITE_BAD_FILE, "the pass is deeper than the sheet, which is up to %s thick",
                bite_plan_quantity(job, job->stock.thick, BITE_KIND_LENGTH, thick, sizeof thick));
            bite_error_key(&error, "depth");
            bite_error_hint(&error, "depth of the whole feature, from its own face");
            bite_plan_fault(job, job->file_data.passes[i], &error);
        }
    }
}

/* A slot, pocket or bore that is narrower than its tool cannot be. */
static void check_width(bite_job *job, const bite_section *section, const bite_planned_pass *pass)
{
    double across = bite_job_file_number(section, "across");
    double diameter = job->tools[pass->tool].diameter;
    int inside = pass->work == BITE_WORK_SLOT || pass->work == BITE_WORK_POCKET ||
                 pass->work == BITE_WORK_ROUGH || pass->work == BITE_WORK_BORE;
    char wide[40];
    if (inside && diameter > across * (1.0 + 1e-9)) {
        bite_error error = BITE_ERROR_INIT;
        bite_error_set(&error, BITE_BAD_FILE, "its tool, %.60s, is wider than it is: %s across",
                       job->tools[pass->tool].name,
                       bite_plan_quantity(job, across, BITE_KIND_LENGTH, wide, sizeof wide));
        bite_error_key(&error, "across");
        bite_error_hint(&error, "a smaller tool, named or at hand");
        bite_plan_fault(job, section, &error);
    }
}

/* A hole's depth is that of its full width, and the drill's point goes deeper: R/tan(half of its
 * angle). */
static void add_point(bite_job *job, const bite_section *section, bite_planned_pass *pass)
{
    double radius = 0.5 * job->tools[pass->tool].diameter;
    double point = radius / tan(0.5 * bite_input_find("point_angle")->fallback);
    double stated = bite_job_file_number(section, "depth");
    double part = job->thickness;
    int blind = stated < part;
    double below = isnan(stated) ? job->hold.break_through + point : stated + point - part;
    char length[40];
    char by[40];
    if (pass->work != BITE_WORK_DRILL) {
        return;
    }
    pass->depth += point;
    (void)bite_plan_quantity(job, point, BITE_KIND_LENGTH, length, sizeof length);
    (void)bite_plan_quantity(job, below, BITE_KIND_LENGTH, by, sizeof by);
    if (blind && below > 0.0) {
        bite_plan_remark(
            job, BITE_CARE, "passes",
            bite_plan_text(job,
                           "The point of %s is %s long: it comes through the other face, by %s.",
                           pass->title, length, by),
            "estimate: point of 118 degrees");
    } else if (!blind && !(below <= job->hold.tape)) {
        bite_plan_remark(job, BITE_NOTE, "passes",
                         bite_plan_text(job,
                                        "%s goes %s below the part, for its point is %s long: a "
                                        "board under the part, holes in the "
                                        "fixture there, or a bore with an end mill.",
                                        pass->title, by, length),
                         "estimate: point of 118 degrees");
    }
}

bite_status bite_plan_features(bite_job *job, bite_error *error)
{
    bench from = {NULL, 0, 0, 0};
    bench all = {NULL, 0, 0, 0};
    size_t most = job->file_data.pass_count > 8 ? job->file_data.pass_count : 8;
    job->passes = bite_arena_alloc(job->arena, most, sizeof *job->passes);
    job->tools = bite_arena_alloc(job->arena, most, sizeof *job->tools);
    if (job->passes == NULL || job->tools == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a plan");
    }
    for (size_t i = 0; i < job->file_data.pass_count; i++) {
        set_pass(job, job->file_data.passes[i], &job->passes[job->pass_count++]);
    }
    if (job->pass_count == 0) {
        make_usual(job);
    }
    if (!fill_bench(job, &from) || (from.at_hand && !fill_table(job, &all))) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a plan");
    }
    check_depths(job);
    uint32_t first = 2;
    for (size_t i = 0; i < job->pass_count; i++) {
        choose_tool(job, &from, &all, job->file_data.passes[i], &job->passes[i]);
        check_width(job, job->file_data.passes[i], &job->passes[i]);
        add_point(job, job->file_data.passes[i], &job->passes[i]);
        job->setups = job->passes[i].setup > job->setups ? job->passes[i].setup : job->setups;
        first = job->passes[i].setup < first ? job->passes[i].setup : first;
    }
    for (size_t i = 0; i < job->pass_count && first > 1; i++) { /* one setup, whatever its number */
        job->passes[i].setup = job->setups = 1;
    }
    return bite_plan_status(job, error);
}

/* ---- order ---- */

/* Faces first, walls finished after they are roughed, cut free last; a setup after the one before
 * it. */
static int comes_before(const bite_planned_pass *a, const bite_planned_pass *b)
{
    if (a->setup != b->setup) {
        return a->setup < b->setup;
    }
    if (a->work == b->work) {
        return 0;
    }
    if (a->work == BITE_WORK_FACE || b->work == BITE_WORK_FREE) {
        return 1;
    }
    if (b->work == BITE_WORK_FACE || a->work == BITE_WORK_FREE) {
        return 0;
    }
    int opens = a->work == BITE_WORK_ROUGH || a->work == BITE_WORK_POCKET ||
                a->work == BITE_WORK_SLOT || a->work == BITE_WORK_CONTOUR ||
                a->work == BITE_WORK_BORE;
    int ends = b->work == BITE_WORK_FINISH || b->work == BITE_WORK_CHAMFER;
    return (opens && ends) || (a->work == BITE_WORK_ROUGH && b->work == BITE_WORK_POCKET) ||
           (a->work == BITE_WORK_DRILL && b->work == BITE_WORK_CHAMFER);
}

/* Which passes come before which, and all that follows from it. */
typedef struct pass_precedence {
    size_t count;
    unsigned char *before; /* count x count: as bite_pass_order_find takes it */
    uint64_t reach[BITE_PASSES_MAX][BITE_PASSES_MAX / 64]; /* of each pass: those that come after
                                                              it, over others too */
} pass_precedence;

static int reaches(const pass_precedence *precedence, size_t from, size_t to)
{
    return (int)(precedence->reach[from][to / 64] >> (to % 64) & 1u);
}

static void put_before(pass_precedence *precedence, size_t first, size_t then)
{
    precedence->before[first * precedence->count + then] = 1;
    for (size_t i = 0; i < precedence->count; i++) {
        if ((i == first || reaches(precedence, i, first)) && !reaches(precedence, i, then)) {
            for (size_t k = 0; k < BITE_PASSES_MAX / 64; k++) {
                precedence->reach[i][k] |= precedence->reach[then][k];
            }
            precedence->reach[i][then / 64] |= (uint64_t)1 << (then % 64);
        }
    }
}

/* What the screws go through is there before anything hangs on them. */
static int holes_first(const bite_job *job, const bite_planned_pass *a, const bite_planned_pass *b)
{
    const bite_item_record *hold = job->hold.hold;
    return hold != NULL && bite_item_word(hold, "clamp", BITE_CLAMP_NONE) == BITE_CLAMP_SCREWS &&
           a->setup == b->setup && a->work == BITE_WORK_DRILL && b->work != BITE_WORK_DRILL &&
           b->work != BITE_WORK_FACE;
}

/* What the job says goes before what is usual: a usual order that would run against it is left out.
 */
static void fill_before(const bite_job *job, pass_precedence *precedence)
{
    char name[64];
    for (size_t k = 0; k < precedence->count; k++) {
        const char *after = bite_job_file_text(job->file_data.passes[k], "after");
        for (size_t n = 0; bite_job_file_name(after, n, name, sizeof name); n++) {
            for (size_t i = 0; i < precedence->count; i++) {
                if (bite_text_equals(job->passes[i].name, name)) {
                    put_before(precedence, i, k);
                }
            }
        }
    }
    for (int usual = 0; usual < 2; usual++) { /* setups first, for they are given too */
        for (size_t i = 0; i < precedence->count; i++) {
            for (size_t k = 0; k < precedence->count; k++) {
                const bite_planned_pass *first = &job->passes[i];
                const bite_planned_pass *then = &job->passes[k];
                if ((first->setup == then->setup) == usual &&
                    (comes_before(first, then) || holes_first(job, first, then)) &&
                    !reaches(precedence, k, i)) {
                    put_before(precedence, i, k);
                }
            }
        }
    }
}

/* Passes and their sections go into the order of work; tools into that of their use. */
static bite_status rearrange(bite_job *job, const uint32_t *order, bite_error *error)
{
    bite_planned_pass *passes = bite_arena_alloc(job->arena, job->pass_count, sizeof *passes);
    bite_planned_tool *tools = bite_arena_alloc(job->arena, job->tool_count, sizeof *tools);
    const bite_section *sections[BITE_PASSES_MAX];
    uint32_t place[BITE_PASSES_MAX] = {0};
    uint32_t used = 0;
    if (passes == NULL || tools == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a plan");
    }
    for (size_t i = 0; i < job->pass_count; i++) {
        passes[i] = job->passes[order[i]];
        sections[i] = job->file_data.passes[order[i]];
        if (place[passes[i].tool] == 0) {
            place[passes[i].tool] = ++used;
            tools[used - 1] = job->tools[passes[i].tool];
            tools[used - 1].place = used;
        }
        passes[i].tool = place[passes[i].tool] - 1;
        tools[passes[i].tool].passes++;
    }
    memcpy(job->file_data.passes, sections, job->pass_count * sizeof *sections);
    job->passes = passes;
    job->tools = tools;
    job->tool_count = used;
    return BITE_OK;
}

bite_status bite_plan_pass_order(bite_job *job, bite_error *error)
{
    size_t count = job->pass_count;
    pass_precedence *precedence = bite_arena_alloc(job->arena, 1, sizeof *precedence);
    unsigned char *before = bite_arena_alloc(job->arena, count * count, 1);
    uint32_t tools[BITE_PASSES_MAX];
    uint32_t order[BITE_PASSES_MAX];
    if (precedence == NULL || before == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a plan");
    }
    precedence->count = count;
    precedence->before = before;
    fill_before(job, precedence);
    for (size_t i = 0; i < count; i++) {
        tools[i] = job->passes[i].tool;
    }
    if (!bite_pass_order_find(count, before, tools, order, &job->time.tool_changes)) {
        return bite_error_set(
            error, BITE_FAULT,
            "passes wait for each other although the file's own order has no circle");
    }
    return rearrange(job, order, error);
}
