/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Families and their grades: reading materials/NAME.ini, and opening a grade by name. */
#include "core/library/material.h"
#include "core/base/error.h"
#include "core/base/nearest_name.h"
#include "core/base/text.h"
#include "core/library/arena_list.h"
#include "core/library/caution_rule.h"
#include "core/library/library_internal.h"
#include "core/library/name_index.h"
#include "core/library/plugin.h"
#include "core/library/plugin_load.h"
#include "core/library/schema.h"
#include "core/library/table_bytes.h"
#include "core/tables/provenance.h"
#include <stdbool.h>
#include <stdio.h>
#include <string.h>

static bite_status no_memory(bite_error *error)
{
    return bite_error_set(error, BITE_NO_MEMORY, "no memory for a family's tables");
}

static int has_grade(const bite_family_state *family, const char *tail)
{
    const bite_grade_state *grades = family->grades.items;
    for (size_t i = 0; i < family->grades.count; i++) {
        if (strcmp(grades[i].section->tail, tail) == 0) {
            return 1;
        }
    }
    return 0;
}

static int add_grade(const bite_library *library, bite_family_state *family,
                     const bite_section *section, const char *file)
{
    if (has_grade(family, section->tail)) {
        return 1;
    }
    bite_grade_state grade = {section, file,
                              bite_path_join(library->arena, family->name, section->tail), NULL};
    return grade.name != NULL &&
           bite_arena_list_add(library->arena, &family->grades, &grade, sizeof grade) != NULL;
}

static const char *text_of(const bite_section *section, const char *key)
{
    const bite_field_value *field_value = section == NULL ? NULL : bite_section_value(section, key);
    return field_value == NULL ? "" : field_value->text;
}

static bite_status bad_caution(bite_error *error, const bite_table *table,
                               const bite_section *section, const char *key)
{
    error->status = BITE_BAD_FILE;
    bite_error_place(error, bite_table_path(table), section->line, 0);
    bite_error_key(error, "%s:%s", section->name, key);
    return BITE_BAD_FILE;
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
        return bad_caution(error, table, section, rule->severity == 0 ? "severity" : "text");
    }
    if (!bite_source_read(rule->source, &grade, &where)) {
        bite_error_set(error, BITE_BAD_FILE, "a caution needs a source that begins with its grade");
        return bad_caution(error, table, section, "source");
    }
    if (bite_caution_rule_check(rule->when, rule->text, library->grade_fields,
                                library->grade_field_count, error) != BITE_OK) {
        return bad_caution(error, table, section, "when");
    }
    return BITE_OK;
}

static int has_caution(const bite_family_state *family, const char *name)
{
    for (size_t i = 0; i < family->rule_count; i++) {
        if (strcmp(family->rules[i].name, name) == 0) {
            return 1;
        }
    }
    return 0;
}

static bite_status add_sections(const bite_library *library, bite_family_state *family,
                                const bite_table *table, bite_error *error)
{
    size_t count = bite_table_count(table);
    bite_caution_rule *rules =
        bite_arena_alloc(library->arena, family->rule_count + count + 1, sizeof *rules);
    if (rules == NULL) {
        return no_memory(error);
    }
    if (family->rule_count > 0) {
        memcpy(rules, family->rules, family->rule_count * sizeof *rules);
    }
    family->rules = rules;
    for (size_t i = 0; i < count; i++) {
        const bite_section *section = bite_table_at(table, i);
        if (strcmp(section->name, "family") == 0) {
            family->file = family->family == NULL ? bite_table_path(table) : family->file;
            family->family = family->family == NULL ? section : family->family;
        } else if (strncmp(section->name, "grade.", 6) == 0) {
            if (!add_grade(library, family, section, bite_table_path(table))) {
                return no_memory(error);
            }
        } else if (strncmp(section->name, "caution.", 8) == 0 &&
                   !has_caution(family, section->tail)) {
            bite_status status =
                read_caution(library, table, section, &rules[family->rule_count], error);
            if (status != BITE_OK) {
                return status;
            }
            family->rule_count++;
        }
    }
    return BITE_OK;
}

static bite_status read_one(const bite_library *library, bite_family_state *family,
                            const bite_table_bytes *bytes, bite_error *error)
{
    bite_section_schema sections[BITE_MATERIAL_SECTIONS];
    bite_table_schema schema =
        bite_material_schema(library->grade_fields, library->grade_field_count, sections);
    bite_table *table = NULL;
    bite_status status =
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
    return add_sections(library, family, table, error);
}

