/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the files of a trial share: what is free (trial.c), margins (margin.c), the least chance (risk.c), one
 * number of passes (chance.c), how many (partings.c), the fastest of what is as good (hasten.c). */
#ifndef BITE_SEARCH_SEARCH_INTERNAL_H
#define BITE_SEARCH_SEARCH_INTERNAL_H

#include "core/search/search_space.h"

/** Of the chance, where nothing less is asked for: rounding and other draws move it a little. */
extern const double bite_strictness_usual;

/** A metal that presses hard: steels, stainless, titanium. */
int bite_trial_is_hard(const bite_cut *cut);
/** How many passes of one depth or width make the whole; 1 where either is NaN. */
double bite_trial_passes_of(double whole, double one);
/** The cut's depth and width as the parting has them. */
void bite_trial_follow(bite_trial *of);
/** Sets both numbers of passes. */
void bite_trial_part(bite_trial *of, uint32_t down, uint32_t side);
/** Draws at the point; what was given up does not count. */
bite_status bite_trial_draw(const bite_trial *of, bite_result *result, bite_error *error);

/** What goes in or does not, by sizes alone, needs no margin: over many pairs of passes it would only hide what holds. */
void bite_margins_none_for_sizes(bite_search *search);
/** A margin tells how far the 95 % end lies over the best estimate; times > 1 widens all. */
void bite_margins_set(bite_trial *of, const bite_result *result, double times);
/** Margins no wider than a point can bear: what no setting eases would else leave nothing. Returns how much of the limits' room the
 * point then uses. */
double bite_margins_within_reach(const bite_trial *of, bite_search *search, const bite_result *held);
/** Gives up what sizes, or a depth and width that are not free, make impossible: it is told, and all else is chosen as if it held.
 */
void bite_margins_give_up_sizes(bite_trial *of, const bite_result *result);
/** Gives up what is likelier over than not at the point of least chance: it is kept near its least there. Returns how many rows. */
int bite_margins_give_up(bite_trial *of, const bite_result *least);

/** The chance that something goes over, and a little of how far the likeliest would be: smaller is better. */
double bite_risk_of(const bite_trial *of, const bite_result *result);
double bite_risk_of_all(const bite_result *result);
/** Looks about the point for the speed and feed whose chance is least; leaves the point there, with its draws. */
bite_status bite_risk_least(bite_trial *of, bite_result *result, bite_error *error);
/** Steps from the point on to what is better by the goal, as long as the chance is no more than allowed: margins come near to the
 * best settings, draws tell them. *result: the draws of the point; left as they are where it stays. */
bite_status bite_risk_polish(bite_trial *of, double allowed, bite_result *result, bite_error *error);
/** Steps from the point until the chance is no more than allowed, by what loses least of the goal. *result: the draws of the point,
 * before and after. */
bite_status bite_risk_repair(bite_trial *of, double allowed, bite_result *result, bite_error *error);

/* ---- chance.c ---- */

/** So much chance settings may use up. */
double bite_chance_allowed(const bite_trial *of);
/** Where nothing is clear: so much chance is hardly more than the least there is, for settings that are much faster. It makes no
 * tight cut one that is likelier over than not. */
double bite_chance_hardly_more(double least, double confidence);
/** A row that warns early keeps a small chance from being a clear cut. */
int bite_chance_is_clear(const bite_trial *of, const bite_result *result, double allowed);
/** The best within margins, and on to where the limits are clear together. Coarse: for one number of passes after the other.
 * *result: the draws of the point. *clear: it is. */
bite_status bite_chance_settle(bite_trial *of, int coarse, bite_result *result, int *clear, bite_error *error);
/** A coarse look's point judged by more draws, and led back where it must be. */
bite_status bite_chance_confirm(bite_trial *of, bite_result *result, int *clear, bite_error *error);

/* ---- partings.c ---- */

#define BITE_SETTLED_MOST 24

/** A parting, with the margins that make its limits clear together; where none is clear, one with little chance. */
typedef struct bite_settled {
    int clear;
    double chance;
    double value; /* as a goal: the less the better */
    bite_parting parting;
    bite_search search;
    bite_point point;
} bite_settled;

/** Those that were settled coarsely. */
typedef struct bite_settled_list {
    size_t count;
    bite_settled of[BITE_SETTLED_MOST];
} bite_settled_list;

bite_settled bite_settled_of(const bite_trial *of, int clear);
void bite_settled_go_to(bite_trial *of, const bite_settled *to);
int bite_settled_better(const bite_settled *a, const bite_settled *b);

/** Nonzero: the depth or the width of a pass is free. */
int bite_partings_are_free(const bite_trial *of);
/** More passes than anyone wants to wait for. */
int bite_partings_too_many(const bite_trial *of);
/** Sets depth and width of a side cut as they are typed: their rounding alone may use up the room. */
void bite_partings_type(bite_trial *of, uint32_t units);
/** The best of those that were not tried yet; their number: all were. */
size_t bite_partings_next(const bite_settled_list *all, const int *tried);
/** On to the better neighbour, as long as there is one. Fewer passes than `fewest` in all are known not to do. */
bite_status bite_partings_climb(bite_trial *of, const bite_search *before, uint64_t fewest, bite_settled_list *all,
                                bite_error *error);
/** From the numbers as they stand to those that are clear; *clear: they are. */
bite_status bite_partings_settle(bite_trial *of, uint32_t units, int *clear, bite_error *error);
/** The least chance over some numbers of passes: more, as long as they help. *result: its draws. */
bite_status bite_partings_least(bite_trial *of, uint32_t units, bite_result *result, bite_error *error);

/* ---- hasten.c ---- */

/** How much of the goal is good enough, whatever the best is. */
double bite_hasten_cap(const bite_trial *of, const bite_result *held);
/** From now on the fastest for which the search's goal comes to no more than the cap. */
void bite_hasten_under(bite_search *search, double cap);
/** Settings that are clear, hastened: with other numbers of passes too. */
bite_status bite_hasten(bite_trial *of, uint32_t units, bite_error *error);
/** Where nothing is clear, the best by the goal of what is hardly likelier to go over than `held`, the draws of the point. */
bite_status bite_hasten_unclear(bite_trial *of, const bite_result *held, bite_error *error);
/** By one coarse look. */
bite_status bite_hasten_quick(bite_trial *of, const bite_result *held, bite_error *error);

#endif
