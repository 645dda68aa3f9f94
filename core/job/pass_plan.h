/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every pass of a job: requested, then chosen or judged. */
#ifndef BITE_JOB_PASS_PLAN_H
#define BITE_JOB_PASS_PLAN_H

#include "core/job/plan.h"

/** Settings and answer of every pass, on job->threads threads. Passes that cannot be made are
 * reported together: BITE_BAD_FILE. */
bite_status bite_plan_passes(bite_job *job, bite_error *error);

#endif
