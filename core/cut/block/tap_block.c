/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Forces of a block of taps. */
#include "core/cut/block/tap_block.h"
#include "core/physics/force/tap.h"
#include <string.h>

BITE_FORMULA bite_tap_shape shape_of(const bite_block *block, int k)
{
    bite_tap_shape shape = {BITE_ROW(block, diameter)[k],      BITE_ROW(block, pitch)[k],
                            BITE_ROW(block, hole_diameter)[k], BITE_ROW(block, flutes)[k],
                            BITE_ROW(block, tap_lead)[k],      BITE_ROW(block, tap_drag)[k]};
    return shape;
}

BITE_FORMULA bite_tap tap_of(const bite_block *block, const bite_block_segment *segment, int k)
{
    bite_tap_shape shape = shape_of(block, k);
    bite_pressure pressure = bite_segment_pressure(segment, k);
    bite_tap tap;
    bite_tap_forces(&shape, &pressure, &tap);
    return tap;
}

BITE_IN_LANES void bite_block_tap_chips(const bite_block *restrict block,
                                        bite_block_segment *restrict segment)
{
    BITE_EACH_LANE(k, block)
    {
        bite_tap_shape shape = shape_of(block, k);
        double chip = bite_tap_chip(&shape);
        segment->value[BITE_CHIP_THICKNESS_MAX][k] = chip;
        segment->value[BITE_CHIP_THICKNESS_MEAN][k] = chip;
        segment->value[BITE_ROUGHNESS_FLOOR][k] = segment->value[BITE_ROUGHNESS_WALL][k] =
            segment->value[BITE_HAZE][k] = (double)NAN;
        segment->heavy_chip[k] = chip;
        segment->contact_chip[k] = chip;
    }
}

BITE_IN_LANES static void fill_contact(const bite_block *restrict block,
                                       bite_block_segment *restrict segment)
{
    const double *restrict speed = BITE_ROW(block, spindle_speed);
    BITE_EACH_LANE(k, block)
    {
        bite_tap tap = tap_of(block, segment, k);
        double edge_speed = 2.0 * M_PI * tap.groove.arm * speed[k];
        segment->value[BITE_REMOVAL_RATE][k] = tap.groove.area * edge_speed;
        segment->contact_speed[k] = edge_speed;
        segment->contact_length[k] = tap.groove.width;
        segment->contact_teeth[k] = tap.teeth;
        segment->contact_feed[k] = tap.chip;
    }
}

BITE_IN_LANES static void fill_forces(const bite_block *restrict block,
                                      const bite_block_segment *restrict segment,
                                      bite_block_force *restrict force)
{
    BITE_EACH_LANE(k, block)
    {
        bite_tap tap = tap_of(block, segment, k);
        force->peak_tangential[k] = force->mean_tangential[k] = tap.tangential;
        force->peak_torque[k] = force->mean_torque[k] = tap.torque;
        force->wall_climb[k] = force->wall_conventional[k] = (double)NAN;
    }
}

void bite_block_tap(const bite_block *block, bite_block_segment *segment, bite_block_force *force)
{
    memset(force, 0, sizeof *force);
    fill_contact(block, segment);
    fill_forces(block, segment, force);
}
