/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Speeds, chips, packing and surface finish of a block: what does not need the cutting pressure. */
#ifndef BITE_CUT_BLOCK_MOTION_BLOCK_H
#define BITE_CUT_BLOCK_MOTION_BLOCK_H

#include "core/cut/block/chip_block.h"

/** Fills the tool's diameter at the surface of the part and the width of the cut (lanes, m); of a
 * chamfer that at its upper end. */
void bite_block_size(const bite_block *block, bite_block_segment *segment, double *width);

/** Fills speeds, chip thicknesses, removal, tool life, packing and finish of a segment whose arc
 * and chips are filled. */
void bite_block_motion(const bite_block *block, const bite_block_chip *chip,
                       bite_block_segment *segment);

#endif
