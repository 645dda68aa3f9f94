/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lists that grow in the library's arena, and the list of tables and plugins left out. */
#ifndef BITE_LIBRARY_ARENA_LIST_H
#define BITE_LIBRARY_ARENA_LIST_H

#include "core/base/memory.h"
#include "core/library/library_internal.h"
#include <coolbite/coolbite.h>
#include <stddef.h>

/** Appends a copy of item. The copy, borrowed until the list grows; NULL: no memory. */
void *bite_arena_list_add(bite_arena *arena, bite_arena_list *list, const void *item, size_t size);

/** Records a table or plugin that was left out, with the reason. 0: no memory. */
int bite_library_add_left_out(const bite_library *library, const char *name, const char *file,
                              const bite_error *error);

#endif
