/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The search problem of one tool: the cut, its draws, what is free, and the best settings so far.
 * A type alone; search_space.h and limit_margins.h declare what is done with it. */
#ifndef BITE_SEARCH_SEARCH_PROBLEM_H
#define BITE_SEARCH_SEARCH_PROBLEM_H

#include "core/request/request.h"
#include "core/search/pass_counts.h"
#include "core/search/speed_feed.h"
#include <coolbite/coolbite.h>
#include <stdint.h>

/** One tool in the cut that was asked for. */
typedef struct bite_search_problem {
    bite_request request;
    bite_cut requested;
    bite_cut full;
    bite_provenance provenance[BITE_INPUTS_MAX];
    bite_spread spreads[BITE_SPREAD_MAX];
    size_t spread_count;
    bite_checked_cut checked;
    bite_workspace *spaces; /* of the choice, one for each thread of the ask; copies of a trial work
                               in the same */
    bite_search search;
    bite_search initial; /* with the margins that settling began with */
    double confidence;
    double chance_budget; /* share of the chance that is left, 1 - confidence, which settings may
                             use up */
    double chance;        /* that something goes over at the last point */
    double least_chance;  /* where nothing is clear: hardly more than the least that there is */
    uint32_t clear;       /* 1: apart from what is given up, settled ones are */
    uint32_t reserved;
    size_t draws; /* of a look at the margins */
    bite_pass_counts counts;
    bite_point point;
    uint64_t min_passes;   /* passes in all: fewer were settled before, and were not clear */
    double incumbent_goal; /* a goal that is no better is not led back to what is allowed, which
                              only costs; INFINITY: none */
    double relaxed[BITE_LIMIT_COUNT]; /* 0: not; else nothing that is chosen holds it, and so much
                                         of its room is put up with */
} bite_search_problem;

#endif