bite_status bite_material_read(const bite_library *library, bite_family_state *family,
                               bite_error *error)
{
    if (family->read) {
        return BITE_OK;
    }
    bite_status found = bite_table_bytes_find(library, family, error);
    if (found != BITE_OK) {
        return found;
    }
    for (size_t i = 0; i < family->bytes_count && family->status == BITE_OK; i++) {
        bite_error fault = BITE_ERROR_INIT;
        bite_status status = read_one(library, family, &family->bytes[i], &fault);
        if (status == BITE_NO_MEMORY) {
            return no_memory(error);
        }
        if (status != BITE_OK) {
            family->status = status;
            family->error = fault;
            if (!bite_library_add_left_out(library, family->name, family->bytes[i].path, &fault)) {
                return no_memory(error);
            }
        }
    }
    if (family->status == BITE_OK) { /* of a faulty family they tell which names it would have */
        bite_table_bytes_free(library, family);
    }
    family->read = 1;
    return BITE_OK;
}

static bool family_has_name(const bite_family_state *family, const char *name)
{
    return bite_text_same_designation(family->name, name) ||
           bite_text_list_has(text_of(family->family, "also"), name,
                              bite_text_same_designation_part);
}

/* How well a grade fits a name: the lower, the better. */
typedef enum grade_fit {
    FIT_EXACT,       /* as it is written in the table */
    FIT_DESIGNATION, /* with other separators */
    FIT_NEAR,        /* the name is that of a near alloy, which the tables lack */
    FIT_NONE
} grade_fit;

static grade_fit fit_of(const bite_section *grade, const char *name)
{
    static const bite_text_comparison comparisons[] = {bite_text_equals_part,
                                                       bite_text_same_designation_part};
    const char *title = text_of(grade, "title");
    const char *also = text_of(grade, "also");
    for (int fit = FIT_EXACT; fit <= FIT_DESIGNATION; fit++) {
        bite_text_comparison same = comparisons[fit];
        if (same(grade->tail, strlen(grade->tail), name) || same(title, strlen(title), name) ||
            bite_text_list_has(also, name, same)) {
            return (grade_fit)fit;
        }
    }
    return bite_text_list_has(text_of(grade, "near"), name, bite_text_same_designation_part)
               ? FIT_NEAR
               : FIT_NONE;
}

/* The first of the grades that fit best; NULL: none fits. *fit: how well it does. */
static bite_grade_state *grade_in(bite_family_state *family, const char *name, grade_fit *fit)
{
    bite_grade_state *grades = family->grades.items;
    bite_grade_state *best = NULL;
    *fit = FIT_NONE;
    for (size_t i = 0; i < family->grades.count; i++) {
        grade_fit own = fit_of(grades[i].section, name);
        if (own < *fit) {
            *fit = own;
            best = &grades[i];
        }
    }
    return best;
}

static bite_grade_state *default_grade(bite_family_state *family)
{
    const char *name = text_of(family->family, "default");
    grade_fit fit = FIT_NONE;
    bite_grade_state *grade = name[0] == 0 ? NULL : grade_in(family, name, &fit);
    return grade == NULL && family->grades.count > 0 ? family->grades.items : grade;
}

static bite_family_state *family_at(const bite_library *library, size_t at)
{
    return ((bite_family_state **)library->found->items)[at];
}

static const char *grade_name_at(size_t at, const void *list)
{
    const bite_arena_list *grades = list;
    return ((const bite_grade_state *)grades->items)[at].section->tail;
}

static const char *family_name_at(size_t at, const void *list)
{
    const bite_arena_list *found = list;
    return (*((bite_family_state *const *)found->items + at))->name;
}

static bite_status report_bad_family(const bite_family_state *family, bite_error *error)
{
    if (error != NULL) {
        *error = family->error;
    }
    return family->status;
}

static bite_grade_match match_of(grade_fit fit)
{
    return fit == FIT_NEAR ? BITE_MATCH_NEAR : BITE_MATCH_GRADE;
}

/* A grade of a family by the part of its name after the slash; NULL: the default grade. */
static bite_status find_in_family(bite_family_state *family, const char *grade,
                                  bite_grade_state **out, bite_grade_match *match,
                                  bite_error *error)
{
    grade_fit fit = FIT_NONE;
    if (family->status != BITE_OK) {
        return report_bad_family(family, error);
    }
    *out = grade == NULL ? default_grade(family) : grade_in(family, grade, &fit);
    *match = grade == NULL ? BITE_MATCH_FAMILY : match_of(fit);
    if (*out != NULL) {
        return BITE_OK;
    }
    const char *near = grade == NULL ? NULL
                                     : bite_text_nearest(grade, family->grades.count, grade_name_at,
                                                         &family->grades);
    if (grade == NULL) {
        bite_error_set(error, BITE_UNKNOWN_NAME, "the table of %s has no grades", family->name);
    } else {
        bite_error_set(error, BITE_UNKNOWN_NAME, "%s has no grade named %.60s", family->name,
                       grade);
    }
    bite_error_key(error, "material");
    if (near != NULL) {
        bite_error_hint(error, "did you mean %s/%s?", family->name, near);
    } else if (family->grades.count > 0) {
        bite_error_hint(error, "for example %s",
                        ((bite_grade_state *)family->grades.items)[0].name);
    }
    return BITE_UNKNOWN_NAME;
}

