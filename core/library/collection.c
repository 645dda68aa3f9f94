/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Collections of records by name. A section is read from the first folder of the search path that
 * has it. */
#include "core/library/collection.h"
#include "core/base/display_text.h"
#include "core/base/error.h"
#include "core/base/nearest_name.h"
#include "core/base/text.h"
#include "core/library/arena_list.h"
#include "core/library/library_internal.h"
#include "core/library/memory_table.h"
#include "core/library/path_trust.h"
#include "core/library/schema.h"
#include "core/library/tool_list.h"
#include <stdio.h>
#include <string.h>
#include <unistd.h>

static const bite_item_record *record_named(const bite_arena_list *records, const char *name)
{
    const bite_item_record *all = records->items;
    for (size_t i = 0; i < records->count; i++) {
        if (bite_text_equals(all[i].name, name)) {
            return &all[i];
        }
    }
    return NULL;
}

/* The record that has the name among the words of its `also`. */
static const bite_item_record *record_also(const bite_arena_list *records, const char *name)
{
    const bite_item_record *all = records->items;
    for (size_t i = 0; i < records->count; i++) {
        if (bite_text_list_has(bite_item_text(&all[i], "also"), name, bite_text_equals_part)) {
            return &all[i];
        }
    }
    return NULL;
}

static const char *text_of(const bite_section *section, const char *key)
{
    const bite_field_value *field_value = bite_section_value(section, key);
    return field_value == NULL ? "" : field_value->text;
}

/* The summary of a recorded time that states none: its title, because the names of several records
 * can be much alike, and its times. NULL: no memory. */
static const char *time_summary(const bite_library *library, const bite_section *section)
{
    static const char *const keys[] = {"planned", "took"};
    const char *title = text_of(section, "title");
    char text[1200] = "";
    (void)snprintf(text, sizeof text, "%s%s", title, title[0] == 0 ? "" : ": ");
    for (int i = 0; i < 2; i++) {
        const bite_field_value *field_value = bite_section_value(section, keys[i]);
        char time[40];
        size_t length = 0;
        size_t used = strlen(text);
        if (field_value == NULL ||
            bite_quantity_write(field_value->value, BITE_KIND_TIME, BITE_METRIC, time, sizeof time,
                                &length, NULL) != BITE_OK) {
            (void)snprintf(time, sizeof time, "-");
        }
        (void)snprintf(text + used, sizeof text - used, "%s%s %s", i == 0 ? "" : ", ", keys[i],
                       time);
    }
    return bite_arena_text(library->arena, text, strlen(text));
}

static int add_sections(const bite_library *library, int collection, const bite_table *table)
{
    bite_arena_list *records = collection == COLLECTION_TOOLS && library->named_tools != NULL
                                   ? library->named_tools
                                   : &library->collections[collection].records;
    size_t length = strlen(bite_collection_file_at(collection)->prefix);
    for (size_t i = 0; i < bite_table_count(table); i++) {
        const bite_section *section = bite_table_at(table, i);
        if (strncmp(section->name, bite_collection_file_at(collection)->prefix, length) != 0 ||
            record_named(records, section->tail) != NULL) {
            continue;
        }
        bite_item_record record = {section->tail,
                                   bite_section_value(section, "title") == NULL
                                       ? section->tail
                                       : text_of(section, "title"),
                                   text_of(section, "summary"),
                                   bite_table_path(table),
                                   "",
                                   section->values,
                                   section->value_count};
        if (collection == COLLECTION_TIMES && record.summary[0] == 0 &&
            (record.summary = time_summary(library, section)) == NULL) {
            return 0;
        }
        if (bite_arena_list_add(library->arena, records, &record, sizeof record) == NULL) {
            return 0;
        }
    }
    return 1;
}

/* The collections of one file are filled together, so that it is read once. */
static int add_table(const bite_library *library, const char *file, const bite_table *table)
{
    int good = 1;
    for (int collection = 0; good && collection < BITE_COLLECTION_FILES; collection++) {
        if (strcmp(bite_collection_file_at(collection)->file, file) == 0) {
            good = add_sections(library, collection, table);
        }
    }
    return good;
}

static bite_status no_memory(bite_error *error)
{
    return bite_error_set(error, BITE_NO_MEMORY, "no memory for the tables");
}

