/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The command line: verbs, options and exit status. Uses the public header alone. */
#ifndef BITE_CLI_H
#define BITE_CLI_H

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

/** What a word of the command line means. */
enum option_sort {
    OPTION_INPUT,  /* sets an input: `name` is the input's */
    OPTION_THING,  /* takes a thing: `shelf` */
    OPTION_NECK,   /* DxL */
    OPTION_CHIPS,  /* open, closed */
    OPTION_SET,    /* NAME=QUANTITY */
    OPTION_UNITS,  /* metric, inch */
    OPTION_FORMAT, /* text, json */
    OPTION_OUTPUT, /* a file */
    OPTION_ROWS,
    OPTION_SOURCES,
    OPTION_EXIT_ZERO,
    OPTION_DRAWS,
    OPTION_AGAINST,
    OPTION_TOOL, /* a thing; choose takes several */
    OPTION_GOAL,
    OPTION_AFTER,
    OPTION_STEPS, /* speeds of a spindle, between commas */
    OPTION_AXIS,  /* of a window: NAME, or NAME=LEAST..MOST */
    OPTION_CONFIDENCE,
    OPTION_SHEET, /* a file for the page to print */
    OPTION_TOOK,  /* how long a job took */
    OPTION_HELP,
    OPTION_VERSION
};

struct option_row {
    const char *word;     /* "spindle", without the dashes */
    const char *argument; /* "SPEED"; NULL: takes none */
    enum option_sort sort;
    const char *name; /* the input */
    bite_shelf shelf;
    unsigned verbs; /* bit 1 << enum verb_id */
    const char *help;
};

enum verb_id { VERB_CUT, VERB_CHOOSE, VERB_WINDOW, VERB_JOB, VERB_LIST, VERB_SHOW, VERB_EXPLAIN, VERB_COUNT };

/** One option as it stood on the command line. */
struct option_given {
    const struct option_row *row;
    const char *text;
};

#define GIVEN_MOST 128
#define TOOLS_MOST 64
#define STEPS_MOST 64

/** The command line, read. Texts are the caller's argv. */
struct request {
    struct option_given given[GIVEN_MOST];
    size_t given_count;
    const char *words[4]; /* what is no option, behind the verb */
    size_t word_count;
    bite_style style;
    uint32_t units_given;          /* 1: --units stood on the command line */
    const char *sheet;             /* NULL: none is wished */
    double took;                   /* s; 0: not said */
    bool forget;                   /* what this job took before */
    const char *output;            /* NULL or "-": standard output */
    const char *tools[TOOLS_MOST]; /* of choose */
    size_t tool_count;
    uint32_t goal;            /* a bite_goal; BITE_GOAL_USUAL: none was said */
    const char *after;        /* what went wrong; NULL: nothing */
    double steps[STEPS_MOST]; /* 1/s */
    size_t step_count;
    const char *across; /* axes of a window; NULL: the usual */
    const char *up;
    bool formatted; /* --format was said */
    size_t draws;
    size_t against; /* place in given from which on the options are the second cut's */
    bool compares;
    double confidence;
    bool exit_zero;
    bool help;
    bool version;
};

extern const struct option_row option_rows[];
extern const size_t option_row_count;

struct verb_row {
    const char *word;
    const char *synopsis;
    const char *help;
    int (*run)(const struct request *request);
    bool reads_file; /* its word is a file to read */
};
extern const struct verb_row verb_rows[VERB_COUNT];

/** Reads options behind the verb. 0, or the exit status after one line of complaint. */
int options_read(int argc, char **argv, enum verb_id verb, struct request *request);
/** 1: the option of that word stood on the command line, with what goes to an ask. */
int says(const struct request *request, const char *word);
/** What stands behind the last point of a file's name; "": nothing does. */
const char *ending_of(const char *path);
/** 0, or the exit status after a complaint about options that exclude each other. */
int options_agree(const struct request *request);

/** One line on stderr: what, where, what to do. Returns the exit status of the error. */
int complain(const bite_error *error);
int complain_usage(const char *format, ...) __attribute__((format(printf, 1, 2)));
/** The same with an exit status of its own, which it returns. */
int complain_of(int status, const char *format, ...) __attribute__((format(printf, 2, 3)));
int exit_of(bite_status status);

/** Text gathered in memory, so that a file is written whole or not at all. */
struct gathered {
    char *text;
    size_t size;
    size_t room;
};
int gather(void *user, const char *text, size_t size);
/** What stands on the left, and a text whose lines begin at `indent`, broken to the style's width (80 where it names none).
 * Nonzero: no memory. */
int put_wrapped(struct gathered *to, const bite_style *style, const char *left, size_t indent, const char *text);
/**
 * Refuses to write over what is read. 0, or the exit status after a complaint: --output, --sheet,
 * or standard output if it is a file, is the input (NULL: there is none), a table or a plugin, or
 * they are one file. Files are compared by device and inode, so that neither a link nor a spelling
 * hides one.
 */
int check_outputs(const struct request *request, const char *input);
/** Writes it to the file of --output, or to standard output; frees it. 0, or the exit status after
 * a complaint. */
int deliver(const struct request *request, struct gathered *gathered);
/** A verb's help. Nonzero: no memory. */
int options_help(enum verb_id verb, const bite_style *style, struct gathered *to);

/** As many threads as the machine has processors, within what the library takes. */
size_t threads_here(void);

/** Sets what the first `count` of the options given say. 0, or the exit status after a complaint. */
int apply_all(bite_ask *ask, const struct request *request, size_t count);
/** Finds the settings for the ask's options; *choice: owned. 0, or the exit status after a complaint. */
int choose(const bite_library *library, const struct request *request, bite_choice **choice);
/** Judges the cut of the first `count` options; *answer: owned. 0, or the exit status after a complaint. */
int ask_cut(const bite_library *library, const struct request *request, size_t count, bite_answer **answer);
/** The exit status of a verdict, as far as the request asks for it. */
int exit_of_verdict(const struct request *request, const bite_answer *answer);

int verb_cut(const struct request *request);
int verb_choose(const struct request *request);
int verb_window(const struct request *request);
int verb_job(const struct request *request);
int verb_list(const struct request *request);
int verb_show(const struct request *request);
int verb_explain(const struct request *request);

#endif
