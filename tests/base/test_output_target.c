/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Targets of output: through links, to descriptors and devices, and never to a file that was not
 * meant. */
#include "core/base/file.h"
#include "core/base/output_target.h"
#include "tests/support/support.h"
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/time.h>
#include <sys/wait.h>
#include <unistd.h>

enum { PATH_ROOM = 500 };

static char folder[400];

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
    int size = snprintf(path, PATH_ROOM, "%s/%s", folder, name);
    ck_assert_int_lt(size, PATH_ROOM);
    return path;
}

static void write_text(const char *path, const char *text)
{
    bite_error error = BITE_ERROR_INIT;
    ck_assert_msg(bite_file_write(path, text, strlen(text), &error) == BITE_OK, "%s: %s",
                  error.file, error.message);
}

static void refused(const char *path, const char *says)
{
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_file_write(path, "new", 3, &error), BITE_CANNOT_WRITE);
    ck_assert_msg(strstr(error.message, says) != NULL, "%s", error.message);
    ck_assert_str_eq(error.file, path);
}

static void expect_link(const char *path)
{
    struct stat about;
    ck_assert_int_eq(lstat(path, &about), 0);
    ck_assert_msg(S_ISLNK(about.st_mode), "%s is not a link any more", path);
}

/* A chain of links, each relative to its own folder, is followed; each stays a link. */
START_TEST(links_are_written_through)
{
    char path[PATH_ROOM];
    char first[PATH_ROOM];
    ck_assert_int_eq(mkdir(at(path, "a"), 0700), 0);
    ck_assert_int_eq(mkdir(at(path, "b"), 0700), 0);
    ck_assert_int_eq(symlink("a/second", at(first, "first")), 0);
    ck_assert_int_eq(symlink("../b/file", at(path, "a/second")), 0);
    bite_test_write(at(path, "b/file"), "old", 3);
    ck_assert_int_eq(chmod(path, 0640), 0);
    write_text(first, "new");
    bite_test_expect_file(path, "new");
    struct stat about;
    ck_assert_int_eq(stat(path, &about), 0);
    ck_assert_int_eq(about.st_mode & 07777, 0640);
    expect_link(first);
    expect_link(at(path, "a/second"));
    ck_assert_int_eq(unlink(at(path, "b/file")), 0);
    write_text(first, "made");
    bite_test_expect_file(path, "made");
    expect_link(first);
}
END_TEST

START_TEST(links_that_lead_nowhere_are_refused)
{
    char path[PATH_ROOM];
    ck_assert_int_eq(symlink("two", at(path, "one")), 0);
    ck_assert_int_eq(symlink("one", at(path, "two")), 0);
    refused(path, strerror(ELOOP));
    ck_assert_int_eq(symlink("none/file", at(path, "astray")), 0);
    refused(path, strerror(ENOENT));
    ck_assert_int_eq(symlink(".", at(path, "here")), 0);
    refused(path, "folder");
}
END_TEST

/* In a folder such as /tmp, root does not follow the link of a user, nor one user that of another.
 */
START_TEST(links_of_others_in_a_shared_folder_are_refused)
{
    char path[PATH_ROOM];
    char secret[PATH_ROOM];
    const uid_t other = 65534;
    bite_test_write(at(secret, "secret"), "old", 3);
    ck_assert_int_eq(mkdir(at(path, "shared"), 0700), 0);
    ck_assert_int_eq(chmod(path, 01777), 0);
    ck_assert_int_eq(symlink("../secret", at(path, "shared/link")), 0);
    write_text(path, "mine"); /* my own link is followed */
    bite_test_expect_file(secret, "mine");
    if (geteuid() != 0) {
        return; /* only root can create a link of another user */
    }
    ck_assert_int_eq(lchown(path, other, (gid_t)-1), 0);
    refused(path, "another user");
    bite_test_expect_file(secret, "mine");
    expect_link(path);
    ck_assert_int_eq(chown(at(path, "shared"), other, (gid_t)-1),
                     0); /* a link of the folder's owner */
    write_text(at(path, "shared/link"), "theirs");
    bite_test_expect_file(secret, "theirs");
}
END_TEST

