/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Spring passes: a finishing lap repeated at the same setting, which takes off what tool and wall
 * gave way to in the lap before. */
#ifndef BITE_JOB_SPRING_PLAN_H
#define BITE_JOB_SPRING_PLAN_H

#include "core/job/plan.h"

/** What an answer of the pass leaves on its wall, m; NaN: it finishes no wall of known error. */
double bite_plan_lap_leaves(const bite_job *job, size_t index, const bite_answer *answer);

/** Whether the pass, with its answer and what its last lap leaves, is worth one more lap. */
int bite_plan_wants_spring(const bite_planned_pass *pass);

/** Whether one more lap, with its answer and what it leaves, is worth its time. */
int bite_plan_spring_gains(const bite_planned_pass *before, const bite_answer *answer,
                           double leaves);

/** Says what the spring passes do, once all passes are planned. */
bite_status bite_plan_springs(bite_job *job, bite_error *error);

#endif
