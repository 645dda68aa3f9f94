/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Entering readings: prompt by prompt at a terminal, or a line each from standard input. */
#ifndef BITE_CLI_MEASURE_SESSION_H
#define BITE_CLI_MEASURE_SESSION_H

#include <coolbite/coolbite.h>
#include <stdbool.h>

/** How a session begins. Texts are borrowed. */
struct measure_start {
    const char *person; /* "" */
    double temperature; /* K; NaN */
    uint32_t part;      /* 0: the first that is not complete */
    uint32_t trials;    /* readings of each by this person; 0: one of anybody */
};

/** Reads standard input to its end and appends what it says. The exit status, after an error
 * message if it failed. */
int measure_session(bite_record *record, const struct measure_start *start);

#endif