/* Marks the collections of a file as read, whether it could be used or was left out. */
static void mark_read(const bite_library *library, const char *file)
{
    for (int i = 0; i < BITE_COLLECTION_FILES; i++) {
        if (strcmp(bite_collection_file_at(i)->file, file) == 0) {
            library->collections[i].read = 1;
        }
    }
}

/* Takes a table that was read with this status and fault, or lists it as left out. */
static bite_status take_table(const bite_library *library, int collection, bite_table *table,
                              const char *path, bite_status status, const bite_error *fault,
                              bite_error *error)
{
    const char *file = bite_collection_file_at(collection)->file;
    if (status == BITE_NO_MEMORY) {
        return no_memory(error);
    }
    if (status != BITE_OK) {
        return bite_library_add_left_out(library, file, path, fault) ? BITE_OK : no_memory(error);
    }
    if (bite_arena_list_add(library->arena, library->open_tables, &table, sizeof table) == NULL) {
        bite_table_free(table);
        return no_memory(error);
    }
    return add_table(library, file, table) ? BITE_OK : no_memory(error);
}

static bite_status read_memory_tables(const bite_library *library, int collection,
                                      bite_error *error)
{
    const bite_collection_file *from = bite_collection_file_at(collection);
    const bite_memory_table *memory = NULL;
    bite_status status = BITE_OK;
    for (size_t i = 0;
         status == BITE_OK && (memory = bite_memory_table_at(library, from->file, i)) != NULL;
         i++) {
        bite_table *table = NULL;
        bite_error fault = BITE_ERROR_INIT;
        bite_status read =
            bite_table_parse(&library->allocator, memory->text, memory->size, memory->name,
                             &from->schema, NULL, NULL, &table, &fault);
        status = take_table(library, collection, table, memory->name, read, &fault, error);
    }
    return status;
}

static bite_status read_tables(const bite_library *library, int collection, bite_error *error)
{
    const bite_collection_file *from = bite_collection_file_at(collection);
    bite_status status = read_memory_tables(library, collection, error);
    for (size_t i = 0; i < library->tables.count && status == BITE_OK; i++) {
        bite_table *table = NULL;
        bite_error fault = BITE_ERROR_INIT;
        char *path = bite_path_join(library->arena, library->tables.folders[i], from->file);
        if (path == NULL) {
            return no_memory(error);
        }
        if (access(path, F_OK) == 0) {
            bite_status read = bite_path_trust_check(&library->allocator, NULL, BITE_TRUST_TABLE,
                                                     path, NULL, &fault);
            if (read == BITE_OK) {
                read = bite_table_open(&library->allocator, path, &from->schema, NULL, NULL, &table,
                                       &fault);
            }
            status = take_table(library, collection, table, path, read, &fault, error);
        }
    }
    if (status == BITE_OK) {
        mark_read(library, from->file);
    }
    return status;
}

bite_status bite_collection_read(const bite_library *library, int collection, bite_error *error)
{
    if (library->collections[collection].read) {
        return BITE_OK;
    }
    bite_status status = read_tables(library, collection, error);
    library->collections[collection].lacked_memory += status == BITE_NO_MEMORY;
    return status;
}

size_t bite_library_lacked_memory(const bite_library *library)
{
    size_t count = 0;
    (void)pthread_mutex_lock(library->lock);
    for (int i = 0; i < BITE_COLLECTION_FILES; i++) {
        count += library->collections[i].lacked_memory;
    }
    (void)pthread_mutex_unlock(library->lock);
    return count;
}

const char *bite_library_tool_list(const bite_library *library)
{
    return library->tool_list == NULL ? "" : library->tool_list;
}

bite_status bite_library_use_tools(bite_library *library, const char *path, bite_error *error)
{
    bite_error_clear(error);
    if (library == NULL || path == NULL) {
        return bite_error_set(error, BITE_BAD_ARGUMENT, "an open library and a path were expected");
    }
    bite_table *table = NULL;
    bite_status status = bite_tool_list_open(&library->allocator, path, &table, error);
    if (status != BITE_OK) {
        return status;
    }
    (void)pthread_mutex_lock(library->lock);
    if (library->named_tools != NULL || library->collections[COLLECTION_TOOLS].read) {
        bite_table_free(table);
        status = bite_error_set(error, BITE_BAD_ARGUMENT,
                                "a tool list is read once, before any tool of the library is used");
    } else if (bite_arena_list_add(library->arena, library->open_tables, &table, sizeof table) ==
               NULL) {
        bite_table_free(table);
        status = no_memory(error);
    } else {
        bite_arena_list *named = bite_arena_alloc(library->arena, 1, sizeof *named);
        status = named != NULL &&
                         add_table(library, bite_collection_file_at(COLLECTION_TOOLS)->file, table)
                     ? BITE_OK
                     : no_memory(error);
        library->named_tools = named;
        library->tool_list = bite_text_escaped(library->arena, path);
        if (status == BITE_OK && library->tool_list == NULL) {
            status = no_memory(error);
        }
    }
    (void)pthread_mutex_unlock(library->lock);
    return status;
}

