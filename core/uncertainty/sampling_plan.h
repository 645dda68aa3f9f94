/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The assignment of inputs to dimensions of the Sobol sequence, and the conversion of a point to
 * input values.
 *
 * Dimensions follow the names of the inputs, so that neither the order of a table nor an additional
 * input changes the meaning of a draw.
 */
#ifndef BITE_UNCERTAINTY_SAMPLING_PLAN_H
#define BITE_UNCERTAINTY_SAMPLING_PLAN_H

#include "core/cut/block/block.h"
#include "core/uncertainty/sobol.h"
#include <coolbite/coolbite.h>

typedef struct bite_sampling_plan {
    const bite_spread *spreads[BITE_SPREAD_MAX]; /* borrowed; in the order of their names */
    const bite_input *inputs[BITE_SPREAD_MAX];
    bite_scatter scatters[BITE_SPREAD_MAX];
    double common_share[BITE_SPREAD_MAX]; /* of the deviate: roots of the shares of the variance */
    double own_share[BITE_SPREAD_MAX];
    double least[BITE_SPREAD_MAX]; /* range of the input */
    double most[BITE_SPREAD_MAX];
    size_t offset[BITE_SPREAD_MAX]; /* of the input in bite_cut */
    size_t grouped;                 /* number of inputs that share a deviate with others */
    struct {
        size_t input;
        unsigned dimension; /* of the group */
    } group_members[BITE_SPREAD_MAX];
    size_t count;
    size_t cells;   /* a power of two, at least the draws; a deviate is that of the cell's middle */
    unsigned spare; /* binary digits of a point beyond its cell */
    const double *deviates;                      /* of the cells; borrowed */
    unsigned group_dimension[BITE_SOBOL_GROUPS]; /* dimension + 1; 0: no such group */
    unsigned dimensions;
} bite_sampling_plan;

/** Checks the spreads and orders them. full: the cut at its best estimates. BITE_BAD_ARGUMENT. */
bite_status bite_sampling_plan_init(const bite_spread *spreads, size_t count, const bite_cut *full,
                                    bite_sampling_plan *plan, bite_error *error);

/** Sets the count of cells for a number of draws. */
void bite_sampling_plan_set_cells(bite_sampling_plan *plan, size_t draws);

/** Fills the deviates of the cells into memory for plan->cells numbers, which the plan borrows. */
void bite_sampling_plan_set_deviates(bite_sampling_plan *plan, double *deviates);

/** Standard normal deviates of all inputs at the next point of the sequence. */
void bite_sampling_plan_deviates(const bite_sampling_plan *plan, bite_sobol *sobol, double *z);

/** Values of all inputs at the next `count` points, at most BITE_LANES: that of input i and
 * point k at values[i * stride + k]. */
void bite_sampling_plan_draw(const bite_sampling_plan *plan, bite_sobol *sobol, size_t count,
                             size_t stride, double *values);

#endif
