/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Reading a job file.
 *
 * All faults of the file are reported together: errors of syntax (unknown keys, bad quantities) and
 * values that cannot be made (a pass deeper than the part, a tool that does not exist). The reader
 * chooses nothing.
 */
#ifndef BITE_JOB_JOB_FILE_READER_H
#define BITE_JOB_JOB_FILE_READER_H

#include "core/job/job_file.h"

/** Reads a file, or bytes (bytes NULL: the file). Faults go to `fault`; error has the first and
 * their count. BITE_BAD_FILE: there were faults, and *file is empty. file->table is owned:
 * bite_job_file_free. */
bite_status bite_job_file_open(const bite_library *library, const char *path, const char *bytes,
                               size_t size, bite_ini_fault fault, void *user, bite_job_file *file,
                               bite_error *error);
void bite_job_file_free(bite_job_file *file);

#endif
