/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Material plugins: judged, opened once, asked through the host's services. */
#include "core/library/plugin.h"
#include "core/base/display_text.h"
#include "core/base/error.h"
#include "core/base/text.h"
#include "core/library/arena_list.h"
#include "core/library/caution_rule.h"
#include "core/library/library_internal.h"
#include "core/library/plugin_trust.h"
#include "core/names/registry.h"
#include "core/tables/provenance.h"
#include <dlfcn.h>
#include <math.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#define REASON_MOST 200

/* What the host hands to a plugin, with what it says back behind it. */
typedef struct own_host {
    struct bite_host host; /* first: reason() gets its address */
    char reason[REASON_MOST];
} own_host;

/* A grade while it is filled. */
struct bite_grade {
    own_host *host;
    const bite_library *library;
    bite_field_value *values;
    size_t count;
    size_t capacity;
    int no_memory;
};

/* A judged cut while it is asked about. */
struct bite_case {
    own_host *host;
    const bite_case_view *view;
    int no_memory;
    int malformed; /* a caution could not be taken: the reason is the host's */
};

static void note_reason(own_host *host, const char *text)
{
    (void)bite_text_escape(text, host->reason, sizeof host->reason);
}

/* A text of a plugin must be fit to be shown as it is: one line, and nothing that a terminal or a
 * reader would take for anything else. */
static bite_text_fault check_text(const char *text)
{
    return bite_text_check(text, strlen(text), "", NULL);
}

static struct bite_figure give_figure(const struct bite_grade *grade, const char *key)
{
    struct bite_figure figure = {(double)NAN, (double)NAN, (double)NAN};
    for (size_t i = 0; key != NULL && i < grade->count; i++) {
        if (grade->values[i].field->type == BITE_FIELD_FIGURE &&
            strcmp(grade->values[i].field->name, key) == 0) {
            figure.value = grade->values[i].value;
            figure.low = grade->values[i].low;
            figure.high = grade->values[i].high;
        }
    }
    return figure;
}

static const char *give_word(const struct bite_grade *grade, const char *key)
{
    for (size_t i = 0; key != NULL && i < grade->count; i++) {
        const bite_field_value *field_value = &grade->values[i];
        if (strcmp(field_value->field->name, key) == 0 &&
            field_value->field->type == BITE_FIELD_WORD) {
            return field_value->field->words[field_value->word];
        }
        if (strcmp(field_value->field->name, key) == 0 &&
            field_value->field->type == BITE_FIELD_TEXT) {
            return field_value->text;
        }
    }
    return NULL;
}

static const bite_field *field_named(const bite_library *library, const char *key)
{
    for (size_t i = 0; key != NULL && i < library->grade_field_count; i++) {
        if (strcmp(library->grade_fields[i].name, key) == 0) {
            return &library->grade_fields[i];
        }
    }
    return NULL;
}

static bite_field_value *cell_for(struct bite_grade *grade, const bite_field *field)
{
    for (size_t i = 0; i < grade->count; i++) {
        if (strcmp(grade->values[i].field->name, field->name) == 0) {
            return &grade->values[i];
        }
    }
    if (grade->count == grade->capacity) {
        return NULL;
    }
    return &grade->values[grade->count++];
}

static int refuse(struct bite_grade *grade, const char *key, const char *why)
{
    char text[REASON_MOST];
    (void)snprintf(text, sizeof text, "set %.60s: %s", key == NULL ? "(no key)" : key, why);
    note_reason(grade->host, text);
    return 1;
}

static int take_figure(struct bite_grade *grade, const char *key, const struct bite_figure *figure,
                       const char *source)
{
    const bite_field *field = field_named(grade->library, key);
    bite_source_grade graded = BITE_GRADE_NONE;
    const char *where = "";
    if (field == NULL || field->type != BITE_FIELD_FIGURE) {
        return refuse(grade, key, "no figure of that name is known");
    }
    if (figure == NULL || !(figure->low <= figure->value && figure->value <= figure->high)) {
        return refuse(grade, key, "the band is out of order, or a figure is no number");
    }
    if (!(figure->low >= field->least && figure->high <= field->most)) {
        return refuse(grade, key, "the figure lies outside what is possible");
    }
    if (source == NULL || !bite_source_read(source, &graded, &where)) {
        return refuse(grade, key, "the source has no grade");
    }
    bite_text_fault fault = check_text(source);
    if (fault != BITE_TEXT_SOUND) {
        char why[100];
        (void)snprintf(why, sizeof why, "the source has %s", bite_text_fault_name(fault));
        return refuse(grade, key, why);
    }
    char *kept = bite_arena_text(grade->library->arena, source, strlen(source));
    bite_field_value *field_value = kept == NULL ? NULL : cell_for(grade, field);
    if (field_value == NULL) {
        grade->no_memory = 1;
        return refuse(grade, key, "no memory");
    }
    bite_field_value fresh = {0};
    fresh.field = field;
    fresh.value = figure->value;
    fresh.low = figure->low;
    fresh.high = figure->high;
    fresh.text = "";
    fresh.source = kept;
    fresh.grade = graded;
    fresh.banded = figure->low < figure->high;
    *field_value = fresh;
    return 0;
}

