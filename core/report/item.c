/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One item of the library in full, or two side by side: every figure with its band, unit, source,
 * grade and file. */
#include "core/library/item.h"
#include "core/base/error.h"
#include "core/library/alias.h"
#include "core/library/collection.h"
#include "core/library/material.h"
#include "core/report/compatibility.h"
#include "core/report/json.h"
#include "core/report/text_page.h"
#include "core/tables/provenance.h"
#include "core/tables/typed_table.h"
#include "core/units/unit_table.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

#define FILES_MOST 16 /* that are listed; a figure of another one has no number */

/* "105 degC (101 to 110)": the unit once if all three numbers have the same. */
static void figure_text(bite_page *page, const bite_field_value *field_value, char *to, size_t size)
{
    char value[48];
    char low[48];
    char high[48];
    bite_kind kind = (bite_kind)field_value->field->kind;
    bite_page_quantity(page, field_value->value, kind, value, sizeof value);
    if (!(field_value->low < field_value->high)) {
        (void)snprintf(to, size, "%s", value);
        return;
    }
    bite_page_quantity(page, field_value->low, kind, low, sizeof low);
    bite_page_quantity(page, field_value->high, kind, high, sizeof high);
    size_t units[3] = {strcspn(value, " %"), strcspn(low, " %"), strcspn(high, " %")};
    int same = strcmp(value + units[0], low + units[1]) == 0 &&
               strcmp(value + units[0], high + units[2]) == 0;
    (void)snprintf(to, size, "%s (%.*s to %.*s)", value, (int)(same ? units[1] : sizeof low), low,
                   (int)(same ? units[2] : sizeof high), high);
}

static void curve_text(bite_page *page, const bite_field_value *field_value, char *to, size_t size)
{
    to[0] = 0;
    for (uint32_t i = 0; i < field_value->curve.count; i++) {
        char at[48];
        char value[48];
        size_t used = strlen(to);
        bite_page_quantity(page, field_value->curve.temperature[i], BITE_KIND_TEMPERATURE, at,
                           sizeof at);
        bite_page_quantity(page, field_value->curve.value[i], (bite_kind)field_value->field->kind,
                           value, sizeof value);
        (void)snprintf(to + used, size - used, "%s%s at %s", used > 0 ? ", " : "", value, at);
    }
}

static void value_text(bite_page *page, const bite_field_value *field_value, char *to, size_t size)
{
    switch (field_value->field->type) {
    case BITE_FIELD_FIGURE:
        figure_text(page, field_value, to, size);
        break;
    case BITE_FIELD_CURVE:
        curve_text(page, field_value, to, size);
        break;
    case BITE_FIELD_WORD:
        (void)snprintf(to, size, "%s", field_value->field->words[field_value->word]);
        break;
    default:
        (void)snprintf(to, size, "%s", field_value->text);
        break;
    }
}

/* The files that the figures of a record are from. */
typedef struct file_list {
    const char *files[FILES_MOST];
    size_t count;
} file_list;

/* The index of a file in the list; 0, the record's own, if it is not in it. */
static size_t file_number(const file_list *files, const char *file)
{
    for (size_t i = 0; file != NULL && i < files->count; i++) {
        if (strcmp(files->files[i], file) == 0) {
            return i;
        }
    }
    return 0;
}

static file_list files_of(const bite_item_record *record)
{
    file_list list = {{record->file}, 1};
    for (size_t i = 0; i < record->value_count; i++) {
        const char *file = record->values[i].file;
        if (file != NULL && list.count < FILES_MOST && strcmp(file, record->file) != 0 &&
            file_number(&list, file) == 0) {
            list.files[list.count++] = file;
        }
    }
    return list;
}

static void file_lines(bite_page *page, const file_list *files)
{
    for (size_t i = 0; i < files->count; i++) {
        char first[20];
        (void)snprintf(first, sizeof first, i == 0 ? "  file " : "  file [%zu] ", i + 1);
        bite_page_wrap(page, first, "    ", files->files[i]);
    }
}

