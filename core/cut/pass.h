/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A checked cut and its evaluation: the only path from inputs to values and limits, used for a
 * single pass and for every draw. */
#ifndef BITE_CUT_PASS_H
#define BITE_CUT_PASS_H

#include "core/cut/segment.h"
#include <coolbite/coolbite.h>

/** A cut that has passed its checks. */
typedef struct bite_checked_cut {
    bite_cut requested; /* before defaults: NaN where nothing was given */
    bite_cut full;
} bite_checked_cut;

/** Checks sizes, ranges and inputs against each other, and fills the defaults. Errors as for
 * bite_cut_pass. */
bite_status bite_checked_cut_init(const bite_cut *cut, bite_checked_cut *checked,
                                  bite_error *error);

/** Options of the evaluation of one of many cuts. */
typedef struct bite_evaluation_options {
    bite_segment_cache *straight; /* one cache for each segment; they may be the same one */
    bite_segment_cache *corner;
    bite_segment_cache *entry;
    const uint8_t
        *wanted; /* 1 for each limit that is evaluated, the others do not apply; NULL: all */
} bite_evaluation_options;

/** Values of the straight segment, and limits of the straight, the corner or the entry move,
 * whichever has the highest utilization. */
void bite_checked_cut_evaluate(const bite_checked_cut *checked,
                               const bite_evaluation_options *options, bite_segment *straight,
                               bite_limit limits[BITE_LIMIT_COUNT]);

/** Options for all limits, with the caches of an initialized workspace. */
bite_evaluation_options bite_evaluation_options_in(bite_workspace *space);

/** As bite_cut_pass, with a workspace of this allocator for the time of the call: for callers that
 * have little left of the stack. BITE_NO_MEMORY. */
bite_status bite_cut_pass_with(const bite_allocator *allocator, const bite_cut *cut,
                               bite_result *result, bite_error *error);

/** As bite_cut_pass, with the caches of the options, which are initialized. */
bite_status bite_checked_cut_pass(const bite_cut *cut, const bite_evaluation_options *options,
                                  bite_result *result, bite_error *error);

/** First natural frequency of the tool, Hz. It takes as long as the whole pass, so it is not
 * computed in every draw. */
double bite_tool_first_frequency(const bite_cut *full);

/** Sets everything to NaN or 0, except the counts. */
void bite_result_init(bite_result *result);

#endif
