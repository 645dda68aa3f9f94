/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where tables and families lie, in the order in which they are searched. */
#ifndef BITE_LIBRARY_SEARCH_PATH_H
#define BITE_LIBRARY_SEARCH_PATH_H

#include "core/base/memory.h"
#include <coolbite/coolbite.h>

#define BITE_SEARCH_PATH_MAX 32

/** Folders, first searched first. Texts live in the arena. */
typedef struct bite_search_path {
    const char *folders[BITE_SEARCH_PATH_MAX];
    size_t count;
} bite_search_path;

/** Tables: what the caller says, COOLBITE_TABLE_PATH, the user's own, what was installed. Families:
 * the same without the user's own. The environment is not asked in a process that has more rights
 * than its caller. */
bite_status bite_search_path_tables(bite_arena *arena, const char *given, bite_search_path *folders,
                                    bite_error *error);
bite_status bite_search_path_families(bite_arena *arena, const char *given,
                                      bite_search_path *folders, bite_error *error);

/** The folder of what the library itself writes: $XDG_DATA_HOME/coolbite/tables; it may not be
 * there yet. */
bite_status bite_search_path_user_data(bite_arena *arena, const char **folder, bite_error *error);

/** "<folder>/<name>" in the arena; NULL: no memory. */
char *bite_path_join(bite_arena *arena, const char *folder, const char *name);

#endif