START_TEST(what_is_not_a_file_is_refused)
{
    char path[PATH_ROOM];
    char mine[600];
    refused(folder, "folder");
    (void)snprintf(mine, sizeof mine, "%s/", folder);
    refused(mine, "folder");
    refused(at(path, "."), "folder");
    refused("/", "folder");
    refused("", "no file is named");
    refused(at(path, "none/x"), strerror(ENOENT));
    bite_test_write(at(path, "plain"), "old", 3);
    refused(at(path, "plain/x"), strerror(ENOTDIR));
    bite_test_expect_file(at(path, "plain"), "old");
    ck_assert_int_eq(mknod(at(path, "s"), S_IFSOCK | 0600, 0), 0);
    refused(at(path, "s"), "socket");
    char longest[6000];
    memset(longest, 'x', sizeof longest);
    longest[sizeof longest - 1] = 0;
    ck_assert_int_eq(bite_file_write(longest, "x", 1, NULL), BITE_CANNOT_WRITE);
    longest[300] = 0;
    ck_assert_int_eq(bite_file_write(at(path, longest), "x", 1, NULL), BITE_CANNOT_WRITE);
    ck_assert_int_eq(bite_file_write(NULL, "x", 1, NULL), BITE_BAD_ARGUMENT);
    longest[255] = 0; /* the longest possible name leaves no space for a suffix */
    write_text(at(path, longest), "as long as may be");
    bite_test_expect_file(path, "as long as may be");
}
END_TEST

/* A descriptor is written at its current position: between what others write, not over it. */
static void through_descriptor(const char *names)
{
    char path[PATH_ROOM];
    char name[600];
    int file = open(at(path, "out"), O_RDWR | O_CREAT | O_TRUNC | O_CLOEXEC, 0600);
    ck_assert_int_ge(file, 0);
    ck_assert_int_eq(write(file, "before ", 7), 7);
    (void)snprintf(name, sizeof name, "%s/%d", names, file);
    write_text(name, "new ");
    ck_assert_int_eq(write(file, "after", 5), 5);
    (void)close(file);
    bite_test_expect_file(path, "before new after");
}

START_TEST(descriptors_are_written_at_their_position)
{
    char path[PATH_ROOM];
    char name[100];
    through_descriptor("/dev/fd");
    through_descriptor("/proc/self/fd");
    through_descriptor("/proc/thread-self/fd");
    through_descriptor("/proc/../dev/fd");
    (void)snprintf(name, sizeof name, "/proc/%ld/fd", (long)getpid());
    through_descriptor(name);
    (void)snprintf(name, sizeof name, "/proc/%ld/task/%ld/fd", (long)getpid(), (long)getpid());
    through_descriptor(name);
    ck_assert_int_eq(symlink("/dev/stdout", at(path, "link")), 0);
    int before = dup(STDOUT_FILENO);
    int file = open(at(path, "out"), O_RDWR | O_CREAT | O_TRUNC | O_CLOEXEC, 0600);
    ck_assert_int_eq(dup2(file, STDOUT_FILENO), STDOUT_FILENO);
    bite_status status = bite_file_write("/dev/stdout", "one ", 4, NULL);
    bite_status linked = bite_file_write(at(path, "link"), "two", 3, NULL);
    ck_assert_int_eq(dup2(before, STDOUT_FILENO), STDOUT_FILENO);
    ck_assert_int_eq(status, BITE_OK);
    ck_assert_int_eq(linked, BITE_OK);
    bite_test_expect_file(at(path, "out"), "one two");
    expect_link(at(path, "link"));
    (void)close(before);
    (void)close(file);
    refused("/dev/fd/987", strerror(EBADF));
    refused("/proc/self/fd/987", strerror(EBADF));
    file = open(at(path, "out"), O_RDONLY | O_CLOEXEC);
    (void)snprintf(name, sizeof name, "/dev/fd/%d", file);
    refused(name, "reading only");
    (void)close(file);
}
END_TEST

