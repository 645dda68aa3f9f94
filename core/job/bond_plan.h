/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bonds and vacuum: the weakest layer, and the loads that the cuts put on it. */
#ifndef BITE_JOB_BOND_PLAN_H
#define BITE_JOB_BOND_PLAN_H

#include "core/job/plan.h"

/** Bonded area under a pass: one part if the pass cuts it free; before that, all
 * parts with their sheet. */
void bite_plan_bonded_area(const bite_job *job, const bite_planned_pass *pass, double *along,
                           double *across);

/** Finds the pass of a setup with the highest utilization of the bond or the vacuum.
 * Adds remarks on what may fail and on through cuts. */
void bite_plan_bond(bite_job *job, bite_planned_setup *setup);

/** Checks that the vacuum does not pull the thinnest section into the grooves of the plate. */
void bite_plan_vacuum(bite_job *job, bite_planned_setup *setup);

/** Sets the time in which the glue cures, if there is glue. */
void bite_plan_glue(bite_job *job, bite_planned_setup *setup);

/** A remark if tape and glue adhere poorly to the material. */
void bite_plan_adhesion(bite_job *job, bite_planned_setup *setup);

#endif