static void value_line(bite_page *page, const file_list *files, const bite_field_value *field_value,
                       int sources)
{
    char text[600];
    char first[48];
    value_text(page, field_value, text, sizeof text);
    (void)snprintf(first, sizeof first, "  %-21s ", field_value->field->name);
    bite_page_wrap(page, first, "                        ", text);
    if (sources && field_value->source != NULL && field_value->source[0] != 0) {
        char source[1200];
        size_t file = file_number(files, field_value->file);
        (void)snprintf(source, sizeof source, file == 0 ? "%s" : "%s [%zu]", field_value->source,
                       file + 1);
        bite_page_wrap(page, "      ", "        ", source);
    }
}

static json_t *value_json(const bite_item_record *record, const bite_field_value *field_value)
{
    json_t *object = json_object();
    if (object == NULL) {
        return NULL;
    }
    bite_source_grade grade = (bite_source_grade)field_value->grade;
    const char *where = field_value->source == NULL ? "" : field_value->source;
    (void)bite_source_read(where, &grade, &where);
    int figure = field_value->field->type == BITE_FIELD_FIGURE;
    int failed = bite_json_text(object, "name", field_value->field->name);
    failed |=
        bite_json_put(object, "value", bite_json_number(figure ? field_value->value : (double)NAN));
    failed |=
        bite_json_put(object, "low", bite_json_number(figure ? field_value->low : (double)NAN));
    failed |=
        bite_json_put(object, "high", bite_json_number(figure ? field_value->high : (double)NAN));
    failed |= bite_json_text(object, "unit",
                             figure || field_value->field->type == BITE_FIELD_CURVE
                                 ? bite_unit_si((bite_kind)field_value->field->kind)
                                 : "");
    failed |= bite_json_text(object, "text",
                             field_value->field->type == BITE_FIELD_WORD
                                 ? field_value->field->words[field_value->word]
                                 : field_value->text);
    failed |= bite_json_text(object, "grade", bite_source_grade_name(grade));
    failed |= bite_json_text(object, "source", where);
    failed |= bite_json_text(object, "from", field_value->from == NULL ? "" : field_value->from);
    failed |= bite_json_text(object, "file",
                             field_value->file == NULL ? record->file : field_value->file);
    if (failed) {
        json_decref(object);
        return NULL;
    }
    return object;
}

/* NULL: no memory. */
static json_t *item_object(const bite_item_record *record, const bite_material *material)
{
    json_t *root = json_object();
    json_t *figures = json_array();
    int failed = root == NULL || figures == NULL;
    for (size_t i = 0; !failed && i < record->value_count; i++) {
        json_t *figure = value_json(record, &record->values[i]);
        failed = figure == NULL || json_array_append_new(figures, figure) != 0;
    }
    if (!failed) {
        failed |= bite_json_text(root, "name", record->name);
        failed |= bite_json_text(root, "title", record->title);
        failed |= bite_json_text(root, "summary", record->summary);
        failed |= bite_json_text(root, "file", record->file);
        failed |= bite_json_text(root, "plugin", material == NULL ? "" : material->plugin);
        failed |= bite_json_text(root, "remark", material == NULL ? "" : material->remark);
        failed |= bite_json_put(root, "figures", json_incref(figures));
    }
    json_decref(figures);
    if (failed) {
        json_decref(root);
        root = NULL;
    }
    return root;
}

