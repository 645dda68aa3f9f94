/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The child process of an audit: its limits, its reports through a pipe, and how it ended. The
 * limits stop accidents. They are no cage: a plugin has the rights of whoever runs it. */
#ifdef HAVE_CONFIG_H
#include <config.h>
#endif
#include "bindings/cli/audit_child.h"
#include "bindings/cli/audit_watch.h"
#include "bindings/cli/supervisor.h"
#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#define MEMORY_MOST ((rlim_t)1 << 30) /* bytes of address space */
#define FILE_MOST ((rlim_t)16 << 20)  /* bytes of a file: no table is larger */
#define SOUND_END 93                  /* exit status that no plugin would choose */
#define SHOWN_OUTPUT 60               /* bytes of what a plugin prints */
#define SLICE 50                      /* ms between looks at the child */

#if defined(__SANITIZE_ADDRESS__) || defined(__SANITIZE_THREAD__)
#define LIMITS_MEMORY 0 /* sanitizers reserve more than any limit */
#elif defined(__has_feature)
#if __has_feature(address_sanitizer) || __has_feature(thread_sanitizer)
#define LIMITS_MEMORY 0
#endif
#endif
#ifndef LIMITS_MEMORY
#define LIMITS_MEMORY 1
#endif

/** What the child reports. */
enum report_type { REPORT_STAGE = 0x62690001, REPORT_FINDING, REPORT_END };
struct report {
    uint32_t type;
    int32_t status; /* of bite_audit_file */
    bite_audit audit;
    bite_error error; /* a finding, the error; of a stage the message */
};

int audit_findings_add(struct audit_findings *findings, const bite_error *finding)
{
    if (findings->count == AUDIT_FINDINGS_MOST) {
        findings->lost++;
        return 0;
    }
    if (findings->count == findings->capacity) {
        size_t capacity = findings->capacity == 0 ? 16 : 2 * findings->capacity;
        bite_error *more = realloc(findings->list, capacity * sizeof *more);
        if (more == NULL) {
            return -1;
        }
        findings->list = more;
        findings->capacity = capacity;
    }
    findings->list[findings->count++] = *finding;
    return 0;
}

/* ---- in the child ---- */

/** The child's side. */
struct child {
    const char *path;
    int pipe;
    struct report report; /* that is sent */
    char stage[256];
    struct audit_watch watch;
};

static void send_report(struct child *child, enum report_type type)
{
    const char *at = (const char *)&child->report;
    size_t left = sizeof child->report;
    child->report.type = type;
    while (left > 0) {
        ssize_t done = write(child->pipe, at, left);
        if (done < 0 && errno != EINTR) {
            _exit(EXIT_FAILURE); /* the parent sees that the end was not reported */
        }
        at += done < 0 ? 0 : done;
        left -= done < 0 ? 0 : (size_t)done;
    }
}

static void send_finding(void *user, const bite_error *fault)
{
    struct child *child = user;
    child->report.error = *fault;
    send_report(child, REPORT_FINDING);
}

static void fill_finding(bite_error *error, const char *path, const char *hint, const char *format,
                         ...) __attribute__((format(printf, 4, 5)));
static void fill_finding(bite_error *error, const char *path, const char *hint, const char *format,
                         ...)
{
    char text[512];
    va_list list;
    bite_error_init(error);
    error->status = BITE_BAD_PLUGIN;
    error->faults = 1;
    va_start(list, format);
    (void)vsnprintf(text, sizeof text, format, list);
    va_end(list);
    (void)bite_text_escape(text, error->message, sizeof error->message);
    (void)bite_text_escape(hint, error->hint, sizeof error->hint);
    size_t length = strlen(path);
    size_t most = sizeof error->file - 1;
    (void)bite_text_escape(length > most ? path + length - most : path, error->file,
                           sizeof error->file);
}

static void send_change(void *user, const char *what, const char *hint)
{
    struct child *child = user;
    fill_finding(&child->report.error, child->path, hint, "%s while %.120s", what, child->stage);
    send_report(child, REPORT_FINDING);
}

