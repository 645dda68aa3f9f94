/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The command line: verbs, options and exit status. Uses the public header alone. */
#ifndef BITE_CLI_H
#define BITE_CLI_H

#include "bindings/cli/option_table.h"
#include <coolbite/coolbite.h>
#include <stdbool.h>
#include <stdio.h>

/** How the program ends; 64 and above as sysexits.h has them. */
enum exit_status {
    EXIT_CLEAR = 0,
    EXIT_TIGHT = 1,
    EXIT_OVER = 2,
    EXIT_USAGE = 64,
    EXIT_CONTENTS = 65,
    EXIT_NO_INPUT = 66,
    EXIT_REFUSED = 69,
    EXIT_FAULT = 70,
    EXIT_SYSTEM = 71, /* no process can be started */
    EXIT_CANNOT_WRITE = 73,
    EXIT_IO = 74
};

/** One option as it stood on the command line. */
struct option_given {
    const struct cli_option *option;
    const char *text;
};

#define GIVEN_MOST 128
#define TOOLS_MOST 64
#define STEPS_MOST 64

/** The command line, read. Texts are the caller's argv. */
struct command_line {
    struct option_given given[GIVEN_MOST];
    size_t given_count;
    const char *words[4]; /* what is no option, behind the verb */
    size_t word_count;
    bite_style style;
    uint32_t units_given;          /* 1: --units stood on the command line */
    const char *sheet;             /* NULL: none is wished */
    double recorded_time;          /* s; 0: not said */
    bool remove_time;              /* what this job took before */
    const char *output;            /* NULL or "-": standard output */
    const char *tools[TOOLS_MOST]; /* of choose */
    size_t tool_count;
    uint32_t goal;            /* a bite_goal; BITE_GOAL_USUAL: none was said */
    const char *after;        /* what went wrong; NULL: nothing */
    double steps[STEPS_MOST]; /* 1/s */
    size_t step_count;
    const char *across; /* axes of a window; NULL: the usual */
    const char *up;
    bool format_given; /* --format was said */
    size_t draws;
    size_t second_cut; /* place in given from which on the options are the second cut's */
    bool compare;
    double confidence;
    bool exit_zero;
    bool help;
    bool version;
};

/** Reads options behind the verb. 0, or the exit status after one line of complaint. */
int options_parse(int argc, char **argv, enum command_id verb, struct command_line *line);
/** 1: the option of that word stood on the command line, with what goes to an ask. */
int option_is_given(const struct command_line *line, const char *word);
/** What stands behind the last point of a file's name; "": nothing does. */
const char *file_extension(const char *path);
/** 0, or the exit status after a complaint about options that exclude each other. */
int options_check(const struct command_line *line);

/** One line on stderr: what, where, what to do. Returns the exit status of the error. */
int report_error(const bite_error *error);
/** Says that memory ran out. Returns the exit status. */
int complain_memory(void);
/** complain() for a writer into `gather`, which refuses text only when memory runs out. */
int complain_unwritten(const bite_error *error);
int report_usage_error(const char *format, ...) __attribute__((format(printf, 1, 2)));
/** The same with an exit status of its own, which it returns. */
int report_failure(int status, const char *format, ...) __attribute__((format(printf, 2, 3)));
int exit_status_of(bite_status status);

/** Text gathered in memory, so that a file is written whole or not at all. */
struct text_buffer {
    char *text;
    size_t size;
    size_t capacity;
};
int text_buffer_append(void *user, const char *text, size_t size);
/** What stands on the left, and a text whose lines begin at `indent`, broken to the style's width
 * (80 where it names none). Nonzero: no memory. */
int text_buffer_wrap(struct text_buffer *buffer, const bite_style *style, const char *left,
                     size_t indent, const char *text);
/**
 * Refuses to write over what is read. 0, or the exit status after a complaint: --output, --sheet,
 * or standard output if it is a file, is the input (NULL: there is none), a table or a plugin, or
 * they are one file. Files are compared by device and inode, so that neither a link nor a spelling
 * hides one.
 */
int check_outputs(const struct command_line *line, const char *input);
/** Writes it to the file of --output, or to standard output; frees it. 0, or the exit status after
 * a complaint. */
int output_write(const struct command_line *line, struct text_buffer *buffer);
/** A verb's help. Nonzero: no memory. */
int options_help(enum command_id verb, const bite_style *style, struct text_buffer *buffer);

/** As many threads as the machine has processors, within what the library takes. */
size_t processor_count(void);

/** Sets what the first `count` of the options given say. 0, or the exit status after a complaint.
 */
int request_set_options(bite_request *request, const struct command_line *line, size_t count);
/** Finds the settings for the ask's options; *choice: owned. 0, or the exit status after a
 * complaint. */
int choice_from_options(const bite_library *library, const struct command_line *line,
                        bite_choice **choice);
/** Judges the cut of the first `count` options; *answer: owned. 0, or the exit status after a
 * complaint. */
int answer_from_options(const bite_library *library, const struct command_line *line, size_t count,
                        bite_answer **answer);
/** The exit status of a verdict, as far as the request asks for it. */
int exit_status_of_verdict(const struct command_line *line, const bite_answer *answer);

int cmd_cut(const struct command_line *line);
int cmd_choose(const struct command_line *line);
int cmd_window(const struct command_line *line);
int cmd_job(const struct command_line *line);
int cmd_list(const struct command_line *line);
int cmd_show(const struct command_line *line);
int cmd_explain(const struct command_line *line);

#endif
