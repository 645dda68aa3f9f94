/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ASCII text, independent of the locale. */
#include "core/base/text.h"
#include <string.h>

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

static bool is_separator(char c)
{
    return bite_text_is_blank(c) || c == '-' || c == '.' || c == '_';
}

bool bite_text_same_designation_part(const char *a, size_t length, const char *b)
{
    size_t i = 0;
    size_t k = 0;
    size_t compared = 0;
    for (;;) {
        while (i < length && is_separator(a[i])) {
            i++;
        }
        while (is_separator(b[k])) {
            k++;
        }
        if (i == length || b[k] == 0) {
            break;
        }
        if (bite_text_lower(a[i++]) != bite_text_lower(b[k++])) {
            return false;
        }
        compared++;
    }
    return i == length && b[k] == 0 && (compared > 0 || bite_text_equals_part(a, length, b));
}

bool bite_text_same_designation(const char *a, const char *b)
{
    return bite_text_same_designation_part(a, strlen(a), b);
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

size_t bite_text_columns(const char *text, size_t length)
{
    size_t columns = 0;
    for (size_t i = 0; i < length; i++) {
        unsigned char c = (unsigned char)text[i];
        /* U+0300 to U+036F are encoded as cc 80 to cd af */
        bool combining = (c == 0xcc || c == 0xcd) && i + 1 < length &&
                         (c == 0xcc || (unsigned char)text[i + 1] <= 0xaf);
        columns += (c & 0xc0) != 0x80 && !combining;
    }
    return columns;
}

const char *bite_text_next_word(const char **list, size_t *length)
{
    const char *word = *list + strspn(*list, ", ");
    *length = strcspn(word, ", ");
    *list = word + *length;
    return word;
}

bool bite_text_list_has(const char *list, const char *word, bite_text_comparison same)
{
    size_t length = 0;
    const char *own = bite_text_next_word(&list, &length);
    while (length > 0 && !same(own, length, word)) {
        own = bite_text_next_word(&list, &length);
    }
    return length > 0;
}
