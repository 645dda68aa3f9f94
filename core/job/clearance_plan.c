/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What every pass sweeps, against neighbouring parts, screws, clamps and tabs.
 *
 * Positions count from a corner of the part along its length and width, those on the blank from a
 * corner of the blank, both as seen from above in the setup of the pass or of the screw. All parts
 * of a blank are alike, so that one part and its eight neighbours stand for all of them.
 */
#include "core/job/clearance_plan.h"
#include "core/job/hole_plan.h"
#include "core/job/job_file.h"
#include "core/job/outline_reach.h"
#include "core/job/plan_text.h"
#include "core/job/positions.h"
#include "core/job/remarks.h"
#include "core/job/swept_area.h"
#include "core/library/collection.h"
#include "core/library/item.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

enum { ON_PART, ON_BLANK };

/* A screw's head or washer over its thread (ISO 7089: 9 mm for M4, 12 mm for M6; memory). */
static const double washer_over_screw = 2.25;
/* How close a hole is to a screw that goes through it. */
static const double own_hole = 0.1e-3; /* m */
static const double hair = 1e-9;
static const char neighbour[] = "the neighbouring part";

static uint32_t clamp_of(const bite_job *job)
{
    return job->hold.hold == NULL ? BITE_CLAMP_NONE
                                  : bite_item_word(job->hold.hold, "clamp", BITE_CLAMP_NONE);
}

static double known(double stated, double otherwise)
{
    return isnan(stated) ? otherwise : stated;
}

/* ---- what a pass sweeps ---- */

static bite_round_area whole_part(const bite_job *job)
{
    bite_round_area area = {0.5 * job->length, 0.5 * job->width, 0.5 * job->length,
                            0.5 * job->width, 0.0};
    return area;
}

/* A rectangle with corners as round as they can be. */
static bite_round_area rounded(double x, double y, double along, double across, double radius)
{
    double r = fmin(radius, 0.5 * fmin(along, across));
    bite_round_area area = {x, y, 0.5 * along - r, 0.5 * across - r, r};
    return area;
}

/* A band along the wall of a feature or the edge of the part, by the tool's diameter. */
static bite_swept_area along_wall(bite_round_area wall, double inwards, double outwards)
{
    bite_swept_area swept = {wall, wall, 1};
    swept.outer.radius += outwards;
    if (inwards <= swept.inner.radius) {
        swept.inner.radius -= inwards;
    } else {
        double more = inwards - swept.inner.radius;
        swept.inner.radius = 0.0;
        swept.inner.half_x -= more;
        swept.inner.half_y -= more;
    }
    swept.hollow = swept.inner.half_x >= 0.0 && swept.inner.half_y >= 0.0 ? 1u : 0u;
    return swept;
}

/* Returns 0 if the size of the feature is not known. */
static int sweep_feature(const bite_job *job, size_t index, double x, double y,
                         bite_swept_area *swept)
{
    const bite_planned_pass *pass = &job->passes[index];
    const bite_section *section = job->file_data.passes[index];
    double diameter = job->tools[pass->tool].diameter;
    double length = bite_job_file_number(section, "length");
    double across = bite_job_file_number(section, "across");
    int turned = bite_job_file_word(section, "along", 0) == 1;
    bite_round_area hole = {x, y, 0.0, 0.0, 0.5 * diameter};
    bite_round_area sides = turned ? rounded(x, y, across, length, 0.5 * diameter)
                                   : rounded(x, y, length, across, 0.5 * diameter);
    bite_swept_area area = {sides, sides, 0};
    switch (pass->work) {
    case BITE_WORK_SLOT:
    case BITE_WORK_POCKET:
    case BITE_WORK_ROUGH:
        *swept = area;
        return !isnan(length + across);
    case BITE_WORK_BORE:
        hole.radius = 0.5 * known(across, diameter);
        area.outer = hole;
        *swept = area;
        return 1;
    case BITE_WORK_THREAD_MILL: /* its tool runs around in the thread */
        hole.radius = 0.5 * known(bite_plan_thread_diameter(job, section), diameter);
        area.outer = hole;
        *swept = area;
        return 1;
    case BITE_WORK_FINISH:
    case BITE_WORK_CONTOUR:
        *swept = along_wall(sides, diameter, 0.0);
        return !isnan(length + across);
    case BITE_WORK_CHAMFER: /* over the opening and, by its leg, beside it */
        *swept = along_wall(sides, diameter, pass->depth);
        return !isnan(length + across);
    default:
        area.outer = hole;
        *swept = area;
        return 1;
    }
}

