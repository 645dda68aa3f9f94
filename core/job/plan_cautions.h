/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The cautions of a job: those of its passes, and the dangers of the machine and the fluids. */
#ifndef BITE_JOB_PLAN_CAUTIONS_H
#define BITE_JOB_PLAN_CAUTIONS_H

#include "core/job/plan.h"

/** Adds the cautions of the passes' answers to the remarks, each once, with the numbers of the pass
 * that is most at risk. */
void bite_plan_pass_cautions(bite_job *job);

/** Adds the general dangers: spindle speed, glue, mist, flammable fluids, air and noise. */
void bite_plan_safety(bite_job *job);

#endif
