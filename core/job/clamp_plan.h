/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What holds a part by force or by its own material: jaws, screws, tabs. */
#ifndef BITE_JOB_CLAMP_PLAN_H
#define BITE_JOB_CLAMP_PLAN_H

#include <coolbite/coolbite.h>

/** The same of what clamps: jaws, screws, tabs. */
void bite_plan_clamp(bite_job *job);

#endif
