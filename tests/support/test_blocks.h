/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Blocks of cuts for tests of the stages, with all that the forces need filled. */
#ifndef BITE_TESTS_SUPPORT_TEST_BLOCKS_H
#define BITE_TESTS_SUPPORT_TEST_BLOCKS_H

#include "core/cut/block/chip_block.h"
#include "core/cut/block/force_block.h"
#include "core/physics/geometry/engagement.h"
#include <coolbite/coolbite.h>

/** A block with its chips, before the forces. */
typedef struct bite_test_block {
    bite_block block;
    bite_block_segment segment;
    bite_block_chip chip;
    bite_lanes inside_radius; /* of the chamfer of an inside corner; NaN: a straight edge */
} bite_test_block;

/** The shear time at which the pressures are computed. */
#define BITE_TEST_SHEAR_TIME 20e-6 /* s */

/** Fills a block from cuts with all defaults, whose words, flutes and given inputs are the same:
 * numbers, arc, chips, pressure and tool. 1 to BITE_LANES cuts; the last one is repeated. */
void bite_test_block_fill(bite_test_block *to, const bite_cut *cuts, int count);

/** The arc of contact of a cut, that of an inside corner if it has one. */
bite_arc bite_test_arc(const bite_cut *full);

#endif
