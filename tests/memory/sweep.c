/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Runs a command again and again with an allocator that fails at its n-th request, for every k-th
 * n, and judges each run. Two results are correct: "no memory" in one line with status 70 and
 * nothing on standard output; or the same result as with enough memory. Usage:
 *
 * sweep SHIM once|rest|full FIRST STEP|PLACES FILE COMMAND [WORD ...]
 *
 * FIRST, STEP: of n. PLACES: a file, whose name has a slash; each n is tried whose request comes
 * from a place in the program that is not in the file, to which it is added. FILE: a file that the
 * command writes, which must be complete or absent; - for none. If there is a FILE.before, each run
 * begins with a copy of it, and the file must be complete or as before.
 */
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#define SECONDS_MOST 120 /* seconds for one run; a longer one is a hang */
#define SHOWN_MOST 20    /* wrong results that are printed */
#define STATUS_FAULT 70
#define STATUS_REFUSED 64 /* and above: sysexits.h */

enum { AS_EVER, SAID, CRASHED, HUNG, ELSE, ENDS };

typedef struct text {
    char *bytes;
    size_t size;
} text;

typedef struct run {
    int status; /* as waitpid returns it */
    text out;
    text err;
    text file;
    long requests;
    long let_pass;
    long held;
} run;

typedef struct sweep_state {
    const char *shim;
    const char *how;
    const char *file;
    text before;        /* no bytes: the file is absent before a run */
    const char *places; /* NULL: the n are a step apart */
    char **command;
    int out; /* descriptors of unnamed files, reused for each run */
    int err;
    int report;
    int fresh; /* numbers of the requests from new places */
} sweep_state;

static void stop(const char *what)
{
    fprintf(stderr, "sweep: %s: %s\n", what, strerror(errno));
    exit(99);
}

static text read_whole(int file)
{
    struct stat about;
    text whole = {NULL, 0};
    if (fstat(file, &about) != 0 || (whole.bytes = malloc((size_t)about.st_size + 1)) == NULL ||
        pread(file, whole.bytes, (size_t)about.st_size, 0) != about.st_size) {
        stop("cannot read what the command wrote");
    }
    whole.size = (size_t)about.st_size;
    whole.bytes[whole.size] = 0;
    return whole;
}

static text read_named(const char *path)
{
    text none = {NULL, 0};
    int file = path == NULL ? -1 : open(path, O_RDONLY | O_CLOEXEC);
    if (file < 0) {
        return none;
    }
    none = read_whole(file);
    (void)close(file);
    return none;
}

static int same(text a, text b)
{
    return (a.bytes == NULL) == (b.bytes == NULL) && a.size == b.size &&
           (a.size == 0 || memcmp(a.bytes, b.bytes, a.size) == 0);
}

static void start_over(int file)
{
    if (ftruncate(file, 0) != 0 || lseek(file, 0, SEEK_SET) != 0) {
        stop("cannot empty a file");
    }
}

static void become(const sweep_state *sweep, long at)
{
    char number[24];
    char descriptor[24];
    (void)snprintf(number, sizeof number, "%ld", at);
    (void)snprintf(descriptor, sizeof descriptor, "%d", sweep->report);
    if (dup2(sweep->out, STDOUT_FILENO) < 0 || dup2(sweep->err, STDERR_FILENO) < 0 ||
        setenv("LD_PRELOAD", sweep->shim, 1) != 0 || setenv("BITE_FAIL_AT", number, 1) != 0 ||
        setenv("BITE_FAIL_HOW", sweep->how, 1) != 0 || setenv("BITE_FAIL_FD", descriptor, 1) != 0) {
        _exit(99);
    }
    (void)snprintf(descriptor, sizeof descriptor, "%d", sweep->fresh);
    if (at == 0 && sweep->places != NULL &&
        (setenv("BITE_FAIL_PLACES", sweep->places, 1) != 0 ||
         setenv("BITE_FAIL_NEW", descriptor, 1) != 0)) {
        _exit(99);
    }
    (void)alarm(SECONDS_MOST);
    (void)execv(sweep->command[0], sweep->command);
    _exit(99);
}

/* The file as it is before a run. */
static void prepare_file(const sweep_state *sweep)
{
    if (sweep->file == NULL) {
        return;
    }
    (void)unlink(sweep->file);
    if (sweep->before.bytes == NULL) {
        return;
    }
    int file = open(sweep->file, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0600);
    if (file < 0 ||
        write(file, sweep->before.bytes, sweep->before.size) != (ssize_t)sweep->before.size) {
        stop("cannot prepare the file");
    }
    (void)close(file);
}

static run run_once(const sweep_state *sweep, long at)
{
    run ended = {0};
    start_over(sweep->out);
    start_over(sweep->err);
    start_over(sweep->report);
    prepare_file(sweep);
    pid_t child = fork();
    if (child == 0) {
        become(sweep, at);
    }
    if (child < 0 || waitpid(child, &ended.status, 0) != child) {
        stop("cannot run the command");
    }
    text report = read_whole(sweep->report);
    ended.out = read_whole(sweep->out);
    ended.err = read_whole(sweep->err);
    ended.file = read_named(sweep->file);
    (void)sscanf(report.bytes, "%ld %ld %ld", &ended.requests, &ended.let_pass, &ended.held);
    free(report.bytes);
    return ended;
}

