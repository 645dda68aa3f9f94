/* SPDX-License-Identifier: GPL-3.0-or-later */
/* coolbite cut: judges the given settings. */
#include "bindings/cli/cli_request.h"
#include "bindings/cli/commands.h"
#include "bindings/cli/error_report.h"
#include "bindings/cli/exit_status.h"
#include "bindings/cli/output.h"
#include <stdlib.h>

int cmd_cut(const struct command_line *line)
{
    bite_error error = BITE_ERROR_INIT;
    bite_library *library = NULL;
    bite_answer *answer = NULL;
    bite_answer *second = NULL;
    struct text_buffer buffer = {NULL, 0, 0};
    if (line->argument_count > 0) {
        return report_usage_error("unexpected argument %s; cut takes options only",
                                  line->arguments[0]);
    }
    int opened = library_from_options(line, &library);
    if (opened != 0) {
        return opened;
    }
    int status = answer_from_options(
        library, line, line->compare ? line->first_cut_count : line->input_count, &answer);
    if (status == 0 && line->compare) {
        status = answer_from_options(library, line, line->input_count, &second);
    }
    if (status == 0) {
        bite_status written =
            line->compare
                ? bite_answer_compare(answer, second, &line->style, text_buffer_append, &buffer,
                                      &error)
                : bite_answer_write(answer, &line->style, text_buffer_append, &buffer, &error);
        status =
            written == BITE_OK ? output_write(line->output, &buffer) : report_write_error(&error);
    }
    if (status == 0) {
        status = exit_status_of_verdict(
            bite_answer_result(line->compare ? second : answer)->verdict, line->exit_zero);
    }
    free(buffer.text);
    bite_answer_free(answer);
    bite_answer_free(second);
    bite_library_close(library);
    return status;
}
