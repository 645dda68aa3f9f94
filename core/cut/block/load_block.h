/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Forces, power, walls and contact of a block, from the forces of its form of tool. */
#ifndef BITE_CUT_BLOCK_LOAD_BLOCK_H
#define BITE_CUT_BLOCK_LOAD_BLOCK_H

#include "core/cut/block/force_block.h"

/** Fills forces, torque, power, energy and the load on the edge. tangential, edge_tangential:
 * lanes, Pa and N/m, the pressure on the edge. */
void bite_block_loads(const bite_block *block, const double *tangential,
                      const double *edge_tangential, const bite_block_force *force,
                      bite_block_segment *segment);

/** Fills the deflection of the tip and the errors of the walls. */
void bite_block_walls(const bite_block *block, const bite_block_force *force,
                      bite_block_segment *segment);

/** Fills the contact of edge and work of a square tool, of this diameter (lanes, m). */
void bite_block_contact(const bite_block *block, const bite_block_chip *chip,
                        const double *diameter, bite_block_segment *segment);

/** Adds the compression of the core by a thrust (sign times lanes, N) to a stress (lanes, Pa).
 * diameter: lanes, m. */
void bite_block_add_thrust(const bite_block *block, const double *diameter, const double *thrust,
                           double sign, double *stress);

#endif
