/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pass counts under the chance constraint: the fewest that are clear, or those that remove most. */
#include "core/search/pass_count_search.h"
#include "core/base/error.h"
#include "core/base/memory.h"
#include "core/search/confidence_check.h"
#include "core/search/control_rounding.h"
#include "core/search/least_chance.h"
#include "core/search/pass_count_find.h"
#include "core/search/search_space.h"
#include <math.h>

#define PASSES_SENSIBLE                                                                            \
    24 /* most passes over a depth that a shop would wait for; with passes side by side, four      \
          times as many in total */
#define MORE_PASSES 6
#define NEIGHBOURS 10
#define CLOSE_CHECKS_MAX 3

int bite_pass_counts_too_many(const bite_search_problem *problem)
{
    return isnan(problem->counts.width)
               ? problem->counts.axial >= PASSES_SENSIBLE
               : (uint64_t)problem->counts.axial * problem->counts.radial >= 4 * PASSES_SENSIBLE;
}

/* Time to leave the hole and return for one peck, s (estimate: twice some millimetres at the rapids
 * of a small machine, and the reversals). */
static const double time_of_peck = 0.5;

/* An unused share of the chance budget allows the settings of a coarse search to be raised later:
 * gain of the logarithm of the removal rate per logarithm of the chance (estimate: utilizations
 * rise with the feed to the power of a half or more, and the chance with a high power of them). A
 * quarter of the budget counts as none used. */
static const double gain_of_chance = 0.12;
static const double least_part = 0.25;

/* The value of a hole is its time, pecks included; of other cuts the goal. */
static double value_of(const bite_search_problem *problem, int clear)
{
    const bite_pass_counts *counts = &problem->counts;
    int fast = problem->search.goal == BITE_GOAL_FAST;
    if (fast && problem->full.operation == BITE_DRILL_HOLE && !isnan(counts->depth)) {
        return log(counts->depth / problem->point.feed + time_of_peck * counts->axial);
    }
    double used = fmin(1.0, fmax(least_part, problem->chance / bite_chance_allowed(problem)));
    return problem->point.goal + (fast && clear ? gain_of_chance * log(used) : 0.0);
}

bite_solution_list *bite_solution_list_new(const bite_search_problem *problem, bite_error *error)
{
    bite_solution_list *list = bite_memory_new(&problem->request.allocator, 1, sizeof *list);
    if (list == NULL) {
        bite_error_set(error, BITE_NO_MEMORY, "no memory for a choice");
    }
    return list;
}

void bite_solution_list_free(const bite_search_problem *problem, bite_solution_list *list)
{
    bite_memory_free(&problem->request.allocator, list);
}

bite_solution bite_solution_of(const bite_search_problem *problem, int clear)
{
    bite_solution found = {clear,           problem->chance, value_of(problem, clear),
                           problem->counts, problem->search, problem->point};
    return found;
}

void bite_solution_restore(bite_search_problem *problem, const bite_solution *to)
{
    problem->search = to->search;
    problem->point = to->point;
    problem->chance = to->chance;
    bite_problem_set_passes(problem, to->counts.axial, to->counts.radial);
}

/* More passes must justify the time lost between them: by this gain of the removal rate, or, if
 * nothing is clear, by this reduction of the chance. */
static const double worth = 0.05;
static const double much_less = 0.8;

int bite_solution_better(const bite_solution *a, const bite_solution *b)
{
    if (a->clear != b->clear) {
        return a->clear > b->clear;
    }
    uint64_t passes_a = (uint64_t)a->counts.axial * a->counts.radial;
    uint64_t passes_b = (uint64_t)b->counts.axial * b->counts.radial;
    double more = a->search.goal != BITE_GOAL_FAST || passes_a == passes_b ? 0.0
                  : passes_a > passes_b                                    ? worth
                                                                           : -worth;
    return a->clear ? a->value < b->value - more : a->chance < much_less * b->chance;
}

size_t bite_pass_counts_next(const bite_solution_list *all, const int *tried)
{
    size_t best = all->count;
    for (size_t i = 0; i < all->count; i++) {
        if (!tried[i] &&
            (best == all->count || bite_solution_better(&all->solution[i], &all->solution[best]))) {
            best = i;
        }
    }
    return best;
}

/* The goal that other pass counts must beat. For pecks the goal alone does not decide. */
static double to_beat(const bite_search_problem *problem, const bite_solution *best)
{
    int is_goal = best->clear && problem->full.operation != BITE_DRILL_HOLE;
    return is_goal ? best->value + worth - gain_of_chance * log(least_part) : INFINITY;
}

/* For the goal of removal rate: the first clear pass count may feed very slowly, so more are tried:
 * side by side all of them, over a depth as long as they gain. */
