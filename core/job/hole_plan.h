/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Holes of a job: which pass makes the hole that is tapped, reamed or threaded by a mill, and how
 * deep it must be. */
#ifndef BITE_JOB_HOLE_PLAN_H
#define BITE_JOB_HOLE_PLAN_H

#include "core/job/plan.h"

/** Whether such a pass makes a hole or works in one: drill, tap, ream, mill a thread. */
int bite_work_is_hole(uint32_t work);

/** Whether such a pass needs a hole that is there: tap, ream, mill a thread. */
int bite_work_needs_hole(uint32_t work);

/** The thread of a pass; NULL: it has none. */
const bite_item_record *bite_plan_thread_of(const bite_job *job, const bite_section *section);

/** The name of the tool of a pass that names none, because its thread does: "tap m4". NULL: the
 * pass has no thread, or no memory. */
const char *bite_plan_tap_name(bite_job *job, const bite_section *section);

/** The diameter of the thread of a pass, m; NaN: it has none. */
double bite_plan_thread_diameter(const bite_job *job, const bite_section *section);

/** Its pitch, m; NaN: it has none. */
double bite_plan_thread_pitch(const bite_job *job, const bite_section *section);

/** The angle of the point of the drill of a pass, rad. */
double bite_plan_point_angle(const bite_job *job, const bite_planned_pass *pass);

/** The diameter of the hole that a pass drills or bores, m; NaN: not stated. */
double bite_plan_hole_width(const bite_job *job, size_t index);

/** Whether the positions that two passes of one setup state are the same; a part that was turned
 * over in between has others. 1 if one of them states none. */
int bite_plan_same_places(const bite_job *job, size_t first, size_t second);

/** Fills the holes of all passes, once their tools are known; reports holes that are missing, too
 * shallow, or of the wrong size. */
void bite_plan_holes(bite_job *job);

/** Sets the inputs of a tapped or reamed hole, and of a drilled one. */
bite_status bite_plan_hole_request(const bite_job *job, const bite_section *section,
                                   const bite_planned_pass *pass, bite_request *request,
                                   bite_error *error);

#endif
