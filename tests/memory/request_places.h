/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The places from which memory is requested. */
#ifndef BITE_TESTS_MEMORY_REQUEST_PLACES_H
#define BITE_TESTS_MEMORY_REQUEST_PLACES_H

#include <stdbool.h>

/* Reads the places that earlier runs met from a file, which may be missing or empty; those met for
 * the first time are written behind them. To be called after the first call of backtrace, which
 * allocates. False: the file cannot be opened. */
bool places_begin(const char *path);

/* Whether this request comes from a place that none came from before: the innermost callers of the
 * allocator, as offsets in their files. May be called by several threads. */
bool place_is_new(void);

#endif
