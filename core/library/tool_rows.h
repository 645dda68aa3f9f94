/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tools of a list that is no INI file, row by row: each becomes a [tool.NAME] of a table in
 * memory, so that its figures are checked as those of the tool table are. */
#ifndef BITE_LIBRARY_TOOL_ROWS_H
#define BITE_LIBRARY_TOOL_ROWS_H

#include "core/base/memory.h"
#include "core/library/tool_symbols.h"
#include <coolbite/coolbite.h>
#include <stddef.h>

#define BITE_TOOL_ROWS_MAX 2000
#define BITE_TOOL_CELL_MAX 64 /* bytes of a value, with the null */
#define BITE_TOOL_COLUMNS_MAX 64

/** A value of a row. */
typedef struct bite_tool_cell {
    const bite_tool_symbol *symbol;
    char column[BITE_TOOL_CELL_MAX]; /* as the list names it */
    char text[BITE_TOOL_CELL_MAX];   /* with its unit; "": not stated */
} bite_tool_cell;

/** One tool. */
typedef struct bite_tool_row {
    uint32_t line; /* in the list */
    char name[BITE_TOOL_CELL_MAX];
    char kind[BITE_TOOL_CELL_MAX]; /* "": by what is stated */
    char summary[160];             /* "": none */
    bite_tool_cell cells[BITE_TOOL_COLUMNS_MAX];
    size_t cell_count;
} bite_tool_row;

/** The text of the table in memory, and for each of its lines where it came from. */
typedef struct bite_tool_rows {
    const bite_allocator *allocator;
    const char *path; /* of the list, for messages */
    char *text;
    size_t size;
    size_t capacity;
    struct bite_tool_line {
        uint32_t line;
        char key[2 * BITE_TOOL_CELL_MAX]; /* "em-3-2:DC" */
    } * lines;
    size_t line_count;
    size_t line_capacity;
    size_t count; /* of the tools */
} bite_tool_rows;

/** Begins the table. BITE_NO_MEMORY. */
bite_status bite_tool_rows_begin(bite_tool_rows *rows, const bite_allocator *allocator,
                                 const char *path, bite_error *error);
void bite_tool_rows_end(bite_tool_rows *rows);

/** Adds a tool. BITE_BAD_FILE with file, line, name and column. */
bite_status bite_tool_rows_add(bite_tool_rows *rows, const bite_tool_row *row, bite_error *error);

/** Sets a value of a row, of each symbol once at most. unit: "" if the text has its own; it is
 * added to a bare number. length: of the text. */
bite_status bite_tool_row_set(const bite_tool_rows *rows, bite_tool_row *row,
                              const bite_tool_symbol *symbol, const char *column, const char *text,
                              size_t length, const char *unit, bite_error *error);

/** Fills in the place of a fault: the list, a line of it, and "NAME:COLUMN" or one of them. */
bite_status bite_tool_rows_blame(const bite_tool_rows *rows, uint32_t line, const char *name,
                                 const char *column, bite_error *error);

/** Copies a word or name of a list: printable ASCII without quotes and brackets. */
bite_status bite_tool_rows_word(const bite_tool_rows *rows, uint32_t line, const char *column,
                                const char *text, size_t length, char *to, size_t size,
                                bite_error *error);

#endif
