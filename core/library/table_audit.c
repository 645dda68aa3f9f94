/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What an audit asks of a library of its own: a family's faults as a whole, and one plugin alone.
 */
#include "core/library/table_audit.h"
#include "core/base/error.h"
#include "core/base/text.h"
#include "core/library/family_tables.h"
#include "core/library/library.h"
#include "core/library/plugin_load.h"
#include <string.h>

static bite_family_state *family_named(const bite_library *library, const char *name, size_t length)
{
    bite_family_state *const *families = library->found->items;
    for (size_t i = 0; i < library->found->count; i++) {
        if (bite_text_equals_part(name, length, families[i]->name)) {
            return families[i];
        }
    }
    return NULL;
}

bite_status bite_library_audit_family(const bite_library *library, const char *family,
                                      bite_fault_sink fault, void *user, uint32_t *count,
                                      bite_error *error)
{
    (void)pthread_mutex_lock(library->lock);
    bite_family_state *state = family_named(library, family, strlen(family));
    bite_status status =
        state == NULL ? BITE_OK : bite_family_audit(library, state, fault, user, count, error);
    (void)pthread_mutex_unlock(library->lock);
    return status;
}

static bite_status load(bite_library *library, const char *folder, const char *file,
                        bool *has_table, bite_error *error)
{
    size_t length = bite_library_family_length(file);
    *has_table = family_named(library, file, length) != NULL;
    library->families.folders[0] = bite_arena_text(library->arena, folder, strlen(folder));
    library->families.count = 1;
    if (library->families.folders[0] == NULL || !bite_library_add_family(library, file)) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a plugin");
    }
    bite_family_state *family = family_named(library, file, length);
    bite_status status = bite_material_read(library, family, error);
    status = status == BITE_OK ? bite_plugin_load(library, family, error) : status;
    if (status == BITE_OK && family->tried == BITE_PLUGIN_NONE) {
        bite_error_set(error, BITE_NOT_FOUND, "there is no such file");
        bite_error_place(error, folder, 0, 0);
        return BITE_NOT_FOUND;
    }
    return status;
}

bite_status bite_library_load_only(bite_library *library, const char *folder, const char *file,
                                   bool *has_table, bite_error *error)
{
    (void)pthread_mutex_lock(library->lock);
    bite_status status = load(library, folder, file, has_table, error);
    (void)pthread_mutex_unlock(library->lock);
    return status;
}
