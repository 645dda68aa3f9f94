/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The target of a path for a writer: links are followed to their end, and descriptors and devices
 * are distinguished from files. */
#include "core/base/output_target.h"
#include "core/base/error.h"
#include "core/base/output_descriptor.h"
#include "core/base/text.h"
#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#ifdef HAVE_CONFIG_H
#include <config.h>
#endif
#ifdef HAVE_SYS_VFS_H
#include <sys/vfs.h>
#endif

#define PROC_TYPE 0x9fa0 /* of its file system, in Linux */
#ifndef O_PATH
#define O_PATH O_RDONLY /* elsewhere a folder must be readable too */
#endif

#define LINKS_MAX 40 /* as in Linux */

static bite_status refuse(bite_error *error, const char *path, const char *what)
{
    bite_error_set(error, BITE_CANNOT_WRITE, "cannot be written: %s", what);
    bite_error_place(error, path, 0, 0);
    return BITE_CANNOT_WRITE;
}

static bite_status fail(bite_error *error, const char *path, int number)
{
    char reason[96] = "";
    return refuse(error, path, bite_error_reason(number, reason, sizeof reason));
}

/* The descriptor number in "17"; -1: the text is not one. */
static int parse_descriptor(const char *text)
{
    size_t length = strlen(text);
    if (length == 0 || length > 9 || (text[0] == '0' && length > 1)) {
        return -1;
    }
    for (size_t i = 0; i < length; i++) {
        if (!bite_text_is_digit(text[i])) {
            return -1;
        }
    }
    return (int)strtol(text, NULL, 10);
}

/* The descriptor that the text of a path names, so that this works without /proc too; -1: none. */
static int named_descriptor(const char *path)
{
    static const char *const whole[] = {"/dev/stdin", "/dev/stdout", "/dev/stderr"}; /* by number */
    static const char *const folders[] = {"/dev/fd/", "/proc/self/fd/", "/proc/thread-self/fd/"};
    for (int i = 0; i < 3; i++) {
        size_t length = strlen(folders[i]);
        if (strcmp(path, whole[i]) == 0) {
            return i;
        }
        if (strncmp(path, folders[i], length) == 0) {
            return parse_descriptor(path + length);
        }
    }
    return -1;
}

static bite_status use_descriptor(const char *path, int descriptor, bite_target *target,
                                  bite_error *error)
{
    int flags = fcntl(descriptor, F_GETFL);
    if (flags < 0 || fstat(descriptor, &target->about) != 0) {
        return fail(error, path, errno);
    }
    if ((flags & O_PATH) != 0 || (flags & O_ACCMODE) == O_RDONLY) {
        return refuse(error, path, "this descriptor is open for reading only");
    }
    target->kind = BITE_TARGET_DESCRIPTOR;
    target->descriptor = descriptor;
    return BITE_OK;
}

/* /proc/PID/fd/N, however it was reached: only these are links with names of digits in /proc. If
 * this process has the same file open under the same number, it is written through that descriptor,
 * which keeps the position in the file. */
static bite_status use_open_file(const char *path, bite_target *target, bite_error *error)
{
    struct stat own;
    int number = parse_descriptor(target->name);
    if (fstatat(target->folder, target->name, &target->about, 0) != 0) {
        return fail(error, path, errno);
    }
    if (fstat(number, &own) == 0 && own.st_dev == target->about.st_dev &&
        own.st_ino == target->about.st_ino) {
        return use_descriptor(path, number, target, error);
    }
    if (S_ISDIR(target->about.st_mode)) {
        return refuse(error, path, "is a folder; a file was expected");
    }
    target->kind = BITE_TARGET_STREAM;
    target->append = 1;
    return BITE_OK;
}

static bool is_proc(int folder)
{
#ifdef HAVE_SYS_VFS_H
    struct statfs system;
    return fstatfs(folder, &system) == 0 && system.f_type == PROC_TYPE;
#else
    (void)folder;
    return false;
#endif
}

/* Splits a path, relative to folder, into target->folder and target->name. */
static int split_path(int folder, const char *path, bite_target *target)
{
    char above[PATH_MAX];
    const char *slash = strrchr(path, '/');
    const char *name = slash == NULL ? path : slash + 1;
    size_t length = slash == NULL ? 0 : slash == path ? 1 : (size_t)(slash - path);
    size_t name_length = strlen(name);
    if (length >= sizeof above || name_length >= sizeof target->name) {
        errno = ENAMETOOLONG;
        return -1;
    }
    memcpy(above, length == 0 ? "." : path, length == 0 ? 1 : length);
    above[length == 0 ? 1 : length] = 0;
    memcpy(target->name, name, name_length + 1);
    target->folder = bite_descriptor_open(folder, above, O_PATH | O_DIRECTORY, 0);
    return target->folder < 0 ? -1 : 0;
}