/* What a pass sweeps at its index-th position; returns 0 if there is none or it is not known. */
static int sweep(const bite_job *job, size_t index, const bite_positions *at, size_t position,
                 bite_swept_area *swept)
{
    const bite_planned_pass *pass = &job->passes[index];
    const bite_section *section = job->file_data.passes[index];
    if (at->count > 0) {
        return position < at->count &&
               sweep_feature(job, index, at->x[position], at->y[position], swept);
    }
    if (position > 0 || !bite_pass_rounds_part(job, section, pass->work)) {
        return 0;
    }
    double inwards = pass->work == BITE_WORK_CHAMFER ? pass->depth : 0.0;
    *swept = along_wall(whole_part(job), inwards, bite_pass_reach(job, index));
    return 1;
}

/* ---- what it may meet ---- */

/* Distances between neighbouring parts, along the length and the width of the part. */
static void steps_of(const bite_job *job, double *along, double *across, uint32_t *columns,
                     uint32_t *rows)
{
    const bite_layout *layout = &job->stock.layout;
    *along = job->length + job->stock.gap;
    *across = job->width + job->stock.gap;
    *columns = layout->turned ? layout->rows : layout->along;
    *rows = layout->turned ? layout->along : layout->rows;
}

/* A thing on the blank, as it lies to the part of a column and a row. */
static bite_round_area seen_from_part(const bite_job *job, bite_round_area thing, double column,
                                      double row)
{
    double along = 0.0;
    double across = 0.0;
    uint32_t columns = 0;
    uint32_t rows = 0;
    steps_of(job, &along, &across, &columns, &rows);
    if (job->stock.layout.turned) { /* the part's length lies across the blank */
        bite_round_area turned = {thing.y, thing.x, thing.half_y, thing.half_x, thing.radius};
        thing = turned;
    }
    thing.x -= job->stock.margin + column * along;
    thing.y -= job->stock.margin + row * across;
    return thing;
}

static void meet(bite_planned_pass *pass, double gap, const char *name)
{
    if (isnan(pass->clearance) || gap < pass->clearance) {
        pass->clearance = gap;
        pass->nearest = name;
    }
}

static double gap_to(const bite_swept_area *swept, bite_round_area thing, double x, double y)
{
    thing.x += x;
    thing.y += y;
    return bite_swept_area_gap(swept, &thing);
}

static void meet_neighbours(const bite_job *job, const bite_swept_area *swept,
                            bite_planned_pass *pass)
{
    double along = 0.0;
    double across = 0.0;
    uint32_t columns = 0;
    uint32_t rows = 0;
    steps_of(job, &along, &across, &columns, &rows);
    for (int i = -1; i <= 1; i++) {
        for (int k = -1; k <= 1; k++) {
            if ((i != 0 || k != 0) && (i == 0 || columns > 1) && (k == 0 || rows > 1)) {
                meet(pass, gap_to(swept, whole_part(job), i * along, k * across), neighbour);
            }
        }
    }
}

/* A thing on every part: this part's and its neighbours'. */
static void meet_on_part(const bite_job *job, const bite_swept_area *swept, bite_round_area thing,
                         const char *name, bite_planned_pass *pass)
{
    double along = 0.0;
    double across = 0.0;
    uint32_t columns = 0;
    uint32_t rows = 0;
    steps_of(job, &along, &across, &columns, &rows);
    for (int i = -1; i <= 1; i++) {
        for (int k = -1; k <= 1; k++) {
            if ((i == 0 || columns > 1) && (k == 0 || rows > 1)) {
                meet(pass, gap_to(swept, thing, i * along, k * across), name);
            }
        }
    }
}

