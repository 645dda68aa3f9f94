/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tools of a list that is no INI file, row by row, as the text of a table in memory. */
#include "core/library/tool_rows.h"
#include "core/base/error.h"
#include "core/base/text.h"
#include "core/tables/ini_check.h"
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#define LINE_MAX_BYTES 256

bite_status bite_tool_rows_blame(const bite_tool_rows *rows, uint32_t line, const char *name,
                                 const char *column, bite_error *error)
{
    if (error != NULL) {
        error->status = BITE_BAD_FILE;
    }
    bite_error_place(error, rows->path, line, 0);
    bite_error_key(error, "%s%s%s", name, name[0] != 0 && column[0] != 0 ? ":" : "", column);
    return BITE_BAD_FILE;
}

/* One line of the table in memory. column: that it came from; "": none. */
static bite_status put(bite_tool_rows *rows, const bite_tool_row *row, const char *column,
                       bite_error *error, const char *format, ...)
    __attribute__((format(printf, 5, 6)));

static bite_status put(bite_tool_rows *rows, const bite_tool_row *row, const char *column,
                       bite_error *error, const char *format, ...)
{
    char line[LINE_MAX_BYTES];
    va_list arguments;
    va_start(arguments, format);
    int length = vsnprintf(line, sizeof line, format, arguments);
    va_end(arguments);
    if (length < 0 || (size_t)length >= sizeof line) {
        bite_error_set(error, BITE_BAD_FILE, "the row is too long");
        return bite_tool_rows_blame(rows, row->line, row->name, column, error);
    }
    if (rows->size + (size_t)length + 1 > rows->capacity) {
        size_t capacity = 2 * rows->capacity + LINE_MAX_BYTES;
        char *text = bite_memory_grow(rows->allocator, rows->text, capacity, 1);
        if (text == NULL) {
            return bite_error_set(error, BITE_NO_MEMORY, "no memory for a tool list");
        }
        rows->text = text;
        rows->capacity = capacity;
    }
    if (rows->line_count == rows->line_capacity) {
        size_t capacity = 2 * rows->line_capacity + 64;
        struct bite_tool_line *lines =
            bite_memory_grow(rows->allocator, rows->lines, capacity, sizeof *lines);
        if (lines == NULL) {
            return bite_error_set(error, BITE_NO_MEMORY, "no memory for a tool list");
        }
        rows->lines = lines;
        rows->line_capacity = capacity;
    }
    memcpy(rows->text + rows->size, line, (size_t)length);
    rows->size += (size_t)length;
    rows->text[rows->size++] = '\n';
    struct bite_tool_line *from = &rows->lines[rows->line_count++];
    from->line = row->line;
    (void)snprintf(from->key, sizeof from->key, "%s%s%s", row->name, column[0] != 0 ? ":" : "",
                   column);
    return BITE_OK;
}

bite_status bite_tool_rows_begin(bite_tool_rows *rows, const bite_allocator *allocator,
                                 const char *path, bite_error *error)
{
    static const char *const head[] = {"[format]", "kind = tools", "version = 1"};
    bite_tool_row none = {0};
    memset(rows, 0, sizeof *rows);
    rows->allocator = allocator;
    rows->path = path;
    none.line = 1;
    bite_status status = BITE_OK;
    for (size_t i = 0; i < sizeof head / sizeof *head && status == BITE_OK; i++) {
        status = put(rows, &none, "", error, "%s", head[i]);
    }
    return status;
}

void bite_tool_rows_end(bite_tool_rows *rows)
{
    bite_memory_free(rows->allocator, rows->text);
    bite_memory_free(rows->allocator, rows->lines);
    memset(rows, 0, sizeof *rows);
}

bite_status bite_tool_rows_word(const bite_tool_rows *rows, uint32_t line, const char *column,
                                const char *text, size_t length, char *to, size_t size,
                                bite_error *error)
{
    length = bite_text_trim(&text, length);
    for (size_t i = 0; i < length; i++) {
        if (text[i] < 0x20 || text[i] > 0x7e || strchr("\"#;[]\\=", text[i]) != NULL) {
            bite_error_set(error, BITE_BAD_FILE,
                           "a value may have letters, digits and the signs of a quantity only");
            bite_error_hint(error, "ASCII without quotes, brackets, #, ; and =");
            return bite_tool_rows_blame(rows, line, "", column, error);
        }
    }
    if (length >= size) {
        bite_error_set(error, BITE_BAD_FILE, "%.20s... is too long: at most %zu bytes", text,
                       size - 1);
        return bite_tool_rows_blame(rows, line, "", column, error);
    }
    memcpy(to, text, length);
    to[length] = 0;
    return BITE_OK;
}