static double give_number(const struct bite_case *judged, const char *name)
{
    return name == NULL ? (double)NAN : judged->view->number(judged->view->user, name);
}

static const char *give_choice(const struct bite_case *judged, const char *name)
{
    return name == NULL ? NULL : judged->view->choice(judged->view->user, name);
}

static int good_name(const char *name)
{
    size_t length = name == NULL ? 0 : strlen(name);
    for (size_t i = 0; i < length; i++) {
        char c = name[i];
        if (!((c >= 'a' && c <= 'z') || bite_text_is_digit(c) || c == '_')) {
            return 0;
        }
    }
    return length > 0 && length < 64;
}

#define CAUTION_MOST 1000 /* as much as a line of a table holds */

/* What is wrong with a caution; NULL: nothing. */
static const char *judge_caution(const char *name, enum bite_severity severity, const char *text,
                                 const char *source)
{
    bite_source_grade graded = BITE_GRADE_NONE;
    const char *where = "";
    if (!good_name(name)) {
        return "its name is not of [a-z0-9_]+";
    }
    if (severity < BITE_NOTE || severity > BITE_DANGER) {
        return "its severity is none";
    }
    if (text == NULL || source == NULL || !bite_source_read(source, &graded, &where)) {
        return "it has no text, or no source with its grade";
    }
    if (strlen(text) > CAUTION_MOST || strlen(source) > CAUTION_MOST) {
        return "its text or its source is longer than 1000 bytes";
    }
    bite_text_fault fault = check_text(text);
    fault = fault == BITE_TEXT_SOUND ? check_text(source) : fault;
    return fault == BITE_TEXT_SOUND ? NULL : bite_text_fault_name(fault);
}

static int take_caution(struct bite_case *judged, const char *name, enum bite_severity severity,
                        const char *text, const char *source)
{
    const char *wrong = judge_caution(name, severity, text, source);
    if (wrong != NULL) {
        char why[REASON_MOST];
        (void)snprintf(why, sizeof why, "caution %.60s: %s", name == NULL ? "(no name)" : name,
                       wrong);
        note_reason(judged->host, why);
        judged->malformed = 1;
        return 1;
    }
    if (!judged->view->caution(judged->view->user, name, (uint32_t)severity, text, source)) {
        judged->no_memory = 1;
        return 1;
    }
    return 0;
}

static void take_reason(const struct bite_host *host, const char *text)
{
    note_reason((own_host *)(uintptr_t)host, text);
}

static own_host make_host(void)
{
    own_host host = {{(uint32_t)sizeof(struct bite_host), BITE_FAMILY_ABI, give_figure, give_word,
                      take_figure, give_number, give_choice, take_caution, take_reason},
                     ""};
    return host;
}

/* Keeps why a family was left out, once, and hands it on. */
static bite_status leave_out(const bite_library *library, bite_family_state *family,
                             const char *path, bite_status status, const char *message,
                             const char *more, bite_error *error)
{
    if (message != NULL) {
        bite_error_set(&family->plugin_error, status, "%s%s", message, more);
        bite_error_place(&family->plugin_error, path, 0, 0);
        bite_error_hint(&family->plugin_error, "rebuild or remove the plugin");
    }
    family->tried = BITE_PLUGIN_REFUSED;
    family->plugin_status = status;
    if (!bite_library_add_left_out(library, family->name, family->plugin_error.file,
                                   &family->plugin_error)) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a plugin's reason");
    }
    if (error != NULL) {
        *error = family->plugin_error;
    }
    return status;
}

