/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tables from memory: they are kept as bytes beside the folders of the search path. */
#include "core/library/memory_table.h"
#include <string.h>

const bite_memory_table *bite_memory_table_at(const bite_library *library, const char *name,
                                              size_t index)
{
    const bite_memory_table *all = library->memory_tables->items;
    for (size_t i = library->memory_tables->count; i-- > 0;) {
        if (strcmp(all[i].name, name) == 0 && index-- == 0) {
            return &all[i];
        }
    }
    return NULL;
}
