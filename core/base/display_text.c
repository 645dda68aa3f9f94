/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Text that is safe to display: the check, and the escapes for what fails it. */
#include "core/base/display_text.h"
#include <stdint.h>
#include <stdio.h>
#include <string.h>

/* Bytes of the well-formed character at text, by table 3-7 of Unicode 15, section 3.9: no overlong
 * forms, no surrogates. 0: malformed. */
static size_t character_size(const unsigned char *text, size_t length)
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

/* Well-formed characters that must not be displayed as they are. */
static const struct {
    uint32_t from;
    uint32_t to;
    bite_text_fault fault;
} unsafe[] = {
    {0x0000, 0x001f, BITE_TEXT_CONTROL},      {0x007f, 0x009f, BITE_TEXT_CONTROL},
    {0x061c, 0x061c, BITE_TEXT_DIRECTION},    {0x200e, 0x200f, BITE_TEXT_DIRECTION},
    {0x2028, 0x2029, BITE_TEXT_CONTROL},      {0x202a, 0x202e, BITE_TEXT_DIRECTION},
    {0x2066, 0x2069, BITE_TEXT_DIRECTION},    {0xfdd0, 0xfdef, BITE_TEXT_NO_CHARACTER},
    {0xfeff, 0xfeff, BITE_TEXT_NO_CHARACTER}, {0xfff9, 0xffff, BITE_TEXT_NO_CHARACTER},
};

static uint32_t code_point(const char *text, size_t size)
{
    static const unsigned char lead_bits[] = {0, 0x7f, 0x1f, 0x0f, 0x07};
    uint32_t code = (unsigned char)text[0] & lead_bits[size];
    for (size_t i = 1; i < size; i++) {
        code = code << 6 | ((unsigned char)text[i] & 0x3fu);
    }
    return code;
}

static bite_text_fault fault_of(uint32_t code)
{
    for (size_t i = 0; i < sizeof unsafe / sizeof *unsafe; i++) {
        if (code >= unsafe[i].from && code <= unsafe[i].to) {
            return unsafe[i].fault;
        }
    }
    return (code & 0xfffe) == 0xfffe ? BITE_TEXT_NO_CHARACTER : BITE_TEXT_SOUND;
}

const char *bite_text_fault_name(bite_text_fault fault)
{
    static const char *const names[] = {"", "bytes in it that are not UTF-8",
                                        "a control character in it",
                                        "a character in it that changes the direction of writing",
                                        "a code in it that is not a character"};
    return names[fault];
}

size_t bite_text_character(const char *text, size_t length, const char *allowed,
                           bite_text_fault *fault)
{
    size_t size = character_size((const unsigned char *)text, length);
    if (size == 0) {
        *fault = BITE_TEXT_MALFORMED;
        return 1;
    }
    bool is_allowed = size == 1 && text[0] != 0 && strchr(allowed, text[0]) != NULL;
    *fault = is_allowed ? BITE_TEXT_SOUND : fault_of(code_point(text, size));
    return size;
}

bite_text_fault bite_text_check(const char *text, size_t length, const char *allowed, size_t *bad)
{
    for (size_t at = 0; at < length;) {
        /* nearly all of a table is printable ASCII, which is always sound */
        if (text[at] >= 0x20 && text[at] < 0x7f) {
            at++;
            continue;
        }
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

size_t bite_text_complete_length(const char *text, size_t length)
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

/* One character as it is displayed: itself, \x1b for a byte, \u202e for a code point. Returns the
 * bytes of that form. */
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
    bool full = size == 0;
    for (size_t at = 0; at < length;) {
        char shown[12];
        bite_text_fault fault = BITE_TEXT_SOUND;
        size_t bytes = bite_text_character(text + at, length - at, "", &fault);
        size_t shown_size = escape_one(text + at, bytes, fault, shown);
        /* a character that does not fit whole ends the output */
        full = full || used + shown_size >= size;
        if (!full) {
            memcpy(out + used, shown, shown_size);
            used += shown_size;
        }
        needed += shown_size;
        at += bytes;
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
