/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Draws of uncertain inputs: a Sobol sequence with a digital shift, and what a point of it makes of each input.
 *
 * The shift turns over binary digits of all points alike (exclusive or), which keeps the net: the first 2^k points lie one in each
 * of the 2^k cells of every dimension.
 */
#ifndef BITE_CUT_DRAW_H
#define BITE_CUT_DRAW_H

#include <coolbite/coolbite.h>
#include <stdint.h>

#define BITE_DRAW_DIMENSIONS 40 /* of GSL's Sobol sequence */
#define BITE_DRAW_GROUPS 8

/** The sequence. No memory is asked for: GSL's state lies in here. */
typedef struct bite_draw {
    unsigned dimensions;
    unsigned begun;
    uint32_t shift[BITE_DRAW_DIMENSIONS];
    union {
        unsigned char bytes[8192];
        double align;
    } state;
} bite_draw;

/** Begins the sequence; false: more dimensions than there are. The same for a seed on every machine. */
int bite_draw_begin(bite_draw *draw, unsigned dimensions, uint64_t seed);
/** The next point, each number inside (0, 1). */
void bite_draw_next(bite_draw *draw, double *point);

/** Standard normal deviate of a probability inside (0, 1). */
double bite_draw_normal(double probability);

/** A spread about its best estimate, ready to be drawn from. */
typedef struct bite_scatter {
    double best;
    double down; /* for each unit of a deviate under 0: of the value, or of its logarithm */
    double up;
    uint32_t shape;
    uint32_t reserved;
} bite_scatter;
bite_scatter bite_draw_scatter(const bite_spread *spread, double best);

/** The input's value at a standard normal deviate: best at 0, low and high at 5 and 95 %. */
double bite_draw_value(const bite_scatter *scatter, double deviate);

#endif
