/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One tool tried in the cut that was asked for: what is free, within which margins, and the best settings found so far. */
#ifndef BITE_SEARCH_SEARCH_SPACE_H
#define BITE_SEARCH_SEARCH_SPACE_H

#include "core/search/speed_feed.h"
#include "core/search/pass_counts.h"
#include "core/search/choice.h"

/** One tool in the cut that was asked for. */
typedef struct bite_trial {
    bite_request request;
    bite_cut requested;
    bite_cut full;
    bite_provenance provenance[BITE_INPUTS_MOST];
    bite_spread spreads[BITE_SPREAD_MOST];
    size_t spread_count;
    bite_checked_cut checked;
    bite_workspace *spaces; /* of the choice, one for each thread of the ask; copies of a trial work in the same */
    bite_search search;
    bite_search begun; /* with the margins that settling began with */
    double confidence;
    double strictness;   /* share of the chance that is left, 1 - confidence, which settings may use up */
    double chance;       /* that something goes over at the last point */
    double least_chance; /* where nothing is clear: hardly more than the least that there is */
    uint32_t clear;      /* 1: apart from what is given up, settled ones are */
    uint32_t reserved;
    size_t draws; /* of a look at the margins */
    bite_parting parting;
    bite_point point;
    uint64_t fewest; /* passes in all: fewer were settled before, and were not clear */
    double beat;     /* a goal that is no better is not led back to what is allowed, which only costs; INFINITY: none */
    double given_up[BITE_LIMIT_COUNT]; /* 0: not; else nothing that is chosen holds it, and so much of its room is put up with */
} bite_trial;

/** What was typed for an input. */
const bite_typed_input *bite_trial_typed(const bite_request *request, const char *name);

/** Settles the ask with a tool (NULL: its own) and finds what is free, and within which range. of->spaces is set. */
bite_status bite_trial_begin(const bite_request *request, const char *tool, uint32_t goal, double confidence, bite_trial *of,
                             bite_error *error);

/** The same trial, to be settled otherwise. */
void bite_trial_copy(const bite_trial *from, bite_trial *to);

/** The number of passes and a rough point: with care; in few looks. */
void bite_trial_find_passes(bite_trial *of);
void bite_trial_close_in(bite_trial *of);

/** Margins, passes and settings until the limits are clear together, as far as they can be. */
bite_status bite_trial_settle(bite_trial *of, uint32_t units, bite_error *error);
/** Once more with more passes than it was settled with. BITE_NO_ANSWER: there are none. */
bite_status bite_trial_settle_more(bite_trial *of, uint32_t units, bite_error *error);
/** Steps on by draws, from settings that are settled. */
bite_status bite_trial_polish(bite_trial *of, bite_error *error);
/** To a point, with margins that it can bear. */
bite_status bite_trial_stand_at(bite_trial *of, const bite_point *point, bite_error *error);
/** Steps back to what is allowed, by its draws as they are by now. */
bite_status bite_trial_be_careful(bite_trial *of, bite_error *error);
/** The same by a coarse look; its answer looks for no change either. */
bite_status bite_trial_settle_quick(bite_trial *of, bite_error *error);

/** The point as a person types it: the better of the rounded neighbours. */
void bite_type_point(bite_trial *of, uint32_t units);
/** A depth or width as it is typed: up, so that the last pass is the thinner one. */
double bite_type_depth(double depth, uint32_t units);
/** Types a number with its unit into an ask. */
bite_status bite_type_number(bite_request *request, const char *input, double number, const char *unit, bite_error *error);
/** Types the settings into the trial's ask. */
bite_status bite_type_in(bite_trial *of, uint32_t units, bite_error *error);

/** The rows that hold the choice back, and what a percent more room for each would give. */
void bite_binding_find(bite_trial *of, bite_choice *choice);

#endif
