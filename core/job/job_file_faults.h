/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Faults of a job file: counted, placed and passed on to the caller. */
#ifndef BITE_JOB_JOB_FILE_FAULTS_H
#define BITE_JOB_JOB_FILE_FAULTS_H

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

/** Whether the file states a key of a section. */
int bite_job_check_states(const bite_job_file_check *check, const bite_section *section,
                          const char *key);

/** A fault of a section or one of its keys; both may be NULL. */
void bite_job_check_complain(bite_job_file_check *check, const bite_section *section,
                             const char *key, const char *hint, const char *message);

/** The same with an error that was already made; its place and key are set. Lack of memory ends the
 * check. */
void bite_job_check_error(bite_job_file_check *check, const bite_section *section, const char *key,
                          const char *hint, const bite_error *why);

#endif
