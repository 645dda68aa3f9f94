/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The file of a record. */
#include "core/inspection/record_file.h"
#include "core/base/draft_file.h"
#include "core/base/error.h"
#include "core/base/file.h"
#include "core/base/output_descriptor.h"
#include <errno.h>
#include <fcntl.h>
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
        const char *text = bite_error_reason(number, reason, sizeof reason);
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
        (void)fail(error, BITE_IO, path, "the record became shorter while it was open", 0);
        bite_error_hint(error, "nothing was recorded; open the record again and look");
        return BITE_IO;
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

void bite_record_file_remember(struct bite_record *record, int file)
{
    struct stat about;
    if (fstat(file, &about) == 0) {
        record->device = (uint64_t)about.st_dev;
        record->inode = (uint64_t)about.st_ino;
    }
}

/* Whether the open file is the one that was read and still has its name. An editor that saves may
 * put another file in its place; what is appended to the old one would be lost. */
static bool is_same(const struct bite_record *record, int file)
{
    struct stat opened;
    struct stat named;
    return fstat(file, &opened) == 0 && stat(record->path, &named) == 0 &&
           opened.st_dev == named.st_dev && opened.st_ino == named.st_ino &&
           (uint64_t)opened.st_dev == record->device && (uint64_t)opened.st_ino == record->inode;
}

/* Opens the file itself: links are followed as for every file that is written (SECURITY.md).
 * Returns -1 after an error. */
static int open_to_append(const char *path, bite_error *error)
{
    bite_target target;
    const int flags = O_RDWR | O_APPEND | O_NOFOLLOW | O_NONBLOCK | O_NOCTTY;
    if (bite_target_find(path, &target, error) != BITE_OK) {
        return -1;
    }
    bool plain = target.kind == BITE_TARGET_FILE || target.kind == BITE_TARGET_NEW;
    int opened = plain ? bite_descriptor_open(target.folder, target.name, flags, 0) : -1;
    if (opened < 0) {
        (void)fail(error, BITE_CANNOT_WRITE, path, "the record cannot be written",
                   plain ? errno : EINVAL);
    }
    bite_target_close(&target);
    return opened;
}

bite_status bite_record_file_enter(const struct bite_record *record, int *file, bite_error *error)
{
    int opened = open_to_append(record->path, error);
    if (opened < 0) {
        bite_error_hint(error, "nothing was recorded");
        return BITE_CANNOT_WRITE;
    }
    bite_status status = bite_file_lock_open(opened, record->path, error);
    if (status == BITE_OK && !is_same(record, opened)) {
        status = fail(error, BITE_IO, record->path,
                      "another file has been put in the place of the record", 0);
        bite_error_hint(error, "nothing was recorded; open the record again");
    }
    if (status != BITE_OK) {
        bite_descriptor_close(opened);
        return status;
    }
    *file = opened;
    return BITE_OK;
}

void bite_record_file_leave(int file)
{
    bite_descriptor_close(file); /* releases the lock */
}

/* Takes back what was not written whole: the lock is held, so nobody has appended since. */
static bite_status take_back(const struct bite_record *record, int file, off_t size,
                             bite_status status, const char *what, int number, bite_error *error)
{
    bool back = ftruncate(file, size) == 0;
    (void)bite_descriptor_sync(file);
    (void)fail(error, status, record->path, what, number);
    bite_error_hint(error, back ? "nothing was recorded"
                                : "the last line may be cut off; the next reading closes it");
    return status;
}

/* Whether the file ends with the text, which begins at `start`. */
static bool holds(int file, off_t start, const char *text, size_t size)
{
    char piece[512];
    struct stat about;
    bool same = fstat(file, &about) == 0 && about.st_size == start + (off_t)size &&
                lseek(file, start, SEEK_SET) == start;
    while (same && size > 0) {
        size_t wanted = size < sizeof piece ? size : sizeof piece;
        same = bite_descriptor_read(file, piece, wanted) == (ssize_t)wanted &&
               memcmp(piece, text, wanted) == 0;
        text += wanted;
        size -= wanted;
    }
    return same;
}

bite_status bite_record_file_append(const struct bite_record *record, int file, const char *text,
                                    size_t size, bite_error *error)
{
    struct stat about;
    if (fstat(file, &about) != 0) {
        return fail(error, BITE_IO, record->path, "the record cannot be examined", errno);
    }
    if (bite_descriptor_write(file, text, size) != 0) {
        return take_back(record, file, about.st_size, BITE_CANNOT_WRITE,
                         "the record cannot be written", errno, error);
    }
    if (bite_descriptor_sync(file) != 0) {
        return take_back(record, file, about.st_size, BITE_IO,
                         "the disk does not confirm what was written", errno, error);
    }
    if (!holds(file, about.st_size, text, size)) {
        (void)fail(error, BITE_IO, record->path, "the line was not stored as it was written", 0);
        bite_error_hint(error, "another program may be writing it; open the record again and look");
        return BITE_IO;
    }
    return BITE_OK;
}

bite_status bite_record_file_create(const char *path, const char *text, size_t size,
                                    bite_error *error)
{
    bite_target target;
    bite_draft draft;
    bite_status status = bite_target_find(path, &target, error);
    if (status != BITE_OK) {
        return status;
    }
    if (target.kind != BITE_TARGET_NEW) {
        status = fail(error, BITE_CANNOT_WRITE, path, "there is such a file already", 0);
        bite_error_hint(error, "a record is never overwritten; choose another name");
    } else {
        status = bite_draft_new(path, &target, text, size, &draft, error);
        status = status == BITE_OK ? bite_draft_keep_new(&draft, error) : status;
    }
    bite_target_close(&target);
    return status;
}