/* A thing on the blank, against the parts that are nearest to it. */
static void meet_on_blank(const bite_job *job, const bite_swept_area *swept, bite_round_area thing,
                          const char *name, bite_planned_pass *pass)
{
    double along = 0.0;
    double across = 0.0;
    uint32_t columns = 0;
    uint32_t rows = 0;
    steps_of(job, &along, &across, &columns, &rows);
    bite_round_area first = seen_from_part(job, thing, 0.0, 0.0);
    double column = floor(first.x / along);
    double row = floor(first.y / across);
    double reach_x = ceil((first.half_x + first.radius) / along) + 1.0;
    double reach_y = ceil((first.half_y + first.radius) / across) + 1.0;
    for (double i = fmax(0.0, column - reach_x); i <= column + reach_x && i < columns; i++) {
        for (double k = fmax(0.0, row - reach_y); k <= row + reach_y && k < rows; k++) {
            meet(pass,
                 bite_swept_area_gap(swept,
                                     &(bite_round_area){first.x - i * along, first.y - k * across,
                                                        first.half_x, first.half_y, first.radius}),
                 name);
        }
    }
}

/* Whether a pass makes the hole of a screw, or comes before it is drilled. */
static int before_screw(const bite_job *job, size_t index, double x, double y)
{
    size_t drilled = 0;
    for (size_t i = 0; i < job->pass_count; i++) {
        bite_positions at;
        uint32_t work = job->passes[i].work;
        (void)bite_positions_read(bite_job_file_text(job->file_data.passes[i], "at"), &at, NULL);
        for (size_t k = 0; k < at.count && (work == BITE_WORK_DRILL || work == BITE_WORK_BORE ||
                                            work == BITE_WORK_CHAMFER);
             k++) {
            drilled = hypot(at.x[k] - x, at.y[k] - y) < own_hole ? i + 1 : drilled;
        }
    }
    return index < drilled;
}

static double head_of(const bite_job *job, const bite_section *obstacle)
{
    double stated = bite_job_file_number(job->file_data.hold, "screw");
    double screw = isnan(stated) ? bite_item_figure_or(job->hold.hold, "screw", 4e-3) : stated;
    return known(bite_job_file_number(obstacle, "head"), washer_over_screw * screw);
}

static void meet_obstacle(bite_job *job, size_t index, const bite_swept_area *swept,
                          const bite_section *obstacle)
{
    bite_planned_pass *pass = &job->passes[index];
    bite_positions at;
    int screw = strncmp(obstacle->name, "screw.", 6) == 0;
    uint32_t on = bite_job_file_word(obstacle, "on", screw ? ON_PART : ON_BLANK);
    double setup = bite_job_file_number(obstacle, "setup");
    double below = known(bite_job_file_number(obstacle, "below"), 0.0);
    double length = bite_job_file_number(obstacle, "length");
    double width = bite_job_file_number(obstacle, "width");
    (void)bite_positions_read(bite_job_file_text(obstacle, "at"), &at, NULL);
    if ((!isnan(setup) && setup != (double)pass->setup) || pass->depth <= below) {
        return;
    }
    for (size_t i = 0; i < at.count; i++) {
        bite_round_area thing =
            screw ? (bite_round_area){at.x[i], at.y[i], 0.0, 0.0, 0.5 * head_of(job, obstacle)}
                  : (bite_round_area){at.x[i], at.y[i], 0.5 * length, 0.5 * width, 0.0};
        const char *name =
            at.count > 1 ? bite_plan_text(job, "%s %s, position %zu", screw ? "screw" : "clamp",
                                          obstacle->tail, i + 1)
                         : bite_plan_text(job, "%s %s", screw ? "screw" : "clamp", obstacle->tail);
        if (on == ON_PART && !(screw && before_screw(job, index, at.x[i], at.y[i]))) {
            meet_on_part(job, swept, thing, name, pass);
        } else if (on == ON_BLANK) {
            meet_on_blank(job, swept, thing, name, pass);
        }
    }
}

