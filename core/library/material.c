/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Finding a grade by name, and opening it. */
#include "core/library/material.h"
#include "core/base/display_text.h"
#include "core/base/error.h"
#include "core/base/text.h"
#include "core/library/family_tables.h"
#include "core/library/grade_cautions.h"
#include "core/library/grade_name.h"
#include "core/library/inheritance.h"
#include "core/library/library_internal.h"
#include "core/library/name_index.h"
#include "core/library/plugin.h"
#include "core/library/plugin_load.h"
#include "core/library/plugin_own.h"
#include "core/library/table_bytes.h"
#include <stdbool.h>
#include <stdio.h>
#include <string.h>

static bite_status no_memory(bite_error *error)
{
    return bite_error_set(error, BITE_NO_MEMORY, "no memory for a family's tables");
}

static bite_family_state *family_at(const bite_library *library, size_t at)
{
    return ((bite_family_state **)library->found->items)[at];
}

static bite_status report_bad_family(const bite_family_state *family, bite_error *error)
{
    if (error != NULL) {
        *error = family->error;
    }
    return family->status;
}

static bite_grade_match match_of(bite_grade_fit fit)
{
    return fit == BITE_FIT_NEAR ? BITE_MATCH_NEAR : BITE_MATCH_GRADE;
}

/* The first of the tables of a family that were left out: the grade may be in it. */
static bite_status report_left_out(const bite_family_state *family, const char *grade,
                                   bite_error *error)
{
    const bite_item *left = family->left_out.items;
    bite_error_set(error, BITE_BAD_FILE,
                   "%s has no grade named %.60s, and this table was left out: %.150s", family->name,
                   grade, left[0].summary);
    bite_error_place(error, left[0].file, 0, 0);
    bite_error_hint(error, "correct that table, or name another grade");
    return BITE_BAD_FILE;
}

/* Names the states of a grade; "" if it has none. */
static void list_states(const bite_family_state *family, const bite_grade_state *base, char *to,
                        size_t size)
{
    const bite_grade_state *grades = family->grades.items;
    size_t length = strlen(base->section->tail);
    to[0] = 0;
    for (size_t i = 0; i < family->grades.count; i++) {
        const char *tail = grades[i].section->tail;
        size_t used = strlen(to);
        if (strncmp(tail, base->section->tail, length) == 0 && tail[length] == '-' &&
            bite_section_text(grades[i].section, "state")[0] != 0) {
            (void)snprintf(to + used, size - used, "%s%s@%s", used > 0 ? ", " : "",
                           base->section->tail, bite_section_text(grades[i].section, "state"));
        }
    }
}

/* A grade in a named state, GRADE@STATE, which is the grade GRADE-STATE of a table. */
static bite_status find_state(bite_family_state *family, const char *name, bite_grade_state **out,
                              bite_error *error)
{
    char base[96];
    char whole[96];
    char states[120];
    bite_grade_fit fit = BITE_FIT_NONE;
    size_t length = strcspn(name, "@");
    bool complete = length < sizeof base;
    (void)snprintf(base, sizeof base, "%.*s", complete ? (int)length : (int)sizeof base - 1, name);
    bite_grade_state *grade = base[0] == 0 ? bite_grade_default(family)
                              : complete   ? bite_grade_in(family, base, &fit)
                                           : NULL; /* longer than any */
    if (grade == NULL) {
        bite_error_set(error, BITE_UNKNOWN_NAME, "%s has no grade named %.60s", family->name, base);
        bite_error_key(error, "material");
        return BITE_UNKNOWN_NAME;
    }
    int fits = snprintf(whole, sizeof whole, "%s-%s", grade->section->tail, name + length + 1);
    *out = fits > 0 && (size_t)fits < sizeof whole ? bite_grade_in(family, whole, &fit) : NULL;
    if (*out != NULL && bite_section_text((*out)->section, "state")[0] != 0) {
        return BITE_OK;
    }
    list_states(family, grade, states, sizeof states);
    bite_error_set(error, BITE_UNKNOWN_NAME, "%.60s has no state %.60s", grade->name,
                   name + length + 1);
    bite_error_key(error, "material");
    bite_error_hint(error, states[0] == 0 ? "its table states none%s" : "its states are %s",
                    states);
    return BITE_UNKNOWN_NAME;
}

