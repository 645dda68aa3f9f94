/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The limits of the cuts of a block. */
#ifndef BITE_CUT_BLOCK_LIMITS_RESULT_H
#define BITE_CUT_BLOCK_LIMITS_RESULT_H

#include "core/cut/block/block.h"
#include <stdint.h>

/** Some 19 KB, owned by the caller. */
typedef struct bite_block_limits_result {
    bite_lanes demand[BITE_LIMIT_COUNT];      /* SI unit of the limit; not set where none applies */
    bite_lanes capacity[BITE_LIMIT_COUNT];    /* the same, >= 0 */
    bite_lanes utilization[BITE_LIMIT_COUNT]; /* NaN: the limit does not apply */
    uint8_t in_corner[BITE_LIMIT_COUNT][BITE_LANES]; /* as in bite_limit */
    uint8_t applies[BITE_LIMIT_COUNT]; /* 1: in some lane at least; of a block, in all or none */
    uint8_t why[BITE_LIMIT_COUNT];     /* a bite_why: why it applies in no lane */
    uint8_t advisory[BITE_LIMIT_COUNT];
} bite_block_limits_result;

#endif
