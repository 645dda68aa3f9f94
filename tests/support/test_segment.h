/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One segment of one cut, computed as a block of one. */
#ifndef BITE_TESTS_SUPPORT_TEST_SEGMENT_H
#define BITE_TESTS_SUPPORT_TEST_SEGMENT_H

#include "core/cut/block/pass_block.h"
#include "core/physics/geometry/engagement.h"
#include "core/physics/heat/wall_heat.h"
#include <coolbite/coolbite.h>

/** One lane of a bite_block_segment: its results, as there. */
typedef struct bite_segment {
    double value[BITE_VALUE_COUNT]; /* SI; NaN: no data */
    double heat_share[4];           /* chip, tool, part, stored */
    double compliance;
    double heavy_chip;
    double thin_chip;
    double torque_mean;
    double engaged;
    double chip_rise;
    double chip_mean;
    double wall_rise;
    double wall_dwell;
    double floor_rise;
    double floor_dwell;
    double wall_bend;
    double finish_bend;
    double pocket;
    double packing;
    double heat_power;
    double energy_gap;
} bite_segment;

/** Copies one lane. */
void bite_test_segment_lane(const bite_block_segment *lanes, int k, bite_segment *segment);

/** Computes the segment with this arc of contact. full: the cut with its defaults. */
void bite_test_segment(const bite_cut *full, bite_arc arc, bite_segment *segment);

/** The values and the limits of one checked cut, in a space that is initialized. */
void bite_test_evaluate(const bite_checked_cut *checked, bite_block_space *space,
                        double values[BITE_VALUE_COUNT], bite_limit limits[BITE_LIMIT_COUNT]);

#endif
