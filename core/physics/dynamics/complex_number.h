/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Complex numbers as pairs of doubles: C's own multiply with a call that treats infinities. */
#ifndef BITE_PHYSICS_DYNAMICS_COMPLEX_NUMBER_H
#define BITE_PHYSICS_DYNAMICS_COMPLEX_NUMBER_H

#include "core/base/lane_math.h"

typedef struct bite_complex {
    double real;
    double imaginary;
} bite_complex;

BITE_FORMULA bite_complex bite_complex_product(bite_complex a, bite_complex b)
{
    bite_complex c = {a.real * b.real - a.imaginary * b.imaginary,
                      a.real * b.imaginary + a.imaginary * b.real};
    return c;
}

BITE_FORMULA bite_complex bite_complex_sum(bite_complex a, bite_complex b)
{
    bite_complex c = {a.real + b.real, a.imaginary + b.imaginary};
    return c;
}

BITE_FORMULA bite_complex bite_complex_reciprocal(bite_complex a)
{
    double over = 1.0 / (a.real * a.real + a.imaginary * a.imaginary);
    bite_complex c = {a.real * over, -a.imaginary * over};
    return c;
}

BITE_FORMULA bite_complex bite_complex_conjugate(bite_complex a)
{
    bite_complex c = {a.real, -a.imaginary};
    return c;
}

BITE_FORMULA bite_complex bite_complex_scaled(double factor, bite_complex a)
{
    bite_complex c = {factor * a.real, factor * a.imaginary};
    return c;
}

/** exp(a) */
BITE_FORMULA bite_complex bite_complex_exponential(bite_complex a)
{
    double size = exp(a.real);
    bite_complex c = {size * cos(a.imaginary), size * sin(a.imaginary)};
    return c;
}

#endif
