/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A tool list as CSV: the first line names the columns by the symbols of ISO 13399, with their
 * units: DC [mm]. */
#include "core/library/tool_list_csv.h"
#include "core/base/error.h"
#include "core/base/nearest_name.h"
#include "core/base/text.h"
#include "core/tables/csv_fields.h"
#include <string.h>

enum column_use { COLUMN_SYMBOL, COLUMN_NAME, COLUMN_KIND, COLUMN_SUMMARY, COLUMN_PASSED_OVER };

typedef struct column {
    enum column_use use;
    const bite_tool_symbol *symbol;
    char title[BITE_TOOL_CELL_MAX]; /* without the unit */
    char unit[16];
} column;

typedef struct csv_reader {
    bite_tool_rows *rows;
    bite_csv csv;
    uint32_t row_line;
    column columns[BITE_TOOL_COLUMNS_MAX];
    size_t column_count;
} csv_reader;

static bite_status blame(const csv_reader *reader, const char *title, bite_error *error)
{
    return bite_tool_rows_blame(reader->rows, reader->row_line, "", title, error);
}

/* One field, without its quotes: borrowed from the file, or from copy. *last: it ends its record.
 */
static bite_status read_field(csv_reader *reader, char copy[BITE_CSV_FIELD_MAX], const char **text,
                              size_t *length, bool *last, bite_error *error)
{
    const char *wrong = bite_csv_next(&reader->csv, copy, text, length, last);
    if (wrong == NULL) {
        return BITE_OK;
    }
    bite_error_set(error, BITE_BAD_FILE, "%s", wrong);
    return blame(reader, "", error);
}

static const char *symbol_name_at(size_t at, const void *list)
{
    (void)list;
    return bite_tool_symbols[at].symbol;
}

/* "DC [mm]", "DC (mm)" or "DC" into title and unit. */
static bite_status split_title(const csv_reader *reader, const char *text, size_t length,
                               column *to, bite_error *error)
{
    length = bite_text_trim(&text, length);
    size_t title = 0;
    while (title < length && text[title] != '[' && text[title] != '(') {
        title++;
    }
    const char *unit = text + title;
    size_t unit_length = length - title;
    if (unit_length > 0) {
        if (unit_length < 3 || unit[unit_length - 1] != (unit[0] == '[' ? ']' : ')')) {
            bite_error_set(error, BITE_BAD_FILE,
                           "the unit of a column stands in brackets: DC [mm]");
            return bite_tool_rows_blame(reader->rows, 1, "", "", error);
        }
        unit++;
        unit_length -= 2;
    }
    bite_status status = bite_tool_rows_word(reader->rows, 1, "", unit, unit_length, to->unit,
                                             sizeof to->unit, error);
    return status != BITE_OK ? status
                             : bite_tool_rows_word(reader->rows, 1, "", text, title, to->title,
                                                   sizeof to->title, error);
}

static bite_status read_column(csv_reader *reader, const char *text, size_t length,
                               bite_error *error)
{
    static const struct {
        const char *title;
        enum column_use use;
    } words[] = {{"name", COLUMN_NAME}, {"kind", COLUMN_KIND}, {"summary", COLUMN_SUMMARY}};
    if (reader->column_count == BITE_TOOL_COLUMNS_MAX) {
        bite_error_set(error, BITE_BAD_FILE, "the list has more than %d columns",
                       BITE_TOOL_COLUMNS_MAX);
        return blame(reader, "", error);
    }
    column *to = &reader->columns[reader->column_count++];
    to->use = COLUMN_PASSED_OVER;
    length = bite_text_trim(&text, length);
    if (length > 0 && text[0] == '#') {
        return BITE_OK;
    }
    bite_status status = split_title(reader, text, length, to, error);
    if (status != BITE_OK) {
        return status;
    }
    for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
        if (bite_text_equals(words[i].title, to->title)) {
            to->use = words[i].use;
            return BITE_OK;
        }
    }
    to->use = COLUMN_SYMBOL;
    to->symbol = bite_tool_symbol_find(to->title, strlen(to->title));
    if (to->symbol == NULL) {
        const char *near =
            bite_text_nearest(to->title, bite_tool_symbol_count, symbol_name_at, NULL);
        bite_error_set(error, BITE_BAD_FILE, "there is no column named %.40s",
                       to->title[0] == 0 ? "\"\"" : to->title);
        bite_error_hint(error,
                        near == NULL
                            ? "a column whose title begins with # is passed over"
                            : "did you mean %s? A column whose title begins with # is passed over",
                        near);
        return blame(reader, "", error);
    }
    if (to->unit[0] == 0 && to->symbol->kind == BITE_KIND_ANGLE) {
        memcpy(to->unit, "deg", 4); /* angles have no other unit in ISO 13399 */
    } else if (to->unit[0] == 0 && to->symbol->kind == BITE_KIND_ROTATION) {
        memcpy(to->unit, "rpm", 4);
    }
    return BITE_OK;
}

