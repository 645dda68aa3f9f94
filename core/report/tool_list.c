/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tools of the library as a list with their sizes: text in columns, JSON, and CSV with the
 * symbols of ISO 13399, which bite_library_open reads as a tool list. */
#include "core/base/caller_struct.h"
#include "core/base/error.h"
#include "core/base/number.h"
#include "core/base/text.h"
#include "core/library/collection.h"
#include "core/library/listing.h"
#include "core/library/tool_symbols.h"
#include "core/report/csv.h"
#include "core/report/json.h"
#include "core/report/style_check.h"
#include "core/report/text_page.h"
#include "core/request/tool_sizes.h"
#include "core/units/format_quantity.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define CELL_MAX 72

enum { NAME, DIAMETER, FLUTES, KIND, FLUTE_LENGTH, STICKOUT, COLUMNS };

static const char *const heads[COLUMNS] = {
    [NAME] = "name", [DIAMETER] = "diameter",         [FLUTES] = "flutes",
    [KIND] = "kind", [FLUTE_LENGTH] = "flute length", [STICKOUT] = "stick-out"};

static bool is_listed(const bite_tool_filter *filter, const bite_tool_sizes *tool)
{
    const double rounding = 1e-9; /* m: a bound is reached in spite of binary fractions */
    double diameter = tool->cut.diameter;
    return !(diameter < filter->diameter_least - rounding) &&
           !(filter->diameter_most != 0.0 && diameter > filter->diameter_most + rounding) &&
           (filter->kind == NULL || bite_text_equals(filter->kind, tool->kind));
}

/* The next tool that is listed, from *at on. BITE_OK with record NULL: no more. */
static bite_status next_tool(const bite_library *library, const bite_tool_filter *filter,
                             size_t count, size_t *at, bite_tool_sizes *tool, bite_error *error)
{
    tool->record = NULL;
    while (*at < count) {
        bite_item item;
        const bite_item_record *record = NULL;
        bite_status status = bite_library_item(library, BITE_TOOLS, (*at)++, &item, error);
        status = status != BITE_OK
                     ? status
                     : bite_library_record(library, BITE_TOOLS, item.name, &record, error);
        if (status != BITE_OK) {
            return status;
        }
        bite_tool_sizes_read(record, tool);
        if (is_listed(filter, tool)) {
            return BITE_OK;
        }
    }
    tool->record = NULL;
    return BITE_OK;
}

static void cell(bite_page *page, const bite_tool_sizes *tool, int column, char text[CELL_MAX])
{
    char number[40];
    double lengths[COLUMNS] = {[DIAMETER] = tool->cut.diameter,
                               [FLUTE_LENGTH] = tool->cut.flute_length,
                               [STICKOUT] = tool->cut.stickout};
    bool usual[COLUMNS] = {[FLUTES] = tool->usual_flutes,
                           [FLUTE_LENGTH] = tool->usual_length,
                           [STICKOUT] = tool->usual_stickout};
    switch (column) {
    case NAME:
        (void)snprintf(text, CELL_MAX, "%.64s", tool->record->name);
        break;
    case KIND:
        (void)snprintf(text, CELL_MAX, "%s", tool->kind);
        break;
    case FLUTES:
        (void)snprintf(text, CELL_MAX, "%.0f%s", tool->cut.flutes, usual[column] ? "*" : "");
        break;
    default:
        bite_page_quantity(page, lengths[column], BITE_KIND_LENGTH, number, sizeof number);
        (void)snprintf(text, CELL_MAX, "%s%s", number, usual[column] ? "*" : "");
        break;
    }
}

/* ---- text ---- */

/* On a narrow page: what the columns would show, in a sentence beside the name. */
static void write_sentence(bite_page *page, const bite_tool_sizes *tool)
{
    char cells[COLUMNS][CELL_MAX];
    char line[6 * CELL_MAX];
    for (int i = 0; i < COLUMNS; i++) {
        cell(page, tool, i, cells[i]);
    }
    (void)snprintf(line, sizeof line, "%s, %s flute%s, %s, %s long, stick-out %s", cells[DIAMETER],
                   cells[FLUTES], tool->cut.flutes > 1.0 ? "s" : "", cells[KIND],
                   cells[FLUTE_LENGTH], cells[STICKOUT]);
    (void)strncat(cells[NAME], "  ", CELL_MAX - strlen(cells[NAME]) - 1);
    bite_page_column(page, cells[NAME], 24, line);
}

static void write_row(bite_page *page, char cells[COLUMNS][CELL_MAX], const size_t *widths)
{
    for (int i = 0; i < COLUMNS; i++) {
        if (i == COLUMNS - 1) {
            bite_page_line(page, cells[i]);
        } else {
            bite_page_pad(page, cells[i], widths[i] + 2);
        }
    }
}

