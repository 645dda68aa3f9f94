/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reading a family. Each of its tables is checked by itself; those that are sound are merged key by
 * key, the first folder of the search path first; then grades inherit. A fault that shows only then
 * is one of the table that states the value. */
#include "core/library/family_tables.h"
#include "core/base/error.h"
#include "core/library/arena_list.h"
#include "core/library/case_fields.h"
#include "core/library/caution_rule.h"
#include "core/library/inheritance.h"
#include "core/library/material_bounds.h"
#include "core/library/path_trust.h"
#include "core/library/schema.h"
#include "core/library/table_bytes.h"
#include "core/tables/provenance.h"
#include "core/tables/section.h"
#include <stdbool.h>
#include <string.h>

static bite_status no_memory(bite_error *error)
{
    return bite_error_set(error, BITE_NO_MEMORY, "no memory for a family's tables");
}

/* Where the faults of one table go. */
typedef struct faults {
    bite_fault_sink sink; /* may be NULL */
    void *user;
    bite_error *first; /* NULL: not wanted */
    uint32_t count;
} faults;

static void tell(faults *of, bite_error *fault)
{
    fault->status = BITE_BAD_FILE;
    if (of->count++ == 0 && of->first != NULL) {
        *of->first = *fault;
    }
    if (of->sink != NULL) {
        of->sink(of->user, fault);
    }
}

/* ---- cautions of one table ---- */

static const char *text_of(const bite_section *section, const char *key)
{
    const bite_field_value *field_value = bite_section_value(section, key);
    return field_value == NULL ? "" : field_value->text;
}

static bite_status bad_value(bite_error *error, const bite_table *table,
                             const bite_section *section, const char *key)
{
    const bite_field_value *at = bite_section_value(section, key);
    error->status = BITE_BAD_FILE;
    bite_error_place(error, bite_table_path(table), at == NULL ? section->line : at->line,
                     at == NULL ? 0 : at->column);
    bite_error_key(error, "%s:%s", section->name, key);
    return BITE_BAD_FILE;
}

/* Whether a key stands in a section with a value that could not be read, which was told. */
static bool is_unread(const bite_table *table, const bite_section *section, const char *key)
{
    return bite_section_value(section, key) == NULL &&
           bite_table_has_key(table, section->name, key);
}

static bite_status read_caution(const bite_library *library, const bite_table *table,
                                const bite_section *section, bite_caution_rule *rule,
                                bite_error *error)
{
    const bite_field_value *severity = bite_section_value(section, "severity");
    bite_source_grade grade = BITE_GRADE_NONE;
    const char *where = "";
    rule->name = section->tail;
    rule->when = text_of(section, "when");
    rule->text = text_of(section, "text");
    rule->source = text_of(section, "source");
    rule->severity = severity == NULL ? 0 : severity->word + 1;
    rule->line = section->line;
    if (rule->severity == 0 || rule->text[0] == 0) {
        bite_error_set(error, BITE_BAD_FILE,
                       "a caution needs a severity (note, care or danger) and a text");
        return bad_value(error, table, section, rule->severity == 0 ? "severity" : "text");
    }
    if (!bite_source_read(rule->source, &grade, &where)) {
        bite_error_set(error, BITE_BAD_FILE, "a caution needs a source that begins with its grade");
        return bad_value(error, table, section, "source");
    }
    bite_status status = bite_caution_rule_check(library->arena, rule, library->grade_fields,
                                                 library->grade_field_count, error);
    if (status != BITE_BAD_FILE) {
        return status;
    }
    const char *key = strcmp(error->key, "text") == 0 ? "text" : "when";
    uint32_t column = error->column;
    status = bad_value(error, table, section, key);
    error->column += column - 1;
    return status;
}

