/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The operating window: which limits are kept over a range of two inputs.
 *
 * The pass is evaluated at every point of a grid. A point is over if the utilization of a binding
 * limit is above 1, tight if the utilization times its margin is above 1, otherwise clear. The
 * margin of a limit is the 95 % end of its utilization over the best estimate. It is drawn at the
 * nodes of a coarser grid, and its logarithm is interpolated linearly between them. It covers each
 * limit separately, not their joint chance. Advisory limits have contour lines but do not change
 * the verdict. A limit that is the same all over the window, such as the reach of the tool in a
 * window of speed and feed, is fixed: a picture lists it, because no place in it is better.
 */
#ifndef BITE_SEARCH_OPERATING_WINDOW_H
#define BITE_SEARCH_OPERATING_WINDOW_H

#include "core/request/answer.h"
#include "core/search/window_axis.h"

#define BITE_MARGIN_NODES_ACROSS 9
#define BITE_MARGIN_NODES_UP 7

/** A range along one axis, the other at the point in use. */
typedef struct bite_clear_range {
    double least; /* SI; the point in use itself if no other place is clear */
    double most;
    uint32_t clear; /* 0: not even the point in use is clear */
    uint32_t reserved;
} bite_clear_range;

struct bite_window {
    bite_allocator allocator;
    const bite_answer *answer; /* borrowed */
    bite_watch *watch;         /* of the call that makes it; NULL afterwards */
    bite_axis across;
    bite_axis up;
    double tooth_feed;                  /* m, fixed as the spindle speed varies; NaN: not fixed */
    uint32_t binds[BITE_LIMIT_COUNT];   /* 1: not advisory */
    uint32_t applies[BITE_LIMIT_COUNT]; /* 1: somewhere in the window */
    uint32_t fixed[BITE_LIMIT_COUNT];   /* 1: applies, and neither axis changes its utilization */
    bite_clear_range ranges[2];         /* along across, along up */
    double *margins;                    /* limit x nodes up x nodes across: logarithms, >= 0 */
    double *scatter;                    /* the same: standard deviation of the logarithm */
    double *utilizations;               /* limit x up x across; NaN: does not apply there */
};

/** The utilization of a limit at a grid point. NaN: does not apply there. */
double bite_window_utilization(const bite_window *window, size_t limit, size_t across, size_t up);

/** The margin of a limit at a grid point, >= 1. */
double bite_window_margin(const bite_window *window, size_t limit, size_t across, size_t up);

/** The chance that a limit is exceeded at a grid point, on its own: its utilization is taken to
 * scatter lognormally about the best estimate, as widely as gives the chance that was drawn at the
 * nodes. It is on the side of 5 % that the verdict says. NaN: does not apply there, or nothing was
 * drawn. */
double bite_window_chance(const bite_window *window, size_t limit, size_t across, size_t up);

/** Which limits count, and how. */
enum {
    BITE_WINDOW_MARGIN = 1, /* utilizations times their margins */
    BITE_WINDOW_MOVING = 2  /* only limits that an axis changes */
};

/** The largest utilization of a binding limit at a grid point; flags: a sum of the above; *limit:
 * its index. NaN: no answer there. */
double bite_window_worst(const bite_window *window, size_t across, size_t up, unsigned flags,
                         uint32_t *limit);

/** The verdict at a grid point; flags: 0 or BITE_WINDOW_MOVING. BITE_NOT_JUDGED if there is no
 * answer. */
bite_verdict bite_window_verdict(const bite_window *window, size_t across, size_t up,
                                 unsigned flags);

/** The verdict of a fixed limit, by its utilization and margin. */
bite_verdict bite_window_fixed_verdict(const bite_window *window, size_t limit);

/** The range over which the point in use may move along one axis, the other fixed, while every
 * limit that is not fixed stays clear: *least to *most in SI, to the step of the grid; both are the
 * point itself if the next grid points are not clear. 0: the point itself is not clear. */
int bite_window_clear(const bite_window *window, int along_up, double *least, double *most);

#endif
