/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Plugin trust: whether a plugin may be opened.
 *
 * Each folder is examined only after all folders above it were found to be out of reach of other
 * users, so that nothing that has been examined can be replaced afterwards. The plugin can then be
 * opened by its path, which cannot come to lead anywhere else. (Opening the checked file through
 * its descriptor would not be safer, and the dynamic loader would know the plugin as
 * /proc/self/fd/7: in backtraces, in dladdr, as $ORIGIN, and as the same plugin as the next one
 * with descriptor 7.)
 */
#include "core/library/plugin_trust.h"
#include "core/base/error.h"
#include <errno.h>
#include <limits.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#ifndef PATH_MAX
#define PATH_MAX 4096
#endif
#define LINKS_MOST 40 /* as many as the kernel follows on one path */

typedef struct path_walk {
    char checked[PATH_MAX];   /* the part that was checked, without links; "" is the root */
    char remaining[PATH_MAX]; /* the part that was not checked yet */
    int links;
} path_walk;

static bite_status unsafe(bite_error *error, const char *path, const char *what, const char *why)
{
    bite_error_set(error, BITE_UNSAFE, "%s %s", what, why);
    bite_error_hint(error, "use chmod go-w, chown it to yourself or to root, or move the plugin");
    bite_error_place(error, path[0] == 0 ? "/" : path, 0, 0);
    return BITE_UNSAFE;
}

static bite_status bad(bite_error *error, const char *path, const char *why)
{
    bite_error_set(error, BITE_BAD_PLUGIN, "%s", why);
    bite_error_place(error, path[0] == 0 ? "/" : path, 0, 0);
    return BITE_BAD_PLUGIN;
}

static bite_status no_plugin(bite_error *error, const char *path)
{
    bite_error_set(error, BITE_NOT_FOUND, "there is no such plugin");
    bite_error_place(error, path, 0, 0);
    return BITE_NOT_FOUND;
}

static int is_absent(int number)
{
    return number == ENOENT || number == ENOTDIR;
}

/* Root and the user of this process gain nothing by replacing a plugin: they can already do all
 * that it could do. */
static int is_foreign(const struct stat *about)
{
    return about->st_uid != 0 && about->st_uid != geteuid();
}

/* An access control list that lets more users write shows in the mode bits of the group. */
static int others_can_write(const struct stat *about)
{
    return (about->st_mode & (S_IWGRP | S_IWOTH)) != 0;
}

static bite_status check_access(const struct stat *about, int sticky_is_fine, const char *path,
                                const char *what, bite_error *error)
{
    if (is_foreign(about)) {
        return unsafe(error, path, what, "belongs to another user");
    }
    if (others_can_write(about) && !(sticky_is_fine && (about->st_mode & S_ISVTX) != 0)) {
        return unsafe(error, path, what, "can be written by users other than its owner and root");
    }
    return BITE_OK;
}

/* Removes the next component from the remaining path. 0: nothing is left. */
static int next_component(path_walk *walk, char name[PATH_MAX])
{
    const char *start = walk->remaining + strspn(walk->remaining, "/");
    size_t length = strcspn(start, "/");
    memcpy(name, start, length);
    name[length] = 0;
    memmove(walk->remaining, start + length, strlen(start + length) + 1);
    return length > 0;
}

static void drop_component(char *path)
{
    char *slash = strrchr(path, '/');
    if (slash != NULL) {
        *slash = 0;
    }
}

static int add_component(path_walk *walk, const char *name)
{
    size_t used = strlen(walk->checked);
    int length = snprintf(walk->checked + used, sizeof walk->checked - used, "/%s", name);
    return length > 0 && (size_t)length < sizeof walk->checked - used;
}

/* Replaces a link at the end of the checked path by its target. */
static bite_status follow(path_walk *walk, const struct stat *about, bite_error *error)
{
    char target[PATH_MAX];
    if (is_foreign(about)) {
        return unsafe(error, walk->checked, "a symbolic link on the path to the plugin",
                      "belongs to another user");
    }
    ssize_t length = readlink(walk->checked, target, sizeof target);
    if (length <= 0 || ++walk->links > LINKS_MOST ||
        (size_t)length + strlen(walk->remaining) >= sizeof walk->remaining) {
        return bad(error, walk->checked, "the links to the plugin cannot be followed");
    }
    memmove(walk->remaining + length, walk->remaining, strlen(walk->remaining) + 1);
    memcpy(walk->remaining, target, (size_t)length);
    if (target[0] == '/') {
        walk->checked[0] = 0;
    } else {
        drop_component(walk->checked);
    }
    return BITE_OK;
}

