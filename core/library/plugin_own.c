/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Figures and limits of a plugin's own: their lists, their figures in a grade, and where the
 * numbers of the limits are. */
#include "core/library/plugin_own.h"
#include "core/base/error.h"
#include "core/base/nearest_name.h"
#include "core/base/text.h"
#include "core/library/plugin_host.h"
#include "core/names/own_limits.h"
#include "core/names/registry.h"
#include "core/tables/field_value.h"
#include "core/tables/provenance.h"
#include "core/units/unit_table.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

/* ---- what a plugin lists ---- */

#define NAME_MOST 31
#define TEXT_MOST 500

/* Writes what is wrong with a figure or limit of this name, and returns 0. */
static int fault_of(char *fault, const char *what, const char *name, const char *why)
{
    char shown[80];
    (void)bite_text_escape(name == NULL ? "(no name)" : name, shown, sizeof shown);
    (void)snprintf(fault, BITE_OWN_FAULT_MAX, "its %s %s: %s", what, shown, why);
    return 0;
}

static int is_lower(char c)
{
    return c >= 'a' && c <= 'z';
}

static int is_name(const char *name)
{
    size_t length = name == NULL ? 0 : strlen(name);
    int good = length > 0 && length <= NAME_MOST && is_lower(name[0]);
    for (size_t i = 0; good && i < length; i++) {
        good = is_lower(name[i]) || bite_text_is_digit(name[i]) || name[i] == '_';
    }
    return good;
}

/* Whether the library has a number or a key of this name. */
static int is_taken(const bite_library *library, const char *name)
{
    uint32_t id = 0;
    uint32_t is_limit = 0;
    return bite_input_find(name) != NULL || bite_registry_find(name, &id, &is_limit) != NULL ||
           bite_plugin_field(library, name) != NULL;
}

static int is_text(const char *text)
{
    return text != NULL && text[0] != 0 && strlen(text) <= TEXT_MOST &&
           bite_plugin_text_fault(text) == BITE_TEXT_SOUND;
}

/* The kind of a noun without its article; BITE_KIND_COUNT: none. */
static bite_kind kind_of(const char *quantity)
{
    for (int kind = 0; quantity != NULL && kind < BITE_KIND_COUNT; kind++) {
        const char *noun = strchr(bite_unit_noun((bite_kind)kind), ' ');
        if (strcmp(noun + 1, quantity) == 0) { /* each noun has its article */
            return (bite_kind)kind;
        }
    }
    return BITE_KIND_COUNT;
}

static const char *common_fault(const bite_library *library, const struct bite_plugin_own *own,
                                const char *name, const char *quantity)
{
    if (!is_name(name)) {
        return "a name begins with a letter and has only a to z, digits and _, fewer than 32";
    }
    if (is_taken(library, name)) {
        return "the library has this name already";
    }
    if (bite_plugin_own_field(own, name) != NULL) {
        return "another figure of the plugin has this name";
    }
    for (size_t i = 0; i < own->limit_count; i++) {
        if (strcmp(own->limits[i].name, name) == 0) {
            return "another limit of the plugin has this name";
        }
    }
    return kind_of(quantity) == BITE_KIND_COUNT
               ? "it measures no quantity of the library, such as length or plain number"
               : NULL;
}

const bite_field *bite_plugin_own_field(const struct bite_plugin_own *own, const char *name)
{
    return bite_plugin_field_in(own->figures, own->figure_count, name);
}

static int read_figure(const bite_library *library, const struct bite_family_figure *figure,
                       struct bite_plugin_own *own, char *fault)
{
    if (figure->struct_size < sizeof *figure) {
        return fault_of(fault, "figures", "", "struct_size is shorter than a figure");
    }
    const char *wrong = common_fault(library, own, figure->name, figure->quantity);
    if (wrong == NULL && !is_text(figure->summary)) {
        wrong = "it has no summary of one line";
    }
    if (wrong == NULL &&
        !(isfinite(figure->least) && isfinite(figure->most) && figure->least < figure->most)) {
        wrong = "its range is not one";
    }
    if (wrong == NULL && own->figure_count == BITE_FAMILY_FIGURES_MAX) {
        wrong = "a plugin has at most 16 figures";
    }
    if (wrong != NULL) {
        return fault_of(fault, "figure", figure->name, wrong);
    }
    bite_field field = {figure->name,  BITE_FIELD_FIGURE, kind_of(figure->quantity),
                        figure->least, figure->most,      NULL};
    own->figures[own->figure_count] = field;
    own->summaries[own->figure_count] = figure->summary;
    own->needed[own->figure_count++] = figure->needed != 0;
    return 1;
}

/* The input and the word of "operation:drill"; 0: there is none. */
static int find_word(const char *name, const bite_input **input, uint32_t *word)
{
    char first[NAME_MOST + 1];
    const char *colon = strchr(name, ':');
    size_t length = colon == NULL ? 0 : (size_t)(colon - name);
    if (length == 0 || length >= sizeof first) {
        return 0;
    }
    memcpy(first, name, length);
    first[length] = 0;
    *input = bite_input_find(first);
    for (uint32_t i = 0; *input != NULL && i < (*input)->words; i++) {
        if (strcmp(bite_input_word(*input, i), colon + 1) == 0) {
            *word = i;
            return 1;
        }
    }
    return 0;
}

