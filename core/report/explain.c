/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a value, limit or input means, from its definition alone. */
#include "core/base/error.h"
#include "core/cut/defaults.h"
#include "core/names/registry.h"
#include "core/report/json.h"
#include "core/report/text_page.h"
#include "core/tables/provenance.h"
#include "core/tables/typed_table.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

/* An input, a value or a limit in one common form. */
typedef struct explained_entry {
    const char *sort; /* "input", "value", "limit" */
    const char *name;
    const char *unit;
    const char *summary;
    const char *equation;
    const char *source;
    const char *helps;
    bite_kind kind;
    double least;
    double most;
    double default_value;
    const bite_input *input;
} explained_entry;

static bool find_entry(const char *name, explained_entry *out)
{
    uint32_t id = 0;
    uint32_t is_limit = 0;
    const bite_definition *definition = bite_registry_find(name, &id, &is_limit);
    const bite_input *input = bite_input_find(name);
    explained_entry none = {0};
    *out = none;
    out->least = out->most = out->default_value = (double)NAN;
    if (definition != NULL) {
        out->sort = is_limit ? "limit" : "value";
        out->name = definition->name;
        out->unit = definition->unit;
        out->summary = definition->summary;
        out->equation = definition->equation;
        out->source = definition->source;
        out->helps = definition->helps;
        out->kind = (bite_kind)definition->kind;
    }
    if (input != NULL) {
        out->sort = definition == NULL ? "input"
                    : is_limit         ? "limit; also an input"
                                       : "value; also an input";
        out->name = input->name;
        out->unit = input->unit;
        out->summary = definition == NULL ? input->summary : definition->summary;
        out->kind = (bite_kind)input->kind; /* the input's own kind, for its range */
        out->input = input;
        if (input->words == 0) {
            out->least = input->least;
            out->most = input->most;
            out->default_value = input->fallback;
        }
        if (out->source == NULL || out->source[0] == 0) {
            out->source = bite_defaults_source(input->name);
        }
    }
    out->equation = out->equation == NULL ? "" : out->equation;
    out->source = out->source == NULL ? "" : out->source;
    out->helps = out->helps == NULL ? "" : out->helps;
    return definition != NULL || input != NULL;
}

static void words_of(const bite_input *input, char *to, size_t size)
{
    to[0] = 0;
    for (uint32_t i = 0; i < input->words; i++) {
        size_t used = strlen(to);
        (void)snprintf(to + used, size - used, "%s%s", i > 0 ? ", " : "",
                       bite_input_word(input, i));
    }
}

static void part(bite_page *page, const char *title, const char *text)
{
    if (text[0] != 0) {
        char first[32];
        (void)snprintf(first, sizeof first, "  %-10s", title);
        bite_page_wrap(page, first, "            ", text);
    }
}

static void range(bite_page *page, const explained_entry *entry)
{
    char text[200];
    if (entry->input != NULL && entry->input->words > 0) {
        words_of(entry->input, text, sizeof text);
        part(page, "one of", text);
    } else if (!isnan(entry->least)) {
        char least[48];
        char most[48];
        char default_text[48];
        bite_page_quantity(page, entry->least, entry->kind, least, sizeof least);
        bite_page_quantity(page, entry->most, entry->kind, most, sizeof most);
        bite_page_quantity(page, entry->default_value, entry->kind, default_text,
                           sizeof default_text);
        (void)snprintf(text, sizeof text, "%s to %s%s%s", least, most,
                       isnan(entry->default_value) ? "" : "; default ",
                       isnan(entry->default_value) ? "" : default_text);
        part(page, "range", text);
    }
}

static bite_status write_json(const explained_entry *entry, bool compact, bite_sink sink,
                              void *user, bite_error *error)
{
    json_t *root = json_object();
    if (root == NULL) {
        return bite_json_write(NULL, compact, sink, user, error);
    }
    bite_source_grade grade = BITE_GRADE_NONE;
    const char *where = entry->source;
    (void)bite_source_read(entry->source, &grade, &where);
    int failed = bite_json_text(root, "name", entry->name);
    failed |= bite_json_text(root, "sort", entry->sort);
    failed |= bite_json_text(root, "unit", entry->unit);
    failed |= bite_json_text(root, "summary", entry->summary);
    failed |= bite_json_text(root, "equation", entry->equation);
    failed |= bite_json_text(root, "helps", entry->helps);
    failed |= bite_json_put(root, "least", bite_json_number(entry->least));
    failed |= bite_json_put(root, "most", bite_json_number(entry->most));
    failed |= bite_json_put(root, "usual", bite_json_number(entry->default_value));
    failed |= bite_json_text(root, "grade", bite_source_grade_name(grade));
    failed |= bite_json_text(root, "source", where);
    if (failed) {
        json_decref(root);
        root = NULL;
    }
    return bite_json_write(root, compact, sink, user, error);
}

bite_status bite_explain_write(const char *name, const bite_style *style, bite_sink sink,
                               void *user, bite_error *error)
{
    bite_error_clear(error);
    explained_entry entry;
    bite_page page;
    if (name == NULL) {
        return bite_error_set(error, BITE_BAD_ARGUMENT, "a name was expected");
    }
    if (!bite_page_open(&page, style, sink, user, error)) {
        return BITE_BAD_ARGUMENT;
    }
    if (!find_entry(name, &entry)) {
        const char *near = bite_registry_nearest(name);
        bite_error_set(error, BITE_UNKNOWN_NAME, "there is no input, value or limit named %.60s",
                       name);
        bite_error_key(error, "%.60s", name);
        bite_error_hint(error,
                        near == NULL ? "list limits, list values and list inputs show all names"
                                     : "did you mean %s?",
                        near);
        return BITE_UNKNOWN_NAME;
    }
    if (style != NULL && style->format == BITE_JSON) {
        return write_json(&entry, page.compact, sink, user, error);
    }
    char title[120];
    (void)snprintf(title, sizeof title, "%s (%s, %s)", entry.name, entry.sort,
                   entry.unit[0] == 0 ? "1" : entry.unit);
    bite_page_tint(&page, 4, title);
    bite_page_line(&page, "");
    part(&page, "meaning", entry.summary);
    part(&page, "equation", entry.equation);
    range(&page, &entry);
    part(&page, "remedy", entry.helps);
    part(&page, "source", entry.source);
    return bite_page_close(&page, error);
}
