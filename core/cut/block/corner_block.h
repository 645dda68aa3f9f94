/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Forces of a block of tools with a corner radius, up to a ball end
 * (core/physics/force/edge_strip.h). */
#ifndef BITE_CUT_BLOCK_CORNER_BLOCK_H
#define BITE_CUT_BLOCK_CORNER_BLOCK_H

#include "core/cut/block/strip_block.h"

/**
 * Fills the forces, and of the segment the removal rate, heavy_chip and the edge contact.
 *
 * segment: diameter, pressure, engaged, and of the tool compliance, slope and load are set; chip:
 * of the arc at the whole diameter. The walls are computed at the pressure of the peaks, and
 * finished by tooth 0, at heights where the edge is steeper than 30 degrees.
 */
void bite_block_corner_radius(const bite_block *block, const bite_block_chip *chip,
                              bite_block_segment *segment, bite_strip_work *work,
                              bite_block_force *force);

#endif
