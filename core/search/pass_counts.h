/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How many passes a feature is cut in, over its depth and side by side over its width: the numbers
 * and pairs of numbers that are possible. */
#ifndef BITE_SEARCH_PASS_COUNTS_H
#define BITE_SEARCH_PASS_COUNTS_H

#include "core/search/speed_feed.h"

#define BITE_PASS_NUMBERS_MAX 48
#define BITE_PASS_PAIRS_MAX 128

/** A feature and the number of passes it is cut in. */
typedef struct bite_pass_counts {
    bite_checked_cut *checked; /* the search's; its depth and width of cut follow the counts */
    double depth;              /* of the whole feature, m; NaN: the depth of a pass is fixed */
    double width;              /* m; NaN: the width of a pass is fixed */
    uint32_t axial;
    uint32_t radial;
} bite_pass_counts;

typedef struct bite_pass_counts_found {
    bite_point point;  /* the best that was evaluated; a full search may improve on it */
    uint32_t examined; /* pairs */
    uint32_t fewest;   /* 1: within the limits, and every pair with fewer passes was evaluated */
} bite_pass_counts_found;

/** Numbers of passes in one direction, ascending. */
typedef struct bite_pass_numbers {
    uint32_t count;
    uint32_t value[BITE_PASS_NUMBERS_MAX];
} bite_pass_numbers;

typedef struct bite_pass_pair {
    uint32_t axial;
    uint32_t radial;
} bite_pass_pair;

/** Sets both numbers, and the depth and width of a pass if these are free. */
void bite_pass_counts_set(bite_pass_counts *counts, uint32_t axial, uint32_t radial);

/** The fewest passes over the depth that the tool's reach allows; a fixed number does not change.
 */
uint32_t bite_pass_counts_fewest_axial(const bite_pass_counts *counts);

/** The fewest passes side by side that the tool's diameter allows; a fixed number does not change.
 */
uint32_t bite_pass_counts_fewest_radial(const bite_pass_counts *counts);

/** Nonzero: with this number of passes over `whole` (m; NaN: fixed) they are not thinner than
 * `input` ("depth", "width") may be. The fewest passes are always sensible. */
int bite_pass_number_is_sensible(double whole, const char *input, uint32_t number, uint32_t fewest);

/** Nonzero: the tool can cut in these numbers of passes, and they are not thinner than may be
 * entered; a fixed number must not change. */
int bite_pass_counts_sensible(const bite_pass_counts *counts, uint32_t axial, uint32_t radial);

/** The highest removal rate that this total number of passes allows, m3/s: an upper bound for a
 * mill. */
double bite_pass_counts_most_removal(const bite_search *search, const bite_pass_counts *counts,
                                     uint64_t passes);

/** Lists the sensible numbers of passes from the fewest on, in steps of an eighth above eight. */
void bite_pass_numbers_list(double whole, const char *input, uint32_t fewest,
                            bite_pass_numbers *to);

int bite_pass_numbers_contain(const bite_pass_numbers *in, uint32_t number);

/** Passes in total: the product of both numbers. */
uint64_t bite_pass_counts_total(uint32_t axial, uint32_t radial);

/** All sensible pairs with that product, at most BITE_PASS_PAIRS_MAX. Returns how many. */
uint32_t bite_pass_counts_pairs(const bite_pass_counts *counts, uint64_t product,
                                bite_pass_pair *to);

#endif
