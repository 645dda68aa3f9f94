/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One segment of one cut, computed as a block of one. */
#include "tests/support/test_segment.h"
#include "core/cut/block/motion_block.h"
#include "core/cut/limits.h"
#include "tests/support/support.h"

#define RESULTS (sizeof(bite_segment) / sizeof(double))

_Static_assert(RESULTS * sizeof(bite_lanes) ==
                   sizeof(bite_block_segment) - offsetof(bite_block_segment, value),
               "a bite_segment has the results of a bite_block_segment, in the same order");

void bite_test_segment_lane(const bite_block_segment *lanes, int k, bite_segment *segment)
{
    const bite_lanes *rows = lanes->value;
    double *to = segment->value;
    for (size_t i = 0; i < RESULTS; i++) {
        to[i] = rows[i][k];
    }
}

void bite_test_segment(const bite_cut *full, bite_arc arc, bite_segment *segment)
{
    static bite_block_space space;
    static bite_checked_cut checked;
    bite_lanes inside_radius;
    bite_lanes width;
    bite_block *block = &space.block;
    checked.requested = checked.full = *full;
    bite_block_space_init(&space);
    bite_block_start(&space, &checked, NULL, 0);
    block->count = 1;
    block->lanes = BITE_LANE_STEP;
    bite_block_size(block, &space.straight, width);
    for (int k = 0; k < BITE_LANES; k++) {
        space.straight.enter[k] = arc.enter;
        space.straight.leave[k] = arc.leave;
        inside_radius[k] = arc.corner;
    }
    bite_block_segment_within(block, arc.corner > 0.0 ? inside_radius : NULL, NULL, &space.work,
                              &space.straight);
    bite_test_segment_lane(&space.straight, 0, segment);
}

void bite_test_evaluate(const bite_checked_cut *checked, bite_block_space *space,
                        double values[BITE_VALUE_COUNT], bite_limit limits[BITE_LIMIT_COUNT])
{
    bite_block_start(space, checked, NULL, 0);
    bite_block_evaluate(space, 1, NULL);
    for (int i = 0; i < BITE_VALUE_COUNT; i++) {
        values[i] = space->straight.value[i][0];
    }
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        bite_block_limit_of(&space->limits, (bite_limit_id)i, 0, &limits[i]);
    }
}
