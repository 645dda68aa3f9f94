/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Chatter by semi-discretization: the cut in small steps of time, each with its own directions of
 * force.
 *
 * Insperger and Stepan, Int. J. Numer. Meth. Engng 61 (2004) 117 (recalled). Over each step the
 * directions are averaged exactly (their integrals are closed), the motion is solved exactly and
 * what the tooth before left is straight within it: the error falls with the square of the steps.
 * The largest growth over a tooth's pass is found by repeating it: a plane of the last three states
 * holds the leading pair.
 */
#ifndef BITE_PHYSICS_DYNAMICS_SEMI_DISCRETIZATION_H
#define BITE_PHYSICS_DYNAMICS_SEMI_DISCRETIZATION_H

#include "core/physics/dynamics/stability_lobes.h"
#include <stddef.h>

/** Numbers to work in for so many modes, of both axes together, and steps: a matrix a step, and
 * three histories of one place more than there are steps. */
#define BITE_SEMIDISCRETE_SIZE(modes, steps)                                                       \
    ((size_t)(steps) * (2 * (modes)) * (2 * (modes) + 4) + 6 * ((size_t)(steps) + 1))

/** Memory to work in, the caller's; nothing in it need be set. */
typedef struct bite_semidiscrete_room {
    double *numbers;
    size_t count;
} bite_semidiscrete_room;

/** Growth of a disturbance from tooth to tooth at a depth (m) and speed (1/s): under 1 it dies
 * away. precision: relative, of the growth. Modes without a beta; an axis without modes is rigid.
 * steps: as many as the room has place for, at least 1. */
double bite_semidiscrete_growth(const bite_chatter_case *problem, double depth, double speed,
                                int steps, double precision, bite_semidiscrete_room room);

/** The depth at which it neither grows nor dies, to 100 x precision, near `guess` (m) and, from
 * there, nearest. */
double bite_semidiscrete_limit(const bite_chatter_case *problem, double guess, double speed,
                               int steps, double precision, bite_semidiscrete_room room);

#endif
