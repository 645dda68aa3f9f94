/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writes the output, and refuses to overwrite the files that the program reads. */
#ifndef BITE_CLI_OUTPUT_H
#define BITE_CLI_OUTPUT_H

#include "bindings/cli/options.h"
#include "bindings/cli/text_buffer.h"

/**
 * Checks that no output file is a file that the program reads.
 *
 * 0, or the exit status after an error message: --output, --sheet, or standard output if it is a
 * file, is the input file (NULL: the command reads none), a table or a plugin, or the two outputs
 * are one file. Files are compared by device and inode, so links and other spellings of a path are
 * recognized.
 */
int output_check(const struct command_line *line, const char *input);

/** Writes the buffer to a file (NULL or "-": standard output) and frees it. 0, or the exit status
 * after an error message. */
int output_write(const char *path, struct text_buffer *buffer);

#endif
