/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The holder and the shank of a tool, which are wider than the tool, against what rises beside its
 * path: walls, screws and clamps. */
#ifndef BITE_JOB_HOLDER_PLAN_H
#define BITE_JOB_HOLDER_PLAN_H

#include "core/job/plan.h"

/** Finds what holder and shank of every pass come nearest to, and remarks on what they hit. The
 * positions must be known (bite_plan_clearance). */
bite_status bite_plan_holders(bite_job *job, bite_error *error);

#endif
