/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Drafts: a file is written beside its target, synced, and renamed over it. */
#include "core/base/draft_file.h"
#include "core/base/error.h"
#include "core/base/output_descriptor.h"
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#define DRAFTS_MAX 32 /* simultaneous writers of one target */

static bite_status refuse(const bite_draft *draft, const char *what, bite_error *error)
{
    bite_error_set(error, BITE_CANNOT_WRITE, "cannot be written: %s", what);
    bite_error_place(error, draft->path, 0, 0);
    return BITE_CANNOT_WRITE;
}

static bite_status fail(const bite_draft *draft, const char *what, int number, bite_error *error)
{
    char reason[96] = "";
    bite_error_set(error, BITE_CANNOT_WRITE, "cannot be written: %s%s", what,
                   bite_error_reason(number, reason, sizeof reason));
    bite_error_place(error, draft->path, 0, 0);
    return BITE_CANNOT_WRITE;
}

static void name_draft(bite_draft *draft, int number)
{
    int length = snprintf(draft->name, sizeof draft->name, "%s.coolbite-%d.tmp",
                          draft->target->name, number);
    /* a long target name leaves no space for the suffix */
    if (length < 0 || (size_t)length >= sizeof draft->name) {
        (void)snprintf(draft->name, sizeof draft->name, "coolbite-%d.tmp", number);
    }
}

/* Removes a draft that a killed writer left: a regular file of this user with this name, a single
 * link, and no lock. The lock is kept while the file is removed; a writer that finds its new draft
 * locked or removed by this makes another one. */
static void clear_stale(const bite_draft *draft)
{
    struct stat opened;
    struct stat named;
    int folder = draft->target->folder;
    int file =
        bite_descriptor_open(folder, draft->name, O_RDWR | O_NOFOLLOW | O_NONBLOCK | O_NOCTTY, 0);
    if (file < 0) {
        return;
    }
    if (fstat(file, &opened) == 0 && S_ISREG(opened.st_mode) && opened.st_uid == geteuid() &&
        opened.st_nlink == 1 && bite_descriptor_lock(file) == 0 &&
        fstatat(folder, draft->name, &named, AT_SYMLINK_NOFOLLOW) == 0 &&
        named.st_dev == opened.st_dev && named.st_ino == opened.st_ino) {
        (void)unlinkat(folder, draft->name, 0);
    }
    bite_descriptor_close(file);
}

/* Locks the draft just created; false: another writer took it for a stale one. On a file system
 * without locks no draft is ever taken for a stale one. A file that cannot be examined now fails
 * when it is put in place, and is removed then. */
static bool lock_draft(int file)
{
    struct stat about;
    if (bite_descriptor_lock(file) != 0) {
        return errno != EWOULDBLOCK;
    }
    return fstat(file, &about) != 0 || about.st_nlink > 0;
}

static bite_status create(bite_draft *draft, bite_error *error)
{
    /* the draft of a private file is private too */
    mode_t mode = draft->target->kind == BITE_TARGET_NEW ? 0666 : 0600;
    for (int i = 0; i < DRAFTS_MAX; i++) {
        name_draft(draft, i);
        clear_stale(draft);
    }
    for (int i = 0; i < DRAFTS_MAX; i++) {
        name_draft(draft, i);
        draft->file = bite_descriptor_open(draft->target->folder, draft->name,
                                           O_RDWR | O_CREAT | O_EXCL | O_NOFOLLOW, mode);
        if (draft->file < 0 && errno != EEXIST) {
            return fail(draft, "no file can be created in its folder: ", errno, error);
        }
        if (draft->file >= 0 && lock_draft(draft->file)) {
            return BITE_OK;
        }
        bite_descriptor_close(draft->file);
        draft->file = -1;
    }
    bite_status status = refuse(draft, "too many unfinished files are in its folder", error);
    bite_error_hint(error, "remove the files that end in .coolbite-N.tmp");
    return status;
}

/* The owner is set first, because a change of owner clears the set-user-id bit; if the owner cannot
 * be kept, that bit must not be set again. */
