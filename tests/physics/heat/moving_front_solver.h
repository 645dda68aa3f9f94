/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Independent solutions for the fraction of its own heat that a cutter cuts again: an integral
 * equation in one dimension, finite elements in two. They use none of the engine's formulas. */
#ifndef BITE_TESTS_PHYSICS_HEAT_MOVING_FRONT_SOLVER_H
#define BITE_TESTS_PHYSICS_HEAT_MOVING_FRONT_SOLVER_H

/**
 * One dimension: each tooth removes a layer and leaves a pulse of heat at the new surface; the
 * state after endless teeth. Layer, diffusivity, pulse and rho c are 1, so the time between teeth
 * is Fo.
 */
typedef struct walk_1d {
    double met; /* heat that leaves with a layer / pulse; also the mean rise of the layer when it is
                   cut off */
    double surface; /* rise at the new surface just before it gets its own pulse */
} walk_1d;

/** fineness: panels in a layer or in the depth that heat reaches between two teeth, whichever is
 * less. NaN if there is no memory. */
walk_1d walk_oracle_1d(double fourier, int fineness);

/**
 * Two dimensions, seen from above, steady, through cut: a cutter of radius 1 moves at speed Pe
 * (diffusivity 1) along stock whose free side it overlaps by width <= 1; walls are insulated. Width
 * 1 is also one half of a full slot, whose middle line is a line of symmetry.
 */
typedef struct walk_2d {
    double met;    /* heat that crosses the front with the material that is cut / heat laid on the
                      front */
    double behind; /* heat carried off in the part that stays, from the far boundary: met + behind =
                      1 if the domain is large */
} walk_2d;

/** cells: elements along the front, and as many outwards. domain: 1, or more to move the far
 * boundaries out. NaN if there is no memory. */
walk_2d walk_oracle_2d(double peclet, double width, int cells, double domain);

#endif
