/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Output: gathered first, then delivered whole. */
#include "bindings/cli/cli.h"
#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

int gather(void *user, const char *text, size_t size)
{
    struct gathered *to = user;
    if (size == 0) { /* no place is needed, and there may be none */
        return 0;
    }
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
    return complain_of(EXIT_CANNOT_WRITE, "%s: cannot be written: %s", path, strerror(errno));
}

/* A device or a pipe cannot be renamed over: it is written as it stands. */
static int write_special(const char *path, const struct gathered *of)
{
    FILE *file = fopen(path, "wb");
    if (file == NULL) {
        return cannot_write(path);
    }
    int failed = of->size > 0 && fwrite(of->text, 1, of->size, file) != of->size;
    failed |= fclose(file) != 0;
    return failed ? cannot_write(path) : 0;
}

static int write_file(const char *path, const struct gathered *of)
{
    struct stat status;
    bite_error error = BITE_ERROR_INIT;
    if (stat(path, &status) == 0 && !S_ISREG(status.st_mode) && !S_ISDIR(status.st_mode)) {
        return write_special(path, of);
    }
    return bite_file_write(path, of->text, of->size, &error) == BITE_OK ? 0 : complain(&error);
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