bite_status bite_tool_row_set(const bite_tool_rows *rows, bite_tool_row *row,
                              const bite_tool_symbol *symbol, const char *column, const char *text,
                              size_t length, const char *unit, bite_error *error)
{
    char value[BITE_TOOL_CELL_MAX];
    bite_status status =
        bite_tool_rows_word(rows, row->line, column, text, length, value, sizeof value, error);
    if (status != BITE_OK || value[0] == 0 || symbol->use == BITE_SYMBOL_NONE) {
        return status;
    }
    bite_tool_cell *cell = &row->cells[row->cell_count++];
    size_t size = strlen(value);
    bool bare = strspn(value, "0123456789.,+-/eE") == size; /* also 1/8 and 1-1/4 */
    cell->symbol = symbol;
    (void)snprintf(cell->column, sizeof cell->column, "%.60s", column);
    if ((size_t)snprintf(cell->text, sizeof cell->text, "%s%s%s", value,
                         bare && unit[0] != 0 ? " " : "", bare ? unit : "") >= sizeof cell->text) {
        bite_error_set(error, BITE_BAD_FILE, "the value is too long");
        return bite_tool_rows_blame(rows, row->line, row->name, column, error);
    }
    return BITE_OK;
}

/* ---- one tool as a section ---- */

static const bite_tool_cell *cell_of(const bite_tool_row *row, const char *key)
{
    for (size_t i = 0; i < row->cell_count; i++) {
        if (strcmp(row->cells[i].symbol->key, key) == 0) {
            return &row->cells[i];
        }
    }
    return NULL;
}

/* The number of a key in SI; NaN with BITE_OK: not stated. */
static bite_status number_of(const bite_tool_rows *rows, const bite_tool_row *row, const char *key,
                             double *number, bite_error *error)
{
    const bite_tool_cell *cell = cell_of(row, key);
    *number = (double)NAN;
    if (cell == NULL ||
        bite_quantity_read(cell->text, (bite_kind)cell->symbol->kind, number, error) == BITE_OK) {
        return BITE_OK;
    }
    return bite_tool_rows_blame(rows, row->line, row->name, cell->column, error);
}

static double right_angle(void)
{
    return acos(0.0);
}

/* The angle of a cone from its axis, by the lead of its edge; false: it is no angle. */
static bool read_taper(const bite_tool_cell *cell, double *taper, bite_error *error)
{
    double angle = 0.0;
    bool read = bite_quantity_read(cell->text, BITE_KIND_ANGLE, &angle, error) == BITE_OK;
    *taper = cell->symbol->use == BITE_SYMBOL_LEAD ? right_angle() - angle : angle;
    return read;
}

/* The edge of a plain end mill has no lead. */
static bool is_plain(double taper)
{
    return fabs(taper) < 1e-6;
}

static bool is_cone(const bite_tool_row *row)
{
    double taper = 0.0;
    const bite_tool_cell *cell = cell_of(row, "taper");
    return cell != NULL && !(read_taper(cell, &taper, NULL) && is_plain(taper));
}

/* Whether a row states what a kind of tool cannot be without. */
static bool states(const bite_tool_row *row, const char *key)
{
    return strcmp(key, "taper") == 0 ? is_cone(row) : cell_of(row, key) != NULL;
}

/* What the kind says beyond the sizes. */
static const struct kind_text {
    const char *kind;
    const char *line;  /* of the section; "": none */
    const char *needs; /* the key without which the kind means nothing; "": none */
    const char *named; /* that key, by its symbols */
} kind_texts[] = {
    {"end-mill", "", "", ""},
    {"ball-nose", "", "", ""},
    {"bull-nose", "", "corner_radius", "corner radius, RE"},
    {"chamfer", "", "taper", "cutting edge angle, KAPR"},
    {"engraving", "engraves = yes", "taper", "cutting edge angle, KAPR"},
    {"drill", "operation = drill", "", ""},
    {"tap", "operation = tap", "", ""},
    {"reamer", "operation = ream", "", ""},
    {"thread-mill", "thread_mill = yes", "pitch_most", "pitches, TPN and TPX, or TP"}};

/* Teeth that are longer than two pitches, of one pitch only, are those of a full-form mill. */
static bite_status put_form(bite_tool_rows *rows, const bite_tool_row *row, bite_error *error)
{
    double least = (double)NAN;
    double most = (double)NAN;
    double teeth = (double)NAN;
    bite_status status = number_of(rows, row, "pitch_least", &least, error);
    status = status == BITE_OK ? number_of(rows, row, "pitch_most", &most, error) : status;
    status = status == BITE_OK ? number_of(rows, row, "flute_length", &teeth, error) : status;
    least = isnan(least) ? most : least;
    if (status == BITE_OK && least > most * (1.0 + 1e-9)) {
        bite_error_set(error, BITE_BAD_FILE, "the least pitch, TPN, is above the largest, TPX");
        return bite_tool_rows_blame(rows, row->line, row->name, "TPN", error);
    }
    return status == BITE_OK && least >= most * (1.0 - 1e-9) && teeth >= 2.0 * most * (1.0 - 1e-9)
               ? put(rows, row, "kind", error, "full_form = yes")
               : status;
}

