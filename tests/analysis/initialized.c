/* SPDX-License-Identifier: GPL-3.0-or-later */
/* For a run under MemorySanitizer: what libraries that were built without it have written counts as
 * initialized. Preloaded, so that their functions are called through these. */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <gsl/gsl_qrng.h>
#include <stddef.h>
#include <string.h>

/* Of the sanitizer; absent in programs without it. */
void __msan_unpoison(const volatile void *memory, size_t size) __attribute__((weak));
void __msan_scoped_disable_interceptor_checks(void) __attribute__((weak));
void __msan_scoped_enable_interceptor_checks(void) __attribute__((weak));

static void mark(const void *memory, size_t size)
{
    if (memory != NULL && __msan_unpoison != NULL) {
        __msan_unpoison(memory, size);
    }
}

/* Within iniparser: its calls of the C library are not checked. */
static void enter(void)
{
    if (__msan_scoped_disable_interceptor_checks != NULL) {
        __msan_scoped_disable_interceptor_checks();
    }
}

static void leave(void)
{
    if (__msan_scoped_enable_interceptor_checks != NULL) {
        __msan_scoped_enable_interceptor_checks();
    }
}

void *iniparser_load(const char *path);
void *iniparser_load(const char *path)
{
    void *(*real)(const char *) = (void *(*)(const char *))dlsym(RTLD_NEXT, "iniparser_load");
    enter();
    void *dictionary = real(path);
    leave();
    return dictionary;
}

const char *iniparser_getstring(const void *dictionary, const char *key, const char *otherwise);
const char *iniparser_getstring(const void *dictionary, const char *key, const char *otherwise)
{
    const char *(*real)(const void *, const char *, const char *) =
        (const char *(*)(const void *, const char *, const char *))dlsym(RTLD_NEXT,
                                                                         "iniparser_getstring");
    enter();
    const char *text = real(dictionary, key, otherwise);
    leave();
    if (text != otherwise && text != NULL) {
        mark(text, strlen(text) + 1);
    }
    return text;
}

int gsl_fit_linear(const double *x, size_t xstride, const double *y, size_t ystride, size_t n,
                   double *c0, double *c1, double *cov00, double *cov01, double *cov11,
                   double *sumsq);
int gsl_fit_linear(const double *x, size_t xstride, const double *y, size_t ystride, size_t n,
                   double *c0, double *c1, double *cov00, double *cov01, double *cov11,
                   double *sumsq)
{
    int (*real)(const double *, size_t, const double *, size_t, size_t, double *, double *,
                double *, double *, double *, double *) =
        (int (*)(const double *, size_t, const double *, size_t, size_t, double *, double *,
                 double *, double *, double *, double *))dlsym(RTLD_NEXT, "gsl_fit_linear");
    double *const written[] = {c0, c1, cov00, cov01, cov11, sumsq};
    int status = real(x, xstride, y, ystride, n, c0, c1, cov00, cov01, cov11, sumsq);
    for (size_t i = 0; i < sizeof written / sizeof *written; i++) {
        mark(written[i], sizeof *written[i]);
    }
    return status;
}

int gsl_qrng_get(const gsl_qrng *of, double *point)
{
    int (*real)(const gsl_qrng *, double *) =
        (int (*)(const gsl_qrng *, double *))dlsym(RTLD_NEXT, "gsl_qrng_get");
    int status = real(of, point);
    mark(point, of->dimension * sizeof *point);
    return status;
}
