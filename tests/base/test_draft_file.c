/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Drafts: the draft of a killed writer is removed, that of a running one is not; mode, owner,
 * signals. */
#include "core/base/draft_file.h"
#include "core/base/file.h"
#include "tests/support/support.h"
#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/syscall.h>
#include <sys/wait.h>
#include <unistd.h>

static char folder[400];

/* These replace the functions of the C library: the next `interruptions` calls fail with EINTR. */
static int interruptions;
static int interrupted;

static int is_interrupted(void)
{
    if (interruptions > 0) {
        interruptions--;
        interrupted++;
        errno = EINTR;
        return 1;
    }
    return 0;
}

int fsync(int file)
{
    return is_interrupted() ? -1 : (int)syscall(SYS_fsync, file);
}

int flock(int file, int operation)
{
    return is_interrupted() ? -1 : (int)syscall(SYS_flock, file, operation);
}

static mode_t mode_when_written;

ssize_t write(int file, const void *text, size_t size)
{
    struct stat about;
    mode_when_written = fstat(file, &about) == 0 ? about.st_mode & 07777 : 0;
    return is_interrupted() ? -1 : (ssize_t)syscall(SYS_write, file, text, size);
}

static void setup(void)
{
    bite_test_folder(folder, sizeof folder);
}

static void teardown(void)
{
    bite_test_remove(folder);
}

static char *at(char *path, const char *name)
{
    (void)snprintf(path, 500, "%s/%s", folder, name);
    return path;
}

static size_t files_in_folder(void)
{
    size_t count = 0;
    DIR *list = opendir(folder);
    ck_assert_ptr_nonnull(list);
    for (struct dirent *entry = readdir(list); entry != NULL; entry = readdir(list)) {
        count += strcmp(entry->d_name, ".") != 0 && strcmp(entry->d_name, "..") != 0;
    }
    (void)closedir(list);
    return count;
}

static int exists(const char *name)
{
    char path[500];
    struct stat about;
    return lstat(at(path, name), &about) == 0;
}

static bite_draft begin(const char *path, bite_target *target, const char *text)
{
    bite_draft draft;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_target_find(path, target, &error), BITE_OK);
    ck_assert_msg(bite_draft_new(path, target, text, strlen(text), &draft, &error) == BITE_OK, "%s",
                  error.message);
    return draft;
}

START_TEST(a_draft_is_kept_or_dropped)
{
    char path[500];
    bite_target target;
    bite_draft draft = begin(at(path, "a"), &target, "one");
    ck_assert_uint_eq(files_in_folder(), 1); /* only the draft */
    ck_assert_int_eq(exists("a"), 0);
    ck_assert_int_eq(bite_draft_keep(&draft, NULL), BITE_OK);
    bite_target_close(&target);
    bite_test_expect_file(path, "one");
    draft = begin(path, &target, "two");
    bite_draft_drop(&draft);
    bite_target_close(&target);
    bite_test_expect_file(path, "one");
    ck_assert_uint_eq(files_in_folder(), 1);
}
END_TEST

/* A writer that is killed between writing and renaming leaves its draft. */
static void kill_before_rename(const char *path)
{
    pid_t child = fork();
    if (child == 0) {
        bite_target target;
        bite_draft draft;
        if (bite_target_find(path, &target, NULL) != BITE_OK ||
            bite_draft_new(path, &target, "half", 4, &draft, NULL) != BITE_OK) {
            _exit(1);
        }
        (void)raise(SIGKILL);
    }
    int status = 0;
    ck_assert_int_eq(waitpid(child, &status, 0), child);
    ck_assert(WIFSIGNALED(status));
}

START_TEST(stale_drafts_are_cleared)
{
    char path[500];
    kill_before_rename(at(path, "a"));
    ck_assert_int_eq(exists("a.coolbite-0.tmp"), 1);
    ck_assert_int_eq(exists("a"), 0);
    kill_before_rename(path); /* clears the first, leaves its own */
    ck_assert_uint_eq(files_in_folder(), 1);
    bite_test_write(at(path, "a.coolbite-7.tmp"), "half", 4);
    ck_assert_int_eq(bite_file_write(at(path, "a"), "whole", 5, NULL), BITE_OK);
    ck_assert_uint_eq(files_in_folder(), 1);
    bite_test_expect_file(path, "whole");
}
END_TEST

/* Not a stale draft: another name, a link, a folder, a file with a second hard link, the draft of a
 * running writer. */
