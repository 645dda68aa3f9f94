/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Text without locale. */
#include "core/base/text.h"
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#define WORD_MOST 64

char bite_text_lower(char c)
{
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

bool bite_text_is_blank(char c)
{
    return c == ' ' || c == '\t';
}

bool bite_text_is_digit(char c)
{
    return c >= '0' && c <= '9';
}

bool bite_text_equals_part(const char *a, size_t length, const char *b)
{
    for (size_t i = 0; i < length; i++) {
        if (b[i] == 0 || bite_text_lower(a[i]) != bite_text_lower(b[i])) {
            return false;
        }
    }
    return b[length] == 0;
}

bool bite_text_equals(const char *a, const char *b)
{
    return bite_text_equals_part(a, strlen(a), b);
}

size_t bite_text_trim(const char **text, size_t length)
{
    while (length > 0 && bite_text_is_blank((*text)[0])) {
        (*text)++;
        length--;
    }
    while (length > 0 && bite_text_is_blank((*text)[length - 1])) {
        length--;
    }
    return length;
}

/* Length of the well-formed character at text, by the table of Unicode 15, 3.9: no overlong forms,
 * no surrogates. 0: malformed. */
static size_t character(const unsigned char *text, size_t length)
{
    unsigned char c = text[0];
    if (c < 0x80) {
        return 1;
    }
    size_t size = c >= 0xc2 && c <= 0xdf   ? 2
                  : c >= 0xe0 && c <= 0xef ? 3
                  : c >= 0xf0 && c <= 0xf4 ? 4
                                           : 0;
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

/* Characters that are well-formed UTF-8 and must not be shown as they are. */
static const struct {
    uint32_t from;
    uint32_t to;
    bite_text_fault fault;
} barred[] = {
    {0x0000, 0x001f, BITE_TEXT_CONTROL},      {0x007f, 0x009f, BITE_TEXT_CONTROL},
    {0x061c, 0x061c, BITE_TEXT_DIRECTION},    {0x200e, 0x200f, BITE_TEXT_DIRECTION},
    {0x2028, 0x2029, BITE_TEXT_CONTROL},      {0x202a, 0x202e, BITE_TEXT_DIRECTION},
    {0x2066, 0x2069, BITE_TEXT_DIRECTION},    {0xfdd0, 0xfdef, BITE_TEXT_NO_CHARACTER},
    {0xfeff, 0xfeff, BITE_TEXT_NO_CHARACTER}, {0xfff9, 0xffff, BITE_TEXT_NO_CHARACTER},
};

static uint32_t code_point(const char *text, size_t size)
{
    static const unsigned char heads[] = {0, 0x7f, 0x1f, 0x0f, 0x07};
    uint32_t code = (unsigned char)text[0] & heads[size];
    for (size_t i = 1; i < size; i++) {
        code = code << 6 | ((unsigned char)text[i] & 0x3fu);
    }
    return code;
}

static bite_text_fault fault_of(uint32_t code)
{
    for (size_t i = 0; i < sizeof barred / sizeof *barred; i++) {
        if (code >= barred[i].from && code <= barred[i].to) {
            return barred[i].fault;
        }
    }
    return (code & 0xfffe) == 0xfffe ? BITE_TEXT_NO_CHARACTER : BITE_TEXT_SOUND;
}

const char *bite_text_fault_name(bite_text_fault fault)
{
    static const char *const names[] = {
        "", "bytes in it that are no UTF-8", "a control character in it",
        "a mark in it that turns the direction of writing", "a code in it that is no character"};
    return (unsigned)fault < sizeof names / sizeof *names ? names[fault] : "";
}

size_t bite_text_character(const char *text, size_t length, const char *allowed,
                           bite_text_fault *fault)
{
    size_t size = character((const unsigned char *)text, length);
    if (size == 0) {
        *fault = BITE_TEXT_MALFORMED;
        return 1;
    }
    int may = size == 1 && text[0] != 0 && strchr(allowed, text[0]) != NULL;
    *fault = may ? BITE_TEXT_SOUND : fault_of(code_point(text, size));
    return size;
}

bite_text_fault bite_text_check(const char *text, size_t length, const char *allowed, size_t *bad)
{
    for (size_t at = 0; at < length;) {
        bite_text_fault fault = BITE_TEXT_SOUND;
        size_t size = bite_text_character(text + at, length - at, allowed, &fault);
        if (fault != BITE_TEXT_SOUND) {
            if (bad != NULL) {
                *bad = at;
            }
            return fault;
        }
        at += size;
    }
    return BITE_TEXT_SOUND;
}

size_t bite_text_whole(const char *text, size_t length)
{
    size_t start = length;
    while (start > 0 && length - start < 3 && ((unsigned char)text[start - 1] & 0xc0) == 0x80) {
        start--;
    }
    if (start == 0 || (unsigned char)text[start - 1] < 0xc0) {
        return length;
    }
    unsigned char lead = (unsigned char)text[--start];
    size_t size = lead < 0xe0 ? 2 : lead < 0xf0 ? 3 : 4;
    return length - start < size ? start : length;
}

/* One character as it is shown: itself, \x1b for a byte, \u202e for a code. Returns its length. */
static size_t escape_one(const char *text, size_t size, bite_text_fault fault, char shown[12])
{
    if (fault == BITE_TEXT_SOUND) {
        memcpy(shown, text, size);
        return size;
    }
    uint32_t code = size == 1 ? (unsigned char)text[0] : code_point(text, size);
    int length = snprintf(shown, 12, size == 1 ? "\\x%02x" : "\\u%04x", (unsigned)code);
    return length < 0 ? 0 : (size_t)length;
}

size_t bite_text_escape(const char *text, char *out, size_t size)
{
    size_t length = text == NULL ? 0 : strlen(text);
    size_t needed = 0;
    size_t used = 0;
    int full = size == 0;
    for (size_t at = 0; at < length;) {
        char shown[12];
        bite_text_fault fault = BITE_TEXT_SOUND;
        size_t taken = bite_text_character(text + at, length - at, "", &fault);
        size_t more = escape_one(text + at, taken, fault, shown);
        full |= used + more >= size; /* what does not fit whole is left out, and all behind it */
        if (!full) {
            memcpy(out + used, shown, more);
            used += more;
        }
        needed += more;
        at += taken;
    }
    if (size > 0) {
        out[used] = 0;
    }
    return needed;
}

char *bite_text_escaped(bite_arena *arena, const char *text)
{
    size_t size = bite_text_escape(text, NULL, 0) + 1;
    char *out = bite_arena_alloc(arena, size, 1);
    if (out != NULL) {
        (void)bite_text_escape(text, out, size);
    }
    return out;
}

size_t bite_text_columns(const char *text, size_t length)
{
    size_t columns = 0;
    for (size_t i = 0; i < length; i++) {
        unsigned char c = (unsigned char)text[i];
        bool combining =
            (c == 0xcc || c == 0xcd) && i + 1 < length; /* U+0300 to U+036F lie in cc 80 .. cd af */
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
            if (i > 1 && j > 1 && ca == bite_text_lower(b[j - 2]) &&
                bite_text_lower(a[i - 2]) == cb) {
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

const char *bite_text_nearest(const char *word, size_t count,
                              const char *(*name)(size_t at, const void *list), const void *list)
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
