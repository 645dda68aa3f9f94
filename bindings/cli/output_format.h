/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Chooses the output format from --format and from the extension of --output. */
#ifndef BITE_CLI_OUTPUT_FORMAT_H
#define BITE_CLI_OUTPUT_FORMAT_H

#include "bindings/cli/options.h"

/** Reads the value of --format. 0, or the exit status after an error message. */
int output_format_read(const char *text, enum command_id command, struct command_line *line);

/** Selects the format by the extension of --output if there is no --format, and checks that the two
 * agree. 0, or the exit status after an error message. */
int output_format_resolve(enum command_id command, struct command_line *line);

/** The extension of a file name without the dot; "": none. Borrowed from path. */
const char *file_extension(const char *path);

#endif
