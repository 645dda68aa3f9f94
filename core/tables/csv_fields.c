/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The fields of a CSV text (RFC 4180). */
#include "core/tables/csv_fields.h"
#include <string.h>

/* Of comma, semicolon and tab the first in the first line. */
static char separator_of(const char *text, size_t size)
{
    for (size_t i = 0; i < size && text[i] != '\n'; i++) {
        if (text[i] == ',' || text[i] == ';' || text[i] == '\t') {
            return text[i];
        }
    }
    return ',';
}

void bite_csv_begin(bite_csv *csv, const char *text, size_t size)
{
    static const char mark[] = "\xEF\xBB\xBF";
    size_t skipped = size >= 3 && memcmp(text, mark, 3) == 0 ? 3 : 0;
    csv->at = text + skipped;
    csv->end = text + size;
    csv->line = 1;
    csv->separator = separator_of(csv->at, size - skipped);
}

/* A field in quotes, into copy; *at is moved behind it. */
static const char *read_quoted(const bite_csv *csv, char copy[BITE_CSV_FIELD_MAX],
                               const char **from, size_t *length)
{
    const char *at = *from + 1;
    size_t used = 0;
    for (; at < csv->end && !(*at == '"' && !(at + 1 < csv->end && at[1] == '"')); at++) {
        at += *at == '"';
        if (used == BITE_CSV_FIELD_MAX - 1) {
            return "a quoted value is longer than 255 bytes";
        }
        if (*at == '\n' || *at == '\r') {
            return "a quoted value does not end on its line";
        }
        copy[used++] = *at;
    }
    if (at == csv->end) {
        return "a quoted value does not end";
    }
    *from = at + 1;
    *length = used;
    return NULL;
}

const char *bite_csv_next(bite_csv *csv, char copy[BITE_CSV_FIELD_MAX], const char **text,
                          size_t *length, bool *last)
{
    const char *at = csv->at;
    if (at < csv->end && *at == '"') {
        const char *wrong = read_quoted(csv, copy, &at, length);
        if (wrong != NULL) {
            return wrong;
        }
        *text = copy;
    } else {
        while (at < csv->end && *at != csv->separator && *at != '\n' && *at != '\r') {
            at++;
        }
        *text = csv->at;
        *length = (size_t)(at - csv->at);
    }
    *last = at == csv->end || *at != csv->separator;
    if (*last && at < csv->end && *at == '\r') {
        at++;
    }
    if (at < csv->end && *last && *at != '\n') {
        return "a separator was expected after a quoted value";
    }
    csv->line += *last;
    csv->at = at < csv->end ? at + 1 : at;
    return NULL;
}
