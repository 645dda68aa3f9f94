/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Forces of a block of drills. */
#include "core/cut/block/drill_block.h"
#include "core/physics/force/twist_drill.h"
#include <string.h>

BITE_FORMULA bite_drill_shape shape_of(const bite_block *block, int k)
{
    bite_drill_shape shape = {BITE_ROW(block, diameter)[k], BITE_ROW(block, flutes)[k],
                              BITE_ROW(block, point_angle)[k], BITE_ROW(block, runout)[k]};
    return shape;
}

BITE_FORMULA bite_drill drill_of(const bite_block *block, const bite_block_segment *segment, int k)
{
    bite_drill_shape shape = shape_of(block, k);
    bite_pressure pressure = bite_segment_pressure(segment, k);
    bite_drill drill;
    bite_drill_forces(&shape, segment->value[BITE_CHIP_LOAD][k], &pressure, &drill);
    return drill;
}

BITE_IN_LANES static void fill_chips(const bite_block *restrict block,
                                     bite_block_segment *restrict segment)
{
    const double *restrict diameter = BITE_ROW(block, diameter);
    const double *restrict speed = BITE_ROW(block, spindle_speed);
    const double *restrict feed_rate = BITE_ROW(block, feed_rate);
    BITE_EACH_LANE(k, block)
    {
        bite_drill drill = drill_of(block, segment, k);
        segment->value[BITE_CHIP_THICKNESS_MAX][k] = drill.chip;
        segment->value[BITE_CHIP_THICKNESS_MEAN][k] = drill.chip;
        segment->value[BITE_REMOVAL_RATE][k] =
            0.25 * M_PI * diameter[k] * diameter[k] * feed_rate[k];
        segment->value[BITE_ROUGHNESS_FLOOR][k] = segment->value[BITE_ROUGHNESS_WALL][k] =
            segment->value[BITE_HAZE][k] = (double)NAN;
        segment->heavy_chip[k] = drill.heavy_chip;
        segment->contact_speed[k] = M_PI * diameter[k] * speed[k] * 0.5;
        segment->contact_chip[k] = drill.chip;
        segment->contact_length[k] = drill.lip;
        segment->contact_teeth[k] = BITE_ROW(block, flutes)[k];
        segment->contact_feed[k] = segment->value[BITE_CHIP_LOAD][k];
    }
}

BITE_IN_LANES static void fill_forces(const bite_block *restrict block,
                                      const bite_block_segment *restrict segment,
                                      bite_block_force *restrict force)
{
    BITE_EACH_LANE(k, block)
    {
        bite_drill_shape shape = shape_of(block, k);
        bite_drill drill = drill_of(block, segment, k);
        double compliance = segment->compliance[k] + segment->slope[k] * segment->load[k];
        force->peak_tangential[k] = force->mean_tangential[k] = drill.tangential;
        force->peak_torque[k] = force->mean_torque[k] = drill.torque;
        force->peak_lift[k] = force->mean_lift[k] = -drill.thrust;
        force->peak_side[k] = bite_drill_side_left(&shape, drill.side, compliance);
        force->wall_climb[k] = force->wall_conventional[k] = (double)NAN;
    }
}

void bite_block_drill(const bite_block *block, bite_block_segment *segment, bite_block_force *force)
{
    memset(force, 0, sizeof *force);
    fill_chips(block, segment);
    fill_forces(block, segment, force);
}
