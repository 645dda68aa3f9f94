/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The one search: spindle speed, feed and pass counts under one constraint.
 *
 * A point is within its limits if the quantile of its worst utilization over the draws is at most
 * the wanted one, and its goal at most the level at which the goal counts as met. Both are one
 * number, the burden, at most 1. Among the points within, the fastest is best, and of equally fast
 * ones that of least burden, which keeps away from the ends of what is possible. If there are none,
 * the least burdened point is best.
 *
 * How fast a point is needs no evaluation, so a grid over the whole box (the points within may form
 * several regions: lobes of chatter, two ranges of feed) is evaluated from its fastest point on,
 * until points are within; then smaller and smaller grids around the best of them, and around the
 * nearly possible faster ones. Pass counts are tried in the order of the fastest point that they
 * could have, until none could be faster than the best found.
 */
#ifndef BITE_SEARCH_SETTINGS_SEARCH_H
#define BITE_SEARCH_SETTINGS_SEARCH_H

#include "core/search/search_space.h"

typedef struct bite_wish {
    const bite_search_problem *problem;
    const bite_limit_rule *rule;
    double quantile; /* at most this one is within */
    double level;    /* of the goal; INFINITY: any */
    uint32_t quick;  /* 1: roughly, to compare tools */
    uint32_t axial;  /* 0, or: only these numbers of passes */
    uint32_t radial;
} bite_wish;

typedef struct bite_point {
    uint32_t axial;
    uint32_t radial;
    double log_spindle; /* of 1/s */
    double log_feed;    /* of m/s */
    bite_setting at;
    bite_setting_risk risk;
    double burden; /* at most 1: within */
    double cost;   /* smaller is better; of the fastest: the logarithm of its time */
} bite_point;

/** The value of a goal at a point; NaN: it has none. */
double bite_goal_value(const bite_search_problem *problem, uint32_t goal,
                       const bite_setting_risk *risk);

/** Nonzero: a is better than b: within its limits before not; then by cost, or by burden if neither
 * is. */
int bite_point_better(const bite_point *a, const bite_point *b);

/** A point with these pass counts, not evaluated. */
bite_point bite_point_at(const bite_wish *wish, uint32_t axial, uint32_t radial, double log_spindle,
                         double log_feed);

/** Evaluates points by the first `draws` draws. */
void bite_points_evaluate(const bite_wish *wish, size_t draws, bite_point *points, size_t count);

/** Moves *best to the best of these points, which may be it, and orders them. Those that are slower
 * than a point within the limits are not evaluated. */
void bite_points_move(const bite_wish *wish, size_t draws, bite_point *points, size_t count,
                      bite_point *best);

/** The best point. worth: points of a higher cost are of no use (INFINITY: all are).
 * BITE_NO_MEMORY.
 */
bite_status bite_search_everywhere(const bite_wish *wish, double worth, bite_point *best,
                                   bite_error *error);

/** The best point near *best, with its pass counts: first within a factor `reach` of its speed and
 * feed, then within half of that, and so on. draws: SIZE_MAX for all. */
void bite_search_nearby(const bite_wish *wish, double reach, int rounds, size_t draws,
                        bite_point *best);

#endif
