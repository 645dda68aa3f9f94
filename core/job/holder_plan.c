/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The holder and the shank of a tool, which are wider than the tool, against what rises beside its
 * path: walls, screws and clamps.
 *
 * Each is a cylinder about the tool's axis whose lower end is a length above the tip. Heights count
 * from the top of the stock. A feature that lies within an earlier pocket or bore begins at its
 * floor, where depths of passes count from; the wall above it is beside the tool then.
 */
#include "core/job/holder_plan.h"
#include "core/base/error.h"
#include "core/job/job_file.h"
#include "core/job/machine_lengths.h"
#include "core/job/obstacles.h"
#include "core/job/pass_sweep.h"
#include "core/job/plan_text.h"
#include "core/job/remarks.h"
#include "core/job/setup_plan.h"
#include "core/library/collection.h"
#include "core/library/item.h"
#include <math.h>

static const double hair = 1e-9;
/* A feature is within another if it is smaller by this all round: otherwise it is cut again. */
static const double smaller = 10e-6; /* m */

/* A part of the spindle's side of the tool. */
typedef struct cylinder {
    const char *name;
    double diameter; /* NaN: not known */
    double from_tip; /* m, of its lower end */
} cylinder;

/* What the job states, else the holder that it names, else the nut or nose of the machine. */
static double holder_diameter(const bite_job *job)
{
    const char *name = bite_job_file_text(job->file_data.machine, "holder");
    double stated = bite_job_file_number(job->file_data.machine, "holder_diameter");
    const bite_item_record *holder = NULL;
    if (!isnan(stated) || name == NULL ||
        bite_library_record(job->library, BITE_HOLDERS, name, &holder, NULL) != BITE_OK ||
        isnan(bite_item_figure(holder, "holder_diameter"))) {
        return bite_plan_machine_length(job, "holder_diameter").value;
    }
    return bite_item_figure(holder, "holder_diameter");
}

static cylinder holder_of(const bite_job *job, const bite_planned_pass *pass)
{
    cylinder holder = {"holder", holder_diameter(job), pass->answer->full.stickout};
    return holder;
}

static cylinder shank_of(const bite_planned_pass *pass)
{
    const bite_cut *cut = &pass->answer->full;
    double neck = isnan(cut->neck_diameter) || isnan(cut->neck_length) ? 0.0 : cut->neck_length;
    cylinder shank = {"shank", cut->shank_diameter, cut->flute_length + neck};
    return shank;
}

/* ---- how deep the tool goes ---- */

/* For each pass, the depth below the top of the stock at which the feature of each position begins.
 */
typedef struct feature_starts {
    double **of_pass;
} feature_starts;

/* Whether an earlier pass has cut a hollow from the same side that has this area within it, and at
 * which of its positions. */
static int is_within(const bite_job *job, size_t earlier, size_t index, const bite_round_area *area,
                     bite_swept_area *hollow, size_t *position)
{
    const bite_planned_pass *pass = &job->passes[earlier];
    uint32_t side = bite_plan_setup(job, pass->setup)->side;
    bite_swept_area swept;
    int hollows = pass->work == BITE_WORK_POCKET || pass->work == BITE_WORK_ROUGH ||
                  pass->work == BITE_WORK_SLOT || pass->work == BITE_WORK_BORE;
    if (!hollows || side != bite_plan_setup(job, job->passes[index].setup)->side ||
        job->places[earlier]->count == 0 ||
        job->file_data.passes[earlier] == job->file_data.passes[index]) {
        return 0;
    }
    for (size_t k = 0; bite_pass_sweep(job, earlier, k, &swept); k++) {
        if (swept.outer.half_x + swept.outer.radius < area->half_x + area->radius) {
            break; /* its features are all alike, and too small */
        }
        int on_boss = swept.hollow && bite_round_area_gap(&swept.inner, area) < 0.0;
        if (!on_boss && bite_round_area_inside(&swept.outer, area) > smaller) {
            *hollow = swept;
            *position = k;
            return 1;
        }
    }
    return 0;
}

