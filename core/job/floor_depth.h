/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Depths that follow from the floor that is to remain. */
#ifndef BITE_JOB_FLOOR_DEPTH_H
#define BITE_JOB_FLOOR_DEPTH_H

#include "core/job/plan.h"

/** Whether a pass of this work leaves a floor, so that its depth may follow from it. */
int bite_work_leaves_floor(uint32_t work);

/** Sets the depth of every pass that states its floor alone, from the thickness of the part; where
 * both are stated they must agree, otherwise that is a fault of the file. Called with the passes of
 * the file, before any is divided into stages. */
void bite_plan_floor_depths(bite_job *job);

#endif
