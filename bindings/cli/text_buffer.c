/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lines of help and of lists, broken to the terminal's width. */
#include "bindings/cli/cli.h"
#include <string.h>

#define COLUMNS_USUAL 80
#define COLUMNS_LEAST 30
#define NARROW 56 /* under this a left column leaves too little for the right one */

/* Signs, not bytes: the followers of UTF-8 take no room. */
static size_t columns_of(const char *text, size_t length)
{
    size_t columns = 0;
    for (size_t i = 0; i < length; i++) {
        columns += ((unsigned char)text[i] & 0xc0) != 0x80;
    }
    return columns;
}

static int blanks(struct text_buffer *buffer, size_t count)
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
    size_t columns = style->columns == 0 ? COLUMNS_USUAL : style->columns;
    columns = columns < COLUMNS_LEAST ? COLUMNS_LEAST : columns;
    indent = columns < NARROW && indent > 4 ? 4 : indent;
    size_t at = columns_of(left, strlen(left));
    int failed = text_buffer_append(buffer, left, strlen(left));
    if (at < indent && *text != 0) {
        failed |= blanks(buffer, indent - at);
        at = indent;
    }
    int first = 1; /* of its line */
    while (*text != 0 && !failed) {
        size_t length = strcspn(text, " \n");
        size_t wide = columns_of(text, length);
        if (at > indent && at + (first ? 0 : 1) + wide > columns) {
            failed = text_buffer_append(buffer, "\n", 1) | blanks(buffer, indent);
            at = indent;
            first = 1;
        }
        failed |= first ? 0 : text_buffer_append(buffer, " ", 1);
        failed |= length > 0 ? text_buffer_append(buffer, text, length) : 0;
        at += wide + (first ? 0 : 1);
        first = 0;
        text += length;
        text += strspn(text, " \n");
    }
    return failed | text_buffer_append(buffer, "\n", 1);
}
