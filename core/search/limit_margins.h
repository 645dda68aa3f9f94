/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The margin that a search leaves to each limit for uncertain inputs. */
#ifndef BITE_SEARCH_LIMIT_MARGINS_H
#define BITE_SEARCH_LIMIT_MARGINS_H

#include "core/search/search_problem.h"
#include <coolbite/coolbite.h>

/** Sets the margin of limits by size alone to 1: sizes are certain, and over many pairs of passes a
 * margin would only hide pairs that fit. */
void bite_margins_clear_sizes(bite_search *search);

/** Sets each margin to the 95 % end of the utilization over its best estimate; times > 1 widens all
 * margins. */
void bite_margins_set(bite_search_problem *problem, const bite_result *result, double times);

/** Narrows the margins until the point keeps them: a limit that no setting affects would otherwise
 * leave no settings. Returns the worst utilization of the point with these margins. */
double bite_margins_within_reach(const bite_search_problem *problem, bite_search *search,
                                 const bite_result *held);

/** Relaxes limits that sizes, or a fixed depth and width, make impossible. They are reported, and
 * everything else is chosen as if they were not exceeded. */
void bite_margins_relax_sizes(bite_search_problem *problem, const bite_result *result);

/** Relaxes limits that are probably exceeded even at the point of least chance; they are kept near
 * their lowest utilization. Returns how many. */
int bite_margins_relax(bite_search_problem *problem, const bite_result *least);

#endif
