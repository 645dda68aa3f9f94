/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The depths of a pass as they are entered: their sum is the depth of the feature, never more. */
#ifndef BITE_REPORT_JOB_PASS_DEPTHS_H
#define BITE_REPORT_JOB_PASS_DEPTHS_H

#include "core/job/plan.h"

/** count - 1 cuts of `each`, and a last one of `last`; lengths in m, whole steps of a control. */
typedef struct bite_pass_depths {
    double count;
    double each;
    double last;
    double whole; /* of the feature, rounded down to a step of a control */
} bite_pass_depths;

/** The depths of a pass of at most `each`, rounded down to what a control takes; what is left is
 * the last one. What rounding left of all of them, less than a step of a control for each, is added
 * to the last. */
bite_pass_depths bite_pass_depths_of(double feature, double each, bite_units units);

/** The same for the steps of a planned pass. */
bite_pass_depths bite_pass_depths_of_pass(const bite_planned_pass *pass, bite_units units);

/** Writes "0.5 mm", "3 x 0.5 mm" or "4 x 0.33 + 0.28 mm", "0.5 + 0.4 mm"; `times` stands for the x.
 */
void bite_pass_depths_write(const bite_pass_depths *depths, bite_units units, const char *times,
                            char *to, size_t size);

#endif
