/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The typed table: every key against its form, all faults of a file together. */
#include "core/tables/typed_table.h"
#include "core/base/error.h"
#include "core/base/number.h"
#include "core/base/text.h"
#include "core/tables/field_value.h"
#include "core/tables/provenance.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

#define SECTION_FIELDS_MOST 160

struct bite_table {
    bite_arena *arena;
    bite_ini *ini;
    bite_section *sections;
    size_t count;
};

typedef struct table_reader {
    bite_table *table;
    const bite_table_schema *form;
    bite_ini_fault fault;
    void *user;
    bite_error first;
    uint32_t faults;
    bite_status stop;
} table_reader;

/* Counts a fault, with its place. */
static void say(table_reader *reader, bite_error *error, const bite_ini_entry *at, const char *key)
{
    error->status = BITE_BAD_FILE;
    bite_error_place(error, bite_ini_path(reader->table->ini), at == NULL ? 0 : at->line,
                     at == NULL ? 0 : at->column);
    if (at != NULL && key != NULL) {
        bite_error_key(error, "%s:%s", at->section, key);
    } else if (at != NULL) {
        bite_error_key(error, "%s", at->section);
    }
    if (reader->faults == 0) {
        reader->first = *error;
    }
    reader->faults++;
    if (reader->fault != NULL) {
        reader->fault(reader->user, error);
    }
}

static void complain(table_reader *reader, const bite_ini_entry *at, const char *key,
                     const char *message, const char *hint)
{
    bite_error error = BITE_ERROR_INIT;
    bite_error_set(&error, BITE_BAD_FILE, "%s", message);
    bite_error_hint(&error, "%s", hint);
    say(reader, &error, at, key);
}

static const bite_section_schema *form_of(const bite_table_schema *schema, const char *section)
{
    for (size_t i = 0; i < schema->section_count; i++) {
        const bite_section_schema *row = &schema->sections[i];
        size_t length = strlen(row->name);
        if (row->repeats ? strncmp(section, row->name, length) == 0 && section[length] != 0
                         : strcmp(section, row->name) == 0) {
            return row;
        }
    }
    return NULL;
}

static const bite_field *field_of(const bite_section_schema *section_schema, const char *key)
{
    for (size_t i = 0; i < section_schema->field_count; i++) {
        if (strcmp(section_schema->fields[i].name, key) == 0) {
            return &section_schema->fields[i];
        }
    }
    return NULL;
}

static const char *field_name(size_t at, const void *list)
{
    const bite_field *fields = list;
    return fields[at].name;
}

static const char *section_name(size_t at, const void *list)
{
    const bite_section_schema *forms = list;
    return forms[at].name;
}

/* "density.source" belongs to "density"; *length: of the key before it. */
static int is_source(const char *key, size_t *length)
{
    size_t size = strlen(key);
    static const char tail[] = ".source";
    if (size <= sizeof tail - 1 || strcmp(key + size - (sizeof tail - 1), tail) != 0) {
        return 0;
    }
    *length = size - (sizeof tail - 1);
    return 1;
}

static void unknown_key(table_reader *reader, const bite_section_schema *section_schema,
                        const bite_ini_entry *entry)
{
    bite_error error = BITE_ERROR_INIT;
    const char *near = bite_text_nearest(entry->key, section_schema->field_count, field_name,
                                         section_schema->fields);
    bite_error_set(&error, BITE_BAD_FILE, "there is no key %.60s here", entry->key);
    if (near != NULL) {
        bite_error_hint(&error, "did you mean %s?", near);
    }
    say(reader, &error, entry, entry->key);
}

/* The source of a figure: its own, or the section's. */
static void take_source(table_reader *reader, bite_field_value *field_value,
                        const bite_ini_entry *entry, int needed)
{
    char name[200];
    (void)snprintf(name, sizeof name, "%s.source", entry->key);
    const bite_ini_entry *own = bite_ini_find(reader->table->ini, entry->section, name);
    if (own == NULL) {
        own = bite_ini_find(reader->table->ini, entry->section, "source");
    }
    if (own != NULL && own->value == NULL) {
        return; /* said already */
    }
    bite_source_grade grade = BITE_GRADE_NONE;
    const char *where = "";
    field_value->source = own == NULL ? "" : own->value;
    if (own == NULL) {
        if (needed) {
            complain(reader, entry, entry->key, "the figure has no source",
                     "add KEY.source = grade: where; grades are standard, handbook, paper, ...");
        }
    } else if (!bite_source_read(own->value, &grade, &where)) {
        complain(reader, own, own->key, "a source begins with its grade, and names its place",
                 "standard handbook paper datasheet common-practice memory estimate");
    }
    field_value->grade = grade;
}

