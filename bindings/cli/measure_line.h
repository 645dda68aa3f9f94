/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a line that is entered does: a reading, or a command about readings. */
#ifndef BITE_CLI_MEASURE_LINE_H
#define BITE_CLI_MEASURE_LINE_H

#include <coolbite/coolbite.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#define PERSON_MAX 104
#define VALUE_MAX 80
#define OWN_LINES 4096 /* of this session, that undo can go back over */

/** What the line that was read leads to. */
enum measure_step {
    STEP_NEXT, /* the next line */
    STEP_BAD,  /* the line has a fault: it was reported */
    STEP_END,
    STEP_STOP /* the record cannot be written: it was reported */
};

struct measure_session {
    bite_record *record;
    bool terminal;
    bool complete; /* nothing is left to be measured */
    bool behind;   /* that the clock is behind was said */
    uint32_t trials;
    uint32_t part;
    bool chosen;        /* the part was named: it is kept until what is due on it is entered */
    bool due;           /* something is due on the part */
    bool was_due;       /* or was, since the part was named */
    size_t next;        /* index of the characteristic that is asked for */
    double temperature; /* K; NaN */
    double latest;      /* time of the last reading; -infinity once that was said to be ahead */
    char person[PERSON_MAX];
    char asked[VALUE_MAX]; /* a value that was asked about; "" */
    size_t asked_for;      /* its characteristic */
    uint64_t own[OWN_LINES];
    size_t own_count;
    size_t appended;
    unsigned long line; /* of the input */
    int status;         /* of STEP_STOP and of faults */
};

/** Runs a line; the text is changed. */
enum measure_step measure_line(struct measure_session *session, char *text);

/** Reports a fault of the line that was read: STEP_BAD. */
__attribute__((format(printf, 3, 4))) enum measure_step
measure_complain(struct measure_session *session, const char *hint, const char *format, ...);

/** Seconds since 1970; NaN: the clock cannot be read. */
double measure_now(void);

#endif
