/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Settings that were evaluated by all draws, and the risk of others, predicted from the nearest.
 *
 * A draw (a sharper edge, a stiffer tool) multiplies the utilization of a limit by a factor that
 * hardly changes from one setting to the next: it is the ratio of two evaluations with the same
 * inputs but one. So a setting that was evaluated at the best estimates alone has the draws of its
 * neighbour, each limit multiplied by its own ratios; whether a limit is exceeded is then counted
 * over whole draws as always. Where another one was drawn, the ratios change evenly on the way
 * there. The prediction is exact at a drawn setting, and a search ends only at one.
 *
 * The figure of merit of a setting is one number, the quantile: the worst utilization of all
 * binding limits in each draw, at the rank that fewer than the allowed share of the draws exceed.
 * The joint chance is below the allowed one exactly if the quantile is at most 1.
 */
#ifndef BITE_UNCERTAINTY_DRAWN_SETTINGS_H
#define BITE_UNCERTAINTY_DRAWN_SETTINGS_H

#include "core/uncertainty/draw_set.h"

typedef struct bite_drawn_settings bite_drawn_settings;

/** Which limits count, and how. */
typedef struct bite_limit_rule {
    double allowed;                    /* chance: fewer draws than this share may exceed a limit */
    double capacity[BITE_LIMIT_COUNT]; /* factor of the capacity, 1 for what it is */
    double relaxed[BITE_LIMIT_COUNT];  /* 0, or: no setting keeps this limit, and this utilization
                                          at the best estimates is accepted */
} bite_limit_rule;

typedef struct bite_setting_risk {
    double quantile;
    double exact;    /* the part of it that is exact: of limits that do not scatter */
    double distance; /* in logarithms, from the drawn setting; 0: drawn itself; INFINITY: none is */
} bite_setting_risk;

/** One limit alone. */
typedef struct bite_limit_risk {
    double quantile; /* of its utilization; 0: does not bind */
    double chance;
    double best; /* utilization at the best estimates */
} bite_limit_risk;

/** set: borrowed. *drawn: owned, bite_drawn_settings_free. BITE_NO_MEMORY. */
bite_status bite_drawn_settings_new(const bite_allocator *allocator, bite_draw_set *set,
                                    bite_drawn_settings **drawn, bite_error *error);
void bite_drawn_settings_free(bite_drawn_settings *drawn);

/** Evaluates a setting by the first `draws` draws, at most all, unless it already was.
 * BITE_NO_MEMORY. */
bite_status bite_drawn_settings_add(bite_drawn_settings *drawn, const bite_setting *setting,
                                    const bite_estimate *estimate, size_t draws, bite_error *error);

/** The risk of a setting, predicted from the nearest drawn one. enough: where a bound of the
 * quantile that is quickly computed is higher than this, the quantile is the bound. */
bite_setting_risk bite_drawn_settings_risk(bite_drawn_settings *drawn, const bite_setting *setting,
                                           const bite_estimate *estimate,
                                           const bite_limit_rule *rule, double enough);

/** Each limit alone at one setting, predicted likewise. */
void bite_drawn_settings_limits(bite_drawn_settings *drawn, const bite_setting *setting,
                                const bite_estimate *estimate, const bite_limit_rule *rule,
                                bite_limit_risk limits[BITE_LIMIT_COUNT]);

#endif
