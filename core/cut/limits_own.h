/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits of the plugin of the material's family: they are asked as the library's own are. */
#ifndef BITE_CUT_LIMITS_OWN_H
#define BITE_CUT_LIMITS_OWN_H

#include "core/cut/block/block.h"
#include "core/names/own_limits.h"

/** Asks a limit of the plugin; limit: NULL: the cut has none in this slot. Fills demand and
 * capacity of each lane; both are NaN where the plugin gave a number that is negative or not
 * finite. BITE_WHY_APPLIES: filled; otherwise why it does not apply. */
bite_why bite_limit_own_fill(const bite_own_limit *limit, const bite_block *block,
                             const bite_block_segment *segment, double *restrict demand,
                             double *restrict capacity);

#endif
