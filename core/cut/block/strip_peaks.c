/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The peaks of a block of edges in strips: an even grid over the contact of each tooth, the angles
 * at which an end of an edge enters or leaves, and ever smaller steps about the largest samples. */
#include "core/cut/block/strip_block.h"
#include <string.h>

BITE_IN_LANES static void take_peak(const bite_block *restrict block, const double *restrict load,
                                    const double *restrict at, double *restrict peak,
                                    double *restrict peak_at)
{
    BITE_EACH_LANE(k, block)
    {
        double most = peak[k];
        double there = peak_at[k];
        peak[k] = load[k] > most ? load[k] : most;
        peak_at[k] = load[k] > most ? at[k] : there;
    }
}

BITE_IN_LANES static void take_lift(const bite_block *restrict block,
                                    const bite_strip_load *restrict load, double *restrict peak,
                                    double *restrict side, double *restrict lift)
{
    BITE_EACH_LANE(k, block)
    {
        double up = load->lift[k];
        double most = peak[k];
        peak[k] = fabs(up) > fabs(most) ? up : most;
        lift[k] = fabs(up);
        side[k] = load->x[k] * load->x[k] + load->y[k] * load->y[k];
    }
}

static void take_peaks(const bite_block *block, bite_strip_work *work, bite_block_force *force)
{
    bite_lanes side;
    bite_lanes lift;
    const double *loads[BITE_STRIP_PEAKS] = {
        [BITE_STRIP_TANGENTIAL] = work->load.tangential,
        [BITE_STRIP_SIDE] = side,
        [BITE_STRIP_LIFT] = lift,
        [BITE_STRIP_TORQUE] = work->load.torque,
    };
    take_lift(block, &work->load, force->peak_lift, side, lift);
    for (int i = 0; i < BITE_STRIP_PEAKS; i++) {
        take_peak(block, loads[i], work->tip.at, work->peak[i], work->peak_at[i]);
    }
}

static void take_sample(const bite_block *block, const bite_block_chip *chip,
                        const bite_block_segment *segment, bite_strip_work *work,
                        bite_block_force *force)
{
    bite_strips_load_at(block, chip, segment, work);
    take_peaks(block, work, force);
}

BITE_IN_LANES static void widen_window(const bite_block *restrict block,
                                       const bite_strip_node *restrict node, double *restrict first,
                                       double *restrict last)
{
    BITE_EACH_LANE(k, block)
    {
        first[k] = bite_smaller(-node->ahead[k], first[k]);
        last[k] = bite_larger(node->span[k] - node->ahead[k], last[k]);
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
    for (int i = 0; i < work->strips + 1 + work->cylinder; i++) {
        widen_window(block, &work->node[i], work->first, work->extent);
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

/* The instant at which a node is at an angle from an end of its arc, the wall or its span. */
BITE_IN_LANES static void set_kink(const bite_block *restrict block,
                                   const bite_strip_node *restrict node, double spans, double from,
                                   double tooth, double *restrict at)
{
    BITE_EACH_LANE(k, block)
    {
        at[k] = spans * node->span[k] + from - node->ahead[k] - tooth;
    }
}

/* Distance of a sample from an angle at which an end of an edge enters or leaves the cut. */
static const double kink_distance = 1e-9; /* rad */

/* Before and after an end of an edge enters or leaves, since one that lags little does so at once.
 */
static void sample_kinks(const bite_block *block, const bite_block_chip *chip,
                         const bite_block_segment *segment, double tooth, bite_strip_work *work,
                         bite_block_force *force)
{
    const int nodes[] = {0, work->strips, work->strips + 1};
    for (int n = 0; n < 2 + work->cylinder; n++) {
        for (int i = 0; i < 4; i++) {
            int spans = i % 2;
            double from = i / 2 == spans ? kink_distance : -kink_distance;
            set_kink(block, &work->node[nodes[n]], spans, from, tooth, work->tip.at);
            take_sample(block, chip, segment, work, force);
        }
    }
}

/* Samples over the contact of a tooth, or over a pitch if that is shorter. What a cut is sampled at
 * must not depend on the other cuts of its block. */
#define STEPS_PER_TURN 24
#define STEPS_LEAST 12

static int grid_steps(const bite_block *block)
{
    int steps = STEPS_PER_TURN / block->flutes;
    return steps > STEPS_LEAST ? steps : STEPS_LEAST;
}

/* Halvings of a step about the largest samples. */
#define HALVINGS 4

BITE_IN_LANES static void set_near(const bite_block *restrict block, double step,
                                   const double *restrict about, bite_strip_work *restrict work)
{
    BITE_EACH_LANE(k, block)
    {
        work->tip.at[k] = about[k] + step * work->extent[k];
    }
}

/* Whether two peaks are at the same angle in all lanes. */
static int at_one(const bite_block *block, const double *one, const double *other)
{
    for (int k = 0; k < block->lanes; k++) {
        if (one[k] != other[k]) {
            return 0;
        }
    }
    return 1;
}

/* Samples on both sides of the largest ones. */
static void sample_near(const bite_block *block, const bite_block_chip *chip,
                        const bite_block_segment *segment, double step, bite_strip_work *work,
                        bite_block_force *force)
{
    bite_lanes about[BITE_STRIP_PEAKS];
    memcpy(about, work->peak_at, sizeof about);
    for (int i = 0; i < BITE_STRIP_TORQUE; i++) { /* the torque's peak is next to the force's */
        int known = 0;
        for (int m = 0; m < i; m++) {
            known |= at_one(block, about[i], about[m]);
        }
        for (int sign = -1; !known && sign <= 1; sign += 2) {
            set_near(block, sign * step, about[i], work);
            take_sample(block, chip, segment, work, force);
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
    int steps = grid_steps(block);
    memset(work->peak, 0, sizeof work->peak);
    memset(work->peak_at, 0, sizeof work->peak_at);
    for (int j = 0; j < chip->hinges.teeth; j++) {
        for (int i = 0; i < steps; i++) {
            set_grid(block, (i + 0.5) / steps, work->tooth[j].at, work);
            take_sample(block, chip, segment, work, force);
        }
        sample_kinks(block, chip, segment, work->tooth[j].at, work, force);
    }
    double step = 0.5 / steps;
    for (int i = 0; i < HALVINGS; i++) {
        sample_near(block, chip, segment, step, work, force);
        step *= 0.5;
    }
    finish_peaks(block, work, force);
}
