/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Files: read once and whole; written so that the old one stays until the new one is safe. */
#include "core/base/file.h"
#include "core/base/error.h"
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

static bite_status fail(bite_error *error, bite_status status, const char *path, const char *what, int number)
{
    char reason[96] = "";
    if (number != 0) {
        /* the GNU form gives a pointer, which may be to a constant: no shared buffer is written */
        const char *text = strerror_r(number, reason, sizeof reason);
        bite_error_set(error, status, "%s: %s", what, text);
    } else {
        bite_error_set(error, status, "%s", what);
    }
    bite_error_place(error, path, 0, 0);
    return status;
}

/* Reads until the end or until one byte more than fits. */
static ssize_t read_all(int file, char *text, size_t room)
{
    size_t used = 0;
    while (used < room) {
        ssize_t got = read(file, text + used, room - used);
        if (got < 0 && errno == EINTR) {
            continue;
        }
        if (got < 0) {
            return -1;
        }
        if (got == 0) {
            break;
        }
        used += (size_t)got;
    }
    return (ssize_t)used;
}

bite_status bite_file_read(const bite_allocator *allocator, const char *path, size_t most, char **text, size_t *size,
                           bite_error *error)
{
    /* a pipe must not make us wait: opened without blocking, then judged */
    int file = open(path, O_RDONLY | O_CLOEXEC | O_NONBLOCK | O_NOCTTY);
    if (file < 0) {
        return fail(error, errno == ENOENT || errno == ENOTDIR || errno == ELOOP ? BITE_NOT_FOUND : BITE_IO, path,
                    "cannot be opened", errno);
    }
    bite_status status = BITE_OK;
    char *bytes = NULL;
    struct stat about;
    if (fstat(file, &about) != 0) {
        status = fail(error, BITE_IO, path, "cannot be looked at", errno);
    } else if (!S_ISREG(about.st_mode)) {
        status = fail(error, BITE_NOT_FOUND, path,
                      S_ISDIR(about.st_mode) ? "is a folder; a file was expected" : "is no regular file", 0);
    } else if (about.st_size < 0 || (uintmax_t)about.st_size > most) {
        status = fail(error, BITE_BAD_FILE, path, "is larger than any table", 0);
        bite_error_hint(error, "at most %zu KiB", most / 1024);
    } else {
        size_t room = (size_t)about.st_size + 1;
        bytes = bite_memory_new(allocator, room + 1, 1);
        ssize_t got = bytes == NULL ? 0 : read_all(file, bytes, room);
        if (bytes == NULL) {
            status = fail(error, BITE_NO_MEMORY, path, "no memory to read it", 0);
        } else if (got < 0) {
            status = fail(error, BITE_IO, path, "cannot be read", errno);
        } else if ((size_t)got != (size_t)about.st_size) {
            status = fail(error, BITE_IO, path, "changed while it was read", 0);
        } else {
            bytes[got] = 0;
            *text = bytes;
            *size = (size_t)got;
            bytes = NULL;
        }
    }
    bite_memory_free(allocator, bytes);
    (void)close(file);
    return status;
}

static int write_all(int file, const char *text, size_t size)
{
    while (size > 0) {
        ssize_t done = write(file, text, size);
        if (done < 0 && errno == EINTR) {
            continue;
        }
        if (done <= 0) {
            return -1;
        }
        text += done;
        size -= (size_t)done;
    }
    return 0;
}

/* The folder in which path lies; -1. */
static int open_folder(const char *path)
{
    char folder[4096];
    const char *slash = strrchr(path, '/');
    size_t length = slash == NULL ? 0 : slash == path ? 1 : (size_t)(slash - path);
    if (length >= sizeof folder) {
        return -1;
    }
    memcpy(folder, length == 0 ? "." : path, length == 0 ? 1 : length);
    folder[length == 0 ? 1 : length] = 0;
    return open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
}

bite_status bite_file_hold(const char *path, int *held, bite_error *error)
{
    const struct timespec pause = {0, 20000000};
    const int tries = 250; /* five seconds */
    int folder = open_folder(path);
    *held = -1;
    for (int i = 0; folder >= 0 && i < tries; i++) {
        if (flock(folder, LOCK_EX | LOCK_NB) == 0) {
            *held = folder;
            return BITE_OK;
        }
        if (errno != EWOULDBLOCK && errno != EINTR) {
            (void)close(folder);
            return BITE_OK;
        }
        (void)nanosleep(&pause, NULL);
    }
    if (folder < 0) {
        return BITE_OK;
    }
    (void)close(folder);
    (void)fail(error, BITE_BUSY, path, "another program is writing it", 0);
    bite_error_hint(error, "try again; nothing was changed");
    return BITE_BUSY;
}

void bite_file_let_go(int held)
{
    if (held >= 0) {
        (void)close(held);
    }
}

/* The name must be durable too: the folder is synced; a file system that cannot sync folders has done what it can. */
static void sync_folder(const char *path)
{
    int file = open_folder(path);
    if (file >= 0) {
        (void)fsync(file);
        (void)close(file);
    }
}

/* A new file beside path, with the mode that the umask gives, or that of the file that is there. */
static int open_beside(const char *path, char *beside, size_t size, bite_error *error)
{
    for (int attempt = 0; attempt < 100; attempt++) {
        int length = snprintf(beside, size, "%s.%ld-%d.tmp", path, (long)getpid(), attempt);
        if (length < 0 || (size_t)length >= size) {
            (void)fail(error, BITE_CANNOT_WRITE, path, "the path is too long", 0);
            return -1;
        }
        int file = open(beside, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
        if (file >= 0 || errno != EEXIST) {
            if (file < 0) {
                (void)fail(error, BITE_CANNOT_WRITE, path, "cannot be written: no file can be made beside it", errno);
            }
            return file;
        }
    }
    (void)fail(error, BITE_CANNOT_WRITE, path, "too many unfinished files lie beside it", 0);
    return -1;
}

bite_status bite_file_write(const char *path, const char *text, size_t size, bite_error *error)
{
    char beside[4096];
    struct stat about;
    bite_error_clear(error);
    int there = stat(path, &about) == 0;
    if (there && !S_ISREG(about.st_mode)) {
        return fail(error, BITE_CANNOT_WRITE, path, "cannot be written: it is no regular file", 0);
    }
    int file = open_beside(path, beside, sizeof beside, error);
    if (file < 0) {
        return BITE_CANNOT_WRITE;
    }
    int failed = (there && fchmod(file, about.st_mode & 07777) != 0) || write_all(file, text, size) != 0 || fsync(file) != 0;
    int number = errno;
    if (close(file) != 0 && !failed) {
        failed = 1;
        number = errno;
    }
    if (!failed && rename(beside, path) != 0) {
        failed = 1;
        number = errno;
    }
    if (failed) {
        (void)unlink(beside);
        return fail(error, BITE_CANNOT_WRITE, path, "cannot be written", number);
    }
    sync_folder(path);
    return BITE_OK;
}
