/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Makes the library's request from the options, and from it an answer or a choice. */
#ifndef BITE_CLI_CLI_REQUEST_H
#define BITE_CLI_CLI_REQUEST_H

#include "bindings/cli/options.h"

/** Judges the cut of the first `count` input options; *answer: owned. 0, or the exit status after
 * an error message. */
int answer_from_options(const bite_library *library, const struct command_line *line, size_t count,
                        bite_answer **answer);

/** Finds the best settings for the options; *choice: owned. 0, or the exit status after an error
 * message. */
int choice_from_options(const bite_library *library, const struct command_line *line,
                        bite_choice **choice);

/** A request with the options and one tool at most; *request: owned. 0, or the exit status after an
 * error message. */
int request_from_options(const bite_library *library, const struct command_line *line, size_t count,
                         bite_request **request);

/** The library, with the tool list of --tools or of the shop's set-up. *library: owned,
 * bite_library_close. 0, or the exit status after an error message. */
int library_from_options(const struct command_line *line, bite_library **library);

#endif
