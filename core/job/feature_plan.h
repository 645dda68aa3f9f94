/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The features of a part as passes: the work, depth and width of each. */
#ifndef BITE_JOB_FEATURE_PLAN_H
#define BITE_JOB_FEATURE_PLAN_H

#include "core/job/plan.h"

/** Makes the passes that the job file names, or the default ones, and a tool for each. */
bite_status bite_plan_features(bite_job *job, bite_error *error);

#endif
