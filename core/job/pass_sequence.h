/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The passes in the order of work. */
#ifndef BITE_JOB_PASS_SEQUENCE_H
#define BITE_JOB_PASS_SEQUENCE_H

#include "core/job/plan.h"

/** Puts job->passes, their sections and job->tools into the order with the fewest tool changes
 * that respects the job file and, where that leaves a choice, common practice. */
bite_status bite_plan_pass_order(bite_job *job, bite_error *error);

/** The tool changes of the passes as they are by now. BITE_NO_MEMORY; BITE_NO_ANSWER: the passes
 * wait for each other. */
bite_status bite_plan_count_changes(const bite_job *job, uint32_t *changes);

#endif
