/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A command in a process of its own: its status is returned only if it was reported, and signals
 * reach the right process. Each case runs supervise() in a child process that plays the program. */
#ifdef HAVE_CONFIG_H
#include <config.h>
#endif
#include "bindings/cli/exit_status.h"
#include "bindings/cli/supervisor.h"
#include "tests/support/support.h"
#include <fcntl.h>
#include <signal.h>
#include <stdatomic.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <sys/mman.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <termios.h>
#include <time.h>
#include <unistd.h>

#define USER_NOBODY 65534
#define MESSAGE_MAX 400

/* Memory shared by the processes of a case. */
static struct shared {
    atomic_int worker; /* the worker process; 0: not started */
    atomic_int job;    /* the program's process under a terminal */
} * shared;

static int message_pipe; /* a pipe: what the program writes to stderr */
static char message[MESSAGE_MAX];

static void setup(void)
{
    shared = mmap(NULL, sizeof *shared, PROT_READ | PROT_WRITE, MAP_SHARED | MAP_ANONYMOUS, -1, 0);
    ck_assert_ptr_ne(shared, MAP_FAILED);
}

static void sleep_briefly(void)
{
    const struct timespec pause = {0, 2000000};
    (void)nanosleep(&pause, NULL);
}

/* ---- work functions ---- */

static int return_status(const void *user)
{
    return *(const int *)user;
}

static int call_underscore_exit(const void *user)
{
    _exit(*(const int *)user);
}

static int call_exit(const void *user)
{
    exit(*(const int *)user);
}

static void exit_with_0(void)
{
    _exit(0);
}

static int exit_with_0_after_return(const void *user)
{
    (void)atexit(exit_with_0);
    return *(const int *)user;
}

static int crash(const void *user)
{
    (void)signal(*(const int *)user, SIG_DFL);
    (void)raise(*(const int *)user);
    return 0;
}

static int close_all_and_return(const void *user)
{
    for (int i = 3; i < 64; i++) {
        (void)close(i);
    }
    return *(const int *)user;
}

static int wait_forever(const void *user)
{
    atomic_store(&shared->worker, (int)getpid());
    while (user != NULL) {
        (void)pause();
    }
    return 0;
}

static int print_and_return(const void *user)
{
    (void)printf("an answer");
    return fflush(stdout) == 0 ? *(const int *)user : EXIT_CANNOT_WRITE;
}

/* ---- the program ---- */

/* The signal handlers of Check would end the whole process group. Whoever started the tests may
 * have had signals ignored, as nohup does, and a shell for background commands. */
static void reset_handlers(void)
{
    static const int handled[] = {SIGHUP, SIGINT, SIGQUIT, SIGPIPE, SIGALRM, SIGTERM, SIGCHLD};
    for (size_t i = 0; i < sizeof handled / sizeof *handled; i++) {
        (void)signal(handled[i], SIG_DFL);
    }
}

static pid_t start(int (*work)(const void *user), int argument, void (*before)(void))
{
    int ends[2];
    ck_assert_int_eq(pipe(ends), 0);
    pid_t program = fork();
    if (program == 0) {
        reset_handlers();
        (void)dup2(ends[1], STDERR_FILENO);
        (void)close(ends[0]);
        (void)close(ends[1]);
        if (before != NULL) {
            before();
        }
        _exit(supervise(work, &argument));
    }
    ck_assert_int_gt(program, 0);
    (void)close(ends[1]);
    message_pipe = ends[0];
    return program;
}

/* Waits until the program has ended; `message` is what it wrote to stderr. */
static int finish(pid_t program)
{
    int status = 0;
    size_t used = 0;
    ssize_t got = 0;
    while ((got = read(message_pipe, message + used, sizeof message - 1 - used)) > 0) {
        used += (size_t)got;
    }
    message[used] = 0;
    (void)close(message_pipe);
    ck_assert_int_eq(waitpid(program, &status, 0), program);
    return status;
}

