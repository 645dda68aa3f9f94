/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The title of a job as the key of its time. */
#include "core/job/title_key.h"
#include "core/base/display_text.h"
#include "core/base/text.h"
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#define DIGEST 9 /* a dash and eight digits */

void bite_title_name(const char *title, char name[BITE_TITLE_NAME_MAX])
{
    size_t length = 0;
    int lost = 0;
    uint32_t digest = 2166136261u; /* FNV-1a */
    for (; *title != 0; title++) {
        char c = bite_text_lower(*title);
        int plain = (c >= 'a' && c <= 'z') || bite_text_is_digit(c);
        digest = (digest ^ (unsigned char)c) * 16777619u;
        lost |= (unsigned char)c >= 0x80;
        if (length + 1 + DIGEST >= BITE_TITLE_NAME_MAX) {
            lost = 1;
        } else if (plain) {
            name[length++] = c;
        } else if (length > 0 && name[length - 1] != '-') {
            name[length++] = '-';
        }
    }
    while (length > 0 && name[length - 1] == '-') {
        length--;
    }
    name[length] = 0;
    if (lost) {
        (void)snprintf(name + length, BITE_TITLE_NAME_MAX - length, "%s%08x",
                       length == 0 ? "" : "-", (unsigned)digest);
    } else if (length == 0) {
        (void)snprintf(name, BITE_TITLE_NAME_MAX, "job");
    }
}

/* The length of the character that begins here; 0: invalid UTF-8. */
static size_t size_of_character(const char *at, size_t left)
{
    bite_text_fault fault = BITE_TEXT_SOUND;
    size_t size = bite_text_character(at, left, "", &fault);
    return fault == BITE_TEXT_MALFORMED ? 0 : size;
}

static bool is_hex(char c)
{
    char small = bite_text_lower(c);
    return bite_text_is_digit(c) || (small >= 'a' && small <= 'f');
}

static bool must_escape(const char *at, bool first)
{
    unsigned char c = (unsigned char)at[0];
    bool beyond = c == 0xc2 && (unsigned char)at[1] < 0xa0; /* U+0080 to U+009F */
    bool edge = c == ' ' && (first || at[1] == 0);
    bool escape = c == '%' && is_hex(at[1]) && is_hex(at[2]);
    return c < 0x20 || c == 0x7f || beyond || edge || escape || c == '"' || c == '\\';
}

const char *bite_title_value(bite_arena *arena, const char *title)
{
    size_t length = strlen(title);
    size_t used = 0;
    char *value = bite_arena_alloc(arena, 3 * length + 1, 1);
    for (size_t i = 0; value != NULL && i < length;) {
        size_t size = size_of_character(title + i, length - i);
        bool escape = size == 0 || must_escape(title + i, i == 0);
        size_t end = i + (size == 0 ? 1 : size);
        for (; i < end; i++) {
            if (escape) {
                used +=
                    (size_t)snprintf(value + used, 4, "%%%02X", (unsigned)(unsigned char)title[i]);
            } else {
                value[used++] = title[i];
            }
        }
    }
    return value;
}
