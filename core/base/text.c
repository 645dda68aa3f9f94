/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Text without locale. */
#include "core/base/text.h"
#include <string.h>

#define WORD_MOST 64

char bite_text_lower(char c)
{
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

bool bite_text_blank(char c)
{
    return c == ' ' || c == '\t';
}

bool bite_text_digit(char c)
{
    return c >= '0' && c <= '9';
}

bool bite_text_same_part(const char *a, size_t length, const char *b)
{
    for (size_t i = 0; i < length; i++) {
        if (b[i] == 0 || bite_text_lower(a[i]) != bite_text_lower(b[i])) {
            return false;
        }
    }
    return b[length] == 0;
}

bool bite_text_same(const char *a, const char *b)
{
    return bite_text_same_part(a, strlen(a), b);
}

size_t bite_text_trim(const char **text, size_t length)
{
    while (length > 0 && bite_text_blank((*text)[0])) {
        (*text)++;
        length--;
    }
    while (length > 0 && bite_text_blank((*text)[length - 1])) {
        length--;
    }
    return length;
}

/* Length of the well-formed character at text, by the table of Unicode 15, 3.9: no overlong forms, no surrogates. 0: malformed. */
static size_t character(const unsigned char *text, size_t length)
{
    unsigned char c = text[0];
    if (c < 0x80) {
        return 1;
    }
    size_t size = c >= 0xc2 && c <= 0xdf ? 2 : c >= 0xe0 && c <= 0xef ? 3 : c >= 0xf0 && c <= 0xf4 ? 4 : 0;
    if (size == 0 || size > length) {
        return 0;
    }
    unsigned char least = c == 0xe0 ? 0xa0 : c == 0xf0 ? 0x90 : 0x80;
    unsigned char most = c == 0xed ? 0x9f : c == 0xf4 ? 0x8f : 0xbf;
    if (text[1] < least || text[1] > most) {
        return 0;
    }
    for (size_t i = 2; i < size; i++) {
        if (text[i] < 0x80 || text[i] > 0xbf) {
            return 0;
        }
    }
    return size;
}

bool bite_text_utf8(const char *text, size_t length, size_t *bad)
{
    const unsigned char *bytes = (const unsigned char *)text;
    for (size_t at = 0; at < length;) {
        size_t size = character(bytes + at, length - at);
        if (size == 0) {
            *bad = at;
            return false;
        }
        at += size;
    }
    return true;
}

size_t bite_text_columns(const char *text, size_t length)
{
    size_t columns = 0;
    for (size_t i = 0; i < length; i++) {
        unsigned char c = (unsigned char)text[i];
        bool combining = (c == 0xcc || c == 0xcd) && i + 1 < length; /* U+0300 to U+036F lie in cc 80 .. cd af */
        columns += (c & 0xc0) != 0x80 && !combining;
    }
    return columns;
}

static size_t least_of(size_t a, size_t b)
{
    return a < b ? a : b;
}

size_t bite_text_distance(const char *a, const char *b, size_t most)
{
    size_t rows[3][WORD_MOST + 1];
    size_t la = strlen(a);
    size_t lb = strlen(b);
    if (la > WORD_MOST || lb > WORD_MOST) {
        return most + 1;
    }
    size_t *before = rows[0];
    size_t *last = rows[1];
    size_t *now = rows[2];
    for (size_t j = 0; j <= lb; j++) {
        last[j] = j;
        before[j] = j;
    }
    for (size_t i = 1; i <= la; i++) {
        now[0] = i;
        for (size_t j = 1; j <= lb; j++) {
            char ca = bite_text_lower(a[i - 1]);
            char cb = bite_text_lower(b[j - 1]);
            now[j] = least_of(least_of(last[j] + 1, now[j - 1] + 1), last[j - 1] + (ca != cb));
            if (i > 1 && j > 1 && ca == bite_text_lower(b[j - 2]) && bite_text_lower(a[i - 2]) == cb) {
                now[j] = least_of(now[j], before[j - 2] + 1);
            }
        }
        size_t *spare = before;
        before = last;
        last = now;
        now = spare;
    }
    return least_of(last[lb], most + 1);
}

const char *bite_text_nearest(const char *word, size_t count, const char *(*name)(size_t at, const void *list), const void *list)
{
    size_t most = strlen(word) / 3;
    most = most < 1 ? 1 : most > 4 ? 4 : most;
    const char *best = NULL;
    for (size_t i = 0; i < count; i++) {
        const char *other = name(i, list);
        size_t distance = bite_text_distance(word, other, most);
        if (distance <= most && (best == NULL || distance < bite_text_distance(word, best, most))) {
            best = other;
        }
    }
    return best;
}

void bite_writer_part(bite_writer *writer, const char *text, size_t size)
{
    if (writer->status == BITE_OK && size > 0 && writer->sink(writer->user, text, size) != 0) {
        writer->status = BITE_CANNOT_WRITE;
    }
}

void bite_writer_text(bite_writer *writer, const char *text)
{
    bite_writer_part(writer, text, strlen(text));
}
