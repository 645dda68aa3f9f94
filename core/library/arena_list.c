/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lists that grow in the library's arena, and the list of tables and plugins left out. */
#include "core/library/arena_list.h"
#include "core/base/display_text.h"
#include "core/base/text.h"
#include "core/library/library_internal.h"
#include <stdio.h>
#include <string.h>

void *bite_arena_list_add(bite_arena *arena, bite_arena_list *list, const void *item, size_t size)
{
    if (list->count == list->capacity) {
        size_t capacity = list->capacity == 0 ? 8 : 2 * list->capacity;
        void *more = bite_arena_alloc(arena, capacity, size);
        if (more == NULL) {
            return NULL;
        }
        if (list->count > 0) {
            memcpy(more, list->items, list->count * size);
        }
        list->items = more;
        list->capacity = capacity;
    }
    void *place = (char *)list->items + list->count * size;
    memcpy(place, item, size);
    list->count++;
    return place;
}

int bite_library_add_left_out(const bite_library *library, const char *name, const char *file,
                              const bite_error *error)
{
    char text[700];
    char place[48] = "";
    if (error->line > 0) {
        (void)snprintf(place, sizeof place, "line %u%s", error->line,
                       error->key[0] != 0 ? ", " : ": ");
    }
    (void)snprintf(text, sizeof text, "%s%s%s%s%s%s%s", place, error->key,
                   error->key[0] != 0 ? ": " : "", error->message, error->hint[0] != 0 ? " (" : "",
                   error->hint, error->hint[0] != 0 ? ")" : "");
    bite_item item = {bite_arena_text(library->arena, name, strlen(name)), "",
                      bite_arena_text(library->arena, text, strlen(text)),
                      bite_text_escaped(library->arena, file)};
    return item.name != NULL && item.summary != NULL && item.file != NULL &&
           bite_arena_list_add(library->arena, library->left_out, &item, sizeof item) != NULL;
}
