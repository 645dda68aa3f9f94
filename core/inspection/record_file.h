/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The file of a record, which others may append to while it is read. */
#ifndef BITE_INSPECTION_RECORD_FILE_H
#define BITE_INSPECTION_RECORD_FILE_H

#include "core/inspection/record_model.h"

/** Reports from errno why a file could not be opened: BITE_NOT_FOUND or BITE_IO. */
bite_status bite_record_file_unopened(const char *path, bite_error *error);

/** Reads a regular file from the byte `from` to its present end. *text: owned, bite_memory_free.
 * BITE_NOT_FOUND: it is not a regular file; BITE_BAD_FILE: too large; BITE_IO. */
BITE_CHECKED bite_status bite_record_file_read(const bite_allocator *allocator, int file,
                                               const char *path, uint64_t from, char **text,
                                               size_t *size, bite_error *error);

/** Remembers which file it is that was read. */
void bite_record_file_remember(struct bite_record *record, int file);

/**
 * Opens the file that was read for appending and locks it against others that append.
 *
 * *file: owned; bite_record_file_leave. BITE_CANNOT_WRITE: it may not be written, or its file
 * system has no locks; BITE_BUSY: another program has had the lock for seconds; BITE_IO: another
 * file has this name now.
 */
BITE_CHECKED bite_status bite_record_file_enter(const struct bite_record *record, int *file,
                                                bite_error *error);
void bite_record_file_leave(int file);

/** Appends a text to the file that was entered, syncs it and reads it back. BITE_CANNOT_WRITE,
 * BITE_IO: the file is as it was, as far as the disk allows. */
BITE_CHECKED bite_status bite_record_file_append(const struct bite_record *record, int file,
                                                 const char *text, size_t size, bite_error *error);

/** Makes a new file. BITE_CANNOT_WRITE: there is one already, or it cannot be made; nothing is
 * left. */
BITE_CHECKED bite_status bite_record_file_create(const char *path, const char *text, size_t size,
                                                 bite_error *error);

#endif
