/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Files: what is read, what is refused, and that a target is old or new but never a part. */
#include "core/base/file.h"
#include "tests/support/support.h"
#include <errno.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

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
    (void)snprintf(path, 500, "%s/%s", folder, name);
    return path;
}

START_TEST(only_regular_files_are_read)
{
    char path[500];
    char *text = NULL;
    size_t size = 0;
    bite_error error = BITE_ERROR_INIT;
    bite_test_write(at(path, "a"), "abc\0d", 5);
    ck_assert_int_eq(bite_file_read(bite_memory_default(), path, 100, &text, &size, &error),
                     BITE_OK);
    ck_assert_uint_eq(size, 5);
    ck_assert_mem_eq(text, "abc\0d", 6);
    free(text);
    text = NULL;
    ck_assert_int_eq(bite_file_read(bite_memory_default(), path, 4, &text, &size, &error),
                     BITE_BAD_FILE);
    ck_assert_int_eq(bite_file_read(bite_memory_default(), folder, 100, &text, &size, &error),
                     BITE_NOT_FOUND);
    ck_assert_ptr_nonnull(strstr(error.message, "folder"));
    ck_assert_int_eq(
        bite_file_read(bite_memory_default(), at(path, "none"), 100, &text, &size, &error),
        BITE_NOT_FOUND);
    ck_assert_str_eq(error.file, path);
    ck_assert_int_eq(mkfifo(at(path, "pipe"), 0600), 0);
    ck_assert_int_eq(bite_file_read(bite_memory_default(), path, 100, &text, &size, &error),
                     BITE_NOT_FOUND);
    ck_assert_int_eq(bite_file_read(bite_memory_default(), "/dev/null", 100, &text, &size, &error),
                     BITE_NOT_FOUND);
    ck_assert_ptr_null(text);
}
END_TEST

/* What is wrong with a path says whether there is a file: one below a file, a link to itself, a
 * name that no disk has; and a file whose size is not what it holds. */
START_TEST(why_a_file_is_not_read)
{
    static const struct {
        const char *name;
        bite_status status;
        const char *says;
    } cases[] = {{"a/b", BITE_NOT_FOUND, "cannot be opened"},
                 {"self", BITE_NOT_FOUND, "cannot be opened"},
                 {"longer", BITE_IO, "cannot be opened"}};
    char path[900];
    char longer[400];
    char *text = NULL;
    size_t size = 0;
    bite_test_write(at(path, "a"), "abc", 3);
    ck_assert_int_eq(symlink("self", at(path, "self")), 0);
    memset(longer, 'x', 300);
    longer[300] = 0;
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        bite_error error = BITE_ERROR_INIT;
        const char *name = strcmp(cases[i].name, "longer") == 0 ? longer : cases[i].name;
        (void)snprintf(path, sizeof path, "%s/%s", folder, name);
        ck_assert_int_eq(bite_file_read(bite_memory_default(), path, 100, &text, &size, &error),
                         cases[i].status);
        ck_assert_ptr_nonnull(strstr(error.message, cases[i].says));
        ck_assert_str_eq(error.file, path);
    }
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(
        bite_file_read(bite_memory_default(), "/proc/self/status", 100, &text, &size, &error),
        BITE_IO);
    ck_assert_str_eq(error.message, "changed while it was read");
    ck_assert_ptr_null(text);
}
END_TEST

START_TEST(writing_replaces_the_text_and_keeps_the_mode)
{
    char path[500];
    struct stat about;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_file_write(at(path, "b"), "one", 3, &error), BITE_OK);
    bite_test_expect_file(path, "one");
    ck_assert_int_eq(chmod(path, 0600), 0);
    ck_assert_int_eq(bite_file_write(path, "two", 3, &error), BITE_OK);
    bite_test_expect_file(path, "two");
    ck_assert_int_eq(stat(path, &about), 0);
    ck_assert_int_eq(about.st_mode & 0777, 0600);
    char nowhere[600];
    (void)snprintf(nowhere, sizeof nowhere, "%s/none/b", folder);
    ck_assert_int_eq(bite_file_write(nowhere, "x", 1, &error), BITE_CANNOT_WRITE);
    ck_assert_str_eq(error.file, nowhere);
}
END_TEST

