/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The names in a table of a material. The pass reads headings, `also`, `near` and `title`; a line
 * of these that it does not understand makes the index doubtful, and then the table is parsed to be
 * sure. */
#include "core/library/name_index.h"
#include "core/base/display_text.h"
#include "core/base/text.h"
#include "core/library/arena_list.h"
#include <string.h>

typedef enum section_kind { SECTION_OTHER, SECTION_FAMILY, SECTION_GRADE } section_kind;

static bool add(bite_arena *arena, bite_name_index *index, const char *text, size_t length,
                bool of_family)
{
    bite_indexed_name name = {text, length, of_family};
    return length == 0 || bite_arena_list_add(arena, &index->names, &name, sizeof name) != NULL;
}

/* The words of a list that is separated by commas or blanks. */
static bool add_words(bite_arena *arena, bite_name_index *index, const char *text, size_t length,
                      bool of_family)
{
    size_t start = 0;
    for (size_t i = 0; i <= length; i++) {
        if (i < length && text[i] != ',' && text[i] != ' ') {
            continue;
        }
        if (!add(arena, index, text + start, i - start, of_family)) {
            return false;
        }
        start = i + 1;
    }
    return true;
}

static bool is_heading(const char *text, size_t length)
{
    return length >= 2 && text[length - 1] == ']' && memchr(text, ']', length - 1) == NULL &&
           bite_text_check(text, length, "", NULL) == BITE_TEXT_SOUND;
}

static bool add_heading(bite_arena *arena, bite_name_index *index, const char *text, size_t length,
                        section_kind *kind)
{
    static const char grade[] = "grade.";
    *kind = SECTION_OTHER;
    if (!is_heading(text, length)) {
        index->doubtful = true;
        return true;
    }
    text++;
    length -= 2;
    if (bite_text_equals_part(text, length, "family")) {
        *kind = SECTION_FAMILY;
    } else if (length >= sizeof grade && memcmp(text, grade, sizeof grade - 1) == 0) {
        *kind = SECTION_GRADE;
        return add(arena, index, text + sizeof grade - 1, length - (sizeof grade - 1), false);
    }
    return true;
}

/* The value without its quotes. False: it is not one that the full reading accepts. */
static bool strip_quotes(const char **text, size_t *length)
{
    if (*length >= 2 && (*text)[0] == '"' && (*text)[*length - 1] == '"') {
        (*text)++;
        *length -= 2;
        return memchr(*text, '"', *length) == NULL;
    }
    return memchr(*text, '"', *length) == NULL && memchr(*text, '#', *length) == NULL &&
           memchr(*text, ';', *length) == NULL;
}

static bool add_key(bite_arena *arena, bite_name_index *index, const char *text, size_t length,
                    section_kind kind)
{
    const char *end = text + length;
    const char *equals = memchr(text, '=', length);
    size_t size = equals == NULL ? 0 : bite_text_trim(&text, (size_t)(equals - text));
    bool is_list = bite_text_equals_part(text, size, "also") ||
                   (kind == SECTION_GRADE && bite_text_equals_part(text, size, "near"));
    bool is_title = kind == SECTION_GRADE && bite_text_equals_part(text, size, "title");
    if (!is_list && !is_title) {
        return true;
    }
    const char *value = equals + 1;
    size_t value_length = bite_text_trim(&value, (size_t)(end - value));
    if (bite_text_check(value, value_length, "", NULL) != BITE_TEXT_SOUND ||
        !strip_quotes(&value, &value_length)) {
        index->doubtful = true;
        return true;
    }
    return is_title ? add(arena, index, value, value_length, false)
                    : add_words(arena, index, value, value_length, kind == SECTION_FAMILY);
}

bool bite_name_index_add(bite_arena *arena, bite_name_index *index, const char *text, size_t size)
{
    section_kind kind = SECTION_OTHER;
    bool good = true;
    if (size >= 3 && memcmp(text, "\xef\xbb\xbf", 3) == 0) {
        index->doubtful = true; /* the full reading tells the byte order mark */
        text += 3;
        size -= 3;
    }
    while (size > 0 && good) {
        const char *end = memchr(text, '\n', size);
        size_t whole = end == NULL ? size : (size_t)(end - text) + 1;
        size_t length = whole - (end != NULL);
        const char *line = text;
        text += whole;
        size -= whole;
        length -= length > 0 && line[length - 1] == '\r';
        length = bite_text_trim(&line, length);
        char first = length == 0 ? '#' : bite_text_lower(line[0]);
        if (first == '[') {
            good = add_heading(arena, index, line, length, &kind);
        } else if (kind != SECTION_OTHER && (first == 'a' || first == 'n' || first == 't')) {
            good = add_key(arena, index, line, length, kind);
        }
    }
    return good;
}

bool bite_name_index_has(const bite_name_index *index, const char *name, bool grades)
{
    const bite_indexed_name *names = index->names.items;
    for (size_t i = 0; i < index->names.count; i++) {
        if ((grades || names[i].of_family) &&
            bite_text_same_designation_part(names[i].text, names[i].length, name)) {
            return true;
        }
    }
    return false;
}

bool bite_name_occurs(const char *text, size_t size, const char *name)
{
    size_t length = strlen(name);
    for (size_t i = 0; length > 0 && i + length <= size; i++) {
        if (bite_text_equals_part(text + i, length, name)) {
            return true;
        }
    }
    return false;
}