/* Checks one more component. *about: of what was reached, unless a link was followed. */
static bite_status step(path_walk *walk, const char *name, struct stat *about, bite_error *error)
{
    if (strcmp(name, ".") == 0) {
        return BITE_OK;
    }
    if (strcmp(name, "..") == 0) {
        drop_component(walk->checked); /* nothing above is a link, so this is where .. leads */
        return BITE_OK;
    }
    if (!add_component(walk, name)) {
        return bad(error, walk->checked, "the path to the plugin is too long");
    }
    if (lstat(walk->checked, about) != 0) {
        return is_absent(errno)
                   ? no_plugin(error, walk->checked)
                   : bad(error, walk->checked, "the path to the plugin cannot be examined");
    }
    if (S_ISLNK(about->st_mode)) {
        return follow(walk, about, error);
    }
    return S_ISDIR(about->st_mode)
               ? check_access(about, 1, walk->checked, "a folder on the path to the plugin", error)
               : BITE_OK;
}

static bite_status start(path_walk *walk, const char *path, bite_error *error)
{
    struct stat about;
    size_t used = 0;
    walk->checked[0] = 0;
    walk->remaining[0] = 0;
    walk->links = 0;
    if (path[0] != '/') {
        if (getcwd(walk->remaining, sizeof walk->remaining) == NULL || walk->remaining[0] != '/') {
            return bad(
                error, path,
                "the working folder, which this relative path starts from, cannot be determined");
        }
        used = strlen(walk->remaining);
    }
    int length = snprintf(walk->remaining + used, sizeof walk->remaining - used, "/%s", path);
    if (length <= 0 || (size_t)length >= sizeof walk->remaining - used) {
        return bad(error, path, "the path to the plugin is too long");
    }
    if (lstat("/", &about) != 0) {
        return bad(error, path, "the path to the plugin cannot be examined");
    }
    return check_access(&about, 1, "/", "a folder on the path to the plugin", error);
}

/* The plugin, and the folder that contains it, for which the sticky bit is not enough. */
static bite_status check_plugin(const char *path, bite_error *error)
{
    struct stat about;
    struct stat above;
    char folder[PATH_MAX];
    (void)snprintf(folder, sizeof folder, "%s", path);
    drop_component(folder);
    if (lstat(path, &about) != 0 || lstat(folder[0] == 0 ? "/" : folder, &above) != 0) {
        return bad(error, path, "the path to the plugin cannot be examined");
    }
    if (!S_ISREG(about.st_mode)) {
        return bad(error, path,
                   S_ISDIR(about.st_mode) ? "this is a folder; a plugin was expected"
                                          : "this is not a regular file; a plugin was expected");
    }
    bite_status status = check_access(&above, 0, folder, "the plugin's folder", error);
    return status == BITE_OK ? check_access(&about, 0, path, "the plugin", error) : status;
}

bite_status bite_plugin_trust_check(bite_arena *arena, const char *path, char **real,
                                    bite_error *error)
{
    path_walk walk;
    struct stat about;
    char name[PATH_MAX];
    /* if there is no plugin, the folders above do not matter */
    if (lstat(path, &about) != 0 && is_absent(errno)) {
        return no_plugin(error, path);
    }
    bite_status status = start(&walk, path, error);
    while (status == BITE_OK && next_component(&walk, name)) {
        status = step(&walk, name, &about, error);
    }
    status = status == BITE_OK ? check_plugin(walk.checked, error) : status;
    if (status != BITE_OK) {
        return status;
    }
    char *kept = bite_arena_text(arena, walk.checked, strlen(walk.checked));
    if (kept == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a plugin's path");
    }
    *real = kept;
    return BITE_OK;
}
