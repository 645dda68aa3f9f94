/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Spring passes: a finishing lap repeated at the same setting, which takes off what tool and wall
 * gave way to in the lap before. */
#ifndef BITE_JOB_SPRING_PLAN_H
#define BITE_JOB_SPRING_PLAN_H

#include "core/job/plan.h"

/** Plans spring passes for every finishing pass whose tool and wall give way by more than a share
 * of the tolerance: pass->springs and pass->spring_leaves. Called after the passes. */
bite_status bite_plan_springs(bite_job *job, bite_error *error);

#endif
