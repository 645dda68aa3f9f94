/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Chatter by semi-discretization: the cut in small steps of time, each with its own directions of force.
 *
 * Insperger and Stepan, Int. J. Numer. Meth. Engng 61 (2004) 117 (recalled). Over each step the directions are averaged exactly
 * (their integrals are closed), the motion is solved exactly and what the tooth before left is straight within it: the error falls
 * with the square of the steps. The largest growth over a tooth's pass is found by repeating it: a plane of the last three states
 * holds the leading pair.
 */
#ifndef BITE_CUT_DELAY_H
#define BITE_CUT_DELAY_H

#include "core/cut/chatter.h"

#define BITE_DELAY_STEPS_MOST 640

/** Growth of a disturbance from tooth to tooth at a depth (m) and speed (1/s): under 1 it dies away. precision: relative, of the
 * growth. Modes without a beta; an axis without modes is rigid. steps: at
 * most BITE_DELAY_STEPS_MOST with one mode an axis; more modes leave fewer, 64 with four. */
double bite_delay_growth(const bite_chatter_case *of, double depth, double speed, int steps, double precision);

/** The depth at which it neither grows nor dies, to 100 x precision, near `guess` (m) and, from there, nearest. */
double bite_delay_limit(const bite_chatter_case *of, double guess, double speed, int steps, double precision);

#endif
