/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the plan assumes because the job file does not state it. */
#ifndef BITE_JOB_PLAN_DEFAULTS_H
#define BITE_JOB_PLAN_DEFAULTS_H

#include "core/job/plan.h"

/** Adds a remark that lists the defaults used, if there are any. */
void bite_plan_list_defaults(bite_job *job);

#endif