static void item_text(bite_page *page, const bite_item_record *record,
                      const bite_material *material, int sources)
{
    const file_list files = files_of(record);
    bite_page_tint(page, 4, record->name);
    bite_page_wrap(page, "  ", "    ", record->summary == NULL ? "" : record->summary);
    file_lines(page, &files);
    if (material != NULL && material->plugin != NULL && material->plugin[0] != 0) {
        bite_page_wrap(page, "  plugin ", "    ", material->plugin);
    }
    if (material != NULL && material->remark[0] != 0) {
        bite_page_wrap(page, "  plugin: ", "    ", material->remark);
    }
    for (size_t i = 0; i < record->value_count; i++) {
        value_line(page, &files, &record->values[i], sources);
    }
    for (size_t i = 0; material != NULL && i < material->rule_count; i++) {
        char first[80];
        static const char *const severities[] = {"", "note", "care", "danger"};
        (void)snprintf(first, sizeof first, "  caution %s (%s): ", material->rules[i].name,
                       severities[material->rules[i].severity & 3]);
        bite_page_wrap(page, first, "    ", material->rules[i].text);
        bite_page_wrap(page, "    when ", "      ",
                       material->rules[i].when[0] == 0 ? "always" : material->rules[i].when);
    }
}

/* Finds an item of any collection; *material stays NULL unless the item is a grade or a family. */
static bite_status find(const bite_library *library, bite_collection collection, const char *name,
                        const bite_item_record **record, const bite_material **material,
                        bite_error *error)
{
    *material = NULL;
    if (collection != BITE_GRADES && collection != BITE_FAMILIES) {
        return collection == BITE_FLUIDS || collection == BITE_SYMPTOMS
                   ? bite_library_record_also(library, collection, name, record, error)
                   : bite_library_record(library, collection, name, record, error);
    }
    bite_status status = bite_library_grade(library, name, material, error);
    *record = status == BITE_OK ? &(*material)->record : NULL;
    return status;
}

bite_status bite_library_show(const bite_library *library, bite_collection collection,
                              const char *name, const bite_style *style, bite_sink sink, void *user,
                              bite_error *error)
{
    bite_error_clear(error);
    bite_page page;
    const bite_material *material = NULL;
    const bite_item_record *record = NULL;
    if (library == NULL || name == NULL) {
        return bite_error_set(error, BITE_BAD_ARGUMENT, "an open library and a name were expected");
    }
    if (!bite_page_open(&page, style, sink, user, error)) {
        return BITE_BAD_ARGUMENT;
    }
    bite_status status = find(library, collection, name, &record, &material, error);
    if (status != BITE_OK) {
        return status;
    }
    if (style != NULL && style->format == BITE_JSON) {
        json_t *root = item_object(record, material);
        json_t *fluids = NULL;
        if (collection == BITE_GRADES && root != NULL) {
            status = bite_material_fluids_json(library, material, &fluids, error);
            if (status != BITE_OK || bite_json_put(root, "fluids", fluids) != 0) {
                json_decref(root);
                root = NULL;
            }
        }
        return status != BITE_OK ? status : bite_json_write(root, page.compact, sink, user, error);
    }
    item_text(&page, record, material, style == NULL || style->sources != 0);
    if (collection == BITE_GRADES) {
        status = bite_material_fluids_text(&page, library, material, error);
    } else if (collection == BITE_FLUIDS) {
        char more[160];
        (void)snprintf(more, sizeof more, "coolbite show %.60s --material NAME", record->name);
        bite_page_wrap(&page, "  on a material: ", "    ", more);
    }
    return status != BITE_OK ? status : bite_page_close(&page, error);
}

/* ---- two side by side ---- */

#define NAME_COLUMNS 23

/* The number of bytes of the text that fill the next line of this many columns, in whole words if
 * possible. */
static size_t line_length(const char *text, size_t columns)
{
    size_t best = 0;
    for (size_t at = 0; text[at] != 0;) {
        size_t word = at + strcspn(text + at, " ");
        if (bite_text_columns(text, word) > columns) {
            break;
        }
        best = word;
        at = word + strspn(text + word, " ");
    }
    if (best > 0 || text[0] == 0) {
        return best;
    }
    /* a word that is too long is cut, but not within a UTF-8 character */
    return bite_text_columns(text, columns) == columns ? columns : strcspn(text, " ");
}

