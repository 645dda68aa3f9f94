/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The work envelope: whether the pieces that are mounted, the motions of the passes and the stack
 * of fixture, stock and tool fit the machine, in every setup with its own hold. */
#ifndef BITE_JOB_ENVELOPE_PLAN_H
#define BITE_JOB_ENVELOPE_PLAN_H

#include "core/job/plan.h"

/** The sides of the largest blank that the machine can reach, m; infinite if neither it is named
 * nor its travels are stated, since a machine that is only assumed limits nothing. */
void bite_envelope_blank(const bite_job *job, double *along_x, double *along_y);

/** The size of the work as it lies on the machine, and of the stack, in every setup; remarks on
 * what does not fit. */
bite_status bite_plan_envelope(bite_job *job, bite_error *error);

#endif
