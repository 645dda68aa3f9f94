/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The peaks of a block of edges in strips: an even grid over the contact of each tooth, the angles
 * at which an end of an edge enters or leaves, and the vertex of a parabola about the largest
 * samples. */
#include "core/cut/block/strip_block.h"
#include <string.h>

/* A sample replaces one that it exceeds by more than rounding: of equal ones the first counts,
 * however they are rounded. */
static const double rounding = 1e-9;

BITE_IN_LANES static void take_peak(const bite_block *restrict block, const double *restrict load,
                                    const double *restrict at, double *restrict peak,
                                    double *restrict peak_at)
{
    BITE_EACH_LANE(k, block)
    {
        double most = peak[k];
        double there = peak_at[k];
        int larger = load[k] > most * (1.0 + rounding);
        peak[k] = larger ? load[k] : most;
        peak_at[k] = larger ? at[k] : there;
    }
}

BITE_IN_LANES static void take_lift(const bite_block *restrict block,
                                    bite_strip_load *restrict load, double *restrict peak)
{
    BITE_EACH_LANE(k, block)
    {
        double up = load->lift[k];
        double most = peak[k];
        peak[k] = fabs(up) > fabs(most) * (1.0 + rounding) ? up : most;
        load->sought[BITE_STRIP_TANGENTIAL][k] = load->tangential[k];
        load->sought[BITE_STRIP_SIDE][k] = load->x[k] * load->x[k] + load->y[k] * load->y[k];
        load->sought[BITE_STRIP_LIFT][k] = fabs(up);
        load->sought[BITE_STRIP_TORQUE][k] = load->torque[k];
    }
}

static void take_peaks(const bite_block *block, bite_strip_work *work, bite_block_force *force)
{
    take_lift(block, &work->load, force->peak_lift);
    for (int i = 0; i < BITE_STRIP_PEAKS; i++) {
        take_peak(block, work->load.sought[i], work->tip.at, work->peak[i], work->peak_at[i]);
    }
}

static void take_sample(const bite_block *block, const bite_block_chip *chip,
                        const bite_block_segment *segment, bite_strip_work *work,
                        bite_block_force *force)
{
    bite_strips_load_at(block, chip, segment, work);
    take_peaks(block, work, force);
    bite_strips_take_walls(block, chip, work, force);
}

BITE_IN_LANES static void widen_window(const bite_block *restrict block,
                                       const bite_strip_node *restrict node, double *restrict first,
                                       double *restrict last, double *restrict widest)
{
    BITE_EACH_LANE(k, block)
    {
        first[k] = bite_smaller(-node->ahead[k], first[k]);
        last[k] = bite_larger(node->span[k] - node->ahead[k], last[k]);
        widest[k] = bite_larger(node->span[k], widest[k]);
    }
}

BITE_IN_LANES static void fill_extent(const bite_block *restrict block,
                                      const double *restrict first, double *restrict extent)
{
    double pitch = 2.0 * M_PI / block->flutes;
    BITE_EACH_LANE(k, block)
    {
        extent[k] = bite_smaller(extent[k] - first[k], pitch);
    }
}

static void find_window(const bite_block *block, bite_strip_work *work)
{
    memset(work->first, 0, sizeof work->first);
    memset(work->extent, 0, sizeof work->extent);
    memcpy(work->widest, work->node[0].span, sizeof work->widest);
    for (int i = 1; i <= BITE_STRIP_TOP + work->cylinder; i++) {
        widen_window(block, &work->node[i], work->first, work->extent, work->widest);
    }
    fill_extent(block, work->first, work->extent);
}

BITE_IN_LANES static void set_grid(const bite_block *restrict block, double share, double tooth,
                                   bite_strip_work *restrict work)
{
    BITE_EACH_LANE(k, block)
    {
        work->tip.at[k] = work->first[k] + share * work->extent[k] - tooth;
    }
}

/* The first instant at which any height of the edge leaves its arc, from the thick end on: the
 * least of the nodes, or the vertex of a parabola through three of them. */
BITE_IN_LANES static void find_first_leaving(const bite_block *restrict block,
                                             bite_strip_work *restrict work)
{
    double *restrict leaving = work->leaving;
    BITE_EACH_LANE(k, block)
    {
        leaving[k] = INFINITY;
    }
    for (int i = work->thick_end; i <= BITE_STRIP_TOP; i++) {
        const bite_strip_node *restrict low = &work->node[i == 0 ? i : i - 1];
        const bite_strip_node *restrict middle = &work->node[i];
        const bite_strip_node *restrict high = &work->node[i == BITE_STRIP_TOP ? i : i + 1];
        BITE_EACH_LANE(k, block)
        {
            double before = low->span[k] - low->ahead[k];
            double own = middle->span[k] - middle->ahead[k];
            double after = high->span[k] - high->ahead[k];
            double rise = after - before;
            double vertex = own - rise * rise / (8.0 * (before - 2.0 * own + after));
            double least = own < before && own < after ? vertex : own;
            leaving[k] = bite_smaller(least, leaving[k]);
        }
    }
}

/* Distance of a sample from an angle at which an end of the edge enters or leaves the cut: the end
 * still cuts. */
