/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether a plugin may be opened: who owns it, and who could put another file in its place. */
#ifndef BITE_LIBRARY_PLUGIN_TRUST_H
#define BITE_LIBRARY_PLUGIN_TRUST_H

#include "core/base/memory.h"
#include <coolbite/coolbite.h>

/**
 * Checks a plugin before it is opened, because its code runs as soon as it is.
 *
 * Walks from the root folder down. The plugin, each folder on the way and each symbolic link on the
 * way must belong to root or to the effective user. The plugin and the folder that holds it must
 * not be writable by a group or by others; a folder above only where its sticky bit keeps others
 * from renaming what is not theirs. So nobody else can change what the path leads to, neither
 * before the file is opened nor between this check and dlopen.
 *
 * *real: the path without links, in the arena, for dlopen and for messages.
 *
 * BITE_NOT_FOUND: nothing there. BITE_UNSAFE: someone else has a say; the error names the file or
 * folder. BITE_BAD_PLUGIN: not a regular file, or it cannot be looked at.
 */
bite_status bite_plugin_trust_check(bite_arena *arena, const char *path, char **real,
                                    bite_error *error);

#endif
