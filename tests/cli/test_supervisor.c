/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A command in a process of its own: its status is passed on only if it was reported, and signals
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

#define NOBODY 65534
#define SAID_MOST 400

/* Memory shared by the processes of a case. */
static struct shared {
    atomic_int worker; /* the worker process; 0: not started */
    atomic_int job;    /* the program's process under a terminal */
} * shared;

static int ends; /* a pipe: what the program writes to stderr */
static char said[SAID_MOST];

static void setup(void)
{
    shared = mmap(NULL, sizeof *shared, PROT_READ | PROT_WRITE, MAP_SHARED | MAP_ANONYMOUS, -1, 0);
    ck_assert_ptr_ne(shared, MAP_FAILED);
}

static void wait_a_little(void)
{
    const struct timespec pause = {0, 2000000};
    (void)nanosleep(&pause, NULL);
}

/* ---- work functions ---- */

static int answer(const void *user)
{
    return *(const int *)user;
}

static int leave(const void *user)
{
    _exit(*(const int *)user);
}

static int leave_politely(const void *user)
{
    exit(*(const int *)user);
}

static void leave_with_0(void)
{
    _exit(0);
}

static int leave_after_the_answer(const void *user)
{
    (void)atexit(leave_with_0);
    return *(const int *)user;
}

static int crash(const void *user)
{
    (void)signal(*(const int *)user, SIG_DFL);
    (void)raise(*(const int *)user);
    return 0;
}

static int close_all_and_answer(const void *user)
{
    for (int i = 3; i < 64; i++) {
        (void)close(i);
    }
    return *(const int *)user;
}

static int wait_for_ever(const void *user)
{
    atomic_store(&shared->worker, (int)getpid());
    while (user != NULL) {
        (void)pause();
    }
    return 0;
}

static int print_and_answer(const void *user)
{
    (void)printf("an answer");
    return fflush(stdout) == 0 ? *(const int *)user : EXIT_CANNOT_WRITE;
}

/* ---- the program ---- */

/* The signal handlers of Check would end the whole process group. Whoever started the tests may
 * have had signals ignored, as nohup does, and a shell for background commands. */
static void drop_handlers(void)
{
    static const int handled[] = {SIGHUP, SIGINT, SIGQUIT, SIGPIPE, SIGALRM, SIGTERM, SIGCHLD};
    for (size_t i = 0; i < sizeof handled / sizeof *handled; i++) {
        (void)signal(handled[i], SIG_DFL);
    }
}

static pid_t start(int (*work)(const void *user), int with, void (*before)(void))
{
    int both[2];
    ck_assert_int_eq(pipe(both), 0);
    pid_t program = fork();
    if (program == 0) {
        drop_handlers();
        (void)dup2(both[1], STDERR_FILENO);
        (void)close(both[0]);
        (void)close(both[1]);
        if (before != NULL) {
            before();
        }
        _exit(supervise(work, &with));
    }
    ck_assert_int_gt(program, 0);
    (void)close(both[1]);
    ends = both[0];
    return program;
}

/* Waits until the program has ended; `said` is what it wrote to stderr. */
static int finish(pid_t program)
{
    int status = 0;
    size_t used = 0;
    ssize_t got = 0;
    while ((got = read(ends, said + used, sizeof said - 1 - used)) > 0) {
        used += (size_t)got;
    }
    said[used] = 0;
    (void)close(ends);
    ck_assert_int_eq(waitpid(program, &status, 0), program);
    return status;
}