/* What is wrong with a descriptor; NULL: nothing. */
static const char *judge_family(const struct bite_family *descriptor, const char *name, char *text,
                                size_t size)
{
    if (descriptor == NULL) {
        return "its entry gives no family";
    }
    if (descriptor->abi != BITE_FAMILY_ABI) {
        (void)snprintf(text, size,
                       "it speaks version %u of the plugin interface; this library speaks %u",
                       descriptor->abi, BITE_FAMILY_ABI);
        return text;
    }
    if (descriptor->struct_size < sizeof *descriptor) {
        return "its descriptor is shorter than the interface says";
    }
    if (descriptor->name == NULL || strcmp(descriptor->name, name) != 0) {
        return "the family's name is not the file's";
    }
    if (descriptor->table == NULL || strchr(descriptor->table, '/') != NULL ||
        check_text(descriptor->table) != BITE_TEXT_SOUND) {
        return "its table is no plain file name";
    }
    return NULL;
}

static bite_status open_plugin(const bite_library *library, bite_family_state *family, char *real,
                               bite_error *error)
{
    /* Nobody else can exchange what the path leads to (plugin_trust.c). Never closed again: texts
     * and state of a plugin live until the process ends. */
    void *object = dlopen(real, RTLD_NOW | RTLD_LOCAL | RTLD_NODELETE);
    if (object == NULL) {
        const char *why = dlerror();
        return leave_out(library, family, real, BITE_BAD_PLUGIN,
                         "cannot be opened: ", why == NULL ? "" : why, error);
    }
    const struct bite_family *(*entry)(void) = NULL;
    void *symbol = dlsym(object, BITE_FAMILY_SYMBOL);
    if (symbol == NULL) {
        return leave_out(library, family, real, BITE_BAD_PLUGIN,
                         "it has no entry " BITE_FAMILY_SYMBOL, "", error);
    }
    memcpy(&entry, &symbol, sizeof entry);
    const struct bite_family *descriptor = entry();
    char text[120];
    const char *wrong = judge_family(descriptor, family->name, text, sizeof text);
    if (wrong != NULL) {
        return leave_out(library, family, real, BITE_BAD_PLUGIN, wrong, "", error);
    }
    own_host host = make_host();
    if (descriptor->check != NULL && descriptor->check(&host.host) != BITE_FAMILY_OK) {
        return leave_out(library, family, real, BITE_BAD_PLUGIN,
                         "it failed its own check: ", host.reason, error);
    }
    char *shown = bite_text_escaped(library->arena, real);
    if (shown == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a plugin's path");
    }
    family->plugin = descriptor;
    family->plugin_path = shown;
    family->tried = BITE_PLUGIN_GOOD;
    return BITE_OK;
}

bite_status bite_plugin_load(const bite_library *library, bite_family_state *family,
                             bite_error *error)
{
    if (family->tried == BITE_PLUGIN_REFUSED) {
        if (error != NULL) {
            *error = family->plugin_error;
        }
        return family->plugin_status;
    }
    if (family->tried != BITE_PLUGIN_UNTRIED) {
        return BITE_OK;
    }
    char file[96];
    (void)snprintf(file, sizeof file, "%s.so", family->name);
    for (size_t i = 0; i < library->families.count; i++) {
        char *path = bite_path_join(library->arena, library->families.folders[i], file);
        char *real = NULL;
        bite_error_clear(&family->plugin_error);
        family->plugin_error.struct_size = (uint32_t)sizeof family->plugin_error;
        bite_status status = path == NULL ? BITE_NO_MEMORY
                                          : bite_plugin_trust_check(library->arena, path, &real,
                                                                    &family->plugin_error);
        if (status == BITE_NO_MEMORY) {
            return bite_error_set(error, BITE_NO_MEMORY, "no memory for a plugin's path");
        }
        if (status == BITE_OK) {
            return open_plugin(library, family, real, error);
        }
        /* a link to nothing is a plugin that was meant to be there */
        char target[2];
        if (status != BITE_NOT_FOUND || readlink(path, target, sizeof target) >= 0) {
            return leave_out(library, family, path,
                             status == BITE_NOT_FOUND ? BITE_BAD_PLUGIN : status,
                             status == BITE_NOT_FOUND ? "is a link to nothing" : NULL, "", error);
        }
    }
    family->tried = BITE_PLUGIN_NONE;
    return BITE_OK;
}

/* Temperatures at which a plugin's property is sampled: where shops and chips are. K */
static const double samples[BITE_CURVE_POINTS] = {253.15, 273.15, 293.15, 313.15,
                                                  333.15, 353.15, 393.15, 453.15};

