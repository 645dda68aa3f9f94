/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Text without locale: ASCII case and classes, UTF-8, nearest names, and a writer over a sink. */
#ifndef BITE_BASE_TEXT_H
#define BITE_BASE_TEXT_H

#include "core/base/error.h"
#include <coolbite/coolbite.h>
#include <stdbool.h>

bool bite_text_same(const char *a, const char *b);                     /* without case, ASCII */
bool bite_text_same_part(const char *a, size_t length, const char *b); /* a[0..length) against the whole of b */
bool bite_text_blank(char c);                                          /* space or tab */
bool bite_text_digit(char c);
char bite_text_lower(char c);
size_t bite_text_trim(const char **text, size_t length);           /* moves *text, returns the new length */
bool bite_text_utf8(const char *text, size_t length, size_t *bad); /* false: *bad is the offset of the first bad byte */
size_t bite_text_columns(const char *text, size_t length);         /* terminal cells: code points, no combining marks */

/** Edits between two words, without case (insert, delete, replace, swap of neighbours), at most `most` + 1. */
size_t bite_text_distance(const char *a, const char *b, size_t most);

/** The nearest of count names to word, within a third of its length (at least 1, at most 4); NULL: none near. `name(at, list)`
 * gives each. */
const char *bite_text_nearest(const char *word, size_t count, const char *(*name)(size_t at, const void *list), const void *list);

/** Writes into a sink; after the sink refused, all further writing does nothing and status stays BITE_CANNOT_WRITE. */
typedef struct bite_writer {
    bite_sink sink;
    void *user;
    bite_status status;
} bite_writer;

void bite_writer_text(bite_writer *writer, const char *text);
void bite_writer_part(bite_writer *writer, const char *text, size_t size);

#endif
