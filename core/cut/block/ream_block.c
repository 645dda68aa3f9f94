/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Forces of a block of reamers. */
#include "core/cut/block/ream_block.h"
#include "core/physics/force/reamer.h"
#include <string.h>

BITE_FORMULA bite_reamer reamer_of(const bite_block *block, const bite_block_segment *segment,
                                   int k)
{
    bite_reamer_shape shape = {BITE_ROW(block, diameter)[k], BITE_ROW(block, hole_diameter)[k],
                               BITE_ROW(block, flutes)[k]};
    bite_pressure pressure = bite_segment_pressure(segment, k);
    bite_reamer reamer;
    bite_reamer_forces(&shape, segment->value[BITE_CHIP_LOAD][k], &pressure, &reamer);
    return reamer;
}

BITE_IN_LANES static void fill_chips(const bite_block *restrict block,
                                     bite_block_segment *restrict segment)
{
    const double *restrict diameter = BITE_ROW(block, diameter);
    const double *restrict hole = BITE_ROW(block, hole_diameter);
    const double *restrict speed = BITE_ROW(block, spindle_speed);
    const double *restrict feed_rate = BITE_ROW(block, feed_rate);
    BITE_EACH_LANE(k, block)
    {
        bite_reamer reamer = reamer_of(block, segment, k);
        segment->value[BITE_CHIP_THICKNESS_MAX][k] = reamer.chip;
        segment->value[BITE_CHIP_THICKNESS_MEAN][k] = reamer.chip;
        segment->value[BITE_REMOVAL_RATE][k] =
            0.25 * M_PI * (diameter[k] * diameter[k] - hole[k] * hole[k]) * feed_rate[k];
        segment->value[BITE_ROUGHNESS_FLOOR][k] = segment->value[BITE_ROUGHNESS_WALL][k] =
            segment->value[BITE_HAZE][k] = (double)NAN;
        segment->heavy_chip[k] = reamer.chip;
        segment->contact_speed[k] = 0.5 * M_PI * (diameter[k] + hole[k]) * speed[k];
        segment->contact_chip[k] = reamer.chip;
        segment->contact_length[k] = reamer.edge;
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
        bite_reamer reamer = reamer_of(block, segment, k);
        force->peak_tangential[k] = force->mean_tangential[k] = reamer.tangential;
        force->peak_torque[k] = force->mean_torque[k] = reamer.torque;
        force->peak_lift[k] = force->mean_lift[k] = -reamer.thrust;
        force->wall_climb[k] = force->wall_conventional[k] = (double)NAN;
    }
}

void bite_block_ream(const bite_block *block, bite_block_segment *segment, bite_block_force *force)
{
    memset(force, 0, sizeof *force);
    fill_chips(block, segment);
    fill_forces(block, segment, force);
}