/* A face goes over the whole blank and its tool over the edges; returns 0 without a blank. */
static int sweep_face(const bite_job *job, size_t index, bite_swept_area *swept)
{
    const bite_layout *layout = &job->stock.layout;
    double overrun = job->tools[job->passes[index].tool].diameter;
    double length = layout->turned ? layout->width : layout->length;
    double width = layout->turned ? layout->length : layout->width;
    *swept = (bite_swept_area){{0.5 * length - job->stock.margin, 0.5 * width - job->stock.margin,
                                0.5 * length, 0.5 * width, overrun},
                               {0.0, 0.0, 0.0, 0.0, 0.0},
                               0};
    return layout->along > 0;
}

/* ---- the passes ---- */

static void report(bite_job *job, size_t index)
{
    const bite_planned_pass *pass = &job->passes[index];
    if (!(pass->clearance < -hair)) {
        return;
    }
    int part = strcmp(pass->nearest, neighbour) == 0;
    if (part && bite_pass_rounds_part(job, job->file_data.passes[index], pass->work)) {
        return; /* the gap that the job states is reported with the blank */
    }
    job->stock.strikes_parts |= part ? 1u : 0u;
    job->stock.strikes_hold |= part ? 0u : 1u;
    const bite_remark_value values[] = {bite_remark_text(pass->title),
                                        bite_remark_number(-pass->clearance),
                                        bite_remark_text(pass->nearest)};
    bite_plan_remark_from(job, BITE_REMARK_SWEEPS_INTO, part ? BITE_CARE : BITE_DANGER,
                          "common-practice", values, 3);
}

/* All that a pass sweeps against one thing: an obstacle, or NULL for the neighbouring parts.
 * Returns 0 if what it sweeps is not known. */
static int check_thing(bite_job *job, size_t index, const bite_section *obstacle)
{
    bite_planned_pass *pass = &job->passes[index];
    double clearance = pass->clearance;
    const char *nearest = pass->nearest;
    bite_positions at;
    bite_swept_area swept;
    int any = 0;
    (void)bite_positions_read(bite_job_file_text(job->file_data.passes[index], "at"), &at, NULL);
    int face = pass->work == BITE_WORK_FACE && at.count == 0;
    pass->clearance = (double)NAN;
    for (size_t k = 0;
         face ? k == 0 && sweep_face(job, index, &swept) : sweep(job, index, &at, k, &swept); k++) {
        any = 1;
        if (obstacle != NULL) {
            meet_obstacle(job, index, &swept, obstacle);
        } else if (!face) { /* a face is that of all parts */
            meet_neighbours(job, &swept, pass);
        }
    }
    report(job, index);
    if (!(pass->clearance >= clearance || isnan(clearance) || isnan(pass->clearance))) {
        return any;
    }
    if (!isnan(clearance)) {
        pass->clearance = clearance;
        pass->nearest = nearest;
    }
    return any;
}

static void check_pass(bite_job *job, size_t index, char *unknown, size_t size)
{
    size_t used = strlen(unknown);
    int any = check_thing(job, index, NULL);
    for (size_t i = 0; i < job->file_data.obstacle_count; i++) {
        (void)check_thing(job, index, job->file_data.obstacles[i]);
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
    double stated = bite_job_file_number(job->file_data.hold, "tab_height");
    double height = isnan(stated)
                        ? bite_item_figure_or(job->hold.hold, "tab_share", 0.5) * job->thickness
                        : stated;
    for (size_t i = 0; i < job->pass_count && clamp_of(job) == BITE_CLAMP_TABS; i++) {
        const bite_planned_pass *pass = &job->passes[i];
        double into = pass->depth - (job->thickness - height);
        if (pass->work != BITE_WORK_FREE && pass->work != BITE_WORK_CHAMFER && into > hair &&
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
    if (clamp_of(job) == BITE_CLAMP_SCREWS && job->file_data.obstacle_count == 0) {
        bite_plan_remark(job, BITE_REMARK_SCREWS_NOT_PLACED, NULL, 0);
    } else if (job->file_data.obstacle_count > 0 && unknown[0] != 0) {
        const bite_remark_value value = bite_remark_text(bite_plan_text(job, "%s", unknown));
        bite_plan_remark(job, BITE_REMARK_PASSES_NOT_PLACED, &value, 1);
    }
    return BITE_OK;
}