static void forget(run *of)
{
    free(of->out.bytes);
    free(of->err.bytes);
    free(of->file.bytes);
}

static int one_line(text of)
{
    char *end = of.size == 0 ? NULL : memchr(of.bytes, '\n', of.size);
    return end != NULL && (size_t)(end - of.bytes) + 1 == of.size;
}

static int judge(const sweep_state *sweep, const run *usual, const run *ended)
{
    if (WIFSIGNALED(ended->status)) {
        return WTERMSIG(ended->status) == SIGALRM ? HUNG : CRASHED;
    }
    int status = WEXITSTATUS(ended->status);
    if (status == WEXITSTATUS(usual->status) && same(usual->out, ended->out) &&
        same(usual->err, ended->err) && same(usual->file, ended->file)) {
        return AS_EVER;
    }
    if (status == STATUS_FAULT && ended->out.size == 0 &&
        (same(sweep->before, ended->file) || same(usual->file, ended->file)) &&
        one_line(ended->err) && strstr(ended->err.bytes, "memory") != NULL) {
        return SAID;
    }
    return ELSE;
}

static void show(long at, const run *ended)
{
    int status = ended->status;
    printf("  at %ld: %s %d, %zu bytes out: %.300s%s", at,
           WIFSIGNALED(status) ? "signal" : "status",
           WIFSIGNALED(status) ? WTERMSIG(status) : WEXITSTATUS(status), ended->out.size,
           ended->err.bytes, one_line(ended->err) ? "" : "\n");
}

static int unnamed(void)
{
    char path[] = "/tmp/bite-sweep-XXXXXX";
    int file = mkstemp(path);
    if (file < 0 || unlink(path) != 0) {
        stop("cannot make a file");
    }
    return file;
}

/* A call of dlopen that fails halfway, with a plugin that is never unloaded, keeps the plugin and
 * its own report of the fault: in glibc 2.36, without the library, 7 blocks for 6 of a call that
 * succeeds. */
static long kept_by_loader(const run *ended)
{
    return ended->err.bytes != NULL &&
           strstr(ended->err.bytes, "no memory to open a plugin") != NULL;
}

/* The n to try. */
typedef struct numbers {
    long at;
    long step;  /* 0: those of the list */
    char *list; /* what is left of it, in decimal */
} numbers;

/* The next n; 0: there are no more. */
static long next_of(numbers *all, long most)
{
    if (all->step == 0) {
        all->at = strtol(all->list, &all->list, 10);
        return all->at;
    }
    long at = all->at;
    all->at += all->step;
    return at > most ? 0 : at;
}

/* Runs all; returns the number of wrong results. */
static long sweep_all(const sweep_state *sweep, long first, long step)
{
    long tried = 0;
    long ends[ENDS] = {0};
    long shown = 0;
    long leaks = 0;
    run usual = run_once(sweep, 0);
    if (!WIFEXITED(usual.status) || WEXITSTATUS(usual.status) >= STATUS_REFUSED ||
        usual.requests == 0) {
        stop("the command does not run under the allocator, or it is refused");
    }
    text list = read_whole(sweep->fresh);
    numbers all = {first, step, list.bytes};
    for (long at = next_of(&all, usual.requests); at > 0; at = next_of(&all, usual.requests)) {
        tried++;
        run ended = run_once(sweep, at);
        int how = judge(sweep, &usual, &ended);
        int leaked =
            (how == SAID || how == AS_EVER) && ended.held > usual.held + kept_by_loader(&ended);
        ends[how]++;
        leaks += leaked;
        if ((how >= CRASHED || leaked) && shown++ < SHOWN_MOST) {
            if (leaked) {
                printf("  at %ld: %ld blocks held, usually %ld\n", at, ended.held, usual.held);
            }
            show(at, &ended);
        }
        forget(&ended);
    }
    printf("%s: %ld of %ld requests, %ld let pass: no memory said %ld, as ever %ld, crash %ld, "
           "hang %ld, "
           "else %ld; leaks %ld\n",
           sweep->how, tried, usual.requests, usual.let_pass, ends[SAID], ends[AS_EVER],
           ends[CRASHED], ends[HUNG], ends[ELSE], leaks);
    free(list.bytes);
    forget(&usual);
    return ends[CRASHED] + ends[HUNG] + ends[ELSE] + leaks;
}

int main(int count, char **words)
{
    if (count < 7) {
        fprintf(stderr,
                "usage: sweep SHIM once|rest|full FIRST STEP|PLACES FILE COMMAND [WORD ...]\n");
        return 99;
    }
    (void)setvbuf(stdout, NULL, _IOLBF, BUFSIZ);
    const char *file = strcmp(words[5], "-") == 0 ? NULL : words[5];
    const char *places = strchr(words[4], '/') != NULL ? words[4] : NULL;
    char before[1024];
    (void)snprintf(before, sizeof before, "%s.before", words[5]);
    sweep_state sweep = {words[1],  words[2],  file,      read_named(file == NULL ? NULL : before),
                         places,    words + 6, unnamed(), unnamed(),
                         unnamed(), unnamed()};
    long first = strtol(words[3], NULL, 10);
    long step = places != NULL ? 0 : strtol(words[4], NULL, 10);
    return sweep_all(&sweep, first < 1 ? 1 : first, places == NULL && step < 1 ? 1 : step) == 0 ? 0
                                                                                                : 1;
}
