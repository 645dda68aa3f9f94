/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bytes of a family's tables: read once, for the index of their names and for parsing. */
#include "core/library/table_bytes.h"
#include "core/base/error.h"
#include "core/base/file.h"
#include "core/library/memory_table.h"
#include "core/library/name_index.h"
#include "core/library/path_trust.h"
#include "core/tables/ini_check.h"
#include <stdio.h>
#include <string.h>
#include <unistd.h>

static bite_status no_memory(bite_error *error)
{
    return bite_error_set(error, BITE_NO_MEMORY, "no memory for a family's tables");
}

bite_status bite_table_bytes_find(const bite_library *library, bite_family_state *family,
                                  bite_error *error)
{
    char file[96];
    if (family->found) {
        return BITE_OK;
    }
    (void)snprintf(file, sizeof file, "materials/%s.ini", family->name);
    family->bytes_count = 0;
    const bite_memory_table *table = NULL;
    for (size_t i = 0; (table = bite_memory_table_at(library, file, i)) != NULL; i++) {
        bite_table_bytes *bytes = &family->bytes[family->bytes_count];
        bytes->path = bite_arena_text(library->arena, file, strlen(file));
        bytes->text = bite_memory_new(&library->allocator, table->size + 1, 1);
        if (bytes->path == NULL || bytes->text == NULL) {
            bite_memory_free(&library->allocator, bytes->text);
            bytes->text = NULL;
            bite_table_bytes_free(library, family);
            return no_memory(error);
        }
        memcpy(bytes->text, table->text, table->size);
        bytes->size = table->size;
        family->bytes_count++;
    }
    for (size_t i = 0; i < library->tables.count; i++) {
        char *path = bite_path_join(library->arena, library->tables.folders[i], file);
        if (path == NULL) {
            return no_memory(error);
        }
        if (access(path, F_OK) == 0) {
            family->bytes[family->bytes_count++].path = path;
        }
    }
    family->found = 1;
    return BITE_OK;
}

bite_status bite_table_bytes_index(const bite_library *library, bite_family_state *family,
                                   bite_error *error)
{
    if (family->indexed || (family->read && family->status == BITE_OK)) {
        return BITE_OK;
    }
    bite_status status = bite_table_bytes_find(library, family, error);
    family->names.names.count = 0;
    for (size_t i = 0; status == BITE_OK && i < family->bytes_count; i++) {
        bite_table_bytes *bytes = &family->bytes[i];
        if (bytes->text == NULL) {
            status = bite_path_trust_check(&library->allocator, NULL, BITE_TRUST_TABLE, bytes->path,
                                           NULL, NULL);
        }
        if (status == BITE_OK && bytes->text == NULL) {
            status = bite_file_read(&library->allocator, bytes->path, BITE_INI_SIZE_MAX,
                                    &bytes->text, &bytes->size, NULL);
        }
        if (status == BITE_NO_MEMORY ||
            (status == BITE_OK &&
             !bite_name_index_add(library->arena, &family->names, bytes->text, bytes->size))) {
            return no_memory(error);
        }
        family->unreadable |= status != BITE_OK;
        status = BITE_OK;
    }
    family->indexed = status == BITE_OK;
    return status;
}

bool bite_table_bytes_mention(const bite_family_state *family, const char *name)
{
    for (size_t i = 0; i < family->bytes_count; i++) {
        const bite_table_bytes *bytes = &family->bytes[i];
        if (bytes->text != NULL && bite_name_occurs(bytes->text, bytes->size, name)) {
            return true;
        }
    }
    return false;
}

void bite_table_bytes_free(const bite_library *library, bite_family_state *family)
{
    for (size_t i = 0; i < family->bytes_count; i++) {
        bite_memory_free(&library->allocator, family->bytes[i].text);
        family->bytes[i].text = NULL;
    }
    family->names.names.count = 0;
    family->indexed = 0;
}