static bite_status sample_curve(const struct bite_family *plugin, own_host *host,
                                struct bite_grade *grade, const char *key, const char *property,
                                bite_error *error)
{
    const bite_field *field = field_named(grade->library, key);
    bite_curve curve = {0, 0, {0}, {0}};
    for (int i = 0; i < BITE_CURVE_POINTS; i++) {
        double value = (double)NAN;
        enum bite_family_status status =
            plugin->property(&host->host, grade, property, samples[i], &value);
        if (status == BITE_FAMILY_NO_DATA) {
            return BITE_OK;
        }
        if (status != BITE_FAMILY_OK || !(value >= field->least && value <= field->most)) {
            return bite_error_set(error, BITE_BAD_PLUGIN,
                                  "the plugin's %s is no possible figure: %s", property,
                                  host->reason);
        }
        curve.temperature[i] = samples[i];
        curve.value[i] = value;
        curve.count++;
    }
    for (size_t i = 0; i < grade->count; i++) {
        if (strcmp(grade->values[i].field->name, key) == 0) {
            return BITE_OK; /* the table's curve stands */
        }
    }
    bite_field_value *field_value = cell_for(grade, field);
    if (field_value == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a curve");
    }
    bite_field_value fresh = {0};
    fresh.field = field;
    fresh.value = fresh.low = fresh.high = (double)NAN;
    fresh.text = "";
    fresh.curve = curve;
    fresh.source = "estimate: sampled from the family's plugin";
    fresh.grade = BITE_GRADE_ESTIMATE;
    *field_value = fresh;
    return BITE_OK;
}

bite_status bite_plugin_fill(const bite_library *library, const struct bite_family *plugin,
                             bite_material *material, bite_error *error)
{
    own_host host = make_host();
    size_t capacity = material->record.value_count + library->grade_field_count;
    struct bite_grade grade = {&host,
                               library,
                               bite_arena_alloc(library->arena, capacity, sizeof(bite_field_value)),
                               material->record.value_count,
                               capacity,
                               0};
    if (grade.values == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory to fill a grade");
    }
    if (grade.count > 0) {
        memcpy(grade.values, material->record.values, grade.count * sizeof *grade.values);
    }
    bite_status status = BITE_OK;
    if (plugin->fill != NULL && plugin->fill(&host.host, &grade) == BITE_FAMILY_FAULT) {
        status = grade.no_memory ? BITE_NO_MEMORY : BITE_BAD_PLUGIN;
        bite_error_set(error, status, "the plugin cannot complete %.60s: %s", material->record.name,
                       host.reason);
    }
    if (status == BITE_OK && plugin->property != NULL) {
        status = sample_curve(plugin, &host, &grade, "heat_capacity.at", "heat_capacity", error);
        if (status == BITE_OK) {
            status = sample_curve(plugin, &host, &grade, "strength.at", "strength", error);
        }
    }
    if (status != BITE_OK) {
        bite_error_place(error, material->plugin, 0, 0);
        return status;
    }
    material->record.values = grade.values;
    material->record.value_count = grade.count;
    return BITE_OK;
}

bite_status bite_material_cautions(const bite_material *material, const bite_case_view *view,
                                   bite_error *error)
{
    for (size_t i = 0; i < material->rule_count; i++) {
        const bite_caution_rule *rule = &material->rules[i];
        int holds = 0;
        bite_status status = bite_caution_rule_applies(rule->when, view, &holds, error);
        if (status != BITE_OK) {
            return status;
        }
        if (holds &&
            !view->caution(view->user, rule->name, rule->severity, rule->text, rule->source)) {
            return bite_error_set(error, BITE_NO_MEMORY, "no memory for a caution");
        }
    }
    if (material->family == NULL || material->family->caution == NULL) {
        return BITE_OK;
    }
    own_host host = make_host();
    struct bite_case judged = {&host, view, 0, 0};
    enum bite_family_status answer = material->family->caution(&host.host, &judged);
    /* a caution that got lost is a fault, whether or not the plugin saw it */
    if (answer == BITE_FAMILY_FAULT || judged.malformed || judged.no_memory) {
        if (judged.no_memory) {
            return bite_error_set(error, BITE_NO_MEMORY, "no memory for a caution");
        }
        bite_error_set(error, BITE_BAD_PLUGIN, "the plugin failed over its cautions: %s",
                       host.reason);
        bite_error_place(error, material->plugin, 0, 0);
        return BITE_BAD_PLUGIN;
    }
    return BITE_OK;
}
