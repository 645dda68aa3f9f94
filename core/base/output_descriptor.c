/* SPDX-License-Identifier: GPL-3.0-or-later */
/* System calls on file descriptors, repeated if a signal interrupts them. */
#include "core/base/output_descriptor.h"
#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <sys/file.h>
#include <unistd.h>

int bite_descriptor_open(int folder, const char *name, int flags, mode_t mode)
{
    int descriptor = -1;
    do {
        descriptor = openat(folder, name, flags | O_CLOEXEC, mode);
    } while (descriptor < 0 && errno == EINTR);
    return descriptor;
}

ssize_t bite_descriptor_read(int descriptor, char *text, size_t capacity)
{
    size_t used = 0;
    while (used < capacity) {
        ssize_t got = read(descriptor, text + used, capacity - used);
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

int bite_descriptor_write(int descriptor, const char *text, size_t size)
{
    while (size > 0) {
        ssize_t done = write(descriptor, text, size);
        if (done < 0 && errno == EINTR) {
            continue;
        }
        if (done < 0 && errno == EAGAIN) {
            struct pollfd ready = {descriptor, POLLOUT, 0};
            if (poll(&ready, 1, -1) < 0 && errno != EINTR) {
                return -1;
            }
            continue;
        }
        if (done <= 0) {
            errno = done == 0 ? EIO : errno;
            return -1;
        }
        text += done;
        size -= (size_t)done;
    }
    return 0;
}

int bite_descriptor_sync(int descriptor)
{
    int failed = 0;
    do {
        failed = fsync(descriptor);
    } while (failed != 0 && errno == EINTR);
    return failed;
}

int bite_descriptor_lock(int descriptor)
{
    int failed = 0;
    do {
        failed = flock(descriptor, LOCK_EX | LOCK_NB);
    } while (failed != 0 && errno == EINTR);
    return failed;
}

/* close is not repeated after a signal: Linux has released the number by then, and another thread
 * may have been given it. */
void bite_descriptor_close(int descriptor)
{
    int saved = errno;
    if (descriptor >= 0) {
        (void)close(descriptor);
    }
    errno = saved;
}
