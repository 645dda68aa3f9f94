/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The target of a path for a writer: links are followed to their end, and descriptors and devices
 * are distinguished from files. */
#ifndef BITE_BASE_OUTPUT_TARGET_H
#define BITE_BASE_OUTPUT_TARGET_H

#include <coolbite/coolbite.h>
#include <limits.h>
#include <stdbool.h>
#include <sys/stat.h>

typedef enum bite_target_kind {
    BITE_TARGET_NEW = 0,    /* does not exist yet; its folder does */
    BITE_TARGET_FILE = 1,   /* a regular file */
    BITE_TARGET_STREAM = 2, /* a character device, a pipe, an open file of another process */
    BITE_TARGET_DESCRIPTOR =
        3 /* a descriptor of this process: /dev/stdout, /dev/fd/N, /proc/.../fd/N */
} bite_target_kind;

typedef struct bite_target {
    bite_target_kind kind;
    int descriptor; /* of a BITE_TARGET_DESCRIPTOR, borrowed; otherwise -1 */
    int folder;     /* O_PATH descriptor of the folder that name is in; -1 for a descriptor */
    int append;     /* 1: a stream that is appended to */
    char name[NAME_MAX + 1];
    struct stat about; /* zero for a BITE_TARGET_NEW */
} bite_target;

/**
 * Follows a path, and each link that it ends in, to what would be written.
 *
 * *target: owned, bite_target_close. BITE_CANNOT_WRITE: no such folder; a folder, disk or socket; a
 * cycle of links; a descriptor that is not open for writing; a link of another user in a folder
 * that everyone may write, which could lead anywhere.
 */
bite_status bite_target_find(const char *path, bite_target *target, bite_error *error);
void bite_target_close(bite_target *target);

/** Whether both are the same regular file (by device and inode, so hard links are the same file),
 * or the same new name in one folder. */
bool bite_target_same(const bite_target *first, const bite_target *second);

#endif
