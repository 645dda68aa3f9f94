/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Faults of a job file that only planning reveals. */
#ifndef BITE_JOB_PLAN_FAULTS_H
#define BITE_JOB_PLAN_FAULTS_H

#include "core/job/plan.h"

/** Reports and counts a fault of the file; the first is kept. section may be NULL; why->key names
 * the key within the section. */
void bite_plan_fault(bite_job *job, const bite_section *section, const bite_error *why);

/** BITE_OK, or BITE_BAD_FILE with the first of the faults so far and their count. */
bite_status bite_plan_status(const bite_job *job, bite_error *error);

#endif