/* False: no memory. */
static bool read_cautions(const bite_library *library, bite_table_bytes *bytes,
                          const bite_table *table, faults *told)
{
    size_t count = bite_table_count(table);
    bytes->rules = bite_arena_alloc(library->arena, count + 1, sizeof *bytes->rules);
    bytes->rule_count = 0;
    for (size_t i = 0; bytes->rules != NULL && i < count; i++) {
        const bite_section *section = bite_table_at(table, i);
        if (strncmp(section->name, "caution.", strlen("caution.")) != 0 ||
            is_unread(table, section, "severity")) {
            continue;
        }
        bite_error fault = BITE_ERROR_INIT;
        bite_status status =
            read_caution(library, table, section, &bytes->rules[bytes->rule_count], &fault);
        if (status == BITE_NO_MEMORY) {
            return false;
        }
        if (status == BITE_OK) {
            bytes->rule_count++;
        } else {
            tell(told, &fault);
        }
    }
    return bytes->rules != NULL;
}

/* ---- self-tests of one table ---- */

/* What is wrong with a case; NULL: nothing. *key: where. whole: all of it could be read. */
static const char *case_fault(const bite_table *table, const bite_section *section, bool whole,
                              const char **key)
{
    bite_source_grade grade = BITE_GRADE_NONE;
    const char *where = "";
    bool expects = false;
    *key = "source";
    if (!bite_source_read(text_of(section, "source"), &grade, &where)) {
        return "a case needs a source that begins with its grade";
    }
    for (uint32_t i = 0; i < section->value_count; i++) {
        const bite_field_value *value = &section->values[i];
        *key = value->field->name;
        bool expected = strncmp(*key, BITE_CASE_EXPECT, strlen(BITE_CASE_EXPECT)) == 0;
        expects |= expected;
        if (expected && value->field->type == BITE_FIELD_FIGURE && !value->banded &&
            !bite_table_has_key(table, section->name, "within")) {
            return "what is expected has no tolerance: state its band, or within = 5 %";
        }
    }
    *key = NULL;
    return expects || !whole ? NULL
                             : "a case expects nothing: state expect.verdict, or expect.NAME";
}

/* whole: everything in the table could be read. */
static void read_cases(const bite_table *table, bool whole, faults *told)
{
    for (size_t i = 0; i < bite_table_count(table); i++) {
        const bite_section *section = bite_table_at(table, i);
        const char *key = NULL;
        const char *wrong = strncmp(section->name, "case.", strlen("case.")) == 0
                                ? case_fault(table, section, whole, &key)
                                : NULL;
        if (wrong != NULL) {
            bite_error fault = BITE_ERROR_INIT;
            bite_error_set(&fault, BITE_BAD_FILE, "%s", wrong);
            (void)bad_value(&fault, table, section, key == NULL ? "expect" : key);
            tell(told, &fault);
        }
    }
}

/* ---- one table ---- */

/* Parses a table into bytes->table, which stays NULL if it is at fault. */
static bite_status parse(const bite_library *library, bite_table_bytes *bytes, bite_error *error)
{
    bite_section_schema sections[BITE_MATERIAL_SECTIONS];
    bite_table_schema schema = bite_material_schema(library, sections);
    bite_table *table = NULL;
    bite_status status = bytes->text != NULL
                             ? BITE_OK
                             : bite_path_trust_check(&library->allocator, NULL, BITE_TRUST_TABLE,
                                                     bytes->path, NULL, error);
    if (status != BITE_OK) {
        return status;
    }
    status =
        bytes->text == NULL
            ? bite_table_open(&library->allocator, bytes->path, &schema, NULL, NULL, &table, error)
            : bite_table_parse(&library->allocator, bytes->text, bytes->size, bytes->path, &schema,
                               NULL, NULL, &table, error);
    if (status != BITE_OK) {
        return status;
    }
    if (bite_arena_list_add(library->arena, library->open_tables, &table, sizeof table) == NULL) {
        bite_table_free(table);
        return no_memory(error);
    }
    faults told = {NULL, NULL, error, 0};
    if (!read_cautions(library, bytes, table, &told)) {
        return no_memory(error);
    }
    read_cases(table, true, &told);
    bytes->table = told.count == 0 ? table : NULL;
    return told.count == 0 ? BITE_OK : BITE_BAD_FILE;
}

/* Leaves a table out for a fault. The last one of the search path is what the others rest on, and
 * its cautions would be missing: without it the family is not used. False: no memory. */
