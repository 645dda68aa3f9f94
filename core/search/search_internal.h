/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the files of a trial share: what is free (trial.c), margins (margin.c), the least chance (risk.c), one
 * number of passes (chance.c), how many (partings.c), the fastest of what is as good (hasten.c). */
#ifndef BITE_SEARCH_SEARCH_INTERNAL_H
#define BITE_SEARCH_SEARCH_INTERNAL_H

#include "core/search/search_space.h"

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
bite_status bite_problem_sample(const bite_search_problem *problem, bite_result *result, bite_error *error);

/** What goes in or does not, by sizes alone, needs no margin: over many pairs of passes it would only hide what holds. */
void bite_margins_clear_sizes(bite_search *search);
/** A margin tells how far the 95 % end lies over the best estimate; times > 1 widens all. */
void bite_margins_set(bite_search_problem *problem, const bite_result *result, double times);
/** Margins no wider than a point can bear: what no setting eases would else leave nothing. Returns how much of the limits' room the
 * point then uses. */
double bite_margins_within_reach(const bite_search_problem *problem, bite_search *search, const bite_result *held);
/** Gives up what sizes, or a depth and width that are not free, make impossible: it is told, and all else is chosen as if it held.
 */
void bite_margins_relax_sizes(bite_search_problem *problem, const bite_result *result);
/** Gives up what is likelier over than not at the point of least chance: it is kept near its least there. Returns how many rows. */
int bite_margins_relax(bite_search_problem *problem, const bite_result *least);

/** The chance that something goes over, and a little of how far the likeliest would be: smaller is better. */
double bite_least_chance_of(const bite_search_problem *problem, const bite_result *result);
double bite_least_chance_of_all(const bite_result *result);
/** Looks about the point for the speed and feed whose chance is least; leaves the point there, with its draws. */
bite_status bite_least_chance_least(bite_search_problem *problem, bite_result *result, bite_error *error);
/** Steps from the point on to what is better by the goal, as long as the chance is no more than allowed: margins come near to the
 * best settings, draws tell them. *result: the draws of the point; left as they are where it stays. */
bite_status bite_least_chance_polish(bite_search_problem *problem, double allowed, bite_result *result, bite_error *error);
/** Steps from the point until the chance is no more than allowed, by what loses least of the goal. *result: the draws of the point,
 * before and after. */
bite_status bite_least_chance_repair(bite_search_problem *problem, double allowed, bite_result *result, bite_error *error);

/* ---- chance.c ---- */

/** So much chance settings may use up. */
double bite_chance_allowed(const bite_search_problem *problem);
/** Where nothing is clear: so much chance is hardly more than the least there is, for settings that are much faster. It makes no
 * tight cut one that is likelier over than not. */
double bite_chance_hardly_more(double least, double confidence);
/** A row that warns early keeps a small chance from being a clear cut. */
int bite_chance_is_clear(const bite_search_problem *problem, const bite_result *result, double allowed);
/** The best within margins, and on to where the limits are clear together. Coarse: for one number of passes after the other.
 * *result: the draws of the point. *clear: it is. */
bite_status bite_chance_settle(bite_search_problem *problem, int coarse, bite_result *result, int *clear, bite_error *error);
/** A coarse look's point judged by more draws, and led back where it must be. */
bite_status bite_chance_confirm(bite_search_problem *problem, bite_result *result, int *clear, bite_error *error);

/* ---- partings.c ---- */

#define BITE_SOLUTIONS_MAX 24

/** A parting, with the margins that make its limits clear together; where none is clear, one with little chance. */
typedef struct bite_solution {
    int clear;
    double chance;
    double value; /* as a goal: the less the better */
    bite_pass_counts counts;
    bite_search search;
    bite_point point;
} bite_solution;

/** Those that were settled coarsely. */
typedef struct bite_solution_list {
    size_t count;
    bite_solution solution[BITE_SOLUTIONS_MAX];
} bite_solution_list;

bite_solution bite_solution_of(const bite_search_problem *problem, int clear);
void bite_solution_restore(bite_search_problem *problem, const bite_solution *to);
int bite_solution_better(const bite_solution *a, const bite_solution *b);

/** Nonzero: the depth or the width of a pass is free. */
int bite_pass_counts_are_free(const bite_search_problem *problem);
/** More passes than anyone wants to wait for. */
int bite_pass_counts_too_many(const bite_search_problem *problem);
/** Sets depth and width of a side cut as they are typed: their rounding alone may use up the room. */
void bite_pass_counts_round(bite_search_problem *problem, uint32_t units);
/** The best of those that were not tried yet; their number: all were. */
size_t bite_pass_counts_next(const bite_solution_list *all, const int *tried);
/** On to the better neighbour, as long as there is one. Fewer passes than `fewest` in all are known not to do. */
bite_status bite_pass_counts_climb(bite_search_problem *problem, const bite_search *before, uint64_t fewest, bite_solution_list *all,
                                bite_error *error);
/** From the numbers as they stand to those that are clear; *clear: they are. */
bite_status bite_pass_counts_solve(bite_search_problem *problem, uint32_t units, int *clear, bite_error *error);
/** The least chance over some numbers of passes: more, as long as they help. *result: its draws. */
bite_status bite_pass_counts_least(bite_search_problem *problem, uint32_t units, bite_result *result, bite_error *error);

/* ---- hasten.c ---- */

/** How much of the goal is good enough, whatever the best is. */
double bite_goal_cap(const bite_search_problem *problem, const bite_result *held);
/** From now on the fastest for which the search's goal comes to no more than the cap. */
void bite_goal_set_cap(bite_search *search, double cap);
/** Settings that are clear, hastened: with other numbers of passes too. */
bite_status bite_goal_fastest(bite_search_problem *problem, uint32_t units, bite_error *error);
/** Where nothing is clear, the best by the goal of what is hardly likelier to go over than `held`, the draws of the point. */
bite_status bite_goal_fastest_unclear(bite_search_problem *problem, const bite_result *held, bite_error *error);
/** By one coarse look. */
bite_status bite_goal_fastest_quick(bite_search_problem *problem, const bite_result *held, bite_error *error);

#endif
