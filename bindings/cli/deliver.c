/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Output: gathered first, then delivered whole. */
#include "bindings/cli/cli.h"
#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

int gather(void *user, const char *text, size_t size)
{
    struct gathered *to = user;
    if (size > to->room - to->size) {
        size_t room = to->room == 0 ? 8192 : to->room;
        while (room - to->size < size) {
            if (room > SIZE_MAX / 2) {
                return -1;
            }
            room *= 2;
        }
        char *more = realloc(to->text, room);
        if (more == NULL) {
            return -1;
        }
        to->text = more;
        to->room = room;
    }
    memcpy(to->text + to->size, text, size);
    to->size += size;
    return 0;
}

static int cannot_write(const char *path)
{
    fprintf(stderr, "coolbite: %s: cannot be written: %s\n", path, strerror(errno));
    return EXIT_CANNOT_WRITE;
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

/* A device or a pipe cannot be renamed over: it is written as it stands. */
static int write_special(const char *path, const struct gathered *of)
{
    int file = open(path, O_WRONLY | O_CLOEXEC);
    if (file < 0) {
        return cannot_write(path);
    }
    int failed = write_all(file, of->text, of->size);
    failed |= close(file);
    return failed ? cannot_write(path) : 0;
}

static int write_file(const char *path, const struct gathered *of)
{
    struct stat status;
    bool there = stat(path, &status) == 0;
    if (there && !S_ISREG(status.st_mode) && !S_ISDIR(status.st_mode)) {
        return write_special(path, of);
    }
    size_t length = strlen(path) + sizeof ".XXXXXX";
    char *beside = malloc(length);
    if (beside == NULL) {
        return complain_usage("no memory");
    }
    (void)snprintf(beside, length, "%s.XXXXXX", path);
    int file = mkstemp(beside);
    int ended = file < 0;
    if (!ended) {
        mode_t mask = umask(0);
        (void)umask(mask);
        ended = fchmod(file, there ? status.st_mode & 07777 : 0666 & ~mask) != 0 || write_all(file, of->text, of->size) != 0 ||
                fsync(file) != 0;
        ended |= close(file) != 0;
        if (ended || rename(beside, path) != 0) {
            int saved = errno;
            (void)unlink(beside);
            errno = saved;
            ended = 1;
        }
    }
    free(beside);
    return ended ? cannot_write(path) : 0;
}

int deliver(const struct request *request, struct gathered *gathered)
{
    int status = 0;
    if (request->output != NULL && strcmp(request->output, "-") != 0) {
        status = write_file(request->output, gathered);
    } else if ((gathered->size > 0 && fwrite(gathered->text, 1, gathered->size, stdout) != gathered->size) || fflush(stdout) != 0) {
        status = cannot_write("standard output");
    }
    free(gathered->text);
    gathered->text = NULL;
    return status;
}
