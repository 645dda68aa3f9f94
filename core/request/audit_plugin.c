/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Auditing a plugin: it is loaded by a library that knows its folder alone, and its family is tried
 * with it. */
#include "core/request/audit_plugin.h"
#include "core/base/error.h"
#include "core/library/library.h"
#include "core/library/table_audit.h"
#include "core/request/audit_cuts.h"
#include <stdbool.h>
#include <stdio.h>
#include <string.h>

/* The family of FAMILY.so; length 0: it is not the name of one. */
static size_t family_of(const bite_audit_run *run, char *file, size_t size)
{
    size_t length = strlen(run->base) - strlen(".so");
    (void)snprintf(file, size, "%.*s.ini", (int)(length < 100 ? length : 100), run->base);
    return bite_library_family_length(file);
}

/* The folder of the path, as the folders of a library are named. */
static int folder_of(const bite_audit_run *run, char *folder, size_t size)
{
    size_t length = (size_t)(run->base - run->path);
    int needed = length == 0
                     ? snprintf(folder, size, ".")
                     : snprintf(folder, size, "%.*s", length > 1 ? (int)length - 1 : 1, run->path);
    return needed > 0 && (size_t)needed < size;
}

static bite_status judge(bite_audit_run *run, bite_library *library, const char *folder,
                         const char *file, bite_error *error)
{
    bite_error wrong = BITE_ERROR_INIT;
    char family[80];
    bool has_table = false;
    (void)snprintf(family, sizeof family, "%.*s", (int)bite_library_family_length(file), file);
    bite_audit_begin(run, "opening the plugin of", family);
    bite_status status = bite_library_load_only(library, folder, file, &has_table, &wrong);
    if (status == BITE_NO_MEMORY || status == BITE_NOT_FOUND) {
        bite_error_copy(error, &wrong, 0);
        return status;
    }
    run->audit->kind = BITE_AUDIT_PLUGIN;
    if (status != BITE_OK) {
        bite_audit_tell(run, &wrong);
        return BITE_OK;
    }
    if (!has_table) {
        char message[200];
        (void)snprintf(message, sizeof message,
                       "the plugin opens, but no folder of tables has materials/%.70s, so that it "
                       "cannot be tried",
                       file);
        bite_audit_tell_text(run, 0, "", message,
                             "COOLBITE_TABLE_PATH names the folder above materials");
        return BITE_OK;
    }
    return bite_audit_try_grades(run, library, family, 1, error);
}

bite_status bite_audit_plugin(bite_audit_run *run, bite_error *error)
{
    bite_library *library = NULL;
    char file[128];
    char folder[4096];
    run->audit->kind = BITE_AUDIT_PLUGIN;
    if (family_of(run, file, sizeof file) == 0) {
        bite_audit_tell_text(run, 0, "",
                             "a plugin has the name FAMILY.so, of letters a to z, digits and "
                             "hyphens, at most 64: no library finds this one",
                             "rename the file");
        return BITE_OK;
    }
    if (!folder_of(run, folder, sizeof folder)) {
        return bite_error_set(error, BITE_NOT_FOUND, "the path to the plugin is too long");
    }
    bite_status status = bite_library_open(run->options->library, &library, error);
    status = status == BITE_OK ? judge(run, library, folder, file, error) : status;
    bite_library_close(library);
    return status;
}
