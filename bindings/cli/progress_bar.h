/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A line on the terminal that shows how far a long command is. */
#ifndef BITE_CLI_PROGRESS_BAR_H
#define BITE_CLI_PROGRESS_BAR_H

#include <stdbool.h>
#include <stdint.h>

/** shown: whether there is a terminal for it: standard error is one, and standard output is not. */
struct progress_bar {
    bool shown;
    double next; /* s, of the steady clock: when it is drawn next */
    double started;
};

/** Starts a bar; nothing is drawn in the first half second. */
void progress_bar_start(struct progress_bar *bar);

/** Draws it anew, at most five times a second. total 0: not known. */
void progress_bar_show(struct progress_bar *bar, uint64_t done, uint64_t total, uint64_t rows);

/** Removes it from the terminal. */
void progress_bar_end(const struct progress_bar *bar);

#endif
