/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The settings with the least chance of exceeding a limit. */
#ifndef BITE_SEARCH_LEAST_CHANCE_H
#define BITE_SEARCH_LEAST_CHANCE_H

#include "core/search/search_space.h"
#include <coolbite/coolbite.h>

/** The figure that is minimized: the chance of exceeding a limit, plus a little of the worst
 * utilization at its 95 % end. Relaxed limits count only beyond what is accepted. */
double bite_least_chance_of(const bite_search_problem *problem, const bite_result *result);

/** The same for a result alone, without relaxed limits. */
double bite_least_chance_of_all(const bite_result *result);

/** Searches around the point for the speed and feed with the least chance; leaves the point there.
 * *result: its draws. */
bite_status bite_least_chance_least(bite_search_problem *problem, bite_result *result,
                                    bite_error *error);

/** Steps from the point to better ones by the goal, as long as the chance is at most `allowed`. The
 * margins only come near the best settings; draws find them. *result: the draws of the point,
 * before and after. */
bite_status bite_least_chance_polish(bite_search_problem *problem, double allowed,
                                     bite_result *result, bite_error *error);

/** Steps from the point until the chance is at most `allowed`, losing as little of the goal as
 * possible. *result: the draws of the point, before and after. */
bite_status bite_least_chance_repair(bite_search_problem *problem, double allowed,
                                     bite_result *result, bite_error *error);

#endif
