/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the forces of square end mills are computed from and in, in lanes. */
#ifndef BITE_CUT_BLOCK_SQUARE_WORK_H
#define BITE_CUT_BLOCK_SQUARE_WORK_H

#include "core/cut/block/force_block.h"
#include "core/physics/force/edge_terms.h"

/** Edge terms in lanes; the order is that of bite_edge_terms. */
typedef struct bite_edge_term_lanes {
    bite_lanes area;
    bite_lanes area_sine;
    bite_lanes area_cosine;
    bite_lanes edge;
    bite_lanes edge_sine;
    bite_lanes edge_cosine;
} bite_edge_term_lanes;

/** Least and greatest number of a row. */
typedef struct bite_range {
    double least;
    double most;
} bite_range;

/** Of the borders of a hinge. rad */
typedef struct bite_hinge_range {
    bite_range low;
    bite_range high;
} bite_hinge_range;

/** Working memory of one call. */
typedef struct bite_square_work {
    bite_turned_lanes lag; /* of the upper end of an edge behind its tip */
    bite_turned_lanes at;
    bite_lanes none;       /* 0 */
    bite_lanes per_lag;    /* m/rad, R/tan(beta) */
    bite_lanes tangential; /* N/m2 and N/m times per_lag: pressures at the thickest chip, and */
    bite_lanes radial;     /* loads of the edge */
    bite_lanes axial;
    bite_lanes edge_tangential;
    bite_lanes edge_radial;
    bite_lanes edge_axial;
    bite_lanes wall_force; /* m/N, bending at the tip by a force at the tip */
    bite_lanes wall_fall;  /* 1/N, by how much it falls with the height */
    bite_lanes up;         /* N, largest lift so far, and largest pull down, negative */
    bite_lanes down;
    double lag_above; /* rad, greatest lag of an upper end behind its tip, and before it */
    double lag_below;
    double period; /* rad, after which the same wall is finished again */
    double per_period;
    bite_range lag_range;
    bite_hinge_range range[BITE_HINGES_MAX];
    bite_edge_term_lanes sum;         /* over the edges at this position */
    bite_lanes slope[BITE_TEETH_MAX]; /* of all hinges of a tooth */
    bite_lanes offset[BITE_TEETH_MAX];
} bite_square_work;

/** The tool that cuts as a square end mill: lanes. Of a groove the diameter at half of its depth,
 * at the pressure on the inclined edge, and no tilt of the walls. */
typedef struct bite_square_tool {
    const double *diameter; /* m */
    const double *tangential;
    const double *radial;
    const double *axial;
    const double *edge_tangential;
    const double *edge_radial;
    const double *edge_axial;
    const double *slope; /* rad/N, of the tool at the load */
} bite_square_tool;

#endif