static bite_status put_kind(bite_tool_rows *rows, const bite_tool_row *row, bite_error *error)
{
    char words[120] = "";
    size_t used = 0;
    const char *kind =
        row->kind[0] == 0 && cell_of(row, "point_angle") != NULL ? "drill" : row->kind;
    double diameter = (double)NAN;
    if (kind[0] == 0) {
        return BITE_OK;
    }
    for (size_t i = 0; i < sizeof kind_texts / sizeof *kind_texts; i++) {
        const struct kind_text *text = &kind_texts[i];
        used += (size_t)snprintf(words + used, sizeof words - used, "%s%s", i > 0 ? ", " : "",
                                 text->kind);
        if (!bite_text_equals(text->kind, kind)) {
            continue;
        }
        if (text->needs[0] != 0 && !states(row, text->needs)) {
            bite_error_set(error, BITE_BAD_FILE, "a %s needs its %s", text->kind, text->named);
            return bite_tool_rows_blame(rows, row->line, row->name, "kind", error);
        }
        if (strcmp(text->kind, "ball-nose") == 0 && cell_of(row, "corner_radius") == NULL) {
            bite_status status = number_of(rows, row, "diameter", &diameter, error);
            return status != BITE_OK
                       ? status
                       : put(rows, row, "kind", error, "corner_radius = %.9g mm", 500.0 * diameter);
        }
        bite_status status =
            text->line[0] == 0 ? BITE_OK : put(rows, row, "kind", error, "%s", text->line);
        return status == BITE_OK && strcmp(text->kind, "thread-mill") == 0
                   ? put_form(rows, row, error)
                   : status;
    }
    bite_error_set(error, BITE_BAD_FILE, "there is no kind of tool named %.40s", kind);
    bite_error_hint(error, "one of %s", words);
    return bite_tool_rows_blame(rows, row->line, row->name, "kind", error);
}

/* Usable length: what is beyond the flutes is a neck if it has a diameter of its own. */
static bite_status put_reach(bite_tool_rows *rows, const bite_tool_row *row,
                             const bite_tool_cell *cell, bite_error *error)
{
    double flutes = 0.0;
    double usable = 0.0;
    bite_status status = number_of(rows, row, "flute_length", &flutes, error);
    status = status == BITE_OK ? number_of(rows, row, "neck_length", &usable, error) : status;
    if (status != BITE_OK || isnan(flutes) || cell_of(row, "neck_diameter") == NULL) {
        return status;
    }
    if (usable < flutes) {
        bite_error_set(error, BITE_BAD_FILE, "the usable length is shorter than the flutes, APMX");
        return bite_tool_rows_blame(rows, row->line, row->name, cell->column, error);
    }
    return usable == flutes ? BITE_OK
                            : put(rows, row, cell->column, error, "neck_length = %.9g mm",
                                  1000.0 * (usable - flutes));
}

static bite_status put_taper(bite_tool_rows *rows, const bite_tool_row *row,
                             const bite_tool_cell *cell, bite_error *error)
{
    double taper = 0.0;
    if (!read_taper(cell, &taper, error)) {
        return bite_tool_rows_blame(rows, row->line, row->name, cell->column, error);
    }
    return is_plain(taper) ? BITE_OK
                           : put(rows, row, cell->column, error, "taper = %.9g deg",
                                 90.0 * taper / right_angle());
}

/* The only pitch of a thread mill. */
static bite_status put_pitch(bite_tool_rows *rows, const bite_tool_row *row,
                             const bite_tool_cell *cell, bite_error *error)
{
    bite_status status = put(rows, row, cell->column, error, "pitch_most = %s", cell->text);
    return status != BITE_OK || cell_of(row, "pitch_least") != NULL
               ? status
               : put(rows, row, cell->column, error, "pitch_least = %s", cell->text);
}

/* Tool materials by the letters of ISO 513 and by the words of the tool table. */
static bite_status put_substrate(bite_tool_rows *rows, const bite_tool_row *row,
                                 const bite_tool_cell *cell, bite_error *error)
{
    static const struct {
        const char *word;
        const char *material;
    } words[] = {{"carbide", "carbide"}, {"HW", "carbide"},      {"HF", "carbide"},
                 {"HC", "carbide"},      {"HSS", "hss"},         {"HSS-E", "hss"},
                 {"HSS-PM", "hss"},      {"diamond", "diamond"}, {"DP", "diamond"}};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
        if (bite_text_equals(words[i].word, cell->text)) {
            return put(rows, row, cell->column, error, "tool_material = %s", words[i].material);
        }
    }
    bite_error_set(error, BITE_BAD_FILE, "%.40s is not a tool material that is known here",
                   cell->text);
    bite_error_hint(error, "one of carbide, HW, HF, HC, HSS, HSS-E, HSS-PM, diamond, DP");
    return bite_tool_rows_blame(rows, row->line, row->name, cell->column, error);
}

