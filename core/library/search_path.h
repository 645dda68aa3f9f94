/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The folders of tables and of plugins, in the order in which they are searched. */
#ifndef BITE_LIBRARY_SEARCH_PATH_H
#define BITE_LIBRARY_SEARCH_PATH_H

#include "core/base/memory.h"
#include <coolbite/coolbite.h>
#include <stdbool.h>

#define BITE_SEARCH_PATH_MAX 32

/** Folders, first searched first. Texts live in the arena. */
typedef struct bite_search_path {
    const char *folders[BITE_SEARCH_PATH_MAX];
    size_t count;
    bool full; /* a folder found no room */
} bite_search_path;

/** Tables: the caller's folders, COOLBITE_TABLE_PATH, $XDG_CONFIG_HOME/coolbite/tables,
 * $XDG_DATA_HOME/coolbite/tables, the installed folder. Families: the caller's folders,
 * COOLBITE_FAMILY_PATH, $XDG_DATA_HOME/coolbite/plugins, the installed folder. The environment is
 * ignored in a process that has more rights than its caller (set-user-ID). BITE_OUT_OF_RANGE: more
 * folders than BITE_SEARCH_PATH_MAX, none of which may be left out without a word. */
bite_status bite_search_path_tables(bite_arena *arena, const char *given, bite_search_path *folders,
                                    bite_error *error);
bite_status bite_search_path_families(bite_arena *arena, const char *given,
                                      bite_search_path *folders, bite_error *error);

/** The folder that the library writes to: $XDG_DATA_HOME/coolbite/tables. It may not exist yet. */
bite_status bite_search_path_user_data(bite_arena *arena, const char **folder, bite_error *error);

/** The shop's own set-up: the file that COOLBITE_CONFIG names (*named is set, and "none" is no
 * file), else $XDG_CONFIG_HOME/coolbite/coolbite.ini or ~/.config/coolbite/coolbite.ini, which may
 * not exist. *path NULL: none. The environment is ignored as above. */
bite_status bite_search_path_user_setup(bite_arena *arena, const char **path, bool *named,
                                        bite_error *error);

/** "<folder>/<name>" in the arena; NULL: no memory. */
char *bite_path_join(bite_arena *arena, const char *folder, const char *name);

#endif
