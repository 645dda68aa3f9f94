/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A checked cut and what becomes of it: the one way from numbers to rows, for a single pass and for
 * every draw of a band. */
#ifndef BITE_CUT_PASS_H
#define BITE_CUT_PASS_H

#include "core/cut/segment.h"
#include <coolbite/coolbite.h>

/** A cut that has passed its checks. */
typedef struct bite_checked_cut {
    bite_cut requested; /* before defaults: NaN where nothing was given */
    bite_cut full;
} bite_checked_cut;

/** Checks sizes, ranges and what only several inputs tell together; takes the defaults. Errors as
 * bite_cut_pass. */
bite_status bite_checked_cut_init(const bite_cut *cut, bite_checked_cut *checked,
                                  bite_error *error);

/** How one of many cuts is judged. */
typedef struct bite_evaluation_options {
    bite_segment_cache *straight; /* what each has made; they may be one */
    bite_segment_cache *corner;
    bite_segment_cache *entry;
    const uint8_t
        *wanted; /* 1 for each row that is, the others come out as not applying; NULL: all are */
} bite_evaluation_options;

/** Values of the straight and rows of the straight or the corner, whichever uses more of its room.
 */
void bite_checked_cut_evaluate(const bite_checked_cut *checked,
                               const bite_evaluation_options *options, bite_segment *straight,
                               bite_limit limits[BITE_LIMIT_COUNT]);

/** All rows, in a workspace that has begun. */
bite_evaluation_options bite_evaluation_options_in(bite_workspace *space);

/** As bite_cut_pass, in the caller's memory, which has begun. */
bite_status bite_checked_cut_pass(const bite_cut *cut, const bite_evaluation_options *options,
                                  bite_result *result, bite_error *error);

/** The tool's first frequency, Hz. A root that takes as long as the whole pass: not of every draw.
 */
double bite_tool_first_frequency(const bite_cut *full);

/** Everything NaN or 0 but the counts. */
void bite_result_init(bite_result *result);

#endif
