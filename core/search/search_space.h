/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One tool tried in the cut that was asked for: what is free, within which margins, and the best settings found so far. */
#ifndef BITE_SEARCH_SEARCH_SPACE_H
#define BITE_SEARCH_SEARCH_SPACE_H

#include "core/search/speed_feed.h"
#include "core/search/pass_counts.h"
#include "core/search/choice.h"

/** One tool in the cut that was asked for. */
typedef struct bite_search_problem {
    bite_request request;
    bite_cut requested;
    bite_cut full;
    bite_provenance provenance[BITE_INPUTS_MAX];
    bite_spread spreads[BITE_SPREAD_MAX];
    size_t spread_count;
    bite_checked_cut checked;
    bite_workspace *spaces; /* of the choice, one for each thread of the ask; copies of a trial work in the same */
    bite_search search;
    bite_search initial; /* with the margins that settling began with */
    double confidence;
    double chance_budget;   /* share of the chance that is left, 1 - confidence, which settings may use up */
    double chance;       /* that something goes over at the last point */
    double least_chance; /* where nothing is clear: hardly more than the least that there is */
    uint32_t clear;      /* 1: apart from what is given up, settled ones are */
    uint32_t reserved;
    size_t draws; /* of a look at the margins */
    bite_pass_counts counts;
    bite_point point;
    uint64_t min_passes; /* passes in all: fewer were settled before, and were not clear */
    double incumbent_goal;     /* a goal that is no better is not led back to what is allowed, which only costs; INFINITY: none */
    double relaxed[BITE_LIMIT_COUNT]; /* 0: not; else nothing that is chosen holds it, and so much of its room is put up with */
} bite_search_problem;

/** What was typed for an input. */
const bite_typed_input *bite_problem_typed(const bite_request *request, const char *name);

/** Settles the ask with a tool (NULL: its own) and finds what is free, and within which range. of->spaces is set. */
bite_status bite_problem_init(const bite_request *request, const char *tool, uint32_t goal, double confidence, bite_search_problem *problem,
                             bite_error *error);

/** The same trial, to be settled otherwise. */
void bite_problem_copy(const bite_search_problem *from, bite_search_problem *to);

/** The number of passes and a rough point: with care; in few looks. */
void bite_problem_find_passes(bite_search_problem *problem);
void bite_problem_close_in(bite_search_problem *problem);

/** Margins, passes and settings until the limits are clear together, as far as they can be. */
bite_status bite_problem_solve(bite_search_problem *problem, uint32_t units, bite_error *error);
/** Once more with more passes than it was settled with. BITE_NO_ANSWER: there are none. */
bite_status bite_problem_solve_with_more_passes(bite_search_problem *problem, uint32_t units, bite_error *error);
/** Steps on by draws, from settings that are settled. */
bite_status bite_problem_polish(bite_search_problem *problem, bite_error *error);
/** To a point, with margins that it can bear. */
bite_status bite_problem_evaluate_at(bite_search_problem *problem, const bite_point *point, bite_error *error);
/** Steps back to what is allowed, by its draws as they are by now. */
bite_status bite_problem_tighten(bite_search_problem *problem, bite_error *error);
/** The same by a coarse look; its answer looks for no change either. */
bite_status bite_problem_solve_quick(bite_search_problem *problem, bite_error *error);

/** The point as a person types it: the better of the rounded neighbours. */
void bite_round_point(bite_search_problem *problem, uint32_t units);
/** A depth or width as it is typed: up, so that the last pass is the thinner one. */
double bite_round_depth(double depth, uint32_t units);
/** Types a number with its unit into an ask. */
bite_status bite_request_set_typed_number(bite_request *request, const char *input, double number, const char *unit, bite_error *error);
/** Types the settings into the trial's ask. */
bite_status bite_round_into_request(bite_search_problem *problem, uint32_t units, bite_error *error);

/** The rows that hold the choice back, and what a percent more room for each would give. */
void bite_active_limits_find(bite_search_problem *problem, bite_choice *choice);

#endif
