/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Sampling of uncertain inputs: a Sobol sequence with a digital shift, and the values of the inputs
 * at its points.
 *
 * The shift is an exclusive or with the same binary digits for all points, which preserves the net:
 * the first 2^k points lie one in each of the 2^k cells of every dimension.
 */
#ifndef BITE_UNCERTAINTY_SOBOL_H
#define BITE_UNCERTAINTY_SOBOL_H

#include <coolbite/coolbite.h>
#include <stdint.h>

#define BITE_SOBOL_DIMENSIONS 80 /* BITE_SPREAD_MAX and the groups, in whole lanes */
#define BITE_SOBOL_GROUPS 8
#define BITE_SOBOL_DIGITS 30 /* binary, of a point */

/** The sequence. */
typedef struct bite_sobol {
    unsigned dimensions;
    uint32_t next;                          /* index of the next point, from 0 */
    uint32_t digits[BITE_SOBOL_DIMENSIONS]; /* of that point, shifted */
    uint32_t direction[BITE_SOBOL_DIGITS][BITE_SOBOL_DIMENSIONS];
} bite_sobol;

/** Starts the sequence; false: too many dimensions. A seed gives the same sequence on every
 * machine. */
int bite_sobol_init(bite_sobol *sobol, unsigned dimensions, uint64_t seed);
/** Moves to the point with this index, from 0; < 2^30. */
void bite_sobol_skip(bite_sobol *sobol, uint32_t to);
/** The next point: the index of its cell among 2^30 in each dimension. The middle of a cell is
 * (digits + 0.5)/2^30. digits has space for all dimensions. */
void bite_sobol_digits(bite_sobol *sobol, uint32_t digits[BITE_SOBOL_DIMENSIONS]);

/** Standard normal deviate of a probability inside (0, 1). */
double bite_normal_deviate(double probability);

/** A spread about the best estimate of an input, prepared for sampling. */
typedef struct bite_scatter {
    double best;
    double down; /* change of the value, or of its logarithm, per unit of a deviate below 0 */
    double up;
    uint32_t shape;
    uint32_t reserved;
} bite_scatter;
bite_scatter bite_scatter_init(const bite_spread *spread, double best);

/** The values of one input at `count` standard normal deviates: best at 0, low and high at 5 and 95
 * %. */
void bite_scatter_values(const bite_scatter *scatter, const double *deviates, size_t count,
                         double *values);

#endif