/* A stage begins: what the last one did to the process is told first. */
static void begin_stage(void *user, const char *doing)
{
    struct child *child = user;
    audit_watch_check(&child->watch, send_change, child);
    (void)snprintf(child->stage, sizeof child->stage, "%s", doing);
    bite_error_init(&child->report.error);
    (void)snprintf(child->report.error.message, sizeof child->report.error.message, "%.200s",
                   doing);
    send_report(child, REPORT_STAGE);
}

/* The lower of what is allowed and `most`, for good. */
static struct rlimit lowered(struct rlimit limit, rlim_t most)
{
    bool less = limit.rlim_max != RLIM_INFINITY && limit.rlim_max < most;
    limit.rlim_cur = less ? limit.rlim_max : most;
    limit.rlim_max = limit.rlim_cur;
    return limit;
}

/* A macro: the type of a resource is a matter of the C library. */
#define SET_LIMIT(resource, most)                                                                  \
    do {                                                                                           \
        struct rlimit limit_;                                                                      \
        if (getrlimit(resource, &limit_) == 0) {                                                   \
            limit_ = lowered(limit_, most);                                                        \
            (void)setrlimit(resource, &limit_);                                                    \
        }                                                                                          \
    } while (0)

static void set_limits(double seconds)
{
    SET_LIMIT(RLIMIT_CORE, 0);
    SET_LIMIT(RLIMIT_NOFILE, WATCHED_DESCRIPTORS);
    SET_LIMIT(RLIMIT_FSIZE, FILE_MOST);
    SET_LIMIT(RLIMIT_CPU, (rlim_t)seconds + 2);
    if (LIMITS_MEMORY) {
        SET_LIMIT(RLIMIT_AS, MEMORY_MOST);
    }
}

static void run_child(struct child *child, double seconds)
{
    bite_audit_options options;
    bite_audit_options_init(&options);
    options.fault = send_finding;
    options.stage = begin_stage;
    options.user = child;
    set_limits(seconds);
    bite_audit_init(&child->report.audit);
    bite_audit audit = child->report.audit;
    bite_error error = BITE_ERROR_INIT;
    if (audit_watch_begin(&child->watch) != 0) {
        _exit(EXIT_FAILURE);
    }
    bite_status status = bite_audit_file(child->path, &options, &audit, &error);
    begin_stage(child, "ending the process");
    (void)fflush(NULL);
    child->report.audit = audit;
    child->report.error = error;
    child->report.status = (int32_t)status;
    send_report(child, REPORT_END);
    audit_watch_end(&child->watch);
    exit(SOUND_END);
}

/* ---- in the parent ---- */

enum { END_REPORT, END_OUTPUT, END_ERRORS, ENDS };

/** The parent's side. */
struct parent {
    const char *path;
    pid_t child;
    int ends[ENDS];                      /* to read from; -1: at its end */
    char output[ENDS][SHOWN_OUTPUT + 1]; /* what was printed */
    size_t printed[ENDS];                /* bytes */
    struct report report;                /* that is being read */
    size_t have;                         /* bytes of it */
    struct report last;                  /* REPORT_END */
    bool ended;                          /* it has come */
    bool timed_out;
    bool no_memory;
    char stage[256];
    struct audit_findings *findings;
};

static void add(struct parent *parent, const bite_error *finding)
{
    parent->no_memory |= audit_findings_add(parent->findings, finding) != 0;
}

/* The pipe is open to the plugin too: nothing in a report is taken for sound. */
static void take_report(struct parent *parent)
{
    struct report *report = &parent->report;
    bite_error *error = &report->error;
    error->struct_size = (uint32_t)sizeof *error;
    error->message[sizeof error->message - 1] = 0;
    error->hint[sizeof error->hint - 1] = 0;
    error->key[sizeof error->key - 1] = 0;
    error->file[sizeof error->file - 1] = 0;
    if (report->type == REPORT_STAGE) {
        (void)snprintf(parent->stage, sizeof parent->stage, "%s", error->message);
    } else if (report->type == REPORT_FINDING) {
        add(parent, error);
    } else if (report->type == REPORT_END) {
        parent->last = *report;
        parent->ended = true;
    }
}

