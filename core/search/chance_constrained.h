/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The search problem of one tool solved: passes, speed and feed under the chance constraint. */
#ifndef BITE_SEARCH_CHANCE_CONSTRAINED_H
#define BITE_SEARCH_CHANCE_CONSTRAINED_H

#include "core/search/search_space.h"
#include <coolbite/coolbite.h>
#include <stdint.h>

/** Finds passes and settings that keep all limits together at the confidence, if there are any. */
bite_status bite_problem_solve(bite_search_problem *problem, uint32_t units, bite_error *error);

/** Makes the settings of least chance faster, at hardly more than that chance, which all draws have
 * shown not to be clear. BITE_NO_ANSWER: they are clear, or were made faster before. */
bite_status bite_problem_hasten_unclear(bite_search_problem *problem, bite_error *error);

/** Solves again with more passes than before. BITE_NO_ANSWER: more passes are not possible. */
bite_status bite_problem_solve_with_more_passes(bite_search_problem *problem, uint32_t units,
                                                bite_error *error);

/** The same by a coarse search; the answer will not search for a single change either. */
bite_status bite_problem_solve_quick(bite_search_problem *problem, bite_error *error);

#endif
