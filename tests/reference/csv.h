/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Comma-separated values (RFC 4180). */
#ifndef BITE_TESTS_REFERENCE_CSV_H
#define BITE_TESTS_REFERENCE_CSV_H

#include <stddef.h>

#define BITE_CSV_CELLS 20

typedef struct bite_csv_row {
    size_t count;
    const char *cells[BITE_CSV_CELLS]; /* into the text */
} bite_csv_row;

typedef struct bite_csv {
    char *text;
    size_t count;
    bite_csv_row *rows; /* rows[0]: the names */
} bite_csv;

/** Reads a file; fails the test if it cannot. Owned: bite_csv_free. */
bite_csv bite_csv_read(const char *path);
void bite_csv_free(bite_csv *csv);
/** The cell of a row by the column's name; fails the test if there is no such column. */
const char *bite_csv_cell(const bite_csv *csv, size_t limit, const char *column);

/** A whole file, terminated by 0; the caller frees it. Stops the program if it cannot be read. */
char *bite_csv_text(const char *path);

#endif