static bite_status write_text(bite_page *page, const bite_library *library,
                              const bite_tool_filter *filter, size_t count, bite_error *error)
{
    char cells[COLUMNS][CELL_MAX];
    size_t widths[COLUMNS];
    size_t whole = 2 * (COLUMNS - 1);
    size_t listed = 0;
    bool starred = false;
    bite_tool_sizes tool;
    for (int i = 0; i < COLUMNS; i++) {
        widths[i] = strlen(heads[i]);
    }
    for (int writing = 0; writing < 2; writing++) {
        bite_status status = BITE_OK;
        for (size_t at = 0;;) {
            status = next_tool(library, filter, count, &at, &tool, error);
            if (status != BITE_OK || tool.record == NULL) {
                break;
            }
            for (int i = 0; i < COLUMNS; i++) {
                cell(page, &tool, i, cells[i]);
                size_t width = bite_text_columns(cells[i], strlen(cells[i]));
                widths[i] = width > widths[i] ? width : widths[i];
            }
            starred |= tool.usual_flutes || tool.usual_length || tool.usual_stickout;
            listed++;
            if (writing && whole <= page->columns) {
                write_row(page, cells, widths);
            } else if (writing) {
                write_sentence(page, &tool);
            }
        }
        if (status != BITE_OK) {
            return status;
        }
        if (listed == 0) {
            bite_page_line(page, "nothing");
            return BITE_OK;
        }
        for (int i = 0; i < COLUMNS && !writing; i++) {
            whole += widths[i];
            (void)snprintf(cells[i], CELL_MAX, "%s", heads[i]);
        }
        if (!writing && whole <= page->columns) {
            write_row(page, cells, widths);
        }
    }
    if (starred) {
        bite_page_line(page, "* by default");
    }
    return BITE_OK;
}

/* ---- JSON ---- */

static const bite_field_value *stated(const bite_tool_sizes *tool, const char *key)
{
    return bite_item_field(tool->record, key);
}

/* One object a line, as bite_library_list_write writes it, with the sizes in m and rad. */
static bool write_object(bite_page *page, const bite_tool_sizes *tool, bool first)
{
    json_t *entry = json_object();
    int failed = entry == NULL;
    failed |= bite_json_text(entry, "name", tool->record->name);
    failed |= bite_json_text(entry, "summary", tool->record->summary);
    failed |= bite_json_text(entry, "more", tool->record->file);
    failed |= bite_json_text(entry, "kind", tool->kind);
    failed |= bite_json_put(entry, "diameter", bite_json_number(tool->cut.diameter));
    failed |= bite_json_put(entry, "flutes", bite_json_number(tool->cut.flutes));
    failed |= bite_json_put(entry, "flute_length", bite_json_number(tool->cut.flute_length));
    failed |= bite_json_put(entry, "stickout", bite_json_number(tool->cut.stickout));
    failed |= bite_json_put(entry, "corner_radius", bite_json_number(tool->cut.corner_radius));
    failed |= bite_json_put(entry, "taper", bite_json_number(tool->cut.taper));
    failed |= bite_json_put(entry, "pitch_least",
                            bite_json_number(bite_item_figure(tool->record, "pitch_least")));
    failed |= bite_json_put(entry, "pitch_most",
                            bite_json_number(bite_item_figure(tool->record, "pitch_most")));
    failed |= bite_json_put(entry, "full_form",
                            json_boolean(bite_item_is_yes(tool->record, "full_form")));
    if (failed) {
        json_decref(entry);
        return false;
    }
    return bite_json_list_entry(page, entry, first);
}

/* ---- CSV ---- */

/* The symbols that are written: what the tool table can state, each once. */
static const char *const symbols[] = {"DC", "DCX", "ZEFP", "APMX", "LU",  "DN",  "DCONMS",   "LPR",
                                      "RE", "FHA", "SIG",  "KAPR", "TPN", "TPX", "SUBSTRATE"};
enum { SYMBOLS = sizeof symbols / sizeof *symbols };

static void write_csv_head(bite_page *page)
{
    bite_page_text(page, "name,kind");
    for (size_t i = 0; i < SYMBOLS; i++) {
        const bite_tool_symbol *symbol = bite_tool_symbol_find(symbols[i], strlen(symbols[i]));
        double ignored = 0.0;
        const char *unit =
            symbol->use == BITE_SYMBOL_SUBSTRATE
                ? ""
                : bite_unit_fixed(1.0, (bite_kind)symbol->kind, page->units, &ignored);
        char text[40];
        (void)snprintf(text, sizeof text, unit[0] == 0 ? ",%s" : ",%s [%s]", symbols[i], unit);
        bite_page_text(page, text);
    }
    bite_page_text(page, "\r\n");
}

