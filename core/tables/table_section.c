/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One section of a typed table: its keys are checked against the schema, its values are read. */
#include "core/tables/table_section.h"
#include "core/base/error.h"
#include "core/base/nearest_name.h"
#include "core/tables/field_value.h"
#include "core/tables/provenance.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

static const bite_field *find_field(const bite_section_schema *section_schema, const char *key)
{
    for (size_t i = 0; i < section_schema->field_count; i++) {
        const char *name = section_schema->fields[i].name;
        /* the first letter decides most comparisons without a call */
        if (name[0] == key[0] && strcmp(name, key) == 0) {
            return &section_schema->fields[i];
        }
    }
    return NULL;
}

/* Whether a key is one that only a plugin knows: the prefix, and a name. */
static bool is_own(const bite_section_schema *section_schema, const char *key)
{
    const char *point = strchr(key, '.');
    for (size_t i = 0; point != NULL && i < section_schema->field_count; i++) {
        const bite_field *field = &section_schema->fields[i];
        size_t length = strlen(field->name);
        if (field->type == BITE_FIELD_OWN && strncmp(key, field->name, length) == 0) {
            return key[length] != 0 && strchr(key + length, '.') == NULL;
        }
    }
    return false;
}

/* The field of a key; of a key that only a plugin knows, one that is made for it. NULL: there is no
 * such key, or no memory. */
static const bite_field *field_of(bite_table_reader *reader,
                                  const bite_section_schema *section_schema, const char *key)
{
    const bite_field *known = find_field(section_schema, key);
    if (known != NULL || !is_own(section_schema, key)) {
        return known;
    }
    bite_field *field = bite_arena_alloc(reader->table->arena, 1, sizeof *field);
    if (field == NULL) {
        reader->status = BITE_NO_MEMORY;
        return NULL;
    }
    bite_field own = {key, BITE_FIELD_OWN, BITE_KIND_NUMBER, 0.0, 0.0, NULL};
    *field = own;
    return field;
}

static const char *field_name(size_t at, const void *list)
{
    const bite_field *fields = list;
    return fields[at].name;
}

/* Whether a key is that of a source: "density.source" is the source of "density"; *length: bytes of
 * the latter. */
static bool is_source(const char *key, size_t *length)
{
    size_t size = strlen(key);
    static const char tail[] = ".source";
    if (size <= sizeof tail - 1 || strcmp(key + size - (sizeof tail - 1), tail) != 0) {
        return false;
    }
    *length = size - (sizeof tail - 1);
    return true;
}

static void report_unknown_key(bite_table_reader *reader, const bite_section_schema *section_schema,
                               const bite_ini_entry *entry)
{
    bite_error error = BITE_ERROR_INIT;
    const char *near = bite_text_nearest(entry->key, section_schema->field_count, field_name,
                                         section_schema->fields);
    bite_error_set(&error, BITE_BAD_FILE, "there is no key %.60s in this section", entry->key);
    if (near != NULL) {
        bite_error_hint(&error, "did you mean %s?", near);
    }
    bite_table_report(reader, &error, entry, entry->key);
}

/* Sets the source of a figure: its own, or that of the section. */
static void read_source(bite_table_reader *reader, bite_field_value *field_value,
                        const bite_ini_entry *entry, int needed)
{
    char name[BITE_INI_NAME_MAX + sizeof ".source"];
    size_t length = strlen(entry->key);
    memcpy(name, entry->key, length);
    memcpy(name + length, ".source", sizeof ".source");
    const bite_ini_entry *own = bite_ini_find_in_section(reader->table->ini, reader->head, name);
    if (own == NULL) {
        own = bite_ini_find_in_section(reader->table->ini, reader->head, "source");
    }
    if (own != NULL && own->value == NULL) {
        return; /* reported already */
    }
    bite_source_grade grade = BITE_GRADE_NONE;
    const char *where = "";
    field_value->source = own == NULL ? "" : own->value;
    if (own == NULL) {
        if (needed) {
            bite_table_report_text(
                reader, entry, entry->key, "the figure has no source",
                "add KEY.source = grade: where; the grades are standard, handbook, paper, ...");
        }
    } else if (!bite_source_read(own->value, &grade, &where)) {
        bite_table_report_text(
            reader, own, own->key, "a source is a grade and, after a colon, a reference",
            "the grades are standard handbook paper datasheet common-practice memory estimate");
    }
    field_value->grade = grade;
}

