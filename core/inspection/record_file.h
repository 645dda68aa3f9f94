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

#endif
