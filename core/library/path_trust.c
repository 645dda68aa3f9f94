/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Path trust: whether a plugin or a table may be opened.
 *
 * Each folder is examined only after all folders above it were found to be out of reach of other
 * users, so that nothing that has been examined can be replaced afterwards. The file can then be
 * opened by its path, which cannot come to lead anywhere else. (Opening the checked file through
 * its descriptor would not be safer, and the dynamic loader would know the plugin as
 * /proc/self/fd/7: in backtraces, in dladdr, as $ORIGIN, and as the same plugin as the next one
 * with descriptor 7.)
 */
#include "core/library/path_trust.h"
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

/* What is said of a kind of file. */
typedef struct trust_words {
    const char *noun;
    const char *remedy;
    bite_status bad;     /* the path to it cannot be examined */
    bite_status no_file; /* a folder or a pipe is in its place */
} trust_words;

static const trust_words words_of[] = {
    [BITE_TRUST_PLUGIN] = {"plugin", "move the plugin", BITE_BAD_PLUGIN, BITE_BAD_PLUGIN},
    [BITE_TRUST_TABLE] = {"table", "copy the tables to a folder of your own", BITE_BAD_FILE,
                          BITE_NOT_FOUND},
};

typedef struct path_walk {
    const trust_words *words;
    char checked[PATH_MAX];   /* the part that was checked, without links; "" is the root */
    char remaining[PATH_MAX]; /* the part that was not checked yet */
    char name[PATH_MAX];      /* the component that is checked now; at the end, the folder */
    int links;
} path_walk;

/* before, after: the words around the noun. */
static bite_status unsafe(const path_walk *walk, bite_error *error, const char *path,
                          const char *before, const char *after, const char *why)
{
    bite_error_set(error, BITE_UNSAFE, "%s%s%s %s", before, walk->words->noun, after, why);
    bite_error_hint(error, "use chmod go-w, chown it to yourself or to root, or %s",
                    walk->words->remedy);
    bite_error_place(error, path[0] == 0 ? "/" : path, 0, 0);
    return BITE_UNSAFE;
}

static bite_status tell(bite_status status, const trust_words *words, bite_error *error,
                        const char *path, const char *before, const char *after)
{
    bite_error_set(error, status, "%s%s%s", before, words->noun, after);
    bite_error_place(error, path[0] == 0 ? "/" : path, 0, 0);
    return status;
}

static bite_status bad(const path_walk *walk, bite_error *error, const char *path,
                       const char *before, const char *after)
{
    return tell(walk->words->bad, walk->words, error, path, before, after);
}

static bite_status absent(const trust_words *words, bite_error *error, const char *path)
{
    return tell(BITE_NOT_FOUND, words, error, path, "there is no such ", "");
}

static bite_status no_memory(const trust_words *words, bite_error *error)
{
    return bite_error_set(error, BITE_NO_MEMORY, "no memory for the path of a %s", words->noun);
}

/* The system could not say what is at the path, which it may if it has no memory either. */
static bite_status unexamined(const path_walk *walk, bite_error *error, const char *path,
                              int number)
{
    return number == ENOMEM ? no_memory(walk->words, error)
                            : bad(walk, error, path, "the path to the ", " cannot be examined");
}

static int is_absent(int number)
{
    return number == ENOENT || number == ENOTDIR;
}

/* Root and the user of this process gain nothing by replacing a plugin or a table: they can already
 * do all that it could do. */
static int is_foreign(const struct stat *about)
{
    return about->st_uid != 0 && about->st_uid != geteuid();
}

/* An access control list that lets more users write shows in the mode bits of the group. */
static int others_can_write(const struct stat *about)
{
    return (about->st_mode & (S_IWGRP | S_IWOTH)) != 0;
}

