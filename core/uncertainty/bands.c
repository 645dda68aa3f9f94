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

/* The band of the wall error is that of one wall, the worse one at the best estimates: the error is
 * a magnitude, and its band must not mix two walls. */
static void fill_wall_band(const bite_draw_samples *sample, double *sorting, bite_result *result)
{
    const bite_value *climb = &result->values[BITE_WALL_CLIMB];
    const bite_value *other = &result->values[BITE_WALL_CONVENTIONAL];
    bite_value *error = &result->values[BITE_WALL_ERROR];
    bite_value_id wall = isnan(other->value) || fabs(climb->value) >= fabs(other->value)
                             ? BITE_WALL_CLIMB
                             : BITE_WALL_CONVENTIONAL;
    if (!sample->has[BITE_WALL_ERROR] || !sample->has[wall]) {
        return;
    }
    double *magnitudes = sample->values + (size_t)BITE_WALL_ERROR * sample->stride;
    const double *signed_errors = sample->values + (size_t)wall * sample->stride;
    for (size_t i = 0; i < sample->draws; i++) {
        magnitudes[i] = fabs(signed_errors[i]);
    }
    fill_value_band(sample, BITE_WALL_ERROR, sorting, error);
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
        if (i == BITE_WALL_ERROR) {
            fill_wall_band(all->samples, sorting, all->result);
        } else {
            fill_value_band(all->samples, i, sorting, &all->result->values[i]);
        }
    }
}

void bite_bands_fill(const bite_draw_samples *samples, size_t runs, bite_result *result)
{
    band_job all = {samples, result, runs};
    bite_thread_pool_run(runs, runs, fill_share, &all);
}
