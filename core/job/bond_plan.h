/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bonds and vacuum: which layer is weakest, and what the cuts do to it. */
#ifndef BITE_JOB_BOND_PLAN_H
#define BITE_JOB_BOND_PLAN_H

#include "core/job/plan.h"

/** Judges the bond or the vacuum by the forces of every pass: job->hold.utilization, and remarks
 * on what may fail and on through cuts. sticks: it is held by tape or glue, not by vacuum. */
void bite_plan_bond(bite_job *job, int sticks);

/** Whether the vacuum sucks the thinnest section into the grooves of the plate. */
void bite_plan_vacuum(bite_job *job);

/** The time in which the glue cures, if there is glue. */
void bite_plan_glue(bite_job *job);

/** A remark if tape and glue adhere poorly to the material. */
void bite_plan_adhesion(bite_job *job);

#endif
