/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cuts of any kind, one after another, in lanes of a block as long as they fit together. */
#ifndef BITE_CUT_CUT_LANES_H
#define BITE_CUT_CUT_LANES_H

#include "core/cut/block/pass_block.h"
#include <coolbite/coolbite.h>

/** space: borrowed. count: lanes in use; 0 at the start. */
typedef struct bite_cut_lanes {
    bite_block_space *space;
    size_t count;
    bite_checked_cut first; /* of the block: its words, and what is given */
} bite_cut_lanes;

/** Puts a cut into the next lane. 0: the block is full, or the cut differs from its others in
 * words, form of the tool or what is given: evaluate the block and start again with count 0. */
int bite_cut_lanes_put(bite_cut_lanes *lanes, const bite_checked_cut *checked);

/** Computes all lanes. */
void bite_cut_lanes_evaluate(bite_cut_lanes *lanes);

/** The result of a lane, as bite_cut_pass gives it for that cut. */
bite_status bite_cut_lanes_result(const bite_cut_lanes *lanes, size_t lane, bite_result *result,
                                  bite_error *error);

#endif
