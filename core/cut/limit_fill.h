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

/** Replaces the numbers of a row in the lanes where `where` is 1. By way of copies: in a loop that
 * reads and writes memory of the caller the choice would be a branch. */
BITE_FORMULA void bite_take_where(const bite_block *block, const double *restrict where,
                                  const double *restrict other, double *restrict row)
{
    bite_lanes from;
    bite_lanes to;
    BITE_EACH_LANE(k, block)
    {
        from[k] = other[k];
        to[k] = row[k];
    }
    BITE_EACH_LANE(k, block)
    {
        row[k] = where[k] > 0.0 ? from[k] : to[k];
    }
}

#endif
