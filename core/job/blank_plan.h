/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The blanks of a job: the distance between parts, the margin round them, and how many parts are on
 * each blank. */
#ifndef BITE_JOB_BLANK_PLAN_H
#define BITE_JOB_BLANK_PLAN_H

#include "core/job/plan.h"

/** Plans the blanks for the tools that are known so far. Call it again once more are known. */
void bite_plan_blanks(bite_job *job);

/** Adds the remarks on the blanks, once all tools are known. */
void bite_plan_blank_remarks(bite_job *job);

#endif
