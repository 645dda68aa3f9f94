/* SPDX-License-Identifier: GPL-3.0-or-later */
/* coolbite choose: finds the settings to enter at the machine. */
#include "bindings/cli/cli_request.h"
#include "bindings/cli/commands.h"
#include "bindings/cli/error_report.h"
#include "bindings/cli/exit_status.h"
#include "bindings/cli/output.h"
#include <stdlib.h>

/* Judges the given settings, which caused a symptom, and finds the change that helps. */
static int diagnose(const bite_library *library, const struct command_line *line)
{
    bite_error error = BITE_ERROR_INIT;
    bite_answer *answer = NULL;
    bite_diagnosis *diagnosis = NULL;
    struct text_buffer buffer = {NULL, 0, 0};
    int status = answer_from_options(library, line, line->input_count, &answer);
    if (status == 0 && bite_diagnosis_new(answer, line->symptom, &diagnosis, &error) != BITE_OK) {
        status = report_error(&error);
    }
    if (status == 0) {
        status = bite_diagnosis_write(diagnosis, &line->style, text_buffer_append, &buffer,
                                      &error) == BITE_OK
                     ? output_write(line->output, &buffer)
                     : report_write_error(&error);
    }
    if (status == 0) {
        status = exit_status_of_verdict(bite_answer_result(answer)->verdict, line->exit_zero);
    }
    free(buffer.text);
    bite_diagnosis_free(diagnosis);
    bite_answer_free(answer);
    return status;
}

int cmd_choose(const struct command_line *line)
{
    bite_error error = BITE_ERROR_INIT;
    bite_library *library = NULL;
    bite_choice *choice = NULL;
    struct text_buffer buffer = {NULL, 0, 0};
    if (line->argument_count > 0) {
        return report_usage_error("unexpected argument %s; choose takes options only",
                                  line->arguments[0]);
    }
    int status = options_check(line);
    if (status != 0) {
        return status;
    }
    int opened = library_from_options(line, &library);
    if (opened != 0) {
        return opened;
    }
    if (line->symptom != NULL) {
        status = diagnose(library, line);
        bite_library_close(library);
        return status;
    }
    status = choice_from_options(library, line, &choice);
    if (status == 0) {
        status =
            bite_choice_write(choice, &line->style, text_buffer_append, &buffer, &error) == BITE_OK
                ? output_write(line->output, &buffer)
                : report_write_error(&error);
    }
    if (status == 0) {
        status = exit_status_of_verdict(bite_answer_result(bite_choice_answer(choice))->verdict,
                                        line->exit_zero);
    }
    free(buffer.text);
    bite_choice_free(choice);
    bite_library_close(library);
    return status;
}
