/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reads the command line of a command, and writes the command's help. */
#ifndef BITE_CLI_OPTIONS_H
#define BITE_CLI_OPTIONS_H

#include "bindings/cli/option_table.h"
#include "bindings/cli/text_buffer.h"
#include <coolbite/coolbite.h>
#include <stdbool.h>

#define INPUT_OPTIONS_MAX 128
#define TOOLS_MAX 64
#define TOOL_NAME_MAX 96 /* bytes of a tool's name, with the null */
#define SPINDLE_STEPS_MAX 64
#define ARGUMENTS_MAX 4

/** An option that sets an input or selects an item of a collection, with its value. */
struct input_option {
    const struct cli_option *option;
    const char *text;
};

/** A command line as read. Texts are borrowed from argv. */
struct command_line {
    struct input_option inputs[INPUT_OPTIONS_MAX]; /* in the order given */
    size_t input_count;
    const char *arguments[ARGUMENTS_MAX]; /* that are not options, after the command */
    size_t argument_count;
    bite_style style;
    bool units_given;                     /* --units was given */
    bool confidence_given;                /* --confidence was given */
    bool no_config;                       /* --no-config was given */
    const char *tool_list;                /* file of --tools; NULL: not given */
    const bite_shop *shop;                /* the shop's own set-up; NULL: not read */
    bool format_given;                    /* --format was given */
    const char *sheet;                    /* file of --sheet; NULL: not given */
    double recorded_time;                 /* s, of --took; 0: not given */
    bool remove_time;                     /* --took forget */
    const char *output;                   /* file of --output; NULL or "-": standard output */
    bool report;                          /* --report was given: output is its file */
    char tools[TOOLS_MAX][TOOL_NAME_MAX]; /* of choose and window */
    size_t tool_count;
    uint32_t goal;                           /* a bite_goal; BITE_GOAL_USUAL: not given */
    const char *symptom;                     /* of --after; NULL: not given */
    double spindle_steps[SPINDLE_STEPS_MAX]; /* 1/s */
    size_t spindle_step_count;
    uint32_t beyond_charts; /* 1: choose may exceed the published feeds per tooth */
    double diameter_least;  /* m, of the tools that are listed; NaN: any */
    double diameter_most;
    const char *kind;   /* of the tools that are listed; NULL: any */
    uint32_t left_hand; /* 1: show a left-hand thread */
    const char *across; /* axes of a window; NULL: the default axis */
    const char *up;
    size_t draws; /* 0: the default */
    double confidence;
    bool compare;           /* --against was given */
    size_t first_cut_count; /* inputs before --against; those after it change the first cut */
    bool exit_zero;
    const char *results; /* of batch; NULL: not given */
    size_t jobs;         /* threads of batch; 0: not given */
    bool strict;
    const char *like;  /* of new-material; NULL: not given */
    double time_limit; /* s, of audit; 0: the default */
    bool help;
    bool version;
};

/** Reads the options and arguments after the command. argv[0] is the command. 0, or the exit status
 * after an error message. */
int options_parse(int argc, char **argv, enum command_id command, struct command_line *line);

/** Whether an option that sets an input was given; `word` is without dashes. */
bool option_is_given(const struct command_line *line, const char *word);

/** The value of the last option of that word that sets an input or selects an item; NULL: it was
 * not given. Borrowed from argv. */
const char *option_value(const struct command_line *line, const char *word);

/** Checks for options that exclude each other. 0, or the exit status after an error message. */
int options_check(const struct command_line *line);

/** Writes a command's help. Nonzero: out of memory. */
int options_help(enum command_id command, const bite_style *style, struct text_buffer *buffer);

#endif
