/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Checks of a job file beyond its syntax, such as a pass deeper than the part or a tool that does
 * not exist. */
#ifndef BITE_JOB_JOB_FILE_CHECK_H
#define BITE_JOB_JOB_FILE_CHECK_H

#include "core/job/job_file.h"

/** The faults found so far; the first is kept. */
typedef struct bite_job_file_check {
    const bite_library *library;
    const bite_job_file *file;
    const char *path;
    bite_ini_fault fault; /* may be NULL */
    void *user;
    bite_error first;
    uint32_t faults;
    bite_status stop; /* BITE_NO_MEMORY: the check could not be finished */
} bite_job_file_check;

/** Counts a fault and reports it; user is the check. A bite_ini_fault. */
void bite_job_check_fault(void *user, const bite_error *fault);

/** A fault of a section or one of its keys; both may be NULL. */
void bite_job_check_complain(bite_job_file_check *check, const bite_section *section,
                             const char *key, const char *hint, const char *message);

/** Reports everything in the file that cannot be made. A key that could not be read is a fault
 * already and is not reported again. */
void bite_job_check_sense(bite_job_file_check *check);

#endif
