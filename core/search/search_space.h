/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One tool tried in the cut that was asked for: what is free, within which margins, and the best
 * settings found so far. */
#ifndef BITE_SEARCH_SEARCH_SPACE_H
#define BITE_SEARCH_SEARCH_SPACE_H

#include "core/search/choice.h"
#include "core/search/pass_counts.h"
#include "core/search/speed_feed.h"
#include <coolbite/coolbite.h>
#include <stdint.h>

/** One tool in the cut that was asked for. */
typedef struct bite_search_problem {
    bite_request request;
    bite_cut requested;
    bite_cut full;
    bite_provenance provenance[BITE_INPUTS_MAX];
    bite_spread spreads[BITE_SPREAD_MAX];
    size_t spread_count;
    bite_checked_cut checked;
    bite_workspace *spaces; /* of the choice, one for each thread of the ask; copies of a trial work
                               in the same */
    bite_search search;
    bite_search initial; /* with the margins that settling began with */
    double confidence;
    double chance_budget; /* share of the chance that is left, 1 - confidence, which settings may
                             use up */
    double chance;        /* that something goes over at the last point */
    double least_chance;  /* where nothing is clear: hardly more than the least that there is */
    uint32_t clear;       /* 1: apart from what is given up, settled ones are */
    uint32_t reserved;
    size_t draws; /* of a look at the margins */
    bite_pass_counts counts;
    bite_point point;
    uint64_t min_passes;   /* passes in all: fewer were settled before, and were not clear */
    double incumbent_goal; /* a goal that is no better is not led back to what is allowed, which
                              only costs; INFINITY: none */
    double relaxed[BITE_LIMIT_COUNT]; /* 0: not; else nothing that is chosen holds it, and so much
                                         of its room is put up with */
} bite_search_problem;

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
