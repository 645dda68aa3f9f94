/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Compares the state of the process before and after code of a plugin has run. */
#include "bindings/cli/audit_watch.h"
#include <errno.h>
#include <fcntl.h>
#include <fenv.h>
#include <float.h>
#include <locale.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

extern char **environ;

/* FNV-1a over all names and values. */
static uint64_t sum_of_environment(void)
{
    uint64_t sum = 0xcbf29ce484222325u;
    for (char *const *at = environ; at != NULL && *at != NULL; at++) {
        const char *byte = *at;
        do {
            sum = (sum ^ (unsigned char)*byte) * 0x100000001b3u;
        } while (*byte++ != 0);
    }
    return sum;
}

/* Whether numbers below the smallest normal one survive. A plugin that was linked with options for
 * fast arithmetic turns that off for the whole process. */
static int keeps_subnormal(void)
{
    volatile double tiny = DBL_MIN;
    tiny /= 4.0;
    return tiny > 0.0;
}

static mode_t mask_of_files(void)
{
    mode_t mask = umask(077);
    (void)umask(mask);
    return mask;
}

static int take_note(struct audit_watch *watch)
{
    const char *locale = setlocale(LC_ALL, NULL);
    watch->locale = strdup(locale == NULL ? "" : locale);
    watch->folder = getcwd(NULL, 0);
    watch->environment = sum_of_environment();
    watch->rounding = fegetround();
    watch->subnormal = keeps_subnormal();
    watch->mask = mask_of_files();
    (void)sigprocmask(SIG_BLOCK, NULL, &watch->blocked);
    for (int i = 0; i < WATCHED_SIGNALS; i++) {
        memset(&watch->actions[i], 0, sizeof watch->actions[i]);
        (void)sigaction(i + 1, NULL, &watch->actions[i]);
    }
    for (int i = 0; i < WATCHED_DESCRIPTORS; i++) {
        watch->open[i] = fcntl(i, F_GETFD) >= 0;
    }
    return watch->locale == NULL;
}

int audit_watch_begin(struct audit_watch *watch)
{
    memset(watch, 0, sizeof *watch);
    return take_note(watch);
}

static int same_text(const char *a, const char *b)
{
    return a == b || (a != NULL && b != NULL && strcmp(a, b) == 0);
}

static void compare_signals(const struct audit_watch *before, const struct audit_watch *now,
                            audit_watch_told told, void *user)
{
    char text[96];
    int blocked = 0;
    for (int i = 0; i < WATCHED_SIGNALS; i++) {
        blocked |= sigismember(&before->blocked, i + 1) != sigismember(&now->blocked, i + 1);
        if (before->actions[i].sa_handler != now->actions[i].sa_handler ||
            before->actions[i].sa_flags != now->actions[i].sa_flags) {
            (void)snprintf(text, sizeof text, "it changed what signal %d does", i + 1);
            told(user, text, "leave signals to the program");
        }
    }
    if (blocked) {
        told(user, "it changed which signals are blocked", "leave signals to the program");
    }
}

static void compare_descriptors(const struct audit_watch *before, const struct audit_watch *now,
                                audit_watch_told told, void *user)
{
    char text[96];
    int opened = 0;
    int closed = 0;
    for (int i = 0; i < WATCHED_DESCRIPTORS; i++) {
        opened += now->open[i] && !before->open[i];
        closed += before->open[i] && !now->open[i];
    }
    if (opened > 0) {
        (void)snprintf(text, sizeof text, "it left %d %s open", opened,
                       opened == 1 ? "file" : "files");
        told(user, text, "close what was opened before returning");
    }
    if (closed > 0) {
        told(user, "it closed a file that it had not opened", "close only what was opened");
    }
}

void audit_watch_check(struct audit_watch *watch, audit_watch_told told, void *user)
{
    struct audit_watch now;
    int status = 0;
    if (audit_watch_begin(&now) != 0) {
        return;
    }
    if (!same_text(watch->locale, now.locale)) {
        told(user, "it changed the locale", "read and write numbers without setlocale");
    }
    if (!same_text(watch->folder, now.folder)) {
        told(user, "it changed the working folder", "open files by their whole path");
    }
    if (watch->environment != now.environment) {
        told(user, "it changed the environment", "leave setenv and putenv to the program");
    }
    if (watch->rounding != now.rounding) {
        told(user, "it changed the rounding mode", "restore it by fesetround before returning");
    }
    if (watch->subnormal && !now.subnormal) {
        told(user, "it makes the processor flush small numbers to zero",
             "link it without -ffast-math and -Ofast");
    }
    if (watch->mask != now.mask) {
        told(user, "it changed the mask of new files", "leave umask to the program");
    }
    compare_signals(watch, &now, told, user);
    compare_descriptors(watch, &now, told, user);
    now.started = watch->started || waitpid(-1, &status, WNOHANG) >= 0;
    if (now.started && !watch->started) {
        told(user, "it started a process", "a plugin computes; it starts nothing");
    }
    audit_watch_end(watch);
    *watch = now;
}

void audit_watch_end(struct audit_watch *watch)
{
    free(watch->locale);
    free(watch->folder);
    watch->locale = NULL;
    watch->folder = NULL;
}
