/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The chips of a block: the hinges of every tooth, clipped to the arc of contact. */
#ifndef BITE_CUT_BLOCK_CHIP_BLOCK_H
#define BITE_CUT_BLOCK_CHIP_BLOCK_H

#include "core/cut/block/block.h"
#include "core/physics/geometry/chip_hinges.h"

/** All teeth of a tool together have at most so many hinges: those of 16 flutes. */
#define BITE_HINGES_MAX 30

/** Angles with their sines and cosines, in lanes. */
typedef struct bite_turned_lanes {
    bite_lanes at;
    bite_lanes sine;
    bite_lanes cosine;
} bite_turned_lanes;

BITE_FORMULA bite_turned bite_turned_lane(const bite_turned_lanes *lanes, int k)
{
    bite_turned angle = {lanes->at[k], lanes->sine[k], lanes->cosine[k]};
    return angle;
}

BITE_FORMULA void bite_turned_store(bite_turned_lanes *lanes, int k, bite_turned angle)
{
    lanes->at[k] = angle.at;
    lanes->sine[k] = angle.sine;
    lanes->cosine[k] = angle.cosine;
}

/** One hinge: its chip, slope sin phi + offset, between two angles of its tooth. */
typedef struct bite_hinge_lanes {
    bite_lanes slope;  /* m */
    bite_lanes offset; /* m */
    bite_turned_lanes low;
    bite_turned_lanes high;
} bite_hinge_lanes;

/** Even steps of a turn, in the middle of each step: a whole number for each pitch. */
#define BITE_TURN_STEPS 48
#define BITE_TURN_STEPS_MAX (BITE_TURN_STEPS + BITE_TEETH_MAX)
typedef struct bite_turn_table {
    int steps; /* in a pitch */
    bite_turned angle[BITE_TURN_STEPS_MAX];
    bite_turned pitch[BITE_TEETH_MAX]; /* whole pitches */
} bite_turn_table;

/** The chips of a block. The first two members belong to the number of flutes, the rest to the
 * cuts. */
typedef struct bite_block_chip {
    bite_chip_hinges hinges;
    bite_turn_table turn;
    bite_turned_lanes enter; /* the arc of contact */
    bite_turned_lanes leave;
    bite_lanes feed;      /* per tooth, m */
    bite_lanes most;      /* largest chip of all teeth, m */
    bite_lanes arc;       /* rad, of all teeth */
    bite_lanes area;      /* m rad, of all teeth */
    bite_lanes feed_real; /* m, of a tooth that really cuts */
    bite_lanes tooth_most;
    double
        low[BITE_TEETH_MAX]; /* rad, first and last angle in contact in any lane, of each tooth */
    double high[BITE_TEETH_MAX];
    bite_hinge_lanes hinge[BITE_HINGES_MAX];
} bite_block_chip;

/** Whether no tool of the block has runout, so that all teeth cut alike. */
int bite_block_cuts_alike(const bite_block *block);

/** Sets enter and leave of the segment to the arc of a straight pass of a width (lanes, m), or,
 * with inside_radius (lanes, m, of the finished corner; NULL: none), of an inside corner.
 * segment->diameter is set. */
void bite_block_arc(const bite_block *block, const double *width, const double *inside_radius,
                    bite_block_segment *segment);

/** Copies enter and leave of the segment to the chip, with their sines and cosines. */
void bite_block_arc_sines(const bite_block *block, const bite_block_segment *segment,
                          bite_block_chip *chip);

/** Fills the tables of a number of flutes. alike: see bite_block_cuts_alike. */
void bite_block_chip_init(bite_block_chip *chip, int flutes, int alike);

/** Fills the chips within the arc. The tables of the block's number of flutes are filled. */
void bite_block_chips(const bite_block *block, bite_block_chip *chip);

#endif
