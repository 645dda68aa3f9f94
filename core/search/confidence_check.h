/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Settings that keep all limits together at the confidence, for one number of passes. */
#ifndef BITE_SEARCH_CONFIDENCE_CHECK_H
#define BITE_SEARCH_CONFIDENCE_CHECK_H

#include "core/search/search_space.h"
#include "core/search/speed_feed.h"
#include <coolbite/coolbite.h>

/** The chance of exceeding a limit that the settings may have. */
double bite_chance_allowed(const bite_search_problem *problem);

/** If nothing is clear: the chance that is accepted as hardly more than the least, in exchange for
 * much faster settings. It never turns a tight cut into one that probably exceeds a limit. */
double bite_chance_hardly_more(const bite_search_problem *problem, double least);

/** Nonzero: the chance is below `allowed` and no limit is tight by its utilization alone. */
int bite_chance_is_clear(const bite_search_problem *problem, const bite_result *result,
                         double allowed);

/** Finds the best settings within the margins, and repairs them until the limits are clear
 * together. coarse: a quicker search, for comparing pass counts. *result: the draws of the point.
 * *clear: 1 if they are clear. */
bite_status bite_chance_solve(bite_search_problem *problem, int coarse, bite_result *result,
                              int *clear, bite_error *error);

/** Checks the point of a coarse search by its draws, and repairs it if necessary. */
bite_status bite_chance_confirm(bite_search_problem *problem, bite_result *result, int *clear,
                                bite_error *error);

/** Improves solved settings in small steps, each checked by draws. */
bite_status bite_problem_polish(bite_search_problem *problem, bite_error *error);

/** Moves to a point and sets margins that it keeps. */
bite_status bite_problem_evaluate_at(bite_search_problem *problem, const bite_point *point,
                                     bite_error *error);

/** Steps back until the chance by draws is within the present chance budget. */
bite_status bite_problem_tighten(bite_search_problem *problem, bite_error *error);

#endif
