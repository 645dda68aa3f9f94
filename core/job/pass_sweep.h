/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The area that a pass sweeps, seen from above in its setup, on the part. */
#ifndef BITE_JOB_PASS_SWEEP_H
#define BITE_JOB_PASS_SWEEP_H

#include "core/job/plan.h"
#include "core/job/swept_area.h"

/** The part itself. */
bite_round_area bite_part_area(const bite_job *job);

/** Reads the positions of all passes and obstacles, and finds what the passes sweep: job->places
 * and job->sweeps. */
bite_status bite_plan_places(bite_job *job, bite_error *error);

/** The outline of the boss that a pass goes round, at a position; returns 0 if there is none. */
int bite_pass_boss(const bite_job *job, size_t index, size_t position, bite_round_area *boss);

/** What a pass sweeps at a position of its features; without any, as it goes round the part or, to
 * face it, over the whole blank (position 0 alone). A pocket leaves one boss within it. Returns 0
 * if there is no such position, or it is not known. */
int bite_pass_sweep(const bite_job *job, size_t index, size_t position, bite_swept_area *swept);

#endif
