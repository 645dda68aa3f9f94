/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The file of a record. */
#include "core/inspection/record_file.h"
#include "core/base/error.h"
#include "core/base/output_descriptor.h"
#include <errno.h>
#include <stdbool.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define SIZE_MOST ((uint64_t)256 << 20) /* over a million readings */

static bite_status fail(bite_error *error, bite_status status, const char *path, const char *what,
                        int number)
{
    char reason[96] = "";
    if (number != 0) {
        const char *text = strerror_r(number, reason, sizeof reason); /* the GNU form */
        bite_error_set(error, status, "%s: %s", what, text);
    } else {
        bite_error_set(error, status, "%s", what);
    }
    bite_error_place(error, path, 0, 0);
    return status;
}

bite_status bite_record_file_unopened(const char *path, bite_error *error)
{
    bool none = errno == ENOENT || errno == ENOTDIR || errno == ELOOP;
    bite_status status =
        fail(error, none ? BITE_NOT_FOUND : BITE_IO, path, "the record cannot be opened", errno);
    if (none) {
        bite_error_hint(error, "coolbite measure RECORD --job JOB.ini begins one");
    }
    return status;
}

bite_status bite_record_file_read(const bite_allocator *allocator, int file, const char *path,
                                  uint64_t from, char **text, size_t *size, bite_error *error)
{
    struct stat about;
    if (fstat(file, &about) != 0) {
        return fail(error, BITE_IO, path, "the record cannot be examined", errno);
    }
    if (!S_ISREG(about.st_mode)) {
        return fail(error, BITE_NOT_FOUND, path, "the record is not a regular file", 0);
    }
    if ((uint64_t)about.st_size > SIZE_MOST) {
        bite_status status = fail(error, BITE_BAD_FILE, path, "the record is too large", 0);
        bite_error_hint(error, "at most 256 MiB; begin another one");
        return status;
    }
    if ((uint64_t)about.st_size < from) {
        return fail(error, BITE_IO, path, "the record became shorter while it was open", 0);
    }
    size_t wanted = (size_t)((uint64_t)about.st_size - from);
    char *bytes = bite_memory_new(allocator, wanted + 1, 1);
    if (bytes == NULL) {
        return fail(error, BITE_NO_MEMORY, path, "no memory to read the record", 0);
    }
    ssize_t count =
        lseek(file, (off_t)from, SEEK_SET) < 0 ? -1 : bite_descriptor_read(file, bytes, wanted);
    if (count < 0 || (size_t)count != wanted) {
        bite_status status =
            fail(error, BITE_IO, path, "the record cannot be read", count < 0 ? errno : 0);
        bite_memory_free(allocator, bytes);
        return status;
    }
    *text = bytes;
    *size = wanted;
    return BITE_OK;
}
