/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A trial settled: passes, speed and feed. */
#ifndef BITE_SEARCH_CHANCE_CONSTRAINED_H
#define BITE_SEARCH_CHANCE_CONSTRAINED_H

#include "core/search/search_space.h"
#include <coolbite/coolbite.h>
#include <stdint.h>

/** Margins, passes and settings until the limits are clear together, as far as they can be. */
bite_status bite_problem_solve(bite_search_problem *problem, uint32_t units, bite_error *error);

/** Once more with more passes than it was settled with. BITE_NO_ANSWER: there are none. */
bite_status bite_problem_solve_with_more_passes(bite_search_problem *problem, uint32_t units,
                                                bite_error *error);

/** The same by a coarse look; its answer looks for no change either. */
bite_status bite_problem_solve_quick(bite_search_problem *problem, bite_error *error);

#endif
