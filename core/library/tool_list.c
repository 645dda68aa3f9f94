/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A tool list as a file: told apart by how it begins, and read as a table of tools. */
#include "core/library/tool_list.h"
#include "core/base/error.h"
#include "core/base/file.h"
#include "core/library/library_internal.h"
#include "core/library/schema.h"
#include "core/library/tool_list_csv.h"
#include "core/library/tool_list_mtconnect.h"
#include "core/library/tool_rows.h"
#include "core/tables/ini_check.h"
#include <stdio.h>
#include <string.h>

/* The line of the list from which a line of the table in memory was made. */
static void place_fault(const bite_tool_rows *rows, bite_error *error)
{
    if (error == NULL || error->line == 0 || error->line > rows->line_count) {
        return;
    }
    const struct bite_tool_line *from = &rows->lines[error->line - 1];
    bite_error_place(error, rows->path, from->line, 0);
    bite_error_key(error, "%s", from->key);
}

static bite_status read_rows(const bite_allocator *allocator, const char *path, const char *text,
                             size_t size, bool markup, bite_table **table, bite_error *error)
{
    bite_tool_rows rows;
    bite_status status = bite_tool_rows_begin(&rows, allocator, path, error);
    if (status == BITE_OK) {
        status = markup ? bite_tool_list_mtconnect(&rows, text, size, error)
                        : bite_tool_list_csv(&rows, text, size, error);
    }
    if (status == BITE_OK && rows.count == 0) {
        bite_error_set(error, BITE_BAD_FILE, "the list has no tools");
        status = bite_tool_rows_blame(&rows, 1, "", "", error);
    }
    if (status == BITE_OK) {
        status = bite_table_parse(allocator, rows.text, rows.size, path,
                                  &bite_collection_file_at(COLLECTION_TOOLS)->schema, NULL, NULL,
                                  table, error);
        if (status != BITE_OK) {
            place_fault(&rows, error);
        }
    }
    bite_tool_rows_end(&rows);
    return status;
}

bite_status bite_tool_list_open(const bite_allocator *allocator, const char *path,
                                bite_table **table, bite_error *error)
{
    char *bytes = NULL;
    size_t size = 0;
    bite_status status = bite_file_read(allocator, path, BITE_INI_SIZE_MAX, &bytes, &size, error);
    if (status != BITE_OK) {
        return status;
    }
    const char *text = bytes;
    size_t left = size;
    if (left >= 3 && memcmp(text, "\xef\xbb\xbf", 3) == 0) {
        text += 3;
        left -= 3;
    }
    size_t blank = 0;
    while (blank < left && strchr(" \t\r\n", text[blank]) != NULL && text[blank] != 0) {
        blank++;
    }
    char first = blank < left ? text[blank] : ' ';
    if (memchr(bytes, 0, size) != NULL) {
        bite_error_set(error, BITE_BAD_FILE, "it is not text: it has a byte 0");
        bite_error_place(error, path, 0, 0);
        status = BITE_BAD_FILE;
    } else if (first == '[' || first == '#' || first == ';') {
        status = bite_table_parse(allocator, bytes, size, path,
                                  &bite_collection_file_at(COLLECTION_TOOLS)->schema, NULL, NULL,
                                  table, error);
    } else {
        status = read_rows(allocator, path, text, left, first == '<', table, error);
    }
    bite_memory_free(allocator, bytes);
    return status;
}
