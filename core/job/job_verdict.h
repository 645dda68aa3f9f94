/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The verdict of a whole job. */
#ifndef BITE_JOB_JOB_VERDICT_H
#define BITE_JOB_JOB_VERDICT_H

#include "core/job/plan.h"

/** Sets job->chance and job->verdict from the passes, the workholding, the stock and the fluids. */
void bite_plan_verdict(bite_job *job);

/** The share of draws in which a limit is exceeded in some pass; NaN: the passes were not all
 * evaluated on the same draws. */
double bite_plan_joint_chance(const bite_job *job);

#endif