/* Finds a number of the cut; 0: there is none of this name. */
static int find_number(const char *name, bite_own_number *number)
{
    const bite_input *input = bite_input_find(name);
    uint32_t id = 0;
    uint32_t is_limit = 1;
    number->word = 0;
    if (find_word(name, &input, &number->word)) {
        number->place = BITE_OWN_WORD;
        number->index = input->offset;
        return 1;
    }
    input = bite_input_find(name);
    if (input != NULL && input->words == 0) {
        number->place = BITE_OWN_INPUT;
        number->index = input->offset;
        return 1;
    }
    /* the frequency of the tip is computed once for all draws */
    if (bite_registry_find(name, &id, &is_limit) != NULL && !is_limit && id != BITE_TIP_FREQUENCY) {
        number->place = BITE_OWN_VALUE;
        number->index = id;
        return 1;
    }
    return 0;
}

static int is_figure(const bite_library *library, const struct bite_plugin_own *own,
                     const char *name)
{
    const bite_field *field = bite_plugin_own_field(own, name);
    field = field == NULL ? bite_plugin_field(library, name) : field;
    return field != NULL && field->type == BITE_FIELD_FIGURE;
}

static int check_numbers(const bite_library *library, const struct bite_plugin_own *own,
                         const struct bite_family_limit *limit, char *fault)
{
    const char *const *names = limit->numbers;
    for (size_t i = 0; names != NULL && names[i] != NULL; i++) {
        bite_own_number number;
        char why[120];
        char shown[60];
        if (i == BITE_FAMILY_NUMBERS_MAX) {
            return fault_of(fault, "limit", limit->name, "it reads more than 16 numbers");
        }
        if (!find_number(names[i], &number) && !is_figure(library, own, names[i])) {
            (void)bite_text_escape(names[i], shown, sizeof shown);
            (void)snprintf(why, sizeof why, "it reads %s, which is no number of a cut", shown);
            return fault_of(fault, "limit", limit->name, why);
        }
    }
    return 1;
}

static int read_limit(const bite_library *library, const struct bite_family_limit *limit,
                      struct bite_plugin_own *own, char *fault)
{
    bite_source_grade grade = BITE_GRADE_NONE;
    const char *where = "";
    if (limit->struct_size < sizeof *limit) {
        return fault_of(fault, "limits", "", "struct_size is shorter than a limit");
    }
    const char *wrong = common_fault(library, own, limit->name, limit->quantity);
    if (wrong == NULL && !(is_text(limit->summary) && is_text(limit->equation) &&
                           is_text(limit->remedy) && is_text(limit->source))) {
        wrong = "it needs a summary, an equation, a source and a remedy, of one line each";
    }
    if (wrong == NULL && !bite_source_read(limit->source, &grade, &where)) {
        wrong = "its source does not begin with a grade";
    }
    if (wrong == NULL && limit->judge == NULL) {
        wrong = "it has no function";
    }
    if (wrong == NULL && own->limit_count == BITE_FAMILY_LIMITS_MAX) {
        wrong = "a plugin has at most 4 limits";
    }
    if (wrong != NULL) {
        return fault_of(fault, "limit", limit->name, wrong);
    }
    if (!check_numbers(library, own, limit, fault)) {
        return 0;
    }
    own->kinds[own->limit_count] = kind_of(limit->quantity);
    own->limits[own->limit_count++] = *limit;
    return 1;
}

const struct bite_plugin_own *bite_plugin_own_read(const bite_library *library,
                                                   const struct bite_family *family, char *fault)
{
    struct bite_plugin_own *own = bite_arena_alloc(library->arena, 1, sizeof *own);
    int good = own != NULL;
    fault[0] = 0;
    if (own == NULL) {
        return NULL;
    }
    own->figure_count = own->limit_count = 0;
    for (size_t i = 0; good && family->figures != NULL && family->figures[i] != NULL; i++) {
        good = read_figure(library, family->figures[i], own, fault);
    }
    for (size_t i = 0; good && family->limits != NULL && family->limits[i] != NULL; i++) {
        good = read_limit(library, family->limits[i], own, fault);
    }
    return good ? own : NULL;
}

/* ---- figures of a grade ---- */

static const char *figure_name(size_t at, const void *list)
{
    return ((const struct bite_plugin_own *)list)->figures[at].name;
}

