/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Adding a table from memory: it is checked as one from a file, and kept as bytes. */
#include "core/library/add_table.h"
#include "core/base/display_text.h"
#include "core/base/error.h"
#include "core/base/nearest_name.h"
#include "core/library/arena_list.h"
#include "core/library/family_tables.h"
#include "core/library/library.h"
#include "core/library/memory_table.h"
#include "core/library/schema.h"
#include <string.h>

static const char materials[] = "materials/";

static const char *file_name_at(size_t at, const void *unused)
{
    (void)unused;
    return bite_collection_file_at((int)at)->file;
}

/* The family of "materials/acrylic.ini"; *length 0: the name is not one of a family's table. */
static const char *family_in(const char *name, size_t *length)
{
    size_t folder = strlen(materials);
    *length = strncmp(name, materials, folder) == 0 ? bite_library_family_length(name + folder) : 0;
    return name + folder;
}

/* The first collection that is read from a file; BITE_COLLECTION_FILES: none is. */
static int collection_of(const char *name)
{
    int at = 0;
    while (at < BITE_COLLECTION_FILES && strcmp(bite_collection_file_at(at)->file, name) != 0) {
        at++;
    }
    return at;
}

static bite_status refuse_name(const char *name, bite_error *error)
{
    const char *near = bite_text_nearest(name, BITE_COLLECTION_FILES, file_name_at, NULL);
    bite_error_set(error, BITE_BAD_ARGUMENT, "%.60s is not the name of a table", name);
    bite_error_hint(
        error, near == NULL ? "a name is materials/FAMILY.ini, tools.ini ..." : "did you mean %s?",
        near);
    return BITE_BAD_ARGUMENT;
}

/* Whether the tables that this one would be among were read already. */
static bool is_late(const bite_library *library, const char *name)
{
    size_t length = 0;
    const char *family = family_in(name, &length);
    bite_family_state *const *families = library->found->items;
    if (length == 0) {
        return library->collections[collection_of(name)].read != 0;
    }
    for (size_t i = 0; i < library->found->count; i++) {
        if (strlen(families[i]->name) == length && memcmp(families[i]->name, family, length) == 0) {
            return families[i]->found != 0;
        }
    }
    return false;
}

static size_t count_of(const bite_library *library, const char *name)
{
    const bite_memory_table *all = library->memory_tables->items;
    size_t count = 0;
    for (size_t i = 0; i < library->memory_tables->count; i++) {
        count += strcmp(all[i].name, name) == 0;
    }
    return count;
}

static bite_status keep(bite_library *library, const char *name, const char *text, size_t size,
                        bite_error *error)
{
    size_t length = 0;
    bite_memory_table table = {bite_arena_text(library->arena, name, strlen(name)),
                               bite_arena_text(library->arena, text, size), size};
    if (is_late(library, name) || count_of(library, name) == BITE_MEMORY_TABLES_MAX) {
        return bite_error_set(error, BITE_BAD_ARGUMENT,
                              "a table is added before any table of its name is used, and at most "
                              "%d of one name",
                              BITE_MEMORY_TABLES_MAX);
    }
    const char *family = family_in(name, &length);
    bool good =
        table.name != NULL && table.text != NULL &&
        bite_arena_list_add(library->arena, library->memory_tables, &table, sizeof table) != NULL &&
        (length == 0 || bite_library_add_family(library, family));
    return good ? BITE_OK : bite_error_set(error, BITE_NO_MEMORY, "no memory for a table");
}

bite_status bite_library_add_table(bite_library *library, const char *name, const char *text,
                                   size_t size, bite_fault_sink fault, void *user,
                                   bite_error *error)
{
    size_t length = 0;
    bite_error_clear(error);
    if (library == NULL || name == NULL || (text == NULL && size > 0)) {
        return bite_error_set(error, BITE_BAD_ARGUMENT,
                              "an open library, the name of a table and its text were expected");
    }
    (void)family_in(name, &length);
    if (length == 0 && collection_of(name) == BITE_COLLECTION_FILES) {
        return refuse_name(name, error);
    }
    (void)pthread_mutex_lock(library->lock);
    bite_status status = BITE_OK;
    if (length > 0) {
        status = bite_family_table_check(library, name, text, size, fault, user, error);
    } else {
        bite_table *table = NULL;
        status = bite_table_parse(&library->allocator, text, size, name,
                                  &bite_collection_file_at(collection_of(name))->schema, fault,
                                  user, &table, error);
        bite_table_free(table);
    }
    status = status == BITE_OK ? keep(library, name, text, size, error) : status;
    (void)pthread_mutex_unlock(library->lock);
    return status;
}
