/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The operating window: which limits are kept over a range of two inputs.
 *
 * The pass is evaluated at every point of a grid. A point is over if the utilization of a binding
 * limit is above 1, tight if the utilization times its margin is above 1, otherwise clear. The
 * margin of a limit is the 95 % end of its utilization over the best estimate. It is drawn at the
 * nodes of a coarser grid, and its logarithm is interpolated linearly between them. It covers each
 * limit separately, not their joint chance. Advisory limits have contour lines but do not change
 * the verdict.
 */
#ifndef BITE_SEARCH_OPERATING_WINDOW_H
#define BITE_SEARCH_OPERATING_WINDOW_H

#include "core/request/answer.h"

#define BITE_MARGIN_NODES_ACROSS 9
#define BITE_MARGIN_NODES_UP 7

typedef struct bite_axis {
    const bite_input *input;
    double least; /* SI */
    double most;
    double here; /* SI; the point in use */
    size_t count;
    uint32_t logarithmic;
    uint32_t reserved;
} bite_axis;

struct bite_window {
    bite_allocator allocator;
    const bite_answer *answer; /* borrowed */
    bite_axis across;
    bite_axis up;
    double tooth_feed;                  /* m, fixed as the spindle speed varies; NaN: not fixed */
    uint32_t binds[BITE_LIMIT_COUNT];   /* 1: not advisory */
    uint32_t applies[BITE_LIMIT_COUNT]; /* 1: somewhere in the window */
    double *margins;                    /* limit x nodes up x nodes across: logarithms, >= 0 */
    double *utilizations;               /* limit x up x across; NaN: does not apply there */
};

/** The number (SI) at a share of the axis, 0 to 1, and back. */
double bite_axis_at(const bite_axis *axis, double share);
double bite_axis_share(const bite_axis *axis, double value);

/** The index of the grid point nearest to the point in use. */
size_t bite_axis_nearest(const bite_axis *axis);

/** The utilization of a limit at a grid point. NaN: does not apply there. */
double bite_window_utilization(const bite_window *window, size_t limit, size_t across, size_t up);

/** The margin of a limit at a grid point, >= 1. */
double bite_window_margin(const bite_window *window, size_t limit, size_t across, size_t up);

/** The largest utilization of a binding limit at a grid point, each times its margin if
 * with_margin; *limit: its index. NaN: no answer there. */
double bite_window_worst(const bite_window *window, size_t across, size_t up, int with_margin,
                         uint32_t *limit);

/** BITE_NOT_JUDGED if there is no answer. */
bite_verdict bite_window_verdict(const bite_window *window, size_t across, size_t up);

/** The range over which the point in use may move along one axis, the other fixed, while every
 * limit stays clear: *least to *most in SI, to the step of the grid; both are the point itself if
 * the next grid points are not clear. 0: the point itself is not clear. */
int bite_window_clear(const bite_window *window, int along_up, double *least, double *most);

#endif
