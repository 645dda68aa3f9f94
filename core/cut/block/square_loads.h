/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The load of a square end mill at samples of a turn, in lanes. */
#ifndef BITE_CUT_BLOCK_SQUARE_LOADS_H
#define BITE_CUT_BLOCK_SQUARE_LOADS_H

#include "core/cut/block/square_work.h"

/** An angle this close to a wall counts as at it; the difference is due to rounding. rad */
#define BITE_SQUARE_ROUNDING 1e-9

/** Something that lasts for some of the even steps of a turn, again and again: the contact of a
 * tooth, or the finishing of a wall. Steps are counted by the tip of the tooth, from angle 0 on. */
typedef struct bite_step_counter {
    int first;
    int last;
    int now;  /* the least step of this position of the tool that is not before the first one */
    int turn; /* the same, within one turn */
} bite_step_counter;

typedef struct bite_square_tooth {
    bite_step_counter contact;
    int whole_first; /* steps between which all hinges hold the whole edge in all lanes */
    int whole_last;
    int hinges;          /* 1 to 3 */
    const double *slope; /* lanes: the line of all hinges together */
    const double *offset;
    const bite_hinge_lanes *hinge;
} bite_square_tooth;

typedef struct bite_square_wall {
    bite_step_counter finished;
    int exists;    /* 1: in some lane */
    double at;     /* rad, angle of the tip of the tooth that finishes it */
    double sign;   /* of a force that leaves stock */
    double *worst; /* m, lanes: the largest bending so far */
} bite_square_wall;
#define BITE_SQUARE_WALLS 2 /* climb milled, and conventionally */

/** All teeth and walls, at the first position. */
typedef struct bite_square_turn {
    int steps; /* in a turn */
    int cycle; /* after which the load repeats */
    int tooth_count;
    bite_square_tooth teeth[BITE_TEETH_MAX];
    bite_square_wall walls[BITE_SQUARE_WALLS];
} bite_square_turn;

/** Updates peaks and walls by the loads at even steps. */
void bite_square_evenly(const bite_block *block, const bite_square_tool *tool,
                        const bite_turned *angles, bite_square_turn *turn, bite_square_work *work,
                        bite_block_force *force);

/** Adds a tooth to the sum, its tip at an angle that differs between lanes, turned by one that does
 * not. keep: 1 to add, 0 to replace the sum. */
void bite_square_add(const bite_block *block, const bite_square_tooth *tooth,
                     const bite_turned_lanes *at, bite_turned by, double keep,
                     bite_square_work *work);

/** Updates the peaks by the sum. */
void bite_square_peaks(const bite_block *block, bite_square_work *work, bite_block_force *force);

/** Updates a wall by the sum. tip: rad, lanes; offset: from there to the tip of the tooth that
 * finishes the wall. */
void bite_square_finish(const bite_block *block, const bite_square_tool *tool,
                        const bite_square_wall *wall, const double *tip, double offset,
                        const bite_square_work *work);

#endif
