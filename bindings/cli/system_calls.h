/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Gives up the system calls that no command needs, before plugins are opened. */
#ifndef BITE_CLI_SYSTEM_CALLS_H
#define BITE_CLI_SYSTEM_CALLS_H

#include <stdbool.h>

/**
 * From now on this process, and what it opens, can start no program and no process, open no
 * network connection, signal or inspect no other process, and mount or load nothing; such calls
 * fail with EPERM. Threads, files and memory stay as they are. It cannot be undone.
 *
 * Returns whether the kernel took the filter: it needs Linux with seccomp, on x86-64 or AArch64.
 * Elsewhere, and in a build with sanitizers, whose leak check is a process that inspects this one,
 * nothing changes and false is returned.
 */
bool drop_system_calls(void);

#endif