static pid_t wait_for_worker(void)
{
    while (atomic_load(&shared->worker) == 0) {
        sleep_briefly();
    }
    return atomic_load(&shared->worker);
}

/* The letter of a process's state, as in "R" or "T"; 0: it does not exist or is a zombie. */
static char state_of(pid_t process)
{
    char path[40];
    char text[200] = "";
    (void)snprintf(path, sizeof path, "/proc/%d/stat", (int)process);
    FILE *file = fopen(path, "r");
    if (file == NULL) {
        return 0;
    }
    size_t size = fread(text, 1, sizeof text - 1, file);
    (void)fclose(file);
    const char *name_end = strrchr(text, ')');
    char state = size == 0 || name_end == NULL || name_end[1] == 0 ? 0 : name_end[2];
    return state == 'Z' || state == 'X' ? 0 : state;
}

/* Waits at most ten seconds: a signal takes effect when its process is next scheduled. */
static int reaches_state(pid_t process, char state, int wanted)
{
    for (int i = 0; i < 5000; i++) {
        if ((state_of(process) == state) == wanted) {
            return 1;
        }
        sleep_briefly();
    }
    return 0;
}

START_TEST(reported_status_is_returned)
{
    static const int all[] = {0, 1, 2, 64, 70, 74};
    for (size_t i = 0; i < sizeof all / sizeof *all; i++) {
        int status = finish(start(return_status, all[i], NULL));
        ck_assert(WIFEXITED(status));
        ck_assert_int_eq(WEXITSTATUS(status), all[i]);
        ck_assert_str_eq(message, "");
    }
}
END_TEST

