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
 * The search looks for the best point by predictions (drawn_settings.h), evaluates it by all draws,
 * which corrects the predictions around it, and begins again, until the best predicted point is
 * hardly better than the best one that was drawn. Far from all drawn settings it takes the
 * predictions to be too high, so that it also looks there.
 */
#ifndef BITE_SEARCH_SETTINGS_SEARCH_H
#define BITE_SEARCH_SETTINGS_SEARCH_H

#include "core/search/search_space.h"

/** Predictions beyond this need not be exact. */
static const double bite_far_beyond = 1.3;

typedef struct bite_wish {
    const bite_search_problem *problem;
    const bite_limit_rule *rule;
    double quantile; /* at most this one is within */
    double level;    /* of the goal; INFINITY: any */
    double doubt;    /* by so much predictions far from all drawn settings may be too high */
    double caution;  /* by so much they were too low of late */
    double beyond;   /* times the quantile: predictions that are worse than this are bounds */
    double worth;    /* points of a higher cost are of no use */
    int any;         /* 1: any point within is as good, the first one that is drawn */
} bite_wish;

typedef struct bite_point {
    uint32_t axial;
    uint32_t radial;
    double log_spindle; /* of 1/s */
    double log_feed;    /* of m/s */
    bite_setting at;
    double quantile; /* of the worst utilization, predicted or drawn */
    double distance; /* from what was drawn, by which it is predicted, in logarithms */
    double goal;     /* its value; NaN: it has none */
    double burden;   /* at most 1: within */
    double cost;     /* smaller is better: the logarithm of its time */
    double soft;     /* K, capacity up to softening */
    uint32_t limit;  /* the binding limit with the highest utilization at the best estimates */
} bite_point;

/** Nonzero: a is better than b: within its limits before not; then by cost, or by burden if neither
 * is. */
int bite_point_better(const bite_point *a, const bite_point *b);

/** A point with these pass counts, within the range of spindle speeds, not evaluated. */
bite_point bite_point_at(const bite_wish *wish, uint32_t axial, uint32_t radial, double log_spindle,
                         double log_feed);

/** The point with the same passes that is nearest to these and within the ranges of spindle speed
 * and feed. */
bite_point bite_point_within(const bite_wish *wish, const bite_point *passes, double log_spindle,
                             double log_feed);

/** Orders points, the fastest first, and evaluates them by predictions, except those that are
 * slower than one within its limits. */
void bite_points_evaluate(const bite_wish *wish, bite_point *points, size_t count);

/** Evaluates a point by all draws; if fewer show that it is more burdened than `enough`, by these
 * alone. BITE_NO_MEMORY. */
bite_status bite_point_draw(const bite_wish *wish, double enough, bite_point *point,
                            bite_error *error);

/** Each limit alone at a point, by predictions. */
void bite_point_limits(const bite_wish *wish, const bite_point *point,
                       bite_limit_risk limits[BITE_LIMIT_COUNT]);

/** The best point of one pair of pass counts by predictions. fine: 0: roughly. worth: points of a
 * higher cost are of no use. last: NULL, or the best point before the last settings were drawn.
 * best: its cost is INFINITY if none was worth an evaluation. points: memory for BITE_PAIR_POINTS
 * of them. */
enum { BITE_PAIR_POINTS = 512 };
bite_point bite_search_pair(const bite_wish *wish, uint32_t axial, uint32_t radial, int fine,
                            const bite_point *last, double worth, bite_point *points);

/** The best point near *best by predictions, with its pass counts: first within a factor `reach` of
 * its speed and feed, then within half of that, and so on. */
void bite_search_nearby(const bite_wish *wish, double reach, int rounds, bite_point *best);

#endif
