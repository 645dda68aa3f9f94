/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Planning a job from its file, with the options of the command line. */
#ifndef BITE_CLI_CLI_JOB_H
#define BITE_CLI_CLI_JOB_H

#include "bindings/cli/options.h"

/** Reports each fault of a file on a line of its own. user: a size_t that counts them. */
void report_fault(void *user, const bite_error *fault);

/** Plans the job of a file. windows: 1 if a page is to be written. *job: owned. 0, or the exit
 * status after error messages. */
int job_from_options(const bite_library *library, const struct command_line *line, const char *path,
                     uint32_t windows, bite_job **job);

#endif
