/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What stands about a part: its neighbours on the blank, and the screws and clamps of the job file.
 */
#ifndef BITE_JOB_OBSTACLES_H
#define BITE_JOB_OBSTACLES_H

#include "core/job/plan.h"
#include "core/job/swept_area.h"

/** Distance from a swept area to the nearest neighbouring part, m; NaN: there is none. */
double bite_neighbour_gap(const bite_job *job, const bite_swept_area *swept);

/* A screw or clamp is a thing by its index in the job file. */

/** Finds the passes before each is there: job->drilled. The positions must be known. */
bite_status bite_plan_obstacles(bite_job *job, bite_error *error);

/** Whether it is there in the setup of a pass. */
int bite_obstacle_is_there(const bite_job *job, size_t index, size_t thing);

/** How high it stands above the top of the stock, m; negative: below it; NaN: not known. */
double bite_obstacle_height(const bite_job *job, size_t index, size_t thing);

/** Distance from a swept area of a pass to its nearest position, m, which is set; NaN: it is not
 * there yet. */
double bite_obstacle_gap(const bite_job *job, size_t index, const bite_swept_area *swept,
                         size_t thing, size_t *nearest);

/** Its name for people, with the position if it has several. */
const char *bite_obstacle_name(bite_job *job, size_t thing, size_t position);

#endif
