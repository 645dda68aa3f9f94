/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbers that few inputs accept, NaN first. */
#ifndef BITE_TESTS_SUPPORT_HOSTILE_NUMBERS_H
#define BITE_TESTS_SUPPORT_HOSTILE_NUMBERS_H

#include <float.h>
#include <math.h>

static const double hostile[] = {
    (double)NAN,
    (double)INFINITY,
    -(double)INFINITY,
    DBL_MAX,
    -DBL_MAX,
    1e300,
    -1e300,
    1e30,
    -1e30,
    -1.0,
    0.0,
    -0.0,
    DBL_MIN,
    5e-324,
    -5e-324,
};
#define HOSTILE (sizeof hostile / sizeof *hostile)

#endif
