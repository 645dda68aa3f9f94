/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Checks of a job file beyond its syntax, such as a pass deeper than the part or a tool that does
 * not exist. */
#ifndef BITE_JOB_JOB_FILE_CHECK_H
#define BITE_JOB_JOB_FILE_CHECK_H

#include "core/job/job_file_faults.h"

/** Reports everything in the file that cannot be made. A key that could not be read is a fault
 * already and is not reported again. */
void bite_job_check_sense(bite_job_file_check *check);

#endif
