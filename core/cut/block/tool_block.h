/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tool of each cut of a block as an elastic, conducting and vibrating shaft. */
#ifndef BITE_CUT_BLOCK_TOOL_BLOCK_H
#define BITE_CUT_BLOCK_TOOL_BLOCK_H

#include "core/cut/block/block.h"

/** Fills compliance, tool_compliance, slope, load, tool_frequency, fin_resistance and fin_air_share
 * from the numbers of the cut alone: they are the same in each segment of its path. */
void bite_block_tool(const bite_block *restrict block, bite_block_segment *restrict segment);

/** Fills the first lane only, and repeats it in the others: for a block whose cuts differ in
 * nothing that bite_block_tool_reads. */
void bite_block_tool_alike(const bite_block *restrict block, bite_block_segment *restrict segment);

/** Whether bite_block_tool reads the member of bite_cut at this offset. */
int bite_block_tool_reads(size_t offset);

/** Largest stress in the shaft under a side force (N) and a torque (N m), Pa: bite_tool_stress.
 * Arrays of BITE_LANES. */
void bite_block_stress(const bite_block *restrict block, const double *restrict side,
                       const double *restrict torque, double *restrict stress);

#endif
