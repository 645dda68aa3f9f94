/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Planning a job from its file, with the options of the command line. */
#include "bindings/cli/cli_job.h"
#include "bindings/cli/error_report.h"
#include "bindings/cli/exit_status.h"
#include "bindings/cli/processor_count.h"

void report_fault(void *user, const bite_error *fault)
{
    size_t *count = user;
    (void)report_error(fault);
    (*count)++;
}

int job_from_options(const bite_library *library, const struct command_line *line, const char *path,
                     uint32_t windows, bite_job **job)
{
    bite_error error = BITE_ERROR_INIT;
    bite_job_options options;
    size_t faults = 0;
    bite_job_options_init(&options);
    options.units = line->style.units;
    options.units_given = line->units_given;
    options.threads = (uint32_t)processor_count();
    options.draws = line->draws;
    options.confidence = line->confidence;
    options.shop = line->shop;
    options.windows = windows;
    bite_status status = bite_job_open(library, path, &options, report_fault, &faults, job, &error);
    if (status == BITE_OK) {
        return 0;
    }
    if (faults == 0) {
        return report_error(&error);
    }
    if (status != BITE_BAD_FILE) {
        return exit_status_of(status); /* the file cannot be read: already reported */
    }
    return report_failure(exit_status_of(status), "%zu fault%s in %s; nothing was planned", faults,
                          faults == 1 ? "" : "s", path);
}
