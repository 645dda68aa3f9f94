/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The area that a pass sweeps, seen from above in its setup, on the part. */
#include "core/job/pass_sweep.h"
#include "core/base/error.h"
#include "core/job/hole_plan.h"
#include "core/job/job_file.h"
#include "core/job/outline_reach.h"
#include "core/job/setup_plan.h"
#include <math.h>

static double known(double stated, double otherwise)
{
    return isnan(stated) ? otherwise : stated;
}

bite_round_area bite_part_area(const bite_job *job)
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
    bite_swept_area swept = {wall, bite_round_area_shrunk(wall, inwards), 1};
    swept.outer.radius += outwards;
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
    int boss = bite_pass_rounds_boss(section);
    bite_round_area sharp = turned ? rounded(x, y, across, length, 0.0) /* outside corners */
                                   : rounded(x, y, length, across, 0.0);
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
        *swept = boss ? along_wall(sharp, 0.0, diameter) : along_wall(sides, diameter, 0.0);
        return !isnan(length + across);
    case BITE_WORK_CHAMFER: /* over the opening and, by its leg, beside it */
        *swept = boss ? along_wall(sharp, pass->depth, diameter)
                      : along_wall(sides, diameter, pass->depth);
        return !isnan(length + across);
    default:
        area.outer = hole;
        *swept = area;
        return 1;
    }
}

/* The boss of a pass that goes round one, at a position. */
static bite_round_area boss_of(const bite_job *job, size_t index, size_t position)
{
    const bite_section *section = job->file_data.passes[index];
    const bite_positions *at = job->places[index];
    double length = bite_job_file_number(section, "length");
    double across = bite_job_file_number(section, "across");
    return bite_job_file_word(section, "along", 0) == 1
               ? rounded(at->x[position], at->y[position], across, length, 0.0)
               : rounded(at->x[position], at->y[position], length, across, 0.0);
}

int bite_pass_boss(const bite_job *job, size_t index, size_t position, bite_round_area *boss)
{
    if (!bite_pass_rounds_boss(job->file_data.passes[index]) ||
        position >= job->places[index]->count) {
        return 0;
    }
    *boss = boss_of(job, index, position);
    return 1;
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

/* What a pass sweeps at a position, bosses included; returns 0 if that is not known. */
static int sweep(const bite_job *job, size_t index, size_t position, bite_swept_area *swept)
{
    const bite_planned_pass *pass = &job->passes[index];
    const bite_section *section = job->file_data.passes[index];
    const bite_positions *at = job->places[index];
    if (at->count > 0) {
        return position < at->count &&
               sweep_feature(job, index, at->x[position], at->y[position], swept);
    }
    if (position == 0 && pass->work == BITE_WORK_FACE) {
        return sweep_face(job, index, swept);
    }
    if (position > 0 || !bite_pass_rounds_part(job, section, pass->work)) {
        return 0;
    }
    double inwards = pass->work == BITE_WORK_CHAMFER ? pass->depth : 0.0;
    *swept = along_wall(bite_part_area(job), inwards, bite_pass_reach(job, index));
    return 1;
}

/* ---- positions and areas, found once ---- */

static const bite_positions nowhere = {0, {0.0}, {0.0}};

/* NULL: no memory. */
static const bite_positions *places_of(bite_job *job, const bite_section *section)
{
    const char *text = bite_job_file_text(section, "at");
    bite_positions *at = text == NULL ? NULL : bite_arena_alloc(job->arena, 1, sizeof *at);
    if (at != NULL) {
        (void)bite_positions_read(text, at, NULL);
    }
    return text == NULL ? &nowhere : at;
}

/* All that a pass sweeps; 0: no memory. */
static int find_sweeps(bite_job *job, size_t index)
{
    bite_pass_sweeps *sweeps = &job->sweeps[index];
    size_t count = job->places[index]->count > 0 ? job->places[index]->count : 1;
    sweeps->areas = bite_arena_alloc(job->arena, count, sizeof *sweeps->areas);
    while (sweeps->areas != NULL && sweeps->count < count &&
           sweep(job, index, sweeps->count, &sweeps->areas[sweeps->count])) {
        sweeps->count++;
    }
    return sweeps->areas != NULL;
}

/* Pockets from the same side leave the bosses of a pass standing. */
static void leave_bosses(bite_job *job, size_t index)
{
    uint32_t side = bite_plan_setup(job, job->passes[index].setup)->side;
    bite_round_area boss;
    for (size_t k = 0; bite_pass_boss(job, index, k, &boss); k++) {
        for (size_t i = 0; i < job->pass_count; i++) {
            const bite_planned_pass *pass = &job->passes[i];
            int pocket = pass->work == BITE_WORK_POCKET || pass->work == BITE_WORK_ROUGH;
            for (size_t at = 0; at < job->sweeps[i].count && pocket &&
                                bite_plan_setup(job, pass->setup)->side == side;
                 at++) {
                bite_swept_area *swept = &job->sweeps[i].areas[at];
                if (bite_round_area_inside(&swept->outer, &boss) > 0.0) {
                    swept->inner = boss;
                    swept->hollow = 1;
                }
            }
        }
    }
}

int bite_pass_sweep(const bite_job *job, size_t index, size_t position, bite_swept_area *swept)
{
    const bite_pass_sweeps *sweeps = &job->sweeps[index];
    if (position < sweeps->count) {
        *swept = sweeps->areas[position];
    }
    return position < sweeps->count;
}

bite_status bite_plan_places(bite_job *job, bite_error *error)
{
    const size_t obstacles = job->file_data.obstacle_count;
    job->places = bite_arena_alloc(job->arena, job->pass_count + obstacles, sizeof *job->places);
    for (size_t i = 0; job->places != NULL && i < job->pass_count + obstacles; i++) {
        const bite_section *section = i < job->pass_count
                                          ? job->file_data.passes[i]
                                          : job->file_data.obstacles[i - job->pass_count];
        job->places[i] = places_of(job, section);
        if (job->places[i] == NULL) {
            job->places = NULL;
        }
    }
    int known = job->places != NULL;
    job->sweeps = bite_arena_alloc(job->arena, job->pass_count, sizeof *job->sweeps);
    known &= job->sweeps != NULL;
    for (size_t i = 0; i < job->pass_count && known; i++) {
        known = find_sweeps(job, i);
    }
    for (size_t i = 0; i < job->pass_count && known; i++) {
        leave_bosses(job, i);
    }
    return known ? BITE_OK : bite_error_set(error, BITE_NO_MEMORY, "no memory for a plan");
}
