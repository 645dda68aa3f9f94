/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The forces of a block of tools whose radius differs with the height: an edge in strips, and a
 * cylinder above it, at angles of a turn.
 *
 * A tool fills the nodes, from the lower end of its edge to the upper one, the strips between
 * them and the slices of the means; the rest is the same for all of them. Angles are counted from
 * the wall, as in core/physics/force/edge_strip.h.
 */
#ifndef BITE_CUT_BLOCK_STRIP_BLOCK_H
#define BITE_CUT_BLOCK_STRIP_BLOCK_H

#include "core/cut/block/force_block.h"
#include "core/physics/force/gauss_legendre.h"

#define BITE_STRIPS_MAX 12
/** The nodes of the strips, and the upper end of the cylinder. */
#define BITE_STRIP_NODES (BITE_STRIPS_MAX + 2)

/** A height of the edge. */
typedef struct bite_strip_node {
    bite_lanes height; /* m, above the lower end of the edge */
    bite_lanes radius; /* m */
    bite_lanes width;  /* m, of the stock from the wall; more than the diameter: half a turn */
    bite_lanes ahead;  /* rad, by which it is farther from the wall than the lower end */
    bite_lanes sine;   /* of that angle */
    bite_lanes cosine;
    bite_lanes span;  /* rad, its arc of contact */
    double low_ahead; /* rad, in any lane */
    double high_ahead;
    double high_span;
} bite_strip_node;

/** A strip in all lanes, rad. */
typedef struct bite_strip_range {
    double low_ahead; /* least angle by which it is ahead of the lower end */
    double width;     /* from there to the largest one */
    double span;      /* longest arc of contact */
} bite_strip_range;

/** The constants of a strip, over its whole length: of the chip (N/m) and of the edge (N). */
typedef struct bite_strip {
    bite_lanes tangential;
    bite_lanes radial;
    bite_lanes lift;
    bite_lanes edge_tangential;
    bite_lanes edge_radial;
    bite_lanes edge_lift;
    bite_lanes rise; /* increase over the strip of the height per length of the strip, over its
                        mean; for bite_strip_share */
    bite_lanes bow;  /* for bite_strip_bow */
} bite_strip;

/** A slice whose mean is computed. */
typedef struct bite_strip_slice {
    bite_lanes rise;   /* dz, m */
    bite_lanes length; /* db, m */
    bite_lanes radius; /* m */
    bite_lanes sine;   /* of kappa */
    bite_lanes cosine;
    bite_lanes reach; /* sine of half of its span */
} bite_strip_slice;

/** All teeth at one instant. N, N m */
typedef struct bite_strip_load {
    bite_lanes tangential;
    bite_lanes x;
    bite_lanes y;
    bite_lanes lift;
    bite_lanes torque;
} bite_strip_load;

/** The quantities whose peaks are sought. */
enum {
    BITE_STRIP_TANGENTIAL,
    BITE_STRIP_SIDE, /* squared */
    BITE_STRIP_LIFT, /* magnitude */
    BITE_STRIP_TORQUE
};
#define BITE_STRIP_PEAKS 4

/** Working memory, owned by the caller: some 54 KB, whose contents mean nothing afterwards. */
typedef struct bite_strip_work {
    int strips;         /* 1 to BITE_STRIPS_MAX */
    int cylinder;       /* whether a tool of the block has one: node strips + 1 is its upper end */
    double sense;       /* cos(phi)/cos(away): 1 conventional, -1 climb */
    bite_lanes above;   /* m, height of the cylinder */
    bite_lanes thicker; /* of the cylinder: chip for the peaks/geometric chip */
    bite_strip_node node[BITE_STRIP_NODES];
    bite_strip strip[BITE_STRIPS_MAX];
    bite_strip_range range[BITE_STRIPS_MAX];
    bite_strip_slice slice;
    /* of every hinge: the sine from which it counts, and that angle */
    bite_lanes bound[BITE_HINGES_MAX];
    bite_turned_lanes start[BITE_HINGES_MAX];
    bite_turned_lanes end; /* of the arc of the slice or the cylinder */
    /* sums of the means: of the whole edge, over a turn */
    bite_lanes area;        /* m2 */
    bite_lanes teeth_edge;  /* m, in contact */
    bite_lanes edge_length; /* m */
    bite_lanes section;     /* m2 */
    /* the sample */
    bite_turned_lanes tip; /* the lower end of tooth 0 */
    double low_at;         /* rad, in any lane */
    double high_at;
    bite_turned tooth[BITE_TEETH_MAX]; /* ahead of tooth 0 */
    bite_lanes first;  /* rad, the first angle at which the tooth is in contact anywhere */
    bite_lanes extent; /* rad, from there to the last one, at most a pitch */
    /* of the tooth that is added, at the nodes */
    bite_lanes node_sine[BITE_STRIPS_MAX + 1];
    bite_lanes node_cosine[BITE_STRIPS_MAX + 1];
    bite_lanes node_inside[BITE_STRIPS_MAX + 1]; /* margin of the width */
    bite_strip_load load;
    bite_lanes peak[BITE_STRIP_PEAKS];
    bite_lanes peak_at[BITE_STRIP_PEAKS]; /* rad, tip.at */
} bite_strip_work;

/** Prepares the hinges of the chips, and clears the sums. */
void bite_strips_start(const bite_block *block, const bite_block_chip *chip, bite_strip_work *work);

/** Largest chip of any tooth on an arc, m, before the slope of the edge reduces it. half_sine: of
 * half of the arc's span. */
void bite_strips_chip_most(const bite_block *block, const bite_block_chip *chip,
                           const bite_strip_work *work, const double *half_sine, double *most);

/** Adds the mean of one hinge (its index among all) over work->slice, at the pressure of the
 * segment. The mean of the edge is added with the first hinge of its tooth. */
void bite_strips_add_hinge_mean(const bite_block *block, const bite_block_chip *chip, int hinge,
                                const bite_block_segment *segment, bite_strip_work *work,
                                bite_block_force *force);

/** Adds the means of all hinges, the section and the length of work->slice. */
void bite_strips_add_mean(const bite_block *block, const bite_block_chip *chip,
                          const bite_block_segment *segment, bite_strip_work *work,
                          bite_block_force *force);

/** Finishes the nodes, once height, radius, width and ahead are set. */
void bite_strips_fill_nodes(const bite_block *block, bite_strip_work *work);

/** Finds the peaks over a turn, once nodes and strips are filled. The slice of the means that was
 * added last is the cylinder, if there is one. */
void bite_strips_peaks(const bite_block *block, const bite_block_chip *chip,
                       const bite_block_segment *segment, bite_strip_work *work,
                       bite_block_force *force);

/** Fills work->load for an instant: work->tip.at is set. */
void bite_strips_load_at(const bite_block *block, const bite_block_chip *chip,
                         const bite_block_segment *segment, bite_strip_work *work);

/** Fills the edge contact of the segment from the sums of the means. */
void bite_strips_contact(const bite_block *block, const bite_block_chip *chip,
                         const bite_strip_work *work, const bite_block_force *force,
                         bite_block_segment *segment);

#endif
