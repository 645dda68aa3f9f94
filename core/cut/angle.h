/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An angle with its sine and cosine, so that neither is asked for twice. */
#ifndef BITE_CUT_ANGLE_H
#define BITE_CUT_ANGLE_H

#include <math.h>

typedef struct bite_angle {
    double at; /* rad */
    double sine;
    double cosine;
} bite_angle;

static inline bite_angle bite_angle_of(double at)
{
    bite_angle angle = {at, sin(at), cos(at)};
    return angle;
}

/** The angle whose sine and cosine are those of the two together. */
static inline bite_angle bite_angle_sum(double at, bite_angle a, bite_angle b)
{
    bite_angle sum = {at, a.sine * b.cosine + a.cosine * b.sine, a.cosine * b.cosine - a.sine * b.sine};
    return sum;
}

/** A small angle, of at most 0.36 rad either way: its series up to the 13th power, good to 1e-17. */
static inline bite_angle bite_angle_small(double at)
{
    double square = at * at;
    bite_angle angle = {at, 0.0, 0.0};
    angle.sine = 1.0 - square * (1.0 / 110.0) * (1.0 - square * (1.0 / 156.0));
    angle.sine = 1.0 - square * (1.0 / 42.0) * (1.0 - square * (1.0 / 72.0) * angle.sine);
    angle.sine = at * (1.0 - square * (1.0 / 6.0) * (1.0 - square * (1.0 / 20.0) * angle.sine));
    angle.cosine = 1.0 - square * (1.0 / 90.0) * (1.0 - square * (1.0 / 132.0));
    angle.cosine = 1.0 - square * (1.0 / 30.0) * (1.0 - square * (1.0 / 56.0) * angle.cosine);
    angle.cosine = 1.0 - square * 0.5 * (1.0 - square * (1.0 / 12.0) * angle.cosine);
    return angle;
}

#endif
