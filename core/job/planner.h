/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Planning a whole job: runs the steps in their order. */
#ifndef BITE_JOB_PLANNER_H
#define BITE_JOB_PLANNER_H

#include "core/job/plan.h"

/** As bite_job_open, for bytes that errors name by path; bytes NULL: reads the file. */
bite_status bite_job_parse(const bite_library *library, const char *path, const char *bytes,
                           size_t size, const bite_job_options *options, bite_fault_sink fault,
                           void *user, bite_job **job, bite_error *error);

#endif
