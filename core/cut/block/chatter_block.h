/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The depths above which the cuts of a block chatter. */
#ifndef BITE_CUT_BLOCK_CHATTER_BLOCK_H
#define BITE_CUT_BLOCK_CHATTER_BLOCK_H

#include "core/cut/block/block.h"

/**
 * Fills BITE_STABILITY_DEPTH and, if no mode was measured, BITE_STABILITY_DEPTH_TOOL, m.
 *
 * segment: with the arc, the pressure, the surface speed and the tool's compliance and frequency.
 * Of a mill or a chamfer; a drill has no chatter. numbers: working memory of `count` doubles,
 * BITE_SEMIDISCRETE_SIZE(BITE_SEGMENT_MODES, BITE_SEGMENT_SEMIDISCRETE_STEPS), read only if a mode
 * was measured.
 */
void bite_block_chatter(const bite_block *restrict block, double *numbers, size_t count,
                        bite_block_segment *restrict segment);

#endif
