/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Whether a plugin may be opened.
 *
 * Each folder is looked at only after all above it were found to be beyond the reach of others, so
 * that nothing which has been looked at can be exchanged afterwards. The plugin can then be opened
 * by its path: the path cannot come to lead anywhere else. (To open the checked file through its
 * descriptor would not be safer, and the dynamic loader would know the plugin as /proc/self/fd/7:
 * in backtraces, in dladdr, as $ORIGIN, and as the same plugin as the next one with descriptor 7.)
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
#define LINKS_MOST 40 /* as the kernel follows on one way */

typedef struct walk {
    char done[PATH_MAX]; /* what has been checked, without links; "" is the root */
    char rest[PATH_MAX]; /* what is still to come */
    int links;
} walk;

static bite_status unsafe(bite_error *error, const char *path, const char *what, const char *why)
{
    bite_error_set(error, BITE_UNSAFE, "%s %s", what, why);
    bite_error_hint(error, "chmod go-w, chown to yourself or root, or move the plugin");
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

static int absent(int number)
{
    return number == ENOENT || number == ENOTDIR;
}

/* Root, and whoever runs this, need not be kept from anything that they could not do anyway. */
static int others_own(const struct stat *about)
{
    return about->st_uid != 0 && about->st_uid != geteuid();
}

/* An access list that lets more users write shows in the group's bits. */
static int others_write(const struct stat *about)
{
    return (about->st_mode & (S_IWGRP | S_IWOTH)) != 0;
}

static bite_status check(const struct stat *about, int sticky_is_fine, const char *path,
                         const char *what, bite_error *error)
{
    if (others_own(about)) {
        return unsafe(error, path, what, "belongs to another user");
    }
    if (others_write(about) && !(sticky_is_fine && (about->st_mode & S_ISVTX) != 0)) {
        return unsafe(error, path, what, "can be written by others than its owner or root");
    }
    return BITE_OK;
}

/* Takes the next name off what is still to come: 1; 0: nothing is left. */
static int next_name(walk *of, char name[PATH_MAX])
{
    const char *start = of->rest + strspn(of->rest, "/");
    size_t length = strcspn(start, "/");
    memcpy(name, start, length);
    name[length] = 0;
    memmove(of->rest, start + length, strlen(start + length) + 1);
    return length > 0;
}

static void drop_name(char *path)
{
    char *slash = strrchr(path, '/');
    if (slash != NULL) {
        *slash = 0;
    }
}

static int add_name(walk *of, const char *name)
{
    size_t used = strlen(of->done);
    int length = snprintf(of->done + used, sizeof of->done - used, "/%s", name);
    return length > 0 && (size_t)length < sizeof of->done - used;
}

/* A link at the end of what has been checked is replaced by what it names. */
static bite_status follow(walk *of, const struct stat *about, bite_error *error)
{
    char target[PATH_MAX];
    if (others_own(about)) {
        return unsafe(error, of->done, "a link on the way to the plugin",
                      "belongs to another user");
    }
    ssize_t length = readlink(of->done, target, sizeof target);
    if (length <= 0 || ++of->links > LINKS_MOST ||
        (size_t)length + strlen(of->rest) >= sizeof of->rest) {
        return bad(error, of->done, "the links to the plugin cannot be followed");
    }
    memmove(of->rest + length, of->rest, strlen(of->rest) + 1);
    memcpy(of->rest, target, (size_t)length);
    if (target[0] == '/') {
        of->done[0] = 0;
    } else {
        drop_name(of->done);
    }
    return BITE_OK;
}

/* One name further. *about: of what was reached, unless a link was followed. */
static bite_status step(walk *of, const char *name, struct stat *about, bite_error *error)
{
    if (strcmp(name, ".") == 0) {
        return BITE_OK;
    }
    if (strcmp(name, "..") == 0) {
        drop_name(of->done); /* nothing above is a link, so this is where .. leads */
        return BITE_OK;
    }
    if (!add_name(of, name)) {
        return bad(error, of->done, "the path to the plugin is too long");
    }
    if (lstat(of->done, about) != 0) {
        return absent(errno) ? no_plugin(error, of->done)
                             : bad(error, of->done, "the way to the plugin cannot be looked at");
    }
    if (S_ISLNK(about->st_mode)) {
        return follow(of, about, error);
    }
    return S_ISDIR(about->st_mode)
               ? check(about, 1, of->done, "a folder on the way to the plugin", error)
               : BITE_OK;
}

static bite_status start(walk *of, const char *path, bite_error *error)
{
    struct stat about;
    size_t used = 0;
    of->done[0] = 0;
    of->rest[0] = 0;
    of->links = 0;
    if (path[0] != '/') {
        if (getcwd(of->rest, sizeof of->rest) == NULL || of->rest[0] != '/') {
            return bad(error, path, "the working folder of this path cannot be told");
        }
        used = strlen(of->rest);
    }
    int length = snprintf(of->rest + used, sizeof of->rest - used, "/%s", path);
    if (length <= 0 || (size_t)length >= sizeof of->rest - used) {
        return bad(error, path, "the path to the plugin is too long");
    }
    if (lstat("/", &about) != 0) {
        return bad(error, path, "the way to the plugin cannot be looked at");
    }
    return check(&about, 1, "/", "a folder on the way to the plugin", error);
}

/* What was reached, and the folder that it lies in, which must be as tight. */
static bite_status check_plugin(const char *path, bite_error *error)
{
    struct stat about;
    struct stat above;
    char folder[PATH_MAX];
    (void)snprintf(folder, sizeof folder, "%s", path);
    drop_name(folder);
    if (lstat(path, &about) != 0 || lstat(folder[0] == 0 ? "/" : folder, &above) != 0) {
        return bad(error, path, "the way to the plugin cannot be looked at");
    }
    if (!S_ISREG(about.st_mode)) {
        return bad(error, path,
                   S_ISDIR(about.st_mode) ? "is a folder; a plugin was expected"
                                          : "is no regular file");
    }
    bite_status status = check(&above, 0, folder, "the plugin's folder", error);
    return status == BITE_OK ? check(&about, 0, path, "the plugin", error) : status;
}

bite_status bite_plugin_trust_check(bite_arena *arena, const char *path, char **real,
                                    bite_error *error)
{
    walk of;
    struct stat about;
    char name[PATH_MAX];
    /* where nothing lies, nobody needs to be warned of the folders above */
    if (lstat(path, &about) != 0 && absent(errno)) {
        return no_plugin(error, path);
    }
    bite_status status = start(&of, path, error);
    while (status == BITE_OK && next_name(&of, name)) {
        status = step(&of, name, &about, error);
    }
    status = status == BITE_OK ? check_plugin(of.done, error) : status;
    if (status != BITE_OK) {
        return status;
    }
    char *kept = bite_arena_text(arena, of.done, strlen(of.done));
    if (kept == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a plugin's path");
    }
    *real = kept;
    return BITE_OK;
}
