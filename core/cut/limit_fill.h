/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The functions of a limit. */
#ifndef BITE_CUT_LIMIT_FILL_H
#define BITE_CUT_LIMIT_FILL_H

#include "core/cut/block/block.h"
#include <coolbite/coolbite.h>

/** Fills demand and capacity of each lane, SI; NaN: no data. */
typedef void bite_limit_fill(const bite_block *block, const bite_block_segment *segment,
                             double *restrict demand, double *restrict capacity);

/** Why the limit does not apply to this block, whatever its demand and capacity are; otherwise
 * BITE_WHY_APPLIES. */
typedef bite_why bite_limit_omit(const bite_block *block, const bite_block_segment *segment);

/** Whether a number was given, to all cuts of a block or to none. */
static inline int bite_is_given(const double *row)
{
    return !isnan(row[0]);
}

#endif
