/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A pocket in stages: with a large tool, then its corners with a small one, then its wall. */
#ifndef BITE_JOB_STAGE_PLAN_H
#define BITE_JOB_STAGE_PLAN_H

#include "core/job/plan.h"
#include "core/job/tool_plan.h"

/** Passes that a pass of the job file may become. */
#define BITE_STAGES_MOST 4

/** Splits passes into stages where that takes less time, tool changes included, or where the job
 * file asks for it: after their tools were selected. Sets the area that each pass removes. */
bite_status bite_plan_stages(bite_job *job, bite_tool_lists *lists, bite_error *error);

#endif
