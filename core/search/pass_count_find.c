/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How many passes a feature is cut in, by the limits with their margins. */
#include "core/search/pass_count_find.h"
#include "core/search/pass_counts.h"
#include "core/search/pass_pair_search.h"
#include <math.h>

/* The most passes over a depth alone that a shop would wait for. */
#define PASSES_SENSIBLE 24

/* Over the depth alone, the width of a pass being fixed. */
static bite_pass_counts_found find_axial(const bite_search *search, bite_pass_counts *counts)
{
    bite_pass_numbers down;
    bite_point points[BITE_PASS_NUMBERS_MAX];
    uint32_t count = 0;
    uint32_t best = 0;
    bite_pass_numbers_list(counts->depth, "depth", bite_pass_counts_fewest_axial(counts), &down);
    while (count < down.count) {
        bite_pass_counts_set(counts, down.value[count], counts->radial);
        points[count] = bite_speed_feed_find(search, BITE_SEARCH_COARSE);
        best = bite_speed_feed_better(&points[count], &points[best]) ? count : best;
        count++;
        if (points[best].worst <= 1.0 ? search->goal != BITE_GOAL_FAST || count > best + 6
                                      : down.value[count - 1] > PASSES_SENSIBLE) {
            break;
        }
    }
    for (uint32_t i = 0; i < best && points[best].worst > 1.0; i++) {
        best = points[i].worst < bite_pass_nearly_as_good * points[best].worst ? i : best;
    }
    bite_pass_counts_set(counts, down.value[best], counts->radial);
    bite_pass_counts_found found = {points[best], count, 0};
    return found;
}

bite_pass_counts_found bite_pass_counts_find(const bite_search *search, bite_pass_counts *counts)
{
    if (!isnan(counts->width)) {
        return bite_pass_pairs_find(search, counts);
    }
    if (!isnan(counts->depth)) {
        return find_axial(search, counts);
    }
    bite_pass_counts_found found = {bite_speed_feed_find(search, BITE_SEARCH_COARSE), 1, 0};
    return found;
}

bite_pass_counts_found bite_pass_counts_quick(const bite_search *search, bite_pass_counts *counts)
{
    return isnan(counts->width) ? bite_pass_counts_find(search, counts)
                                : bite_pass_pairs_quick(search, counts);
}

bite_pass_counts_found bite_pass_counts_close_in(const bite_search *search,
                                                 bite_pass_counts *counts)
{
    if (!isnan(counts->width) || isnan(counts->depth)) {
        return bite_pass_counts_quick(search, counts);
    }
    uint32_t fails = bite_pass_counts_fewest_axial(counts) - 1;
    bite_pass_counts_found found = bite_pass_pairs_quick(search, counts);
    uint32_t holds = counts->axial;
    while (search->goal != BITE_GOAL_FAST && found.point.worst <= 1.0 && holds - fails > 1) {
        uint32_t middle = fails + (holds - fails) / 2;
        bite_pass_counts_set(counts, middle, counts->radial);
        bite_point point = bite_speed_feed_find(search, BITE_SEARCH_COARSE);
        found.examined++;
        if (point.worst <= 1.0) {
            holds = middle;
            found.point = point;
        } else {
            fails = middle;
        }
    }
    bite_pass_counts_set(counts, holds, counts->radial);
    return found;
}

/* Of the pairs with that product, the one whose worst utilization is lowest in a coarse search. */
static void find_least_loaded(const bite_search *search, bite_pass_counts *counts, uint64_t product,
                              bite_pass_counts *to, double *least)
{
    bite_pass_pair pairs[BITE_PASS_PAIRS_MAX];
    uint32_t count = bite_pass_counts_pairs(counts, product, pairs);
    for (uint32_t i = 0; i < count; i++) {
        bite_pass_counts_set(counts, pairs[i].axial, pairs[i].radial);
        double worst = bite_speed_feed_find(search, BITE_SEARCH_COARSE).worst;
        if (worst < *least) {
            *least = worst;
            to->axial = pairs[i].axial;
            to->radial = pairs[i].radial;
        }
    }
}

int bite_pass_counts_more(const bite_search *search, bite_pass_counts *counts)
{
    if (isnan(counts->width)) {
        uint32_t more = counts->axial + 1 + counts->axial / 4;
        if (!bite_pass_number_is_sensible(counts->depth, "depth", more, 1)) {
            return 0;
        }
        bite_pass_counts_set(counts, more, counts->radial);
        return 1;
    }
    bite_search gentle = *search;
    bite_pass_counts to = *counts;
    uint64_t now = bite_pass_counts_total(counts->axial, counts->radial);
    double least = INFINITY;
    gentle.goal = BITE_GOAL_GENTLE;
    for (uint64_t product = now + 1; product <= now + 1 + now / 4; product++) {
        find_least_loaded(&gentle, counts, product, &to, &least);
    }
    bite_pass_counts_set(counts, to.axial, to.radial);
    return least < INFINITY;
}
