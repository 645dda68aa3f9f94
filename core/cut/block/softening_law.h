/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How the material of a block softens with time. */
#ifndef BITE_CUT_BLOCK_SOFTENING_LAW_H
#define BITE_CUT_BLOCK_SOFTENING_LAW_H

#include "core/cut/block/block.h"
#include "core/physics/heat/softening_time.h"

static inline int bite_block_is_polymer(const bite_block *block)
{
    return block->cut->substance == BITE_AMORPHOUS || block->cut->substance == BITE_CRYSTALLINE;
}

/** Whether the temperature of flow depends on time: a crystalline polymer melts, however short the
 * time. */
static inline int bite_block_is_glassy(const bite_block *block)
{
    return block->cut->substance == BITE_AMORPHOUS && !isnan(BITE_ROW(block, wlf_c1)[0]);
}

/* Of a polymer; c1 and c2 are used of a glassy one alone. */
BITE_FORMULA bite_softening_law bite_block_softening(const bite_block *block, int lane)
{
    bite_softening_law law = {BITE_ROW(block, transition)[lane], BITE_ROW(block, wlf_c1)[lane],
                              BITE_ROW(block, wlf_c2)[lane]};
    return law;
}

/** Fills the temperature, K, at which a polymer flows within time, s; decades: powers of ten by
 * which it does so later. */
BITE_FORMULA void bite_block_fill_flow(const bite_block *block, const double *restrict time,
                                       const double *restrict decades, double *restrict flow)
{
    if (bite_block_is_glassy(block)) {
        BITE_EACH_LANE(k, block)
        {
            bite_softening_law law = bite_block_softening(block, k);
            flow[k] = bite_softening_temperature(&law, time[k], decades[k]);
        }
        return;
    }
    BITE_EACH_LANE(k, block)
    {
        flow[k] = BITE_ROW(block, transition)[k];
    }
}

/** Fills the share, 0 to 1, of a stress that relaxes in a polymer within time, s, at a temperature,
 * K. */
BITE_FORMULA void bite_block_fill_relaxed(const bite_block *block,
                                          const double *restrict temperature,
                                          const double *restrict time, double *restrict share)
{
    if (bite_block_is_glassy(block)) {
        BITE_EACH_LANE(k, block)
        {
            bite_softening_law law = bite_block_softening(block, k);
            share[k] = bite_softening_relaxed_share(&law, temperature[k], time[k]);
        }
        return;
    }
    BITE_EACH_LANE(k, block)
    {
        bite_softening_law law = {BITE_ROW(block, transition)[k], (double)NAN, (double)NAN};
        share[k] = bite_softening_relaxed_share(&law, temperature[k], time[k]);
    }
}

#endif
