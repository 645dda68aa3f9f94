/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One tool tried in the cut that was asked for: what is free, within which margins, and the best
 * settings found so far. */
#ifndef BITE_SEARCH_SEARCH_SPACE_H
#define BITE_SEARCH_SEARCH_SPACE_H

#include "core/search/search_problem.h"
#include <coolbite/coolbite.h>
#include <stdint.h>

/** What was typed for an input. */
const bite_typed_input *bite_problem_typed(const bite_request *request, const char *name);

/** Settles the ask with a tool (NULL: its own) and finds what is free, and within which range.
 * of->spaces is set. */
bite_status bite_problem_init(const bite_request *request, const char *tool, uint32_t goal,
                              double confidence, bite_search_problem *problem, bite_error *error);

/** The same trial, to be settled otherwise. */
void bite_problem_copy(const bite_search_problem *from, bite_search_problem *to);

/** The number of passes and a rough point: with care; in few looks. */
void bite_problem_find_passes(bite_search_problem *problem);
void bite_problem_close_in(bite_search_problem *problem);

/** Of the chance, where nothing less is asked for: rounding and other draws move it a little. */
extern const double bite_chance_budget_default;

/** A metal that presses hard: steels, stainless, titanium. */
int bite_problem_is_hard(const bite_cut *cut);

/** How many passes of one depth or width make the whole; 1 where either is NaN. */
double bite_problem_passes_of(double whole, double one);

/** The cut's depth and width as the parting has them. */
void bite_problem_update_cut(bite_search_problem *problem);

/** Sets both numbers of passes. */
void bite_problem_set_passes(bite_search_problem *problem, uint32_t axial, uint32_t radial);

/** Draws at the point; what was given up does not count. */
bite_status bite_problem_sample(const bite_search_problem *problem, bite_result *result,
                                bite_error *error);

#endif
