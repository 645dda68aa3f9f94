/* SPDX-License-Identifier: GPL-3.0-or-later */
/* coolbite explain: explains an input, a value or a limit. */
#include "bindings/cli/commands.h"
#include "bindings/cli/error_report.h"
#include "bindings/cli/output.h"
#include <stdlib.h>

int cmd_explain(const struct command_line *line)
{
    bite_error error = BITE_ERROR_INIT;
    struct text_buffer buffer = {NULL, 0, 0};
    if (line->argument_count != 1) {
        return report_usage_error("explain takes one name of a limit, a value or an input; "
                                  "coolbite list limits, list values "
                                  "and list inputs show the names");
    }
    if (bite_explain_write(line->arguments[0], &line->style, text_buffer_append, &buffer, &error) !=
        BITE_OK) {
        free(buffer.text);
        return report_write_error(&error);
    }
    return output_write(line->output, &buffer);
}