static void take_output(struct parent *parent, int end, const char *text, size_t size)
{
    size_t room = parent->printed[end] < SHOWN_OUTPUT ? SHOWN_OUTPUT - parent->printed[end] : 0;
    size_t taken = size < room ? size : room;
    if (taken > 0) {
        memcpy(parent->output[end] + parent->printed[end], text, taken);
    }
    parent->printed[end] += size;
}

/* Reads what there is. */
static void read_end(struct parent *parent, int end)
{
    char text[4096];
    bool report = end == END_REPORT;
    for (;;) {
        void *to = report ? (char *)&parent->report + parent->have : text;
        size_t room = report ? sizeof parent->report - parent->have : sizeof text;
        ssize_t size = read(parent->ends[end], to, room);
        if (size < 0 && errno == EINTR) {
            continue;
        }
        if (size <= 0) {
            if (size == 0 || errno != EAGAIN) {
                (void)close(parent->ends[end]);
                parent->ends[end] = -1;
            }
            return;
        }
        if (!report) {
            take_output(parent, end, text, (size_t)size);
        } else if ((parent->have += (size_t)size) == sizeof parent->report) {
            parent->have = 0;
            take_report(parent);
        }
    }
}

static void read_all(struct parent *parent, int wait)
{
    struct pollfd polled[ENDS];
    for (int i = 0; i < ENDS; i++) {
        polled[i].fd = parent->ends[i];
        polled[i].events = POLLIN;
        polled[i].revents = 0;
    }
    (void)poll(polled, ENDS, wait);
    for (int i = 0; i < ENDS; i++) {
        if (parent->ends[i] >= 0) {
            read_end(parent, i);
        }
    }
}

static double now(void)
{
    struct timespec at;
    (void)clock_gettime(CLOCK_MONOTONIC, &at);
    return (double)at.tv_sec + 1e-9 * (double)at.tv_nsec;
}

/* Waits for the end of the child, or ends it. Returns its status. */
static int watch_child(struct parent *parent, double seconds)
{
    double begun = now();
    int status = 0;
    pid_t ended = 0;
    while (ended == 0) {
        read_all(parent, SLICE);
        ended = waitpid(parent->child, &status, WNOHANG);
        if (ended == 0 && now() - begun > seconds) {
            parent->timed_out = true;
            (void)kill(parent->child, SIGKILL);
            do {
                ended = waitpid(parent->child, &status, 0);
            } while (ended < 0 && errno == EINTR);
        }
    }
    read_all(parent, 0);
    (void)kill(-parent->child, SIGKILL); /* what it has started */
    return status;
}

static void judge_output(struct parent *parent)
{
    static const char *const names[ENDS] = {"", "standard output", "standard error"};
    for (int i = END_OUTPUT; i < ENDS; i++) {
        char shown[4 * SHOWN_OUTPUT + 1];
        bite_error finding;
        if (parent->printed[i] > 0) {
            (void)bite_text_escape(parent->output[i], shown, sizeof shown);
            fill_finding(&finding, parent->path, "a plugin prints nothing",
                         "it wrote %zu bytes to %s, which begin: %.120s", parent->printed[i],
                         names[i], shown);
            add(parent, &finding);
        }
    }
}

static void judge_end(struct parent *parent, int status, double seconds)
{
    bite_error finding;
    bool over = WIFSIGNALED(status) && WTERMSIG(status) == SIGXCPU;
    if (parent->timed_out || over) {
        fill_finding(&finding, parent->path,
                     "look for an endless loop; --time-limit allows more time",
                     "it had not finished after %g s, while %.120s", seconds, parent->stage);
    } else if (WIFSIGNALED(status)) {
        fill_finding(&finding, parent->path, "run it under a debugger",
                     "it crashed while %.120s: %s", parent->stage, strsignal(WTERMSIG(status)));
    } else if (!parent->ended) {
        fill_finding(&finding, parent->path, "a plugin returns; it never ends the process",
                     "it ended the process while %.120s, with exit status %d", parent->stage,
                     WEXITSTATUS(status));
    } else if (WEXITSTATUS(status) != SOUND_END) {
        fill_finding(&finding, parent->path, "remove its destructor, or what atexit calls",
                     "it changed the exit status while %.120s, to %d", parent->stage,
                     WEXITSTATUS(status));
    } else if (parent->last.status == BITE_NO_MEMORY) {
        fill_finding(&finding, parent->path, "look for memory that is never freed",
                     "it needed more than 1 GiB of memory while %.120s", parent->stage);
    } else {
        return;
    }
    add(parent, &finding);
}

