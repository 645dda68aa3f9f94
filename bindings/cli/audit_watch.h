/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a plugin must leave as it is in the process that it runs in. */
#ifndef BITE_CLI_AUDIT_WATCH_H
#define BITE_CLI_AUDIT_WATCH_H

#include <signal.h>
#include <stdint.h>
#include <sys/types.h>

#define WATCHED_DESCRIPTORS 256
#define WATCHED_SIGNALS 64

/** The process as it was. */
struct audit_watch {
    char *locale; /* owned */
    char *folder; /* owned; the working folder */
    uint64_t environment;
    int rounding;
    int subnormal; /* 1: the smallest numbers are not flushed to zero */
    int started;   /* 1: there is a process that it has started, which was told */
    mode_t mask;   /* of new files */
    sigset_t blocked;
    struct sigaction actions[WATCHED_SIGNALS];
    unsigned char open[WATCHED_DESCRIPTORS];
};

/** Hears what was changed, and how to mend that. */
typedef void (*audit_watch_told)(void *user, const char *what, const char *hint);

/** Notes the process as it is. Nonzero: out of memory. */
int audit_watch_begin(struct audit_watch *watch);

/** Tells each change since the last call, and notes the process as it is now. */
void audit_watch_check(struct audit_watch *watch, audit_watch_told told, void *user);

void audit_watch_end(struct audit_watch *watch);

#endif
