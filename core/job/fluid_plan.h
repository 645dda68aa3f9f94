/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The fluids of a job, rated for its material and for how its stock was cut. */
#ifndef BITE_JOB_FLUID_PLAN_H
#define BITE_JOB_FLUID_PLAN_H

#include "core/job/plan.h"

/** Rates every fluid that the job names: job->fluids, and remarks on those that may harm. */
bite_status bite_plan_fluids(bite_job *job, bite_error *error);

#endif
