/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How the material of a lane softens with time. */
#ifndef BITE_CUT_BLOCK_SOFTENING_LAW_H
#define BITE_CUT_BLOCK_SOFTENING_LAW_H

#include "core/cut/block/block.h"
#include "core/physics/heat/softening_time.h"

static inline int bite_block_is_polymer(const bite_block *block)
{
    return block->cut->substance == BITE_AMORPHOUS || block->cut->substance == BITE_CRYSTALLINE;
}

/** transition NaN: it is not a polymer; c1 NaN: it melts, however short the time. */
BITE_FORMULA bite_softening_law bite_block_softening(const bite_block *block, int lane)
{
    int amorphous = block->cut->substance == BITE_AMORPHOUS;
    bite_softening_law law = {
        bite_block_is_polymer(block) ? BITE_ROW(block, transition)[lane] : (double)NAN,
        amorphous ? BITE_ROW(block, wlf_c1)[lane] : (double)NAN, BITE_ROW(block, wlf_c2)[lane]};
    return law;
}

#endif
