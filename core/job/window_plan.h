/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The operating windows that the sheet of a job shows. */
#ifndef BITE_JOB_WINDOW_PLAN_H
#define BITE_JOB_WINDOW_PLAN_H

#include "core/job/plan.h"

/** Makes the windows of the passes that are most likely to exceed a limit, at most
 * BITE_PLANNED_WINDOWS_MAX, one for passes with the same cut. A pass that has no window is left
 * out. BITE_NO_MEMORY is the only failure. */
bite_status bite_plan_windows(bite_job *job, bite_error *error);

/** Frees the windows; the answers that they borrow must still exist. */
void bite_plan_windows_free(bite_job *job);

#endif
