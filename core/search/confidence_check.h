/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Settings whose limits are clear together, for one number of passes. */
#ifndef BITE_SEARCH_CONFIDENCE_CHECK_H
#define BITE_SEARCH_CONFIDENCE_CHECK_H

#include "core/search/search_space.h"
#include "core/search/speed_feed.h"
#include <coolbite/coolbite.h>

/** So much chance settings may use up. */
double bite_chance_allowed(const bite_search_problem *problem);

/** Where nothing is clear: so much chance is hardly more than the least there is, for settings that
 * are much faster. It makes no tight cut one that is likelier over than not. */
double bite_chance_hardly_more(double least, double confidence);

/** A row that warns early keeps a small chance from being a clear cut. */
int bite_chance_is_clear(const bite_search_problem *problem, const bite_result *result,
                         double allowed);

/** The best within margins, and on to where the limits are clear together. Coarse: for one number
 * of passes after the other. *result: the draws of the point. *clear: it is. */
bite_status bite_chance_settle(bite_search_problem *problem, int coarse, bite_result *result,
                               int *clear, bite_error *error);

/** A coarse look's point judged by more draws, and led back where it must be. */
bite_status bite_chance_confirm(bite_search_problem *problem, bite_result *result, int *clear,
                                bite_error *error);

/** Steps on by draws, from settings that are settled. */
bite_status bite_problem_polish(bite_search_problem *problem, bite_error *error);

/** To a point, with margins that it can bear. */
bite_status bite_problem_evaluate_at(bite_search_problem *problem, const bite_point *point,
                                     bite_error *error);

/** Steps back to what is allowed, by its draws as they are by now. */
bite_status bite_problem_tighten(bite_search_problem *problem, bite_error *error);

#endif
