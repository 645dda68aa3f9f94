/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What differs between a square tool and a block of conical tools that engrave a groove
 * (core/physics/force/v_groove.h). */
#ifndef BITE_CUT_BLOCK_GROOVE_BLOCK_H
#define BITE_CUT_BLOCK_GROOVE_BLOCK_H

#include "core/cut/block/chip_block.h"

/** The members of bite_pressure, in lanes. */
typedef struct bite_pressure_lanes {
    bite_lanes tangential;
    bite_lanes radial;
    bite_lanes axial;
    bite_lanes edge_tangential;
    bite_lanes edge_radial;
    bite_lanes edge_axial;
    bite_lanes fracture;
} bite_pressure_lanes;

/** Fills of the segment the values that depend on the shape: the chips, which are thinner by the
 * inclination of the edge, the removal rate, and the roughness of the wall, highest at the tip.
 * Chip thickness, chip load and heavy_chip are set. */
void bite_block_groove_shape(const bite_block *block, bite_block_segment *segment);

/** Fills the diameter at half of the depth, m, which a square tool of the same forces has. */
void bite_block_groove_diameter(const bite_block *block, double *diameter);

/** Fills the pressure of the segment on the inclined edge. */
void bite_block_groove_pressure(const bite_block *block, const bite_block_segment *segment,
                                bite_pressure_lanes *inclined);

/** Fills the edge contact of the segment. diameter: at half of the depth. */
void bite_block_groove_contact(const bite_block *block, const bite_block_chip *chip,
                               const double *diameter, bite_block_segment *segment);

/** Fills the largest stress in the thin tip, Pa. side: N, torque: N m, in lanes. */
void bite_block_groove_tip_stress(const bite_block *block, const double *side, const double *torque,
                                  double *stress);

#endif
