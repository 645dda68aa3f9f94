/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The verdict of a whole job. */
#ifndef BITE_JOB_JOB_VERDICT_H
#define BITE_JOB_JOB_VERDICT_H

#include "core/job/plan.h"

/** Sets job->chance and job->verdict from the passes, the workholding, the stock and the fluids. */
void bite_plan_verdict(bite_job *job);

#endif
