/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Heat soak: how warm a part becomes over the laps of its passes, and the pauses that it needs. */
#ifndef BITE_JOB_SOAK_PLAN_H
#define BITE_JOB_SOAK_PLAN_H

#include "core/job/plan.h"

/** Sets pass->soak_rise and pass->mean_rise, and recommends pauses where a bond comes near its
 * limit of temperature or the part grows by a share of its tolerance; called after the times. */
bite_status bite_plan_soak(bite_job *job, bite_error *error);

#endif
