/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * How many passes: over a feature's depth, and side by side over its width.
 *
 * Two whole numbers beside spindle and feed. Pairs are looked at in the order of their product, the passes in all: coarsely first,
 * closer where a coarse look cannot tell whether something holds. A pair is passed over when one that parts the feature more both
 * ways is far over its limits. Fewest passes that hold; for the most removal the pair that removes most, no further than three
 * times its passes, and than where the fastest feed there is could not remove more; where none holds, the fewest that are not much
 * worse than the least bad. Up to eight each number is looked at, beyond in steps of an eighth; what was left out under the number
 * found is looked at afterwards. A test holds it against a dense grid over both numbers, spindle and feed.
 *
 * That they are the fewest is said only where no pair under them was left out. The most removal is not proved: in three of 116
 * random cuts another pair of the first eight numbers each way removed up to 1 % more.
 */
#ifndef BITE_SEARCH_PASS_COUNTS_H
#define BITE_SEARCH_PASS_COUNTS_H

#include "core/search/speed_feed.h"

/** A feature and into how many passes it is parted. */
typedef struct bite_parting {
    bite_checked_cut *checked; /* the search's; depth and width of its pass follow the numbers */
    double depth;      /* of the whole feature, m; NaN: the depth of a pass stays as it is */
    double width;      /* m; NaN: the width of a pass stays */
    uint32_t down;
    uint32_t side;
} bite_parting;

typedef struct bite_passes {
    bite_point point; /* the best that the look saw; a whole look may better it */
    uint32_t looked;  /* pairs */
    uint32_t fewest;  /* 1: it holds, and every pair with fewer passes in all was looked at */
} bite_passes;

/** Sets both numbers, and with them what is free of depth and width of a pass. */
void bite_passes_set(bite_parting *of, uint32_t down, uint32_t side);

/** Nonzero: so many passes can be cut with the tool, and are not thinner than may be typed; a number that is not free stays. */
int bite_passes_sensible(const bite_parting *of, uint32_t down, uint32_t side);

/** The most that so many passes in all could remove, m3/s: no less than what any settings do, for a mill. */
double bite_passes_most_removal(const bite_search *search, const bite_parting *of, uint64_t passes);

/** Leaves the parting at the numbers found. */
bite_passes bite_passes_find(const bite_search *search, bite_parting *of);

/** A look at a few numbers alone, each larger by about a half, by which tools are compared. */
bite_passes bite_passes_glance(const bite_search *search, bite_parting *of);

/** The same over the depth alone, closed in on between the last number that does not hold and the first that does: as many as are
 * needed where more passes use less, found in a few looks. A feature whose width is free is glanced at. */
bite_passes bite_passes_close_in(const bite_search *search, bite_parting *of);

/** About a quarter more passes in all, parted so that least of the limits is used. 0: there are none. */
int bite_passes_more(const bite_search *search, bite_parting *of);

#endif
