/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The entry move of a block of cuts: plunge, ramp and helix. */
#include "core/cut/block/entry_block.h"
#include "core/cut/block/load_block.h"
#include "core/cut/block/pressure_block.h"
#include "core/cut/block/tool_block.h"
#include "core/cut/entry_move.h"
#include "core/physics/geometry/kinematics.h"
#include <string.h>

BITE_IN_LANES void bite_block_entry_feed(const bite_block *restrict block, double *restrict feed)
{
    int plunges = block->cut->entry == BITE_ENTRY_PLUNGE;
    const double *restrict given = BITE_ROW(block, entry_feed);
    const double *restrict feed_rate = BITE_ROW(block, feed_rate);
    BITE_EACH_LANE(k, block)
    {
        feed[k] = bite_entry_feed_of(given[k], feed_rate[k], plunges);
    }
}

/* ---- plunge ---- */

BITE_IN_LANES static void fill_plunge_motion(const bite_block *restrict block,
                                             bite_block_segment *restrict segment)
{
    double flutes = (double)block->flutes;
    const double *restrict speed = BITE_ROW(block, spindle_speed);
    const double *restrict feed_rate = BITE_ROW(block, feed_rate);
    const double *restrict depth = BITE_ROW(block, depth);
    const double *restrict minimum_chip = BITE_ROW(block, minimum_chip);
    const double *restrict edge_radius = BITE_ROW(block, edge_radius);
    const double *restrict edge_wear = BITE_ROW(block, edge_wear);
    BITE_EACH_LANE(k, block)
    {
        double feed = bite_kinematics_tooth_feed(feed_rate[k], speed[k], flutes);
        double dulled = edge_radius[k] * edge_wear[k];
        segment->edge_radius[k] = dulled;
        segment->engaged[k] = 1.0;
        segment->packing[k] = depth[k] / segment->diameter[k];
        segment->pocket[k] = 0.0;
        segment->heavy_chip[k] = feed;
        segment->thin_chip[k] = 0.0;
        segment->chip_mean[k] = 0.0;
        segment->value[BITE_CHIP_LOAD][k] = feed;
        segment->value[BITE_CHIP_THICKNESS_MEAN][k] = feed;
        segment->value[BITE_CHIP_THICKNESS_LEAST][k] = minimum_chip[k] * dulled;
        segment->value[BITE_SURFACE_SPEED][k] =
            bite_kinematics_surface_speed(segment->diameter[k], speed[k]);
    }
}

/* Forces on the end teeth; of a conical tool: at the surface of the part. */
BITE_IN_LANES static void fill_plunge_forces(const bite_block *restrict block,
                                             bite_block_segment *restrict segment,
                                             double *restrict side, double *restrict thrust)
{
    double flutes = (double)block->flutes;
    double single = block->flutes > 1 ? 0.0 : 1.0;
    double step_share = block->flutes > 1 ? sin(M_PI / flutes) : 0.0;
    const double *restrict speed = BITE_ROW(block, spindle_speed);
    const double *restrict runout = BITE_ROW(block, runout);
    BITE_EACH_LANE(k, block)
    {
        double radius = 0.5 * segment->diameter[k];
        double feed = segment->value[BITE_CHIP_LOAD][k];
        double edge_load = segment->tangential[k] * feed + segment->edge_tangential[k];
        double tangential = edge_load * radius;
        double torque = flutes * tangential * 0.5 * radius;
        double uneven = bite_smaller(feed, runout[k] * step_share);
        double step = single > 0.0 ? feed : uneven;
        side[k] =
            segment->tangential[k] * step * radius + single * segment->edge_tangential[k] * radius;
        thrust[k] = flutes * (segment->radial[k] * feed + segment->edge_radial[k]) * radius;
        segment->torque_mean[k] = torque;
        segment->value[BITE_EDGE_LOAD][k] = edge_load;
        segment->value[BITE_TORQUE_PEAK][k] = torque;
        segment->value[BITE_POWER_MEAN][k] = 2.0 * M_PI * speed[k] * torque;
    }
}

