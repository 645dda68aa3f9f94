/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Complex numbers four at a time, as vectors of their real and imaginary parts. */
#ifndef BITE_PHYSICS_DYNAMICS_LANE_VECTOR_H
#define BITE_PHYSICS_DYNAMICS_LANE_VECTOR_H

#include "core/base/lane_math.h"

#define BITE_WAVE_LANES 4

/** The lanes of one number as a vector: in loops over lanes the compiler cannot know that rows do
 * not overlap, and computes lane by lane. Aligned as the doubles that it stands for. */
typedef double bite_lane_vector __attribute__((vector_size(BITE_WAVE_LANES * sizeof(double)),
                                               aligned(sizeof(double)), may_alias));

/** A complex number of each lane. */
typedef struct bite_lane_complex {
    bite_lane_vector real;
    bite_lane_vector imaginary;
} bite_lane_complex;

/** to: a b; it may be one of them. Vectors are not passed by value, which needs one instruction
 * set in the whole program. */
BITE_FORMULA void bite_lane_product(const bite_lane_complex *a, const bite_lane_complex *b,
                                    bite_lane_complex *to)
{
    bite_lane_complex c = {a->real * b->real - a->imaginary * b->imaginary,
                           a->real * b->imaginary + a->imaginary * b->real};
    *to = c;
}

BITE_FORMULA void bite_lane_sum(const bite_lane_complex *a, const bite_lane_complex *b,
                                bite_lane_complex *to)
{
    bite_lane_complex c = {a->real + b->real, a->imaginary + b->imaginary};
    *to = c;
}

BITE_FORMULA void bite_lane_scaled(double factor, const bite_lane_complex *a, bite_lane_complex *to)
{
    bite_lane_complex c = {factor * a->real, factor * a->imaginary};
    *to = c;
}

BITE_FORMULA void bite_lane_reciprocal(const bite_lane_complex *a, bite_lane_complex *to)
{
    bite_lane_vector over = 1.0 / (a->real * a->real + a->imaginary * a->imaginary);
    bite_lane_complex c = {a->real * over, -a->imaginary * over};
    *to = c;
}

#endif
