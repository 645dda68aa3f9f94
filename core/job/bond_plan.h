/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bonds and vacuum: the weakest layer, and the loads that the cuts put on it. */
#ifndef BITE_JOB_BOND_PLAN_H
#define BITE_JOB_BOND_PLAN_H

#include "core/job/plan.h"

/** Judges the bond or the vacuum by the forces of every pass: job->hold.utilization, and remarks on
 * what may fail and on through cuts. sticks: 1 for tape or glue, 0 for vacuum. */
void bite_plan_bond(bite_job *job, int sticks);

/** Checks that the vacuum does not pull the thinnest section into the grooves of the plate. */
void bite_plan_vacuum(bite_job *job);

/** Sets the time in which the glue cures, if there is glue. */
void bite_plan_glue(bite_job *job);

/** A remark if tape and glue adhere poorly to the material. */
void bite_plan_adhesion(bite_job *job);

#endif
