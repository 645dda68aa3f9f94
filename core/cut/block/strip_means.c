/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The means of a block of edges in slices, in closed form over their arcs. */
#include "core/cut/block/strip_block.h"
#include "core/physics/force/edge_strip.h"
#include "core/physics/force/edge_terms.h"
#include <string.h>

/* ---- the chips ---- */

BITE_IN_LANES static void start_hinge(const bite_block *restrict block,
                                      const bite_block_chip *restrict chip, double at,
                                      double *restrict bound, bite_turned_lanes *restrict start)
{
    const double *restrict runout = BITE_ROW(block, runout);
    BITE_EACH_LANE(k, block)
    {
        double ratio = runout[k] / chip->feed[k];
        bound[k] = at * ratio;
        bite_turned_store(start, k, bite_chip_hinge_start(at, ratio));
    }
}

void bite_strips_start(const bite_block *block, const bite_block_chip *chip, bite_strip_work *work)
{
    const bite_chip_hinges *hinges = &chip->hinges;
    memset(work->area, 0, sizeof work->area);
    memset(work->teeth_edge, 0, sizeof work->teeth_edge);
    memset(work->edge_length, 0, sizeof work->edge_length);
    memset(work->section, 0, sizeof work->section);
    work->cylinder = 0;
    work->thick_end = 0;
    work->sense = block->cut->side == BITE_CLIMB ? -1.0 : 1.0;
    for (int i = 0; i < hinges->first[hinges->teeth]; i++) {
        start_hinge(block, chip, hinges->hinge[i].at, work->bound[i], &work->start[i]);
    }
}

BITE_IN_LANES static void add_chip_most(const bite_block *restrict block,
                                        const bite_hinge_lanes *restrict hinge,
                                        const double *restrict bound,
                                        const double *restrict half_sine, double *restrict chip)
{
    BITE_EACH_LANE(k, block)
    {
        chip[k] += bite_strip_chip(hinge->slope[k], hinge->offset[k], bound[k],
                                   bite_strip_sine_most(half_sine[k]));
    }
}

BITE_IN_LANES static void take_larger(const bite_block *restrict block,
                                      const double *restrict number, double *restrict most)
{
    BITE_EACH_LANE(k, block)
    {
        most[k] = bite_larger(number[k], most[k]);
    }
}

void bite_strips_chip_most(const bite_block *block, const bite_block_chip *chip,
                           const bite_strip_work *work, const double *half_sine, double *most)
{
    const bite_chip_hinges *hinges = &chip->hinges;
    memset(most, 0, sizeof(bite_lanes));
    for (int j = 0; j < hinges->teeth; j++) {
        bite_lanes tooth = {0.0};
        for (int i = hinges->first[j]; i < hinges->first[j + 1]; i++) {
            add_chip_most(block, &chip->hinge[i], work->bound[i], half_sine, tooth);
        }
        take_larger(block, tooth, most);
    }
}

/* ---- means ---- */

BITE_IN_LANES static void fill_end(const bite_block *restrict block,
                                   const double *restrict half_sine,
                                   bite_turned_lanes *restrict end)
{
    BITE_EACH_LANE(k, block)
    {
        double half = half_sine[k];
        bite_turned span = {2.0 * asin(half), 2.0 * half * sqrt(1.0 - half * half),
                            1.0 - 2.0 * half * half};
        bite_turned_store(end, k, span);
    }
}

