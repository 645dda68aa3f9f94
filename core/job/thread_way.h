/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether a thread of a job is tapped or milled, and what to do if its tap does not serve. */
#ifndef BITE_JOB_THREAD_WAY_H
#define BITE_JOB_THREAD_WAY_H

#include "core/job/plan.h"

/** What a pass whose work is `thread` does: BITE_WORK_TAP if the machine can tap the thread or no
 * mill fits it, otherwise BITE_WORK_THREAD_MILL, which is remarked. */
uint32_t bite_plan_thread_way(bite_job *job, const bite_section *section);

/** Remarks the mill and its settings for each tap that does not serve on this machine. */
bite_status bite_plan_thread_ways(bite_job *job, bite_error *error);

#endif
