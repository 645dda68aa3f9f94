/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A line of CSV by RFC 4180, split into its fields. */
#include "core/cases/case_line.h"
#include "core/base/error.h"
#include "core/base/text.h"
#include <string.h>

/* Drops the quotes of a field that begins with one. Returns the end of the field in the line; NULL:
 * the quote is not closed. */
static char *read_quoted(char *at, char **field)
{
    char *to = at;
    *field = at;
    for (char *from = at + 1; *from != 0; from++) {
        if (*from != '"') {
            *to++ = *from;
        } else if (from[1] == '"') {
            *to++ = *from++;
        } else {
            *to = 0;
            return from + 1;
        }
    }
    return NULL;
}

/* Trims a field that ends at `end`, where it is ended by 0. */
static void read_plain(char *at, const char *end, char **field)
{
    const char *start = at;
    size_t length = bite_text_trim(&start, (size_t)(end - at));
    *field = at + (start - at);
    (*field)[length] = 0;
}

bite_status bite_case_line_split(char *line, char **fields, size_t *count, bite_error *error)
{
    char *at = line;
    *count = 0;
    for (int more = 1; more;) {
        char *field = at;
        at += strspn(at, " \t");
        char *end = at + strcspn(at, ",");
        int quoted = *at == '"';
        if (quoted) {
            end = read_quoted(at, &field);
            end = end == NULL ? NULL : end + strspn(end, " \t");
            if (end == NULL || (*end != ',' && *end != 0)) {
                bite_error_set(error, BITE_BAD_FILE,
                               end == NULL ? "a quote is not closed on this line"
                                           : "text follows a closing quote");
                bite_error_hint(error, "a row is one line; a quote inside quotes is doubled");
                return BITE_BAD_FILE;
            }
        }
        more = *end == ',';
        if (!quoted) {
            read_plain(at, end, &field);
        }
        if (*count == BITE_CASE_COLUMNS_MAX) {
            return bite_error_set(error, BITE_BAD_FILE, "more than %d columns",
                                  BITE_CASE_COLUMNS_MAX);
        }
        fields[(*count)++] = field;
        at = end + 1;
    }
    return BITE_OK;
}
