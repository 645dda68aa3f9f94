/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * One set of draws of a cut's uncertain inputs, over which any number of settings are evaluated.
 *
 * What scatters does not depend on spindle speed, feed rate, depth and width, so the draws are made
 * once and every setting meets the same ones: two settings differ by themselves, not by sampling.
 *
 * The figure of merit of a setting is one number, the quantile: the worst utilization of all
 * binding limits in each draw, at the rank that fewer than the allowed share of the draws exceed.
 * The joint chance is below the allowed one exactly if the quantile is at most 1.
 */
#ifndef BITE_UNCERTAINTY_DRAW_SET_H
#define BITE_UNCERTAINTY_DRAW_SET_H

#include "core/base/memory.h"
#include "core/cut/pass.h"
#include <coolbite/coolbite.h>
#include <stdint.h>

typedef struct bite_draw_set bite_draw_set;

typedef struct bite_setting {
    double spindle; /* 1/s */
    double feed;    /* m/s */
    double depth;   /* m */
    double width;   /* m; NaN: that of the cut */
} bite_setting;

/** Which limits count, and how. */
typedef struct bite_limit_rule {
    double allowed;                    /* chance: fewer draws than this share may exceed a limit */
    double capacity[BITE_LIMIT_COUNT]; /* factor of the capacity, 1 for what it is */
    double relaxed[BITE_LIMIT_COUNT];  /* 0, or: no setting keeps this limit, and this utilization
                                          at the best estimates is accepted */
} bite_limit_rule;

/** What a setting risks, over the draws, and what it yields, at the best estimates. */
typedef struct bite_setting_risk {
    double quantile;
    double chance;  /* of exceeding a limit that counts */
    double removal; /* m3/s; NaN: not known */
    double rise;    /* K, of the surface over the room */
    double error;   /* m, of the wall */
    double marks;   /* m, roughness */
    double soft;    /* K, capacity up to softening; 0: none */
    uint32_t draws; /* that were evaluated */
    uint32_t limit; /* the binding limit with the highest utilization at the best estimates */
} bite_setting_risk;

/** One limit alone. */
typedef struct bite_limit_risk {
    double quantile; /* of its utilization; 0: does not bind */
    double chance;
    double best; /* utilization at the best estimates */
} bite_limit_risk;

/** Draws the inputs. cut: checked; borrowed and later changed neither by the caller nor here. At
 * most `threads` threads evaluate, with the same digits for any number. BITE_BAD_ARGUMENT for a bad
 * spread, BITE_NO_MEMORY. *set: owned, bite_draw_set_free. */
bite_status bite_draw_set_new(const bite_allocator *allocator, const bite_checked_cut *cut,
                              const bite_spread *spreads, size_t count, size_t draws, uint64_t seed,
                              size_t threads, bite_draw_set **set, bite_error *error);
void bite_draw_set_free(bite_draw_set *set);

/** Evaluates settings over the first `draws` draws (at most all). give_up: 1: a setting that
 * exceeds a limit in half of the first few draws is not drawn further; its quantile is then rough.
 */
void bite_draw_set_evaluate(bite_draw_set *set, const bite_limit_rule *rule, size_t draws,
                            int give_up, const bite_setting *settings, size_t count,
                            bite_setting_risk *risks);

/** Each limit alone at one setting, over all draws. */
void bite_draw_set_limits(bite_draw_set *set, const bite_limit_rule *rule,
                          const bite_setting *setting, bite_limit_risk limits[BITE_LIMIT_COUNT]);

#endif
