/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The inputs whose uncertainty widens the answer most: the correlation of each input's deviates
 * with the logarithm of a limit's utilization. */
#include "core/uncertainty/widest_inputs.h"
#include <math.h>

void bite_widest_inputs_find(const bite_sampling_plan *plan, const bite_draw_samples *samples,
                             uint64_t seed, uint32_t limit, bite_result *result)
{
    bite_sobol sobol;
    double z[BITE_SPREAD_MAX];
    double products[BITE_SPREAD_MAX] = {0.0};
    double mean = 0.0;
    const double *utilizations = samples->utilizations + (size_t)limit * samples->stride;
    double *scratch = samples->scratch;
    for (size_t at = 0; at < samples->draws; at++) {
        scratch[at] = utilizations[at] > 0.0 ? log(utilizations[at]) : 0.0;
        mean += scratch[at];
    }
    mean /= (double)samples->draws;
    double square = 0.0;
    (void)bite_sobol_init(&sobol, plan->dimensions, seed);
    for (size_t at = 0; at < samples->draws; at++) {
        double size = scratch[at] - mean;
        bite_sampling_plan_deviates(plan, &sobol, z);
        square += size * size;
        for (size_t i = 0; i < plan->count; i++) {
            products[i] += size * z[i];
        }
    }
    for (int place = 0; place < 2; place++) {
        size_t best = plan->count;
        for (size_t i = 0; i < plan->count; i++) {
            best = best == plan->count || fabs(products[i]) > fabs(products[best]) ? i : best;
        }
        /* below a correlation of 0.1 a measurement would not narrow the answer noticeably */
        double strength =
            best == plan->count
                ? 0.0
                : fabs(products[best]) / sqrt(fmax(square, 1e-300) * (double)samples->draws);
        if (!(strength > 0.1)) {
            return;
        }
        result->widest[place] = plan->spreads[best]->input;
        products[best] = 0.0;
    }
}
