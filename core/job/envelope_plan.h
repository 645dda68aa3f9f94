/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The work envelope: whether the blank, the motions of the passes and the stack of fixture, stock
 * and tool fit the machine and its vise. */
#ifndef BITE_JOB_ENVELOPE_PLAN_H
#define BITE_JOB_ENVELOPE_PLAN_H

#include "core/job/plan.h"

/** Finds the job's machine, the usual one if the job names none. */
bite_status bite_plan_machine(bite_job *job, bite_error *error);

/** The sides of the largest blank that the named machine can reach, m; infinite if it is not named,
 * since a machine that is only assumed limits nothing, or if its table states no travels. */
void bite_envelope_blank(const bite_job *job, double *along_x, double *along_y);

/** The size of the work as it lies on the machine, and of the stack; remarks on what does not fit.
 */
bite_status bite_plan_envelope(bite_job *job, bite_error *error);

#endif
