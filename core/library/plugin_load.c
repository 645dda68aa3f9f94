/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Plugin loading: finding a family's plugin, opening it, and checking its descriptor. */
#include "core/library/plugin_load.h"
#include "core/base/display_text.h"
#include "core/base/error.h"
#include "core/library/arena_list.h"
#include "core/library/path_trust.h"
#include "core/library/plugin_host.h"
#include "core/library/plugin_own.h"
#include <dlfcn.h>
#include <errno.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

/* Records why a plugin is refused, and with it its family, and returns that status. */
static bite_status leave_out(const bite_library *library, bite_family_state *family,
                             const char *path, bite_status status, const char *message,
                             const char *more, bite_error *error)
{
    if (message != NULL) {
        bite_error_set(&family->plugin_error, status, "%s%s", message, more);
        bite_error_place(&family->plugin_error, path, 0, 0);
        bite_error_hint(&family->plugin_error, "rebuild the plugin, or remove it");
    }
    family->tried = BITE_PLUGIN_REFUSED;
    family->plugin_status = status;
    if (!bite_library_add_left_out(library, family->name, family->plugin_error.file,
                                   &family->plugin_error)) {
        return bite_error_set(error, BITE_NO_MEMORY,
                              "no memory for the reason why a plugin is left out");
    }
    if (error != NULL) {
        *error = family->plugin_error;
    }
    return status;
}

/* A descriptor is at least as long as what tells its name, and no longer than this: a longer one is
 * of a newer header, or is none. */
#define DESCRIPTOR_LEAST offsetof(struct bite_family, fill)
#define DESCRIPTOR_MOST 4096

/* Copies what this library knows of a descriptor; the members behind its end are NULL. Returns its
 * fault; NULL: none. */
static const char *read_descriptor(const struct bite_family *descriptor, const char *name,
                                   struct bite_family *copy, char *text, size_t size)
{
    if (descriptor == NULL) {
        return "its entry function returns no family";
    }
    uint32_t length = descriptor->struct_size;
    if (length < DESCRIPTOR_LEAST) {
        return "its descriptor is shorter than any version of the plugin interface";
    }
    uint32_t major = descriptor->abi & 0xffffu;
    if (major != BITE_FAMILY_ABI_MAJOR) {
        (void)snprintf(
            text, size,
            "it was built for version %u of the plugin interface; this library has version %u",
            major, BITE_FAMILY_ABI_MAJOR);
        return text;
    }
    if (length > DESCRIPTOR_MOST || length % sizeof(void *) != 0) {
        (void)snprintf(text, size, "its descriptor does not end after a member: it has %lu bytes",
                       (unsigned long)length);
        return text;
    }
    memset(copy, 0, sizeof *copy);
    memcpy(copy, descriptor, length < sizeof *copy ? length : sizeof *copy);
    if (copy->name == NULL || strcmp(copy->name, name) != 0) {
        return "the name of its family is not the name of its file";
    }
    if (copy->table == NULL || strchr(copy->table, '/') != NULL ||
        bite_plugin_text_fault(copy->table) != BITE_TEXT_SOUND) {
        return "the name of its table is not a plain file name";
    }
    return NULL;
}

