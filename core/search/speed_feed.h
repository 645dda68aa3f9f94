/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The best spindle speed and feed of a pass within its limits.
 *
 * Why it finds it (sketch). At one spindle speed every limit that binds is monotone in the feed per
 * tooth, or falls and then rises once (rubbing and heat of a starved edge on one side; force,
 * power, marks and the axes on the other), so that the feeds which hold form one interval; its ends
 * are where a limit is met and are found by halving. Each goal is monotone in the feed, or has one
 * valley, within that interval: its best lies at an end or at the valley, found by the golden
 * section. What is left is a function of the spindle speed alone, made of pieces of such ends; it
 * is looked at on a grid in its logarithm, and the best places are refined by the golden section,
 * which holds on to a corner where two limits cross. Neither step is a proof where limits change
 * twice between two grid points; a test holds the search against a dense grid over random cuts.
 */
#ifndef BITE_SEARCH_SPEED_FEED_H
#define BITE_SEARCH_SPEED_FEED_H

#include "core/cut/pass.h"

typedef struct bite_search {
    const bite_checked_cut *checked; /* its spindle speed and feed are overwritten */
    uint32_t goal;                   /* a bite_goal */
    uint32_t threads; /* 0 is 1; a few places are looked at at once, the same are found */
    double margin[BITE_LIMIT_COUNT]; /* >= 1; a row holds while use x margin is at most 1 */
    double spindle[2];               /* least and most, 1/s; equal: fixed */
    double tooth[2];                 /* feed per tooth, m; equal: fixed */
    double feed; /* m/s, fixed; NaN: the feed per tooth is free within its range */
    double
        goal_cap; /* > 0: a point holds only while the goal `capped` comes to no more than this */
    uint32_t capped_goal; /* a bite_goal, not BITE_GOAL_FAST */
    uint32_t reserved;
    bite_workspace *spaces; /* to work in, one for each thread, at least one; what is in them
                               between two calls does not matter */
} bite_search;

typedef struct bite_point {
    double spindle; /* 1/s */
    double feed;    /* m/s */
    double
        goal; /* smaller is better; of BITE_GOAL_FAST the negative logarithm of the removal rate */
    double worst;   /* largest use x margin of the rows that bind; at most 1: all hold */
    uint32_t limit; /* the bite_limit_id of that */
    uint32_t reserved;
} bite_point;

/** A point judged. */
bite_point bite_speed_feed_at(const bite_search *search, double spindle, double feed);

/** What the goal that is capped comes to at a point. */
double bite_speed_feed_capped_goal(const bite_search *search, double spindle, double feed);

/** Nonzero: a is better than b: one that holds before one that does not, then by goal, or by worst
 * where neither holds. */
int bite_speed_feed_better(const bite_point *a, const bite_point *b);

/** How hard to look. */
typedef enum bite_search_effort {
    BITE_SEARCH_FULL = 0, /* the whole range of speeds, refined */
    BITE_SEARCH_LOCAL =
        1, /* a range that is known to hold one best place, refined: a third of the work */
    BITE_SEARCH_COARSE = 2, /* a coarse grid, a twentieth */
    BITE_SEARCH_MEDIUM = 3  /* a coarse grid of speeds, the best feed at each: a fifth */
} bite_search_effort;

/** The best point; where none holds, the one whose worst is least. */
bite_point bite_speed_feed_find(const bite_search *search, bite_search_effort effort);

/** The best point close to one that was the best of a search that differs by a percent: a third of
 * a look nearby. */
bite_point bite_speed_feed_refine(const bite_search *search, const bite_point *start);

#endif
