/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Independent solutions for the share of its own heat that a cutter meets again: finite volumes, none of the engine's formulas. */
#ifndef BITE_TESTS_WALK_ORACLE_H
#define BITE_TESTS_WALK_ORACLE_H

/** One dimension: each tooth removes a layer and leaves a pulse at the new surface, many teeth long. Diffusivity 1, pulse 1, rho
 * c 1. */
typedef struct walk_1d {
    double met;     /* heat that leaves with the layer of the last tooth / pulse: 1 in the steady state */
    double preheat; /* mean rise of that layer when it is cut off */
    double surface; /* rise of the new surface just before it gets its pulse, from the heat before */
} walk_1d;
walk_1d walk_oracle_1d(double fourier, int teeth, int cells);

/**
 * Two dimensions, seen from above: a disc of radius 1 moves through a plane at speed Pe (diffusivity 1) and leaves a slot of
 * insulated walls; heat is laid evenly along its front half; what crosses the front leaves with its temperature. The share of the
 * heat that does. cells: to the radius.
 */
double walk_oracle_2d(double peclet, int cells);

#endif
