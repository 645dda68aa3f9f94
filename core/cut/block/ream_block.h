/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Forces of a block of reamers (core/physics/force/reamer.h). */
#ifndef BITE_CUT_BLOCK_REAM_BLOCK_H
#define BITE_CUT_BLOCK_REAM_BLOCK_H

#include "core/cut/block/force_block.h"

/** Fills the forces, and of the segment the chips, the removal rate and the edge contact. segment:
 * chip load and pressure are set. The thrust is -peak_lift. There are no walls, and a reamer
 * follows its hole, so there is no side force. */
void bite_block_ream(const bite_block *block, bite_block_segment *segment, bite_block_force *force);

#endif