/* What another process has open is written at its end; nothing in it is lost. */
START_TEST(open_files_of_other_processes_are_appended_to)
{
    char path[PATH_ROOM];
    char name[100];
    int ready[2];
    char byte = 0;
    ck_assert_int_eq(pipe(ready), 0);
    pid_t child = fork();
    if (child == 0) {
        int file = open(at(path, "theirs"), O_RDWR | O_CREAT | O_CLOEXEC, 0600);
        if (file < 0 || dup2(file, 200) < 0 || write(file, "theirs ", 7) != 7 ||
            write(ready[1], "x", 1) != 1) {
            _exit(1);
        }
        for (;;) {
            (void)pause();
        }
    }
    ck_assert_int_eq(read(ready[0], &byte, 1), 1);
    (void)snprintf(name, sizeof name, "/proc/%ld/fd/200", (long)child);
    bite_status status = bite_file_write(name, "ours", 4, NULL);
    (void)kill(child, SIGKILL);
    ck_assert_int_eq(waitpid(child, NULL, 0), child);
    ck_assert_int_eq(status, BITE_OK);
    bite_test_expect_file(at(path, "theirs"), "theirs ours");
    (void)close(ready[0]);
    (void)close(ready[1]);
}
END_TEST

START_TEST(devices_are_written_directly)
{
    struct stat about;
    write_text("/dev/null", "new");
    ck_assert_int_eq(stat("/dev/null", &about), 0);
    ck_assert(S_ISCHR(about.st_mode));
    if (access("/dev/full", W_OK) == 0) {
        refused("/dev/full", strerror(ENOSPC));
        ck_assert_int_eq(stat("/dev/full", &about), 0);
        ck_assert(S_ISCHR(about.st_mode));
    }
}
END_TEST

static void on_alarm(int number)
{
    (void)number;
}

/* Signals without SA_RESTART every few milliseconds: opening a pipe that has no reader yet, and
 * writing more than its capacity, are interrupted repeatedly. */
static void interrupt_often(void)
{
    struct sigaction action;
    const struct itimerval often = {{0, 2000}, {0, 2000}};
    memset(&action, 0, sizeof action);
    action.sa_handler = on_alarm;
    (void)sigaction(SIGALRM, &action, NULL);
    (void)setitimer(ITIMER_REAL, &often, NULL);
}

START_TEST(interrupted_wait_for_a_pipe_continues)
{
    enum { SIZE = 400000 };
    char path[PATH_ROOM];
    static char text[SIZE];
    static char got[SIZE + 1];
    size_t used = 0;
    memset(text, 'x', sizeof text);
    ck_assert_int_eq(mkfifo(at(path, "pipe"), 0600), 0);
    pid_t child = fork();
    if (child == 0) {
        interrupt_often();
        _exit((int)bite_file_write(path, text, sizeof text, NULL));
    }
    (void)usleep(30000);
    int pipe = open(path, O_RDONLY | O_CLOEXEC);
    ck_assert_int_ge(pipe, 0);
    for (ssize_t size = 1; size > 0 && used<sizeof got; used += size> 0 ? (size_t)size : 0) {
        (void)usleep(3000);
        size = read(pipe, got + used, sizeof got - used);
    }
    (void)close(pipe);
    int status = -1;
    ck_assert_int_eq(waitpid(child, &status, 0), child);
    ck_assert(WIFEXITED(status));
    ck_assert_int_eq(WEXITSTATUS(status), BITE_OK);
    ck_assert_uint_eq(used, SIZE);
    ck_assert_mem_eq(got, text, SIZE);
}
END_TEST