/* Where a family is looked for, in this order. */
typedef enum search_stage {
    BY_FILE,   /* the family whose file has the name */
    BY_INDEX,  /* those with the name among the names of their tables */
    BY_MENTION /* those that mention it: it may be in a line that is faulty */
} search_stage;

/* Whether a family is to be parsed to find a name. grades: the name may be that of a grade. A table
 * that cannot be read is a candidate, so that its fault is reported. */
static bite_status is_candidate(const bite_library *library, bite_family_state *family,
                                const char *name, bool grades, search_stage stage, bool *candidate,
                                bite_error *error)
{
    *candidate = bite_text_same_designation(family->name, name);
    if (*candidate || stage == BY_FILE) {
        return BITE_OK;
    }
    bite_status status = bite_table_bytes_index(library, family, error);
    *candidate =
        (family->read && family->status == BITE_OK) || family->unreadable ||
        bite_name_index_has(&family->names, name, grades) ||
        ((stage == BY_MENTION || family->names.doubtful) && bite_table_bytes_mention(family, name));
    return status;
}

/* One stage of the search. *faulty: the first candidate that was left out. */
static bite_status find_family_at(const bite_library *library, const char *name, bool grades,
                                  search_stage stage, bite_family_state **out,
                                  bite_family_state **faulty, bite_error *error)
{
    for (size_t i = 0; i < library->found->count; i++) {
        bite_family_state *family = family_at(library, i);
        bool candidate = false;
        bite_status status = is_candidate(library, family, name, grades, stage, &candidate, error);
        if (status == BITE_OK && candidate) {
            status = bite_material_read(library, family, error);
        }
        if (status != BITE_OK) {
            return status;
        }
        if (candidate && family_has_name(family, name)) {
            *out = family;
            return BITE_OK;
        }
        if (candidate && family->status != BITE_OK && *faulty == NULL) {
            *faulty = family;
        }
    }
    return BITE_OK;
}

/* A grade by its own name, such as 6061-T6, in any family: the one that fits best. *other: a grade
 * of another family that fits as well; NULL: none. All families that may have the name have been
 * parsed. */
static bite_grade_state *grade_in_any_family(const bite_library *library, const char *name,
                                             bite_family_state **family, bite_grade_state **other,
                                             grade_fit *fit)
{
    bite_grade_state *found = NULL;
    *other = NULL;
    *fit = FIT_NONE;
    for (size_t i = 0; i < library->found->count; i++) {
        bite_family_state *state = family_at(library, i);
        grade_fit own = FIT_NONE;
        bite_grade_state *grade = state->status == BITE_OK ? grade_in(state, name, &own) : NULL;
        if (own < *fit) {
            found = grade;
            *fit = own;
            *family = state;
            *other = NULL;
        } else if (grade != NULL && own == *fit && *other == NULL) {
            *other = grade;
        }
    }
    return found;
}

/* Parses families until one has the name, or, with grades, until one has a grade of that name. */
static bite_status find_family(const bite_library *library, const char *name, bool grades,
                               bite_family_state **out, bite_family_state **faulty,
                               bite_error *error)
{
    bite_family_state *family = NULL;
    bite_grade_state *other = NULL;
    grade_fit fit = FIT_NONE;
    bite_status status = BITE_OK;
    *out = NULL;
    for (int stage = BY_FILE; stage <= BY_MENTION && status == BITE_OK; stage++) {
        status = find_family_at(library, name, grades, (search_stage)stage, out, faulty, error);
        if (*out != NULL || (grades && stage >= BY_INDEX &&
                             grade_in_any_family(library, name, &family, &other, &fit) != NULL)) {
            break;
        }
    }
    return status;
}

/* Names all families that have a grade which fits as well. */
static bite_status report_ambiguous(const bite_library *library, const char *name, grade_fit fit,
                                    bite_error *error)
{
    char list[200] = "";
    size_t used = 0;
    const bite_grade_state *last = NULL;
    for (size_t i = 0; i < library->found->count; i++) {
        bite_family_state *family = family_at(library, i);
        grade_fit own = FIT_NONE;
        const bite_grade_state *grade =
            family->status == BITE_OK ? grade_in(family, name, &own) : NULL;
        if (own != fit) {
            continue;
        }
        if (last != NULL && used + strlen(last->name) + 3 < sizeof list) {
            used += (size_t)snprintf(list + used, sizeof list - used, "%s%s", used > 0 ? ", " : "",
                                     last->name);
        }
        last = grade;
    }
    bite_error_set(error, BITE_UNKNOWN_NAME, "more than one family has a grade named %.60s", name);
    bite_error_key(error, "material");
    bite_error_hint(error, "write %s or %.60s", list, last == NULL ? "" : last->name);
    return BITE_UNKNOWN_NAME;
}

