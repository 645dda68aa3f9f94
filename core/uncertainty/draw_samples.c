/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The numbers of all draws, from which bands and chances are made. */
#include "core/uncertainty/draw_samples.h"
#include "core/base/memory.h"
#include <math.h>
#include <string.h>

void bite_draw_samples_select(bite_draw_samples *samples, const bite_result *best,
                              const bite_sampling *sampling)
{
    for (int i = 0; i < BITE_VALUE_COUNT; i++) {
        samples->has[i] = (uint8_t)(!sampling->limits_only && !isnan(best->values[i].value));
    }
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        samples->applies[i] = best->limits[i].applies != 0;
        int left_out = sampling->left_out != NULL && sampling->left_out[i];
        samples->binds[i] =
            (uint8_t)(best->limits[i].applies && !best->limits[i].advisory && !left_out);
        samples->wanted[i] = (uint8_t)(sampling->wanted != NULL && sampling->wanted[i]);
    }
}

void bite_draw_samples_store(const bite_draw_samples *samples, size_t first, size_t count,
                             const bite_block_space *space, bite_draw_counts *counts)
{
    unsigned char any[BITE_LANES] = {0};
    unsigned char wanted[BITE_LANES] = {0};
    for (size_t i = 0; i < BITE_VALUE_COUNT; i++) {
        if (samples->has[i]) {
            memcpy(samples->values + i * samples->stride + first, space->straight.value[i],
                   count * sizeof *samples->values);
        }
    }
    for (size_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        const double *utilization = space->limits.utilization[i];
        if (!samples->applies[i]) {
            continue;
        }
        memcpy(samples->utilizations + i * samples->stride + first, utilization,
               count * sizeof *utilization);
        for (size_t k = 0; k < count; k++) {
            unsigned char over = utilization[k] > 1.0; /* not where it does not apply: NaN */
            counts->over[i] += over;
            any[k] |= over & samples->binds[i];
            wanted[k] |= over & samples->wanted[i];
        }
    }
    for (size_t k = 0; k < count; k++) {
        counts->any += any[k];
        counts->wanted += wanted[k];
    }
    if (samples->over != NULL) {
        memcpy(samples->over + first, any, count);
    }
}

/* Numbers of a cache line. */
#define CACHE_LINE 8

bool bite_draw_samples_allocate(bite_draw_samples *samples, const bite_sampling *sampling,
                                size_t runs, bite_sampling_plan *plan)
{
    bite_sampling_plan_set_cells(plan, samples->draws);
    samples->over = sampling->over;
    samples->stride = samples->draws + CACHE_LINE;
    size_t recorded = samples->stride * (BITE_VALUE_COUNT + BITE_LIMIT_COUNT);
    samples->values =
        bite_memory_grow(bite_memory_default(), NULL,
                         recorded + plan->cells + runs * samples->draws, sizeof *samples->values);
    if (samples->values == NULL) {
        return false;
    }
    samples->utilizations = samples->values + samples->stride * BITE_VALUE_COUNT;
    samples->scratch = samples->values + recorded + plan->cells;
    bite_sampling_plan_set_deviates(plan, samples->values + recorded);
    return true;
}
