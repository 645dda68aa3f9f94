/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The typed table: every key is checked against the schema, and all faults of a file are reported
 * together. */
#include "core/tables/typed_table.h"
#include "core/base/error.h"
#include "core/base/nearest_name.h"
#include "core/base/number.h"
#include "core/tables/table_reader.h"
#include "core/tables/table_section.h"
#include <string.h>

static const bite_section_schema *find_section_schema(const bite_table_schema *schema,
                                                      const char *section)
{
    for (size_t i = 0; i < schema->section_count; i++) {
        const bite_section_schema *candidate = &schema->sections[i];
        size_t length = strlen(candidate->name);
        if (candidate->repeats
                ? strncmp(section, candidate->name, length) == 0 && section[length] != 0
                : strcmp(section, candidate->name) == 0) {
            return candidate;
        }
    }
    return NULL;
}

static const char *section_name(size_t at, const void *list)
{
    const bite_section_schema *schemas = list;
    return schemas[at].name;
}

static void check_format(bite_table_reader *reader)
{
    const bite_ini_entry *kind = bite_ini_find(reader->table->ini, "format", "kind");
    const bite_ini_entry *version = bite_ini_find(reader->table->ini, "format", "version");
    double number = 0.0;
    size_t used = 0;
    if (kind == NULL || version == NULL) {
        if (bite_ini_has_unread_sections(reader->table->ini)) {
            return;
        }
        bite_table_report_text(reader, bite_ini_find(reader->table->ini, "format", NULL), NULL,
                               "the table does not begin with [format], kind = ... and version = 1",
                               "add these lines");
        return;
    }
    if (kind->value == NULL || version->value == NULL) {
        return; /* reported already */
    }
    if (strcmp(kind->value, reader->schema->kind) != 0) {
        bite_error error = BITE_ERROR_INIT;
        bite_error_set(&error, BITE_BAD_FILE, "this is a table of kind %.40s; kind %s was expected",
                       kind->value, reader->schema->kind);
        bite_table_report(reader, &error, kind, "kind");
    }
    if (!bite_number_read(version->value, strlen(version->value), &number, &used) ||
        version->value[used] != 0 || number < 1.0) {
        bite_table_report_text(reader, version, "version", "this is not a version",
                               "write version = 1");
    } else if (number > reader->schema->version) {
        bite_table_report_text(reader, version, "version", "the table is newer than this library",
                               "use a newer library or an older table");
    }
}

static void read_all(bite_table_reader *reader)
{
    bite_table *table = reader->table;
    size_t entries = bite_ini_count(table->ini);
    table->sections =
        bite_arena_alloc(table->arena, entries == 0 ? 1 : entries, sizeof *table->sections);
    if (table->sections == NULL) {
        reader->status = BITE_NO_MEMORY;
        return;
    }
    check_format(reader);
    for (size_t i = 0; i < entries && reader->status == BITE_OK; i++) {
        const bite_ini_entry *entry = bite_ini_at(table->ini, i);
        if (entry->key != NULL || strcmp(entry->section, "format") == 0) {
            continue;
        }
        const bite_section_schema *section_schema =
            find_section_schema(reader->schema, entry->section);
        if (section_schema == NULL) {
            bite_error error = BITE_ERROR_INIT;
            const char *near = bite_text_nearest(entry->section, reader->schema->section_count,
                                                 section_name, reader->schema->sections);
            bite_error_set(&error, BITE_BAD_FILE, "a table of kind %s has no section [%.60s]",
                           reader->schema->kind, entry->section);
            if (near != NULL) {
                bite_error_hint(&error, "did you mean [%s]?", near);
            }
            bite_table_report(reader, &error, entry, NULL);
            continue;
        }
        bite_table_read_section(reader, section_schema, i, &table->sections[table->count]);
        table->count += reader->status == BITE_OK;
    }
}