/* A descriptor that does not block is waited for. The child reads, now and then. */
START_TEST(a_full_pipe_is_waited_for)
{
    enum { SIZE = 300000 };
    static char text[SIZE];
    int ends[2];
    char name[100];
    memset(text, 'y', sizeof text);
    ck_assert_int_eq(pipe2(ends, O_NONBLOCK), 0);
    pid_t child = fork();
    if (child == 0) {
        static char part[5000];
        size_t used = 0;
        ssize_t size = -1;
        (void)close(ends[1]);
        while (size != 0) {
            size = read(ends[0], part, sizeof part);
            used += size > 0 ? (size_t)size : 0;
            if (size < 0) {
                (void)usleep(1000);
            }
        }
        _exit(used == SIZE ? 0 : 1);
    }
    (void)close(ends[0]);
    (void)snprintf(name, sizeof name, "/dev/fd/%d", ends[1]);
    bite_error error = BITE_ERROR_INIT;
    ck_assert_msg(bite_file_write(name, text, sizeof text, &error) == BITE_OK, "%s", error.message);
    (void)close(ends[1]);
    int status = -1;
    ck_assert_int_eq(waitpid(child, &status, 0), child);
    ck_assert(WIFEXITED(status));
    ck_assert_int_eq(WEXITSTATUS(status), 0);
}
END_TEST

START_TEST(one_file_is_recognized_by_any_name)
{
    char a[PATH_ROOM];
    char b[PATH_ROOM];
    bite_test_write(at(a, "file"), "x", 1);
    ck_assert_int_eq(bite_file_same(a, at(b, "./file")), 1);
    ck_assert_int_eq(link(a, at(b, "hard")), 0);
    ck_assert_int_eq(bite_file_same(a, b), 1);
    ck_assert_int_eq(symlink("hard", at(b, "soft")), 0);
    ck_assert_int_eq(bite_file_same(a, b), 1);
    bite_test_write(at(b, "other"), "x", 1);
    ck_assert_int_eq(bite_file_same(a, b), 0);
    ck_assert_int_eq(bite_file_same(a, at(b, "none")), 0);
    /* files that do not exist yet: one name in one folder */
    ck_assert_int_eq(bite_file_same(at(a, "none"), at(b, ".//none")), 1);
    ck_assert_int_eq(symlink("none", at(b, "dangling")), 0);
    ck_assert_int_eq(bite_file_same(a, b), 1);
    ck_assert_int_eq(bite_file_same(a, at(b, "nine")), 0);
    ck_assert_int_eq(mkdir(at(b, "folder"), 0700), 0);
    ck_assert_int_eq(bite_file_same(a, at(b, "folder/none")), 0);
    ck_assert_int_eq(bite_file_same(at(a, "no/such"), a), 0);
    ck_assert_int_eq(bite_file_same(NULL, a), 0);
    ck_assert_int_eq(bite_file_same(a, NULL), 0);
    /* a descriptor is the file that it is open for; a device is not a file */
    int file = open(at(a, "file"), O_WRONLY | O_CLOEXEC);
    (void)snprintf(b, sizeof b, "/dev/fd/%d", file);
    ck_assert_int_eq(bite_file_same(a, b), 1);
    (void)close(file);
    ck_assert_int_eq(bite_file_same("/dev/null", "/dev/null"), 0);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("target");
    TCase *tests = tcase_create("target");
    tcase_set_timeout(tests, 60);
    tcase_add_checked_fixture(tests, setup, teardown);
    tcase_add_test(tests, links_are_written_through);
    tcase_add_test(tests, links_that_lead_nowhere_are_refused);
    tcase_add_test(tests, links_of_others_in_a_shared_folder_are_refused);
    tcase_add_test(tests, what_is_not_a_file_is_refused);
    tcase_add_test(tests, descriptors_are_written_at_their_position);
    tcase_add_test(tests, open_files_of_other_processes_are_appended_to);
    tcase_add_test(tests, devices_are_written_directly);
    tcase_add_test(tests, interrupted_wait_for_a_pipe_continues);
    tcase_add_test(tests, a_full_pipe_is_waited_for);
    tcase_add_test(tests, one_file_is_recognized_by_any_name);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