START_TEST(missing_report_is_a_fault)
{
    static const struct {
        int (*work)(const void *user);
        int argument;
        const char *text;
    } cases[] = {
        {call_underscore_exit, 0, "ended before its answer was complete"},
        {call_underscore_exit, 2, "ended before its answer was complete"},
        {call_exit, 0, "ended before its answer was complete"},
        {close_all_and_return, 0, "ended before its answer was complete"},
        {exit_with_0_after_return, 2, "ended with exit status 0 instead of 2"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        int status = finish(start(cases[i].work, cases[i].argument, NULL));
        ck_assert(WIFEXITED(status));
        ck_assert_int_eq(WEXITSTATUS(status), EXIT_FAULT);
        ck_assert_msg(strstr(message, cases[i].text) != NULL, "%s", message);
        ck_assert_ptr_nonnull(strstr(message, "plugin"));
        ck_assert_ptr_eq(strchr(message, '\n'), message + strlen(message) - 1);
    }
}
END_TEST

START_TEST(crash_is_reported_with_its_signal)
{
    static const int all[] = {SIGSEGV, SIGABRT, SIGFPE, SIGBUS, SIGILL};
    for (size_t i = 0; i < sizeof all / sizeof *all; i++) {
        int status = finish(start(crash, all[i], NULL));
        ck_assert(WIFSIGNALED(status));
        ck_assert_int_eq(WTERMSIG(status), all[i]);
        ck_assert(!WCOREDUMP(status)); /* the core of the child is enough */
        ck_assert_ptr_nonnull(strstr(message, "crashed"));
    }
}
END_TEST

START_TEST(program_ends_by_the_signal_of_its_child)
{
    static const int all[] = {SIGKILL, SIGTERM, SIGINT, SIGPIPE, SIGALRM};
    pid_t program = start(wait_forever, 0, NULL);
    pid_t worker = wait_for_worker();
    ck_assert_int_eq(kill(worker, all[_i]), 0);
    int status = finish(program);
    ck_assert(WIFSIGNALED(status));
    ck_assert_int_eq(WTERMSIG(status), all[_i]);
    ck_assert_str_eq(message, "");
}
END_TEST

START_TEST(termination_signals_are_forwarded)
{
    static const int all[] = {SIGHUP, SIGINT, SIGQUIT, SIGTERM};
    pid_t program = start(wait_forever, 0, NULL);
    pid_t worker = wait_for_worker();
    ck_assert_int_ne(worker, program);
    ck_assert_int_eq(kill(program, all[_i]), 0);
    int status = finish(program);
    ck_assert(WIFSIGNALED(status));
    ck_assert_int_eq(WTERMSIG(status), all[_i]);
    ck_assert(reaches_state(worker, 0, 1));
    ck_assert_str_eq(message, "");
}
END_TEST

static void ignore_hangup(void)
{
    (void)signal(SIGHUP, SIG_IGN);
    (void)signal(SIGCHLD, SIG_IGN);
}

/* As under nohup, and with a parent that never waits. */
START_TEST(ignored_signals_stay_ignored)
{
    pid_t program = start(wait_forever, 0, ignore_hangup);
    pid_t worker = wait_for_worker();
    ck_assert_int_eq(kill(program, SIGHUP), 0);
    ck_assert_int_eq(kill(worker, SIGHUP), 0);
    sleep_briefly();
    ck_assert_int_eq(kill(program, SIGTERM), 0);
    int status = finish(program);
    ck_assert(WIFSIGNALED(status));
    ck_assert_int_eq(WTERMSIG(status), SIGTERM);
    status = finish(start(return_status, 2, ignore_hangup));
    ck_assert(WIFEXITED(status));
    ck_assert_int_eq(WEXITSTATUS(status), 2);
}
END_TEST

#ifdef HAVE_SYS_PRCTL_H
START_TEST(child_does_not_outlive_the_program)
{
    pid_t program = start(wait_forever, 0, NULL);
    pid_t worker = wait_for_worker();
    ck_assert_int_eq(kill(program, SIGKILL), 0);
    (void)finish(program);
    ck_assert(reaches_state(worker, 0, 1));
}
END_TEST
#endif

static void close_standard_files(void)
{
    (void)close(STDIN_FILENO);
    (void)close(STDOUT_FILENO);
}

/* Output to a closed descriptor must not be taken for a report. */
START_TEST(closed_output_is_not_a_report)
{
    int status = finish(start(print_and_return, 0, close_standard_files));
    ck_assert(WIFEXITED(status));
    ck_assert_int_eq(WEXITSTATUS(status), EXIT_CANNOT_WRITE);
    ck_assert_str_eq(message, "");
}
END_TEST

static void forbid_processes(void)
{
    const struct rlimit none = {0, 0};
    if (geteuid() == 0 && setuid(USER_NOBODY) != 0) { /* the limit does not apply to root */
        _exit(99);
    }
    (void)setrlimit(RLIMIT_NPROC, &none);
}

static void forbid_files(void)
{
    const struct rlimit few = {3, 3};
    (void)setrlimit(RLIMIT_NOFILE, &few);
}

START_TEST(no_work_runs_without_a_child)
{
    static void (*const limits[])(void) = {forbid_processes, forbid_files};
    for (size_t i = 0; i < 2; i++) {
        int status = finish(start(wait_forever, 0, limits[i]));
        ck_assert(WIFEXITED(status));
        ck_assert_int_eq(WEXITSTATUS(status), EXIT_SYSTEM);
        ck_assert_ptr_nonnull(strstr(message, "cannot be started: "));
        ck_assert_int_eq(atomic_load(&shared->worker), 0);
    }
}
END_TEST

/* ---- under a terminal ---- */

/* The part of a shell: it gives the program the terminal and passes each change of its state to the
 * test. */
static void act_as_shell(int terminal, int states)
{
    reset_handlers();
    (void)alarm(50); /* if the test fails, the program gets SIGHUP when its shell is gone */
    (void)signal(SIGTTOU, SIG_IGN);
    (void)setsid();
    (void)ioctl(terminal, TIOCSCTTY, 0);
    pid_t job = fork();
    if (job == 0) {
        const int argument = 0;
        (void)setpgid(0, 0);
        (void)tcsetpgrp(terminal, getpid());
        (void)signal(SIGTTOU, SIG_DFL);
        _exit(supervise(wait_forever, &argument));
    }
    atomic_store(&shared->job, (int)job);
    for (;;) {
        int status = 0;
        if (waitpid(job, &status, WUNTRACED | WCONTINUED) != job ||
            write(states, &status, sizeof status) != sizeof status || WIFSIGNALED(status) ||
            WIFEXITED(status)) {
            _exit(0);
        }
    }
}

/* *terminal: the other side of the terminal, to which keys are written. Returns a descriptor from
 * which changes of state can be read. */
static int open_terminal(int *keys, pid_t *shell)
{
    int states[2];
    *keys = posix_openpt(O_RDWR | O_NOCTTY);
    ck_assert_int_ge(*keys, 0);
    ck_assert_int_eq(grantpt(*keys) | unlockpt(*keys), 0);
    int terminal = open(ptsname(*keys), O_RDWR | O_NOCTTY);
    ck_assert_int_ge(terminal, 0);
    ck_assert_int_eq(pipe(states), 0);
    *shell = fork();
    if (*shell == 0) {
        act_as_shell(terminal, states[1]);
    }
    ck_assert_int_gt(*shell, 0);
    (void)close(terminal);
    (void)close(states[1]);
    return states[0];
}

static int next_state(int states)
{
    int status = 0;
    ck_assert_int_eq(read(states, &status, sizeof status), sizeof status);
    return status;
}

START_TEST(terminal_keys_stop_and_interrupt_the_work)
{
    int keys = -1;
    pid_t shell = 0;
    int states = open_terminal(&keys, &shell);
    pid_t worker = wait_for_worker();
    while (atomic_load(&shared->job) == 0) {
        sleep_briefly();
    }
    pid_t program = atomic_load(&shared->job);
    ck_assert_int_eq(write(keys, "\x1a", 1), 1); /* Ctrl-Z */
    int status = next_state(states);
    ck_assert(WIFSTOPPED(status));
    ck_assert_int_eq(WSTOPSIG(status), SIGTSTP);
    ck_assert(reaches_state(worker, 'T', 1));
    ck_assert_int_eq(kill(-program, SIGCONT), 0); /* as fg does */
    ck_assert(WIFCONTINUED(next_state(states)));
    ck_assert(reaches_state(worker, 'T', 0));
    ck_assert_int_eq(write(keys, "\x1a", 1), 1);
    ck_assert(WIFSTOPPED(next_state(states)));
    ck_assert(reaches_state(worker, 'T', 1));
    ck_assert_int_eq(kill(program, SIGCONT), 0); /* to the program only: forwarded */
    ck_assert(WIFCONTINUED(next_state(states)));
    ck_assert(reaches_state(worker, 'T', 0));
    ck_assert_int_eq(write(keys, "\x03", 1), 1); /* Ctrl-C */
    status = next_state(states);
    ck_assert(WIFSIGNALED(status));
    ck_assert_int_eq(WTERMSIG(status), SIGINT);
    ck_assert(reaches_state(worker, 0, 1));
    ck_assert_int_eq(waitpid(shell, &status, 0), shell);
    (void)close(states);
    (void)close(keys);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("supervisor");
    TCase *tests = tcase_create("supervisor");
    tcase_add_checked_fixture(tests, setup, NULL);
    tcase_add_test(tests, reported_status_is_returned);
    tcase_add_test(tests, missing_report_is_a_fault);
    tcase_add_test(tests, crash_is_reported_with_its_signal);
    tcase_add_loop_test(tests, program_ends_by_the_signal_of_its_child, 0, 5);
    tcase_add_loop_test(tests, termination_signals_are_forwarded, 0, 4);
    tcase_add_test(tests, ignored_signals_stay_ignored);
#ifdef HAVE_SYS_PRCTL_H
    tcase_add_test(tests, child_does_not_outlive_the_program);
#endif
    tcase_add_test(tests, closed_output_is_not_a_report);
    tcase_add_test(tests, no_work_runs_without_a_child);
    tcase_add_test(tests, terminal_keys_stop_and_interrupt_the_work);
    tcase_set_timeout(tests, 60);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