START_TEST(files_that_are_not_stale_drafts_are_kept)
{
    char path[500];
    char other[500];
    bite_target target;
    static const char *const names[] = {
        "a.tmp",        "a.coolbite.tmp",      "a.coolbite-x.tmp", "b.coolbite-0.tmp",
        "a.1234-0.tmp", "a.coolbite-99999.tmp"};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        bite_test_write(at(path, names[i]), "kept", 4);
    }
    ck_assert_int_eq(symlink("b.coolbite-0.tmp", at(path, "a.coolbite-0.tmp")), 0);
    ck_assert_int_eq(mkdir(at(path, "a.coolbite-1.tmp"), 0700), 0);
    bite_test_write(at(path, "a.coolbite-2.tmp"), "kept", 4);
    ck_assert_int_eq(link(path, at(other, "second-name")), 0);
    ck_assert_int_eq(mkfifo(at(path, "a.coolbite-3.tmp"), 0600), 0);
    if (geteuid() == 0) {
        bite_test_write(at(path, "a.coolbite-4.tmp"), "kept", 4);
        ck_assert_int_eq(chown(path, 65534, 65534), 0);
    }
    size_t before = files_in_folder();
    bite_draft unfinished = begin(at(path, "a"), &target, "slow");
    ck_assert_int_eq(bite_file_write(path, "fast", 4, NULL), BITE_OK);
    bite_test_expect_file(path, "fast");
    ck_assert_uint_eq(files_in_folder(), before + 2);
    ck_assert_int_eq(bite_draft_keep(&unfinished, NULL),
                     BITE_OK); /* the slow draft still exists and can be kept */
    bite_target_close(&target);
    bite_test_expect_file(path, "slow");
    ck_assert_uint_eq(files_in_folder(), before + 1);
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        bite_test_expect_file(at(path, names[i]), "kept");
    }
}
END_TEST

START_TEST(too_many_unfinished_files_are_refused)
{
    char path[500];
    char name[100];
    bite_error error = BITE_ERROR_INIT;
    for (int i = 0; i < 32; i++) {
        (void)snprintf(name, sizeof name, "a.coolbite-%d.tmp", i);
        ck_assert_int_eq(mkdir(at(path, name), 0700), 0);
    }
    ck_assert_int_eq(bite_file_write(at(path, "a"), "x", 1, &error), BITE_CANNOT_WRITE);
    ck_assert_ptr_nonnull(strstr(error.message, "unfinished"));
    ck_assert_ptr_nonnull(strstr(error.hint, "remove"));
}
END_TEST

/* Several processes write one target at once and some are killed: the target always has one of the
 * complete texts, and at the end no draft is left. */
START_TEST(concurrent_and_killed_writers_leave_a_complete_file)
{
    enum { WRITERS = 6, SIZE = 20000 };
    char path[500];
    pid_t writers[WRITERS];
    static char text[SIZE + 1];
    (void)at(path, "a");
    for (int round = 0; round < 8; round++) {
        for (int i = 0; i < WRITERS; i++) {
            writers[i] = fork();
            if (writers[i] == 0) {
                memset(text, 'a' + i, SIZE);
                for (int k = 0; k < 40; k++) {
                    if (bite_file_write(path, text, SIZE, NULL) != BITE_OK) {
                        _exit(1);
                    }
                }
                _exit(0);
            }
        }
        (void)usleep((useconds_t)(1000 + 3000 * round));
        for (int i = 0; i < WRITERS; i++) {
            int status = 0;
            if (i % 2 == 0) {
                (void)kill(writers[i], SIGKILL);
            }
            ck_assert_int_eq(waitpid(writers[i], &status, 0), writers[i]);
            ck_assert_msg(i % 2 == 0 || (WIFEXITED(status) && WEXITSTATUS(status) == 0),
                          "a writer failed beside others");
        }
        char *got = NULL;
        size_t size = 0;
        ck_assert_int_eq(bite_file_read(bite_memory_default(), path, 1 << 20, &got, &size, NULL),
                         BITE_OK);
        ck_assert_uint_eq(size, SIZE);
        for (size_t k = 1; k < size; k++) {
            ck_assert_int_eq(got[k], got[0]);
        }
        free(got);
    }
    ck_assert_int_eq(bite_file_write(path, "last", 4, NULL), BITE_OK);
    ck_assert_uint_eq(files_in_folder(), 1);
}
END_TEST

