/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The fastest of what is as good by the goal. */
#ifndef BITE_SEARCH_GOAL_H
#define BITE_SEARCH_GOAL_H

#include "core/search/search_space.h"
#include "core/search/speed_feed.h"
#include <coolbite/coolbite.h>
#include <stdint.h>

/** How much of the goal is good enough, whatever the best is. */
double bite_goal_cap(const bite_search_problem *problem, const bite_result *held);

/** From now on the fastest for which the search's goal comes to no more than the cap. */
void bite_goal_set_cap(bite_search *search, double cap);

/** Settings that are clear, hastened: with other numbers of passes too. */
bite_status bite_goal_fastest(bite_search_problem *problem, uint32_t units, bite_error *error);

/** Where nothing is clear, the best by the goal of what is hardly likelier to go over than `held`,
 * the draws of the point. */
bite_status bite_goal_fastest_unclear(bite_search_problem *problem, const bite_result *held,
                                      bite_error *error);

/** By one coarse look. */
bite_status bite_goal_fastest_quick(bite_search_problem *problem, const bite_result *held,
                                    bite_error *error);

#endif
