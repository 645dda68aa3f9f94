/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How much room a search leaves to each limit for what nobody knows exactly. */
#include "core/search/limit_margins.h"
#include <math.h>

static const double margin_most = 4.0;

/* Limits that no speed and feed can ease, and of these those that hang on sizes alone. */
static const bite_limit_id steady[] = {BITE_LIMIT_CHIP_PACKING, BITE_LIMIT_CORNER, BITE_LIMIT_REACH,
                                       BITE_LIMIT_GAP};
static const bite_limit_id *const certain = steady + 1;
enum { STEADY = sizeof steady / sizeof *steady, CERTAIN = STEADY - 1 };

/* What cannot hold is put up with so far over the least there is: near it, and not at any price. */
static const double put_up_with = 1.15;

void bite_margins_clear_sizes(bite_search *search)
{
    for (int i = 0; i < CERTAIN; i++) {
        search->margin[certain[i]] = 1.0;
    }
}

/* Widened no further than it still holds: past that the whole cut would be given up for what others
 * can give way to. */
static void spare_steady(bite_search *search, const bite_result *result)
{
    for (int i = 0; i < STEADY; i++) {
        const bite_limit *limit = &result->limits[steady[i]];
        if (limit->applies && limit->utilization > 0.0 && limit->utilization_high <= 1.0) {
            search->margin[steady[i]] =
                fmin(search->margin[steady[i]], (1.0 - 1e-9) / limit->utilization);
        }
    }
}

void bite_margins_set(bite_search_problem *problem, const bite_result *result, double times)
{
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        const bite_limit *limit = &result->limits[i];
        double margin =
            limit->applies && limit->utilization > 0.0 && !isnan(limit->utilization_high)
                ? limit->utilization_high / limit->utilization
                : 1.0;
        problem->search.margin[i] = fmin(margin_most, 1.0 + times * (fmax(1.0, margin) - 1.0));
    }
    spare_steady(&problem->search, result);
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        if (problem->relaxed[i] > 0.0) {
            problem->search.margin[i] = 1.0 / problem->relaxed[i];
        }
    }
}

double bite_margins_within_reach(const bite_search_problem *problem, bite_search *search,
                                 const bite_result *held)
{
    double most = 0.0;
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        const bite_limit *limit = &held->limits[i];
        if (limit->applies && !limit->advisory && limit->utilization > 0.0 &&
            !(problem->relaxed[i] > 0.0)) {
            search->margin[i] = fmin(search->margin[i], (1.0 - 1e-4) / limit->utilization);
            most = fmax(most, search->margin[i] * limit->utilization);
        }
    }
    return most;
}

void bite_margins_relax_sizes(bite_search_problem *problem, const bite_result *result)
{
    int parted = !isnan(problem->counts.depth) || !isnan(problem->counts.width);
    for (int i = parted; i < STEADY; i++) { /* packing is the first of them */
        const bite_limit *limit = &result->limits[steady[i]];
        if (limit->applies && limit->utilization > 1.0) {
            problem->relaxed[steady[i]] = INFINITY;
        }
    }
}

int bite_margins_relax(bite_search_problem *problem, const bite_result *least)
{
    int count = 0;
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        const bite_limit *limit = &least->limits[i];
        if (limit->applies && !limit->advisory && !(problem->relaxed[i] > 0.0) &&
            limit->chance > 0.5) {
            problem->relaxed[i] = put_up_with * limit->utilization;
            count++;
        }
    }
    return count;
}
