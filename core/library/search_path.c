/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The folders of tables and of plugins, in the order in which they are searched. */
#include "core/library/search_path.h"
#include "core/base/error.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#ifdef HAVE_CONFIG_H
#include <config.h>
#endif

static const char *environment_value(const char *name)
{
#if defined(HAVE_SECURE_GETENV) || defined(__GLIBC__)
    return secure_getenv(name);
#else
    return getuid() == geteuid() && getgid() == getegid() ? getenv(name) : NULL;
#endif
}

char *bite_path_join(bite_arena *arena, const char *folder, const char *name)
{
    size_t length = strlen(folder) + strlen(name) + 2;
    char *path = bite_arena_alloc(arena, length, 1);
    if (path != NULL) {
        (void)snprintf(path, length, "%s/%s", folder, name);
    }
    return path;
}

static int add(bite_arena *arena, bite_search_path *folders, const char *text, size_t length)
{
    if (length == 0) {
        return 1;
    }
    if (folders->count == BITE_SEARCH_PATH_MAX) {
        folders->full = true;
        return 1;
    }
    char *folder = bite_arena_text(arena, text, length);
    if (folder == NULL) {
        return 0;
    }
    folders->folders[folders->count++] = folder;
    return 1;
}

static int add_list(bite_arena *arena, bite_search_path *folders, const char *list)
{
    while (list != NULL && *list != 0) {
        size_t length = strcspn(list, ":");
        if (!add(arena, folders, list, length)) {
            return 0;
        }
        list += length + (list[length] == ':');
    }
    return 1;
}

static const char user_tables[] = "coolbite/tables";

/* "NAME" in $XDG_..., which must be absolute, or in its default in the home folder. *path NULL:
 * there is neither. 0: no memory. */
static int user_path(bite_arena *arena, const char *variable, const char *fallback,
                     const char *name, char **path)
{
    const char *base = environment_value(variable);
    const char *home = environment_value("HOME");
    *path = NULL;
    if (base == NULL || base[0] != '/') {
        if (home == NULL || home[0] != '/') {
            return 1;
        }
        base = bite_path_join(arena, home, fallback);
    }
    *path = base == NULL ? NULL : bite_path_join(arena, base, name);
    return *path != NULL;
}

static int add_user_folder(bite_arena *arena, bite_search_path *folders, const char *variable,
                           const char *fallback, const char *name)
{
    char *path = NULL;
    return user_path(arena, variable, fallback, name, &path) &&
           (path == NULL || add(arena, folders, path, strlen(path)));
}

bite_status bite_search_path_user_setup(bite_arena *arena, const char **path, bool *named,
                                        bite_error *error)
{
    const char *given = environment_value("COOLBITE_CONFIG");
    char *own = NULL;
    *named = given != NULL && given[0] != 0;
    if (*named) {
        *path = strcmp(given, "none") == 0 ? NULL : given;
        return BITE_OK;
    }
    if (!user_path(arena, "XDG_CONFIG_HOME", ".config", "coolbite/coolbite.ini", &own)) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for the search path");
    }
    *path = own;
    return BITE_OK;
}

bite_status bite_search_path_user_data(bite_arena *arena, const char **folder, bite_error *error)
{
    bite_search_path folders = {{NULL}, 0, false};
    if (!add_user_folder(arena, &folders, "XDG_DATA_HOME", ".local/share", user_tables)) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for the search path");
    }
    if (folders.count == 0) {
        return bite_error_set(error, BITE_NOT_FOUND,
                              "neither XDG_DATA_HOME nor HOME names a folder for your own tables");
    }
    *folder = folders.folders[0];
    return BITE_OK;
}

/* good: 0 if memory ran out. */
static bite_status list_status(int good, const bite_search_path *folders, const char *variable,
                               bite_error *error)
{
    if (!good) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for the search path");
    }
    if (folders->full) {
        bite_error_set(error, BITE_OUT_OF_RANGE, "more than %d folders to search",
                       BITE_SEARCH_PATH_MAX);
        bite_error_key(error, "%s", variable);
        bite_error_hint(error, "leave some of them out");
        return BITE_OUT_OF_RANGE;
    }
    return BITE_OK;
}

bite_status bite_search_path_tables(bite_arena *arena, const char *given, bite_search_path *folders,
                                    bite_error *error)
{
    folders->count = 0;
    folders->full = false;
    return list_status(
        add_list(arena, folders, given) &&
            add_list(arena, folders, environment_value("COOLBITE_TABLE_PATH")) &&
            add_user_folder(arena, folders, "XDG_CONFIG_HOME", ".config", user_tables) &&
            add_user_folder(arena, folders, "XDG_DATA_HOME", ".local/share", user_tables) &&
            add(arena, folders, BITE_TABLE_DIR, strlen(BITE_TABLE_DIR)),
        folders, "COOLBITE_TABLE_PATH", error);
}

bite_status bite_search_path_families(bite_arena *arena, const char *given,
                                      bite_search_path *folders, bite_error *error)
{
    folders->count = 0;
    folders->full = false;
    return list_status(
        add_list(arena, folders, given) &&
            add_list(arena, folders, environment_value("COOLBITE_FAMILY_PATH")) &&
            add_user_folder(arena, folders, "XDG_DATA_HOME", ".local/share", "coolbite/plugins") &&
            add(arena, folders, BITE_FAMILY_DIR, strlen(BITE_FAMILY_DIR)),
        folders, "COOLBITE_FAMILY_PATH", error);
}
