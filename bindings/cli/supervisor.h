/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Runs a command in a process of its own, so that no plugin can end it as if it had answered. */
#ifndef BITE_CLI_SUPERVISOR_H
#define BITE_CLI_SUPERVISOR_H

/**
 * Runs work in a child process and returns what it returned, for this process to end with.
 *
 * A plugin is code of others: it can end its process at any time with any exit status, and 0 would
 * read as a clear verdict. The child therefore reports its status over a pipe after work has
 * returned; without that report this returns 70 after a complaint. If a signal ends the child, this
 * process ends by the same signal. Signals that ask for the end are passed on, and the child does
 * not outlive this process where the system can see to that. If there can be no child, nothing is
 * run: 71 after a complaint.
 *
 * Call it before there are threads and while nothing is left in a stdio buffer.
 */
int supervise(int (*work)(const void *user), const void *user);

#endif
