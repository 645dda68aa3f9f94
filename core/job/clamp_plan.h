/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Clamps: the forces of every pass against jaws, screws and tabs. */
#ifndef BITE_JOB_CLAMP_PLAN_H
#define BITE_JOB_CLAMP_PLAN_H

#include "core/job/plan.h"

/** Judges jaws, screws or tabs by the forces of every pass of a setup, and adds the clamping force
 * to the steps of mounting. */
void bite_plan_clamp(bite_job *job, bite_planned_setup *setup);

#endif
