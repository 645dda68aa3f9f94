/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the files of a trial share: what is free (trial.c), margins (margin.c), the least chance
 * (risk.c), one number of passes (chance.c), how many (partings.c), the fastest of what is as good
 * (hasten.c). */
#ifndef BITE_SEARCH_SEARCH_INTERNAL_H
#define BITE_SEARCH_SEARCH_INTERNAL_H

#include "core/search/search_space.h"

/* ---- chance.c ---- */

/* ---- partings.c ---- */

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

/* ---- hasten.c ---- */

#endif
