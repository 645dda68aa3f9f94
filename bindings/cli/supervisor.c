/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Runs a command in a child process.
 *
 * Nothing simpler is enough: _exit does not run handlers of atexit, a script that reads the exit
 * status does not look for the end of the output, and testing each plugin in a child first says
 * nothing about later calls.
 */
#ifdef HAVE_CONFIG_H
#include <config.h>
#endif
#include "bindings/cli/error_report.h"
#include "bindings/cli/exit_status.h"
#include "bindings/cli/supervisor.h"
#include "bindings/cli/system_calls.h"
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>
#ifdef HAVE_SYS_PRCTL_H
#include <sys/prctl.h>
#endif

/* Forwarded to the child. A signal from the terminal reaches both processes, and the second copy is
 * harmless; SIGTSTP stops both without our help. */
static const int forwarded[] = {SIGHUP, SIGINT, SIGQUIT, SIGTERM, SIGCONT};

/* Signals of a fault in the program or in a plugin, not of somebody who ends it. */
static const int crashes[] = {SIGABRT, SIGBUS, SIGFPE, SIGILL, SIGSEGV, SIGSYS, SIGTRAP};

#define COUNT(list) (sizeof(list) / sizeof *(list))

struct signals {
    sigset_t awaited;
    sigset_t old_mask;                 /* the child gets both of these back */
    struct sigaction old_child_action; /* of SIGCHLD */
};

/* SIGCHLD needs a handler: a signal that is ignored may be discarded before sigwait sees it. */
static void do_nothing(int number)
{
    (void)number;
}

static void block_signals(struct signals *signals)
{
    struct sigaction action = {0};
    action.sa_handler = do_nothing;
    (void)sigemptyset(&action.sa_mask);
    (void)sigemptyset(&signals->awaited);
    (void)sigaddset(&signals->awaited, SIGCHLD);
    for (size_t i = 0; i < COUNT(forwarded); i++) {
        (void)sigaddset(&signals->awaited, forwarded[i]);
    }
    (void)sigprocmask(SIG_BLOCK, &signals->awaited, &signals->old_mask);
    (void)sigaction(SIGCHLD, &action, &signals->old_child_action);
}

static void restore_signals(const struct signals *signals)
{
    (void)sigaction(SIGCHLD, &signals->old_child_action, NULL);
    (void)sigprocmask(SIG_SETMASK, &signals->old_mask, NULL);
}

int open_pipe(int ends[2])
{
    int low[2];
    if (pipe(low) != 0) {
        return -1;
    }
    ends[0] = fcntl(low[0], F_DUPFD_CLOEXEC, STDERR_FILENO + 1);
    ends[1] = fcntl(low[1], F_DUPFD_CLOEXEC, STDERR_FILENO + 1);
    int number = errno;
    (void)close(low[0]);
    (void)close(low[1]);
    if (ends[0] >= 0 && ends[1] >= 0) {
        return fcntl(ends[0], F_SETFL, O_NONBLOCK);
    }
    if (ends[0] >= 0) {
        (void)close(ends[0]);
    }
    errno = number;
    return -1;
}

void die_with(pid_t parent)
{
#ifdef PR_SET_PDEATHSIG
    (void)prctl(PR_SET_PDEATHSIG, SIGKILL);
#endif
    if (getppid() != parent) {
        _exit(EXIT_FAULT); /* it ended before prctl took effect */
    }
}

/* Reports the status after the work. What ends the process later cannot change the status without
 * being noticed. */
static void run_child(int (*work)(const void *user), const void *user, int report)
{
    int status = work(user);
    unsigned char reported = (unsigned char)status;
    if (write(report, &reported, 1) != 1) {
        _exit(EXIT_FAULT);
    }
    exit(status);
}

static int wait_for(pid_t child, const sigset_t *awaited)
{
    for (;;) {
        int number = 0;
        int status = 0;
        pid_t ended = 0;
        if (sigwait(awaited, &number) == 0 && number != SIGCHLD) {
            (void)kill(child, number);
        }
        do { /* an interrupted call must not lose the end, which is signalled once */
            ended = waitpid(child, &status, WNOHANG);
        } while (ended < 0 && errno == EINTR);
        if (ended == child) {
            return status;
        }
    }
}

/* Ends this process by the signal that ended the child, without a second core dump. */
static int die_by_signal(int number)
{
    const struct rlimit none = {0, 0};
    sigset_t alone;
    (void)setrlimit(RLIMIT_CORE, &none);
#ifdef PR_SET_DUMPABLE
    /* the limit does not apply to a core that is piped to a program */
    (void)prctl(PR_SET_DUMPABLE, 0);
#endif
    (void)signal(number, SIG_DFL);
    (void)sigemptyset(&alone);
    (void)sigaddset(&alone, number);
    (void)raise(number);
    (void)sigprocmask(SIG_UNBLOCK, &alone, NULL);
    return EXIT_FAULT; /* not reached: no signal that ends a child is ignored here */
}

static const char hint[] = "probably caused by a plugin: remove plugins from the folders of "
                           "COOLBITE_FAMILY_PATH, one at a time, to find which";

static int report_signal(int number)
{
    for (size_t i = 0; i < COUNT(crashes); i++) {
        if (crashes[i] == number) {
            (void)report_failure(EXIT_FAULT, "the command crashed: %s (%s)", strsignal(number),
                                 hint);
        }
    }
    return die_by_signal(number);
}

static int check_exit(int status, int report)
{
    unsigned char reported = 0;
    if (read(report, &reported, 1) != 1) {
        return report_failure(EXIT_FAULT, "the command ended before its answer was complete (%s)",
                              hint);
    }
    if (reported != status) {
        return report_failure(EXIT_FAULT,
                              "the command ended with exit status %d instead of %d (%s)", status,
                              reported, hint);
    }
    return status;
}

static int report_cannot_start(void)
{
    return report_failure(EXIT_SYSTEM, "the worker process cannot be started: %s", strerror(errno));
}

int supervise(int (*work)(const void *user), const void *user)
{
    struct signals signals;
    int report[2];
    if (open_pipe(report) != 0) {
        return report_cannot_start();
    }
    block_signals(&signals);
    pid_t parent = getpid();
    pid_t child = fork();
    if (child == 0) {
        (void)close(report[0]);
        die_with(parent);
        restore_signals(&signals);
        (void)drop_system_calls();
        run_child(work, user, report[1]);
    }
    int number = errno;
    (void)close(report[1]);
    if (child < 0) {
        (void)close(report[0]);
        restore_signals(&signals);
        errno = number;
        return report_cannot_start();
    }
    int status = wait_for(child, &signals.awaited);
    status = WIFSIGNALED(status) ? report_signal(WTERMSIG(status))
                                 : check_exit(WEXITSTATUS(status), report[0]);
    (void)close(report[0]);
    restore_signals(&signals);
    return status;
}
