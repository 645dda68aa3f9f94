/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The engine's square end mill, from numbers of its own rather than those of a cut. */
#include "tests/support/test_mill.h"
#include <string.h>

typedef struct mill_block {
    bite_block block;
    bite_block_segment segment;
    bite_block_chip chip;
    bite_square_work work;
} mill_block;

static void fill(double *row, double value)
{
    for (int k = 0; k < BITE_LANES; k++) {
        row[k] = value;
    }
}

static void fill_chips(const bite_test_mill *mill, mill_block *made)
{
    bite_block *block = &made->block;
    memset(made, 0, sizeof *made);
    block->count = 1;
    block->lanes = BITE_LANE_STEP;
    block->flutes = mill->flutes;
    fill(BITE_ROW(block, diameter), mill->diameter);
    fill(BITE_ROW(block, depth), mill->depth);
    fill(BITE_ROW(block, helix), mill->helix);
    fill(BITE_ROW(block, runout), mill->runout);
    fill(BITE_ROW(block, flutes), mill->flutes);
    fill(BITE_ROW(block, spindle_speed), 1.0);
    fill(BITE_ROW(block, feed_rate), mill->feed * mill->flutes);
    fill(made->segment.enter, mill->arc.enter);
    fill(made->segment.leave, mill->arc.leave);
    bite_block_chip_init(&made->chip, mill->flutes, bite_block_cuts_alike(block));
    bite_block_arc_sines(block, &made->segment, &made->chip);
    bite_block_chips(block, &made->chip);
}

void bite_test_mill_chips(const bite_test_mill *mill, bite_block_chip *chip)
{
    static mill_block made;
    fill_chips(mill, &made);
    *chip = made.chip;
}

void bite_test_mill_forces(const bite_test_mill *mill, bite_block_force *force)
{
    static mill_block made;
    bite_block_segment *segment = &made.segment;
    fill_chips(mill, &made);
    memcpy(segment->heavy_chip, made.chip.most, sizeof segment->heavy_chip);
    fill(segment->tangential, mill->pressure.tangential);
    fill(segment->radial, mill->pressure.radial);
    fill(segment->axial, mill->pressure.axial);
    fill(segment->edge_tangential, mill->pressure.edge_tangential);
    fill(segment->edge_radial, mill->pressure.edge_radial);
    fill(segment->edge_axial, mill->pressure.edge_axial);
    bite_square_tool tool = {
        BITE_ROW(&made.block, diameter), segment->tangential,  segment->radial,     segment->axial,
        segment->edge_tangential,        segment->edge_radial, segment->edge_axial, segment->slope};
    bite_block_square(&made.block, &tool, &made.chip, segment, &made.work, force);
}
