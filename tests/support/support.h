/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Functions that every test program uses: running a suite, finding files, comparing numbers. */
#ifndef BITE_TESTS_SUPPORT_SUPPORT_H
#define BITE_TESTS_SUPPORT_SUPPORT_H

#include <check.h>
#include <coolbite/coolbite.h>
#include <stddef.h>

/** Runs a suite, prints Check's totals and returns the exit status of the program. */
int bite_test_run(Suite *suite);

/** Prints an error of the test itself and ends the program with 99; also for use outside a running
 * test, where Check's assertions do not work. */
void bite_test_stop(const char *format, ...) __attribute__((format(printf, 1, 2), noreturn));

/** Writes "<source root>/<name>" ("<build root>/<name>") into path; fails the test if it does not
 * fit. */
void bite_test_source(char *path, size_t size, const char *name);
void bite_test_build(char *path, size_t size, const char *name);

/** Makes a fresh private folder (mode 0700) below TMPDIR and writes its name; remove it with
 * bite_test_remove. */
void bite_test_folder(char *path, size_t size);
/** Removes a folder and everything in it; only below a folder made by bite_test_folder. */
void bite_test_remove(const char *path);
/** Writes a file; fails the test if it cannot. */
void bite_test_write(const char *path, const char *text, size_t size);
/** Fails the test unless the file can be read and holds exactly this text. */
void bite_test_expect_file(const char *path, const char *text);

/** Fails unless |a - b| <= share * max(|a|, |b|). */
#define bite_assert_near(a, b, share) bite_test_near(__FILE__, __LINE__, #a, (a), (b), (share))
void bite_test_near(const char *file, int line, const char *what, double a, double b, double share);

/** The goals of a choice in a fixed order, over and over: cool, gentle, fine, fast. */
#define BITE_TEST_GOALS 4
uint32_t bite_test_goal(size_t index);

/** An allocator that fails at the n-th call (0: never) and, unless it fails alone, at all after it,
 * and counts the bytes that are not freed. */
typedef struct bite_test_memory {
    size_t calls;
    size_t fail_at;
    size_t held;
    int alone;
} bite_test_memory;
bite_allocator bite_test_allocator(bite_test_memory *memory);

/** Runs something over and over while the n-th request for memory and all after it fail, until it
 * succeeds: each failure must be reported as one, and nothing may be held. `run` frees what it has
 * made. parts: n grows by one, and once it is larger than this by one part of so many. least: n
 * must be larger at the end. */
typedef bite_status bite_test_run_once(void *with, bite_error *error);
void bite_test_fail_allocations(bite_test_memory *memory, size_t parts, size_t least,
                                bite_test_run_once *run, void *with);

#endif