/* edges: 1, or 0 for a hinge after the first of its tooth, whose edge is counted already. */
BITE_IN_LANES static void add_hinge_mean(const bite_block *restrict block,
                                         const bite_hinge_lanes *restrict hinge,
                                         const bite_turned_lanes *restrict start, double edges,
                                         double times, const bite_block_segment *restrict segment,
                                         bite_strip_work *restrict work,
                                         bite_block_force *restrict force)
{
    const bite_strip_slice *restrict slice = &work->slice;
    double sense = work->sense;
    double turns = times / (2.0 * M_PI);
    const bite_turned wall = {0.0, 0.0, 1.0};
    BITE_EACH_LANE(k, block)
    {
        bite_turned end = bite_turned_lane(&work->end, k);
        bite_edge_terms terms = bite_strip_hinge_between(
            hinge->slope[k], hinge->offset[k], bite_turned_lane(start, k), end, wall, end);
        double rise = slice->rise[k] * turns;
        double length = slice->length[k] * turns * edges;
        double sine = slice->sine[k];
        double cosine = slice->cosine[k];
        terms.area_cosine *= sense;
        terms.edge_cosine *= sense;
        bite_edge_load load = bite_edge_load_of(
            terms, segment->tangential[k] * rise, segment->radial[k] * sine * rise,
            (segment->axial[k] - segment->radial[k] * cosine) * rise,
            segment->edge_tangential[k] * length, segment->edge_radial[k] * sine * length,
            (segment->edge_axial[k] - segment->edge_radial[k] * cosine) * length);
        force->mean_tangential[k] += load.tangential;
        force->mean_x[k] += load.x;
        force->mean_y[k] += load.y;
        force->mean_lift[k] += load.lift;
        force->mean_torque[k] += load.tangential * slice->radius[k];
        work->area[k] += terms.area * rise;
        work->teeth_edge[k] += terms.edge * length;
    }
}

BITE_IN_LANES static void add_section(const bite_block *restrict block,
                                      bite_strip_work *restrict work)
{
    const bite_strip_slice *restrict slice = &work->slice;
    BITE_EACH_LANE(k, block)
    {
        double half = slice->reach[k];
        work->section[k] += 2.0 * slice->radius[k] * half * half * slice->rise[k];
        work->edge_length[k] += slice->length[k];
    }
}

static int is_first(const bite_chip_hinges *hinges, int hinge)
{
    for (int j = 0; j < hinges->teeth; j++) {
        if (hinges->first[j] == hinge) {
            return 1;
        }
    }
    return 0;
}

void bite_strips_add_hinge_mean(const bite_block *block, const bite_block_chip *chip, int hinge,
                                const bite_block_segment *segment, bite_strip_work *work,
                                bite_block_force *force)
{
    double edges = is_first(&chip->hinges, hinge) ? 1.0 : 0.0;
    double times = chip->hinges.teeth == 1 ? (double)block->flutes : 1.0;
    fill_end(block, work->slice.reach, &work->end);
    add_hinge_mean(block, &chip->hinge[hinge], &work->start[hinge], edges, times, segment, work,
                   force);
}

void bite_strips_add_mean(const bite_block *block, const bite_block_chip *chip,
                          const bite_block_segment *segment, bite_strip_work *work,
                          bite_block_force *force)
{
    const bite_chip_hinges *hinges = &chip->hinges;
    double times = hinges->teeth == 1 ? (double)block->flutes : 1.0;
    fill_end(block, work->slice.reach, &work->end);
    add_section(block, work);
    for (int i = 0; i < hinges->first[hinges->teeth]; i++) {
        double edges = is_first(hinges, i) ? 1.0 : 0.0;
        add_hinge_mean(block, &chip->hinge[i], &work->start[i], edges, times, segment, work, force);
    }
}

BITE_IN_LANES void bite_strips_contact(const bite_block *restrict block,
                                       const bite_block_chip *restrict chip,
                                       const bite_strip_work *restrict work,
                                       const bite_block_force *restrict force,
                                       bite_block_segment *restrict segment)
{
    const double *restrict spindle = BITE_ROW(block, spindle_speed);
    BITE_EACH_LANE(k, block)
    {
        double edge = work->teeth_edge[k];
        double thick = work->area[k] / edge;
        /* the speed is the one at which the mean force makes the mean power, so that heat and force
         * agree */
        segment->contact_speed[k] =
            2.0 * M_PI * spindle[k] * force->mean_torque[k] / force->mean_tangential[k];
        segment->contact_chip[k] = edge > 0.0 ? thick : 0.0;
        segment->contact_length[k] = work->edge_length[k];
        segment->contact_teeth[k] = edge / work->edge_length[k];
        segment->contact_feed[k] = chip->feed_real[k];
    }
}
