/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The cutting pressure of a block of cuts. */
#ifndef BITE_CUT_BLOCK_PRESSURE_BLOCK_H
#define BITE_CUT_BLOCK_PRESSURE_BLOCK_H

#include "core/cut/block/block.h"
#include <stdbool.h>

/** Fills the members of bite_pressure of a segment from its edge radius, surface speed, and mean
 * and least chips. False: the material has no cutting pressure, and nothing is filled. */
bool bite_block_pressure(const bite_block *restrict block, bite_block_segment *restrict segment);

#endif
