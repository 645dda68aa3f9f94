/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Draws of uncertain inputs: a shifted Sobol sequence, and what a point of it makes of each input. */
#ifndef BITE_CUT_DRAW_H
#define BITE_CUT_DRAW_H

#include <coolbite/coolbite.h>
#include <stdint.h>

#define BITE_DRAW_DIMENSIONS 40 /* of GSL's Sobol sequence */
#define BITE_DRAW_GROUPS 8

/** The sequence. No memory is asked for: GSL's state lies in here. */
typedef struct bite_draw {
    unsigned dimensions;
    double shift[BITE_DRAW_DIMENSIONS];
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

/** The input's value at a standard normal deviate: best at 0, low and high at 5 and 95 %. */
double bite_draw_value(const bite_spread *spread, double best, double deviate);

#endif