static bool read_field(bite_table_reader *reader, const bite_section_schema *section_schema,
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
    field_value->column = entry->column;
    if (entry->value[0] == 0) {
        bite_table_report_text(reader, entry, entry->key, "there is no value after the equals sign",
                               "leave the key out if there is no figure");
        return false;
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
        bite_table_report(reader, &error, entry, entry->key);
        return false;
    }
    bool needs_source = field->type == BITE_FIELD_FIGURE || field->type == BITE_FIELD_CURVE ||
                        field->type == BITE_FIELD_OWN;
    if (needs_source) {
        read_source(reader, field_value, entry, section_schema->needs_sources != 0);
    }
    return true;
}

/* A source without its figure is probably a mistake. */
static void check_source_key(bite_table_reader *reader, const bite_section_schema *section_schema,
                             const bite_ini_entry *entry, size_t length)
{
    char key[200];
    if (length >= sizeof key) {
        return;
    }
    memcpy(key, entry->key, length);
    key[length] = 0;
    if (find_field(section_schema, key) == NULL && !is_own(section_schema, key)) {
        bite_error error = BITE_ERROR_INIT;
        const char *near =
            bite_text_nearest(key, section_schema->field_count, field_name, section_schema->fields);
        bite_error_set(&error, BITE_BAD_FILE, "there is no key %.60s for this source", key);
        if (near != NULL) {
            bite_error_hint(&error, "did you mean %s?", near);
        }
        bite_table_report(reader, &error, entry, entry->key);
    } else if (bite_ini_find_in_section(reader->table->ini, reader->head, key) == NULL) {
        bite_table_report_text(reader, entry, entry->key, "this source has no figure",
                               "state the figure, or remove the source");
    }
}

void bite_table_read_section(bite_table_reader *reader, const bite_section_schema *section_schema,
                             size_t head, bite_section *section)
{
    bite_field_value *field_values = reader->values;
    uint32_t count = 0;
    size_t end = bite_ini_section_end(reader->table->ini, head);
    const bite_ini_entry *start = bite_ini_at(reader->table->ini, head);
    reader->head = head;
    for (size_t i = head + 1; i < end; i++) {
        const bite_ini_entry *entry = bite_ini_at(reader->table->ini, i);
        size_t length = 0;
        /* entries of one section share the pointer to its name */
        if (entry->key == NULL || entry->section != start->section) {
            continue;
        }
        const bite_field *field = field_of(reader, section_schema, entry->key);
        if (field != NULL) {
            if (entry->value != NULL && count < BITE_SECTION_VALUES_MAX &&
                read_field(reader, section_schema, field, entry, &field_values[count])) {
                count++;
            }
        } else if (reader->status != BITE_OK) {
            return;
        } else if (is_source(entry->key, &length)) {
            check_source_key(reader, section_schema, entry, length);
        } else if (strcmp(entry->key, "source") != 0 || section_schema->needs_sources == 0) {
            report_unknown_key(reader, section_schema, entry);
        }
    }
    bite_field_value *kept =
        bite_arena_alloc(reader->table->arena, count == 0 ? 1 : count, sizeof *kept);
    if (kept == NULL) {
        reader->status = BITE_NO_MEMORY;
        return;
    }
    if (count > 0) {
        memcpy(kept, field_values, count * sizeof *kept);
    }
    const char *point = strchr(start->section, '.');
    section->name = start->section;
    section->tail = point == NULL ? "" : point + 1;
    section->line = start->line;
    section->values = kept;
    section->value_count = count;
}