/* ---- both ---- */

static void close_ends(int ends[ENDS][2])
{
    for (int i = 0; i < ENDS; i++) {
        for (int k = 0; k < 2; k++) {
            if (ends[i][k] >= 0) {
                (void)close(ends[i][k]);
            }
        }
    }
}

static int open_ends(int ends[ENDS][2])
{
    int failed = 0;
    for (int i = 0; i < ENDS; i++) {
        ends[i][0] = ends[i][1] = -1;
    }
    for (int i = 0; i < ENDS && !failed; i++) {
        failed = open_pipe(ends[i]);
    }
    return failed;
}

/* The standard streams of the child: nothing to read, and pipes to write. */
static void replace_streams(int ends[ENDS][2])
{
    int none = open("/dev/null", O_RDONLY | O_CLOEXEC);
    if (dup2(none, STDIN_FILENO) < 0 || dup2(ends[END_OUTPUT][1], STDOUT_FILENO) < 0 ||
        dup2(ends[END_ERRORS][1], STDERR_FILENO) < 0) {
        _exit(EXIT_FAILURE);
    }
    (void)close(none);
    for (int i = 0; i < ENDS; i++) {
        (void)close(ends[i][0]);
        if (i != END_REPORT) {
            (void)close(ends[i][1]);
        }
    }
}

static bite_status cannot_start(int ends[ENDS][2], bite_error *error)
{
    (void)snprintf(error->message, sizeof error->message, "the child process cannot be started: %s",
                   strerror(errno));
    error->status = BITE_STOPPED;
    close_ends(ends);
    return BITE_STOPPED;
}

bite_status audit_in_child(const char *path, double seconds, struct audit_findings *findings,
                           bite_audit *audit, bite_error *error)
{
    static struct child child; /* on no frame: it is large */
    static struct parent parent;
    int ends[ENDS][2];
    size_t before = findings->count + findings->lost;
    bite_error_init(error);
    if (open_ends(ends) != 0) {
        return cannot_start(ends, error);
    }
    pid_t self = getpid();
    pid_t started = fork();
    if (started < 0) {
        return cannot_start(ends, error);
    }
    if (started == 0) {
        (void)setpgid(0, 0);
        die_with(self);
        replace_streams(ends);
        memset(&child, 0, sizeof child);
        child.path = path;
        child.pipe = ends[END_REPORT][1];
        (void)snprintf(child.stage, sizeof child.stage, "beginning");
        run_child(&child, seconds);
    }
    memset(&parent, 0, sizeof parent);
    parent.path = path;
    parent.child = started;
    parent.findings = findings;
    (void)snprintf(parent.stage, sizeof parent.stage, "beginning");
    for (int i = 0; i < ENDS; i++) {
        (void)close(ends[i][1]);
        parent.ends[i] = ends[i][0];
    }
    int status = watch_child(&parent, seconds);
    for (int i = 0; i < ENDS; i++) {
        if (parent.ends[i] >= 0) {
            (void)close(parent.ends[i]);
        }
    }
    judge_output(&parent);
    judge_end(&parent, status, seconds);
    *audit = parent.last.audit;
    if (parent.no_memory) {
        return BITE_NO_MEMORY;
    }
    if (parent.ended && parent.last.status != BITE_OK && parent.last.status != BITE_NO_MEMORY &&
        (parent.last.status != BITE_BAD_FILE || findings->count + findings->lost == before)) {
        *error = parent.last.error;
        return (bite_status)parent.last.status;
    }
    return BITE_OK;
}