static bool leave_out(const bite_library *library, bite_family_state *family, size_t at,
                      bite_status status, const bite_error *fault)
{
    bite_table_bytes *bytes = &family->bytes[at];
    bytes->table = NULL;
    if (!bite_library_add_left_out(library, family->name, bytes->path, fault)) {
        return false;
    }
    if (at + 1 == family->bytes_count) {
        family->status = status;
        family->error = *fault;
        return true;
    }
    const bite_item *left = library->left_out->items;
    return bite_arena_list_add(library->arena, &family->left_out,
                               &left[library->left_out->count - 1], sizeof *left) != NULL;
}

/* Figures that a section states itself and that cannot be, alone or together. */
static void check_own_bounds(const bite_table *table, faults *told)
{
    for (size_t i = 0; i < bite_table_count(table); i++) {
        const bite_section *section = bite_table_at(table, i);
        const bite_field_value *at = NULL;
        const bite_field_value *other = NULL;
        bite_error fault = BITE_ERROR_INIT;
        size_t from = 0;
        while (strncmp(section->name, "grade.", strlen("grade.")) == 0 &&
               !is_unread(table, section, "substance") &&
               bite_material_bounds_next(section, &from, &at, &other, &fault) != BITE_OK) {
            (void)bad_value(&fault, table, section, at->field->name);
            tell(told, &fault);
            bite_error_clear(&fault);
        }
    }
}

bite_status bite_family_table_check(const bite_library *library, const char *name, const char *text,
                                    size_t size, bite_fault_sink fault, void *user,
                                    bite_error *error)
{
    bite_section_schema sections[BITE_MATERIAL_SECTIONS];
    bite_table_schema schema = bite_material_schema(library, sections);
    bite_table_bytes bytes = {0};
    bite_table *table = NULL;
    bite_error first = BITE_ERROR_INIT;
    schema.keep_valid = 1; /* what could be read may have faults of its own */
    bite_status status = bite_table_parse(&library->allocator, text, size, name, &schema, fault,
                                          user, &table, &first);
    faults told = {fault, user, status == BITE_OK ? &first : NULL, 0};
    if (status != BITE_NO_MEMORY && table != NULL) {
        if (read_cautions(library, &bytes, table, &told)) {
            read_cases(table, status == BITE_OK, &told);
            check_own_bounds(table, &told);
        } else {
            status = no_memory(&first);
        }
    }
    bite_table_free(table);
    if (status == BITE_OK && told.count > 0) {
        status = BITE_BAD_FILE;
        first.faults = 0;
    }
    first.faults += told.count;
    if (status != BITE_OK && error != NULL) {
        *error = first;
    }
    return status;
}

/* ---- merging ---- */

/* A section with the place of each value. NULL: no memory. */
static bite_section *placed(bite_arena *arena, const bite_section *section, const char *file)
{
    bite_section *copy = bite_arena_alloc(arena, 1, sizeof *copy);
    bite_field_value *values =
        bite_arena_alloc(arena, (size_t)section->value_count + 1, sizeof *values);
    if (copy == NULL || values == NULL) {
        return NULL;
    }
    for (uint32_t i = 0; i < section->value_count; i++) {
        values[i] = section->values[i];
        values[i].file = file;
    }
    *copy = *section;
    copy->values = values;
    return copy;
}

/* Puts a section of a table under what tables before it state. *merged NULL: they have none. */
static bool merge_section(bite_arena *arena, const bite_section **merged,
                          const bite_section *section, const char *file)
{
    bite_section *fresh = placed(arena, section, file);
    if (fresh == NULL || *merged == NULL) {
        *merged = fresh;
        return fresh != NULL;
    }
    bite_section *whole = bite_arena_alloc(arena, 1, sizeof *whole);
    if (whole == NULL) {
        return false;
    }
    *whole = **merged;
    *merged = whole;
    return bite_section_merge(arena, whole, fresh, BITE_MERGE_SAME);
}

static bite_grade_state *grade_named(const bite_family_state *family, size_t count,
                                     const char *tail)
{
    bite_grade_state *grades = family->grades.items;
    for (size_t i = 0; i < count; i++) {
        if (strcmp(grades[i].section->tail, tail) == 0) {
            return &grades[i];
        }
    }
    return NULL;
}