/* The depth of the tip below the top of the stock, for a feature that begins at `start`. What goes
 * through the part has its depth from the top, and so has what would be deeper than any cut if it
 * began at the floor. */
static double tip_depth(const bite_job *job, size_t index, double start)
{
    const bite_planned_pass *pass = &job->passes[index];
    double stated = bite_job_file_number(job->file_data.passes[index], "depth");
    double part = bite_plan_setup_height(job, bite_plan_setup(job, pass->setup));
    double lowest = pass->path.tip_depth > pass->depth ? pass->path.tip_depth : pass->depth;
    int from_top = isnan(stated) || start + stated > bite_job_file_deepest(pass->work, part);
    return from_top ? lowest : start + lowest;
}

/* The floor of the deepest hollow that has this area within it. */
static double start_of(const bite_job *job, const feature_starts *starts, size_t index,
                       const bite_round_area *area)
{
    double deepest = 0.0;
    for (size_t i = 0; i < index; i++) {
        bite_swept_area hollow;
        size_t position = 0;
        if (is_within(job, i, index, area, &hollow, &position)) {
            deepest = fmax(deepest, tip_depth(job, i, starts->of_pass[i][position]));
        }
    }
    return deepest;
}

/* In the order of work, so that hollows are known before what lies in them. */
static bite_status find_starts(bite_job *job, feature_starts *starts, bite_error *error)
{
    starts->of_pass = bite_arena_alloc(job->arena, job->pass_count, sizeof *starts->of_pass);
    for (size_t i = 0; starts->of_pass != NULL && i < job->pass_count; i++) {
        size_t count = job->places[i]->count > 0 ? job->places[i]->count : 1;
        bite_swept_area swept;
        starts->of_pass[i] = bite_arena_alloc(job->arena, count, sizeof **starts->of_pass);
        if (starts->of_pass[i] == NULL) {
            starts->of_pass = NULL;
            break;
        }
        for (size_t k = 0; k < count; k++) {
            int known = job->places[i]->count > 0 && bite_pass_sweep(job, i, k, &swept);
            starts->of_pass[i][k] = known ? start_of(job, starts, i, &swept.outer) : 0.0;
        }
    }
    return starts->of_pass == NULL ? bite_error_set(error, BITE_NO_MEMORY, "no memory for a plan")
                                   : BITE_OK;
}

/* ---- what it meets ---- */

/* The worst of a cylinder of a pass with one thing. */
typedef struct encounter {
    double gap;    /* NaN: none */
    double height; /* of the thing above the lower end of the cylinder; NaN: not known */
    double level;  /* of that end above the top of the stock */
    size_t position;
} encounter;

static void keep_nearest(encounter *met, double gap, double height, double level, size_t position)
{
    if (gap < met->gap || (isnan(met->gap) && !isnan(gap))) {
        met->gap = gap;
        met->height = height;
        met->level = level;
        met->position = position;
    }
}

static void note_nearest(bite_planned_pass *pass, double gap, const char *thing)
{
    if (!(pass->holder_clearance <= gap)) {
        pass->holder_clearance = gap;
        pass->holder_nearest = thing;
    }
}

static void report(bite_job *job, size_t index, const cylinder *body, const encounter *met,
                   const char *thing)
{
    bite_planned_pass *pass = &job->passes[index];
    const bite_remark_value values[] = {
        bite_remark_text(pass->title),      bite_remark_text(body->name),
        bite_remark_number(body->diameter), bite_remark_number(body->from_tip),
        bite_remark_number(-met->gap),      bite_remark_text(thing),
        bite_remark_number(met->height)};
    note_nearest(pass, met->gap, thing);
    if (met->gap < -hair) {
        job->stock.strikes_hold = 1;
        bite_plan_remark(job, BITE_REMARK_HOLDER_HITS, values, 7);
    }
}

/* One whose height is not known is a question, unless the tool itself sweeps into it. */
static void ask_height(bite_job *job, size_t index, const cylinder *body, const encounter *met,
                       const char *thing)
{
    const bite_remark_value values[] = {bite_remark_text(job->passes[index].title),
                                        bite_remark_text(body->name),
                                        bite_remark_number(body->diameter),
                                        bite_remark_number(met->level), bite_remark_text(thing)};
    bite_plan_remark(job, BITE_REMARK_HOLDER_OVER, values, 5);
}

