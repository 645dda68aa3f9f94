/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The heat of a block of cuts: chip, tool, finished surface and part. */
#ifndef BITE_CUT_BLOCK_HEAT_BLOCK_H
#define BITE_CUT_BLOCK_HEAT_BLOCK_H

#include "core/cut/block/block.h"

/** Fills the temperatures, heat flows and heat shares of a segment whose diameter, edge radius,
 * engagement, removal rate, pressure, contact and tool as a fin are filled. */
void bite_block_heat(const bite_block *restrict block, bite_block_segment *restrict segment);

#endif
