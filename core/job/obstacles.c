/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What stands about a part: its neighbours on the blank, and the screws and clamps of the job file.
 *
 * Positions count from a corner of the part along its length and width, those on the blank from a
 * corner of the blank, both as seen from above in the setup of the pass or of the screw. All parts
 * of a blank are alike, so that one part and its eight neighbours stand for all of them.
 */
#include "core/job/obstacles.h"
#include "core/base/error.h"
#include "core/job/job_file.h"
#include "core/job/pass_sweep.h"
#include "core/job/plan_text.h"
#include "core/job/positions.h"
#include "core/job/setup_plan.h"
#include "core/library/item.h"
#include <math.h>
#include <string.h>

enum { ON_PART, ON_BLANK };

/* A screw's head or washer over its thread (ISO 7089: 9 mm for M4, 12 mm for M6; memory), and how
 * high its head stands with the washer (ISO 4762, ISO 7089: 4 mm and 0.8 mm for M4; memory). */
static const double washer_over_screw = 2.25;
static const double head_height_over_screw = 1.2;
static const double usual_screw = 4e-3; /* m */
/* How close a hole is to a screw that goes through it. */
static const double own_hole = 0.1e-3; /* m */

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

static double gap_to(const bite_swept_area *swept, bite_round_area thing, double x, double y)
{
    thing.x += x;
    thing.y += y;
    return bite_swept_area_gap(swept, &thing);
}

/* A thing that every part has, on the neighbours of this part; own: 1: on this part too. */
static double gap_on_parts(const bite_job *job, const bite_swept_area *swept, bite_round_area thing,
                           int own)
{
    double least = (double)NAN;
    double along = 0.0;
    double across = 0.0;
    uint32_t columns = 0;
    uint32_t rows = 0;
    steps_of(job, &along, &across, &columns, &rows);
    for (int i = -1; i <= 1; i++) {
        for (int k = -1; k <= 1; k++) {
            if ((own || i != 0 || k != 0) && (i == 0 || columns > 1) && (k == 0 || rows > 1)) {
                least = fmin(least, gap_to(swept, thing, i * along, k * across));
            }
        }
    }
    return least;
}

double bite_neighbour_gap(const bite_job *job, const bite_swept_area *swept)
{
    return gap_on_parts(job, swept, bite_part_area(job), 0);
}

/* A thing on the blank, against the parts that are nearest to it. */
static double gap_on_blank(const bite_job *job, const bite_swept_area *swept, bite_round_area thing)
{
    double least = (double)NAN;
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
            bite_round_area there = first;
            there.x -= i * along;
            there.y -= k * across;
            least = fmin(least, bite_swept_area_gap(swept, &there));
        }
    }
    return least;
}

/* The passes up to the one that makes the hole of a screw: the screw is there later. */
static uint32_t drilled_for(const bite_job *job, double x, double y)
{
    uint32_t drilled = 0;
    for (size_t i = 0; i < job->pass_count; i++) {
        const bite_positions *at = job->places[i];
        uint32_t work = job->passes[i].work;
        int hole = work == BITE_WORK_DRILL || work == BITE_WORK_BORE || work == BITE_WORK_CHAMFER;
        for (size_t k = 0; k < at->count && hole; k++) {
            drilled = hypot(at->x[k] - x, at->y[k] - y) < own_hole ? (uint32_t)i + 1 : drilled;
        }
    }
    return drilled;
}

bite_status bite_plan_obstacles(bite_job *job, bite_error *error)
{
    const size_t count = job->file_data.obstacle_count;
    int known = count == 0;
    job->drilled = known ? NULL : bite_arena_alloc(job->arena, count, sizeof *job->drilled);
    for (size_t i = 0; job->drilled != NULL && i < count; i++) {
        const bite_positions *at = job->places[job->pass_count + i];
        size_t places = at->count > 0 ? at->count : 1;
        job->drilled[i] = bite_arena_alloc(job->arena, places, sizeof **job->drilled);
        known = job->drilled[i] != NULL;
        for (size_t k = 0; k < at->count && known; k++) {
            job->drilled[i][k] = drilled_for(job, at->x[k], at->y[k]);
        }
        if (!known) {
            break;
        }
    }
    return known ? BITE_OK : bite_error_set(error, BITE_NO_MEMORY, "no memory for a plan");
}

/* ---- screws and clamps ---- */

static int is_screw(const bite_section *obstacle)
{
    return strncmp(obstacle->name, "screw.", 6) == 0;
}

/* The diameter of a screw that is there while a pass is cut. */
static double screw_of(const bite_job *job, size_t index)
{
    const bite_planned_setup *setup = bite_plan_setup(job, job->passes[index].setup);
    double stated = bite_plan_hold_number(setup, "screw");
    return isnan(stated) ? bite_item_figure_or(setup->hold.hold, "screw", usual_screw) : stated;
}

static double head_of(const bite_job *job, size_t index, const bite_section *obstacle)
{
    double stated = bite_job_file_number(obstacle, "head");
    return isnan(stated) ? washer_over_screw * screw_of(job, index) : stated;
}

int bite_obstacle_is_there(const bite_job *job, size_t index, size_t thing)
{
    const bite_section *obstacle = job->file_data.obstacles[thing];
    double setup = bite_job_file_number(obstacle, "setup");
    return isnan(setup) || setup == (double)job->passes[index].setup;
}

double bite_obstacle_height(const bite_job *job, size_t index, size_t thing)
{
    const bite_section *obstacle = job->file_data.obstacles[thing];
    double below = bite_job_file_number(obstacle, "below");
    double height = bite_job_file_number(obstacle, "height");
    return !isnan(height)       ? height
           : below > 0.0        ? -below
           : is_screw(obstacle) ? head_height_over_screw * screw_of(job, index)
                                : (double)NAN;
}

double bite_obstacle_gap(const bite_job *job, size_t index, const bite_swept_area *swept,
                         size_t thing, size_t *nearest)
{
    const bite_section *obstacle = job->file_data.obstacles[thing];
    const bite_positions *at = job->places[job->pass_count + thing];
    int screw = is_screw(obstacle);
    uint32_t on = bite_job_file_word(obstacle, "on", screw ? ON_PART : ON_BLANK);
    double half_x = screw ? 0.0 : 0.5 * bite_job_file_number(obstacle, "length");
    double half_y = screw ? 0.0 : 0.5 * bite_job_file_number(obstacle, "width");
    double radius = screw ? 0.5 * head_of(job, index, obstacle) : 0.0;
    double least = (double)NAN;
    for (size_t i = 0; i < at->count; i++) {
        bite_round_area area = {at->x[i], at->y[i], half_x, half_y, radius};
        double gap = (double)NAN;
        if (on == ON_PART && !(screw && index < job->drilled[thing][i])) {
            gap = gap_on_parts(job, swept, area, 1);
        } else if (on == ON_BLANK) {
            gap = gap_on_blank(job, swept, area);
        }
        if (gap < least || (isnan(least) && !isnan(gap))) {
            least = gap;
            *nearest = i;
        }
    }
    return least;
}

const char *bite_obstacle_name(bite_job *job, size_t thing, size_t position)
{
    const bite_section *obstacle = job->file_data.obstacles[thing];
    const bite_positions *at = job->places[job->pass_count + thing];
    const char *kind = is_screw(obstacle) ? "screw" : "clamp";
    return at->count > 1
               ? bite_plan_text(job, "%s %s, position %zu", kind, obstacle->tail, position + 1)
               : bite_plan_text(job, "%s %s", kind, obstacle->tail);
}
