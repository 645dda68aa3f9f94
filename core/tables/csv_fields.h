/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The fields of a CSV text, one after another: separated by comma, semicolon or tab, in quotes
 * where needed. */
#ifndef BITE_TABLES_CSV_FIELDS_H
#define BITE_TABLES_CSV_FIELDS_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#define BITE_CSV_FIELD_MAX 256 /* bytes of a field in quotes, with the 0 */

typedef struct bite_csv {
    const char *at;
    const char *end;
    uint32_t line; /* of the next character, from 1 */
    char separator;
} bite_csv;

/** Begins at the start of a text, without a mark of its byte order. The separator is the first of
 * comma, semicolon and tab in its first line. */
void bite_csv_begin(bite_csv *csv, const char *text, size_t size);

/** The next field, without its quotes: *text and *length are borrowed from the CSV text, or from
 * copy if it was in quotes. *last: it ends its record. Returns NULL, or what is wrong with it: a
 * static text. */
const char *bite_csv_next(bite_csv *csv, char copy[BITE_CSV_FIELD_MAX], const char **text,
                          size_t *length, bool *last);

#endif
