/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How many passes: the fewest that are clear, or those that remove most. */
#ifndef BITE_SEARCH_PASS_COUNT_SEARCH_H
#define BITE_SEARCH_PASS_COUNT_SEARCH_H

#include "core/search/search_space.h"
#include "core/search/speed_feed.h"
#include <coolbite/coolbite.h>
#include <stddef.h>
#include <stdint.h>

#define BITE_SOLUTIONS_MAX 24

/** A parting, with the margins that make its limits clear together; where none is clear, one with
 * little chance. */
typedef struct bite_solution {
    int clear;
    double chance;
    double value; /* as a goal: the less the better */
    bite_pass_counts counts;
    bite_search search;
    bite_point point;
} bite_solution;

/** Those that were settled coarsely. */
typedef struct bite_solution_list {
    size_t count;
    bite_solution solution[BITE_SOLUTIONS_MAX];
} bite_solution_list;

bite_solution bite_solution_of(const bite_search_problem *problem, int clear);
void bite_solution_restore(bite_search_problem *problem, const bite_solution *to);
int bite_solution_better(const bite_solution *a, const bite_solution *b);
/** Nonzero: the depth or the width of a pass is free. */
int bite_pass_counts_are_free(const bite_search_problem *problem);

/** More passes than anyone wants to wait for. */
int bite_pass_counts_too_many(const bite_search_problem *problem);

/** Sets depth and width of a side cut as they are typed: their rounding alone may use up the room.
 */
void bite_pass_counts_round(bite_search_problem *problem, uint32_t units);

/** The best of those that were not tried yet; their number: all were. */
size_t bite_pass_counts_next(const bite_solution_list *all, const int *tried);

/** On to the better neighbour, as long as there is one. Fewer passes than `fewest` in all are known
 * not to do. */
bite_status bite_pass_counts_climb(bite_search_problem *problem, const bite_search *before,
                                   uint64_t fewest, bite_solution_list *all, bite_error *error);

/** From the numbers as they stand to those that are clear; *clear: they are. */
bite_status bite_pass_counts_solve(bite_search_problem *problem, uint32_t units, int *clear,
                                   bite_error *error);

/** The least chance over some numbers of passes: more, as long as they help. *result: its draws. */
bite_status bite_pass_counts_least(bite_search_problem *problem, uint32_t units,
                                   bite_result *result, bite_error *error);

#endif