static int read_cell(table_reader *reader, const bite_section_schema *section_schema,
                     const bite_field *field, const bite_ini_entry *entry,
                     bite_field_value *field_value)
{
    bite_error error = BITE_ERROR_INIT;
    bite_status status = BITE_OK;
    memset(field_value, 0, sizeof *field_value);
    field_value->field = field;
    field_value->value = field_value->low = field_value->high = (double)NAN;
    field_value->text = entry->value;
    field_value->source = "";
    field_value->line = entry->line;
    if (entry->value[0] == 0) {
        complain(reader, entry, entry->key, "nothing stands behind the equals sign",
                 "leave the key out where there is no figure");
        return 0;
    }
    switch (field->type) {
    case BITE_FIELD_FIGURE:
        status = bite_field_value_figure(entry->value, field_value, &error);
        break;
    case BITE_FIELD_CURVE:
        status = bite_field_value_curve(entry->value, field_value, &error);
        break;
    case BITE_FIELD_WORD:
        status = bite_field_value_word(entry->value, field_value, &error);
        break;
    default:
        break;
    }
    if (status != BITE_OK) {
        say(reader, &error, entry, entry->key);
        return 0;
    }
    int figure = field->type == BITE_FIELD_FIGURE || field->type == BITE_FIELD_CURVE;
    if (figure) {
        take_source(reader, field_value, entry, section_schema->needs_sources != 0);
    }
    return 1;
}

/* A source whose figure is not there tells of a slip. */
static void check_source_key(table_reader *reader, const bite_section_schema *section_schema,
                             const bite_ini_entry *entry, size_t length)
{
    char key[200];
    if (length >= sizeof key) {
        return;
    }
    memcpy(key, entry->key, length);
    key[length] = 0;
    if (field_of(section_schema, key) == NULL) {
        bite_error error = BITE_ERROR_INIT;
        const char *near =
            bite_text_nearest(key, section_schema->field_count, field_name, section_schema->fields);
        bite_error_set(&error, BITE_BAD_FILE,
                       "there is no key %.60s that this could be the source of", key);
        if (near != NULL) {
            bite_error_hint(&error, "did you mean %s?", near);
        }
        say(reader, &error, entry, entry->key);
    } else if (bite_ini_find(reader->table->ini, entry->section, key) == NULL) {
        complain(reader, entry, entry->key, "a source stands here, but its figure does not",
                 "state the figure, or take the source out");
    }
}

static void read_section(table_reader *reader, const bite_section_schema *section_schema,
                         const bite_ini_entry *head, bite_section *section)
{
    bite_field_value field_values[SECTION_FIELDS_MOST];
    uint32_t count = 0;
    size_t entries = bite_ini_count(reader->table->ini);
    for (size_t i = 0; i < entries; i++) {
        const bite_ini_entry *entry = bite_ini_at(reader->table->ini, i);
        size_t length = 0;
        if (entry->key == NULL ||
            entry->section != head->section) { /* keys share their section's own text */
            continue;
        }
        const bite_field *field = field_of(section_schema, entry->key);
        if (field != NULL) {
            if (entry->value != NULL && count < SECTION_FIELDS_MOST &&
                read_cell(reader, section_schema, field, entry, &field_values[count])) {
                count++;
            }
        } else if (is_source(entry->key, &length)) {
            check_source_key(reader, section_schema, entry, length);
        } else if (strcmp(entry->key, "source") != 0 || section_schema->needs_sources == 0) {
            unknown_key(reader, section_schema, entry);
        }
    }
    bite_field_value *kept =
        bite_arena_alloc(reader->table->arena, count == 0 ? 1 : count, sizeof *kept);
    if (kept == NULL) {
        reader->stop = BITE_NO_MEMORY;
        return;
    }
    if (count > 0) {
        memcpy(kept, field_values, count * sizeof *kept);
    }
    const char *point = strchr(head->section, '.');
    section->name = head->section;
    section->tail = point == NULL ? "" : point + 1;
    section->line = head->line;
    section->values = kept;
    section->value_count = count;
}