static void meet_obstacle(bite_job *job, const feature_starts *starts, size_t index,
                          const cylinder *body, size_t thing)
{
    const bite_planned_pass *pass = &job->passes[index];
    double height = bite_obstacle_height(job, index, thing);
    double wider = 0.5 * (body->diameter - job->tools[pass->tool].diameter);
    encounter met = {(double)NAN, (double)NAN, (double)NAN, 0};
    bite_swept_area swept;
    for (size_t k = 0; bite_pass_sweep(job, index, k, &swept); k++) {
        double level = body->from_tip - tip_depth(job, index, starts->of_pass[index][k]);
        size_t nearest = 0;
        if (level < height || isnan(height)) {
            bite_swept_area wide = bite_swept_area_widened(swept, wider);
            double gap = bite_obstacle_gap(job, index, &wide, thing, &nearest);
            keep_nearest(&met, gap, height - level, level, nearest);
        }
    }
    if (isnan(met.gap)) {
        return;
    }
    const char *name = bite_obstacle_name(job, thing, met.position);
    if (!isnan(height)) {
        report(job, index, body, &met, name);
    } else if (met.gap < -hair) {
        ask_height(job, index, body, &met, name);
    }
}

/* How far an area keeps from the wall of a hollow, and from the boss in it; negative: into it. */
static double room_in(const bite_swept_area *hollow, const bite_round_area *area)
{
    double room = bite_round_area_inside(&hollow->outer, area);
    return hollow->hollow ? fmin(room, bite_round_area_gap(&hollow->inner, area)) : room;
}

/* The walls of the hollows that a feature lies in, where the cylinder goes below their upper edge.
 */
static void meet_walls(bite_job *job, const feature_starts *starts, size_t index,
                       const cylinder *body)
{
    const bite_planned_pass *pass = &job->passes[index];
    double wider = 0.5 * (body->diameter - job->tools[pass->tool].diameter);
    for (size_t i = 0; i < index && job->places[index]->count > 0; i++) {
        encounter met = {(double)NAN, (double)NAN, (double)NAN, 0};
        bite_swept_area swept;
        bite_swept_area hollow;
        for (size_t k = 0; bite_pass_sweep(job, index, k, &swept); k++) {
            double level = body->from_tip - tip_depth(job, index, starts->of_pass[index][k]);
            size_t position = 0;
            if (!is_within(job, i, index, &swept.outer, &hollow, &position)) {
                continue;
            }
            double edge = -starts->of_pass[i][position];
            swept = bite_swept_area_widened(swept, wider);
            if (level < edge - hair) {
                keep_nearest(&met, room_in(&hollow, &swept.outer), edge - level, level, k);
            }
        }
        if (!isnan(met.gap)) {
            report(job, index, body, &met,
                   bite_plan_text(job, "the wall of \"%.60s\"", job->passes[i].title));
        }
    }
}

bite_status bite_plan_holders(bite_job *job, bite_error *error)
{
    feature_starts starts;
    bite_status status = find_starts(job, &starts, error);
    for (size_t i = 0; i < job->pass_count && status == BITE_OK; i++) {
        bite_planned_pass *pass = &job->passes[i];
        const cylinder bodies[] = {shank_of(pass), holder_of(job, pass)};
        pass->holder_clearance = (double)NAN;
        pass->holder_nearest = "";
        for (size_t k = 0; k < sizeof bodies / sizeof *bodies; k++) {
            if (!(bodies[k].diameter > job->tools[pass->tool].diameter)) {
                continue; /* no wider than the tool, or not known */
            }
            meet_walls(job, &starts, i, &bodies[k]);
            for (size_t thing = 0; thing < job->file_data.obstacle_count; thing++) {
                if (bite_obstacle_is_there(job, i, thing)) {
                    meet_obstacle(job, &starts, i, &bodies[k], thing);
                }
            }
        }
    }
    return status;
}