static const double inset = 1e-9; /* rad */

/* The instant at which a node is a small angle inside the arc in which its tooth touches: from the
 * angle `touch` on, or as far from the other wall, and not beyond its span. end: 0 or 1. */
BITE_IN_LANES static void set_kink(const bite_block *restrict block, const double *restrict ahead,
                                   const double *restrict span, const double *restrict touch,
                                   double end, double tooth, double *restrict at)
{
    BITE_EACH_LANE(k, block)
    {
        double from = touch[k] + inset;
        double to = bite_smaller(span[k], M_PI - touch[k]) - inset;
        at[k] = from + end * (to - from) - ahead[k] - tooth;
    }
}

BITE_IN_LANES static void set_leaving(const bite_block *restrict block, double tooth,
                                      const bite_strip_work *restrict work, double *restrict at)
{
    BITE_EACH_LANE(k, block)
    {
        at[k] = work->leaving[k] - inset - tooth;
    }
}

/* Whether two samples are at the same angle in all lanes, but for rounding. */
static int at_one(const bite_block *block, const double *one, const double *other)
{
    for (int k = 0; k < block->lanes; k++) {
        if (fabs(one[k] - other[k]) > 1e-12) {
            return 0;
        }
    }
    return 1;
}

/* Where an end of the edge enters or leaves, or the first height of it leaves, the load has a kink,
 * or a step if the flute is straight. The arc of the thin end of a cone is short; it counts with
 * the longest arc of the edge, which in a tight inside corner is that of heights next to it. */
static void sample_kinks(const bite_block *block, const bite_block_chip *chip,
                         const bite_block_segment *segment, int j, bite_strip_work *work,
                         bite_block_force *force)
{
    const int nodes[] = {0, BITE_STRIP_TOP + work->cylinder};
    const double *touch = work->start[chip->hinges.first[j]].at;
    double tooth = work->tooth[j].at;
    bite_lanes leaving;
    int known = 0;
    set_leaving(block, tooth, work, leaving);
    for (int n = 0; n < 2; n++) {
        for (int end = 0; end < 2; end++) {
            const bite_strip_node *node = &work->node[nodes[n]];
            set_kink(block, node->ahead, n == 0 ? work->widest : node->span, touch, end, tooth,
                     work->tip.at);
            known |= at_one(block, work->tip.at, leaving);
            take_sample(block, chip, segment, work, force);
        }
    }
    if (!known) {
        memcpy(work->tip.at, leaving, sizeof leaving);
        take_sample(block, chip, segment, work, force);
    }
}

/* other: 0, or 1: at the other wall of the cuts that have one. */
BITE_IN_LANES static void set_wall(const bite_block *restrict block,
                                   const bite_strip_walls *restrict walls, double other,
                                   double tooth, double *restrict at)
{
    BITE_EACH_LANE(k, block)
    {
        double across = other * walls->across[k];
        double wall = across > 0.0 ? across - inset : inset;
        at[k] = wall - walls->direction[k] * walls->start[k] - tooth;
    }
}

/* Where the lowest height that counts is at a wall. */
static void sample_walls(const bite_block *block, const bite_block_chip *chip,
                         const bite_block_segment *segment, bite_strip_work *work,
                         bite_block_force *force)
{
    double tooth = work->tooth[chip->hinges.longest].at;
    for (int other = 0; other <= work->walls.other; other++) {
        set_wall(block, &work->walls, other, tooth, work->tip.at);
        take_sample(block, chip, segment, work, force);
    }
}

/* Samples over the contact of a tooth, or over a pitch if that is shorter. What a cut is sampled at
 * must not depend on the other cuts of its block. */
#define STEPS_PER_TURN 20
#define STEPS_LEAST 10

static int grid_steps(const bite_block *block)
{
    int steps = STEPS_PER_TURN / block->flutes;
    return steps > STEPS_LEAST ? steps : STEPS_LEAST;
}

BITE_IN_LANES static void set_near(const bite_block *restrict block, double step,
                                   const double *restrict about, const double *restrict fresh,
                                   bite_strip_work *restrict work)
{
    BITE_EACH_LANE(k, block)
    {
        work->tip.at[k] = about[k] + step * fresh[k] * work->extent[k];
    }
}

/* Three samples of a quantity next to each other, of which the middle one is the largest. */
typedef struct peak_bracket {
    bite_lanes at[3]; /* rad */
    bite_lanes load[3];
} peak_bracket;

/* The vertex of the parabola through the samples. One that would be close to the middle sample is
 * moved by a tenth of one side, the upper one unless that is narrow. */
BITE_IN_LANES static void set_vertex(const bite_block *restrict block,
                                     const peak_bracket *restrict bracket, double *restrict vertex)
{
    BITE_EACH_LANE(k, block)
    {
        double middle = bracket->at[1][k];
        double below = middle - bracket->at[0][k];
        double above = bracket->at[2][k] - middle;
        double fall = (bracket->load[1][k] - bracket->load[0][k]) * above;
        double rise = (bracket->load[1][k] - bracket->load[2][k]) * below;
        double step = 0.5 * (fall * above - rise * below) / (fall + rise);
        double least = above > 0.5 * below ? 0.1 * above : -0.1 * below;
        step = fall + rise > 0.0 ? step : least;
        step = fabs(step) < fabs(least) ? least : step;
        vertex[k] = middle + bite_within(step, -below, above);
    }
}

