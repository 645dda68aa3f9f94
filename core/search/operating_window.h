/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The window: over two inputs, which limits hold.
 *
 * The pass is made at every place of a grid. A place is over where a binding row's use is above 1,
 * tight where use times margin is, clear else. The margin of a row is its 95 % end over its best
 * estimate, from draws at the posts of a coarser grid and straight in its logarithm between them;
 * it minds each row alone, not their joint chance. Advisory rows have lines but settle nothing.
 */
#ifndef BITE_SEARCH_OPERATING_WINDOW_H
#define BITE_SEARCH_OPERATING_WINDOW_H

#include "core/request/answer.h"

#define BITE_POSTS_ACROSS 9
#define BITE_POSTS_UP 7

typedef struct bite_axis {
    const bite_input *input;
    double least; /* SI */
    double most;
    double here; /* of the point in use */
    size_t count;
    uint32_t logarithmic;
    uint32_t reserved;
} bite_axis;

struct bite_window {
    bite_allocator allocator;
    const bite_answer *answer; /* borrowed */
    bite_axis across;
    bite_axis up;
    double tooth_feed;                  /* m, kept while the spindle moves; NaN: it is not */
    uint32_t binds[BITE_LIMIT_COUNT];   /* 1: not advisory */
    uint32_t applies[BITE_LIMIT_COUNT]; /* 1: somewhere in the picture */
    double *margins;                    /* row x posts up x posts across: logarithms, >= 0 */
    double *utilizations;               /* row x up x across; NaN: does not apply there */
};

/** The axis' number at a share of its length, and back. */
double bite_axis_at(const bite_axis *axis, double share);
double bite_axis_share(const bite_axis *axis, double value);

/** The place of the grid that is nearest to the point in use. */
size_t bite_axis_nearest(const bite_axis *axis);

/** Use of a row at a place of the grid. NaN: does not apply there. */
double bite_window_utilization(const bite_window *window, size_t limit, size_t across, size_t up);

/** The margin of a row at a place, >= 1. */
double bite_window_margin(const bite_window *window, size_t limit, size_t across, size_t up);

/** The largest use of binding rows at a place, each times its margin where with_margin; *row:
 * whose. NaN: no answer there. */
double bite_window_worst(const bite_window *window, size_t across, size_t up, int with_margin,
                         uint32_t *limit);

/** BITE_NOT_JUDGED where there is no answer. */
bite_verdict bite_window_verdict(const bite_window *window, size_t across, size_t up);

/** Where along one axis, the other as it is, the point in use may move and all stays clear: as axis
 * numbers, at the point's own place between those of the grid; the point alone where no step of the
 * grid beside it is. 0: the point is not clear. */
int bite_window_clear(const bite_window *window, int along_up, double *least, double *most);

#endif
