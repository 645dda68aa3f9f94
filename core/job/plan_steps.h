/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The steps of planning a job, in their order, and what they share. */
#ifndef BITE_JOB_PLAN_STEPS_H
#define BITE_JOB_PLAN_STEPS_H

#include "core/job/plan.h"

/** What clamps, as the word `clamp` of a way of holding says. */
enum { BITE_CLAMP_JAWS, BITE_CLAMP_SCREWS, BITE_CLAMP_TABS, BITE_CLAMP_NONE };

#endif
