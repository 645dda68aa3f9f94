/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lists that grow in the library's arena, and the list of what was left out. */
#ifndef BITE_LIBRARY_ARENA_LIST_H
#define BITE_LIBRARY_ARENA_LIST_H

#include "core/base/memory.h"
#include "core/library/library_internal.h"
#include <coolbite/coolbite.h>
#include <stddef.h>

/** Adds a copy of item; NULL: no memory. */
void *bite_arena_list_add(bite_arena *arena, bite_arena_list *list, const void *item, size_t size);

/** Notes a table or plugin that was not taken, with its reason. 0: no memory. */
int bite_library_add_left_out(const bite_library *library, const char *name, const char *file,
                              const bite_error *error);

#endif
