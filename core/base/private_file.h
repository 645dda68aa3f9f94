/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Bytes where a library that reads paths alone can read them and nobody can change them: in memory,
 * opened through /proc, where the system has both; else in a file of mode 0600 in $TMPDIR (not in a
 * privileged process) or /tmp. Nothing stays behind.
 */
#ifndef BITE_BASE_PRIVATE_FILE_H
#define BITE_BASE_PRIVATE_FILE_H

#include <coolbite/coolbite.h>
#include <stdbool.h>

#define BITE_PRIVATE_PATH_MAX 4096

typedef struct bite_private_file {
    int file;                         /* its descriptor */
    bool named;                       /* path is a name in a folder, to be removed */
    char path[BITE_PRIVATE_PATH_MAX]; /* by which it is opened; good while the descriptor is */
} bite_private_file;

/** Ways to make one; the tests leave some out, as systems do. */
enum { BITE_PRIVATE_IN_MEMORY = 1, BITE_PRIVATE_BY_PROC = 2, BITE_PRIVATE_ALL = 3 };

/** Makes a file of these bytes. BITE_NO_MEMORY, or BITE_IO: it cannot be made; nothing is left
 * then. made: to be removed with bite_private_file_remove. */
bite_status bite_private_file_make(const char *text, size_t size, unsigned ways,
                                   bite_private_file *made, bite_error *error);
void bite_private_file_remove(bite_private_file *made);

#endif
