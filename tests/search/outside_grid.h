/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Settings that a request could have, found apart from the search.
 *
 * A grid over the tools, the numbers of passes, the spindle speeds and the feeds that may be
 * entered. A batch computes each point at its best estimates; the points that probably have the
 * lowest chance are kept.
 */
#ifndef BITE_TESTS_SEARCH_OUTSIDE_GRID_H
#define BITE_TESTS_SEARCH_OUTSIDE_GRID_H

#include "tests/search/allowed_settings.h"

typedef struct outside_tool {
    bite_cut cut; /* with the tool; depth and width are those of a pass if they are fixed */
    allowed_settings allowed;
    uint32_t fewest[2]; /* passes over the depth, side by side */
    uint32_t most[2];
} outside_tool;

typedef struct outside_grid {
    const search_request *made;
    size_t tool_count;
    outside_tool tools[SEARCH_TOOLS];
} outside_grid;

typedef struct outside_point {
    size_t tool;
    uint32_t axial;
    uint32_t radial;
    double depth; /* m */
    double width; /* m; NaN: a slot */
    double spindle;
    double feed;
    double removal;   /* in a unit of the request: only ratios count */
    double predicted; /* worst utilization that is likely at the confidence */
} outside_point;

/** What is looked for. */
typedef struct outside_wish {
    double removal;                /* at least; 0: any */
    double goal;                   /* at most, as outside_goal has it */
    double worst;                  /* predicted utilization at most */
    double used;                   /* utilization at the best estimates at most */
    double near_spindle;           /* 1/s, searched more closely */
    double high[BITE_LIMIT_COUNT]; /* high end of a utilization / its best estimate; 0: the limit
                                      does not bind */
} outside_wish;

/** Before anything is set in the request that it leaves free. */
void outside_grid_begin(const search_request *made, outside_grid *grid);

/** What settings remove per time, of the whole feature: their passes counted, and a drill's
 * pecks. */
double outside_removal(const outside_grid *grid, size_t tool, uint32_t axial, uint32_t radial,
                       double feed);

/** What the goal is measured by at the best estimates, but for a gentle one; smaller is better.
 * value: by bite_value_id. */
double outside_goal(const outside_grid *grid, const double value[BITE_VALUE_COUNT]);

/** Depth and width of a pass. */
void outside_sizes(const outside_grid *grid, outside_point *point);

/** The points that fulfil the wish, those most likely within the limits first; at most `most`. */
size_t outside_grid_sieve(const outside_grid *grid, const outside_wish *wish, outside_point *points,
                          size_t most);

#endif