/* Takes a sample within the bracket. */
BITE_IN_LANES static void narrow(const bite_block *restrict block, const double *restrict at,
                                 const double *restrict load, peak_bracket *restrict bracket)
{
    BITE_EACH_LANE(k, block)
    {
        double middle_at = bracket->at[1][k];
        double middle = bracket->load[1][k];
        int larger = load[k] > middle;
        int right = at[k] > middle_at;
        /* the smaller one of both is an end, on its side of the larger one */
        int low = larger == right;
        double end_at = larger ? middle_at : at[k];
        double end = larger ? middle : load[k];
        bracket->at[0][k] = low ? end_at : bracket->at[0][k];
        bracket->load[0][k] = low ? end : bracket->load[0][k];
        bracket->at[2][k] = low ? bracket->at[2][k] : end_at;
        bracket->load[2][k] = low ? bracket->load[2][k] : end;
        bracket->at[1][k] = larger ? at[k] : middle_at;
        bracket->load[1][k] = larger ? load[k] : middle;
    }
}

/* Samples at vertices of parabolas about a largest one. */
#define VERTICES 2

static void sample_near(const bite_block *block, const bite_block_chip *chip,
                        const bite_block_segment *segment, int peak, double step,
                        const double *fresh, bite_strip_work *work, bite_block_force *force)
{
    peak_bracket bracket;
    bite_lanes at;
    bite_lanes load;
    memcpy(bracket.at[1], work->peak_at[peak], sizeof at);
    memcpy(bracket.load[1], work->peak[peak], sizeof load);
    for (int i = 0; i < 3; i += 2) {
        set_near(block, i == 0 ? -step : step, bracket.at[1], fresh, work);
        memcpy(bracket.at[i], work->tip.at, sizeof at);
        take_sample(block, chip, segment, work, force);
        memcpy(bracket.load[i], work->load.sought[peak], sizeof load);
    }
    for (int i = 0; i < VERTICES; i++) {
        set_vertex(block, &bracket, work->tip.at);
        memcpy(at, work->tip.at, sizeof at);
        take_sample(block, chip, segment, work, force);
        memcpy(load, work->load.sought[peak], sizeof load);
        narrow(block, at, load, &bracket);
    }
}

/* 1 for the lanes whose peak is not at the angle of an earlier one, else 0. Returns whether there
 * is such a lane. */
static int find_fresh(const bite_block *block, const bite_lanes *about, int peak, double *fresh)
{
    int any = 0;
    for (int k = 0; k < block->lanes; k++) {
        int known = 0;
        for (int m = 0; m < peak; m++) {
            known |= about[m][k] == about[peak][k];
        }
        fresh[k] = known ? 0.0 : 1.0;
        any |= !known;
    }
    return any;
}

/* Peaks at one sample are looked at together. In the lanes of the others the sample is repeated: a
 * cut must be sampled at the same angles in any block. */
static void sample_near_peaks(const bite_block *block, const bite_block_chip *chip,
                              const bite_block_segment *segment, double step, bite_strip_work *work,
                              bite_block_force *force)
{
    bite_lanes about[BITE_STRIP_PEAKS];
    bite_lanes fresh;
    memcpy(about, work->peak_at, sizeof about);
    for (int i = 0; i < BITE_STRIP_PEAKS; i++) {
        if (find_fresh(block, about, i, fresh)) {
            sample_near(block, chip, segment, i, step, fresh, work, force);
        }
    }
}

BITE_IN_LANES static void finish_peaks(const bite_block *restrict block,
                                       const bite_strip_work *restrict work,
                                       bite_block_force *restrict force)
{
    BITE_EACH_LANE(k, block)
    {
        force->peak_tangential[k] = work->peak[BITE_STRIP_TANGENTIAL][k];
        force->peak_side[k] = sqrt(work->peak[BITE_STRIP_SIDE][k]);
        force->peak_torque[k] = work->peak[BITE_STRIP_TORQUE][k];
    }
}

void bite_strips_peaks(const bite_block *block, const bite_block_chip *chip,
                       const bite_block_segment *segment, bite_strip_work *work,
                       bite_block_force *force)
{
    find_window(block, work);
    find_first_leaving(block, work);
    int steps = grid_steps(block);
    memset(work->peak, 0, sizeof work->peak);
    memset(work->peak_at, 0, sizeof work->peak_at);
    for (int j = 0; j < chip->hinges.teeth; j++) {
        for (int i = 0; i < steps; i++) {
            set_grid(block, (i + 0.5) / steps, work->tooth[j].at, work);
            take_sample(block, chip, segment, work, force);
        }
        sample_kinks(block, chip, segment, j, work, force);
    }
    sample_walls(block, chip, segment, work, force);
    sample_near_peaks(block, chip, segment, 0.5 / steps, work, force);
    finish_peaks(block, work, force);
}
