/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A command in a process of its own.
 *
 * Nothing simpler is enough: a handler of atexit is not asked by _exit, the end of a text is not
 * looked for by a script that reads the exit status, and a trial of each plugin in a child says
 * nothing about the calls that follow.
 */
#ifdef HAVE_CONFIG_H
#include <config.h>
#endif
#include "bindings/cli/cli.h"
#include "bindings/cli/supervisor.h"
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

/* Passed on to the child. What comes from a terminal reaches both, and a second one does no harm;
 * SIGTSTP stops both without our doing. */
static const int passed_on[] = {SIGHUP, SIGINT, SIGQUIT, SIGTERM, SIGCONT};

/* Faults of the program or of a plugin, rather than somebody's wish. */
static const int crashes[] = {SIGABRT, SIGBUS, SIGFPE, SIGILL, SIGSEGV, SIGSYS, SIGTRAP};

#define COUNT(list) (sizeof(list) / sizeof *(list))

/* How signals were before: the child gets them back. */
struct signals {
    sigset_t waited;
    sigset_t before;
    struct sigaction of_child; /* SIGCHLD's */
};

static void notice(int number)
{
    (void)number; /* a signal that is ignored might not be kept for sigwait */
}

static void block_signals(struct signals *of)
{
    struct sigaction noticed = {0};
    noticed.sa_handler = notice;
    (void)sigemptyset(&noticed.sa_mask);
    (void)sigemptyset(&of->waited);
    (void)sigaddset(&of->waited, SIGCHLD);
    for (size_t i = 0; i < COUNT(passed_on); i++) {
        (void)sigaddset(&of->waited, passed_on[i]);
    }
    (void)sigprocmask(SIG_BLOCK, &of->waited, &of->before);
    (void)sigaction(SIGCHLD, &noticed, &of->of_child);
}

static void restore_signals(const struct signals *of)
{
    (void)sigaction(SIGCHLD, &of->of_child, NULL);
    (void)sigprocmask(SIG_SETMASK, &of->before, NULL);
}

/* Above the three standard ones, any of which may be closed: what is printed must not land in it.
 */
static int open_pipe(int ends[2])
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

static void end_with(pid_t parent)
{
#ifdef PR_SET_PDEATHSIG
    (void)prctl(PR_SET_PDEATHSIG, SIGKILL);
#endif
    if (getppid() != parent) {
        _exit(EXIT_FAULT); /* it ended before we could ask */
    }
}

/* The report is the last thing that can be said of the work; what ends the process after it cannot
 * change the verdict unseen. */
static void run_child(int (*work)(const void *user), const void *user, int report)
{
    int status = work(user);
    unsigned char said = (unsigned char)status;
    if (write(report, &said, 1) != 1) {
        _exit(EXIT_FAULT);
    }
    exit(status);
}

static int wait_for(pid_t child, const sigset_t *waited)
{
    for (;;) {
        int number = 0;
        int status = 0;
        if (sigwait(waited, &number) == 0 && number != SIGCHLD) {
            (void)kill(child, number);
        }
        if (waitpid(child, &status, WNOHANG) == child) {
            return status;
        }
    }
}

/* As the child ended, for whoever looks at us; its core is enough. */
static int die_of(int number)
{
    const struct rlimit none = {0, 0};
    sigset_t alone;
    (void)setrlimit(RLIMIT_CORE, &none);
#ifdef PR_SET_DUMPABLE
    (void)prctl(PR_SET_DUMPABLE, 0); /* a core that goes to a program minds no limit */
#endif
    (void)signal(number, SIG_DFL);
    (void)sigemptyset(&alone);
    (void)sigaddset(&alone, number);
    (void)raise(number);
    (void)sigprocmask(SIG_UNBLOCK, &alone, NULL);
    return EXIT_FAULT; /* not reached: no signal that ends a child is ignored here */
}

static const char hint[] = "most likely the doing of a plugin: take plugins out of the folders of "
                           "COOLBITE_FAMILY_PATH to find which";

static int judge_signal(int number)
{
    for (size_t i = 0; i < COUNT(crashes); i++) {
        if (crashes[i] == number) {
            (void)report_failure(EXIT_FAULT, "the command crashed before its end: %s (%s)",
                                 strsignal(number), hint);
        }
    }
    return die_of(number);
}

static int judge_exit(int status, int report)
{
    unsigned char said = 0;
    if (read(report, &said, 1) != 1) {
        return report_failure(EXIT_FAULT, "the command ended before its answer was complete (%s)",
                              hint);
    }
    if (said != status) {
        return report_failure(EXIT_FAULT, "the command ended with %d after an answer of %d (%s)",
                              status, said, hint);
    }
    return status;
}

static int cannot_start(void)
{
    return report_failure(EXIT_SYSTEM, "the process that computes cannot be started: %s",
                          strerror(errno));
}

int supervise(int (*work)(const void *user), const void *user)
{
    struct signals signals;
    int report[2];
    if (open_pipe(report) != 0) {
        return cannot_start();
    }
    block_signals(&signals);
    pid_t parent = getpid();
    pid_t child = fork();
    if (child == 0) {
        (void)close(report[0]);
        end_with(parent);
        restore_signals(&signals);
        run_child(work, user, report[1]);
    }
    int number = errno;
    (void)close(report[1]);
    if (child < 0) {
        (void)close(report[0]);
        restore_signals(&signals);
        errno = number;
        return cannot_start();
    }
    int status = wait_for(child, &signals.waited);
    status = WIFSIGNALED(status) ? judge_signal(WTERMSIG(status))
                                 : judge_exit(WEXITSTATUS(status), report[0]);
    (void)close(report[0]);
    restore_signals(&signals);
    return status;
}
