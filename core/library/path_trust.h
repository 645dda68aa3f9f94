/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Path trust: whether a plugin or a table may be opened. It may if no other user can change it or
 * put another file in its place: a plugin runs, and a table can drop a caution. */
#ifndef BITE_LIBRARY_PATH_TRUST_H
#define BITE_LIBRARY_PATH_TRUST_H

#include "core/base/memory.h"
#include <coolbite/coolbite.h>

typedef enum bite_trusted { BITE_TRUST_PLUGIN, BITE_TRUST_TABLE } bite_trusted;

/**
 * Checks a plugin or a table before it is opened.
 *
 * Walks from the root folder down. The file, each folder and each symbolic link on the path must
 * belong to root or to the effective user. The file and the folder that contains it must not be
 * writable by a group or by others. A folder above may be, if its sticky bit keeps others from
 * renaming files that are not theirs. So no other user can change what the path leads to, neither
 * before the file is opened nor between this check and the opening.
 *
 * *real: the path without links, in the arena, for dlopen and for messages; NULL: not wanted, nor
 * an arena. allocator: for the time of the call.
 *
 * BITE_NOT_FOUND: there is no such file, or no table but a folder or a pipe. BITE_UNSAFE: another
 * user could change it; the error names the file or folder. BITE_BAD_PLUGIN, BITE_BAD_FILE: no
 * regular file for a plugin, or a path that cannot be examined. BITE_NO_MEMORY: also if the system
 * has none to examine it.
 */
bite_status bite_path_trust_check(const bite_allocator *allocator, bite_arena *arena,
                                  bite_trusted kind, const char *path, char **real,
                                  bite_error *error);

#endif