static const char *name_at(size_t at, const void *list)
{
    const bite_arena_list *records = list;
    return ((const bite_item_record *)records->items)[at].name;
}

/* Reports a missing record. If a table of the collection was left out, the record may be in it, and
 * the error says so. */
static bite_status report_missing(const bite_library *library, int collection, const char *name,
                                  bite_error *error)
{
    if (error == NULL && library->collections[collection].records.count > 0) {
        return BITE_UNKNOWN_NAME;
    }
    const bite_arena_list *records = &library->collections[collection].records;
    const bite_item *left = library->left_out->items;
    for (size_t i = 0; i < library->left_out->count; i++) {
        if (strcmp(left[i].name, bite_collection_file_at(collection)->file) == 0) {
            bite_error_set(error, BITE_BAD_FILE,
                           "there is no %.60s, and this table was left out: %.150s", name,
                           left[i].summary);
            bite_error_place(error, left[i].file, 0, 0);
            return BITE_BAD_FILE;
        }
    }
    const char *near = bite_text_nearest(name, records->count, name_at, records);
    const char *noun =
        collection == COLLECTION_DRILLS ? "drill." : bite_collection_file_at(collection)->prefix;
    bite_error_set(error, BITE_UNKNOWN_NAME, "there is no %.*s named %.60s", (int)strlen(noun) - 1,
                   noun, name);
    bite_error_key(error, "%.60s", name);
    bite_error_hint(error, near == NULL ? "coolbite list shows the names" : "did you mean %s?",
                    near);
    return BITE_UNKNOWN_NAME;
}

static bite_status find_record(const bite_library *library, int collection, const char *name,
                               const bite_item_record **record, bite_error *error)
{
    (void)pthread_mutex_lock(library->lock);
    bite_status status = bite_collection_read(library, collection, error);
    if (status == BITE_OK) {
        const bite_item_record *found =
            record_named(&library->collections[collection].records, name);
        if (found == NULL && collection == COLLECTION_TOOLS && library->named_tools != NULL) {
            found = record_named(library->named_tools, name);
        }
        int also = collection == COLLECTION_DRILLS || collection == COLLECTION_THREADS ||
                   collection == COLLECTION_INSTRUMENTS;
        found = found == NULL && also ? record_also(&library->collections[collection].records, name)
                                      : found;
        if (found == NULL) {
            status = report_missing(library, collection, name, error);
        } else {
            *record = found;
        }
    }
    (void)pthread_mutex_unlock(library->lock);
    return status;
}

/* A tool, or a drill of the table of drill sizes, which is read for a name that is not a tool's. */
static bite_status find_tool(const bite_library *library, const char *name,
                             const bite_item_record **record, bite_error *error)
{
    bite_status status = find_record(library, COLLECTION_TOOLS, name, record, error);
    if (status != BITE_UNKNOWN_NAME || bite_text_is_digit(name[0]) || name[0] == '.') {
        return status; /* a diameter names no record */
    }
    bite_error other = BITE_ERROR_INIT;
    status = find_record(library, COLLECTION_DRILLS, name, record, &other);
    if (status == BITE_OK) {
        bite_error_clear(error);
    } else if (status != BITE_UNKNOWN_NAME || strncmp(name, "drill", strlen("drill")) == 0) {
        bite_error_copy(error, &other, 0);
    }
    return status;
}

