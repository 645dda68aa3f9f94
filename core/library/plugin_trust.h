/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Plugin trust: whether a plugin may be opened. It may if no other user can change it or put
 * another file in its place. */
#ifndef BITE_LIBRARY_PLUGIN_TRUST_H
#define BITE_LIBRARY_PLUGIN_TRUST_H

#include "core/base/memory.h"
#include <coolbite/coolbite.h>

/**
 * Checks a plugin before it is opened, because its code runs as soon as it is.
 *
 * Walks from the root folder down. The plugin, each folder and each symbolic link on the path must
 * belong to root or to the effective user. The plugin and the folder that contains it must not be
 * writable by a group or by others. A folder above may be, if its sticky bit keeps others from
 * renaming files that are not theirs. So no other user can change what the path leads to, neither
 * before the file is opened nor between this check and dlopen.
 *
 * *real: the path without links, in the arena, for dlopen and for messages. allocator: for the time
 * of the call.
 *
 * BITE_NOT_FOUND: there is no such file. BITE_UNSAFE: another user could change it; the error names
 * the file or folder. BITE_BAD_PLUGIN: not a regular file, or its path cannot be examined.
 * BITE_NO_MEMORY: also if the system has none to examine it.
 */
bite_status bite_plugin_trust_check(const bite_allocator *allocator, bite_arena *arena,
                                    const char *path, char **real, bite_error *error);

#endif
