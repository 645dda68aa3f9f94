/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The stock that is left on a wall for its last lap. */
#ifndef BITE_JOB_ALLOWANCE_PLAN_H
#define BITE_JOB_ALLOWANCE_PLAN_H

#include "core/job/plan.h"

/** What the pass before the last lap has to leave on the wall, m, so that the lap removes all that
 * this pass may have done to it; rounded up to what a control takes. tolerance: of the wall; NaN:
 * the default. */
double bite_plan_allowance_after(const bite_answer *before, double tolerance);

/** Whether the last lap with that width forms a chip. */
int bite_plan_lap_cuts(const bite_answer *lap);

/** The next allowance to try where it does not. */
double bite_plan_allowance_more(double allowance);

#endif
