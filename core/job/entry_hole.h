/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The holes by which tools are lowered into features. */
#ifndef BITE_JOB_ENTRY_HOLE_H
#define BITE_JOB_ENTRY_HOLE_H

#include "core/job/plan.h"

/** Finds the hole of every pass that is entered by one: the pass that its key `hole` names, or one
 * at the same positions; otherwise a pass that drills it is added. Called when the tools are known,
 * and before the holes are planned. */
void bite_plan_entry_holes(bite_job *job);

#endif
