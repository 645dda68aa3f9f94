/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Text without locale: ASCII case and classes, what may be shown, nearest names, and a writer over
 * a sink. */
#ifndef BITE_BASE_TEXT_H
#define BITE_BASE_TEXT_H

#include "core/base/error.h"
#include "core/base/memory.h"
#include <coolbite/coolbite.h>
#include <stdbool.h>

bool bite_text_equals(const char *a, const char *b); /* without case, ASCII */
bool bite_text_equals_part(const char *a, size_t length,
                           const char *b); /* a[0..length) against the whole of b */
bool bite_text_is_blank(char c);           /* space or tab */
bool bite_text_is_digit(char c);
char bite_text_lower(char c);
size_t bite_text_trim(const char **text, size_t length); /* moves *text, returns the new length */
size_t bite_text_columns(const char *text,
                         size_t length); /* terminal cells: code points, no combining marks */

/** Why a text must not be shown as it is. */
typedef enum bite_text_fault {
    BITE_TEXT_SOUND = 0,
    BITE_TEXT_MALFORMED,   /* not UTF-8 */
    BITE_TEXT_CONTROL,     /* a control character, or one that ends a line or a paragraph */
    BITE_TEXT_DIRECTION,   /* turns the direction of writing: a number could read backwards */
    BITE_TEXT_NO_CHARACTER /* well-formed, but no character of any text */
} bite_text_fault;

/** What is wrong, to stand behind "has": "a control character in it"; "" where nothing is. */
const char *bite_text_fault_name(bite_text_fault fault);

/**
 * The first character of a text: its bytes (1 where it is malformed), and what is wrong with it.
 *
 * This is the one check of all text that comes from tables, plugins and callers and can reach an
 * output. allowed: the control characters that may stand, such as "\t". length: at least 1.
 */
size_t bite_text_character(const char *text, size_t length, const char *allowed,
                           bite_text_fault *fault);

/** The same of every character; *bad (may be NULL): the offset of the first that is not sound. */
bite_text_fault bite_text_check(const char *text, size_t length, const char *allowed, size_t *bad);

/** The length without the part of a character that a cut has left at the end. */
size_t bite_text_whole(const char *text, size_t length);

/** What bite_text_escape makes of a text, in the arena; NULL: no memory. */
char *bite_text_escaped(bite_arena *arena, const char *text);

/** Edits between two words, without case (insert, delete, replace, swap of neighbours), at most
 * `most` + 1. */
size_t bite_text_distance(const char *a, const char *b, size_t most);

/** The nearest of count names to word, within a third of its length (at least 1, at most 4); NULL:
 * none near. `name(at, list)` gives each. */
const char *bite_text_nearest(const char *word, size_t count,
                              const char *(*name)(size_t at, const void *list), const void *list);

/** Writes into a sink; after the sink refused, all further writing does nothing and status stays
 * BITE_CANNOT_WRITE. */
typedef struct bite_writer {
    bite_sink sink;
    void *user;
    bite_status status;
} bite_writer;

void bite_writer_text(bite_writer *writer, const char *text);
void bite_writer_part(bite_writer *writer, const char *text, size_t size);

#endif
