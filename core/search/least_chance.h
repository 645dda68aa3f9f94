/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The least chance that something goes over. */
#ifndef BITE_SEARCH_LEAST_CHANCE_H
#define BITE_SEARCH_LEAST_CHANCE_H

#include "core/search/search_space.h"
#include <coolbite/coolbite.h>

/** The chance that something goes over, and a little of how far the likeliest would be: smaller is
 * better. */
double bite_least_chance_of(const bite_search_problem *problem, const bite_result *result);

double bite_least_chance_of_all(const bite_result *result);
/** Looks about the point for the speed and feed whose chance is least; leaves the point there, with
 * its draws. */
bite_status bite_least_chance_least(bite_search_problem *problem, bite_result *result,
                                    bite_error *error);

/** Steps from the point on to what is better by the goal, as long as the chance is no more than
 * allowed: margins come near to the best settings, draws tell them. *result: the draws of the
 * point; left as they are where it stays. */
bite_status bite_least_chance_polish(bite_search_problem *problem, double allowed,
                                     bite_result *result, bite_error *error);

/** Steps from the point until the chance is no more than allowed, by what loses least of the goal.
 * *result: the draws of the point, before and after. */
bite_status bite_least_chance_repair(bite_search_problem *problem, double allowed,
                                     bite_result *result, bite_error *error);

#endif