static bite_status check_access(const path_walk *walk, const struct stat *about, int sticky_is_fine,
                                const char *path, const char *before, const char *after,
                                bite_error *error)
{
    if (is_foreign(about)) {
        return unsafe(walk, error, path, before, after, "belongs to another user");
    }
    if (others_can_write(about) && !(sticky_is_fine && (about->st_mode & S_ISVTX) != 0)) {
        return unsafe(walk, error, path, before, after,
                      "can be written by users other than its owner and root");
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
        return unsafe(walk, error, walk->checked, "a symbolic link on the path to the ", "",
                      "belongs to another user");
    }
    ssize_t length = readlink(walk->checked, target, sizeof target);
    if (length < 0 && errno == ENOMEM) {
        return unexamined(walk, error, walk->checked, errno);
    }
    if (length <= 0 || ++walk->links > LINKS_MOST ||
        (size_t)length + strlen(walk->remaining) >= sizeof walk->remaining) {
        return bad(walk, error, walk->checked, "the links to the ", " cannot be followed");
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
        return bad(walk, error, walk->checked, "the path to the ", " is too long");
    }
    if (lstat(walk->checked, about) != 0) {
        return is_absent(errno) ? absent(walk->words, error, walk->checked)
                                : unexamined(walk, error, walk->checked, errno);
    }
    if (S_ISLNK(about->st_mode)) {
        return follow(walk, about, error);
    }
    return S_ISDIR(about->st_mode) ? check_access(walk, about, 1, walk->checked,
                                                  "a folder on the path to the ", "", error)
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
            return unexamined(walk, error, path, errno);
        }
        if (folder == NULL || folder[0] != '/') {
            return bad(walk, error, path, "the working folder, from which the path to the ",
                       " starts, cannot be determined");
        }
        used = strlen(walk->remaining);
    }
    int length = snprintf(walk->remaining + used, sizeof walk->remaining - used, "/%s", path);
    if (length <= 0 || (size_t)length >= sizeof walk->remaining - used) {
        return bad(walk, error, path, "the path to the ", " is too long");
    }
    if (lstat("/", &about) != 0) {
        return unexamined(walk, error, path, errno);
    }
    return check_access(walk, &about, 1, "/", "a folder on the path to the ", "", error);
}

/* The file, and the folder that contains it, for which the sticky bit is not enough. */
static bite_status check_file(path_walk *walk, bite_error *error)
{
    struct stat about;
    struct stat above;
    const char *path = walk->checked;
    char *folder = walk->name;
    memcpy(folder, path, strlen(path) + 1);
    drop_component(folder);
    if (lstat(path, &about) != 0 || lstat(folder[0] == 0 ? "/" : folder, &above) != 0) {
        return unexamined(walk, error, path, errno);
    }
    if (!S_ISREG(about.st_mode)) {
        return tell(walk->words->no_file, walk->words, error, path,
                    S_ISDIR(about.st_mode) ? "this is a folder; a "
                                           : "this is not a regular file; a ",
                    " was expected");
    }
    bite_status status = check_access(walk, &above, 0, folder, "the ", "'s folder", error);
    return status == BITE_OK ? check_access(walk, &about, 0, path, "the ", "", error) : status;
}

static bite_status walk_to(path_walk *walk, const char *path, bite_error *error)
{
    struct stat about;
    bite_status status = start(walk, path, error);
    while (status == BITE_OK && next_component(walk)) {
        status = step(walk, &about, error);
    }
    return status == BITE_OK ? check_file(walk, error) : status;
}

bite_status bite_path_trust_check(const bite_allocator *allocator, bite_arena *arena,
                                  bite_trusted kind, const char *path, char **real,
                                  bite_error *error)
{
    struct stat about;
    const trust_words *words = &words_of[kind];
    /* if there is no such file, the folders above do not matter */
    if (lstat(path, &about) != 0 && is_absent(errno)) {
        return absent(words, error, path);
    }
    path_walk *walk = bite_memory_new(allocator, 1, sizeof *walk);
    if (walk == NULL) {
        return no_memory(words, error);
    }
    walk->words = words;
    bite_status status = walk_to(walk, path, error);
    if (status == BITE_OK && real != NULL) {
        *real = bite_arena_text(arena, walk->checked, strlen(walk->checked));
        status = *real != NULL ? BITE_OK : no_memory(words, error);
    }
    bite_memory_free(allocator, walk);
    return status;
}
