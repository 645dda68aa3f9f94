/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Angles with their sines and cosines, and their sums. */
#ifndef BITE_TESTS_ORACLE_ANGLE_SUM_H
#define BITE_TESTS_ORACLE_ANGLE_SUM_H

#include "core/physics/geometry/angle.h"
#include <math.h>

static inline bite_angle bite_angle_of(double at)
{
    bite_angle angle = {at, sin(at), cos(at)};
    return angle;
}

/** The sum of two angles, by the addition theorems; at: its value, rad. */
static inline bite_angle bite_angle_sum(double at, bite_angle a, bite_angle b)
{
    bite_angle sum = {at, a.sine * b.cosine + a.cosine * b.sine,
                      a.cosine * b.cosine - a.sine * b.sine};
    return sum;
}

/** A small angle, of at most 0.36 rad either way, by series up to the 13th power, whose remainder
 * is below 1e-17. */
static inline bite_angle bite_angle_small(double at)
{
    double square = at * at;
    double fourth = square * square;
    /* in pairs of terms, which do not depend on each other */
    double sine_far =
        (1.0 / 362880.0 - square * (1.0 / 39916800.0)) + fourth * (1.0 / 6227020800.0);
    double sine_near = (1.0 / 120.0 - square * (1.0 / 5040.0)) + fourth * sine_far;
    double cosine_far = (1.0 / 40320.0 - square * (1.0 / 3628800.0)) + fourth * (1.0 / 479001600.0);
    double cosine_near = (1.0 / 24.0 - square * (1.0 / 720.0)) + fourth * cosine_far;
    bite_angle angle = {at, at - at * square * (1.0 / 6.0 - square * sine_near),
                        1.0 - square * (0.5 - square * cosine_near)};
    return angle;
}

#endif
