/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The commands and the options of the command line: one table for the parser, the help, the
 * manual and the completions. */
#ifndef BITE_CLI_OPTION_TABLE_H
#define BITE_CLI_OPTION_TABLE_H

#include <coolbite/coolbite.h>
#include <stdbool.h>
#include <stddef.h>

enum command_id {
    COMMAND_CUT,
    COMMAND_CHOOSE,
    COMMAND_WINDOW,
    COMMAND_JOB,
    COMMAND_MEASURE,
    COMMAND_LIST,
    COMMAND_SHOW,
    COMMAND_EXPLAIN,
    COMMAND_BATCH,
    COMMAND_AUDIT,
    COMMAND_NEW_MATERIAL,
    COMMAND_COUNT
};

struct command {
    const char *word;
    const char *synopsis;
    const char *help;
    const char *words; /* the allowed arguments, separated by blanks; NULL: any */
    bool reads_file;   /* its argument is the file to read */
};
extern const struct command commands[COMMAND_COUNT];

/** How an option is read. */
enum option_type {
    OPTION_INPUT,   /* sets the input `name` */
    OPTION_ITEM,    /* selects an item of `collection` */
    OPTION_MEASURE, /* a text that measure reads */
    OPTION_NECK,    /* DxL */
    OPTION_CHIPS,   /* open, closed */
    OPTION_SET,     /* NAME=QUANTITY */
    OPTION_UNITS,   /* metric, inch */
    OPTION_FORMAT,  /* a word of output_formats */
    OPTION_OUTPUT,  /* a file */
    OPTION_ROWS,
    OPTION_SOURCES,
    OPTION_EXIT_ZERO,
    OPTION_DRAWS,
    OPTION_AGAINST,
    OPTION_TOOL,     /* a tool; choose and window take several, separated by commas */
    OPTION_DIAMETER, /* a range of diameters: LEAST..MOST */
    OPTION_TOOLS,    /* the file of a tool list */
    OPTION_KIND,     /* of tools */
    OPTION_HAND,     /* of a thread: right, left */
    OPTION_GOAL,
    OPTION_AFTER,
    OPTION_BEYOND_CHARTS,
    OPTION_STEPS, /* spindle speeds, separated by commas */
    OPTION_AXIS,  /* of a window: NAME, or NAME=LEAST..MOST */
    OPTION_CONFIDENCE,
    OPTION_SHEET,  /* the file of the page to print */
    OPTION_REPORT, /* the file of a record's report */
    OPTION_TOOK,   /* how long a job took */
    OPTION_NO_CONFIG,
    OPTION_RESULTS, /* names, separated by commas */
    OPTION_JOBS,    /* a count of threads */
    OPTION_STRICT,
    OPTION_TIME_LIMIT,
    OPTION_LIKE, /* a grade of the tables */
    OPTION_HELP,
    OPTION_VERSION
};

struct cli_option {
    const char *word;     /* "spindle", without the dashes */
    const char *argument; /* "SPEED"; NULL: takes none */
    enum option_type type;
    const char *name; /* of the input; NULL: sets none */
    bite_collection collection;
    unsigned commands; /* bits 1 << enum command_id */
    const char *words; /* the allowed values, separated by blanks; NULL: any */
    const char *help;
};
extern const struct cli_option option_table[];
extern const size_t option_count;

/** An output format and the commands that can write it. */
struct output_format {
    const char *word;      /* of --format */
    const char *extension; /* of the file of --output */
    uint32_t format;       /* a bite_format */
    unsigned commands;     /* bits 1 << enum command_id */
};
extern const struct output_format output_formats[];
extern const size_t output_format_count;

#endif
