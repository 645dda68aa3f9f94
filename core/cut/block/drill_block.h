/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Forces of a block of drills (core/physics/force/twist_drill.h). */
#ifndef BITE_CUT_BLOCK_DRILL_BLOCK_H
#define BITE_CUT_BLOCK_DRILL_BLOCK_H

#include "core/cut/block/force_block.h"

/** Fills the forces, and of the segment the chips, the removal rate, heavy_chip and the edge
 * contact. segment: chip load, pressure, and of the tool compliance, slope and load are set. The
 * thrust is -peak_lift, and the side force that runout leaves unbalanced is peak_side. There are no
 * walls. */
void bite_block_drill(const bite_block *block, bite_block_segment *segment,
                      bite_block_force *force);

#endif
