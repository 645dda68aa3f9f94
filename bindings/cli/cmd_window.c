/* SPDX-License-Identifier: GPL-3.0-or-later */
/* coolbite window: draws the operating window over two inputs. */
#include "bindings/cli/cli_request.h"
#include "bindings/cli/commands.h"
#include "bindings/cli/error_report.h"
#include "bindings/cli/exit_status.h"
#include "bindings/cli/output.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

#define NAME_SIZE 64

static int report_bad_axis(const char *text)
{
    return report_usage_error("an axis must be an input, or an input and its ends such as "
                              "--across spindle_speed=6000rpm..24000rpm, not %.60s",
                              text);
}

/* NAME, or NAME=LEAST..MOST. The name may be that of an option, too: spindle for
 * spindle_speed. */
static int read_axis(const char *text, char *name, const char **input, double *least, double *most)
{
    char end[NAME_SIZE];
    bite_error error = BITE_ERROR_INIT;
    *least = *most = (double)NAN;
    if (text == NULL) {
        return 0;
    }
    size_t length = strcspn(text, "=");
    const char *dots = strstr(text + length, "..");
    if (length == 0 || length >= NAME_SIZE || (text[length] == '=' && dots == NULL)) {
        return report_bad_axis(text);
    }
    memcpy(name, text, length);
    name[length] = 0;
    *input = name;
    for (size_t i = 0; i < option_count; i++) {
        if (option_table[i].type == OPTION_INPUT && strcmp(option_table[i].word, name) == 0) {
            *input = option_table[i].name;
        }
    }
    const bite_input *found = bite_input_find(*input);
    if (text[length] != '=' || found == NULL) {
        return 0;
    }
    size_t first = (size_t)(dots - text) - length - 1;
    if (first >= sizeof end) {
        return report_bad_axis(text);
    }
    memcpy(end, text + length + 1, first);
    end[first] = 0;
    if (bite_quantity_read(end, (bite_kind)found->kind, least, &error) != BITE_OK ||
        bite_quantity_read(dots + 2, (bite_kind)found->kind, most, &error) != BITE_OK) {
        (void)report_error(&error);
        return EXIT_USAGE;
    }
    return 0;
}

static int write_window(const struct command_line *line, const bite_answer *answer)
{
    char across[NAME_SIZE];
    char up[NAME_SIZE];
    bite_error error = BITE_ERROR_INIT;
    bite_window_options options;
    bite_window *window = NULL;
    struct text_buffer buffer = {NULL, 0, 0};
    bite_window_options_init(&options);
    int status = read_axis(line->across, across, &options.across, &options.across_least,
                           &options.across_most);
    status = status != 0
                 ? status
                 : read_axis(line->up, up, &options.up, &options.up_least, &options.up_most);
    if (status == 0 && bite_window_new(answer, &options, &window, &error) != BITE_OK) {
        (void)report_error(&error);
        status = error.status == BITE_NO_MEMORY ? EXIT_FAULT : EXIT_USAGE;
    }
    if (status == 0) {
        status =
            bite_window_write(window, &line->style, text_buffer_append, &buffer, &error) == BITE_OK
                ? output_write(line->output, &buffer)
                : report_write_error(&error);
    }
    free(buffer.text);
    bite_window_free(window);
    return status;
}

/* Without a spindle speed or a feed, the settings shown are those that choose finds. */
int cmd_window(const struct command_line *line)
{
    bite_library *library = NULL;
    bite_choice *choice = NULL;
    bite_answer *answer = NULL;
    if (line->argument_count > 0) {
        return report_usage_error("unexpected argument %s; window takes options only",
                                  line->arguments[0]);
    }
    bool chooses = !option_is_given(line, "spindle") || !option_is_given(line, "feed");
    int status = options_check(line);
    if (status == 0 && !chooses && line->goal != BITE_GOAL_USUAL) {
        status = report_usage_error("--goal has no effect if --spindle and --feed are both given; "
                                    "leave out one of the three");
    }
    if (status != 0) {
        return status;
    }
    int opened = library_from_options(line, &library);
    if (opened != 0) {
        return opened;
    }
    if (chooses) {
        status = choice_from_options(library, line, &choice);
    } else {
        status = answer_from_options(library, line, line->input_count, &answer);
    }
    const bite_answer *judged = chooses ? bite_choice_answer(choice) : answer;
    status = status != 0 ? status : write_window(line, judged);
    if (status == 0) {
        status = exit_status_of_verdict(bite_answer_result(judged)->verdict, line->exit_zero);
    }
    bite_answer_free(answer);
    bite_choice_free(choice);
    bite_library_close(library);
    return status;
}
