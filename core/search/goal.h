/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The best point of one tool: within the limits, the goal met, then fast. */
#ifndef BITE_SEARCH_GOAL_H
#define BITE_SEARCH_GOAL_H

#include "core/search/settings_search.h"

typedef struct bite_solution {
    bite_limit_rule rule;
    bite_wish wish; /* that the point fulfils; its rule is the one above */
    bite_point point;
    double excess;    /* the level at which the goal is met over the stated one; 1: as stated */
    uint32_t clear;   /* 1: within all limits at the confidence, by the draws of the search */
    uint32_t relaxed; /* number of limits that no setting keeps; the point is within the others */
} bite_solution;

/** The fastest point that meets the goal: at the stated level, or else at nearly the lowest that is
 * possible. If there is none, the least burdened. BITE_NO_MEMORY. */
bite_status bite_problem_meet_goal(bite_solution *solution, bite_error *error);

/** Some point within the limits, if there is one: not the fastest, and whatever its goal is.
 * BITE_NO_MEMORY. */
bite_status bite_problem_find_any(const bite_search_problem *problem, bite_solution *solution,
                                  bite_error *error);

/** Solves the problem. capacity: the share of each limit's capacity that may be used; below 1, no
 * limit is relaxed. BITE_NO_MEMORY. */
bite_status bite_problem_solve(const bite_search_problem *problem, double capacity,
                               bite_solution *solution, bite_error *error);

/** The fastest point that meets the goal as stated, by a rough search at the best estimates, to
 * compare tools; else the least burdened one. margins: of each limit, the quantile over the best
 * estimate, as another tool has them. worth: as bite_search_everywhere. BITE_NO_MEMORY. */
bite_status bite_problem_estimate(const bite_search_problem *problem, const double *margins,
                                  double worth, bite_point *best, bite_error *error);

/** Copies a solution. */
void bite_solution_copy(const bite_solution *from, bite_solution *to);

#endif