static bite_section *find_by_tail(bite_table *table, const char *prefix, size_t length,
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

/* Adds to a section the values that it does not state itself, from the section that `like` names.
 * depth: ends the recursion in a cycle of such sections. */
static void inherit(bite_table_reader *reader, bite_section *section, int depth)
{
    const bite_field_value *like = bite_section_value(section, "like");
    const bite_ini_entry *at =
        like == NULL ? NULL : bite_ini_find(reader->table->ini, section->name, "like");
    if (like == NULL || like->field->type == BITE_FIELD_PARENT || reader->status != BITE_OK) {
        return;
    }
    bite_section *base = find_by_tail(reader->table, section->name,
                                      (size_t)(section->tail - section->name), like->text);
    if (base == NULL && bite_ini_has_unread_sections(reader->table->ini)) {
        return;
    }
    if (base == NULL || base == section || depth > 8) {
        bite_table_report_text(reader, at, "like",
                               base == NULL ? "there is no section with this name"
                                            : "sections refer to each other in a cycle",
                               base == NULL ? "use the name of a section in this file"
                                            : "remove one of the `like` keys");
        return;
    }
    if (bite_section_value(base, "like") != NULL) {
        inherit(reader, base, depth + 1);
    }
    if (!bite_section_merge(reader->table->arena, section, base, BITE_MERGE_PARENT)) {
        reader->status = BITE_NO_MEMORY;
    }
}

/* values: working memory, BITE_SECTION_VALUES_MAX. before: the first fault and the count of faults
 * in the bytes of the file; NULL: none. */
static bite_status read_table(bite_table *table, bite_field_value *values,
                              const bite_table_schema *schema, bite_ini_fault fault, void *user,
                              const bite_error *before, bite_error *error)
{
    bite_table_reader reader = {table, schema, fault, user, BITE_ERROR_INIT, 0, BITE_OK, values, 0};
    if (before != NULL) {
        reader.first = *before;
        reader.faults = before->faults;
    }
    read_all(&reader);
    for (size_t i = 0; i < table->count && reader.status == BITE_OK; i++) {
        inherit(&reader, &table->sections[i], 0);
    }
    if (reader.status != BITE_OK) {
        return bite_error_set(error, reader.status, "no memory to read the table");
    }
    if (reader.faults > 0) {
        bite_error_copy(error, &reader.first, reader.faults);
        return BITE_BAD_FILE;
    }
    return BITE_OK;
}

/* Owns ini from here on, whatever the result. Of a file that could be read in part, that part is
 * checked, so that all faults of the file are reported. */
static bite_status from_ini(const bite_allocator *allocator, bite_ini *ini,
                            const bite_table_schema *schema, bite_ini_fault fault, void *user,
                            const bite_error *before, bite_table **out, bite_error *error)
{
    bite_arena *arena = bite_arena_new(allocator);
    bite_table *table = arena == NULL ? NULL : bite_arena_alloc(arena, 1, sizeof *table);
    bite_field_value *values =
        table == NULL ? NULL : bite_memory_new(allocator, BITE_SECTION_VALUES_MAX, sizeof *values);
    if (values == NULL) {
        bite_arena_free(arena);
        bite_ini_free(ini);
        return bite_error_set(error, BITE_NO_MEMORY, "no memory to read the table");
    }
    table->arena = arena;
    table->ini = ini;
    bite_status status = read_table(table, values, schema, fault, user, before, error);
    bite_memory_free(allocator, values);
    if (status == BITE_OK || (status == BITE_BAD_FILE && schema->keep_valid)) {
        *out = table;
        return status;
    }
    bite_table_free(table);
    return status;
}

/* Continues after the bytes have been read with this status and this first fault. */
static bite_status read_from_bytes(const bite_allocator *allocator, bite_status status,
                                   bite_ini *ini, const bite_table_schema *schema,
                                   bite_ini_fault fault, void *user, const bite_error *first,
                                   bite_table **table, bite_error *error)
{
    if (ini != NULL) {
        return from_ini(allocator, ini, schema, fault, user, status == BITE_OK ? NULL : first,
                        table, error);
    }
    bite_error_copy(error, first, 0);
    return status;
}

bite_status bite_table_open(const bite_allocator *allocator, const char *path,
                            const bite_table_schema *schema, bite_ini_fault fault, void *user,
                            bite_table **table, bite_error *error)
{
    bite_ini *ini = NULL;
    bite_error first = BITE_ERROR_INIT;
    bite_status status = bite_ini_open(allocator, path, fault, user, &ini, &first);
    return read_from_bytes(allocator, status, ini, schema, fault, user, &first, table, error);
}

bite_status bite_table_parse(const bite_allocator *allocator, const char *text, size_t size,
                             const char *path, const bite_table_schema *schema,
                             bite_ini_fault fault, void *user, bite_table **table,
                             bite_error *error)
{
    bite_ini *ini = NULL;
    bite_error first = BITE_ERROR_INIT;
    bite_status status = bite_ini_parse(allocator, text, size, path, fault, user, &ini, &first);
    return read_from_bytes(allocator, status, ini, schema, fault, user, &first, table, error);
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
