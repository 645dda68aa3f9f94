/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The forces of a block of tools whose radius differs with the height: an edge in strips, and a
 * cylinder above it, at angles of a turn.
 *
 * A tool fills the nodes, from the lower end of its edge to the upper one, the strips that are
 * between them and the slices of the means; the rest is the same for all of them. Angles are
 * counted from the wall, as in core/physics/force/edge_strip.h.
 */
#ifndef BITE_CUT_BLOCK_STRIP_BLOCK_H
#define BITE_CUT_BLOCK_STRIP_BLOCK_H

#include "core/base/gauss_legendre.h"
#include "core/cut/block/force_block.h"
#include "core/physics/force/edge_terms.h"

/* What a cut is computed by must not depend on the other cuts of its block: not even on their
 * largest corner or lag. */
#define BITE_STRIPS 6
/** Nodes are the ends and the middles of the strips, from the lower end of the edge on: the middle
 * of strip i is node 2 i + 1. The last one is the upper end of the cylinder. */
#define BITE_STRIP_TOP (2 * BITE_STRIPS)
#define BITE_STRIP_NODES (BITE_STRIP_TOP + 2)

/** A height of the edge. */
typedef struct bite_strip_node {
    bite_lanes height; /* m, above the lower end of the edge */
    bite_lanes radius; /* m */
    bite_lanes width;  /* m, of the stock from the wall; more than the diameter: half a turn */
    bite_lanes ahead;  /* rad, by which it is farther from the wall than the lower end */
    /* the rest follows from these */
    bite_lanes sine; /* of that angle */
    bite_lanes cosine;
    bite_lanes margin; /* of the width, m: this, and times the cosine and sine of the lower end */
    bite_lanes margin_cosine;
    bite_lanes margin_sine;
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
    bite_lanes rise; /* increase over the strip of the chip's constants, over their mean */
    /* the rest follows from its nodes */
    bite_lanes turn;        /* rad, by which its upper end is ahead of the lower one */
    bite_lanes per_turn;    /* 1/turn, of one that is not 0 */
    bite_lanes widening;    /* m, increase of the radius */
    bite_lanes torque_rise; /* m, mean of the products of both increases over the strip */
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

/** The quantities whose peaks are sought. */
enum {
    BITE_STRIP_TANGENTIAL,
    BITE_STRIP_SIDE, /* squared */
    BITE_STRIP_LIFT, /* magnitude */
    BITE_STRIP_TORQUE
};
#define BITE_STRIP_PEAKS 4

/** All teeth at one instant. N, N m */
typedef struct bite_strip_load {
    bite_lanes tangential;
    bite_lanes x;
    bite_lanes y;
    bite_lanes lift;
    bite_lanes torque;
    bite_lanes sought[BITE_STRIP_PEAKS];
} bite_strip_load;

/** The heights at which the tooth that reaches farthest finishes the walls, and how a force on the
 * tool bends it there. */
typedef struct bite_strip_walls {
    bite_lanes from; /* m, above the lower end of the edge */
    bite_lanes to;
    bite_lanes bend;   /* m/N, at the lower end of the edge */
    bite_lanes fall;   /* 1/N, by which it is less for each m of height */
    bite_lanes across; /* rad, from the wall to the other one; 0 if the cut does not have it */
    int other;         /* whether a cut of the block has it */
    /* the rest follows from these */
    bite_lanes start;     /* rad, by which `from` lags the lower end */
    bite_lanes lag;       /* rad, from there to `to` */
    bite_lanes direction; /* 1 if the upper end is ahead of the lower one, else -1 */
    bite_lanes per_lag;   /* m, height in which the edge lags by a radian */
} bite_strip_walls;

/** Working memory, owned by the caller: some 51 KB, whose contents mean nothing afterwards. */
typedef struct bite_strip_work {
    int cylinder;       /* whether a tool of the block has one: the last node is its upper end */
    int thick_end;      /* the node above a thin end that leaves as soon as it enters; 0: none */
    double sense;       /* cos(phi)/cos(away): 1 conventional, -1 climb */
    bite_lanes above;   /* m, height of the cylinder */
    bite_lanes thicker; /* of the cylinder: chip for the peaks/geometric chip */
    bite_strip_node node[BITE_STRIP_NODES];
    bite_strip strip[BITE_STRIPS];
    bite_strip_range range[BITE_STRIPS];
    bite_strip_slice slice;
    bite_strip_walls walls;
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
    bite_lanes first;   /* rad, the first angle at which the tooth is in contact anywhere */
    bite_lanes extent;  /* rad, from there to the last one, at most a pitch */
    bite_lanes widest;  /* rad, longest arc of contact */
    bite_lanes leaving; /* rad, the first angle at which the tooth leaves its arc anywhere */
    bite_turned_lanes
        tooth_tip; /* the lower end of the tooth that is added; its angle is the tip's */
    bite_strip_load load;
    bite_lanes peak[BITE_STRIP_PEAKS];
    bite_lanes peak_at[BITE_STRIP_PEAKS]; /* rad, tip.at */
} bite_strip_work;

/** The part of the interval of a hinge between two angles. span: the end of the arc of contact. */
BITE_FORMULA bite_edge_terms bite_strip_hinge_between(double slope, double offset,
                                                      bite_turned start, bite_turned span,
                                                      bite_turned from, bite_turned to)
{
    const bite_turned wall = {0.0, 0.0, 1.0};
    bite_turned mirrored = {M_PI - start.at, start.sine, -start.cosine};
    bite_turned low = bite_turned_within(start, wall, span);
    bite_turned high = bite_turned_within(mirrored, wall, span);
    return bite_edge_between(slope, offset, bite_turned_within(from, low, high),
                             bite_turned_within(to, low, high));
}

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

/** Finishes the nodes and strips, once height, radius, width and ahead of the nodes and rise
 * of the strips are set. */
void bite_strips_fill_nodes(const bite_block *block, bite_strip_work *work);

/** Finishes the walls, once the nodes are finished and the members
 * before `start` are set. */
void bite_strips_fill_walls(const bite_block *block, bite_strip_work *work,
                            bite_block_force *force);

/** Bends the walls by the load, where the tooth that finishes them is at them. */
void bite_strips_take_walls(const bite_block *block, const bite_block_chip *chip,
                            const bite_strip_work *work, bite_block_force *force);

/** Finds the peaks over a turn and the walls. The slice of the means that was added last is the
 * cylinder, if there is one. */
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