static void check_format(table_reader *reader)
{
    const bite_ini_entry *kind = bite_ini_find(reader->table->ini, "format", "kind");
    const bite_ini_entry *version = bite_ini_find(reader->table->ini, "format", "version");
    double number = 0.0;
    size_t used = 0;
    if (kind == NULL || version == NULL) {
        if (bite_ini_has_unread_sections(reader->table->ini)) {
            return;
        }
        complain(reader, bite_ini_find(reader->table->ini, "format", NULL), NULL,
                 "a table opens with [format], kind = ... and version = 1", "");
        return;
    }
    if (kind->value == NULL || version->value == NULL) {
        return; /* said already */
    }
    if (strcmp(kind->value, reader->form->kind) != 0) {
        bite_error error = BITE_ERROR_INIT;
        bite_error_set(&error, BITE_BAD_FILE, "this is a table of %.40s; one of %s was expected",
                       kind->value, reader->form->kind);
        say(reader, &error, kind, "kind");
    }
    if (!bite_number_read(version->value, strlen(version->value), &number, &used) ||
        version->value[used] != 0 || number < 1.0) {
        complain(reader, version, "version", "that is no version", "version = 1");
    } else if (number > reader->form->version) {
        complain(reader, version, "version", "the table is newer than this library",
                 "a newer library, or an older table");
    }
}

static void read_all(table_reader *reader)
{
    bite_table *table = reader->table;
    size_t entries = bite_ini_count(table->ini);
    table->sections =
        bite_arena_alloc(table->arena, entries == 0 ? 1 : entries, sizeof *table->sections);
    if (table->sections == NULL) {
        reader->stop = BITE_NO_MEMORY;
        return;
    }
    check_format(reader);
    for (size_t i = 0; i < entries && reader->stop == BITE_OK; i++) {
        const bite_ini_entry *entry = bite_ini_at(table->ini, i);
        if (entry->key != NULL || strcmp(entry->section, "format") == 0) {
            continue;
        }
        const bite_section_schema *section_schema = form_of(reader->form, entry->section);
        if (section_schema == NULL) {
            bite_error error = BITE_ERROR_INIT;
            const char *near = bite_text_nearest(entry->section, reader->form->section_count,
                                                 section_name, reader->form->sections);
            bite_error_set(&error, BITE_BAD_FILE, "a table of %s has no section [%.60s]",
                           reader->form->kind, entry->section);
            if (near != NULL) {
                bite_error_hint(&error, "did you mean [%s]?", near);
            }
            say(reader, &error, entry, NULL);
            continue;
        }
        read_section(reader, section_schema, entry, &table->sections[table->count]);
        table->count += reader->stop == BITE_OK;
    }
}

static bite_section *own_section(bite_table *table, const char *prefix, size_t length,
                                 const char *tail)
{
    for (size_t i = 0; i < table->count; i++) {
        if (strncmp(table->sections[i].name, prefix, length) == 0 &&
            strcmp(table->sections[i].tail, tail) == 0) {
            return &table->sections[i];
        }
    }
    return NULL;
}

/* Adds to a section what `like` names and it does not state itself. Depth stops loops. */
static void inherit(table_reader *reader, bite_section *section, int depth)
{
    const bite_field_value *like = bite_section_value(section, "like");
    const bite_ini_entry *at =
        like == NULL ? NULL : bite_ini_find(reader->table->ini, section->name, "like");
    if (like == NULL || reader->stop != BITE_OK) {
        return;
    }
    bite_section *model = own_section(reader->table, section->name,
                                      (size_t)(section->tail - section->name), like->text);
    if (model == NULL && bite_ini_has_unread_sections(reader->table->ini)) {
        return;
    }
    if (model == NULL || model == section || depth > 8) {
        complain(reader, at, "like",
                 model == NULL ? "there is no section of that name"
                               : "the sections lean on each other in a circle",
                 "");
        return;
    }
    if (bite_section_value(model, "like") != NULL) {
        inherit(reader, model, depth + 1);
    }
    bite_field_value *field_values =
        bite_arena_alloc(reader->table->arena, (size_t)section->value_count + model->value_count,
                         sizeof *field_values);
    if (field_values == NULL) {
        reader->stop = BITE_NO_MEMORY;
        return;
    }
    uint32_t count = 0;
    for (uint32_t i = 0; i < section->value_count; i++) {
        if (strcmp(section->values[i].field->name, "like") != 0) {
            field_values[count++] = section->values[i];
        }
    }
    for (uint32_t i = 0; i < model->value_count; i++) {
        const char *name = model->values[i].field->name;
        static const char *const own[] = {"like", "also", "title", "summary"};
        int skip = bite_section_value(section, name) != NULL;
        for (size_t k = 0; k < sizeof own / sizeof *own; k++) {
            skip |= strcmp(name, own[k]) == 0;
        }
        if (!skip) {
            field_values[count++] = model->values[i];
        }
    }
    section->values = field_values;
    section->value_count = count;
}

