/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pass counts under the chance constraint: the fewest that are clear, or those that remove most. */
#ifndef BITE_SEARCH_PASS_COUNT_SEARCH_H
#define BITE_SEARCH_PASS_COUNT_SEARCH_H

#include "core/search/search_space.h"
#include "core/search/speed_feed.h"
#include <coolbite/coolbite.h>
#include <stddef.h>
#include <stdint.h>

#define BITE_SOLUTIONS_MAX 24

/** A solution with its pass counts, and the margins with which its limits are clear together; if
 * none is clear, one with a low chance. */
typedef struct bite_solution {
    int clear;
    double chance;
    double value; /* like a goal: smaller is better */
    bite_pass_counts counts;
    bite_search search;
    bite_point point;
} bite_solution;

/** The solutions found by coarse searches. */
typedef struct bite_solution_list {
    size_t count;
    bite_solution solution[BITE_SOLUTIONS_MAX];
} bite_solution_list;

/** An empty list: some 15 KB, too many for the stack. NULL: no memory, which error says. Owned,
 * bite_solution_list_free with the same problem. */
bite_solution_list *bite_solution_list_new(const bite_search_problem *problem, bite_error *error);
void bite_solution_list_free(const bite_search_problem *problem, bite_solution_list *list);

/** The present state of the problem as a solution, and back. */
bite_solution bite_solution_of(const bite_search_problem *problem, int clear);
void bite_solution_restore(bite_search_problem *problem, const bite_solution *to);

/** Nonzero: a is better than b: clear before not clear, then by value or by chance. */
int bite_solution_better(const bite_solution *a, const bite_solution *b);

/** Nonzero: the depth or the width of a pass is free. */
int bite_pass_counts_are_free(const bite_search_problem *problem);

/** Nonzero: more passes than anyone wants to wait for. */
int bite_pass_counts_too_many(const bite_search_problem *problem);

/** Rounds the depth and width of a side cut, since rounding alone may use up the margin. */
void bite_pass_counts_round(bite_search_problem *problem, uint32_t units);

/** The index of the best solution that was not tried yet; their number if all were. */
size_t bite_pass_counts_next(const bite_solution_list *all, const int *tried);

/** Moves to better neighbouring pass counts as long as there are any. Fewer than `fewest` passes in
 * total are known not to suffice. */
bite_status bite_pass_counts_climb(bite_search_problem *problem, const bite_search *before,
                                   uint64_t fewest, bite_solution_list *all, bite_error *error);

/** Finds clear pass counts from the present ones. *clear: 1 if found. */
bite_status bite_pass_counts_solve(bite_search_problem *problem, uint32_t units, int *clear,
                                   bite_error *error);

/** The least chance over pass counts, adding passes as long as they help. *result: its draws. */
bite_status bite_pass_counts_least(bite_search_problem *problem, uint32_t units,
                                   bite_result *result, bite_error *error);

#endif
