/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A vise: the piece between its jaws, and what passes may meet, the jaws beside the piece and the
 * bed below it. */
#ifndef BITE_JOB_VISE_PLAN_H
#define BITE_JOB_VISE_PLAN_H

#include "core/job/plan.h"

/** The piece between the jaws: the blank if several parts are made from one, otherwise the part.
 * between: the distance between the jaws; along: the length of its faces along them. A part that
 * does not lie flat is gripped by its faces. */
void bite_plan_between_jaws(const bite_job *job, const bite_planned_setup *setup, double *between,
                            double *along);

/** The height of the piece inside the jaws, m. */
double bite_plan_jaw_depth(const bite_job *job, const bite_planned_setup *setup);

/** Remarks on a piece that the vise does not take, on passes that cut into the jaws or the bed, and
 * on what was assumed of the vise. */
void bite_plan_vise(bite_job *job, bite_planned_setup *setup);

#endif