static void pair_lines(bite_page *page, const char *name, const char *first, const char *second)
{
    size_t columns = (page->columns - NAME_COLUMNS - 1) / 2;
    do {
        char part[600];
        size_t a = line_length(first, columns);
        size_t b = line_length(second, columns);
        (void)snprintf(part, sizeof part, "%.*s", (int)a, first);
        bite_page_pad(page, name, NAME_COLUMNS);
        if (b == 0) {
            bite_page_line(page, part);
        } else {
            bite_page_pad(page, part, columns);
            (void)snprintf(part, sizeof part, " %.*s", (int)b, second);
            bite_page_line(page, part);
        }
        first += a + strspn(first + a, " ");
        second += b + strspn(second + b, " ");
        name = "";
    } while (*first != 0 || *second != 0);
}

static const char *source_of(const bite_field_value *field_value)
{
    return field_value == NULL || field_value->source == NULL ? "" : field_value->source;
}

static void pair_values(bite_page *page, const bite_field_value *first,
                        const bite_field_value *second, int sources)
{
    char a[600] = "-";
    char b[600] = "-";
    char name[48];
    const bite_field_value *any = first != NULL ? first : second;
    if (first != NULL) {
        value_text(page, first, a, sizeof a);
    }
    if (second != NULL) {
        value_text(page, second, b, sizeof b);
    }
    (void)snprintf(name, sizeof name, "%s %s", strcmp(a, b) == 0 ? " " : "*", any->field->name);
    pair_lines(page, name, a, b);
    if (sources && strcmp(source_of(first), source_of(second)) == 0) {
        bite_page_wrap(page, "      both: ", "        ", source_of(first));
    } else if (sources) {
        bite_page_wrap(page, "      first: ", "        ", source_of(first));
        bite_page_wrap(page, "      second: ", "        ", source_of(second));
    }
}

static const bite_field_value *same_value(const bite_item_record *record,
                                          const bite_field_value *field_value)
{
    for (size_t i = 0; i < record->value_count; i++) {
        if (strcmp(record->values[i].field->name, field_value->field->name) == 0) {
            return &record->values[i];
        }
    }
    return NULL;
}

static void pair_text(bite_page *page, const bite_item_record *first,
                      const bite_item_record *second, int sources)
{
    pair_lines(page, "* differs", first->name, second->name);
    for (size_t i = 0; i < first->value_count; i++) {
        pair_values(page, &first->values[i], same_value(second, &first->values[i]), sources);
    }
    for (size_t i = 0; i < second->value_count; i++) {
        if (same_value(first, &second->values[i]) == NULL) {
            pair_values(page, NULL, &second->values[i], sources);
        }
    }
}

static json_t *pair_object(json_t *first, json_t *second)
{
    json_t *root = json_object();
    int failed = root == NULL;
    failed |= bite_json_put(root, "first", first);
    failed |= bite_json_put(root, "second", second);
    if (failed) {
        json_decref(root);
        root = NULL;
    }
    return root;
}

bite_status bite_library_compare(const bite_library *library, bite_collection collection,
                                 const char *first, const char *second, const bite_style *style,
                                 bite_sink sink, void *user, bite_error *error)
{
    bite_error_clear(error);
    bite_page page;
    const bite_item_record *items[2] = {NULL, NULL};
    const bite_material *materials[2] = {NULL, NULL};
    if (library == NULL || first == NULL || second == NULL) {
        return bite_error_set(error, BITE_BAD_ARGUMENT,
                              "an open library and two names were expected");
    }
    if (!bite_page_open(&page, style, sink, user, error)) {
        return BITE_BAD_ARGUMENT;
    }
    bite_status status = find(library, collection, first, &items[0], &materials[0], error);
    status = status != BITE_OK ? status
                               : find(library, collection, second, &items[1], &materials[1], error);
    if (status != BITE_OK) {
        return status;
    }
    if (style != NULL && style->format == BITE_JSON) {
        json_t *pair =
            pair_object(item_object(items[0], materials[0]), item_object(items[1], materials[1]));
        return bite_json_write(pair, page.compact, sink, user, error);
    }
    pair_text(&page, items[0], items[1], style == NULL || style->sources != 0);
    return bite_page_close(&page, error);
}
