/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What do I type in: the best settings for a goal, what holds them back, and the second-best tool.
 */
#ifndef BITE_SEARCH_CHOICE_H
#define BITE_SEARCH_CHOICE_H

#include "core/request/answer.h"

#define BITE_ACTIVE_LIMITS_MAX 4

/** What holds a choice back beside the rows. */
enum { BITE_ACTIVE_TOOTH_FEED = BITE_LIMIT_COUNT, BITE_ACTIVE_GOAL };

/** A row that holds the choice back. */
typedef struct bite_active_limit {
    uint32_t limit; /* a bite_limit_id; BITE_ACTIVE_TOOTH_FEED: the largest feed per tooth that is
                       chosen; BITE_ACTIVE_GOAL */
    uint32_t reserved;
    double gain; /* percent of the goal for one percent more room */
} bite_active_limit;

/** A tool that was considered, at its own best. */
typedef struct bite_candidate {
    char tool[BITE_TYPED_MAX];
    uint32_t clear_of_limits; /* 1: within its limits with their margins */
    uint32_t passes;
    uint32_t side_passes; /* at each depth */
    uint32_t reserved;
    double spindle; /* 1/s */
    double feed;    /* m/s */
    double depth;   /* m */
    double width;   /* m; NaN: the feature has none */
    double goal;    /* as bite_point */
    double enough;  /* of the goal, with which it counts as met; NaN: the less the better */
} bite_candidate;

struct bite_choice {
    bite_allocator allocator;
    bite_answer *answer;
    uint32_t goal;
    uint32_t
        gain; /* the goal that `binding` gains for: BITE_GOAL_FAST once `goal` is as good as met */
    uint32_t tools; /* how many were considered */
    uint32_t clear; /* 1: the joint chance keeps to the confidence */
    uint32_t active_count;
    bite_active_limit
        active[BITE_ACTIVE_LIMITS_MAX]; /* where not clear: the rows that conflict, gain NaN */
    bite_candidate best;
    bite_candidate second; /* tool "": there is none */
};

#endif
