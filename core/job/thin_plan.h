/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Thin floors and walls: what is free to bend under a pass, what supports it, and what to do about
 * it. */
#ifndef BITE_JOB_THIN_PLAN_H
#define BITE_JOB_THIN_PLAN_H

#include "core/job/plan.h"

/** What supports a floor from below: the words of the job key `support`. */
enum { BITE_SUPPORT_NONE, BITE_SUPPORT_TAPE, BITE_SUPPORT_WAX, BITE_SUPPORT_VACUUM };

/** A floor that nothing supports, m. */
typedef struct bite_open_floor {
    double across; /* its shorter side */
    double along;
    double thickness;
    int over_hollow; /* 1: a pocket in the face below is under it */
} bite_open_floor;

/** A wall between a pocket and the outline, m. */
typedef struct bite_thin_wall {
    double thickness;
    double height;
    double length;    /* NaN: not known, long */
    uint32_t held;    /* 1: the other walls of the pocket hold its ends */
    uint32_t derived; /* 1: from the sizes of part and pocket */
} bite_thin_wall;

/** Whether the pass leaves a floor with nothing below it, without regard to its support: a pocket
 * of a part that is held at its edges, or what lies over a pocket in the face below. */
int bite_plan_open_floor(const bite_job *job, size_t index, bite_open_floor *floor);

/** Whether the pass presses on a thin wall: one that its section states, or that the sizes of part
 * and pocket leave once the outline is cut. */
int bite_plan_thin_wall(const bite_job *job, size_t index, bite_thin_wall *wall);

/** Height of a step of the wall, m, that is cut in one lap on each side while the rest below is
 * still thick, and bends by `allowed` times what the whole wall bends under a lap of this depth:
 * the force grows with the depth of the lap, and the step is only as high as that. At most the
 * wall. */
double bite_plan_wall_step(const bite_thin_wall *wall, double depth, double allowed);

/** Sets the floor and the wall of a pass in its request, with the given support. */
bite_status bite_plan_set_thin(const bite_job *job, size_t index, uint32_t support,
                               bite_request *request, bite_error *error);

/** The word of a support. */
const char *bite_plan_support_word(uint32_t support);

/** The support that the open floor of a pass with its answer wants; BITE_SUPPORT_NONE: it has none,
 * has support, or its bend does not decide how the pass is cut. */
uint32_t bite_plan_wants_support(const bite_job *job, size_t index);

/** The answer of the pass with support under its floor, chosen as the pass is, or with its
 * settings. *answer: owned, bite_answer_free. */
bite_status bite_plan_with_support(const bite_job *job, size_t index, uint32_t support,
                                   bite_answer **answer, size_t *passes, bite_error *error);

/** Finds the floors and walls that limit their passes, with the smallest change that helps; called
 * after the passes. */
bite_status bite_plan_thin(bite_job *job, bite_error *error);

#endif
