/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Forces of square end mills, in lanes: integrals along the helix in closed form, at samples of a
 * turn. */
#ifndef BITE_CUT_BLOCK_SQUARE_BLOCK_H
#define BITE_CUT_BLOCK_SQUARE_BLOCK_H

#include "core/cut/block/square_work.h"

/** Fills the forces. chip: filled; segment: heavy_chip, compliance, load and the least chip
 * (value[BITE_CHIP_THICKNESS_LEAST]) are filled. */
void bite_block_square(const bite_block *block, const bite_square_tool *tool,
                       const bite_block_chip *chip, const bite_block_segment *segment,
                       bite_square_work *work, bite_block_force *force);

#endif
