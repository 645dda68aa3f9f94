/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The nearest of a list of names, for "did you mean ...?". */
#include "core/base/nearest_name.h"
#include "core/base/text.h"
#include <string.h>

#define WORD_MAX 64 /* bytes; longer words have no near name */

static size_t smaller(size_t a, size_t b)
{
    return a < b ? a : b;
}

static size_t larger(size_t a, size_t b)
{
    return a < b ? b : a;
}

/* Optimal string alignment: the Levenshtein distance plus swaps of neighbours, over three rows. */
size_t bite_text_distance(const char *a, const char *b, size_t limit)
{
    size_t rows[3][WORD_MAX + 1];
    size_t length_a = strlen(a);
    size_t length_b = strlen(b);
    if (length_a > WORD_MAX || length_b > WORD_MAX) {
        return limit + 1;
    }
    size_t *before_last = rows[0];
    size_t *last = rows[1];
    size_t *current = rows[2];
    for (size_t j = 0; j <= length_b; j++) {
        last[j] = j;
        before_last[j] = j;
    }
    for (size_t i = 1; i <= length_a; i++) {
        current[0] = i;
        for (size_t j = 1; j <= length_b; j++) {
            char ca = bite_text_lower(a[i - 1]);
            char cb = bite_text_lower(b[j - 1]);
            current[j] =
                smaller(smaller(last[j] + 1, current[j - 1] + 1), last[j - 1] + (ca != cb));
            if (i > 1 && j > 1 && ca == bite_text_lower(b[j - 2]) &&
                bite_text_lower(a[i - 2]) == cb) {
                current[j] = smaller(current[j], before_last[j - 2] + 1);
            }
        }
        size_t *spare = before_last;
        before_last = last;
        last = current;
        current = spare;
    }
    return smaller(last[length_b], limit + 1);
}

/* A name all of whose characters are edits has nothing of the word: m is not near x. */
const char *bite_text_nearest(const char *word, size_t count,
                              const char *(*name)(size_t at, const void *list), const void *list)
{
    size_t limit = strlen(word) / 3;
    limit = limit < 1 ? 1 : limit > 4 ? 4 : limit;
    const char *best = NULL;
    for (size_t i = 0; i < count; i++) {
        const char *candidate = name(i, list);
        if (candidate == NULL) {
            continue;
        }
        size_t distance = bite_text_distance(word, candidate, limit);
        if (distance <= limit && distance < larger(strlen(word), strlen(candidate)) &&
            (best == NULL || distance < bite_text_distance(word, best, limit))) {
            best = candidate;
        }
    }
    return best;
}
