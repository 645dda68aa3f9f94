/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Files: read once and completely, locked, and compared. */
#include "core/base/file.h"
#include "core/base/error.h"
#include "core/base/output_descriptor.h"
#include "core/base/output_target.h"
#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>

static bite_status fail(bite_error *error, bite_status status, const char *path, const char *what,
                        int number)
{
    char reason[96] = "";
    if (number != 0) {
        const char *text = bite_error_reason(number, reason, sizeof reason);
        bite_error_set(error, status, "%s: %s", what, text);
    } else {
        bite_error_set(error, status, "%s", what);
    }
    bite_error_place(error, path, 0, 0);
    return status;
}

bite_status bite_file_read_open(const bite_allocator *allocator, int file, const char *path,
                                size_t limit, char **text, size_t *size, bite_error *error)
{
    struct stat about;
    if (fstat(file, &about) != 0) {
        return fail(error, BITE_IO, path, "cannot be examined", errno);
    }
    if (!S_ISREG(about.st_mode)) {
        return fail(error, BITE_NOT_FOUND, path,
                    S_ISDIR(about.st_mode) ? "is a folder; a file was expected"
                                           : "is not a regular file",
                    0);
    }
    if (about.st_size < 0 || (uintmax_t)about.st_size > limit) {
        bite_status status = fail(error, BITE_BAD_FILE, path, "is too large for a table", 0);
        bite_error_hint(error, "at most %zu KiB", limit / 1024);
        return status;
    }
    size_t capacity = (size_t)about.st_size + 1;
    char *bytes = bite_memory_new(allocator, capacity + 1, 1);
    if (bytes == NULL) {
        return fail(error, BITE_NO_MEMORY, path, "no memory to read the file", 0);
    }
    ssize_t count = bite_descriptor_read(file, bytes, capacity);
    if (count < 0 || (size_t)count != (size_t)about.st_size) {
        bite_status status = count < 0 ? fail(error, BITE_IO, path, "cannot be read", errno)
                                       : fail(error, BITE_IO, path, "changed while it was read", 0);
        bite_memory_free(allocator, bytes);
        return status;
    }
    bytes[count] = 0;
    *text = bytes;
    *size = (size_t)count;
    return BITE_OK;
}

bite_status bite_file_read(const bite_allocator *allocator, const char *path, size_t limit,
                           char **text, size_t *size, bite_error *error)
{
    /* opened without blocking, because opening a pipe would wait for its writer; its type is
     * checked next */
    int file = bite_descriptor_open(AT_FDCWD, path, O_RDONLY | O_NONBLOCK | O_NOCTTY, 0);
    if (file < 0) {
        return fail(
            error, errno == ENOENT || errno == ENOTDIR || errno == ELOOP ? BITE_NOT_FOUND : BITE_IO,
            path, "cannot be opened", errno);
    }
    bite_status status = bite_file_read_open(allocator, file, path, limit, text, size, error);
    bite_descriptor_close(file);
    return status;
}

static double now(void)
{
    struct timespec time = {0, 0};
    (void)clock_gettime(CLOCK_MONOTONIC, &time);
    return (double)time.tv_sec + 1e-9 * (double)time.tv_nsec;
}

/* The folder that the file of this path is in, links followed, open for a lock; -1: there is none.
 */
static int open_folder(const char *path)
{
    bite_target target;
    if (bite_target_find(path, &target, NULL) != BITE_OK) {
        return -1;
    }
    int folder = target.folder < 0
                     ? -1
                     : bite_descriptor_open(target.folder, ".", O_RDONLY | O_DIRECTORY, 0);
    bite_target_close(&target);
    return folder;
}

bite_status bite_file_lock_open(int file, const char *path, bite_error *error)
{
    const struct timespec pause = {0, 2000000};
    const double longest_wait = 5.0; /* s */
    double end = now() + longest_wait;
    while (bite_descriptor_lock(file) != 0) {
        if (errno != EWOULDBLOCK) {
            (void)fail(error, BITE_CANNOT_WRITE, path, "its file system has no locks", errno);
            bite_error_hint(error, "move it to a local disk");
            return BITE_CANNOT_WRITE;
        }
        if (now() >= end) {
            (void)fail(error, BITE_BUSY, path, "another program is writing this file", 0);
            bite_error_hint(error, "try again; nothing was changed");
            return BITE_BUSY;
        }
        (void)nanosleep(&pause, NULL);
    }
    return BITE_OK;
}

bite_status bite_file_lock(const char *path, int *lock, bite_error *error)
{
    int folder = open_folder(path);
    *lock = -1;
    bite_status status = folder < 0 ? BITE_OK : bite_file_lock_open(folder, path, error);
    if (status == BITE_OK) {
        *lock = folder;
        return BITE_OK;
    }
    bite_descriptor_close(folder);
    if (status == BITE_BUSY) {
        return BITE_BUSY;
    }
    bite_error_clear(error); /* without locks */
    return BITE_OK;
}

void bite_file_unlock(int lock)
{
    bite_descriptor_close(lock);
}

int bite_file_same(const char *first, const char *second)
{
    bite_target a;
    bite_target b;
    int same = 0;
    if (first == NULL || second == NULL || bite_target_find(first, &a, NULL) != BITE_OK) {
        return 0;
    }
    if (bite_target_find(second, &b, NULL) == BITE_OK) {
        same = bite_target_same(&a, &b);
        bite_target_close(&b);
    }
    bite_target_close(&a);
    return same;
}
