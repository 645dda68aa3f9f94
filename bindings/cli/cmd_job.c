/* SPDX-License-Identifier: GPL-3.0-or-later */
/* coolbite job: plan a whole job from its file. */
#include "bindings/cli/cli.h"
#include <stdlib.h>
#include <string.h>

/* Every fault on a line of its own; what comes back as the error is the first of them. */
static void tell_fault(void *user, const bite_error *fault)
{
    size_t *told = user;
    (void)report_error(fault);
    (*told)++;
}

static int show(const struct command_line *line, const bite_job *job, uint32_t format,
                const char *path)
{
    bite_error error = BITE_ERROR_INIT;
    bite_style style = line->style;
    struct command_line to = *line;
    struct text_buffer buffer = {NULL, 0, 0};
    style.format = format;
    to.output = path;
    int status = bite_job_write(job, &style, text_buffer_append, &buffer, &error) == BITE_OK
                     ? output_write(&to, &buffer)
                     : complain_unwritten(&error);
    free(buffer.text);
    return status;
}

static int exit_of_job(const struct command_line *line, const bite_job *job)
{
    static const int by_verdict[] = {EXIT_CLEAR, EXIT_CLEAR, EXIT_TIGHT, EXIT_OVER};
    return line->exit_zero ? EXIT_CLEAR : by_verdict[bite_job_verdict(job)];
}

static int plan(const bite_library *library, const struct command_line *line, bite_job **job)
{
    bite_error error = BITE_ERROR_INIT;
    bite_job_options options = {0};
    size_t told = 0;
    options.struct_size = (uint32_t)sizeof options;
    options.units = line->style.units;
    options.units_given = line->units_given;
    options.threads = (uint32_t)processor_count();
    options.draws = line->draws;
    options.confidence = line->confidence;
    options.windows = line->sheet != NULL || line->style.format == BITE_HTML;
    bite_status status =
        bite_job_open(library, line->words[0], &options, tell_fault, &told, job, &error);
    if (status == BITE_OK) {
        return 0;
    }
    if (told == 0) {
        return report_error(&error);
    }
    if (status != BITE_BAD_FILE) {
        return exit_status_of(status); /* no such file: one line was enough */
    }
    return report_failure(exit_status_of(status), "%zu fault%s in %s; nothing was planned", told,
                          told == 1 ? "" : "s", line->words[0]);
}

int cmd_job(const struct command_line *line)
{
    bite_error error = BITE_ERROR_INIT;
    bite_library *library = NULL;
    bite_job *job = NULL;
    if (line->word_count != 1) {
        return report_usage_error("job takes one file, such as lens.ini; see coolbite job --help");
    }
    const char *ending = line->sheet == NULL ? "" : file_extension(line->sheet);
    if (ending[0] != 0 && strcmp(ending, "html") != 0 && strcmp(ending, "htm") != 0) {
        return report_usage_error("--sheet %.60s: the sheet is a page to print, in a file that "
                                  "ends in .html; print that one to make "
                                  "another of it",
                                  line->sheet);
    }
    if (bite_library_open(NULL, &library, &error) != BITE_OK) {
        return report_error(&error);
    }
    int status = plan(library, line, &job);
    if (status == 0 && line->sheet != NULL) {
        status = show(line, job, BITE_HTML, line->sheet);
    }
    status = status != 0 ? status : show(line, job, line->style.format, line->output);
    /* last: a command that fails keeps and takes out nothing, and may be given again */
    if (status == 0 && line->recorded_time > 0.0 &&
        bite_job_time_add(job, line->recorded_time, &error) != BITE_OK) {
        status = report_error(&error);
    }
    if (status == 0 && line->remove_time && bite_job_time_remove(job, &error) != BITE_OK) {
        status = report_error(&error);
    }
    status = status != 0 ? status : exit_of_job(line, job);
    bite_job_free(job);
    bite_library_close(library);
    return status;
}
