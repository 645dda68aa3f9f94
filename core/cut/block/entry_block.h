/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The entry move of a block of cuts: most small tools break there, at full width and without an
 * exit for the chips.
 *
 * A ramp or helix is a slot at its own feed. In a plunge the end teeth cut, dF = (K h + Ke) dr with
 * h = vf/(n z), their thrust presses on the core, and runout leaves a side force (estimate); values
 * that a plunge does not have are NaN.
 */
#ifndef BITE_CUT_BLOCK_ENTRY_BLOCK_H
#define BITE_CUT_BLOCK_ENTRY_BLOCK_H

#include "core/cut/block/segment_block.h"

/** Feed rate and depth of the cuts before their entry move, and the feed along it. m/s, m */
typedef struct bite_entry_rows {
    bite_lanes feed_rate;
    bite_lanes depth;
    bite_lanes along;
} bite_entry_rows;

/** Fills the feed along the entry move, m/s: as given, or a share of the feed rate. */
void bite_block_entry_feed(const bite_block *restrict block, double *restrict feed);

/** Turns the cuts of a block into those of their entry move and computes its segment.
 * segment->diameter is set. The block is restored by bite_block_entry_end, after its limits. */
void bite_block_entry(bite_block *block, bite_segment_work *work, bite_entry_rows *before,
                      bite_block_segment *segment);
void bite_block_entry_end(const bite_entry_rows *before, bite_block *block);

#endif
