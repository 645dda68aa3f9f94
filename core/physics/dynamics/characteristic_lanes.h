/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * det(1 - x A) of four complex matrices at once, as polynomials in x.
 *
 * Each matrix is made an upper Hessenberg matrix by elimination (Wilkinson, The Algebraic
 * Eigenvalue Problem, 1965; memory), of which the determinants of the leading minors follow from
 * each other. The four share the order of their rows: they are one operator at four arguments, of
 * about the same size.
 */
#ifndef BITE_PHYSICS_DYNAMICS_CHARACTERISTIC_LANES_H
#define BITE_PHYSICS_DYNAMICS_CHARACTERISTIC_LANES_H

#include "core/physics/dynamics/arc_waves.h"

/** Powers of x: 0 to the order. */
#define BITE_LOAD_POWERS (BITE_ARC_ORDER_MAX + 1)

typedef struct bite_lane_matrices {
    bite_lane_vector real[BITE_ARC_ENTRIES];
    bite_lane_vector imaginary[BITE_ARC_ENTRIES];
} bite_lane_matrices;

/** Working memory: the polynomials of the leading minors. */
#define BITE_LANE_MINORS (BITE_LOAD_POWERS * (BITE_LOAD_POWERS + 1) / 2)
typedef struct bite_lane_minors {
    bite_lane_vector real[BITE_LANE_MINORS];
    bite_lane_vector imaginary[BITE_LANE_MINORS];
} bite_lane_minors;

/** matrices: order^2 entries, row by row; overwritten. coefficients: of x^0 to x^order. */
void bite_lane_characteristics(int order, bite_lane_matrices *matrices, bite_lane_minors *minors,
                               bite_lane_complex *coefficients);

/** det(1 - A), by elimination without a choice of rows: 1 is larger than most of A. */
void bite_lane_determinants(int order, bite_lane_matrices *matrices, bite_lane_complex *value);

#endif
