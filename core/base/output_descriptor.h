/* SPDX-License-Identifier: GPL-3.0-or-later */
/* System calls on file descriptors, repeated if a signal interrupts them. */
#ifndef BITE_BASE_OUTPUT_DESCRIPTOR_H
#define BITE_BASE_OUTPUT_DESCRIPTOR_H

#include <stddef.h>
#include <sys/types.h>

/** openat, always with O_CLOEXEC. Returns the descriptor, or -1 with errno. */
int bite_descriptor_open(int folder, const char *name, int flags, mode_t mode);

/** Reads until the end of the file or until `capacity` bytes are read. Returns the bytes read, or
 * -1 with errno. */
ssize_t bite_descriptor_read(int descriptor, char *text, size_t capacity);

/** Writes all bytes; waits if a non-blocking descriptor is full. Returns 0, or -1 with errno. */
int bite_descriptor_write(int descriptor, const char *text, size_t size);

/** fsync. Returns 0, or -1 with errno. */
int bite_descriptor_sync(int descriptor);

/** Takes an exclusive flock without waiting. Returns 0, or -1 with errno (EWOULDBLOCK: it is
 * taken). */
int bite_descriptor_lock(int descriptor);

/** Closes a descriptor (-1: nothing happens) and keeps errno. Errors of close are ignored: callers
 * have synced what must be durable. */
void bite_descriptor_close(int descriptor);

#endif
