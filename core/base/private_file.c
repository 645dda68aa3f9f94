/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Private files: in memory or in the folder for temporary ones, and gone after use. */
#include "core/base/private_file.h"
#include "core/base/error.h"
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <unistd.h>

#ifdef HAVE_CONFIG_H
#include <config.h>
#endif

static const char *temporary_folder(void)
{
#if defined(HAVE_SECURE_GETENV) || defined(__GLIBC__)
    const char *folder = secure_getenv("TMPDIR");
#else
    const char *folder = getuid() == geteuid() && getgid() == getegid() ? getenv("TMPDIR") : NULL;
#endif
    return folder == NULL || folder[0] != '/' ? NULL : folder;
}

static int in_memory(void)
{
#ifdef HAVE_MEMFD_CREATE
    return memfd_create("table", MFD_CLOEXEC);
#else
    errno = ENOSYS;
    return -1;
#endif
}

/* A file that only we can open, whatever the umask. Fills path and returns the descriptor, or -1.
 */
static int in_folder(const char *folder, char *path, size_t capacity)
{
    int length = snprintf(path, capacity, "%s/coolbite-XXXXXX", folder);
    if (length < 0 || (size_t)length >= capacity) {
        errno = ENAMETOOLONG;
        return -1;
    }
    int file = mkostemp(path, O_CLOEXEC);
    if (file >= 0 && fchmod(file, S_IRUSR | S_IWUSR) != 0) {
        int number = errno;
        (void)close(file);
        (void)unlink(path);
        errno = number;
        return -1;
    }
    return file;
}

/* In the folder that the user names, or else in the usual one. */
static bool make_named(bite_private_file *made)
{
    const char *folder = temporary_folder();
    made->file = folder == NULL ? -1 : in_folder(folder, made->path, sizeof made->path);
    if (made->file < 0) {
        made->file = in_folder("/tmp", made->path, sizeof made->path);
    }
    made->named = made->file >= 0;
    return made->named;
}

/* Writes the path under /proc of an open file, if it leads to that file. */
static bool by_proc(int file, char *path, size_t capacity)
{
    char name[40];
    struct stat ours;
    struct stat there;
    int length = snprintf(name, sizeof name, "/proc/self/fd/%d", file);
    if (fstat(file, &ours) != 0 || stat(name, &there) != 0 || ours.st_dev != there.st_dev ||
        ours.st_ino != there.st_ino || (size_t)length >= capacity) {
        return false;
    }
    memcpy(path, name, (size_t)length + 1);
    return true;
}

/* An empty file, by the first of the ways that works here. errno tells why there is none. */
static bool make_empty(unsigned ways, bite_private_file *made)
{
    bool proc = (ways & BITE_PRIVATE_BY_PROC) != 0;
    made->named = false;
    made->file = proc && (ways & BITE_PRIVATE_IN_MEMORY) != 0 ? in_memory() : -1;
    if (made->file >= 0 && !by_proc(made->file, made->path, sizeof made->path)) {
        (void)close(made->file);
        made->file = -1;
    }
    if (made->file >= 0) {
        return true;
    }
    if (!make_named(made)) {
        return false;
    }
    char name[sizeof made->path];
    memcpy(name, made->path, sizeof name);
    if (proc && by_proc(made->file, made->path, sizeof made->path)) {
        (void)unlink(name); /* even a killed process leaves nothing */
        made->named = false;
    }
    return true;
}

static bool write_all(int file, const char *text, size_t size)
{
    while (size > 0) {
        ssize_t done = write(file, text, size);
        if (done < 0 && errno == EINTR) {
            continue;
        }
        if (done <= 0) {
            return false;
        }
        text += done;
        size -= (size_t)done;
    }
    return true;
}

bite_status bite_private_file_make(const char *text, size_t size, unsigned ways,
                                   bite_private_file *made, bite_error *error)
{
    char reason[96] = "";
    if (make_empty(ways, made)) {
        if (write_all(made->file, text, size)) {
            return BITE_OK;
        }
        int number = errno;
        bite_private_file_remove(made);
        errno = number;
    }
    if (errno == ENOMEM) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a private file");
    }
    const char *why = bite_error_reason(errno, reason, sizeof reason);
    bite_error_set(error, BITE_IO, "a private file for reading it cannot be made: %s", why);
    bite_error_hint(error, "TMPDIR names the folder for such files, else it is /tmp");
    return BITE_IO;
}

void bite_private_file_remove(bite_private_file *made)
{
    if (made->file >= 0) {
        (void)close(made->file);
    }
    if (made->named) {
        (void)unlink(made->path);
    }
    made->file = -1;
    made->named = false;
}
