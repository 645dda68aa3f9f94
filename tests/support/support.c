/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Functions that every test program uses. */
#include "tests/support/support.h"
#include "core/base/file.h"
#include <errno.h>
#include <ftw.h>
#include <math.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

int bite_test_run(Suite *suite)
{
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    int run = srunner_ntests_run(runner);
    srunner_free(runner);
    return failed == 0 && run > 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}

void bite_test_stop(const char *format, ...)
{
    va_list list;
    va_start(list, format);
    (void)vfprintf(stderr, format, list);
    va_end(list);
    (void)fputc('\n', stderr);
    exit(99);
}

static void join(char *path, size_t size, const char *variable, const char *name)
{
    const char *root = getenv(variable);
    int length = snprintf(path, size, "%s/%s", root != NULL && *root != 0 ? root : ".", name);
    if (length <= 0 || (size_t)length >= size) {
        bite_test_stop("the path of %s is too long", name);
    }
}

void bite_test_source(char *path, size_t size, const char *name)
{
    join(path, size, "BITE_TEST_SOURCE", name);
}

void bite_test_build(char *path, size_t size, const char *name)
{
    join(path, size, "BITE_TEST_BUILD", name);
}

void bite_test_folder(char *path, size_t size)
{
    const char *root = getenv("TMPDIR");
    int length =
        snprintf(path, size, "%s/bite-test-XXXXXX", root != NULL && *root != 0 ? root : "/tmp");
    if (length <= 0 || (size_t)length >= size) {
        bite_test_stop("the name of a temporary folder is too long");
    }
    if (mkdtemp(path) == NULL) {
        bite_test_stop("no temporary folder: %s", strerror(errno));
    }
}

static int drop(const char *path, const struct stat *status, int kind, struct FTW *walk)
{
    (void)status;
    (void)kind;
    (void)walk;
    return remove(path);
}

void bite_test_remove(const char *path)
{
    if (strstr(path, "/bite-test-") == NULL) {
        bite_test_stop("%s is no folder of the tests", path);
    }
    if (nftw(path, drop, 16, FTW_DEPTH | FTW_PHYS) != 0) {
        bite_test_stop("cannot remove %s", path);
    }
}

void bite_test_write(const char *path, const char *text, size_t size)
{
    FILE *file = fopen(path, "wb");
    if (file == NULL) {
        bite_test_stop("cannot write %s: %s", path, strerror(errno));
    }
    size_t written = fwrite(text, 1, size, file);
    if (fclose(file) != 0 || written != size) {
        bite_test_stop("cannot write %s", path);
    }
}

void bite_test_expect_file(const char *path, const char *text)
{
    char *got = NULL;
    size_t size = 0;
    ck_assert_int_eq(bite_file_read(bite_memory_default(), path, 1 << 24, &got, &size, NULL),
                     BITE_OK);
    ck_assert_uint_eq(size, strlen(text));
    ck_assert_str_eq(got, text);
    free(got);
}

void bite_test_near(const char *file, int line, const char *what, double a, double b, double share)
{
    double most = fmax(fabs(a), fabs(b));
    ck_assert_msg(isfinite(a) && isfinite(b) && fabs(a - b) <= share * most,
                  "%s:%d: %s is %.10g, expected %.10g within %g", file, line, what, a, b, share);
}

/* The size is stored in front of each block, so that allocated bytes can be counted. */
static void *hold(bite_test_memory *memory, void *old, size_t size)
{
    memory->calls++;
    if (memory->fail_at != 0 &&
        (memory->alone ? memory->calls == memory->fail_at : memory->calls >= memory->fail_at)) {
        return NULL;
    }
    size_t *block = old == NULL ? NULL : (size_t *)old - 2;
    size_t before = block == NULL ? 0 : block[0];
    size_t *fresh = realloc(block, size + 2 * sizeof(size_t));
    if (fresh == NULL) {
        return NULL;
    }
    fresh[0] = size;
    memory->held += size - before;
    return fresh + 2;
}

static void *allocate(void *user, size_t size)
{
    return hold(user, NULL, size);
}

static void *resize(void *user, void *old, size_t size)
{
    return hold(user, old, size);
}

static void release(void *user, void *old)
{
    if (old == NULL) {
        return;
    }
    bite_test_memory *memory = user;
    size_t *block = (size_t *)old - 2;
    memory->held -= block[0];
    free(block);
}

bite_allocator bite_test_allocator(bite_test_memory *memory)
{
    bite_allocator allocator = {allocate, resize, release, memory};
    return allocator;
}

void bite_test_fail_allocations(bite_test_memory *memory, size_t parts, size_t least,
                                bite_test_run_once *run, void *with)
{
    size_t held = memory->held;
    bite_status status = BITE_NO_MEMORY;
    size_t n = 0;
    while (status != BITE_OK) {
        bite_error error = BITE_ERROR_INIT;
        memory->calls = 0;
        n += n < 2 * parts ? 1 : n / parts;
        memory->fail_at = n;
        status = run(with, &error);
        ck_assert_msg(status == BITE_OK || status == BITE_NO_MEMORY, "call %zu: %s: %s", n,
                      bite_status_name(status), error.message);
        ck_assert_int_eq(error.status, status);
        ck_assert_msg(memory->held == held, "call %zu: %zu are held", n, memory->held - held);
        ck_assert_uint_lt(n, 100000);
    }
    ck_assert_uint_gt(n, least);
    memory->fail_at = 0;
}

uint32_t bite_test_goal(size_t index)
{
    static const uint32_t goals[BITE_TEST_GOALS] = {BITE_GOAL_COOL, BITE_GOAL_GENTLE,
                                                    BITE_GOAL_FINE, BITE_GOAL_FAST};
    return goals[index % BITE_TEST_GOALS];
}
