/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Comma-separated values (RFC 4180). */
#include "tests/reference/csv.h"
#include "tests/support/support.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

char *bite_csv_text(const char *path)
{
    FILE *file = fopen(path, "rb");
    size_t capacity = 1 << 20;
    char *text = malloc(capacity);
    size_t size = file == NULL || text == NULL ? 0 : fread(text, 1, capacity - 1, file);
    if (size == 0 || size == capacity - 1) {
        bite_test_stop("%s cannot be read, is empty, or larger than any table of rows", path);
    }
    text[size] = 0;
    (void)fclose(file);
    return text;
}

/* Reads one cell and removes its quotes in place; *end: the character after it. */
static char *take_cell(char **at, char *end)
{
    char *from = *at;
    char *start = from;
    char *to = from;
    if (*from == '"') {
        start = to = ++from;
        while (*from != 0 && !(from[0] == '"' && from[1] != '"')) {
            from += from[0] == '"';
            *to++ = *from++;
        }
        from += *from == '"';
    } else {
        while (*from != 0 && *from != ',' && *from != '\n') {
            *to++ = *from++;
        }
    }
    *end = *from;
    *at = *from == 0 ? from : from + 1;
    *to = 0;
    return start;
}

bite_csv bite_csv_read(const char *path)
{
    bite_csv csv = {bite_csv_text(path), 0, calloc(2048, sizeof(bite_csv_row))};
    for (char *at = csv.text; csv.rows != NULL && *at != 0;) {
        if (csv.count == 2048) {
            bite_test_stop("%s has more rows than are kept", path);
        }
        bite_csv_row *row = &csv.rows[csv.count++];
        char end = ',';
        while (end == ',') {
            if (row->count == BITE_CSV_CELLS) {
                bite_test_stop("%s: row %zu has more cells than are kept", path, csv.count);
            }
            row->cells[row->count++] = take_cell(&at, &end);
        }
        if (row->count != csv.rows[0].count) {
            bite_test_stop("%s: row %zu has %zu cells, the head has %zu", path, csv.count,
                           row->count, csv.rows[0].count);
        }
    }
    return csv;
}

void bite_csv_free(bite_csv *csv)
{
    free(csv->text);
    free(csv->rows);
}

const char *bite_csv_cell(const bite_csv *csv, size_t limit, const char *column)
{
    for (size_t i = 0; i < csv->rows[0].count; i++) {
        if (strcmp(csv->rows[0].cells[i], column) == 0) {
            return csv->rows[limit].cells[i];
        }
    }
    bite_test_stop("there is no column %s", column);
}