static bite_status read_value(const struct bite_plugin_own *own, const char *name,
                              bite_field_value *value, bite_error *error)
{
    const bite_field *field = bite_plugin_own_field(own, name);
    if (field == NULL) {
        const char *near = bite_text_nearest(name, own->figure_count, figure_name, own);
        bite_error_set(error, BITE_BAD_FILE, "the family's plugin has no figure %.60s", name);
        if (near != NULL) {
            bite_error_hint(error, "did you mean " BITE_OWN_PREFIX "%s?", near);
        }
        return BITE_BAD_FILE;
    }
    bite_field_value fresh = *value;
    fresh.field = field;
    bite_status status = bite_field_value_figure(value->text, &fresh, error);
    if (status == BITE_OK) {
        *value = fresh;
    }
    return status;
}

bite_status bite_plugin_own_figures(const struct bite_plugin_own *own, const char *file,
                                    const bite_section *section, bite_field_value *values,
                                    size_t count, bite_error *error)
{
    static const size_t prefix = sizeof BITE_OWN_PREFIX - 1;
    for (size_t i = 0; i < count; i++) {
        const char *key = values[i].field->name;
        if (strncmp(key, BITE_OWN_PREFIX, prefix) != 0) {
            continue;
        }
        bite_status status = read_value(own, key + prefix, &values[i], error);
        if (status != BITE_OK) {
            bite_error_place(error, file, values[i].line, 0);
            bite_error_key(error, "%s:%s", section->name, key);
            return status;
        }
    }
    return BITE_OK;
}

/* ---- limits of a grade ---- */

static bite_status check_needed(const struct bite_plugin_own *own, const bite_material *material,
                                bite_error *error)
{
    for (size_t i = 0; i < own->figure_count; i++) {
        const char *name = own->figures[i].name;
        if (own->needed[i] && bite_item_field(&material->record, name) == NULL) {
            bite_error_set(error, BITE_BAD_FILE,
                           "the family's plugin needs the figure %s (%s) of %s", name,
                           own->summaries[i], material->record.name);
            bite_error_place(error, material->record.file, 0, 0);
            bite_error_key(error, "grade.%s:" BITE_OWN_PREFIX "%s", material->record.title, name);
            bite_error_hint(error, "state it with its unit and source");
            return BITE_BAD_FILE;
        }
    }
    return BITE_OK;
}

/* The slot of a figure in the cut; a new one if it has none. A figure that the grade does not state
 * has a slot, too: its number is NaN. BITE_OWN_FIGURES: there is no room. */
static size_t slot_of(const bite_library *library, const struct bite_plugin_own *own,
                      bite_material *material, bite_own_limits *to, const char *name)
{
    size_t slot = 0;
    while (slot < to->figure_count && strcmp(to->figures[slot].name, name) != 0) {
        slot++;
    }
    if (slot < to->figure_count || slot == BITE_OWN_FIGURES) {
        return slot;
    }
    const bite_field *field = bite_plugin_own_field(own, name);
    bite_input figure = *bite_input_entry(bite_input_count() + slot);
    figure.summary = field == NULL ? "a figure of the grade" : own->summaries[field - own->figures];
    field = field == NULL ? bite_plugin_field(library, name) : field;
    figure.name = field->name;
    figure.unit = bite_unit_si((bite_kind)field->kind);
    figure.kind = field->kind;
    figure.least = field->least;
    figure.most = field->most;
    to->figures[to->figure_count++] = figure;
    material->own_values[slot] = bite_item_field(&material->record, field->name);
    return slot;
}

static void define(const struct bite_family_limit *limit, bite_kind kind, bite_own_limit *to)
{
    bite_definition definition = {
        limit->name,   bite_unit_si(kind), limit->summary, limit->equation,
        limit->source, limit->remedy,      kind,           0};
    to->definition = definition;
    to->limit = limit;
    to->advisory = limit->advisory != 0;
    to->reserved = 0;
    to->number_count = 0;
}

bite_status bite_plugin_own_limits(const bite_library *library, const struct bite_plugin_own *own,
                                   bite_material *material, bite_error *error)
{
    bite_status status = check_needed(own, material, error);
    if (status != BITE_OK || own->limit_count == 0) {
        return status;
    }
    bite_own_limits *made = bite_arena_alloc(library->arena, 1, sizeof *made);
    if (made == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for the limits of a plugin");
    }
    memset(made, 0, sizeof *made);
    for (size_t i = 0; i < own->limit_count; i++) {
        const char *const *names = own->limits[i].numbers;
        bite_own_limit *limit = &made->limits[made->limit_count++];
        define(&own->limits[i], own->kinds[i], limit);
        for (size_t k = 0; names != NULL && names[k] != NULL; k++) {
            bite_own_number *number = &limit->numbers[limit->number_count++];
            if (find_number(names[k], number)) {
                continue;
            }
            size_t slot = slot_of(library, own, material, made, names[k]);
            if (slot == BITE_OWN_FIGURES) {
                bite_error_set(error, BITE_BAD_PLUGIN,
                               "the limits of the plugin read more than %d figures of a grade",
                               BITE_OWN_FIGURES);
                bite_error_place(error, material->plugin, 0, 0);
                return BITE_BAD_PLUGIN;
            }
            number->place = BITE_OWN_INPUT;
            number->index = made->figures[slot].offset;
        }
    }
    material->own = made;
    return BITE_OK;
}
