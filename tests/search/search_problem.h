/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a search varies, made from words as they are entered. */
#ifndef BITE_TESTS_SEARCH_SEARCH_PROBLEM_H
#define BITE_TESTS_SEARCH_SEARCH_PROBLEM_H

#include "core/search/settings_search.h"
#include "tests/search/search_request.h"

/** The problem of at most `count` inputs, up to the first without a name; goal: a bite_goal, whose
 * speeds may be beyond the published ones; draws: 0: as many as usual. Fails the test if it cannot
 * be made. Owned: search_problem_free. */
bite_search_problem *search_problem_of(uint32_t goal, const search_input *inputs, size_t count,
                                       size_t draws);
void search_problem_free(bite_search_problem *problem);

/** All limits at the confidence, and a goal of at most `level` (INFINITY: any); `beyond`:
 * predictions that are worse are bounds. */
bite_wish search_wish_of(const bite_search_problem *problem, double level, double beyond);

#endif