/* A grade of a family by the part of its name after the slash; NULL: the default grade. */
static bite_status find_in_family(bite_family_state *family, const char *grade,
                                  bite_grade_state **out, bite_grade_match *match,
                                  bite_error *error)
{
    bite_grade_fit fit = BITE_FIT_NONE;
    if (family->status != BITE_OK) {
        return report_bad_family(family, error);
    }
    if (grade != NULL && strchr(grade, '@') != NULL) {
        *match = BITE_MATCH_GRADE;
        return find_state(family, grade, out, error);
    }
    *out = grade == NULL ? bite_grade_default(family) : bite_grade_in(family, grade, &fit);
    *match = grade == NULL ? BITE_MATCH_FAMILY : match_of(fit);
    if (*out != NULL) {
        return BITE_OK;
    }
    if (family->left_out.count > 0 && grade != NULL) { /* it may be in a table that was left out */
        return report_left_out(family, grade, error);
    }
    const char *near = grade == NULL ? NULL : bite_grade_nearest(family, grade);
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

/* Whether a name may be in a table of the family that was left out. */
static bool may_hide(const bite_family_state *family, const char *name)
{
    return family->status != BITE_OK ||
           (family->left_out.count > 0 && bite_table_bytes_mention(family, name));
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
        if (candidate && bite_family_has_name(family, name)) {
            *out = family;
            return BITE_OK;
        }
        if (candidate && *faulty == NULL && may_hide(family, name)) {
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
                                             bite_grade_fit *fit)
{
    bite_grade_state *found = NULL;
    *other = NULL;
    *fit = BITE_FIT_NONE;
    for (size_t i = 0; i < library->found->count; i++) {
        bite_family_state *state = family_at(library, i);
        bite_grade_fit own = BITE_FIT_NONE;
        bite_grade_state *grade =
            state->status == BITE_OK ? bite_grade_in(state, name, &own) : NULL;
        if (grade != NULL && grade->of_parent) { /* found under the name of its own family */
            continue;
        }
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
    bite_grade_fit fit = BITE_FIT_NONE;
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
static bite_status report_ambiguous(const bite_library *library, const char *name,
                                    bite_grade_fit fit, bite_error *error)
{
    char list[200] = "";
    size_t used = 0;
    const bite_grade_state *last = NULL;
    for (size_t i = 0; i < library->found->count; i++) {
        bite_family_state *family = family_at(library, i);
        bite_grade_fit own = BITE_FIT_NONE;
        const bite_grade_state *grade =
            family->status == BITE_OK ? bite_grade_in(family, name, &own) : NULL;
        if (own != fit || grade->of_parent) {
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
    const char *near = bite_family_nearest(library, first);
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
    slash = slash == NULL ? strchr(name, '@') : slash; /* a state of the default grade */
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
        return find_in_family(*family, slash == NULL ? NULL : slash + (*slash == '/'), grade, match,
                              error);
    }
    bite_grade_state *other = NULL;
    bite_grade_fit fit = BITE_FIT_NONE;
    *grade = slash == NULL ? grade_in_any_family(library, name, family, &other, &fit) : NULL;
    *match = match_of(fit);
    if (*grade != NULL && other == NULL) {
        return BITE_OK;
    }
    if (other != NULL) {
        return report_ambiguous(library, name, fit, error);
    }
    if (faulty != NULL && faulty->status == BITE_OK) {
        return report_left_out(faulty, name, error);
    }
    return faulty != NULL ? report_bad_family(faulty, error)
                          : report_unknown(library, name, first, error);
}

/* Whether the table works alone although its plugin was refused. */
static bool may_do_without(const bite_family_state *family, bite_status status)
{
    return (status == BITE_BAD_PLUGIN || status == BITE_UNSAFE) &&
           bite_plugin_need_of(family) != BITE_PLUGIN_REQUIRED;
}

static bool has_own_figures(const bite_item_record *record)
{
    for (size_t i = 0; i < record->value_count; i++) {
        if (record->values[i].field->type == BITE_FIELD_OWN) {
            return true;
        }
    }
    return false;
}

/* Why the plugin of a grade is not used, as a sentence for its answers; "" if it is, or if there is
 * none to miss. NULL: no memory. */
static const char *remark_of(const bite_library *library, const bite_family_state *family,
                             const bite_item_record *record)
{
    char text[1000];
    char file[96];
    (void)snprintf(file, sizeof file, "%s.so", family->name);
    if (family->tried == BITE_PLUGIN_REFUSED) {
        (void)snprintf(
            text, sizeof text,
            "The plugin of this family was left out, for %s (%s). The table works alone: "
            "the plugin's figures, limits and cautions are missing.",
            family->plugin_error.message, family->plugin_error.file);
    } else if (family->tried == BITE_PLUGIN_NONE &&
               (bite_plugin_need_of(family) == BITE_PLUGIN_OPTIONAL || has_own_figures(record))) {
        (void)snprintf(text, sizeof text,
                       "The plugin of this family, %s, is in no folder of plugins. The table works "
                       "alone: the plugin's figures, limits and cautions are missing.",
                       file);
    } else {
        return "";
    }
    for (char *at = text; *at != 0; at++) {
        *at = *at == '{' ? '(' : *at == '}' ? ')' : *at; /* places of a caution */
    }
    return bite_arena_text(library->arena, text, bite_text_complete_length(text, strlen(text)));
}

/* The plugin of the family, else that of the nearest family that the grade is like. *owner: the
 * family whose it is. If that plugin cannot be used, and need not be, *owner's `tried` says so. */
static bite_status find_plugin(const bite_library *library, bite_family_state *family,
                               const bite_grade_state *grade, bite_family_state **owner,
                               bite_error *error)
{
    bite_status status = bite_plugin_load(library, family, error);
    bite_family_state *own = family;
    while (status == BITE_OK && family->tried != BITE_PLUGIN_GOOD && grade->parent != NULL) {
        family = grade->parent_family;
        grade = grade->parent;
        status = bite_plugin_load(library, family, error);
    }
    if (may_do_without(family, status)) {
        bite_error_clear(error);
        status = BITE_OK;
    }
    *owner = family->tried == BITE_PLUGIN_NONE ? own : family;
    return status;
}

/* Figures and limits by the plugin. */
static bite_status complete(const bite_library *library, const bite_family_state *owner,
                            const bite_grade_state *grade, bite_material *material,
                            bite_error *error)
{
    bite_item_record *record = &material->record;
    bite_field_value *values =
        bite_arena_alloc(library->arena, record->value_count + 1, sizeof *values);
    if (values == NULL) {
        return no_memory(error);
    }
    if (record->value_count > 0) {
        memcpy(values, record->values, record->value_count * sizeof *values);
    }
    bite_status status = bite_plugin_own_figures(owner->own, grade->file, grade->whole, values,
                                                 record->value_count, error);
    record->values = values;
    status = status != BITE_OK
                 ? status
                 : bite_plugin_fill(library, owner->plugin, owner->own, material, error);
    return status != BITE_OK ? status
                             : bite_plugin_own_limits(library, owner->own, material, error);
}

static bite_status open_grade(const bite_library *library, bite_family_state *family,
                              bite_grade_state *grade, bite_error *error)
{
    const bite_section *section = grade->whole;
    bite_family_state *owner = NULL;
    bite_material *material = bite_arena_alloc(library->arena, 1, sizeof *material);
    bite_status status =
        material == NULL ? no_memory(error) : find_plugin(library, family, grade, &owner, error);
    if (status != BITE_OK) {
        return status;
    }
    bite_item_record record = {grade->name,
                               section->tail,
                               bite_section_text(section, "summary"),
                               grade->file,
                               "",
                               section->values,
                               section->value_count};
    if (bite_section_value(section, "title") != NULL) {
        record.title = bite_section_text(section, "title");
    }
    material->record = record;
    material->family_name = family->name;
    material->plugin = owner->tried == BITE_PLUGIN_GOOD ? owner->plugin_path : "";
    material->family = owner->tried == BITE_PLUGIN_GOOD ? owner->plugin : NULL;
    material->own = NULL;
    memset(material->own_values, 0, sizeof material->own_values);
    material->remark = remark_of(library, owner, &material->record);
    if (material->remark == NULL || !bite_grade_find_kin(library, family, grade, material) ||
        !bite_grade_cautions(library, family, grade, material)) {
        return no_memory(error);
    }
    if (material->family != NULL) {
        status = complete(library, owner, grade, material, error);
    }
    grade->material = status == BITE_OK ? material : NULL;
    return status;
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
        status = open_grade(library, family, grade, error);
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

bite_status bite_library_family_cases(const bite_library *library, const char *name,
                                      const char **family, const bite_family_case **cases,
                                      size_t *count, bite_error *error)
{
    bite_family_state *state = NULL;
    bite_grade_state *grade = NULL;
    bite_grade_match match = BITE_MATCH_GRADE;
    (void)pthread_mutex_lock(library->lock);
    bite_status status = find_grade(library, name, &state, &grade, &match, error);
    if (status == BITE_OK) {
        *family = state->name;
        *cases = state->cases.items;
        *count = state->cases.count;
    }
    (void)pthread_mutex_unlock(library->lock);
    return status;
}
