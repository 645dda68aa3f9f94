/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where tables and families lie. */
#include "core/library/search_path.h"
#include "core/base/error.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#ifdef HAVE_CONFIG_H
#include <config.h>
#endif

static const char *ask_environment(const char *name)
{
#if defined(HAVE_SECURE_GETENV) || defined(__GLIBC__)
    return secure_getenv(name);
#else
    return getuid() == geteuid() && getgid() == getegid() ? getenv(name) : NULL;
#endif
}

char *bite_place_join(bite_arena *arena, const char *folder, const char *name)
{
    size_t length = strlen(folder) + strlen(name) + 2;
    char *path = bite_arena_take(arena, length, 1);
    if (path != NULL) {
        (void)snprintf(path, length, "%s/%s", folder, name);
    }
    return path;
}

static int add(bite_arena *arena, bite_places *places, const char *text, size_t length)
{
    if (length == 0 || places->count == BITE_PLACES_MOST) {
        return 1;
    }
    char *folder = bite_arena_text(arena, text, length);
    if (folder == NULL) {
        return 0;
    }
    places->folders[places->count++] = folder;
    return 1;
}

static int add_list(bite_arena *arena, bite_places *places, const char *list)
{
    while (list != NULL && *list != 0) {
        size_t length = strcspn(list, ":");
        if (!add(arena, places, list, length)) {
            return 0;
        }
        list += length + (list[length] == ':');
    }
    return 1;
}

/* $XDG_..., which must be absolute, or its default below the home folder. */
static int add_own(bite_arena *arena, bite_places *places, const char *variable, const char *usual)
{
    const char *base = ask_environment(variable);
    const char *home = ask_environment("HOME");
    char *path = NULL;
    if (base != NULL && base[0] == '/') {
        path = bite_place_join(arena, base, "coolbite/tables");
    } else if (home != NULL && home[0] == '/') {
        path = bite_place_join(arena, home, usual);
    } else {
        return 1;
    }
    return path != NULL && add(arena, places, path, strlen(path));
}

bite_status bite_places_own(bite_arena *arena, const char **folder, bite_error *error)
{
    bite_places places = {{NULL}, 0};
    if (!add_own(arena, &places, "XDG_DATA_HOME", ".local/share/coolbite/tables")) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for the places of tables");
    }
    if (places.count == 0) {
        return bite_error_set(error, BITE_NOT_FOUND, "neither XDG_DATA_HOME nor HOME names a folder for your own tables");
    }
    *folder = places.folders[0];
    return BITE_OK;
}

static bite_status ended(int good, bite_error *error)
{
    return good ? BITE_OK : bite_error_set(error, BITE_NO_MEMORY, "no memory for the places of tables");
}

bite_status bite_places_tables(bite_arena *arena, const char *given, bite_places *places, bite_error *error)
{
    places->count = 0;
    return ended(add_list(arena, places, given) && add_list(arena, places, ask_environment("COOLBITE_TABLE_PATH")) &&
                     add_own(arena, places, "XDG_CONFIG_HOME", ".config/coolbite/tables") &&
                     add_own(arena, places, "XDG_DATA_HOME", ".local/share/coolbite/tables") &&
                     add(arena, places, BITE_TABLE_DIR, strlen(BITE_TABLE_DIR)),
                 error);
}

bite_status bite_places_families(bite_arena *arena, const char *given, bite_places *places, bite_error *error)
{
    places->count = 0;
    return ended(add_list(arena, places, given) && add_list(arena, places, ask_environment("COOLBITE_FAMILY_PATH")) &&
                     add(arena, places, BITE_FAMILY_DIR, strlen(BITE_FAMILY_DIR)),
                 error);
}