/* before: how many grades are from tables before this one, which states each of its own once. */
static bool merge_grade(const bite_library *library, bite_family_state *family, size_t before,
                        const bite_section *section, const char *file)
{
    bite_grade_state *known = grade_named(family, before, section->tail);
    if (known != NULL) {
        return merge_section(library->arena, &known->section, section, file);
    }
    bite_grade_state grade = {0};
    grade.file = file;
    grade.name = bite_path_join(library->arena, family->name, section->tail);
    return grade.name != NULL && merge_section(library->arena, &grade.section, section, file) &&
           bite_arena_list_add(library->arena, &family->grades, &grade, sizeof grade) != NULL;
}

/* A caution is one sentence with its condition and its source: it is replaced as a whole. */
static bool merge_cautions(const bite_library *library, bite_family_state *family,
                           const bite_table_bytes *bytes)
{
    size_t before = family->rules.count;
    bool good = true;
    for (size_t i = 0; good && i < bytes->rule_count; i++) {
        const bite_caution_rule *rules = family->rules.items;
        bool known = false;
        for (size_t k = 0; !known && k < before; k++) {
            known = strcmp(rules[k].name, bytes->rules[i].name) == 0;
        }
        good = known || bite_arena_list_add(library->arena, &family->rules, &bytes->rules[i],
                                            sizeof *bytes->rules) != NULL;
    }
    return good;
}

/* A case is replaced as a whole, too. before: how many are from tables before this one. */
static bool merge_case(const bite_library *library, bite_family_state *family, size_t before,
                       const bite_section *section, const char *file)
{
    const bite_family_case *cases = family->cases.items;
    for (size_t i = 0; i < before; i++) {
        if (strcmp(cases[i].section->name, section->name) == 0) {
            return true;
        }
    }
    bite_family_case fresh = {section, file};
    return bite_arena_list_add(library->arena, &family->cases, &fresh, sizeof fresh) != NULL;
}

static bool merge_table(const bite_library *library, bite_family_state *family,
                        const bite_table_bytes *bytes)
{
    const char *file = bite_table_path(bytes->table);
    size_t before = family->grades.count;
    size_t cases = family->cases.count;
    bool good = true;
    for (size_t i = 0; good && i < bite_table_count(bytes->table); i++) {
        const bite_section *section = bite_table_at(bytes->table, i);
        if (strcmp(section->name, "family") == 0) {
            family->file = family->family == NULL ? file : family->file;
            good = merge_section(library->arena, &family->family, section, file);
        } else if (strncmp(section->name, "grade.", strlen("grade.")) == 0) {
            good = merge_grade(library, family, before, section, file);
        } else if (strncmp(section->name, "case.", strlen("case.")) == 0) {
            good = merge_case(library, family, cases, section, file);
        }
    }
    return good && merge_cautions(library, family, bytes);
}

static bool merge_tables(const bite_library *library, bite_family_state *family)
{
    static const bite_arena_list empty;
    bool good = true;
    family->family = NULL;
    family->file = NULL;
    family->grades = empty;
    family->rules = empty;
    family->cases = empty;
    for (size_t i = 0; good && i < family->bytes_count; i++) {
        good = family->bytes[i].table == NULL || merge_table(library, family, &family->bytes[i]);
    }
    return good;
}

/* ---- a family ---- */

static bite_status parse_all(const bite_library *library, bite_family_state *family,
                             bite_error *error)
{
    for (size_t i = 0; i < family->bytes_count; i++) {
        bite_error fault = BITE_ERROR_INIT;
        bite_status status = parse(library, &family->bytes[i], &fault);
        if (status == BITE_NO_MEMORY ||
            (status != BITE_OK && !leave_out(library, family, i, status, &fault))) {
            return no_memory(error);
        }
    }
    return BITE_OK;
}

/* The index of the table that states a value. */
static size_t table_of(const bite_family_state *family, const bite_field_value *value)
{
    for (size_t i = 0; i < family->bytes_count; i++) {
        if (family->bytes[i].table != NULL &&
            bite_table_path(family->bytes[i].table) == value->file) {
            return i;
        }
    }
    return family->bytes_count - 1;
}

/* The one of two values that is from the table which comes first on the search path: of a table of
 * one's own over the project's, it is the news. */
