/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The best spindle speed and feed of a pass within its limits.
 *
 * Why the search is complete (sketch): at one spindle speed every binding limit is monotone in the
 * feed per tooth, or falls and then rises once (rubbing and heat of a starved edge on one side;
 * force, power, feed marks and the feed axes on the other). So the feeds within the limits form one
 * interval, whose ends are where a limit is reached; they are found by bisection. Within it each
 * goal is monotone in the feed or has one minimum, so the best feed is at an end or at the minimum,
 * found by golden section. The rest is a function of the spindle speed alone, made of pieces of
 * such ends. It is sampled on a grid in its logarithm, and the best points are refined by golden
 * section, which also converges to a corner where two limits cross. Where chatter is the limit, the
 * speeds between its lobes are sampled ten times as finely, at one feed per tooth. No step is a
 * proof if limits change twice between two points; a test compares the search with a dense grid
 * over random cuts. Known to be missed: about one random cut in a thousand, of which hardly any
 * setting is within the limits.
 */
#ifndef BITE_SEARCH_SPEED_FEED_H
#define BITE_SEARCH_SPEED_FEED_H

#include "core/cut/pass.h"

typedef struct bite_search {
    const bite_checked_cut *checked; /* its spindle speed and feed are overwritten */
    uint32_t goal;                   /* a bite_goal */
    uint32_t threads; /* 0 is 1; grid points are evaluated in parallel, with the same result */
    double margin[BITE_LIMIT_COUNT]; /* >= 1; a limit is kept if utilization x margin <= 1 */
    double spindle[2];               /* least and most, 1/s; equal: fixed */
    double tooth[2];                 /* feed per tooth, m; equal: fixed */
    double feed;     /* m/s, fixed; NaN: the feed per tooth is free within its range */
    double goal_cap; /* > 0: a point is within the limits only if capped_goal is at most this */
    uint32_t capped_goal;   /* a bite_goal, not BITE_GOAL_FAST */
    uint32_t charted_speed; /* 1: the fastest spindle speed is the published one for the edge */
    bite_block_space *spaces; /* one per thread, at least one; their content between two calls does
                               not matter */
} bite_search;

typedef struct bite_point {
    double spindle; /* 1/s */
    double feed;    /* m/s */
    double
        goal; /* smaller is better; for BITE_GOAL_FAST the negative logarithm of the removal rate */
    double worst;   /* largest utilization x margin of a binding limit; at most 1: all are kept */
    uint32_t limit; /* the bite_limit_id of the worst */
    uint32_t reserved;
} bite_point;

/** Evaluates a point. */
bite_point bite_speed_feed_at(const bite_search *search, double spindle, double feed);

/** The value of the capped goal at a point. */
double bite_speed_feed_capped_goal(const bite_search *search, double spindle, double feed);

/** Nonzero: a is better than b: a point within the limits is better than one that is not; then by
 * goal, or by worst if neither is within the limits. */
int bite_speed_feed_better(const bite_point *a, const bite_point *b);

/** How thoroughly to search. */
typedef enum bite_search_effort {
    BITE_SEARCH_FULL = 0,   /* the whole range of speeds, refined */
    BITE_SEARCH_LOCAL = 1,  /* a range known to have one optimum, refined: a third of the work */
    BITE_SEARCH_COARSE = 2, /* a coarse grid, a twentieth */
    BITE_SEARCH_MEDIUM = 3  /* a coarse grid of speeds, the best feed at each: a fifth */
} bite_search_effort;

/** The best point; if none is within the limits, the one whose worst is least. */
bite_point bite_speed_feed_find(const bite_search *search, bite_search_effort effort);

/** The best point close to the best point of a search that differs by a percent: a third of the
 * work of BITE_SEARCH_LOCAL. */
bite_point bite_speed_feed_refine(const bite_search *search, const bite_point *start);

#endif
