/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Forces, power, walls and contact of a block. */
#include "core/cut/block/load_block.h"
#include "core/physics/geometry/kinematics.h"

BITE_IN_LANES void bite_block_loads(const bite_block *restrict block,
                                    const double *restrict tangential,
                                    const double *restrict edge_tangential,
                                    const bite_block_force *restrict force,
                                    bite_block_segment *restrict segment)
{
    const double *restrict speed = BITE_ROW(block, spindle_speed);
    bite_lanes *restrict value = segment->value;
    BITE_EACH_LANE(k, block)
    {
        double torque = force->mean_torque[k];
        double power = 2.0 * M_PI * speed[k] * torque;
        double thickest =
            bite_chip_peak(segment->heavy_chip[k], value[BITE_CHIP_THICKNESS_LEAST][k]);
        value[BITE_FORCE_TANGENTIAL_PEAK][k] = force->peak_tangential[k];
        value[BITE_FORCE_SIDE_PEAK][k] = force->peak_side[k];
        value[BITE_FORCE_SIDE_MEAN][k] = bite_length_of(force->mean_x[k], force->mean_y[k]);
        value[BITE_FORCE_LIFT_PEAK][k] = force->peak_lift[k];
        value[BITE_TORQUE_PEAK][k] = force->peak_torque[k];
        value[BITE_POWER_MEAN][k] = power;
        value[BITE_SPECIFIC_ENERGY][k] = power / value[BITE_REMOVAL_RATE][k];
        value[BITE_EDGE_LOAD][k] = tangential[k] * thickest + edge_tangential[k];
        segment->torque_mean[k] = torque;
    }
}

/* With runout the tool cuts a width of D + TIR: half of the runout is removed from each wall. */
BITE_IN_LANES void bite_block_walls(const bite_block *restrict block,
                                    const bite_block_force *restrict force,
                                    bite_block_segment *restrict segment)
{
    const double *restrict runout = BITE_ROW(block, runout);
    bite_lanes *restrict value = segment->value;
    BITE_EACH_LANE(k, block)
    {
        double climb = force->wall_climb[k] - 0.5 * runout[k];
        double conventional = force->wall_conventional[k] - 0.5 * runout[k];
        double tip = segment->compliance[k] + segment->slope[k] * segment->load[k];
        value[BITE_DEFLECTION_TIP][k] = force->peak_side[k] * tip;
        value[BITE_WALL_CLIMB][k] = climb;
        value[BITE_WALL_CONVENTIONAL][k] = conventional;
        value[BITE_WALL_ERROR][k] = bite_larger_known(fabs(climb), fabs(conventional));
        segment->wall_bend[k] =
            bite_larger_known(fabs(force->wall_climb[k]), fabs(force->wall_conventional[k]));
        segment->finish_bend[k] = segment->wall_bend[k];
    }
}

BITE_IN_LANES void bite_block_contact(const bite_block *restrict block,
                                      const bite_block_chip *restrict chip,
                                      const double *restrict diameter,
                                      bite_block_segment *restrict segment)
{
    const double *restrict speed = BITE_ROW(block, spindle_speed);
    const double *restrict depth = BITE_ROW(block, depth);
    BITE_EACH_LANE(k, block)
    {
        double arc = chip->arc[k];
        double mean = chip->area[k] / arc;
        segment->contact_speed[k] = bite_kinematics_surface_speed(diameter[k], speed[k]);
        segment->contact_chip[k] = arc > 0.0 ? mean : 0.0;
        segment->contact_length[k] = depth[k];
        segment->contact_teeth[k] = arc / (2.0 * M_PI);
        segment->contact_feed[k] = chip->feed_real[k];
    }
}

BITE_IN_LANES void bite_block_add_thrust(const bite_block *restrict block,
                                         const double *restrict diameter,
                                         const double *restrict thrust, double sign,
                                         double *restrict stress)
{
    const double *restrict share = BITE_ROW(block, core_share);
    BITE_EACH_LANE(k, block)
    {
        double core = share[k] * diameter[k];
        stress[k] += sign * thrust[k] / (0.25 * M_PI * core * core);
    }
}
