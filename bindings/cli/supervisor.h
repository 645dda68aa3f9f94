/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Runs a command in a child process, so that a plugin cannot end it as if it had succeeded. */
#ifndef BITE_CLI_SUPERVISOR_H
#define BITE_CLI_SUPERVISOR_H

#include <sys/types.h>

/**
 * Runs work in a child process and returns its result, the exit status for this process.
 *
 * A plugin is foreign code: it can end its process at any time with any exit status, and 0 would
 * mean a clear verdict. The child therefore reports its status through a pipe after work has
 * returned. Without that report this returns 70 after an error message. If a signal ends the child,
 * this process ends by the same signal. Signals that end a process are forwarded to the child, and
 * where the system supports it the child does not outlive this process. If the child cannot be
 * started, work does not run: 71 after an error message.
 *
 * Call it before any thread is started and while every stdio buffer is empty.
 */
int supervise(int (*work)(const void *user), const void *user);

/** In a child, right after it was started: where the system supports it, it ends with its parent.
 */
void die_with(pid_t parent);

/** Opens a pipe whose first end never waits. The descriptors are above the three standard ones, any
 * of which may be closed: the output must not go into the pipe. Nonzero: errno. */
int open_pipe(int ends[2]);

#endif
