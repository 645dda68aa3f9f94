/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The forces of a block, as each form of tool computes them. */
#ifndef BITE_CUT_BLOCK_FORCE_BLOCK_H
#define BITE_CUT_BLOCK_FORCE_BLOCK_H

#include "core/cut/block/block.h"
#include "core/cut/block/chip_block.h"
#include "core/physics/force/cutting_pressure.h"

/** Forces on the part over a turn, and the bending of the tool where they finish the walls. Peaks
 * are at the pressure of the thickest chip that a tooth may cut, means and walls at the plain one.
 */
typedef struct bite_block_force {
    bite_lanes peak_tangential; /* N, sum over the teeth */
    bite_lanes peak_side;       /* N */
    bite_lanes peak_lift;       /* N, with its sign */
    bite_lanes peak_torque;     /* N m */
    bite_lanes mean_tangential; /* N */
    bite_lanes mean_x;          /* N */
    bite_lanes mean_y;          /* N */
    bite_lanes mean_lift;       /* N */
    bite_lanes mean_torque;     /* N m */
    bite_lanes wall_climb; /* m, bending at the wall that is climb milled; NaN: there is none */
    bite_lanes wall_conventional;
} bite_block_force;

/** The cutting pressure of a lane, as formulas of one edge take it. */
BITE_FORMULA bite_pressure bite_segment_pressure(const bite_block_segment *segment, int k)
{
    bite_pressure pressure = {segment->tangential[k],  segment->radial[k],
                              segment->axial[k],       segment->edge_tangential[k],
                              segment->edge_radial[k], segment->edge_axial[k],
                              segment->fracture[k]};
    return pressure;
}

#endif
