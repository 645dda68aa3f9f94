/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The workholding of a job: the method that the job file names, and whether it withstands the
 * forces of the passes. */
#ifndef BITE_JOB_WORKHOLDING_PLAN_H
#define BITE_JOB_WORKHOLDING_PLAN_H

#include "core/job/plan.h"

/** Plans the method of every setup, its layers and the depth of through cuts below the part; called
 * before the passes. */
bite_status bite_plan_workholding(bite_job *job, bite_error *error);

/** Judges the method of every setup by the forces of the passes, and plans the steps of mounting
 * and release; called after the passes. */
bite_status bite_plan_holding(bite_job *job, bite_error *error);

/** Whether the part is clamped, screwed or tabbed at its edges only, and so not supported
 * underneath. */
int bite_plan_is_clamped(const bite_planned_setup *setup);

#endif
