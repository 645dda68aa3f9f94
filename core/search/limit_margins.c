/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The margin that a search leaves to each limit for uncertain inputs. */
#include "core/search/limit_margins.h"
#include <math.h>

static const double margin_most = 4.0;

/* Limits that speed and feed do not affect. All but the first depend on sizes alone. */
static const bite_limit_id speed_independent[] = {BITE_LIMIT_CHIP_PACKING, BITE_LIMIT_CORNER,
                                                  BITE_LIMIT_REACH, BITE_LIMIT_GAP};
static const bite_limit_id *const by_size = speed_independent + 1;
enum {
    SPEED_INDEPENDENT = sizeof speed_independent / sizeof *speed_independent,
    BY_SIZE = SPEED_INDEPENDENT - 1
};

/* A relaxed limit may exceed its lowest utilization by this factor. */
static const double accepted_excess = 1.15;

void bite_margins_clear_sizes(bite_search *search)
{
    for (int i = 0; i < BY_SIZE; i++) {
        search->margin[by_size[i]] = 1.0;
    }
}

/* Caps these margins at the point where the limit is still kept: beyond it the search would find no
 * settings, though no other setting could help. */
static void cap_speed_independent(bite_search *search, const bite_result *result)
{
    for (int i = 0; i < SPEED_INDEPENDENT; i++) {
        const bite_limit *limit = &result->limits[speed_independent[i]];
        if (limit->applies && limit->utilization > 0.0 && limit->utilization_high <= 1.0) {
            search->margin[speed_independent[i]] =
                fmin(search->margin[speed_independent[i]], (1.0 - 1e-9) / limit->utilization);
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
    cap_speed_independent(&problem->search, result);
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        if (problem->relaxed[i] > 0.0) {
            problem->search.margin[i] = 1.0 / problem->relaxed[i];
        }
    }
}

double bite_margins_within_reach(const bite_search_problem *problem, bite_search *search,
                                 const bite_result *draws)
{
    double most = 0.0;
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        const bite_limit *limit = &draws->limits[i];
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
    int is_free = !isnan(problem->counts.depth) || !isnan(problem->counts.width);
    for (int i = is_free; i < SPEED_INDEPENDENT; i++) { /* the first is chip packing */
        const bite_limit *limit = &result->limits[speed_independent[i]];
        if (limit->applies && limit->utilization > 1.0) {
            problem->relaxed[speed_independent[i]] = INFINITY;
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
            problem->relaxed[i] = accepted_excess * limit->utilization;
            count++;
        }
    }
    return count;
}
