/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Files: read once and whole; written so that the old one stays until the new one is safe. */
#ifndef BITE_BASE_FILE_H
#define BITE_BASE_FILE_H

#include "core/base/memory.h"
#include <coolbite/coolbite.h>

/**
 * Reads a regular file of at most `most` bytes. *text: owned (bite_memory_free), ended by a 0 that
 * *size does not count. BITE_NOT_FOUND: no such file, or a folder, pipe or device; BITE_BAD_FILE:
 * larger than most; BITE_IO; BITE_NO_MEMORY.
 */
bite_status bite_file_read(const bite_allocator *allocator, const char *path, size_t most,
                           char **text, size_t *size, bite_error *error);

/** The same of a file that is open, from where it stands to its end; path is for messages. */
bite_status bite_file_read_open(const bite_allocator *allocator, int file, const char *path,
                                size_t most, char **text, size_t *size, bite_error *error);

/**
 * Locks the folder of path's file (links followed) against every other caller of this function,
 * other threads too, until bite_file_unlock(*held). Waits a few seconds, then BITE_BUSY. *held: -1
 * if there is no such folder, or if its file system has no locks.
 */
bite_status bite_file_lock(const char *path, int *held, bite_error *error);
void bite_file_unlock(int held);

#endif
