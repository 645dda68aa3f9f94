/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Text collected in memory, so that a file is written completely or not at all. */
#ifndef BITE_CLI_TEXT_BUFFER_H
#define BITE_CLI_TEXT_BUFFER_H

#include <coolbite/coolbite.h>
#include <stddef.h>

/** All zero: empty. text: owned, freed with free(). */
struct text_buffer {
    char *text;
    size_t size;
    size_t capacity;
};

/** A bite_writer: user is a struct text_buffer. Nonzero: out of memory. */
int text_buffer_append(void *user, const char *text, size_t size);

/** Appends a text as a string of JSON (RFC 8259). Nonzero: out of memory. */
int text_buffer_json(struct text_buffer *buffer, const char *text);

/** Appends `left` and, starting at column `indent`, the text, wrapped to the width of the style (80
 * columns if it has none). Nonzero: out of memory. */
int text_buffer_wrap(struct text_buffer *buffer, const bite_style *style, const char *left,
                     size_t indent, const char *text);

#endif
