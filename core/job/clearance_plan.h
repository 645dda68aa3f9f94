/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What every pass sweeps, against neighbouring parts, screws, clamps and tabs. */
#ifndef BITE_JOB_CLEARANCE_PLAN_H
#define BITE_JOB_CLEARANCE_PLAN_H

#include "core/job/plan.h"

/** Finds the nearest thing to each pass whose position is known, and reports what it meets. What
 * cannot be checked is said. */
bite_status bite_plan_clearance(bite_job *job, bite_error *error);

#endif
