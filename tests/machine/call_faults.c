/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "tests/machine/call_faults.h"
#include <dirent.h>
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <sys/vfs.h>
#include <unistd.h>

#define FAILED_MOST 256

static int counts; /* nonzero: between begin and end */
static int made;
static int fails_at;
static int fails_with;
static int fails_after;
static const char *failed[FAILED_MOST];
static int failed_count;

void call_faults_begin(int which, int number, int rest)
{
    made = 0;
    fails_at = which;
    fails_with = number;
    fails_after = rest;
    failed_count = 0;
    counts = 1;
}

int call_faults_end(void)
{
    counts = 0;
    return made;
}

int call_faults_failed(const char *name)
{
    int count = 0;
    for (int i = 0; i < failed_count; i++) {
        count += name == NULL || strcmp(failed[i], name) == 0;
    }
    return count;
}

static int fails(const char *name)
{
    if (!counts) {
        return 0;
    }
    made++;
    if (fails_at == 0 || made < fails_at || (made > fails_at && !fails_after)) {
        return 0;
    }
    if (failed_count < FAILED_MOST) {
        failed[failed_count++] = name;
    }
    errno = fails_with;
    return 1;
}

/* The function of the C library. */
static void *real(const char *name)
{
    void *found = dlsym(RTLD_NEXT, name);
    if (found == NULL) {
        (void)fprintf(stderr, "no function %s: %s\n", name, dlerror());
        _Exit(99);
    }
    return found;
}

int openat(int folder, const char *path, int flags, ...)
{
    mode_t mode = 0;
    if ((flags & O_CREAT) != 0) {
        va_list more;
        va_start(more, flags);
        mode = va_arg(more, mode_t);
        va_end(more);
    }
    int (*call)(int, const char *, int, ...) = (int (*)(int, const char *, int, ...))real("openat");
    return fails("openat") ? -1 : call(folder, path, flags, mode);
}

int fstat(int file, struct stat *about)
{
    int (*call)(int, struct stat *) = (int (*)(int, struct stat *))real("fstat");
    return fails("fstat") ? -1 : call(file, about);
}

int stat(const char *restrict path, struct stat *restrict about)
{
    int (*call)(const char *, struct stat *) = (int (*)(const char *, struct stat *))real("stat");
    return fails("stat") ? -1 : call(path, about);
}

int fstatat(int folder, const char *restrict path, struct stat *restrict about, int flags)
{
    int (*call)(int, const char *, struct stat *, int) =
        (int (*)(int, const char *, struct stat *, int))real("fstatat");
    return fails("fstatat") ? -1 : call(folder, path, about, flags);
}

int fstatfs(int file, struct statfs *about)
{
    int (*call)(int, struct statfs *) = (int (*)(int, struct statfs *))real("fstatfs");
    return fails("fstatfs") ? -1 : call(file, about);
}

ssize_t read(int file, void *bytes, size_t size)
{
    ssize_t (*call)(int, void *, size_t) = (ssize_t(*)(int, void *, size_t))real("read");
    return fails("read") ? -1 : call(file, bytes, size);
}

ssize_t write(int file, const void *bytes, size_t size)
{
    ssize_t (*call)(int, const void *, size_t) =
        (ssize_t(*)(int, const void *, size_t))real("write");
    return fails("write") ? -1 : call(file, bytes, size);
}

off_t lseek(int file, off_t to, int from)
{
    off_t (*call)(int, off_t, int) = (off_t(*)(int, off_t, int))real("lseek");
    return fails("lseek") ? -1 : call(file, to, from);
}

int fsync(int file)
{
    int (*call)(int) = (int (*)(int))real("fsync");
    return fails("fsync") ? -1 : call(file);
}

int flock(int file, int operation)
{
    int (*call)(int, int) = (int (*)(int, int))real("flock");
    return fails("flock") ? -1 : call(file, operation);
}

int fchmod(int file, mode_t mode)
{
    int (*call)(int, mode_t) = (int (*)(int, mode_t))real("fchmod");
    return fails("fchmod") ? -1 : call(file, mode);
}

int fchown(int file, uid_t user, gid_t group)
{
    int (*call)(int, uid_t, gid_t) = (int (*)(int, uid_t, gid_t))real("fchown");
    return fails("fchown") ? -1 : call(file, user, group);
}

int ftruncate(int file, off_t size)
{
    int (*call)(int, off_t) = (int (*)(int, off_t))real("ftruncate");
    return fails("ftruncate") ? -1 : call(file, size);
}

int renameat(int from, const char *name, int to, const char *other)
{
    int (*call)(int, const char *, int, const char *) =
        (int (*)(int, const char *, int, const char *))real("renameat");
    return fails("renameat") ? -1 : call(from, name, to, other);
}

int linkat(int from, const char *name, int to, const char *other, int flags)
{
    int (*call)(int, const char *, int, const char *, int) =
        (int (*)(int, const char *, int, const char *, int))real("linkat");
    return fails("linkat") ? -1 : call(from, name, to, other, flags);
}

int unlinkat(int folder, const char *name, int flags)
{
    int (*call)(int, const char *, int) = (int (*)(int, const char *, int))real("unlinkat");
    return fails("unlinkat") ? -1 : call(folder, name, flags);
}

int faccessat(int folder, const char *path, int mode, int flags)
{
    int (*call)(int, const char *, int, int) =
        (int (*)(int, const char *, int, int))real("faccessat");
    return fails("faccessat") ? -1 : call(folder, path, mode, flags);
}

ssize_t readlinkat(int folder, const char *restrict path, char *restrict text, size_t size)
{
    ssize_t (*call)(int, const char *, char *, size_t) =
        (ssize_t(*)(int, const char *, char *, size_t))real("readlinkat");
    return fails("readlinkat") ? -1 : call(folder, path, text, size);
}

int mkostemp(char *path, int flags)
{
    int (*call)(char *, int) = (int (*)(char *, int))real("mkostemp");
    return fails("mkostemp") ? -1 : call(path, flags);
}

int memfd_create(const char *name, unsigned flags)
{
    int (*call)(const char *, unsigned) = (int (*)(const char *, unsigned))real("memfd_create");
    return fails("memfd_create") ? -1 : call(name, flags);
}

struct dirent *readdir(DIR *folder)
{
    struct dirent *(*call)(DIR *) = (struct dirent * (*)(DIR *)) real("readdir");
    return fails("readdir") ? NULL : call(folder);
}

int mkdirat(int folder, const char *path, mode_t mode)
{
    int (*call)(int, const char *, mode_t) = (int (*)(int, const char *, mode_t))real("mkdirat");
    return fails("mkdirat") ? -1 : call(folder, path, mode);
}

int mkdir(const char *path, mode_t mode)
{
    int (*call)(const char *, mode_t) = (int (*)(const char *, mode_t))real("mkdir");
    return fails("mkdir") ? -1 : call(path, mode);
}
