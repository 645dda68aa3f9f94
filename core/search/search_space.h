/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The search space of one tool: the cut, its draws, which settings are free, and within which
 * range. */
#ifndef BITE_SEARCH_SEARCH_SPACE_H
#define BITE_SEARCH_SEARCH_SPACE_H

#include "core/request/request.h"
#include "core/search/estimate_cache.h"
#include "core/uncertainty/drawn_settings.h"
#include <coolbite/coolbite.h>
#include <stdint.h>

/** A number of passes, over the depth or side by side. */
typedef struct bite_pass_count {
    double whole;    /* m, of the feature; NaN: the size of a pass is fixed */
    uint32_t given;  /* the number if it is fixed */
    uint32_t fewest; /* that the tool can cut in */
    double least;    /* m, no pass is smaller unless there are the fewest */
} bite_pass_count;

/** One tool in the requested cut. */
typedef struct bite_search_problem {
    bite_request request;
    bite_cut requested;
    bite_cut full;
    bite_provenance provenance[BITE_INPUTS_MAX];
    bite_spread spreads[BITE_SPREAD_MAX];
    size_t spread_count;
    bite_checked_cut checked;
    bite_draw_set *draws;
    bite_drawn_settings *drawn;
    bite_estimate_cache *estimates;
    bite_limit_rule rule;
    uint32_t goal; /* a bite_goal, not BITE_GOAL_USUAL */
    uint32_t units;
    double spindle[2];      /* least and most, 1/s; equal: fixed */
    double tooth[2];        /* feed per tooth, m; equal: fixed */
    double feed;            /* m/s, fixed; NaN: the feed per tooth is free within its range */
    uint32_t charted_speed; /* 1: the fastest spindle speed is the published one for the edge */
    bite_pass_count down;
    bite_pass_count across;
} bite_search_problem;

/** The value that was given for an input. */
const bite_typed_input *bite_problem_typed(const bite_request *request, const char *name);

/** Resolves the request with a tool (NULL: its own), finds which settings are free, and draws.
 * Whatever it returns, bite_problem_end must follow. */
bite_status bite_problem_init(const bite_request *request, const char *tool,
                              const bite_choice_options *options, bite_search_problem *problem,
                              bite_error *error);
void bite_problem_end(bite_search_problem *problem);

/** Nonzero: a metal with a high cutting pressure: steels, stainless, titanium. */
int bite_problem_is_hard(const bite_cut *cut);

/** The number of passes of one depth or width that make up the whole; 1 if either is NaN. */
double bite_problem_passes_of(double whole, double one);

/** The fewest passes. */
uint32_t bite_pass_count_least(const bite_pass_count *count);

/** Nonzero: the tool can cut in this number, and no pass is thinner than may be entered. */
int bite_pass_count_allows(const bite_pass_count *count, uint32_t number);

/** The settings with these numbers of passes: a free depth rounded up to what is entered, so that
 * the last pass is the thinner one. */
bite_setting bite_problem_setting(const bite_search_problem *problem, uint32_t axial,
                                  uint32_t radial, double spindle, double feed);

#endif
