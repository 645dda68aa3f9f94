/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every pass of a job: requested, then chosen or judged. */
#ifndef BITE_JOB_PASS_PLAN_H
#define BITE_JOB_PASS_PLAN_H

#include "core/job/plan.h"

/** The request of a pass with its tool, job->tools[pass->tool]: owned, bite_request_free. Errors as
 * those of a request. */
bite_status bite_plan_request(const bite_job *job, size_t index, bite_request **request,
                              bite_error *error);

/** Settings and answer of every pass, on job->threads threads. Passes that cannot be made are
 * reported together: BITE_BAD_FILE. */
bite_status bite_plan_passes(bite_job *job, bite_error *error);

#endif
