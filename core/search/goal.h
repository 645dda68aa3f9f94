/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The fastest settings among those that meet the goal. */
#ifndef BITE_SEARCH_GOAL_H
#define BITE_SEARCH_GOAL_H

#include "core/search/search_space.h"
#include "core/search/speed_feed.h"
#include <coolbite/coolbite.h>
#include <stdint.h>

/** The value at which the goal counts as met, whatever the best value is. */
double bite_goal_cap(const bite_search_problem *problem, const bite_result *draws);

/** Makes the search maximize the removal rate while its present goal stays below the cap. */
void bite_goal_set_cap(bite_search *search, double cap);

/** Clear settings: finds faster ones that meet the goal as well, with other pass counts too. */
bite_status bite_goal_fastest(bite_search_problem *problem, uint32_t units, bite_error *error);

/** If nothing is clear: the best by the goal among settings whose chance is hardly higher than that
 * of `draws`, the result of the point. */
bite_status bite_goal_fastest_unclear(bite_search_problem *problem, const bite_result *draws,
                                      bite_error *error);

/** The same by one coarse search. */
bite_status bite_goal_fastest_quick(bite_search_problem *problem, const bite_result *draws,
                                    bite_error *error);

#endif
