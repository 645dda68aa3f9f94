/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The pair of pass counts, over the depth and side by side, for a feature whose width is free.
 *
 * Pairs are evaluated in the order of their product, the passes in total: coarsely first, more
 * closely if a coarse search cannot tell whether all limits are kept. A pair is skipped if one with
 * at least as many passes in both directions is far over its limits. The result is the pair with
 * the fewest passes within the limits. For the goal of removal rate it is the pair that removes
 * most; the search ends at three times its passes, or earlier if even the fastest feed could not
 * remove more. If no pair is within the limits, it is the one with the fewest passes that is not
 * much worse than the least bad. Each number up to eight is tried, beyond that in steps of an
 * eighth; what was left out below the numbers found is evaluated afterwards. A test compares the
 * result with a dense grid over both numbers, spindle speed and feed.
 *
 * The result is reported as the fewest passes only if no pair below it was left out. The highest
 * removal rate is not proved: in three of 116 random cuts another pair of the first eight numbers
 * in each direction removed up to 1 % more.
 */
#ifndef BITE_SEARCH_PASS_PAIR_SEARCH_H
#define BITE_SEARCH_PASS_PAIR_SEARCH_H

#include "core/search/pass_counts.h"

/** If nothing is within the limits: a worst utilization up to this factor above the lowest one is
 * as good. */
extern const double bite_pass_nearly_as_good;

/** Leaves the counts at the pair found. */
bite_pass_counts_found bite_pass_pairs_find(const bite_search *search, bite_pass_counts *counts);

/** The same from few coarse searches: adds half as many passes as long as that is better, until the
 * limits are kept, or, for the goal of removal rate, until more passes remove less. */
bite_pass_counts_found bite_pass_pairs_quick(const bite_search *search, bite_pass_counts *counts);

#endif
