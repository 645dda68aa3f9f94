/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The services of the host: figures and words of a grade, numbers and words of a judged cut, and
 * what a plugin gives back. All that a plugin gives is checked here. */
#include "core/library/plugin_host.h"
#include "core/tables/provenance.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

static void note_reason(bite_plugin_host *host, const char *text)
{
    (void)bite_text_escape(text, host->reason, sizeof host->reason);
}

bite_text_fault bite_plugin_text_fault(const char *text)
{
    return bite_text_check(text, strlen(text), "", NULL);
}

static struct bite_figure host_figure(const struct bite_grade *grade, const char *key)
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

static const char *host_word(const struct bite_grade *grade, const char *key)
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

const bite_field *bite_plugin_field_in(const bite_field *fields, size_t count, const char *key)
{
    for (size_t i = 0; key != NULL && i < count; i++) {
        if (strcmp(fields[i].name, key) == 0) {
            return &fields[i];
        }
    }
    return NULL;
}

const bite_field *bite_plugin_field(const bite_library *library, const char *key)
{
    return bite_plugin_field_in(library->grade_fields, library->grade_field_count, key);
}

bite_field_value *bite_plugin_value(struct bite_grade *grade, const bite_field *field)
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
    char text[BITE_PLUGIN_REASON_MAX];
    (void)snprintf(text, sizeof text, "set %.60s: %s", key == NULL ? "(no key)" : key, why);
    note_reason(grade->host, text);
    return 1;
}

static int host_set(struct bite_grade *grade, const char *key, const struct bite_figure *figure,
                    const char *source)
{
    const bite_field *own = bite_plugin_field_in(grade->own, grade->own_count, key);
    const bite_field *field = own != NULL ? own : bite_plugin_field(grade->library, key);
    bite_source_grade graded = BITE_GRADE_NONE;
    const char *where = "";
    if (field == NULL || field->type != BITE_FIELD_FIGURE) {
        return refuse(grade, key, "a grade has no figure of that name");
    }
    if (figure == NULL || !(figure->low <= figure->value && figure->value <= figure->high)) {
        return refuse(grade, key,
                      "the band is not in the order low, value, high, or a figure is not a number");
    }
    if (!(figure->low >= field->least && figure->high <= field->most)) {
        return refuse(grade, key, "the figure is outside its possible range");
    }
    if (source == NULL || !bite_source_read(source, &graded, &where)) {
        return refuse(grade, key, "the source does not begin with a grade");
    }
    bite_text_fault fault = bite_plugin_text_fault(source);
    if (fault != BITE_TEXT_SOUND) {
        char why[100];
        (void)snprintf(why, sizeof why, "the source has %s", bite_text_fault_name(fault));
        return refuse(grade, key, why);
    }
    char *kept = bite_arena_text(grade->library->arena, source, strlen(source));
    bite_field_value *field_value = kept == NULL ? NULL : bite_plugin_value(grade, field);
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

static double host_number(const struct bite_case *judged, const char *name)
{
    return name == NULL ? (double)NAN : judged->view->number(judged->view->user, name);
}

static const char *host_choice(const struct bite_case *judged, const char *name)
{
    return name == NULL ? NULL : judged->view->choice(judged->view->user, name);
}

static int is_valid_name(const char *name)
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

#define CAUTION_MOST 1000 /* as long as a line of a table */

/* The fault of a caution; NULL: none. */
static const char *caution_fault(const char *name, enum bite_severity severity, const char *text,
                                 const char *source)
{
    bite_source_grade graded = BITE_GRADE_NONE;
    const char *where = "";
    if (!is_valid_name(name)) {
        return "its name may have only letters a to z, digits and _, fewer than 64";
    }
    if (severity < BITE_NOTE || severity > BITE_DANGER) {
        return "its severity is not note, care or danger";
    }
    if (text == NULL || source == NULL || !bite_source_read(source, &graded, &where)) {
        return "it has no text, or no source that begins with its grade";
    }
    if (strlen(text) > CAUTION_MOST || strlen(source) > CAUTION_MOST) {
        return "its text or its source is longer than 1000 bytes";
    }
    bite_text_fault fault = bite_plugin_text_fault(text);
    fault = fault == BITE_TEXT_SOUND ? bite_plugin_text_fault(source) : fault;
    return fault == BITE_TEXT_SOUND ? NULL : bite_text_fault_name(fault);
}

static int host_caution(struct bite_case *judged, const char *name, enum bite_severity severity,
                        const char *text, const char *source)
{
    const char *wrong = caution_fault(name, severity, text, source);
    if (wrong != NULL) {
        char why[BITE_PLUGIN_REASON_MAX];
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

static void host_reason(const struct bite_host *host, const char *text)
{
    note_reason((bite_plugin_host *)(uintptr_t)host, text);
}

bite_plugin_host bite_plugin_host_make(void)
{
    bite_plugin_host host = {{(uint32_t)sizeof(struct bite_host), BITE_FAMILY_ABI, host_figure,
                              host_word, host_set, host_number, host_choice, host_caution,
                              host_reason},
                             ""};
    return host;
}
