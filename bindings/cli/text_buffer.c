/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Text collected in memory, and wrapped to the width of the terminal. */
#include "bindings/cli/text_buffer.h"
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define COLUMNS_DEFAULT 80
#define COLUMNS_MIN 30
#define COLUMNS_NARROW 56 /* below this, a wide left column leaves too little for the text */
#define INDENT_NARROW 4
#define CAPACITY_FIRST 8192

int text_buffer_append(void *user, const char *text, size_t size)
{
    struct text_buffer *buffer = user;
    if (size == 0) { /* memcpy must not be given the null pointer of an empty buffer */
        return 0;
    }
    if (size > buffer->capacity - buffer->size) {
        size_t capacity = buffer->capacity == 0 ? CAPACITY_FIRST : buffer->capacity;
        while (capacity - buffer->size < size) {
            if (capacity > SIZE_MAX / 2) {
                return -1;
            }
            capacity *= 2;
        }
        char *more = realloc(buffer->text, capacity);
        if (more == NULL) {
            return -1;
        }
        buffer->text = more;
        buffer->capacity = capacity;
    }
    memcpy(buffer->text + buffer->size, text, size);
    buffer->size += size;
    return 0;
}

int text_buffer_json(struct text_buffer *buffer, const char *text)
{
    int failed = text_buffer_append(buffer, "\"", 1);
    for (; *text != 0 && !failed; text++) {
        char escaped[8];
        unsigned char c = (unsigned char)*text;
        int size = c == '"' || c == '\\' ? snprintf(escaped, sizeof escaped, "\\%c", c)
                   : c < 0x20            ? snprintf(escaped, sizeof escaped, "\\u%04x", c)
                                         : snprintf(escaped, sizeof escaped, "%c", c);
        failed = text_buffer_append(buffer, escaped, (size_t)size);
    }
    return failed | text_buffer_append(buffer, "\"", 1);
}

/* Characters, not bytes: continuation bytes of UTF-8 do not count. */
static size_t count_columns(const char *text, size_t length)
{
    size_t columns = 0;
    for (size_t i = 0; i < length; i++) {
        columns += ((unsigned char)text[i] & 0xc0) != 0x80;
    }
    return columns;
}

static int append_blanks(struct text_buffer *buffer, size_t count)
{
    int failed = 0;
    for (; count > 0 && !failed; count--) {
        failed = text_buffer_append(buffer, " ", 1);
    }
    return failed;
}

int text_buffer_wrap(struct text_buffer *buffer, const bite_style *style, const char *left,
                     size_t indent, const char *text)
{
    size_t columns = style->columns == 0 ? COLUMNS_DEFAULT : style->columns;
    columns = columns < COLUMNS_MIN ? COLUMNS_MIN : columns;
    indent = columns < COLUMNS_NARROW && indent > INDENT_NARROW ? INDENT_NARROW : indent;
    size_t at = count_columns(left, strlen(left));
    int failed = text_buffer_append(buffer, left, strlen(left));
    if (at < indent && *text != 0) {
        failed |= append_blanks(buffer, indent - at);
        at = indent;
    }
    int first = 1; /* word of its line */
    while (*text != 0 && !failed) {
        size_t length = strcspn(text, " \n");
        size_t width = count_columns(text, length);
        if (at > indent && at + (first ? 0 : 1) + width > columns) {
            failed = text_buffer_append(buffer, "\n", 1);
            failed |= append_blanks(buffer, indent);
            at = indent;
            first = 1;
        }
        failed |= first ? 0 : text_buffer_append(buffer, " ", 1);
        failed |= length > 0 ? text_buffer_append(buffer, text, length) : 0;
        at += width + (first ? 0 : 1);
        first = 0;
        text += length;
        text += strspn(text, " \n");
    }
    return failed | text_buffer_append(buffer, "\n", 1);
}
