/* SPDX-License-Identifier: GPL-3.0-or-later */
/* All values of one segment of the path, for each cut of a block: the straight, an inside corner,
 * or the entry move. */
#ifndef BITE_CUT_BLOCK_SEGMENT_BLOCK_H
#define BITE_CUT_BLOCK_SEGMENT_BLOCK_H

#include "core/cut/block/groove_block.h"
#include "core/cut/block/square_block.h"
#include "core/cut/block/strip_block.h"
#include "core/cut/chatter_depth.h"
#include <stdbool.h>

/** Working memory of a segment. The tables of the chip are kept from one segment to the next. */
typedef struct bite_segment_work {
    bite_block_chip chip;
    bite_block_force force;
    union {
        bite_square_work square;
        bite_strip_work strip;
        bite_light_cut_room light_cut;
    } form;
    bite_pressure_lanes inclined; /* of a groove */
    bite_lanes rows[2];           /* of one stage */
    int tool_alike; /* 1: the cuts differ in nothing that the tool as a body depends on */
} bite_segment_work;

/** Sets all results to NaN. */
void bite_block_segment_blank(bite_block_segment *segment);

/** Computes a segment. False: the material has no cutting pressure, and only what does not need it
 * is a number. width: lanes, m; inside_radius: lanes, m, of an inside corner; NULL: a straight
 * pass. tool: a segment of the same cuts with the same depth, whose tool as a body is copied; NULL:
 * none. segment->diameter is set (bite_block_size). */
bool bite_block_segment_compute(const bite_block *block, const double *width,
                                const double *inside_radius, const bite_block_segment *tool,
                                bite_segment_work *work, bite_block_segment *segment);

/** The same for an arc of contact: enter and leave of the segment are set too. */
bool bite_block_segment_within(const bite_block *block, const double *inside_radius,
                               const bite_block_segment *tool, bite_segment_work *work,
                               bite_block_segment *segment);

#endif