static bite_status solve_more_passes(bite_search_problem *problem, bite_solution_list *all,
                                     bite_error *error)
{
    const bite_search before = problem->search;
    bite_result result;
    size_t best = 0;
    for (int i = 0; i < MORE_PASSES; i++) {
        int clear = 0;
        problem->incumbent_goal = i == 0 ? INFINITY : to_beat(problem, &all->solution[best]);
        bite_status status = bite_chance_solve(problem, 1, &result, &clear, error);
        problem->incumbent_goal = INFINITY;
        if (status != BITE_OK) {
            return status;
        }
        all->solution[all->count++] = bite_solution_of(problem, clear);
        int gains = i == 0 || bite_solution_better(&all->solution[i], &all->solution[best]);
        int loses = !gains && clear && all->solution[best].clear;
        best = gains ? all->count - 1 : best;
        if ((loses && isnan(problem->counts.width)) || bite_pass_counts_too_many(problem)) {
            return BITE_OK;
        }
        problem->search = before;
        if (!bite_pass_counts_more(&problem->search, &problem->counts)) {
            return BITE_OK;
        }
        bite_problem_update_cut(problem);
    }
    return BITE_OK;
}

static int is_listed(const bite_solution_list *all, uint32_t axial, uint32_t radial)
{
    for (size_t i = 0; i < all->count; i++) {
        if (all->solution[i].counts.axial == axial && all->solution[i].counts.radial == radial) {
            return 1;
        }
    }
    return 0;
}

/* A neighbouring pair of pass counts: by a half and by one, more and fewer, in both directions. */
static bite_pass_pair neighbour(const bite_pass_pair *at, size_t index)
{
    static const struct {
        int by_half;
        int down;
        int side;
    } offsets[NEIGHBOURS] = {{1, 1, 0},  {1, 0, 1}, {1, -1, 0}, {1, 0, -1}, {0, 1, 0},
                             {0, -1, 0}, {0, 0, 1}, {0, 0, -1}, {0, 1, -1}, {0, -1, 1}};
    uint32_t half_down = offsets[index].by_half ? 1 + at->axial / 2 : 1;
    uint32_t half_side = offsets[index].by_half ? 1 + at->radial / 2 : 1;
    if (offsets[index].by_half &&
        offsets[index].down + offsets[index].side < 0) { /* undoes a step of half as many again */
        half_down = (at->axial + 1) / 3;
        half_side = (at->radial + 1) / 3;
    }
    bite_pass_pair to = {at->axial + (uint32_t)offsets[index].down * half_down,
                         at->radial + (uint32_t)offsets[index].side * half_side};
    return to;
}

/* Whether this many passes cannot beat the best even at the fastest feed. The width may be NaN for
 * a full slot, and for a hole. */
static int cannot_beat(const bite_search_problem *problem, const bite_search *search,
                       const bite_solution *best, uint64_t passes)
{
    double most = bite_pass_counts_most_removal(search, &problem->counts, passes);
    return problem->full.operation == BITE_MILL &&
           -log(most) > best->point.goal; /* false for NaN */
}

bite_status bite_pass_counts_climb(bite_search_problem *problem, const bite_search *before,
                                   uint64_t fewest, bite_solution_list *all, bite_error *error)
{
    int none[BITE_SOLUTIONS_MAX] = {0};
    size_t best = bite_pass_counts_next(all, none);
    for (size_t index = 0;
         all->solution[best].clear && index < NEIGHBOURS && all->count < BITE_SOLUTIONS_MAX;
         index++) {
        bite_pass_pair at = {all->solution[best].counts.axial, all->solution[best].counts.radial};
        bite_pass_pair to = neighbour(&at, index);
        bite_result result;
        int clear = 0;
        uint64_t passes = (uint64_t)to.axial * to.radial;
        int known =
            is_listed(all, to.axial, to.radial) || passes < fewest || passes < problem->min_passes;
        if (known || !bite_pass_counts_sensible(&problem->counts, to.axial, to.radial) ||
            cannot_beat(problem, before, &all->solution[best], passes)) {
            continue;
        }
        problem->search = *before;
        bite_problem_set_passes(problem, to.axial, to.radial);
        problem->incumbent_goal = to_beat(problem, &all->solution[best]);
        bite_status status = bite_chance_solve(problem, 1, &result, &clear, error);
        problem->incumbent_goal = INFINITY;
        if (status != BITE_OK) {
            return status;
        }
        all->solution[all->count++] = bite_solution_of(problem, clear);
        if (bite_solution_better(&all->solution[all->count - 1], &all->solution[best])) {
            best = all->count - 1;
            index = (size_t)-1; /* start again around the new best */
        }
    }
    return BITE_OK;
}

/* A full-width pass keeps the diameter of the tool as its width. */
void bite_pass_counts_round(bite_search_problem *problem, uint32_t units)
{
    bite_cut *full = &problem->checked.full;
    bite_cut *requested = &problem->checked.requested;
    if (isnan(problem->counts.width)) {
        return;
    }
    full->width = requested->width = fmin(bite_round_depth(full->width, units), full->diameter);
    problem->counts.radial = (uint32_t)bite_problem_passes_of(
        problem->counts.width, full->width); /* wider passes may need fewer of them */
    if (!isnan(problem->counts.depth)) {
        full->depth = requested->depth = bite_round_depth(full->depth, units);
        problem->counts.axial =
            (uint32_t)bite_problem_passes_of(problem->counts.depth, full->depth);
    }
    bite_problem_update_cut(problem);
}

