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
    char name[PATH_MAX];      /* the component that is checked now; at the end, the folder */
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

/* The system could not say what is at the path, which it may if it has no memory either. */
static bite_status unexamined(bite_error *error, const char *path, int number)
{
    if (number != ENOMEM) {
        return bad(error, path, "the path to the plugin cannot be examined");
    }
    return bite_error_set(error, BITE_NO_MEMORY, "no memory to examine a plugin's path");
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

/* Moves the next component from the remaining path into the name. 0: nothing is left. */
static int next_component(path_walk *walk)
{
    const char *start = walk->remaining + strspn(walk->remaining, "/");
    size_t length = strcspn(start, "/");
    memcpy(walk->name, start, length);
    walk->name[length] = 0;
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

static int add_component(path_walk *walk)
{
    size_t used = strlen(walk->checked);
    int length = snprintf(walk->checked + used, sizeof walk->checked - used, "/%s", walk->name);
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
    if (length < 0 && errno == ENOMEM) {
        return unexamined(error, walk->checked, errno);
    }
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
static bite_status step(path_walk *walk, struct stat *about, bite_error *error)
{
    if (strcmp(walk->name, ".") == 0) {
        return BITE_OK;
    }
    if (strcmp(walk->name, "..") == 0) {
        drop_component(walk->checked); /* nothing above is a link, so this is where .. leads */
        return BITE_OK;
    }
    if (!add_component(walk)) {
        return bad(error, walk->checked, "the path to the plugin is too long");
    }
    if (lstat(walk->checked, about) != 0) {
        return is_absent(errno) ? no_plugin(error, walk->checked)
                                : unexamined(error, walk->checked, errno);
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
        const char *folder = getcwd(walk->remaining, sizeof walk->remaining);
        if (folder == NULL && errno == ENOMEM) {
            return unexamined(error, path, errno);
        }
        if (folder == NULL || folder[0] != '/') {
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
        return unexamined(error, path, errno);
    }
    return check_access(&about, 1, "/", "a folder on the path to the plugin", error);
}

/* The plugin, and the folder that contains it, for which the sticky bit is not enough. */
static bite_status check_plugin(path_walk *walk, bite_error *error)
{
    struct stat about;
    struct stat above;
    const char *path = walk->checked;
    char *folder = walk->name;
    memcpy(folder, path, strlen(path) + 1);
    drop_component(folder);
    if (lstat(path, &about) != 0 || lstat(folder[0] == 0 ? "/" : folder, &above) != 0) {
        return unexamined(error, path, errno);
    }
    if (!S_ISREG(about.st_mode)) {
        return bad(error, path,
                   S_ISDIR(about.st_mode) ? "this is a folder; a plugin was expected"
                                          : "this is not a regular file; a plugin was expected");
    }
    bite_status status = check_access(&above, 0, folder, "the plugin's folder", error);
    return status == BITE_OK ? check_access(&about, 0, path, "the plugin", error) : status;
}

static bite_status walk_to(path_walk *walk, const char *path, bite_error *error)
{
    struct stat about;
    bite_status status = start(walk, path, error);
    while (status == BITE_OK && next_component(walk)) {
        status = step(walk, &about, error);
    }
    return status == BITE_OK ? check_plugin(walk, error) : status;
}

bite_status bite_plugin_trust_check(const bite_allocator *allocator, bite_arena *arena,
                                    const char *path, char **real, bite_error *error)
{
    struct stat about;
    /* if there is no plugin, the folders above do not matter */
    if (lstat(path, &about) != 0 && is_absent(errno)) {
        return no_plugin(error, path);
    }
    path_walk *walk = bite_memory_new(allocator, 1, sizeof *walk);
    if (walk == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a plugin's path");
    }
    bite_status status = walk_to(walk, path, error);
    char *kept =
        status == BITE_OK ? bite_arena_text(arena, walk->checked, strlen(walk->checked)) : NULL;
    bite_memory_free(allocator, walk);
    if (status == BITE_OK && kept == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a plugin's path");
    }
    if (status == BITE_OK) {
        *real = kept;
    }
    return status;
}
