/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bands: quantiles of the draws. */
#include "core/uncertainty/bands.h"
#include "core/base/quantile.h"
#include "core/base/thread_pool.h"
#include <math.h>

/* The rank of a quantile among count numbers. */
static size_t rank_of(size_t count, double share)
{
    return (size_t)(share * (double)(count - 1) + 0.5);
}

static int all_alike(const double *numbers, size_t count)
{
    size_t i = 1;
    while (i < count && numbers[i] == numbers[0]) {
        i++;
    }
    return i >= count;
}

static double quantile(const double *numbers, size_t count, double share, double *sorting)
{
    return all_alike(numbers, count)
               ? numbers[0]
               : bite_quantile_select_copy(numbers, count, rank_of(count, share), sorting);
}

/* Each run fills every runs-th band, and sorts in its own memory. */
typedef struct band_job {
    const bite_draw_samples *samples;
    bite_result *result;
    size_t runs;
} band_job;

static void fill_limit_band(const bite_draw_samples *sample, size_t at, double *sorting,
                            bite_limit *limit)
{
    const double *utilizations = sample->utilizations + at * sample->stride;
    if (limit->applies && !isnan(utilizations[0])) {
        limit->utilization_high =
            fmax(limit->utilization, quantile(utilizations, sample->draws, 0.95, sorting));
    }
}

static void fill_value_band(const bite_draw_samples *sample, size_t at, double *sorting,
                            bite_value *value)
{
    const double *numbers = sample->values + at * sample->stride;
    if (sample->has[at] && !isnan(numbers[0])) {
        value->low = fmin(value->value, quantile(numbers, sample->draws, 0.05, sorting));
        value->high = fmax(value->value, quantile(numbers, sample->draws, 0.95, sorting));
    }
}

static void fill_share(void *work, size_t run, size_t worker)
{
    (void)worker;
    const band_job *all = work;
    double *sorting = all->samples->scratch + run * all->samples->draws;
    for (size_t i = run; i < BITE_LIMIT_COUNT; i += all->runs) {
        fill_limit_band(all->samples, i, sorting, &all->result->limits[i]);
    }
    for (size_t i = run; i < BITE_VALUE_COUNT; i += all->runs) {
        fill_value_band(all->samples, i, sorting, &all->result->values[i]);
    }
}

void bite_bands_fill(const bite_draw_samples *samples, size_t runs, bite_result *result)
{
    band_job all = {samples, result, runs};
    bite_thread_pool_run(runs, runs, fill_share, &all);
}