int bite_pass_counts_are_free(const bite_search_problem *problem)
{
    return !isnan(problem->counts.depth) || !isnan(problem->counts.width);
}

/* Checks a coarse solution at its rounded depth and width. No new draws are made if rounding
 * changes nothing and the chance is well below the allowed one. */
static bite_status confirm_rounded(bite_search_problem *problem, uint32_t units, int *clear,
                                   bite_error *error)
{
    bite_result result;
    bite_pass_counts_round(problem, units);
    if (*clear && isnan(problem->counts.width) && problem->chance < bite_chance_allowed(problem)) {
        return BITE_OK;
    }
    return bite_chance_confirm(problem, &result, clear, error);
}

/* Checks coarse solutions, the best first, until one is confirmed as clear; the best if none is. */
static bite_status confirm_best(bite_search_problem *problem, uint32_t units,
                                const bite_solution_list *all, int *clear, bite_error *error)
{
    int tried[BITE_SOLUTIONS_MAX] = {0};
    size_t best = bite_pass_counts_next(all, tried);
    bite_status status = BITE_OK;
    for (int i = 0; i < CLOSE_CHECKS_MAX && status == BITE_OK && !*clear; i++) {
        size_t at = bite_pass_counts_next(all, tried);
        if (at == all->count || (i > 0 && !all->solution[at].clear)) {
            break;
        }
        tried[at] = 1;
        bite_solution_restore(problem, &all->solution[at]);
        *clear = all->solution[at].clear;
        status = confirm_rounded(problem, units, clear, error);
    }
    if (status == BITE_OK && !*clear) {
        bite_solution_restore(problem, &all->solution[best]);
        bite_pass_counts_round(problem, units);
    }
    return status;
}

/* For the goal of removal rate. */
static bite_status solve_fastest(bite_search_problem *problem, uint32_t units, int *clear,
                                 bite_error *error)
{
    const bite_search before = problem->search;
    bite_solution_list *all = bite_solution_list_new(problem, error);
    if (all == NULL) {
        return BITE_NO_MEMORY;
    }
    bite_status status = solve_more_passes(problem, all, error);
    status = status == BITE_OK ? bite_pass_counts_climb(problem, &before, 1, all, error) : status;
    status = status == BITE_OK ? confirm_best(problem, units, all, clear, error) : status;
    bite_solution_list_free(problem, all);
    return status;
}

/* For other goals: more passes until the limits are clear together; if they never are, the pass
 * count with the least chance. */
static bite_status solve_fewest(bite_search_problem *problem, uint32_t units, int *clear,
                                bite_error *error)
{
    const bite_search before = problem->search;
    bite_solution best = bite_solution_of(problem, 0);
    bite_result result;
    best.chance = INFINITY;
    for (int i = 0; i < MORE_PASSES; i++) {
        bite_status status = bite_chance_solve(problem, 1, &result, clear, error);
        if (status == BITE_OK && *clear) {
            status = confirm_rounded(problem, units, clear, error);
        }
        if (status != BITE_OK || *clear) {
            return status;
        }
        bite_solution sampled = bite_solution_of(problem, 0);
        best = i == 0 || bite_solution_better(&sampled, &best) ? sampled : best;
        problem->search = before;
        if (bite_pass_counts_too_many(problem) ||
            !bite_pass_counts_more(&problem->search, &problem->counts)) {
            break;
        }
        bite_problem_update_cut(problem);
    }
    bite_solution_restore(problem, &best);
    bite_pass_counts_round(problem, units);
    return BITE_OK;
}

bite_status bite_pass_counts_solve(bite_search_problem *problem, uint32_t units, int *clear,
                                   bite_error *error)
{
    return problem->search.goal == BITE_GOAL_FAST ? solve_fastest(problem, units, clear, error)
                                                  : solve_fewest(problem, units, clear, error);
}

bite_status bite_pass_counts_least(bite_search_problem *problem, uint32_t units,
                                   bite_result *result, bite_error *error)
{
    const double less = 0.95;
    const bite_search before = problem->search;
    bite_result sampled;
    bite_solution best = bite_solution_of(problem, 0);
    best.chance = INFINITY;
    for (int i = 0, without_gain = 0; i < MORE_PASSES && without_gain < 2; i++) {
        bite_status status = bite_least_chance_least(problem, &sampled, error);
        if (status != BITE_OK) {
            return status;
        }
        problem->chance = bite_least_chance_of(problem, &sampled);
        without_gain = problem->chance < less * best.chance ? 0 : without_gain + 1;
        if (without_gain == 0) {
            best = bite_solution_of(problem, 0);
            *result = sampled;
        }
        if (bite_chance_is_clear(problem, &sampled, bite_chance_allowed(problem)) ||
            !bite_pass_counts_are_free(problem) || bite_pass_counts_too_many(problem) ||
            !bite_pass_counts_more(&problem->search, &problem->counts)) {
            break;
        }
        bite_problem_update_cut(problem);
        bite_pass_counts_round(problem, units);
    }
    bite_solution_restore(problem, &best);
    problem->search = before;
    bite_pass_counts_round(problem, units);
    return BITE_OK;
}
