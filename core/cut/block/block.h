/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A block of cuts that are computed side by side: a row for each number, a lane for each cut.
 *
 * All cuts of a block have the same words (operation, side, substance, ...), the same curves, the
 * same number of flutes, a corner radius or none, and the same inputs given: a number is NaN in all
 * lanes of its row or in none. One cut is a block of one.
 */
#ifndef BITE_CUT_BLOCK_BLOCK_H
#define BITE_CUT_BLOCK_BLOCK_H

#include "core/base/lane_math.h"
#include <coolbite/coolbite.h>
#include <stddef.h>

/** Lanes of a block. A block in use has a multiple of BITE_LANE_STEP of them, so that no loop has
 * a remainder; lanes behind the last cut repeat it. */
#define BITE_LANES 16
#define BITE_LANE_STEP 4

typedef double bite_lanes[BITE_LANES] __attribute__((aligned(64)));

/* The members of a cut before its first number are words. Among the numbers are two curves, whose
 * rows are copied and not used: numbers that came later follow them. */
#define BITE_BLOCK_FIRST (offsetof(bite_cut, spindle_speed) / sizeof(double))
#define BITE_BLOCK_ROWS (sizeof(bite_cut) / sizeof(double) - BITE_BLOCK_FIRST)

typedef struct bite_block {
    const bite_cut *cut; /* the first one, with all its defaults: words, curves, what is given */
    int count;           /* of cuts, 1 to BITE_LANES */
    int lanes;           /* in use, a multiple of BITE_LANE_STEP; the last cut is repeated */
    int flutes;
    bite_lanes tolerance; /* as requested, before defaults: NaN if none was */
    bite_lanes finish;
    bite_lanes number[BITE_BLOCK_ROWS]; /* with all defaults */
} bite_block;

/** The row of a member, as in BITE_ROW(block, depth). */
#define BITE_ROW(block, member)                                                                    \
    ((block)->number[offsetof(bite_cut, member) / sizeof(double) - BITE_BLOCK_FIRST])

/** Loops over the lanes of a block. */
#define BITE_EACH_LANE(k, block) for (int k = 0; k < ((block)->lanes & ~(BITE_LANE_STEP - 1)); k++)

/** The values of one segment of the path, for each cut of a block. SI; NaN: no data. */
typedef struct bite_block_segment {
    /* what the stages hand to the next ones */
    bite_lanes enter;       /* rad, arc of contact */
    bite_lanes leave;       /* rad */
    bite_lanes diameter;    /* m, of the tool at the surface of the part (bite_cutting_diameter) */
    bite_lanes edge_radius; /* m, in use */
    bite_lanes tangential;  /* Pa and N/m: the members of bite_pressure */
    bite_lanes radial;
    bite_lanes axial;
    bite_lanes edge_tangential;
    bite_lanes edge_radial;
    bite_lanes edge_axial;
    bite_lanes fracture;
    bite_lanes contact_speed; /* the members of bite_edge_contact */
    bite_lanes contact_chip;
    bite_lanes contact_length;
    bite_lanes contact_teeth;
    bite_lanes contact_feed;
    bite_lanes tool_compliance; /* m/N, of the tool alone at the load */
    bite_lanes slope;           /* rad/N, of the tool at the load */
    bite_lanes load;            /* m, height of the load above the tip, as bite_tool_deflection */
    bite_lanes tool_frequency;  /* Hz, of the tool as it is bent by a force at its tip */
    bite_lanes fin_resistance;  /* K/W, of the tool as a fin */
    bite_lanes fin_air_share;
    /* results */
    bite_lanes value[BITE_VALUE_COUNT];
    bite_lanes heat_share[4]; /* chip, tool, part, stored */
    bite_lanes compliance;    /* of tool and machine at the load, m/N */
    bite_lanes heavy_chip;    /* largest chip of the heavy tooth, m */
    bite_lanes thin_chip;     /* of a chamfer: largest chip near the thin end, m */
    bite_lanes torque_mean;   /* N m */
    bite_lanes engaged;       /* ae/D, 1 in a slot; of a chamfer at its largest radius */
    bite_lanes chip_rise;     /* K, mean of a chip that is cut once, uncapped */
    bite_lanes chip_mean;     /* m, mean thickness of the chips, not below h_min */
    bite_lanes wall_rise;     /* K */
    bite_lanes wall_dwell;    /* s */
    bite_lanes floor_rise;    /* K; NaN: the cut has none */
    bite_lanes floor_dwell;   /* s */
    bite_lanes wall_bend;     /* m, magnitude of the worse wall's deflection, without runout */
    bite_lanes finish_bend;   /* m, the same in the last lap of spring passes */
    bite_lanes pocket;        /* chips of a tooth / its pocket */
    bite_lanes packing;       /* ap/D x share by engagement; compared with the packing limit */
    bite_lanes heat_power;    /* W, as summed by the heat model */
    bite_lanes energy_gap;    /* (power - chip - tool - part - stored)/power of the heat model */
} bite_block_segment;

#endif
