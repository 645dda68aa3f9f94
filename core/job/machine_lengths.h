/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The machine of a job: its record, and its lengths as the job states them or its table. */
#ifndef BITE_JOB_MACHINE_LENGTHS_H
#define BITE_JOB_MACHINE_LENGTHS_H

#include "core/job/plan.h"
#include "core/job/remarks.h"

/** A length of the machine. */
typedef struct bite_machine_length {
    double value;       /* m; NaN: not known */
    double low;         /* the low end of its band: what a small machine of the class has */
    const char *source; /* "" if the job states it */
    uint32_t binding;   /* 1: the job states it or names the machine; 0: it is only assumed */
} bite_machine_length;

/** Finds the job's machine, the usual one if the job names none, and its travels. */
bite_status bite_plan_machine(bite_job *job, bite_error *error);

/** A length by its key, which is the same in [machine] of a job and in the table of machines. */
bite_machine_length bite_plan_machine_length(const bite_job *job, const char *key);

/** The name of the machine for people. */
const char *bite_plan_machine_name(const bite_job *job);

/** What the work needs against a length of the machine: 2: beyond it; 1: beyond its low end; 0. */
int bite_plan_machine_excess(const bite_job *job, const char *key, double needed);

/** Remarks that the work needs more than the machine has; a machine that is named or stated is then
 * too small for it, one that is only assumed is a question. */
void bite_plan_machine_beyond(bite_job *job, bite_remark_id id, const char *what, double needed,
                              const char *key, int excess);

#endif
