/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The search problem of one tool: the cut, its draws, what is free, and the best settings so far.
 * The type alone; search_space.h and limit_margins.h declare its functions. */
#ifndef BITE_SEARCH_SEARCH_PROBLEM_H
#define BITE_SEARCH_SEARCH_PROBLEM_H

#include "core/request/request.h"
#include "core/search/pass_counts.h"
#include "core/search/speed_feed.h"
#include <coolbite/coolbite.h>
#include <stdint.h>

/** One tool in the requested cut. */
typedef struct bite_search_problem {
    bite_request request;
    bite_cut requested;
    bite_cut full;
    bite_provenance provenance[BITE_INPUTS_MAX];
    bite_spread spreads[BITE_SPREAD_MAX];
    size_t spread_count;
    bite_checked_cut checked;
    bite_block_space *spaces; /* owned by the choice, one per thread of the request; shared by copies
                               of the problem */
    bite_search search;
    bite_search initial; /* with the margins at the start of solving */
    double confidence;
    double chance_budget;    /* the share of 1 - confidence that the settings may use */
    double chance;           /* of exceeding a limit, at the last point */
    double least_chance;     /* if nothing is clear: hardly more than the least chance */
    uint32_t clear;          /* 1: the settings are clear, apart from relaxed limits */
    uint32_t unclear_by_all; /* 1: the settings of least chance are not clear by all draws either */
    size_t draws;            /* per evaluation while searching */
    bite_pass_counts counts;
    bite_point point;
    uint64_t min_passes;   /* in total: fewer were solved before and were not clear */
    double incumbent_goal; /* settings with a worse goal are not repaired, to save draws; INFINITY:
                              no incumbent */
    double relaxed[BITE_LIMIT_COUNT]; /* 0: not relaxed; otherwise no settings keep this limit,
                                         and this utilization is accepted */
} bite_search_problem;

#endif
