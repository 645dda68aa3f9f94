/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Stability of milling by semi-discretization: the tooth period is divided into short time steps,
 * each with its own directional coefficients.
 *
 * Insperger and Stepan, Int. J. Numer. Meth. Engng 61 (2004) 117 (recalled). Over each step the
 * directional coefficients are averaged exactly (their integrals have closed forms), the motion is
 * solved exactly, and the displacement of the tooth before is interpolated linearly: the error
 * falls with the square of the number of steps. The largest growth over a tooth period is found by
 * power iteration: a plane through the last three states contains the leading pair of eigenvalues.
 */
#ifndef BITE_TESTS_TEXTBOOK_SEMI_DISCRETIZATION_H
#define BITE_TESTS_TEXTBOOK_SEMI_DISCRETIZATION_H

#include "core/physics/dynamics/stability_lobes.h"
#include <stddef.h>

/** Number of doubles in the workspace for a number of modes, of both axes together, and of steps:
 * the matrices of each step, and three histories with one entry more than there are steps. */
#define TEXTBOOK_SEMIDISCRETE_SIZE(modes, steps)                                                   \
    ((size_t)(steps) * (2 * (modes)) * (2 * (modes) + 4) + 6 * ((size_t)(steps) + 1))

/** Workspace, owned by the caller; it need not be initialized. */
typedef struct textbook_semidiscrete_room {
    double *numbers;
    size_t count;
} textbook_semidiscrete_room;

/** Growth of a disturbance from tooth to tooth at a depth (m) and a spindle speed (1/s): below 1 it
 * decays. precision: relative, of the growth. The beta of the modes is ignored; an axis without
 * modes is rigid. steps: reduced to what the workspace has space for, at least 1. */
double textbook_semidiscrete_growth(const bite_chatter_case *problem, double depth, double speed,
                                    int steps, double precision,
                                    textbook_semidiscrete_room workspace);

/** The depth, m, at which the growth is 1, to a relative error of 100 x precision; of several
 * depths the one that is found first from `guess` (m). */
double textbook_semidiscrete_limit(const bite_chatter_case *problem, double guess, double speed,
                                   int steps, double precision,
                                   textbook_semidiscrete_room workspace);

/** The growth from all eigenvalues of the map over a tooth period, by QR iterations (GSL): slow,
 * but right even if many modes decay almost equally. NAN: without memory. */
double textbook_semidiscrete_radius(const bite_chatter_case *problem, double depth, double speed,
                                    int steps);

#endif
