/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The files of a folder that can be audited. */
#ifndef BITE_CLI_AUDIT_FILES_H
#define BITE_CLI_AUDIT_FILES_H

#include <stddef.h>

/** Paths, in the order of their bytes. All zero: none. */
struct audit_files {
    char **paths; /* each owned, and the list */
    size_t count;
    size_t capacity;
};

/** Finds all *.ini and *.so of a folder and of those below it; links to folders are not followed. A
 * path that is not a folder is found itself. 0, or errno, with the path of what could not be read
 * in *bad: owned by the caller, NULL if memory ran out. */
int audit_files_find(struct audit_files *files, const char *path, char **bad);

void audit_files_free(struct audit_files *files);

#endif
