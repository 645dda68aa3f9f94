/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Checks of the positions in a job file: of features, screws and clamps. */
#ifndef BITE_JOB_PLACE_CHECK_H
#define BITE_JOB_PLACE_CHECK_H

#include "core/job/job_file_faults.h"

/** Positions on the part are within it and as many as their features, and screws and clamps state
 * where they are. */
void bite_job_check_places(bite_job_file_check *check);

#endif
