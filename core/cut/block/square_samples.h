/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Peaks of the forces of square end mills and the bending at the walls, from samples of a turn. */
#ifndef BITE_CUT_BLOCK_SQUARE_SAMPLES_H
#define BITE_CUT_BLOCK_SQUARE_SAMPLES_H

#include "core/cut/block/square_work.h"

/** Samples a turn. Fills peak_tangential, peak_side squared, the walls, and up and down of the
 * work. work: lag, per_lag, pressures and walls are filled. */
void bite_square_sample(const bite_block *block, const bite_square_tool *tool,
                        const bite_block_chip *chip, bite_square_work *work,
                        bite_block_force *force);

#endif
