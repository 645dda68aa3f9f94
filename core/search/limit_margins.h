/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How much room a search leaves to each limit for what nobody knows exactly. */
#ifndef BITE_SEARCH_LIMIT_MARGINS_H
#define BITE_SEARCH_LIMIT_MARGINS_H

#include "core/search/search_problem.h"
#include <coolbite/coolbite.h>

/** What goes in or does not, by sizes alone, needs no margin: over many pairs of passes it would
 * only hide what holds. */
void bite_margins_clear_sizes(bite_search *search);

/** A margin tells how far the 95 % end lies over the best estimate; times > 1 widens all. */
void bite_margins_set(bite_search_problem *problem, const bite_result *result, double times);

/** Margins no wider than a point can bear: what no setting eases would else leave nothing. Returns
 * how much of the limits' room the point then uses. */
double bite_margins_within_reach(const bite_search_problem *problem, bite_search *search,
                                 const bite_result *held);

/** Gives up what sizes, or a depth and width that are not free, make impossible: it is told, and
 * all else is chosen as if it held.
 */
void bite_margins_relax_sizes(bite_search_problem *problem, const bite_result *result);

/** Gives up what is likelier over than not at the point of least chance: it is kept near its least
 * there. Returns how many rows. */
int bite_margins_relax(bite_search_problem *problem, const bite_result *least);

#endif
