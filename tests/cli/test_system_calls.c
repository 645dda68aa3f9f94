/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the program can no longer do once it has given up system calls, and what it still can. */
#include "bindings/cli/system_calls.h"
#include "tests/support/support.h"
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <netinet/in.h>
#include <pthread.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ptrace.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>

static int try_program(void)
{
    char *const words[] = {"true", NULL};
    return execv("/bin/true", words);
}

static int try_fork(void)
{
    pid_t child = fork();
    if (child == 0) {
        _exit(0);
    }
    return child < 0 ? -1 : 0;
}

static int try_command(void)
{
    return system("true") == 0 ? 0 : -1;
}

static int try_connection(void)
{
    return socket(AF_INET, SOCK_STREAM, 0);
}

static int try_local_connection(void)
{
    int ends[2];
    return socketpair(AF_UNIX, SOCK_STREAM, 0, ends);
}

static int try_parent(void)
{
    return kill(getppid(), 0);
}

static int try_group(void)
{
    return kill(0, 0);
}

static int try_inspection(void)
{
    return (int)ptrace(PTRACE_TRACEME, 0, NULL, NULL);
}

static int try_root(void)
{
    return chroot("/");
}

static void *do_nothing(void *given)
{
    return given;
}

static int try_thread(void)
{
    pthread_t thread;
    int number = pthread_create(&thread, NULL, do_nothing, NULL);
    return number != 0 ? -1 : pthread_join(thread, NULL);
}

static int try_itself(void)
{
    (void)signal(SIGUSR1, SIG_IGN);
    return kill(getpid(), SIGUSR1) != 0 || raise(SIGUSR1) != 0 ? -1 : 0;
}

static int try_file(void)
{
    int file = open("/dev/null", O_WRONLY | O_CLOEXEC);
    int failed = file < 0 || write(file, "x", 1) != 1 || fsync(file) == 0;
    return failed || close(file) != 0 ? -1 : 0; /* /dev/null cannot be synced */
}

static int try_pipe(void)
{
    int ends[2];
    return pipe(ends) != 0 || close(ends[0]) != 0 || close(ends[1]) != 0 ? -1 : 0;
}

static int try_opening(void)
{
    void *object = dlopen("libm.so.6", RTLD_NOW | RTLD_LOCAL);
    return object == NULL && dlopen(NULL, RTLD_NOW) == NULL ? -1 : 0;
}

enum { WORKED, REFUSED, FAILED, NO_FILTER };

static const struct {
    int (*attempt)(void);
    int allowed; /* afterwards */
    int usual;   /* it works before, whoever runs the test */
} calls[] = {
    {try_program, 0, 1},
    {try_fork, 0, 1},
    {try_command, 0, 1},
    {try_connection, 0, 0},
    {try_local_connection, 0, 1},
    {try_parent, 0, 1},
    {try_group, 0, 1},
    {try_inspection, 0, 0},
    {try_root, 0, 0},
    {try_thread, 1, 1},
    {try_itself, 1, 1},
    {try_file, 1, 1},
    {try_pipe, 1, 1},
    {try_opening, 1, 1},
};

#define CALLS (sizeof calls / sizeof *calls)

/* In a child, since it cannot be undone. */
static int attempt(size_t i, int dropped)
{
    pid_t child = fork();
    if (child == 0) {
        if (dropped && !drop_system_calls()) {
            _exit(NO_FILTER);
        }
        errno = 0;
        _exit(calls[i].attempt() >= 0 ? WORKED : errno == EPERM ? REFUSED : FAILED);
    }
    int status = 0;
    ck_assert_int_eq(waitpid(child, &status, 0), child);
    ck_assert_msg(WIFEXITED(status), "call %zu ends the process", i);
    return WEXITSTATUS(status);
}

START_TEST(calls_are_given_up)
{
    int ended = attempt((size_t)_i, 1);
    if (ended == NO_FILTER) {
        printf("call %d: not tested, there is no filter here\n", _i);
        return;
    }
    ck_assert_int_eq(ended, calls[_i].allowed ? WORKED : REFUSED);
}
END_TEST

/* Otherwise the test above would show nothing. */
START_TEST(they_work_before)
{
    if (calls[_i].usual) {
        ck_assert_int_eq(attempt((size_t)_i, 0), WORKED);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("system calls");
    TCase *tests = tcase_create("system calls");
    tcase_add_loop_test(tests, calls_are_given_up, 0, CALLS);
    tcase_add_loop_test(tests, they_work_before, 0, CALLS);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
