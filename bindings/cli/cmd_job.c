/* SPDX-License-Identifier: GPL-3.0-or-later */
/* coolbite job: plans a whole job from its file. */
#include "bindings/cli/cli_job.h"
#include "bindings/cli/cli_request.h"
#include "bindings/cli/commands.h"
#include "bindings/cli/error_report.h"
#include "bindings/cli/exit_status.h"
#include "bindings/cli/output.h"
#include "bindings/cli/output_format.h"
#include <stdlib.h>
#include <string.h>

static int write_plan(const struct command_line *line, const bite_job *job, uint32_t format,
                      const char *path)
{
    bite_error error = BITE_ERROR_INIT;
    bite_style style = line->style;
    struct text_buffer buffer = {NULL, 0, 0};
    style.format = format;
    int status = bite_job_write(job, &style, text_buffer_append, &buffer, &error) == BITE_OK
                     ? output_write(path, &buffer)
                     : report_write_error(&error);
    free(buffer.text);
    return status;
}

int cmd_job(const struct command_line *line)
{
    bite_error error = BITE_ERROR_INIT;
    bite_library *library = NULL;
    bite_job *job = NULL;
    if (line->argument_count != 1) {
        return report_usage_error(
            "job takes one file, such as lens.ini; coolbite job --help shows the usage");
    }
    const char *extension = line->sheet == NULL ? "" : file_extension(line->sheet);
    if (extension[0] != 0 && strcmp(extension, "html") != 0 && strcmp(extension, "htm") != 0) {
        return report_usage_error("--sheet %.60s: the sheet is an HTML page, so the file name "
                                  "must end in .html; print the page to make a PDF of it",
                                  line->sheet);
    }
    int opened = library_from_options(line, &library);
    if (opened != 0) {
        return opened;
    }
    uint32_t windows = line->sheet != NULL || line->style.format == BITE_HTML;
    int status = job_from_options(library, line, line->arguments[0], windows, &job);
    if (status == 0 && line->sheet != NULL) {
        status = write_plan(line, job, BITE_HTML, line->sheet);
    }
    status = status != 0 ? status : write_plan(line, job, line->style.format, line->output);
    /* last, so that a command that failed has changed no record and can be repeated */
    if (status == 0 && line->recorded_time > 0.0 &&
        bite_job_time_add(job, line->recorded_time, &error) != BITE_OK) {
        status = report_error(&error);
    }
    if (status == 0 && line->remove_time && bite_job_time_remove(job, &error) != BITE_OK) {
        status = report_error(&error);
    }
    if (status == 0) {
        status = exit_status_of_verdict((uint32_t)bite_job_verdict(job), line->exit_zero);
    }
    bite_job_free(job);
    bite_library_close(library);
    return status;
}