/* In a folder such as /tmp everyone can create a link; only those of this user and of the owner of
 * the folder are followed, as Linux does if protected_symlinks is set. */
static bool is_link_of_another_user(const bite_target *target)
{
    struct stat folder;
    const mode_t open_to_all = S_ISVTX | S_IWOTH;
    return fstat(target->folder, &folder) != 0 ||
           ((folder.st_mode & open_to_all) == open_to_all && target->about.st_uid != geteuid() &&
            target->about.st_uid != folder.st_uid);
}

static bite_status check_type(const char *path, bite_target *target, bite_error *error)
{
    mode_t mode = target->about.st_mode;
    target->kind = S_ISREG(mode) ? BITE_TARGET_FILE : BITE_TARGET_STREAM;
    if (S_ISREG(mode) || S_ISCHR(mode) || S_ISFIFO(mode)) {
        return BITE_OK;
    }
    return refuse(error, path,
                  S_ISDIR(mode)   ? "is a folder; a file was expected"
                  : S_ISBLK(mode) ? "is a block device; a file was expected"
                                  : "is a socket; a file was expected");
}

/* Follows a path by one link. True: the end is reached, with *status; false: text is the path of
 * the link to follow next. */
static bool follow(const char *path, int from, char *text, bite_target *target, bite_status *status,
                   bite_error *error)
{
    int descriptor = named_descriptor(text);
    *status = BITE_CANNOT_WRITE;
    if (descriptor >= 0) {
        *status = use_descriptor(path, descriptor, target, error);
        return true;
    }
    if (split_path(from, text, target) != 0) {
        (void)fail(error, path, errno);
        return true;
    }
    if (target->name[0] == 0) {
        (void)refuse(error, path, "this is the name of a folder; a file was expected");
        return true;
    }
    if (fstatat(target->folder, target->name, &target->about, AT_SYMLINK_NOFOLLOW) != 0) {
        memset(&target->about, 0, sizeof target->about);
        *status = errno == ENOENT ? BITE_OK : fail(error, path, errno);
        return true;
    }
    if (!S_ISLNK(target->about.st_mode)) {
        *status = check_type(path, target, error);
        return true;
    }
    if (parse_descriptor(target->name) >= 0 && is_proc(target->folder)) {
        *status = use_open_file(path, target, error);
        return true;
    }
    if (is_link_of_another_user(target)) {
        (void)refuse(error, path, "a link of another user in a folder that everyone may write");
        return true;
    }
    ssize_t length = readlinkat(target->folder, target->name, text, PATH_MAX);
    if (length < 0 || length == PATH_MAX) {
        (void)fail(error, path, length < 0 ? errno : ENAMETOOLONG);
        return true;
    }
    text[length] = 0;
    return false;
}

bite_status bite_target_find(const char *path, bite_target *target, bite_error *error)
{
    char text[PATH_MAX];
    bite_target found = {BITE_TARGET_NEW, -1, -1, 0, "", {0}};
    bite_status status = BITE_OK;
    int from = AT_FDCWD;
    bool ended = false;
    if (path[0] == 0) {
        return refuse(error, path, "no file is named");
    }
    size_t length = strlen(path);
    if (length >= sizeof text) {
        return fail(error, path, ENAMETOOLONG);
    }
    memcpy(text, path, length + 1);
    for (int i = 0; !ended && i <= LINKS_MAX; i++) {
        found.folder = -1;
        ended = follow(path, from, text, &found, &status, error);
        if (from != AT_FDCWD) {
            bite_descriptor_close(from);
        }
        from = found.folder;
    }
    if (!ended) {
        status = fail(error, path, ELOOP);
    }
    if (status != BITE_OK) {
        bite_target_close(&found);
        return status;
    }
    *target = found;
    return BITE_OK;
}

void bite_target_close(bite_target *target)
{
    bite_descriptor_close(target->folder);
    target->folder = -1;
}

bool bite_target_same(const bite_target *first, const bite_target *second)
{
    struct stat a;
    struct stat b;
    if (first->kind != BITE_TARGET_NEW && second->kind != BITE_TARGET_NEW) {
        return S_ISREG(first->about.st_mode) && first->about.st_dev == second->about.st_dev &&
               first->about.st_ino == second->about.st_ino;
    }
    return first->kind == second->kind && fstat(first->folder, &a) == 0 &&
           fstat(second->folder, &b) == 0 && a.st_dev == b.st_dev && a.st_ino == b.st_ino &&
           strcmp(first->name, second->name) == 0;
}
