/* SPDX-License-Identifier: GPL-3.0-or-later */
/* System calls on descriptors that a signal may cut short: each is repeated until it is done. */
#ifndef BITE_BASE_DESCRIPTOR_H
#define BITE_BASE_DESCRIPTOR_H

#include <stddef.h>
#include <sys/types.h>

/** openat; always O_CLOEXEC. The descriptor, or -1 with errno. */
int bite_descriptor_open(int folder, const char *name, int flags, mode_t mode);

/** Reads until the end of the file or until room is full. The bytes read, or -1 with errno. */
ssize_t bite_descriptor_read(int descriptor, char *text, size_t capacity);

/** Writes all of it; waits where a descriptor that does not block is full. 0, or -1 with errno. */
int bite_descriptor_write(int descriptor, const char *text, size_t size);

/** fsync. 0, or -1 with errno. */
int bite_descriptor_sync(int descriptor);

/** Asks for an exclusive flock and does not wait for it. 0, or -1 with errno (EWOULDBLOCK: another
 * has it). */
int bite_descriptor_lock(int descriptor);

/** Closes it; errno stays as it was. What was written has been synced by then, or need not be. -1:
 * nothing happens. */
void bite_descriptor_close(int descriptor);

#endif
