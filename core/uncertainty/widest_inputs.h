/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The inputs whose uncertainty widens the answer most: what to measure to narrow it. */
#ifndef BITE_UNCERTAINTY_WIDEST_INPUTS_H
#define BITE_UNCERTAINTY_WIDEST_INPUTS_H

#include "core/uncertainty/draw_samples.h"
#include "core/uncertainty/sampling_plan.h"
#include <coolbite/coolbite.h>

/** Fills result->widest: the two inputs whose deviates correlate most with the logarithm of one
 * limit's utilization. */
void bite_widest_inputs_find(const bite_sampling_plan *plan, const bite_draw_samples *samples,
                             uint64_t seed, uint32_t limit, bite_result *result);

#endif
