/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The search space of one tool: which settings are free, and within which range. */
#ifndef BITE_SEARCH_SEARCH_SPACE_H
#define BITE_SEARCH_SEARCH_SPACE_H

#include "core/search/search_problem.h"
#include <coolbite/coolbite.h>
#include <stdint.h>

/** The value that was given for an input. */
const bite_typed_input *bite_problem_typed(const bite_request *request, const char *name);

/** Resolves the request with a tool (NULL: its own) and finds which settings are free, and their
 * ranges. problem->spaces must be set before. */
bite_status bite_problem_init(const bite_request *request, const char *tool,
                              const bite_choice_options *options, bite_search_problem *problem,
                              bite_error *error);

/** Copies a problem, to be solved in another way. */
void bite_problem_copy(const bite_search_problem *from, bite_search_problem *to);

/** Finds the number of passes and a rough point: by the full search, or by a quick one. */
void bite_problem_find_passes(bite_search_problem *problem);
void bite_problem_close_in(bite_search_problem *problem);

/** The default share of the chance budget: rounding and other draws move the chance a little. */
extern const double bite_chance_budget_default;

/** Nonzero: a metal with a high cutting pressure: steels, stainless, titanium. */
int bite_problem_is_hard(const bite_cut *cut);

/** The number of passes of one depth or width that make up the whole; 1 if either is NaN. */
double bite_problem_passes_of(double whole, double one);

/** Copies the depth and width of the pass counts into the cut. */
void bite_problem_update_cut(bite_search_problem *problem);

/** Sets both numbers of passes. */
void bite_problem_set_passes(bite_search_problem *problem, uint32_t axial, uint32_t radial);

/** Evaluates the draws at the point; relaxed limits do not count towards the chance. */
bite_status bite_problem_sample(const bite_search_problem *problem, bite_result *result,
                                bite_error *error);

#endif
