/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * How many passes: over a feature's depth, and side by side over its width.
 *
 * Two whole numbers beside spindle and feed. Pairs are looked at in the order of their product, the
 * passes in all: coarsely first, closer where a coarse look cannot tell whether something holds. A
 * pair is passed over when one that parts the feature more both ways is far over its limits. Fewest
 * passes that hold; for the most removal the pair that removes most, no further than three times
 * its passes, and than where the fastest feed there is could not remove more; where none holds, the
 * fewest that are not much worse than the least bad. Up to eight each number is looked at, beyond
 * in steps of an eighth; what was left out under the number found is looked at afterwards. A test
 * holds it against a dense grid over both numbers, spindle and feed.
 *
 * That they are the fewest is said only where no pair under them was left out. The most removal is
 * not proved: in three of 116 random cuts another pair of the first eight numbers each way removed
 * up to 1 % more.
 */
#ifndef BITE_SEARCH_PASS_COUNTS_H
#define BITE_SEARCH_PASS_COUNTS_H

#include "core/search/speed_feed.h"

/** A feature and into how many passes it is parted. */
typedef struct bite_pass_counts {
    bite_checked_cut *checked; /* the search's; depth and width of its pass follow the numbers */
    double depth; /* of the whole feature, m; NaN: the depth of a pass stays as it is */
    double width; /* m; NaN: the width of a pass stays */
    uint32_t axial;
    uint32_t radial;
} bite_pass_counts;

typedef struct bite_pass_counts_found {
    bite_point point;  /* the best that the look saw; a whole look may better it */
    uint32_t examined; /* pairs */
    uint32_t fewest;   /* 1: it holds, and every pair with fewer passes in all was looked at */
} bite_pass_counts_found;

/** Sets both numbers, and with them what is free of depth and width of a pass. */
void bite_pass_counts_set(bite_pass_counts *counts, uint32_t axial, uint32_t radial);

/** Nonzero: so many passes can be cut with the tool, and are not thinner than may be typed; a
 * number that is not free stays. */
int bite_pass_counts_sensible(const bite_pass_counts *counts, uint32_t axial, uint32_t radial);

/** The most that so many passes in all could remove, m3/s: no less than what any settings do, for a
 * mill. */
double bite_pass_counts_most_removal(const bite_search *search, const bite_pass_counts *counts,
                                     uint64_t passes);

/** Leaves the parting at the numbers found. */
bite_pass_counts_found bite_pass_counts_find(const bite_search *search, bite_pass_counts *counts);

/** A look at a few numbers alone, each larger by about a half, by which tools are compared. */
bite_pass_counts_found bite_pass_counts_quick(const bite_search *search, bite_pass_counts *counts);

/** The same over the depth alone, closed in on between the last number that does not hold and the
 * first that does: as many as are needed where more passes use less, found in a few looks. A
 * feature whose width is free is glanced at. */
bite_pass_counts_found bite_pass_counts_close_in(const bite_search *search,
                                                 bite_pass_counts *counts);

/** About a quarter more passes in all, parted so that least of the limits is used. 0: there are
 * none. */
int bite_pass_counts_more(const bite_search *search, bite_pass_counts *counts);

#endif
