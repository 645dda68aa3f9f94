/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The numbers of all draws, from which bands and chances are made. */
#ifndef BITE_UNCERTAINTY_DRAW_SAMPLES_H
#define BITE_UNCERTAINTY_DRAW_SAMPLES_H

#include "core/cut/block/pass_block.h"
#include "core/uncertainty/sampling.h"
#include "core/uncertainty/sampling_plan.h"
#include <coolbite/coolbite.h>
#include <stdbool.h>

typedef struct bite_draw_samples {
    size_t draws;
    size_t stride;  /* from the numbers of one value to those of the next; not a power of two, so
                       that they do not compete for the same cache line */
    double *values; /* BITE_VALUE_COUNT x stride */
    double *utilizations;          /* BITE_LIMIT_COUNT x stride; NaN: does not apply in that draw */
    double *scratch;               /* space for one number of each draw, for each run */
    uint8_t has[BITE_VALUE_COUNT]; /* a number at the best estimates; the others are not recorded */
    uint8_t applies[BITE_LIMIT_COUNT];
    uint8_t binds[BITE_LIMIT_COUNT];
    uint8_t wanted[BITE_LIMIT_COUNT]; /* counted together, advisory or not */
    unsigned char *over;              /* NULL, or of each draw; borrowed */
} bite_draw_samples;

/** How many draws exceed a limit. */
typedef struct bite_draw_counts {
    size_t over[BITE_LIMIT_COUNT];
    size_t any;
    size_t wanted; /* any of the wanted limits */
} bite_draw_counts;

/** Allocates space for samples->draws draws, for the deviates of the plan's cells, and for sorting
 * in each run. It is not cleared: all of it is written before it is read. The caller frees
 * samples->values. False: no memory. */
bool bite_draw_samples_allocate(bite_draw_samples *samples, const bite_sampling *sampling,
                                size_t runs, bite_sampling_plan *plan);

/** Selects what the draws record: the values and limits that are present in the pass at its best
 * estimates. */
void bite_draw_samples_select(bite_draw_samples *samples, const bite_result *best,
                              const bite_sampling *sampling);

/** Records `count` draws from `first` on, the lanes of a block that is evaluated, and counts which
 * limits they exceed. */
void bite_draw_samples_store(const bite_draw_samples *samples, size_t first, size_t count,
                             const bite_block_space *space, bite_draw_counts *counts);

#endif