static const bite_field_value *newer(const bite_family_state *family, const bite_field_value *a,
                                     const bite_field_value *b)
{
    for (size_t i = 0; i < family->bytes_count; i++) {
        const char *file =
            family->bytes[i].table == NULL ? NULL : bite_table_path(family->bytes[i].table);
        if (file != NULL && (a->file == file || b->file == file)) {
            return a->file == file ? a : b;
        }
    }
    return a;
}

/* Whether the figures of each grade go together. *at: the value at fault. */
static bite_status check_bounds(const bite_family_state *family, const bite_field_value **at,
                                bite_error *error)
{
    const bite_grade_state *grades = family->grades.items;
    for (size_t i = 0; i < family->grades.count; i++) {
        const bite_field_value *other = NULL;
        if (bite_material_bounds_check(grades[i].whole, at, &other, error) != BITE_OK) {
            *at = newer(family, *at, other);
            bite_error_place(error, (*at)->file, (*at)->line, (*at)->column);
            bite_error_key(error, "%s:%s", grades[i].section->name, (*at)->field->name);
            return BITE_BAD_FILE;
        }
    }
    return BITE_OK;
}

static bite_status read_with(const bite_library *library, bite_family_state *family,
                             bite_like_step *chain, bite_error *error)
{
    if (family->read) {
        return BITE_OK;
    }
    bite_status status = bite_table_bytes_find(library, family, error);
    status = status == BITE_OK ? parse_all(library, family, error) : status;
    bool settled = false;
    while (status == BITE_OK && family->status == BITE_OK && !settled) {
        bite_error fault = BITE_ERROR_INIT;
        const bite_field_value *at = NULL;
        if (!merge_tables(library, family)) {
            return no_memory(error);
        }
        bite_status found = bite_family_inherit(library, family, chain, read_with, &at, &fault);
        found = found == BITE_OK ? check_bounds(family, &at, &fault) : found;
        settled = found == BITE_OK;
        if (found == BITE_NO_MEMORY ||
            (!settled && !leave_out(library, family, table_of(family, at), found, &fault))) {
            status = no_memory(error);
        }
    }
    if (status != BITE_OK) {
        return status;
    }
    if (family->status == BITE_OK && family->left_out.count == 0) {
        bite_table_bytes_free(library, family); /* of what was left out they tell the names */
    }
    family->read = 1;
    return BITE_OK;
}

bite_status bite_material_read(const bite_library *library, bite_family_state *family,
                               bite_error *error)
{
    return read_with(library, family, NULL, error);
}

/* ---- all faults of a family at once ---- */

static void tell_bounds(const bite_family_state *family, const bite_grade_state *grade,
                        faults *told)
{
    const bite_field_value *at = NULL;
    const bite_field_value *other = NULL;
    bite_error fault = BITE_ERROR_INIT;
    size_t from = 0;
    while (bite_material_bounds_next(grade->whole, &from, &at, &other, &fault) != BITE_OK) {
        at = newer(family, at, other);
        bite_error_place(&fault, at->file, at->line, at->column);
        bite_error_key(&fault, "%s:%s", grade->section->name, at->field->name);
        tell(told, &fault);
        bite_error_clear(&fault);
    }
}

bite_status bite_family_audit(const bite_library *library, bite_family_state *family,
                              bite_fault_sink fault, void *user, uint32_t *count, bite_error *error)
{
    faults told = {fault, user, NULL, 0};
    bite_status status = bite_table_bytes_find(library, family, error);
    status = status == BITE_OK ? parse_all(library, family, error) : status;
    if (status == BITE_OK && family->status == BITE_OK && !merge_tables(library, family)) {
        status = no_memory(error);
    }
    if (status == BITE_OK && family->status == BITE_OK) {
        status =
            bite_family_inherit_each(library, family, read_with, fault, user, &told.count, error);
    }
    const bite_grade_state *grades = family->grades.items;
    for (size_t i = 0; status == BITE_OK && i < family->grades.count; i++) {
        if (grades[i].whole != NULL) {
            tell_bounds(family, &grades[i], &told);
        }
    }
    *count = told.count;
    return status;
}