/* before: what the bytes of the file told; NULL: nothing. */
static bite_status read_table(bite_table *table, const bite_table_schema *schema,
                              bite_ini_fault fault, void *user, const bite_error *before,
                              bite_error *error)
{
    table_reader reader = {table, schema, fault, user, BITE_ERROR_INIT, 0, BITE_OK};
    if (before != NULL) {
        reader.first = *before;
        reader.faults = before->faults;
    }
    read_all(&reader);
    for (size_t i = 0; i < table->count && reader.stop == BITE_OK; i++) {
        inherit(&reader, &table->sections[i], 0);
    }
    if (reader.stop != BITE_OK) {
        return bite_error_set(error, reader.stop, "no memory to read a table");
    }
    if (reader.faults > 0) {
        if (error != NULL) {
            *error = reader.first;
            error->faults = reader.faults;
        }
        return BITE_BAD_FILE;
    }
    return BITE_OK;
}

/* Takes ini over, whatever becomes of it. An INI of which only a part could be read is judged in
 * that part, so that all faults of the file are told. */
static bite_status from_ini(const bite_allocator *allocator, bite_ini *ini,
                            const bite_table_schema *schema, bite_ini_fault fault, void *user,
                            const bite_error *before, bite_table **out, bite_error *error)
{
    bite_arena *arena = bite_arena_new(allocator);
    bite_table *table = arena == NULL ? NULL : bite_arena_alloc(arena, 1, sizeof *table);
    if (table == NULL) {
        bite_arena_free(arena);
        bite_ini_free(ini);
        return bite_error_set(error, BITE_NO_MEMORY, "no memory to read a table");
    }
    table->arena = arena;
    table->ini = ini;
    bite_status status = read_table(table, schema, fault, user, before, error);
    if (status == BITE_OK || (status == BITE_BAD_FILE && schema->keep_valid)) {
        *out = table;
        return status;
    }
    bite_table_free(table);
    return status;
}

/* status: of reading the bytes, with its first fault. */
static bite_status go_on(const bite_allocator *allocator, bite_status status, bite_ini *ini,
                         const bite_table_schema *schema, bite_ini_fault fault, void *user,
                         const bite_error *first, bite_table **table, bite_error *error)
{
    if (ini != NULL) {
        return from_ini(allocator, ini, schema, fault, user, status == BITE_OK ? NULL : first,
                        table, error);
    }
    if (error != NULL) {
        *error = *first;
    }
    return status;
}

bite_status bite_table_open(const bite_allocator *allocator, const char *path,
                            const bite_table_schema *schema, bite_ini_fault fault, void *user,
                            bite_table **table, bite_error *error)
{
    bite_ini *ini = NULL;
    bite_error first = BITE_ERROR_INIT;
    bite_status status = bite_ini_open(allocator, path, fault, user, &ini, &first);
    return go_on(allocator, status, ini, schema, fault, user, &first, table, error);
}

bite_status bite_table_parse(const bite_allocator *allocator, const char *text, size_t size,
                             const char *path, const bite_table_schema *schema,
                             bite_ini_fault fault, void *user, bite_table **table,
                             bite_error *error)
{
    bite_ini *ini = NULL;
    bite_error first = BITE_ERROR_INIT;
    bite_status status = bite_ini_parse(allocator, text, size, path, fault, user, &ini, &first);
    return go_on(allocator, status, ini, schema, fault, user, &first, table, error);
}

bool bite_table_has_unread_sections(const bite_table *table)
{
    return bite_ini_has_unread_sections(table->ini);
}

void bite_table_free(bite_table *table)
{
    if (table != NULL) {
        bite_ini_free(table->ini);
        bite_arena_free(table->arena);
    }
}

const char *bite_table_path(const bite_table *table)
{
    return bite_ini_path(table->ini);
}

size_t bite_table_count(const bite_table *table)
{
    return table->count;
}

const bite_section *bite_table_at(const bite_table *table, size_t index)
{
    return index < table->count ? &table->sections[index] : NULL;
}

const bite_section *bite_table_find(const bite_table *table, const char *name)
{
    for (size_t i = 0; i < table->count; i++) {
        if (strcmp(table->sections[i].name, name) == 0) {
            return &table->sections[i];
        }
    }
    return NULL;
}

bool bite_table_has_key(const bite_table *table, const char *section, const char *key)
{
    return bite_ini_find(table->ini, section, key) != NULL;
}

const bite_field_value *bite_section_value(const bite_section *section, const char *key)
{
    for (uint32_t i = 0; i < section->value_count; i++) {
        if (strcmp(section->values[i].field->name, key) == 0) {
            return &section->values[i];
        }
    }
    return NULL;
}
