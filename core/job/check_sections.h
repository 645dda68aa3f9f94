/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sections of a job file that state what to inspect. */
#ifndef BITE_JOB_CHECK_SECTIONS_H
#define BITE_JOB_CHECK_SECTIONS_H

#include "core/job/job_file_faults.h"

/** Reports what is wrong with one section [check.NAME]: limits that are stated twice or the wrong
 * way round, and instruments, classes and passes that do not exist. */
void bite_job_check_inspection(bite_job_file_check *check, const bite_section *section);

#endif