/* The number of a symbol as the table states it; NaN: not stated. */
static double number_of(const bite_tool_sizes *tool, const bite_tool_symbol *symbol)
{
    const bite_field_value *value = stated(tool, symbol->key);
    const bite_field_value *tip =
        stated(tool, "taper") == NULL ? NULL : stated(tool, "tip_diameter");
    if (symbol->use == BITE_SYMBOL_LARGEST) { /* of a cone, whose DC is that of its tip */
        return tip == NULL ? (double)NAN : tool->cut.diameter;
    }
    if (value == NULL) {
        return (double)NAN;
    }
    return strcmp(symbol->key, "diameter") == 0 && tip != NULL ? tip->value
           : symbol->use == BITE_SYMBOL_REACH ? tool->cut.flute_length + value->value
           : symbol->use == BITE_SYMBOL_LEAD  ? 0.5 * acos(-1.0) - value->value
                                              : value->value;
}

static void write_csv_row(bite_page *page, const bite_tool_sizes *tool)
{
    bite_csv_field(page, 1, tool->record->name);
    bite_csv_field(page, 0, tool->kind);
    for (size_t i = 0; i < SYMBOLS; i++) {
        const bite_tool_symbol *symbol = bite_tool_symbol_find(symbols[i], strlen(symbols[i]));
        char text[40] = "";
        double si = number_of(tool, symbol);
        double number = 0.0;
        if (symbol->use == BITE_SYMBOL_SUBSTRATE) {
            bite_csv_field(page, 0, bite_item_text(tool->record, symbol->key));
            continue;
        }
        if (isfinite(si)) {
            (void)bite_unit_fixed(si, (bite_kind)symbol->kind, page->units, &number);
            (void)bite_number_write(number, 8, text, sizeof text);
        }
        bite_csv_field(page, 0, text);
    }
    bite_csv_end(page);
}

static bite_status write_records(bite_page *page, const bite_library *library,
                                 const bite_tool_filter *filter, size_t count, uint32_t format,
                                 bite_error *error)
{
    bite_tool_sizes tool;
    size_t listed = 0;
    if (format == BITE_CSV) {
        write_csv_head(page);
    }
    for (size_t at = 0;; listed++) {
        bite_status status = next_tool(library, filter, count, &at, &tool, error);
        if (status != BITE_OK) {
            return status;
        }
        if (tool.record == NULL) {
            break;
        }
        if (format == BITE_CSV) {
            write_csv_row(page, &tool);
        } else if (!write_object(page, &tool, listed == 0)) {
            return bite_error_set(error, BITE_NO_MEMORY, "no memory for the JSON text");
        }
    }
    if (format == BITE_JSON) {
        bite_json_list_end(page, listed == 0);
    }
    return BITE_OK;
}

static bite_status check_filter(const bite_library *library, const bite_tool_filter *filter,
                                bite_error *error)
{
    if (library == NULL) {
        return bite_error_set(error, BITE_BAD_ARGUMENT, "an open library was expected");
    }
    if (filter->kind == NULL) {
        return BITE_OK;
    }
    char words[160] = "";
    size_t used = 0;
    const char *kind = bite_tool_kind_at(0);
    for (size_t i = 0; kind != NULL; kind = bite_tool_kind_at(++i)) {
        if (bite_text_equals(kind, filter->kind)) {
            return BITE_OK;
        }
        used +=
            (size_t)snprintf(words + used, sizeof words - used, "%s%s", i > 0 ? ", " : "", kind);
    }
    bite_error_set(error, BITE_UNKNOWN_NAME, "there is no kind of tool named %.40s", filter->kind);
    bite_error_key(error, "kind");
    bite_error_hint(error, "one of %s", words);
    return BITE_UNKNOWN_NAME;
}

bite_status bite_tool_list_write(const bite_library *library, const bite_tool_filter *given,
                                 const bite_style *style, bite_sink sink, void *user,
                                 bite_error *error)
{
    bite_page page;
    size_t count = 0;
    uint32_t format = style == NULL ? BITE_TEXT : style->format;
    bite_tool_filter own_filter;
    const bite_tool_filter *filter = &own_filter;
    bite_error_clear(error);
    bite_status status =
        bite_struct_read(&bite_struct_tool_filter, given, &own_filter, "filter", error);
    status = status != BITE_OK ? status : check_filter(library, filter, error);
    if (status == BITE_OK) {
        status = bite_style_check(style, sink,
                                  BITE_STYLE_FORMAT(BITE_TEXT) | BITE_STYLE_FORMAT(BITE_JSON) |
                                      BITE_STYLE_FORMAT(BITE_CSV),
                                  error);
    }
    if (status != BITE_OK) {
        return status;
    }
    bite_style own = bite_style_copy(style);
    own.format = BITE_TEXT; /* the page knows no CSV */
    if (!bite_page_open(&page, &own, sink, user, error)) {
        return BITE_BAD_ARGUMENT;
    }
    status = bite_library_size(library, BITE_TOOLS, &count, error);
    if (status == BITE_NO_MEMORY) { /* tables that cannot be read are listed as left out */
        return status;
    }
    status = format == BITE_TEXT ? write_text(&page, library, filter, count, error)
                                 : write_records(&page, library, filter, count, format, error);
    return status == BITE_OK ? bite_page_close(&page, error) : status;
}
