/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The commands. Each is defined in the source file of its name: cmd_cut.c and so on. */
#ifndef BITE_CLI_COMMANDS_H
#define BITE_CLI_COMMANDS_H

#include "bindings/cli/options.h"

/* Each runs its command and returns the exit status, after an error message if it failed. */
int cmd_cut(const struct command_line *line);
int cmd_choose(const struct command_line *line);
int cmd_window(const struct command_line *line);
int cmd_job(const struct command_line *line);
int cmd_measure(const struct command_line *line);
int cmd_list(const struct command_line *line);
int cmd_show(const struct command_line *line);
int cmd_explain(const struct command_line *line);
int cmd_batch(const struct command_line *line);
int cmd_audit(const struct command_line *line);
int cmd_new_material(const struct command_line *line);

#endif
