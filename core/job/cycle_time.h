/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The cycle time of a job: cutting with acceleration and corners, other moves, tool changes and
 * handling, corrected by the shop's own times. */
#ifndef BITE_JOB_CYCLE_TIME_H
#define BITE_JOB_CYCLE_TIME_H

#include "core/job/plan.h"

/** The cuts side by side, or one below the other, that remove a width or a depth: one or more. What
 * is entered is rounded: a millionth of a step more is none. */
double bite_plan_cuts_of(double whole, double step);

/** Sets the times of the passes and their sums, without pauses. */
bite_status bite_plan_pass_times(bite_job *job, bite_error *error);

/** The whole of job->time, from the passes with their pauses. */
bite_status bite_plan_time(bite_job *job, bite_error *error);

/** The time of a pass on all parts, s, while the plan is made: for its answer, passes and path. */
double bite_plan_pass_seconds(const bite_job *job, size_t index);

/** How long one bond is under load up to the end of a pass, s: the cutting time of this pass and of
 * those before it in its setup, for the parts that the bond holds. Needs the settings of these
 * passes. */
double bite_plan_load_time(const bite_job *job, size_t last);

#endif