START_TEST(mode_and_owner_are_kept)
{
    static const mode_t modes[] = {0600, 0640, 0755, 0606};
    char path[500];
    struct stat about;
    ck_assert_int_eq(bite_file_write(at(path, "a"), "one", 3, NULL), BITE_OK);
    mode_t mask = umask(0);
    (void)umask(mask);
    ck_assert_int_eq(stat(path, &about), 0);
    ck_assert_int_eq(about.st_mode & 07777, 0666 & ~mask);
    for (size_t i = 0; i < sizeof modes / sizeof *modes; i++) {
        ck_assert_int_eq(chmod(path, modes[i]), 0);
        ck_assert_int_eq(bite_file_write(path, "two", 3, NULL), BITE_OK);
        ck_assert_int_eq(stat(path, &about), 0);
        ck_assert_int_eq(about.st_mode & 07777, modes[i]);
    }
    if (geteuid() == 0) {
        ck_assert_int_eq(chown(path, 65534, 65533), 0);
        ck_assert_int_eq(chmod(path, 04750), 0);
        ck_assert_int_eq(bite_file_write(path, "three", 5, NULL), BITE_OK);
        ck_assert_int_eq(stat(path, &about), 0);
        ck_assert_uint_eq(about.st_uid, 65534);
        ck_assert_uint_eq(about.st_gid, 65533);
        ck_assert_int_eq(about.st_mode & 07777, 04750);
    }
    /* a child without permission cannot replace the file, although it may write the folder */
    ck_assert_int_eq(chmod(path, 0444), 0);
    ck_assert_int_eq(chmod(folder, 0777), 0);
    pid_t child = fork();
    if (child == 0) {
        bite_error error = BITE_ERROR_INIT;
        if (geteuid() == 0 && (setgid(65532) != 0 || setuid(65532) != 0)) {
            _exit(99);
        }
        _exit((int)bite_file_write(path, "four", 4, &error));
    }
    int status = -1;
    ck_assert_int_eq(waitpid(child, &status, 0), child);
    ck_assert(WIFEXITED(status));
    ck_assert_int_eq(WEXITSTATUS(status), BITE_CANNOT_WRITE);
    ck_assert_uint_eq(files_in_folder(), 1);
}
END_TEST

START_TEST(a_draft_of_a_private_file_is_private)
{
    char path[500];
    bite_test_write(at(path, "a"), "old", 3);
    ck_assert_int_eq(chmod(path, 0600), 0);
    ck_assert_int_eq(bite_file_write(path, "new", 3, NULL), BITE_OK);
    ck_assert_int_eq(mode_when_written, 0600);
    ck_assert_int_eq(chmod(path, 0644), 0);
    ck_assert_int_eq(bite_file_write(path, "new", 3, NULL), BITE_OK);
    ck_assert_int_eq(mode_when_written, 0600);
}
END_TEST

START_TEST(interrupted_calls_are_repeated)
{
    char path[500];
    char text[100];
    for (int count = 1; count < 12; count++) {
        interruptions = count;
        interrupted = 0;
        (void)snprintf(text, sizeof text, "text %d", count);
        bite_status status = bite_file_write(at(path, "a"), text, strlen(text), NULL);
        interruptions = 0;
        ck_assert_int_eq(status, BITE_OK);
        ck_assert_int_eq(interrupted, count);
        bite_test_expect_file(path, text);
    }
    int held = -1;
    interruptions = 5;
    bite_status status = bite_file_lock(path, &held, NULL);
    interruptions = 0;
    ck_assert_int_eq(status, BITE_OK);
    ck_assert_int_ge(held, 0);
    bite_file_unlock(held);
    ck_assert_uint_eq(files_in_folder(), 1);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("draft");
    TCase *tests = tcase_create("draft");
    tcase_set_timeout(tests, 60);
    tcase_add_checked_fixture(tests, setup, teardown);
    tcase_add_test(tests, a_draft_is_kept_or_dropped);
    tcase_add_test(tests, stale_drafts_are_cleared);
    tcase_add_test(tests, files_that_are_not_stale_drafts_are_kept);
    tcase_add_test(tests, too_many_unfinished_files_are_refused);
    tcase_add_test(tests, concurrent_and_killed_writers_leave_a_complete_file);
    tcase_add_test(tests, mode_and_owner_are_kept);
    tcase_add_test(tests, a_draft_of_a_private_file_is_private);
    tcase_add_test(tests, interrupted_calls_are_repeated);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
