/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A checked cut and what becomes of it: the one way from numbers to rows, for a single pass and for every draw of a band. */
#ifndef BITE_CUT_PASS_H
#define BITE_CUT_PASS_H

#include "core/cut/segment.h"
#include <coolbite/coolbite.h>

/** A cut that has passed its checks. */
typedef struct bite_ready {
    bite_cut requested; /* before defaults: NaN where nothing was given */
    bite_cut full;
} bite_ready;

/** Checks sizes, ranges and what only several inputs tell together; takes the defaults. Errors as bite_cut_pass. */
bite_status bite_ready_make(const bite_cut *cut, bite_ready *ready, bite_error *error);

/** How one of many cuts is judged. */
typedef struct bite_judging {
    bite_kept *straight; /* what each has made; they may be one */
    bite_kept *corner;
    bite_kept *entry;
    const uint8_t *wanted; /* 1 for each row that is, the others come out as not applying; NULL: all are */
} bite_judging;

/** Values of the straight and rows of the straight or the corner, whichever uses more of its room. */
void bite_ready_judge(const bite_ready *ready, const bite_judging *how, bite_stretch *straight, bite_limit limits[BITE_LIMIT_COUNT]);

/** All rows, in a workspace that has begun. */
bite_judging bite_judging_in(bite_workspace *space);

/** As bite_cut_pass, in the caller's memory, which has begun. */
bite_status bite_ready_pass(const bite_cut *cut, const bite_judging *how, bite_result *result, bite_error *error);

/** The tool's first frequency, Hz. A root that takes as long as the whole pass: not of every draw. */
double bite_ready_ring(const bite_cut *full);

/** Everything NaN or 0 but the counts. */
void bite_result_blank(bite_result *result);

#endif