/* A limited file size simulates a full disk: the old content is kept, and no draft is left. */
START_TEST(a_full_disk_leaves_the_old_file)
{
    char path[500];
    ck_assert_int_eq(bite_file_write(at(path, "c"), "old", 3, NULL), BITE_OK);
    pid_t child = fork();
    if (child == 0) {
        struct rlimit limit = {1000, 1000};
        char large[5000];
        memset(large, 'x', sizeof large);
        (void)signal(SIGXFSZ, SIG_IGN);
        if (setrlimit(RLIMIT_FSIZE, &limit) != 0) {
            _exit(2);
        }
        _exit(bite_file_write(path, large, sizeof large, NULL) == BITE_CANNOT_WRITE ? 0 : 1);
    }
    int status = -1;
    ck_assert_int_eq(waitpid(child, &status, 0), child);
    ck_assert(WIFEXITED(status));
    ck_assert_int_eq(WEXITSTATUS(status), 0);
    bite_test_expect_file(path, "old");
    ck_assert_int_eq(unlink(path), 0);
    ck_assert_msg(rmdir(folder) == 0, "something was left beside the target: %s", strerror(errno));
    ck_assert_int_eq(mkdir(folder, 0700), 0);
}
END_TEST

/* A writer is killed at different moments: the target always has one of the complete texts. */
START_TEST(a_killed_writer_leaves_a_complete_file)
{
    char path[500];
    size_t size = 200000;
    char *text = malloc(size + 1);
    ck_assert_ptr_nonnull(text);
    memset(text, 'a', size);
    text[size] = 0;
    ck_assert_int_eq(bite_file_write(at(path, "d"), text, size, NULL), BITE_OK);
    for (int i = 0; i < 25; i++) {
        pid_t child = fork();
        if (child == 0) {
            for (char c = 'b';; c = c == 'z' ? 'b' : (char)(c + 1)) {
                memset(text, c, size);
                if (bite_file_write(path, text, size, NULL) != BITE_OK) {
                    _exit(1);
                }
            }
        }
        (void)usleep((useconds_t)(500 + 700 * i));
        (void)kill(child, SIGKILL);
        int status = 0;
        ck_assert_int_eq(waitpid(child, &status, 0), child);
        ck_assert(WIFSIGNALED(status));
        char *got = NULL;
        size_t got_size = 0;
        ck_assert_int_eq(
            bite_file_read(bite_memory_default(), path, 1 << 24, &got, &got_size, NULL), BITE_OK);
        ck_assert_uint_eq(got_size, size);
        for (size_t k = 1; k < size; k++) {
            if (got[k] != got[0]) {
                ck_abort_msg("a half-written file");
            }
        }
        free(got);
    }
    free(text);
}
END_TEST

/* The second caller is refused after a while; the lock of a killed process is released. */
START_TEST(a_folder_is_locked_by_one_writer_at_a_time)
{
    char path[500];
    int first = -1;
    int second = -1;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_file_lock(at(path, "a"), &first, NULL), BITE_OK);
    ck_assert_int_ge(first, 0);
    ck_assert_int_eq(bite_file_lock(at(path, "b"), &second, &error), BITE_BUSY);
    ck_assert_int_eq(second, -1);
    ck_assert_ptr_nonnull(strstr(error.message, "another program"));
    bite_file_unlock(first);
    pid_t child = fork();
    if (child == 0) {
        int held = -1;
        (void)bite_file_lock(path, &held, NULL);
        (void)raise(SIGKILL);
    }
    (void)waitpid(child, NULL, 0);
    ck_assert_int_eq(bite_file_lock(path, &second, &error), BITE_OK);
    ck_assert_int_ge(second, 0);
    bite_file_unlock(second);
    ck_assert_int_eq(bite_file_lock(at(path, "no/such/a"), &second, &error),
                     BITE_OK); /* writing reports it */
    ck_assert_int_eq(second, -1);
    bite_file_unlock(second);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("file");
    TCase *tests = tcase_create("file");
    tcase_set_timeout(tests, 60);
    tcase_add_checked_fixture(tests, setup, teardown);
    tcase_add_test(tests, only_regular_files_are_read);
    tcase_add_test(tests, why_a_file_is_not_read);
    tcase_add_test(tests, writing_replaces_the_text_and_keeps_the_mode);
    tcase_add_test(tests, a_full_disk_leaves_the_old_file);
    tcase_add_test(tests, a_killed_writer_leaves_a_complete_file);
    tcase_add_test(tests, a_folder_is_locked_by_one_writer_at_a_time);
    tcase_set_timeout(tests, 60);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
