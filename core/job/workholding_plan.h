/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The workholding of a job: what the job file names, and then whether it holds. */
#ifndef BITE_JOB_WORKHOLDING_PLAN_H
#define BITE_JOB_WORKHOLDING_PLAN_H

#include "core/job/plan.h"

/** The method, its layers and the depth of through cuts below the part; before the passes. */
bite_status bite_plan_workholding(bite_job *job, bite_error *error);

/** Whether the method holds against the forces of the passes, and the steps of mounting and
 * release; after the passes. */
bite_status bite_plan_holding(bite_job *job, bite_error *error);

#endif
