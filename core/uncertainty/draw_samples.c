/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The numbers of all draws, from which bands and chances are made. */
#include "core/uncertainty/draw_samples.h"
#include "core/base/memory.h"
#include <math.h>

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
    }
}

void bite_draw_samples_store(const bite_draw_samples *samples, size_t draw,
                             const bite_segment *straight, const bite_limit *limits,
                             bite_draw_counts *counts)
{
    size_t any = 0;
    for (int i = 0; i < BITE_VALUE_COUNT; i++) {
        if (samples->has[i]) {
            samples->values[(size_t)i * samples->stride + draw] = straight->value[i];
        }
    }
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        if (!samples->applies[i]) {
            continue;
        }
        size_t over = limits[i].applies && limits[i].utilization > 1.0;
        samples->utilizations[(size_t)i * samples->stride + draw] =
            limits[i].applies ? limits[i].utilization : (double)NAN;
        counts->over[i] += over;
        any |= over && samples->binds[i];
    }
    counts->any += any;
    if (samples->over != NULL) {
        samples->over[draw] = (unsigned char)any;
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
