/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What to measure on the finished part. */
#ifndef BITE_JOB_INSPECTION_PLAN_H
#define BITE_JOB_INSPECTION_PLAN_H

#include "core/job/plan.h"

/** Fills job->checks, which has space for BITE_CHECKS_MAX + 4: the checks of the job file, or the
 * default ones if it has none. */
void bite_plan_inspection(bite_job *job);

#endif
