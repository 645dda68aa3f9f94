/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What of the path of a pass has to be entered besides its feed, depth and width. */
#ifndef BITE_JOB_PATH_PLAN_H
#define BITE_JOB_PATH_PLAN_H

#include "core/job/plan.h"

/** Stepover of a pocket over the diameter, once the first slot has opened it (common practice). */
#define BITE_POCKET_STEP 0.4

/** Whether the walls are cut against the feed: on a machine with play in its feed screws, which a
 * climbing cutter takes up by pulling the table. */
int bite_plan_is_conventional(const bite_job *job);

/** Distance between neighbouring laps of a pass, m; NaN: it has one lap. */
double bite_plan_step_over(const bite_planned_pass *pass);

/** The same of one pass, which has its answer; without remarks and allowance. */
void bite_plan_path(bite_job *job, size_t index);

/** Sets steps over the depth, entry and path of every pass, after their settings. */
bite_status bite_plan_paths(bite_job *job, bite_error *error);

#endif