static bite_status check_columns(const csv_reader *reader, bite_error *error)
{
    bool named = false;
    for (size_t i = 0; i < reader->column_count; i++) {
        const column *one = &reader->columns[i];
        named |= one->use == COLUMN_NAME;
        for (size_t k = 0; k < i && one->use != COLUMN_PASSED_OVER; k++) {
            if (reader->columns[k].use == one->use && reader->columns[k].symbol == one->symbol) {
                bite_error_set(error, BITE_BAD_FILE, "two columns are named %s", one->title);
                return blame(reader, "", error);
            }
        }
    }
    if (!named) {
        bite_error_set(error, BITE_BAD_FILE, "no column is named name");
        bite_error_hint(error,
                        "the first line names the columns: name,kind,DC [mm],ZEFP,APMX [mm]");
        return blame(reader, "", error);
    }
    return BITE_OK;
}

static bite_status read_head(csv_reader *reader, bite_error *error)
{
    bite_status status = BITE_OK;
    bool last = false;
    reader->row_line = 1;
    while (status == BITE_OK && !last) {
        char copy[BITE_CSV_FIELD_MAX];
        const char *text = NULL;
        size_t length = 0;
        status = read_field(reader, copy, &text, &length, &last, error);
        status = status == BITE_OK ? read_column(reader, text, length, error) : status;
    }
    return status == BITE_OK ? check_columns(reader, error) : status;
}

/* The summary is any text that a table may have in quotes. */
static bite_status set_summary(const csv_reader *reader, bite_tool_row *row, const char *text,
                               size_t length, bite_error *error)
{
    length = bite_text_trim(&text, length);
    bool bad = length >= sizeof row->summary;
    for (size_t i = 0; i < length && !bad; i++) {
        bad = (unsigned char)text[i] < 0x20 || text[i] == '"' || text[i] == '\\' ||
              (unsigned char)text[i] == 0x7f;
    }
    if (bad) {
        bite_error_set(error, BITE_BAD_FILE,
                       "a summary is at most %zu bytes without quotes and control characters",
                       sizeof row->summary - 1);
        return blame(reader, "summary", error);
    }
    memcpy(row->summary, text, length);
    row->summary[length] = 0;
    return BITE_OK;
}

static bite_status set_field(const csv_reader *reader, bite_tool_row *row, size_t index,
                             const char *text, size_t length, bite_error *error)
{
    const column *to = &reader->columns[index];
    switch (to->use) {
    case COLUMN_NAME:
        return bite_tool_rows_word(reader->rows, row->line, to->title, text, length, row->name,
                                   sizeof row->name, error);
    case COLUMN_KIND:
        return bite_tool_rows_word(reader->rows, row->line, to->title, text, length, row->kind,
                                   sizeof row->kind, error);
    case COLUMN_SUMMARY:
        return set_summary(reader, row, text, length, error);
    case COLUMN_SYMBOL:
        return bite_tool_row_set(reader->rows, row, to->symbol, to->title, text, length, to->unit,
                                 error);
    case COLUMN_PASSED_OVER:
        break;
    }
    return BITE_OK;
}

/* A record. *blank: it has no values, as the lines that a spreadsheet leaves behind. */
static bite_status read_record(csv_reader *reader, bite_tool_row *row, bool *blank,
                               bite_error *error)
{
    bool last = false;
    memset(row, 0, sizeof *row);
    row->line = reader->row_line = reader->csv.line;
    *blank = true;
    for (size_t i = 0; !last; i++) {
        char copy[BITE_CSV_FIELD_MAX];
        const char *text = NULL;
        size_t length = 0;
        bite_status status = read_field(reader, copy, &text, &length, &last, error);
        if (status != BITE_OK) {
            return status;
        }
        const char *value = text;
        bool empty = bite_text_trim(&value, length) == 0;
        *blank = *blank && empty;
        if (i >= reader->column_count) {
            if (empty) {
                continue;
            }
            bite_error_set(error, BITE_BAD_FILE, "the row has more values than there are columns");
            bite_error_hint(error,
                            "write a decimal point, not a comma, or put the value in quotes");
            return bite_tool_rows_blame(reader->rows, row->line, row->name, "", error);
        }
        status = set_field(reader, row, i, text, length, error);
        if (status != BITE_OK) {
            return status;
        }
    }
    return BITE_OK;
}

bite_status bite_tool_list_csv(bite_tool_rows *rows, const char *text, size_t size,
                               bite_error *error)
{
    csv_reader *reader = bite_memory_new(rows->allocator, 1, sizeof *reader);
    bite_tool_row *row = bite_memory_new(rows->allocator, 1, sizeof *row);
    bite_status status = BITE_OK;
    if (reader == NULL || row == NULL) {
        status = bite_error_set(error, BITE_NO_MEMORY, "no memory for a tool list");
    } else {
        reader->rows = rows;
        bite_csv_begin(&reader->csv, text, size);
        status = read_head(reader, error);
    }
    while (status == BITE_OK && reader->csv.at < reader->csv.end) {
        bool blank = false;
        status = read_record(reader, row, &blank, error);
        if (status == BITE_OK && !blank) {
            status = bite_tool_rows_add(rows, row, error);
        }
    }
    bite_memory_free(rows->allocator, row);
    bite_memory_free(rows->allocator, reader);
    return status;
}
