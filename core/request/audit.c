/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Auditing a file: a plugin, or a table. */
#include "core/base/caller_struct.h"
#include "core/base/error.h"
#include "core/base/memory.h"
#include "core/request/audit_plugin.h"
#include "core/request/audit_table.h"
#include <string.h>

static int is_plugin(const char *base)
{
    size_t length = strlen(base);
    return length > 3 && strcmp(base + length - 3, ".so") == 0;
}

bite_status bite_audit_file(const char *path, const bite_audit_options *given, bite_audit *audit,
                            bite_error *error)
{
    bite_audit_options options;
    bite_audit own = {(uint32_t)sizeof own, BITE_AUDIT_OTHER, 0, 0, 0, 0};
    bite_error_clear(error);
    if (path == NULL || path[0] == 0 || !bite_struct_is_sound(&bite_struct_audit, audit)) {
        return bite_error_set(
            error, BITE_BAD_ARGUMENT,
            "a path, and a result that was begun by bite_audit_init were expected");
    }
    bite_status status =
        bite_struct_read(&bite_struct_audit_options, given, &options, "options", error);
    if (status != BITE_OK) {
        return status;
    }
    const char *slash = strrchr(path, '/');
    const bite_allocator *allocator = options.library == NULL || options.library->allocator == NULL
                                          ? bite_memory_default()
                                          : options.library->allocator;
    bite_audit_run run = {
        path, slash == NULL ? path : slash + 1, NULL, &options, allocator, &own, BITE_ERROR_INIT,
        0};
    status = is_plugin(run.base) ? bite_audit_plugin(&run, error) : bite_audit_table(&run, error);
    bite_struct_write(&bite_struct_audit, &own, audit);
    if (status == BITE_OK && run.faults > 0) {
        bite_error_copy(error, &run.first, run.faults);
        return BITE_BAD_FILE;
    }
    return status;
}
