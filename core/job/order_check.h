/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Checks of the order that a job file asks for. */
#ifndef BITE_JOB_ORDER_CHECK_H
#define BITE_JOB_ORDER_CHECK_H

#include "core/job/job_file_faults.h"

/** Every name in `after` is another pass, not of a later setup, and no chain of them leads back to
 * its start; the setups are numbered without gaps, and each has passes. */
void bite_job_check_order(bite_job_file_check *check);

#endif