/* Of a cone DC is the diameter at the tip if DCX states the largest one, as of a chamfer mill. */
static bite_status put_diameter(bite_tool_rows *rows, const bite_tool_row *row,
                                const bite_tool_cell *cell, bite_error *error)
{
    bool cone = is_cone(row) && cell_of(row, "tip_diameter") != NULL;
    bool largest = cell->symbol->use == BITE_SYMBOL_LARGEST;
    if (largest && !cone) {
        return BITE_OK;
    }
    return put(rows, row, cell->column, error, "%s = %s",
               cone && !largest ? "tip_diameter" : "diameter", cell->text);
}

static bite_status put_cell(bite_tool_rows *rows, const bite_tool_row *row, size_t index,
                            bite_error *error)
{
    const bite_tool_cell *cell = &row->cells[index];
    for (size_t i = 0; i < index; i++) {
        /* effective and all flutes, lead from the face and from the axis: the first counts */
        if (strcmp(row->cells[i].symbol->key, cell->symbol->key) == 0) {
            return BITE_OK;
        }
    }
    switch (cell->symbol->use) {
    case BITE_SYMBOL_LARGEST:
        return put_diameter(rows, row, cell, error);
    case BITE_SYMBOL_REACH:
        return put_reach(rows, row, cell, error);
    case BITE_SYMBOL_LEAD:
    case BITE_SYMBOL_TAPER:
        return put_taper(rows, row, cell, error);
    case BITE_SYMBOL_PITCH:
        return put_pitch(rows, row, cell, error);
    case BITE_SYMBOL_SUBSTRATE:
        return put_substrate(rows, row, cell, error);
    default:
        return strcmp(cell->symbol->key, "diameter") == 0
                   ? put_diameter(rows, row, cell, error)
                   : put(rows, row, cell->column, error, "%s = %s", cell->symbol->key, cell->text);
    }
}

static bite_status check_row(const bite_tool_rows *rows, const bite_tool_row *row,
                             bite_error *error)
{
    char first = bite_text_lower(row->name[0]);
    if (!(first >= 'a' && first <= 'z')) {
        bite_error_set(error, BITE_BAD_FILE,
                       row->name[0] == 0 ? "the tool has no name"
                                         : "the name of a tool begins with a letter; what begins "
                                           "with a digit is a diameter");
        return bite_tool_rows_blame(rows, row->line, row->name, "name", error);
    }
    for (const char *c = row->name; *c != 0; c++) {
        if (*c == ' ' || *c == ',') {
            bite_error_set(error, BITE_BAD_FILE, "the name of a tool has no blanks and commas");
            bite_error_hint(error, "write - instead");
            return bite_tool_rows_blame(rows, row->line, row->name, "name", error);
        }
    }
    if (cell_of(row, "diameter") == NULL) {
        bite_error_set(error, BITE_BAD_FILE, "the tool has no cutting diameter, DC");
        return bite_tool_rows_blame(rows, row->line, row->name, "DC", error);
    }
    if (rows->count == BITE_TOOL_ROWS_MAX) {
        bite_error_set(error, BITE_BAD_FILE, "the list has more than %d tools", BITE_TOOL_ROWS_MAX);
        bite_error_hint(error, "keep those that are in use");
        return bite_tool_rows_blame(rows, row->line, row->name, "", error);
    }
    return BITE_OK;
}

bite_status bite_tool_rows_add(bite_tool_rows *rows, const bite_tool_row *row, bite_error *error)
{
    bite_status status = check_row(rows, row, error);
    char name[BITE_TOOL_CELL_MAX]; /* names are found whatever their case */
    for (size_t i = 0; i < sizeof name; i++) {
        name[i] = bite_text_lower(row->name[i]);
    }
    status = status == BITE_OK ? put(rows, row, "name", error, "[tool.%s]", name) : status;
    status =
        status == BITE_OK ? put(rows, row, "name", error, "title = \"%s\"", row->name) : status;
    status = status == BITE_OK
                 ? put(rows, row, "", error, "source = datasheet: line %u of the tool list",
                       (unsigned)row->line)
                 : status;
    if (status == BITE_OK && row->summary[0] != 0) {
        status = put(rows, row, "summary", error, "summary = \"%s\"", row->summary);
    }
    for (size_t i = 0; i < row->cell_count && status == BITE_OK; i++) {
        status = put_cell(rows, row, i, error);
    }
    status = status == BITE_OK ? put_kind(rows, row, error) : status;
    rows->count += status == BITE_OK;
    return status;
}