static int keep_owner_and_mode(const bite_draft *draft)
{
    const struct stat *old = &draft->target->about;
    struct stat made;
    mode_t mode = old->st_mode & 07777;
    if (draft->target->kind == BITE_TARGET_NEW) {
        return 0;
    }
    if (fstat(draft->file, &made) != 0) {
        return -1;
    }
    if ((made.st_uid != old->st_uid || made.st_gid != old->st_gid) &&
        fchown(draft->file, old->st_uid, old->st_gid) != 0) {
        mode &= 0777;
    }
    return fchmod(draft->file, mode);
}

bite_status bite_draft_open(const char *path, const bite_target *target, bite_draft *draft,
                            bite_error *error)
{
    bite_draft made = {path, target, -1, ""};
    if (target->kind != BITE_TARGET_NEW && target->kind != BITE_TARGET_FILE) {
        return refuse(&made, "it is not a regular file", error);
    }
    if (target->kind == BITE_TARGET_FILE &&
        faccessat(target->folder, target->name, W_OK, AT_EACCESS) != 0) {
        return fail(&made, "", errno, error);
    }
    bite_status status = create(&made, error);
    if (status == BITE_OK) {
        *draft = made;
    }
    return status;
}

bite_status bite_draft_add(bite_draft *draft, const char *text, size_t size, bite_error *error)
{
    return bite_descriptor_write(draft->file, text, size) != 0 ? fail(draft, "", errno, error)
                                                               : BITE_OK;
}

bite_status bite_draft_finish(bite_draft *draft, bite_error *error)
{
    return keep_owner_and_mode(draft) != 0 || bite_descriptor_sync(draft->file) != 0
               ? fail(draft, "", errno, error)
               : BITE_OK;
}

bite_status bite_draft_new(const char *path, const bite_target *target, const char *text,
                           size_t size, bite_draft *draft, bite_error *error)
{
    bite_draft made;
    bite_status status = bite_draft_open(path, target, &made, error);
    if (status != BITE_OK) {
        return status;
    }
    status = bite_draft_add(&made, text, size, error);
    status = status == BITE_OK ? bite_draft_finish(&made, error) : status;
    if (status != BITE_OK) {
        bite_draft_drop(&made);
        return status;
    }
    *draft = made;
    return BITE_OK;
}

/* Makes the new name durable too; errors are ignored, since some file systems cannot sync folders.
 */
static void sync_folder(int folder)
{
    int file = bite_descriptor_open(folder, ".", O_RDONLY | O_DIRECTORY, 0);
    if (file >= 0) {
        (void)bite_descriptor_sync(file);
        bite_descriptor_close(file);
    }
}

bite_status bite_draft_keep(bite_draft *draft, bite_error *error)
{
    int folder = draft->target->folder;
    if (renameat(folder, draft->name, folder, draft->target->name) != 0) {
        bite_status status = fail(draft, "", errno, error);
        bite_draft_drop(draft);
        return status;
    }
    bite_descriptor_close(draft->file); /* releases the lock, which marked the draft as in use */
    draft->file = -1;
    sync_folder(folder);
    return BITE_OK;
}

bite_status bite_draft_keep_new(bite_draft *draft, bite_error *error)
{
    int folder = draft->target->folder;
    if (linkat(folder, draft->name, folder, draft->target->name, 0) != 0) {
        if (errno != EEXIST && faccessat(folder, draft->target->name, F_OK, 0) != 0) {
            return bite_draft_keep(draft, error); /* a file system without links */
        }
        bite_status status = refuse(draft, "there is such a file already", error);
        bite_draft_drop(draft);
        return status;
    }
    bite_draft_drop(draft); /* its other name */
    sync_folder(folder);
    return BITE_OK;
}

void bite_draft_drop(bite_draft *draft)
{
    (void)unlinkat(draft->target->folder, draft->name, 0);
    bite_descriptor_close(draft->file);
    draft->file = -1;
}
