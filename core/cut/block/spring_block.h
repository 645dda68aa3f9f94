/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Spring passes: the lap of a side cut repeated at the same setting. */
#ifndef BITE_CUT_BLOCK_SPRING_BLOCK_H
#define BITE_CUT_BLOCK_SPRING_BLOCK_H

#include "core/cut/block/segment_block.h"

/** The error of the wall and the deflection that finishes it become those of the last of the
 * block's spring passes; all else stays that of the first lap, which loads the tool most. width,
 * inside_radius: as for the segment, which was computed. lap: working memory. */
void bite_block_springs(const bite_block *block, const double *width, const double *inside_radius,
                        bite_segment_work *work, bite_block_segment *lap,
                        bite_block_segment *segment);

#endif