static bite_status open_plugin(const bite_library *library, bite_family_state *family, char *real,
                               bite_error *error)
{
    /* No other user can replace the file at this path (path_trust.c). The plugin is never closed:
     * its texts and state live until the process ends. */
    errno = 0; /* ENOMEM afterwards is from malloc: the plugin may be good, whatever dlerror says */
    void *object = dlopen(real, RTLD_NOW | RTLD_LOCAL | RTLD_NODELETE);
    if (object == NULL) {
        int number = errno;
        const char *why = dlerror();
        if (number == ENOMEM) {
            bite_error_set(error, BITE_NO_MEMORY, "no memory to open a plugin");
            bite_error_place(error, real, 0, 0);
            return BITE_NO_MEMORY;
        }
        return leave_out(library, family, real, BITE_BAD_PLUGIN,
                         "the plugin cannot be opened: ", why == NULL ? "" : why, error);
    }
    const struct bite_family *(*entry)(void) = NULL;
    void *symbol = dlsym(object, BITE_FAMILY_SYMBOL);
    if (symbol == NULL) {
        return leave_out(library, family, real, BITE_BAD_PLUGIN,
                         "the plugin does not export " BITE_FAMILY_SYMBOL, "", error);
    }
    memcpy(&entry, &symbol, sizeof entry);
    struct bite_family *descriptor = bite_arena_alloc(library->arena, 1, sizeof *descriptor);
    if (descriptor == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a plugin");
    }
    char text[BITE_OWN_FAULT_MAX];
    const char *wrong = read_descriptor(entry(), family->name, descriptor, text, sizeof text);
    if (wrong != NULL) {
        return leave_out(library, family, real, BITE_BAD_PLUGIN, wrong, "", error);
    }
    const struct bite_plugin_own *own = bite_plugin_own_read(library, descriptor, text);
    if (own == NULL) {
        return text[0] != 0 ? leave_out(library, family, real, BITE_BAD_PLUGIN, text, "", error)
                            : bite_error_set(error, BITE_NO_MEMORY, "no memory for a plugin");
    }
    bite_plugin_host host = bite_plugin_host_make();
    if (descriptor->check != NULL && descriptor->check(&host.host) != BITE_FAMILY_OK) {
        return leave_out(library, family, real, BITE_BAD_PLUGIN,
                         "the plugin failed its own check: ", host.reason, error);
    }
    char *shown = bite_text_escaped(library->arena, real);
    if (shown == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a plugin's path");
    }
    family->plugin = descriptor;
    family->own = own;
    family->plugin_path = shown;
    family->tried = BITE_PLUGIN_GOOD;
    return BITE_OK;
}

bite_plugin_need bite_plugin_need_of(const bite_family_state *family)
{
    const bite_field_value *value =
        family->family == NULL ? NULL : bite_section_value(family->family, "plugin");
    return value == NULL ? BITE_PLUGIN_UNSTATED : (bite_plugin_need)value->word;
}

/* A table that is wrong without its plugin. */
static bite_status leave_out_missing(const bite_library *library, bite_family_state *family,
                                     const char *file, bite_error *error)
{
    bite_error *own = &family->plugin_error;
    bite_error_clear(own);
    own->struct_size = (uint32_t)sizeof *own;
    bite_error_set(own, BITE_BAD_PLUGIN,
                   "the table requires the plugin %s, which is in no folder of plugins", file);
    bite_error_place(own, family->file, family->family->line, 0);
    bite_error_key(own, "family:plugin");
    bite_error_hint(own, "install it; COOLBITE_FAMILY_PATH names more folders");
    return leave_out(library, family, NULL, BITE_BAD_PLUGIN, NULL, "", error);
}

bite_status bite_plugin_load(const bite_library *library, bite_family_state *family,
                             bite_error *error)
{
    if (family->tried == BITE_PLUGIN_REFUSED) {
        if (error != NULL) {
            *error = family->plugin_error;
        }
        return family->plugin_status;
    }
    if (family->tried != BITE_PLUGIN_UNTRIED) {
        return BITE_OK;
    }
    char file[96];
    (void)snprintf(file, sizeof file, "%s.so", family->name);
    for (size_t i = 0; i < library->families.count; i++) {
        char *path = bite_path_join(library->arena, library->families.folders[i], file);
        char *real = NULL;
        bite_error_clear(&family->plugin_error);
        family->plugin_error.struct_size = (uint32_t)sizeof family->plugin_error;
        bite_status status =
            path == NULL
                ? BITE_NO_MEMORY
                : bite_path_trust_check(&library->allocator, library->arena, BITE_TRUST_PLUGIN,
                                        path, &real, &family->plugin_error);
        if (status == BITE_NO_MEMORY) {
            return bite_error_set(error, BITE_NO_MEMORY, "no memory for a plugin's path");
        }
        if (status == BITE_OK) {
            return open_plugin(library, family, real, error);
        }
        /* A dangling link is a fault: a plugin was meant to be here. */
        char target[2];
        if (status != BITE_NOT_FOUND || readlink(path, target, sizeof target) >= 0) {
            return leave_out(library, family, path,
                             status == BITE_NOT_FOUND ? BITE_BAD_PLUGIN : status,
                             status == BITE_NOT_FOUND
                                 ? "the plugin is a symbolic link to a file that does not exist"
                                 : NULL,
                             "", error);
        }
    }
    if (bite_plugin_need_of(family) == BITE_PLUGIN_REQUIRED) {
        return leave_out_missing(library, family, file, error);
    }
    family->tried = BITE_PLUGIN_NONE;
    return BITE_OK;
}
