/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The time of a job that is not cut: tool changes, zeroing, mounting, cure, release, cleaning; and
 * how much of all of it needs hands. */
#ifndef BITE_JOB_HANDLING_TIME_H
#define BITE_JOB_HANDLING_TIME_H

#include "core/job/plan.h"

/** One tool change, s: as the job file states it, else that of the machine's class. automatic: 1
 * if a changer does it; may be NULL. */
double bite_plan_change_time(const bite_job *job, int *automatic);

/** A figure of the machine that the job names, or of the default one; NaN: not in the table. */
double bite_plan_machine_figure(const bite_job *job, const char *key);

/** Fills the parts of job->time that are not cut, and what follows from all parts. */
void bite_plan_handling_time(bite_job *job);

#endif