/* first: the part of the name before the slash. */
static bite_status report_unknown(const bite_library *library, const char *name, const char *first,
                                  bite_error *error)
{
    const char *near =
        bite_text_nearest(first, library->found->count, family_name_at, library->found);
    bite_error_set(error, BITE_UNKNOWN_NAME, "there is no material named %.60s", name);
    bite_error_key(error, "material");
    if (library->found->count == 0) {
        bite_error_hint(error, "no tables of materials were found; set COOLBITE_TABLE_PATH to the "
                               "folder of the tables");
    } else {
        bite_error_hint(
            error, near == NULL ? "coolbite list materials shows the names" : "did you mean %s?",
            near);
    }
    return BITE_UNKNOWN_NAME;
}

static bite_status find_grade(const bite_library *library, const char *name,
                              bite_family_state **family, bite_grade_state **grade,
                              bite_grade_match *match, bite_error *error)
{
    char first[96] = "";
    const char *slash = strchr(name, '/');
    size_t length = slash == NULL ? strlen(name) : (size_t)(slash - name);
    if (length >= sizeof first) {
        return report_unknown(library, name, first, error);
    }
    memcpy(first, name, length);
    first[length] = 0;
    bite_family_state *faulty = NULL;
    bite_status status = find_family(library, first, slash == NULL, family, &faulty, error);
    if (status != BITE_OK) {
        return status;
    }
    if (*family != NULL) {
        return find_in_family(*family, slash == NULL ? NULL : slash + 1, grade, match, error);
    }
    bite_grade_state *other = NULL;
    grade_fit fit = FIT_NONE;
    *grade = slash == NULL ? grade_in_any_family(library, name, family, &other, &fit) : NULL;
    *match = match_of(fit);
    if (*grade != NULL && other == NULL) {
        return BITE_OK;
    }
    if (other != NULL) {
        return report_ambiguous(library, name, fit, error);
    }
    return faulty != NULL ? report_bad_family(faulty, error)
                          : report_unknown(library, name, first, error);
}

static bite_status open_grade(const bite_library *library, bite_family_state *family,
                              bite_grade_state *grade, bite_error *error)
{
    const bite_section *section = grade->section;
    bite_material *material = bite_arena_alloc(library->arena, 1, sizeof *material);
    bite_field_value *field_values =
        bite_arena_alloc(library->arena, section->value_count + 1, sizeof *field_values);
    if (material == NULL || field_values == NULL) {
        return no_memory(error);
    }
    if (section->value_count > 0) {
        memcpy(field_values, section->values, section->value_count * sizeof *field_values);
    }
    bite_item_record record = {grade->name, section->tail, text_of(section, "summary"), grade->file,
                               "",          field_values,  section->value_count};
    if (bite_section_value(section, "title") != NULL) {
        record.title = text_of(section, "title");
    }
    material->record = record;
    material->family_name = family->name;
    material->plugin = family->tried == BITE_PLUGIN_GOOD ? family->plugin_path : "";
    material->family = family->tried == BITE_PLUGIN_GOOD ? family->plugin : NULL;
    material->rules = family->rules;
    material->rule_count = family->rule_count;
    if (material->family != NULL) {
        bite_status status = bite_plugin_fill(library, material->family, material, error);
        if (status != BITE_OK) {
            return status;
        }
    }
    grade->material = material;
    return BITE_OK;
}

bite_status bite_library_grade(const bite_library *library, const char *name,
                               const bite_material **material, bite_error *error)
{
    bite_grade_match match = BITE_MATCH_GRADE;
    return bite_library_grade_match(library, name, material, &match, error);
}

bite_status bite_library_grade_match(const bite_library *library, const char *name,
                                     const bite_material **material, bite_grade_match *match,
                                     bite_error *error)
{
    bite_family_state *family = NULL;
    bite_grade_state *grade = NULL;
    (void)pthread_mutex_lock(library->lock);
    bite_status status = find_grade(library, name, &family, &grade, match, error);
    if (status == BITE_OK && grade->material == NULL) {
        status = bite_plugin_load(library, family, error);
        if (status == BITE_OK) {
            status = open_grade(library, family, grade, error);
        }
    }
    if (status == BITE_OK) {
        *material = grade->material;
    }
    (void)pthread_mutex_unlock(library->lock);
    return status;
}

const char *bite_material_substance(const bite_material *material)
{
    const bite_field_value *value = bite_item_field(&material->record, "substance");
    return value == NULL ? "any" : value->field->words[value->word];
}