static void plunge(const bite_block *block, bite_segment_work *work, bite_block_segment *segment)
{
    double *side = work->rows[0];
    double *thrust = work->rows[1];
    bite_block_segment_blank(segment);
    fill_plunge_motion(block, segment);
    if (bite_block_pressure(block, segment)) {
        double *stress = segment->value[BITE_TOOL_STRESS];
        fill_plunge_forces(block, segment, side, thrust);
        bite_block_stress(block, side, segment->value[BITE_TORQUE_PEAK], stress);
        bite_block_add_thrust(block, segment->diameter, thrust, 1.0, stress);
    }
    /* only the limits of the entry move read this segment: its chip is not that of a side cut */
    for (int k = 0; k < block->lanes; k++) {
        segment->value[BITE_CHIP_THICKNESS_MEAN][k] = (double)NAN;
        segment->value[BITE_SURFACE_SPEED][k] = (double)NAN;
    }
}

/* ---- ramp and helix ---- */

/* On a helix the tool cuts the floor of the last turn alone. Its centre moves on a circle of at
 * most half the diameter as radius, or a core would be left: a turn descends by pi D tan(slope),
 * and never by more than the pass. */
BITE_IN_LANES static void set_helix_depth(bite_block *restrict block,
                                          const double *restrict diameter)
{
    double *restrict depth = BITE_ROW(block, depth);
    const double *restrict slope = BITE_ROW(block, ramp_angle);
    BITE_EACH_LANE(k, block)
    {
        depth[k] = bite_smaller(M_PI * diameter[k] * tan(slope[k]), depth[k]);
    }
}

BITE_IN_LANES static void set_level_feed(bite_block *restrict block)
{
    double *restrict feed_rate = BITE_ROW(block, feed_rate);
    const double *restrict slope = BITE_ROW(block, ramp_angle);
    BITE_EACH_LANE(k, block)
    {
        feed_rate[k] *= cos(slope[k]);
    }
}

/* The depth under the tool grows from nothing to its greatest while the centre descends by as much,
 * and then stays: over the whole descent its mean is this share of the greatest, half of it on a
 * ramp. The chips that lie in the cut are those of the mean (estimate: chips move from where the
 * slot is deep to where it is shallow). */
BITE_IN_LANES static void set_mean_packing(const bite_block *restrict block,
                                           const double *restrict descent, double *restrict packing)
{
    const double *restrict greatest = BITE_ROW(block, depth);
    BITE_EACH_LANE(k, block)
    {
        packing[k] *= 1.0 - 0.5 * greatest[k] / descent[k];
    }
}

void bite_block_entry(bite_block *block, bite_segment_work *work, bite_entry_rows *before,
                      bite_block_segment *segment)
{
    memcpy(before->feed_rate, BITE_ROW(block, feed_rate), sizeof before->feed_rate);
    memcpy(before->depth, BITE_ROW(block, depth), sizeof before->depth);
    bite_block_entry_feed(block, before->along);
    memcpy(BITE_ROW(block, feed_rate), before->along, sizeof before->along);
    if (block->cut->entry == BITE_ENTRY_PLUNGE) {
        plunge(block, work, segment);
        return;
    }
    if (block->cut->entry == BITE_ENTRY_HELIX) {
        set_helix_depth(block, segment->diameter);
    }
    set_level_feed(block);
    (void)bite_block_segment_compute(block, segment->diameter, NULL, NULL, work, segment);
    set_mean_packing(block, before->depth, segment->packing);
}

void bite_block_entry_end(const bite_entry_rows *before, bite_block *block)
{
    memcpy(BITE_ROW(block, feed_rate), before->feed_rate, sizeof before->feed_rate);
    memcpy(BITE_ROW(block, depth), before->depth, sizeof before->depth);
}
