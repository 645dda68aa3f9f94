/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An axis of an operating window: its input, its range and its points. */
#ifndef BITE_SEARCH_WINDOW_AXIS_H
#define BITE_SEARCH_WINDOW_AXIS_H

#include "core/request/answer.h"

/** An axis. */
typedef struct bite_axis {
    const bite_input *input;
    double least; /* SI */
    double most;
    double here; /* SI; the point in use */
    size_t count;
    uint32_t logarithmic;
    uint32_t reserved;
} bite_axis;

/** The number (SI) at a share of the axis, 0 to 1, and back. */
double bite_axis_at(const bite_axis *axis, double share);
double bite_axis_share(const bite_axis *axis, double value);

/** The index of the grid point nearest to the point in use. */
size_t bite_axis_nearest(const bite_axis *axis);

/** An error that names an axis. */
bite_status bite_axis_refuse(bite_error *error, const char *name, bite_status status,
                             const char *what, const char *hint);

/** The axis of an input about the point in use, over a range; NaN: the usual one. Its count is not
 * set. */
bite_status bite_axis_make(const bite_answer *answer, const char *name, double least, double most,
                           bite_axis *axis, bite_error *error);

/** The number of its points: as requested, 0: the fallback; an input that is a whole number has one
 * for each number, whatever was requested. */
size_t bite_axis_points(const bite_axis *axis, size_t requested, size_t fallback);

#endif