bite_status bite_library_hole_work(const bite_library *library, bite_hole_work work,
                                   const bite_material *material, const char *substance,
                                   const bite_item_record **record, bite_error *error)
{
    static const int places[] = {[BITE_HOLE_TAPPING] = COLLECTION_TAPPING,
                                 [BITE_HOLE_REAMING] = COLLECTION_REAMING,
                                 [BITE_HOLE_DRILLING] = COLLECTION_DRILLING,
                                 [BITE_HOLE_THREAD_MILLING] = COLLECTION_THREAD_MILLING};
    const char *const names[] = {substance, "any"};
    bite_status status = BITE_UNKNOWN_NAME;
    for (size_t i = 0; i < material->kin_count && status == BITE_UNKNOWN_NAME; i++) {
        status = find_record(library, places[work], material->kin[i].family, record, error);
    }
    for (size_t i = 0; i < sizeof names / sizeof *names && status == BITE_UNKNOWN_NAME; i++) {
        status = find_record(library, places[work], names[i], record, error);
    }
    if (status == BITE_OK) {
        bite_error_clear(error);
    }
    return status;
}

bite_status bite_library_record(const bite_library *library, bite_collection collection,
                                const char *name, const bite_item_record **record,
                                bite_error *error)
{
    static const int places[] = {[BITE_TOOLS] = COLLECTION_TOOLS,
                                 [BITE_HOLDERS] = COLLECTION_HOLDERS,
                                 [BITE_MACHINES] = COLLECTION_MACHINES,
                                 [BITE_COOLANTS] = COLLECTION_COOLANTS,
                                 [BITE_HOLDS] = COLLECTION_HOLDS,
                                 [BITE_SYMPTOMS] = COLLECTION_SYMPTOMS,
                                 [BITE_FLUIDS] = COLLECTION_FLUIDS,
                                 [BITE_SHEETS] = COLLECTION_SHEETS,
                                 [BITE_TIMES] = COLLECTION_TIMES,
                                 [BITE_LAYERS] = COLLECTION_LAYERS,
                                 [BITE_INSTRUMENTS] = COLLECTION_INSTRUMENTS,
                                 [BITE_DRILLS] = COLLECTION_DRILLS,
                                 [BITE_THREADS] = COLLECTION_THREADS,
                                 [BITE_INSERTS] = COLLECTION_INSERTS,
                                 [BITE_FAMILIES] = -1,
                                 [BITE_GRADES] = -1,
                                 [BITE_LEFT_OUT] = -1};
    if ((size_t)collection >= sizeof places / sizeof *places || places[collection] < 0) {
        return bite_error_set(error, BITE_BAD_ARGUMENT,
                              "the records of this collection are not found by name");
    }
    bite_status status = collection == BITE_TOOLS
                             ? find_tool(library, name, record, error)
                             : find_record(library, places[collection], name, record, error);
    return status;
}

bite_status bite_library_tool_material(const bite_library *library, const char *name,
                                       const bite_item_record **record, bite_error *error)
{
    return find_record(library, COLLECTION_TOOL_MATERIALS, name, record, error);
}

bite_status bite_library_layer(const bite_library *library, const char *name,
                               const bite_item_record **record, bite_error *error)
{
    return find_record(library, COLLECTION_LAYERS, name, record, error);
}

bite_status bite_library_rating(const bite_library *library, const char *name,
                                const bite_item_record **record, bite_error *error)
{
    return find_record(library, COLLECTION_RATINGS, name, record, error);
}

bite_status bite_library_rating_overridden(const bite_library *library, const char *name,
                                           bite_item_record *behind, bite_error *error)
{
    const bite_item_record *used = NULL;
    bite_status status = bite_library_rating(library, name, &used, error);
    memset(behind, 0, sizeof *behind);
    if (status != BITE_OK) {
        return status;
    }
    char section_name[220];
    (void)snprintf(section_name, sizeof section_name, "rating.%s", name);
    (void)pthread_mutex_lock(library->lock);
    bite_table *const *tables = library->open_tables->items;
    for (size_t i = 0; i < library->open_tables->count; i++) {
        const bite_section *section = bite_table_find(tables[i], section_name);
        if (section != NULL && strcmp(bite_table_path(tables[i]), used->file) != 0) {
            bite_item_record record = {
                section->tail,   section->tail,       "", bite_table_path(tables[i]), "",
                section->values, section->value_count};
            *behind = record;
            break;
        }
    }
    (void)pthread_mutex_unlock(library->lock);
    return BITE_OK;
}

bite_status bite_library_cause(const bite_library *library, const char *name,
                               const bite_item_record **record, bite_error *error)
{
    return find_record(library, COLLECTION_CAUSES, name, record, error);
}

bite_status bite_library_spread(const bite_library *library, const char *input,
                                const bite_item_record **record, bite_error *error)
{
    return find_record(library, COLLECTION_SPREADS, input, record, error);
}
