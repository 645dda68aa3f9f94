/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Forces of a block of taps (core/physics/force/tap.h). */
#ifndef BITE_CUT_BLOCK_TAP_BLOCK_H
#define BITE_CUT_BLOCK_TAP_BLOCK_H

#include "core/cut/block/force_block.h"

/** Fills the chips of the chamfer's teeth, on which the pressure depends. Call it before the
 * pressure is filled. */
void bite_block_tap_chips(const bite_block *block, bite_block_segment *segment);

/** Fills the forces, and of the segment the removal rate and the edge contact. segment: pressure is
 * set. A tap advances by its own thread, so there is no thrust; there are no walls. */
void bite_block_tap(const bite_block *block, bite_block_segment *segment, bite_block_force *force);

#endif
