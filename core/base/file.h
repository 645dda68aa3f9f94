/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Files: read once and completely, locked, and compared. bite_file_same is in coolbite/coolbite.h;
 * file_output.c writes files. */
#ifndef BITE_BASE_FILE_H
#define BITE_BASE_FILE_H

#include "core/base/memory.h"
#include <coolbite/coolbite.h>

/**
 * Reads a regular file of at most `limit` bytes.
 *
 * *text: owned (bite_memory_free with the allocator), ended by a 0 that *size does not count.
 * BITE_NOT_FOUND: no such file, or a folder, pipe or device; BITE_BAD_FILE: larger than limit;
 * BITE_IO: it cannot be opened or read, or changed during reading; BITE_NO_MEMORY.
 */
bite_status bite_file_read(const bite_allocator *allocator, const char *path, size_t limit,
                           char **text, size_t *size, bite_error *error);

/** The same for an open file, from its current position, which must be its start; path is for
 * messages. */
bite_status bite_file_read_open(const bite_allocator *allocator, int file, const char *path,
                                size_t limit, char **text, size_t *size, bite_error *error);

/**
 * Locks the folder that the file of this path is in (links are followed) against every other caller
 * of this function, other threads included, until bite_file_unlock(*lock).
 *
 * Waits a few seconds, then returns BITE_BUSY. *lock: always written; -1 if there is no such folder
 * or if its file system has no locks.
 */
bite_status bite_file_lock(const char *path, int *lock, bite_error *error);
void bite_file_unlock(int lock);

/** Locks an open file in the same way, until it is closed. path: for messages. BITE_BUSY: after a
 * few seconds; BITE_CANNOT_WRITE: its file system has no locks. */
bite_status bite_file_lock_open(int file, const char *path, bite_error *error);

#endif
