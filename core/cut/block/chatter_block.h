/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The depths above which the cuts of a block chatter. */
#ifndef BITE_CUT_BLOCK_CHATTER_BLOCK_H
#define BITE_CUT_BLOCK_CHATTER_BLOCK_H

#include "core/cut/block/block.h"
#include "core/cut/chatter_depth.h"

/**
 * Fills BITE_STABILITY_DEPTH and, if no mode was measured, BITE_STABILITY_DEPTH_TOOL, m.
 *
 * segment: with the arc, the pressure, the surface speed and the tool's compliance and frequency.
 * Of a mill or a chamfer; a drill has no chatter. room: touched only if a mode was
 * measured.
 */
void bite_block_chatter(const bite_block *restrict block, bite_light_cut_room *room,
                        bite_block_segment *restrict segment);

#endif
