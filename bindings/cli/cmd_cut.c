/* SPDX-License-Identifier: GPL-3.0-or-later */
/* coolbite cut: judge the conditions I give. */
#include "bindings/cli/cli.h"
#include <stdlib.h>
#include <string.h>

int exit_status_of_verdict(const struct command_line *line, const bite_answer *answer)
{
    static const int by_verdict[] = {EXIT_CLEAR, EXIT_CLEAR, EXIT_TIGHT, EXIT_OVER};
    return line->exit_zero ? EXIT_CLEAR : by_verdict[bite_answer_result(answer)->verdict];
}

int answer_from_options(const bite_library *library, const struct command_line *line, size_t count,
                        bite_answer **answer)
{
    bite_error error = BITE_ERROR_INIT;
    bite_request *request = NULL;
    int status = bite_request_new(library, &request, &error) == BITE_OK ? 0 : report_error(&error);
    status = status != 0 ? status : request_set_options(request, line, count);
    if (status == 0 && line->tool_count > 1) {
        status = report_usage_error(
            "one tool can be judged; without --spindle and --feed several compete");
    }
    if (status == 0 && line->tool_count == 1 &&
        bite_request_use(request, BITE_TOOLS, line->tools[0], &error) != BITE_OK) {
        status = report_error(&error);
    }
    if (status == 0 &&
        bite_answer_new(request, line->draws, line->confidence, answer, &error) != BITE_OK) {
        status = report_error(&error);
    }
    bite_request_free(request);
    return status;
}

int cmd_cut(const struct command_line *line)
{
    bite_error error = BITE_ERROR_INIT;
    bite_library *library = NULL;
    bite_answer *answer = NULL;
    bite_answer *second = NULL;
    struct text_buffer buffer = {NULL, 0, 0};
    if (line->word_count > 0) {
        return report_usage_error("cut takes options only; %s is none", line->words[0]);
    }
    if (bite_library_open(NULL, &library, &error) != BITE_OK) {
        return report_error(&error);
    }
    int status = answer_from_options(library, line,
                                     line->compare ? line->second_cut : line->given_count, &answer);
    if (status == 0 && line->compare) {
        status = answer_from_options(library, line, line->given_count, &second);
    }
    if (status == 0) {
        bite_status written =
            line->compare
                ? bite_answer_compare(answer, second, &line->style, text_buffer_append, &buffer,
                                      &error)
                : bite_answer_write(answer, &line->style, text_buffer_append, &buffer, &error);
        status = written == BITE_OK ? output_write(line, &buffer) : complain_unwritten(&error);
    }
    if (status == 0) {
        status = exit_status_of_verdict(line, line->compare ? second : answer);
    }
    free(buffer.text);
    bite_answer_free(answer);
    bite_answer_free(second);
    bite_library_close(library);
    return status;
}
