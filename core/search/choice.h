/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The best settings for a goal, the limits that restrict them, and the second-best tool. */
#ifndef BITE_SEARCH_CHOICE_H
#define BITE_SEARCH_CHOICE_H

#include "core/request/answer.h"
#include "core/search/request_change.h"

#define BITE_ACTIVE_LIMITS_MAX 4
#define BITE_FREEING_MAX 2

/** A limit that restricts the choice. */
typedef struct bite_active_limit {
    uint32_t limit; /* a bite_limit_id, or one of the restrictions behind BITE_LIMIT_COUNT */
    uint32_t reserved;
    double gain; /* percent of the goal for one percent more capacity */
} bite_active_limit;

/** A tool that was considered, with its own best settings. */
typedef struct bite_candidate {
    char tool[BITE_TYPED_MAX];
    uint32_t clear_of_limits; /* 1: within all limits with their margins */
    uint32_t passes;
    uint32_t side_passes; /* at each depth */
    uint32_t reserved;
    double spindle; /* 1/s */
    double feed;    /* m/s */
    double depth;   /* m */
    double width;   /* m; NaN: the feature has no width */
} bite_candidate;

/** A change with which there are clear settings, verified by a search for them. */
typedef struct bite_freeing_change {
    bite_request_change change;
    double chance; /* of exceeding a limit at these settings */
} bite_freeing_change;

struct bite_choice {
    bite_allocator allocator;
    bite_answer *answer;
    uint32_t goal;
    uint32_t gain; /* the goal of the gains in `active`: BITE_GOAL_FAST once `goal` counts as met */
    uint32_t tools;   /* number of tools that were considered */
    uint32_t clear;   /* 1: the verdict is clear at the confidence */
    uint32_t relaxed; /* number of limits that no settings keep */
    uint32_t active_count;
    bite_active_limit
        active[BITE_ACTIVE_LIMITS_MAX]; /* if not clear: the limits in conflict, gain NaN */
    double excess;                      /* the level at which the goal is met over the stated one */
    double cost; /* the logarithm of the time of the feature, apart from a constant */
    double margins[BITE_LIMIT_COUNT]; /* of each limit, its quantile over its best estimate */
    bite_candidate best;
    bite_candidate second; /* tool "": there is no second one */
    bite_freeing_change
        freeing[BITE_FREEING_MAX]; /* if not clear: the smallest one, and one of words */
};

#endif
