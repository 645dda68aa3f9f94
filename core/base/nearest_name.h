/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The nearest of a list of names, for "did you mean ...?". */
#ifndef BITE_BASE_NEAREST_NAME_H
#define BITE_BASE_NEAREST_NAME_H

#include <stddef.h>

/** Edits that turn one word into the other, ignoring ASCII case: insert, delete or replace a
 * character, or swap two neighbours. Never more than limit + 1. */
size_t bite_text_distance(const char *a, const char *b, size_t limit);

/**
 * The name nearest to word; the first of several that are equally near. NULL: none is within a
 * third of the word's length (at least 1 edit, at most 4) and keeps a character of it.
 *
 * name(at, list) returns the name with index `at`, below count, or NULL for one to pass over.
 * Borrowed, as that function returned it.
 */
const char *bite_text_nearest(const char *word, size_t count,
                              const char *(*name)(size_t at, const void *list), const void *list);

#endif
