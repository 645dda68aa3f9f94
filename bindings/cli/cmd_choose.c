/* SPDX-License-Identifier: GPL-3.0-or-later */
/* coolbite choose: find the conditions. */
#include "bindings/cli/cli.h"
#include <stdlib.h>

int choice_from_options(const bite_library *library, const struct command_line *line,
                        bite_choice **choice)
{
    bite_error error = BITE_ERROR_INIT;
    bite_request *request = NULL;
    int status = bite_request_new(library, &request, &error) == BITE_OK ? 0 : report_error(&error);
    status = status != 0 ? status : request_set_options(request, line, line->given_count);
    if (status == 0 && line->tool_count == 0) {
        status = report_usage_error(
            "--tool is missing: a name, a diameter such as 1/32in, several of them, or any");
    }
    if (status == 0) {
        bite_choice_options options = {(uint32_t)sizeof options,
                                       line->goal,
                                       line->style.units,
                                       0,
                                       line->tools,
                                       line->tool_count,
                                       line->draws,
                                       line->confidence,
                                       line->steps,
                                       line->step_count};
        status = bite_choice_new(request, &options, choice, &error) == BITE_OK
                     ? 0
                     : report_error(&error);
    }
    bite_request_free(request);
    return status;
}

/* Settings that made trouble are judged as they are; nothing is chosen. */
static int look_after(const bite_library *library, const struct command_line *line)
{
    bite_error error = BITE_ERROR_INIT;
    bite_answer *answer = NULL;
    bite_diagnosis *diagnosis = NULL;
    struct text_buffer buffer = {NULL, 0, 0};
    int status = answer_from_options(library, line, line->given_count, &answer);
    if (status == 0 && bite_diagnosis_new(answer, line->after, &diagnosis, &error) != BITE_OK) {
        status = report_error(&error);
    }
    if (status == 0) {
        status = bite_diagnosis_write(diagnosis, &line->style, text_buffer_append, &buffer,
                                      &error) == BITE_OK
                     ? output_write(line, &buffer)
                     : complain_unwritten(&error);
    }
    status = status != 0 ? status : exit_status_of_verdict(line, answer);
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
    if (line->word_count > 0) {
        return report_usage_error("choose takes options only; %s is none", line->words[0]);
    }
    int status = options_check(line);
    if (status != 0) {
        return status;
    }
    if (bite_library_open(NULL, &library, &error) != BITE_OK) {
        return report_error(&error);
    }
    if (line->after != NULL) {
        int seen = look_after(library, line);
        bite_library_close(library);
        return seen;
    }
    status = choice_from_options(library, line, &choice);
    if (status == 0) {
        status =
            bite_choice_write(choice, &line->style, text_buffer_append, &buffer, &error) == BITE_OK
                ? output_write(line, &buffer)
                : complain_unwritten(&error);
    }
    if (status == 0) {
        status = exit_status_of_verdict(line, bite_choice_answer(choice));
    }
    free(buffer.text);
    bite_choice_free(choice);
    bite_library_close(library);
    return status;
}