static pid_t begun(void)
{
    while (atomic_load(&shared->worker) == 0) {
        wait_a_little();
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
static int becomes(pid_t process, char state, int wanted)
{
    for (int i = 0; i < 5000; i++) {
        if ((state_of(process) == state) == wanted) {
            return 1;
        }
        wait_a_little();
    }
    return 0;
}

START_TEST(reported_status_is_passed_on)
{
    static const int all[] = {0, 1, 2, 64, 70, 74};
    for (size_t i = 0; i < sizeof all / sizeof *all; i++) {
        int status = finish(start(answer, all[i], NULL));
        ck_assert(WIFEXITED(status));
        ck_assert_int_eq(WEXITSTATUS(status), all[i]);
        ck_assert_str_eq(said, "");
    }
}
END_TEST

START_TEST(missing_report_is_a_fault)
{
    static const struct {
        int (*work)(const void *user);
        int with;
        const char *says;
    } cases[] = {
        {leave, 0, "ended before its answer was complete"},
        {leave, 2, "ended before its answer was complete"},
        {leave_politely, 0, "ended before its answer was complete"},
        {close_all_and_answer, 0, "ended before its answer was complete"},
        {leave_after_the_answer, 2, "ended with exit status 0 instead of 2"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        int status = finish(start(cases[i].work, cases[i].with, NULL));
        ck_assert(WIFEXITED(status));
        ck_assert_int_eq(WEXITSTATUS(status), EXIT_FAULT);
        ck_assert_msg(strstr(said, cases[i].says) != NULL, "%s", said);
        ck_assert_ptr_nonnull(strstr(said, "plugin"));
        ck_assert_ptr_eq(strchr(said, '\n'), said + strlen(said) - 1);
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
        ck_assert_ptr_nonnull(strstr(said, "crashed"));
    }
}
END_TEST

START_TEST(program_ends_by_the_signal_of_its_child)
{
    static const int all[] = {SIGKILL, SIGTERM, SIGINT, SIGPIPE, SIGALRM};
    pid_t program = start(wait_for_ever, 0, NULL);
    pid_t worker = begun();
    ck_assert_int_eq(kill(worker, all[_i]), 0);
    int status = finish(program);
    ck_assert(WIFSIGNALED(status));
    ck_assert_int_eq(WTERMSIG(status), all[_i]);
    ck_assert_str_eq(said, "");
}
END_TEST

START_TEST(termination_signals_are_passed_on)
{
    static const int all[] = {SIGHUP, SIGINT, SIGQUIT, SIGTERM};
    pid_t program = start(wait_for_ever, 0, NULL);
    pid_t worker = begun();
    ck_assert_int_ne(worker, program);
    ck_assert_int_eq(kill(program, all[_i]), 0);
    int status = finish(program);
    ck_assert(WIFSIGNALED(status));
    ck_assert_int_eq(WTERMSIG(status), all[_i]);
    ck_assert(becomes(worker, 0, 1));
    ck_assert_str_eq(said, "");
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
    pid_t program = start(wait_for_ever, 0, ignore_hangup);
    pid_t worker = begun();
    ck_assert_int_eq(kill(program, SIGHUP), 0);
    ck_assert_int_eq(kill(worker, SIGHUP), 0);
    wait_a_little();
    ck_assert_int_eq(kill(program, SIGTERM), 0);
    int status = finish(program);
    ck_assert(WIFSIGNALED(status));
    ck_assert_int_eq(WTERMSIG(status), SIGTERM);
    status = finish(start(answer, 2, ignore_hangup));
    ck_assert(WIFEXITED(status));
    ck_assert_int_eq(WEXITSTATUS(status), 2);
}
END_TEST

#ifdef HAVE_SYS_PRCTL_H
START_TEST(child_does_not_outlive_the_program)
{
    pid_t program = start(wait_for_ever, 0, NULL);
    pid_t worker = begun();
    ck_assert_int_eq(kill(program, SIGKILL), 0);
    (void)finish(program);
    ck_assert(becomes(worker, 0, 1));
}
END_TEST
#endif

static void close_standard_ones(void)
{
    (void)close(STDIN_FILENO);
    (void)close(STDOUT_FILENO);
}

/* Output to a closed descriptor must not be taken for a report. */
START_TEST(closed_output_is_not_a_report)
{
    int status = finish(start(print_and_answer, 0, close_standard_ones));
    ck_assert(WIFEXITED(status));
    ck_assert_int_eq(WEXITSTATUS(status), EXIT_CANNOT_WRITE);
    ck_assert_str_eq(said, "");
}
END_TEST

static void be_alone(void)
{
    const struct rlimit none = {0, 0};
    if (geteuid() == 0 && setuid(NOBODY) != 0) { /* the limit does not apply to root */
        _exit(99);
    }
    (void)setrlimit(RLIMIT_NPROC, &none);
}

static void open_nothing(void)
{
    const struct rlimit few = {3, 3};
    (void)setrlimit(RLIMIT_NOFILE, &few);
}

START_TEST(no_work_runs_without_a_child)
{
    static void (*const limits[])(void) = {be_alone, open_nothing};
    for (size_t i = 0; i < 2; i++) {
        int status = finish(start(wait_for_ever, 0, limits[i]));
        ck_assert(WIFEXITED(status));
        ck_assert_int_eq(WEXITSTATUS(status), EXIT_SYSTEM);
        ck_assert_ptr_nonnull(strstr(said, "cannot be started: "));
        ck_assert_int_eq(atomic_load(&shared->worker), 0);
    }
}
END_TEST

/* ---- under a terminal ---- */

/* The part of a shell: it gives the program the terminal and passes each change of its state to the
 * test. */
static void be_shell(int terminal, int states)
{
    drop_handlers();
    (void)alarm(50); /* if the test fails, the program gets SIGHUP when its shell is gone */
    (void)signal(SIGTTOU, SIG_IGN);
    (void)setsid();
    (void)ioctl(terminal, TIOCSCTTY, 0);
    pid_t job = fork();
    if (job == 0) {
        const int with = 0;
        (void)setpgid(0, 0);
        (void)tcsetpgrp(terminal, getpid());
        (void)signal(SIGTTOU, SIG_DFL);
        _exit(supervise(wait_for_ever, &with));
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
        be_shell(terminal, states[1]);
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
    pid_t worker = begun();
    while (atomic_load(&shared->job) == 0) {
        wait_a_little();
    }
    pid_t program = atomic_load(&shared->job);
    ck_assert_int_eq(write(keys, "\x1a", 1), 1); /* Ctrl-Z */
    int status = next_state(states);
    ck_assert(WIFSTOPPED(status));
    ck_assert_int_eq(WSTOPSIG(status), SIGTSTP);
    ck_assert(becomes(worker, 'T', 1));
    ck_assert_int_eq(kill(-program, SIGCONT), 0); /* as fg does */
    ck_assert(WIFCONTINUED(next_state(states)));
    ck_assert(becomes(worker, 'T', 0));
    ck_assert_int_eq(write(keys, "\x1a", 1), 1);
    ck_assert(WIFSTOPPED(next_state(states)));
    ck_assert(becomes(worker, 'T', 1));
    ck_assert_int_eq(kill(program, SIGCONT), 0); /* to the program only: passed on */
    ck_assert(WIFCONTINUED(next_state(states)));
    ck_assert(becomes(worker, 'T', 0));
    ck_assert_int_eq(write(keys, "\x03", 1), 1); /* Ctrl-C */
    status = next_state(states);
    ck_assert(WIFSIGNALED(status));
    ck_assert_int_eq(WTERMSIG(status), SIGINT);
    ck_assert(becomes(worker, 0, 1));
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
    tcase_add_test(tests, reported_status_is_passed_on);
    tcase_add_test(tests, missing_report_is_a_fault);
    tcase_add_test(tests, crash_is_reported_with_its_signal);
    tcase_add_loop_test(tests, program_ends_by_the_signal_of_its_child, 0, 5);
    tcase_add_loop_test(tests, termination_signals_are_passed_on, 0, 4);
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
